"""The one home of hypothesis strategies: bits, words, formulas, circuits, designs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final

from hypothesis import strategies as st

from edgewise.bits import Word, X
from edgewise.circuit.builder import Bits, Builder, as_kind, wires
from edgewise.circuit.gates import GATES
from edgewise.circuit.model import CLOCK, Circuit, Signal
from edgewise.design import Design, Feed, Operand, Phase
from edgewise.formula import Binary, Name, Node, Number, Select, Timed, Unary

Draw = Callable[[st.SearchStrategy[Any]], Any]

bits: Final = st.sampled_from((0, 1, X))
"""A bit: 0, 1 or X."""
known_bits: Final = st.sampled_from((0, 1))
"""A bit that is known."""


@st.composite
def words(draw: Draw, *, width: int | None = None, known: bool = False) -> Word:
    """Words of up to 12 bits, or of just this width."""
    size = draw(st.integers(0, 12)) if width is None else width
    some = known_bits if known else bits
    return Word.from_bits(draw(st.lists(some, min_size=size, max_size=size)))


# ---------------------------------------------------------------------- formulas


def numbers_of(names: Sequence[str]) -> st.SearchStrategy[Node]:
    """Formulas that stand for a number, over these names."""
    leaves: st.SearchStrategy[Node] = st.one_of(
        st.integers(0, 20).map(Number), st.sampled_from(names).map(Name)
    )

    def grown(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
        operators = st.sampled_from(("+", "-", "*", "div", "mod"))
        powers = st.builds(
            lambda base, exponent: Binary("**", base, Number(exponent)), inner, st.integers(0, 3)
        )
        calls = st.builds(
            lambda f, a, b: Name(f, (Select((a, b)),)),
            st.sampled_from(("min", "max")),
            inner,
            inner,
        )
        return st.one_of(
            st.builds(Binary, operators, inner, inner),
            st.builds(Unary, st.just("-"), inner),
            powers,
            calls,
        )

    return st.recursive(leaves, grown, max_leaves=12)


def truths_of(names: Sequence[str]) -> st.SearchStrategy[Node]:
    """Formulas that are true or false, over these names."""
    inner = numbers_of(names)
    comparisons = st.builds(
        Binary, st.sampled_from(("==", "!=", "<", "<=", ">", ">=")), inner, inner
    )

    def grown(truth: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
        return st.one_of(
            st.builds(Binary, st.sampled_from(("and", "or")), truth, truth),
            st.builds(Unary, st.just("not"), truth),
        )

    return st.recursive(comparisons, grown, max_leaves=5)


def timed_of(names: Sequence[str]) -> st.SearchStrategy[Node]:
    """Formulas of a lesson: ``what after when`` inside arithmetic."""
    inner = numbers_of(names)
    timed = st.builds(Timed, st.sampled_from(("after", "before")), inner, inner)
    return st.one_of(timed, st.builds(Binary, st.sampled_from(("+", "==")), timed, timed))


# ---------------------------------------------------------------------- circuits


class _Growing:
    """A circuit as it grows: each part is fed from what is there already.

    Only flip-flops are fed from later parts, so that there is no combinational loop.
    """

    def __init__(self, draw: Draw, depth: int) -> None:
        self.draw, self.depth = draw, depth
        self.b = Builder("grown")
        self.pool: list[Signal] = []
        self.count = 0

    def name(self) -> str:
        self.count += 1
        return f"P{self.count}"

    def add(self, signal: Signal) -> None:
        self.pool.extend((bit,) for bit in signal)

    def one(self) -> Bits:
        """One bit from what is there, or a constant."""
        return self.draw(st.one_of(st.sampled_from(self.pool), bits))  # type: ignore[no-any-return]

    def some(self, width: int) -> Signal:
        """A word made of bits from what is there."""
        picked = [self.draw(st.sampled_from(self.pool)) for _ in range(width)]
        return tuple(bit for signal in picked for bit in signal)

    def controls(self, *names: str) -> dict[str, Bits]:
        """Some of these ports, fed."""
        return {name: self.one() for name in names if self.draw(st.booleans())}

    def start(self, width: int) -> dict[str, int | str]:
        """Draw a start value or X."""
        return {"start": self.draw(st.one_of(st.just("X"), st.integers(0, (1 << width) - 1)))}

    # One method a family; each adds one part.

    def gate(self) -> None:
        kind = self.draw(st.sampled_from(GATES))
        single = kind in ("not", "buffer")
        fed = self.some(1 if single else self.draw(st.integers(2, 3)))
        self.add(self.b.part(self.name(), kind, {"in": fed})["out"])

    def constant(self) -> None:
        width = self.draw(st.integers(1, 3))
        value = self.draw(st.one_of(st.just("X"), st.integers(0, (1 << width) - 1)))
        settings = {"value": value, "width": width}
        self.add(self.b.part(self.name(), "constant", {}, settings)["out"])

    def multiplexer(self) -> None:
        choices, width = self.draw(st.integers(1, 2)), self.draw(st.integers(1, 2))
        fed: dict[str, Bits] = {f"d{i}": self.some(width) for i in range(1 << choices)}
        fed["select"] = self.some(choices)
        self.add(self.b.part(self.name(), "multiplexer", fed, {"width": width})["out"])

    def adder(self) -> None:
        kind = self.draw(st.sampled_from(("half-adder", "full-adder")))
        ports = ("a", "b") if kind == "half-adder" else ("a", "b", "carry-in")
        placed = self.b.part(self.name(), kind, {port: self.one() for port in ports})
        self.add((*placed["sum"], *placed["carry-out"]))

    def register(self) -> None:
        width = self.draw(st.integers(1, 3))
        fed = {"d": self.some(width), **self.controls("enable", "clear")}
        settings = {"width": width, **self.start(width)}
        self.add(self.b.part(self.name(), "register", fed, settings)["q"])

    def shift_register(self) -> None:
        width = self.draw(st.integers(1, 3))
        fed: dict[str, Bits] = {"in": self.one(), **self.controls("enable", "clear")}
        if self.draw(st.booleans()):
            fed |= {"load": self.one(), "d": self.some(width)}
        settings: dict[str, int | str] = {"width": width, **self.start(width)}
        if self.draw(st.booleans()):
            fed |= {"left": self.one(), "left-in": self.one()}
        else:
            settings["direction"] = self.draw(st.sampled_from(("left", "right")))
        placed = self.b.part(self.name(), "shift-register", fed, settings)
        self.add((*placed["q"], *placed["out"]))

    def counter(self) -> None:
        width = self.draw(st.integers(1, 3))
        fed = self.controls("enable", "clear")
        if self.draw(st.booleans()):
            fed |= {"load": self.one(), "d": self.some(width)}
        modulo = self.draw(st.one_of(st.just("full"), st.integers(2, 1 << width)))
        settings = {"width": width, "modulo": modulo, **self.start(width)}
        placed = self.b.part(self.name(), "counter", fed, settings)
        self.add((*placed["q"], *placed["terminal-count"]))

    def sub_circuit(self) -> None:
        inside = self.draw(circuits(depth=self.depth - 1, most=4))
        fed: dict[str, Bits] = {net.name: self.some(net.width) for net in inside.inputs}
        placed = self.b.part(self.name(), as_kind(inside), fed)
        for output in inside.outputs:
            self.add(placed[output.name])

    def grow(self, most: int) -> Circuit:
        for i in range(self.draw(st.integers(1, 3))):
            self.add(self.b.input(f"x{i}", self.draw(st.integers(1, 2))))
        held = [self.b.net(f"h{i}") for i in range(self.draw(st.integers(0, 2)))]
        for signal in held:
            self.add(signal)
        ways = [self.gate, self.multiplexer, self.adder, self.register, self.shift_register]
        ways += [self.counter, self.constant]
        ways += [self.sub_circuit] if self.depth else []
        for way in self.draw(st.lists(st.sampled_from(ways), min_size=1, max_size=most)):
            way()
        for signal in held:
            self.feedback(signal)
        for i in range(self.draw(st.integers(1, 3))):
            self.b.output(f"y{i}", self.some(self.draw(st.integers(1, 3))))
        return self.b.circuit()

    def feedback(self, q: Signal) -> None:
        """A flip-flop that drives a net declared before everything else."""
        fed: dict[str, Bits] = {"d": self.one(), "q": q, **self.controls("enable", "clear")}
        if self.draw(st.booleans()):
            through = (*wires(CLOCK, 1), *self.some(1))
            gate = self.b.part(self.name(), "and", {"in": through})
            fed["clock"] = gate["out"]
        self.b.part(self.name(), "flip-flop", fed, self.start(1))


@st.composite
def circuits(draw: Draw, *, depth: int = 1, most: int = 8) -> Circuit:
    """Well-formed circuits of all part types, with feedback through flip-flops.

    `depth` levels of circuits used as parts, `most` parts a level besides feedback.
    """
    return _Growing(draw, depth).grow(most)


# ---------------------------------------------------------------------- designs


@st.composite
def designs(draw: Draw, *, depth: int = 1) -> Design:
    """Checked designs: a circuit, operands, and a procedure of up to three phases."""
    circuit = draw(circuits(depth=depth))
    operands = tuple(
        Operand(f"w{i}", draw(st.integers(1, 4))) for i in range(draw(st.integers(0, 2)))
    )
    phases = []
    for number in range(draw(st.integers(1, 3))):
        feeds = tuple(draw(_feeds(net.name, net.width, operands)) for net in circuit.inputs)
        phases.append(Phase(f"p{number}", draw(st.integers(0, 4)), feeds))
    return Design("grown", circuit, {}, operands, tuple(phases)).check()


@st.composite
def _feeds(draw: Draw, name: str, width: int, operands: Sequence[Operand]) -> Feed:
    held: list[str | int | None] = [None, draw(st.integers(0, (1 << width) - 1))]
    held += [operand.name for operand in operands if operand.width == width]
    if width == 1 and operands and draw(st.booleans()):
        operand = draw(st.sampled_from(operands))
        return Feed(name, operand.name, draw(st.sampled_from(("lsb-first", "msb-first"))))
    return Feed(name, draw(st.sampled_from(held)))


@st.composite
def operands_of(draw: Draw, design: Design) -> dict[str, int]:
    """Operands in range for a design."""
    return {o.name: draw(st.integers(o.numbers[0], o.numbers[-1])) for o in design.operands}
