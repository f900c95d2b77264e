"""What a part gives where bits are unknown, by trying every completion of them.

The rule is the definition of a completion (S. C. Kleene, *Introduction to Metamathematics*, 1952,
§ 64: known where the known arguments alone decide it), applied to each part as a whole: an X at an
input, or in the state, may be 0 or 1 whatever the others are; where all completions agree, that is
the result, else X. What the parts do is written down here once more, from textbook definitions
(common practice, no source), and nothing of ``src/`` takes part in the evaluation.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Final, TypeAlias

import pytest

from edgewise.circuit.builder import Bits, Builder, wires
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Wire
from edgewise.circuit.parts import registry
from edgewise.engines import reference
from edgewise.engines.run_loop import Machine
from edgewise.engines.symbolic.terms import Terms
from edgewise.engines.symbolic.unrolling import Logic, constant
from edgewise.publish.stage import design_data
from tests.outside.unknown import completed
from tests.web.workshop import load

if TYPE_CHECKING:
    from playwright.sync_api import Page

X: Final = 2
Function: TypeAlias = Callable[..., tuple[int, ...]]
"""From the bits of the inputs, then of the state, to those of the outputs and the next state."""


@dataclass(frozen=True)
class Case:
    """A part with its ports fed, and what it does by definition.

    Parameters
    ----------
    part : str
    ports : tuple of (str, int)
        Inputs with their widths, as the function takes them.
    outputs : tuple of (str, int)
        As the function gives them; ``q`` is left out: it is the state.
    state : int
        Stored bits.
    does : function
    settings : mapping
    """

    part: str
    ports: tuple[tuple[str, int], ...]
    outputs: tuple[tuple[str, int], ...]
    state: int
    does: Function
    settings: Mapping[str, int | str]

    @property
    def label(self) -> str:
        """For a test's name."""
        ports = ",".join(name for name, _ in self.ports)
        return f"{self.part}({ports}){dict(self.settings) or ''}"


def majority(a: int, b: int, c: int) -> int:
    """1 if two of three are."""
    return int(a + b + c > 1)


GATES: Final[Mapping[str, Callable[..., int]]] = {
    "and": lambda *bits: int(all(bits)),
    "or": lambda *bits: int(any(bits)),
    "xor": lambda *bits: sum(bits) % 2,
    "nand": lambda *bits: int(not all(bits)),
    "nor": lambda *bits: int(not any(bits)),
    "xnor": lambda *bits: 1 - sum(bits) % 2,
    "not": lambda bit: 1 - bit,
    "buffer": lambda bit: bit,
}


def gates() -> Iterator[Case]:
    """Every gate, with 2 and 3 inputs where it takes several."""
    for name, function in GATES.items():
        for width in (1,) if name in ("not", "buffer") else (2, 3):
            yield Case(
                name,
                (("in", width),),
                (("out", 1),),
                0,
                lambda *bits, function=function: (function(*bits),),
                {},
            )


def adders() -> Iterator[Case]:
    """Half and full adder."""
    half, full = (("a", 1), ("b", 1)), (("a", 1), ("b", 1), ("carry-in", 1))
    outs = (("sum", 1), ("carry-out", 1))
    for name, ports in (("half-adder", half), ("full-adder", full)):
        yield Case(name, ports, outs, 0, lambda *bits: (sum(bits) % 2, sum(bits) // 2), {})


def multiplexers() -> Iterator[Case]:
    """2, 4 and 8 to 1, and words of 2 bits."""
    for selects, width in ((1, 1), (2, 1), (3, 1), (1, 2), (2, 2)):
        ports = (*((f"d{i}", width) for i in range(1 << selects)), ("select", selects))

        def does(*bits: int, selects: int = selects, width: int = width) -> tuple[int, ...]:
            chosen = sum(bit << i for i, bit in enumerate(bits[-selects:]))
            return bits[chosen * width : (chosen + 1) * width]

        yield Case("multiplexer", ports, (("out", width),), 0, does, {"width": width})


def some_of(names: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Every choice of these names."""
    for chosen in product((False, True), repeat=len(names)):
        yield tuple(name for name, used in zip(names, chosen, strict=True) if used)


def storing() -> Iterator[Case]:
    """Everything that stores, with every choice of its optional ports."""
    for used in some_of(("clear", "enable")):
        yield stored("flip-flop", used, 1, {})
        yield stored("jk-flip-flop", used, 1, {})
        yield stored("t-flip-flop", used, 1, {})
        yield stored("register", used, 2, {"width": 2})
    for used in some_of(("clear", "load", "enable")):
        for width in (1, 2, 3):
            for direction in ("right", "left"):
                yield stored(
                    "shift-register", used, width, {"width": width, "direction": direction}
                )
            yield stored("shift-register", (*used, "left"), width, {"width": width})
            for modulo in ("full", *range(2, (1 << width) + 1)):
                yield stored("counter", used, width, {"width": width, "modulo": modulo})


def stored(part: str, used: Sequence[str], width: int, settings: Mapping[str, int | str]) -> Case:
    """A storage element: its next state is told by its ports, the order clear, load, enable."""
    ports: list[tuple[str, int]] = [(name, 1) for name in used]
    ports += [(name, 1) for name in {"jk-flip-flop": "jk", "t-flip-flop": "t"}.get(part, "")]
    if part in ("flip-flop", "register") or "load" in used:
        ports.append(("d", width))
    if part == "shift-register":
        ports += [("in", 1)] + ([("left-in", 1)] if "left" in used else [])
    outputs = {"shift-register": (("out", 1),), "counter": (("terminal-count", 1),)}.get(part, ())

    def does(*bits: int) -> tuple[int, ...]:
        at, where = {}, 0
        for name, size in ports:
            at[name] = bits[where : where + size]
            where += size
        state = bits[where:]
        control = {name: at[name][0] for name in used}
        shown = output(part, state, control, settings)
        if control.get("clear"):
            return (*shown, *(0,) * width)
        if control.get("load"):
            return (*shown, *at["d"])
        if not control.get("enable", 1):
            return (*shown, *state)
        return (*shown, *onward(part, state, at, control, settings))

    return Case(part, tuple(ports), outputs, width, does, settings)


def value_of(bits: Sequence[int]) -> int:
    """A number, LSB first."""
    return sum(bit << i for i, bit in enumerate(bits))


def last_state(settings: Mapping[str, int | str]) -> int:
    """The last state of a counter."""
    modulo = settings["modulo"]
    return (modulo if isinstance(modulo, int) else 1 << int(settings["width"])) - 1


def output(
    part: str, state: Sequence[int], control: Mapping[str, int], settings: Mapping[str, int | str]
) -> tuple[int, ...]:
    """What a storage element shows beside q."""
    if part == "shift-register":
        return (state[-1] if settings.get("direction") == "left" else state[0],)
    if part == "counter":
        return (int(value_of(state) == last_state(settings) and control.get("enable", 1) == 1),)
    return ()


def onward(
    part: str,
    state: Sequence[int],
    at: Mapping[str, Sequence[int]],
    control: Mapping[str, int],
    settings: Mapping[str, int | str],
) -> Sequence[int]:
    """The next state of an enabled part that is neither cleared nor loaded."""
    if part == "counter":
        value = value_of(state)
        # A state beyond the last, in which only a load or an unknown start puts it, counts on.
        following = 0 if value == last_state(settings) else value + 1
        return [following >> i & 1 for i in range(len(state))]
    if part == "jk-flip-flop":  # the characteristic equations of Mano and Ciletti, sec. 5.4
        return [int((at["j"][0] and not state[0]) or (not at["k"][0] and state[0]))]
    if part == "t-flip-flop":
        return [at["t"][0] ^ state[0]]
    if part == "shift-register":
        if control.get("left"):
            return (*at["left-in"], *state[:-1])
        if settings.get("direction") == "left":
            return (*at["in"], *state[:-1])
        return (*state[1:], *at["in"])
    return at["d"]


CASES: Final = [*gates(), *adders(), *multiplexers(), *storing()]


ONLY_IN_TIME: Final = {
    "sr-latch",
    "sr-latch-nand",
    "gated-sr-latch",
    "d-latch",
    "master-slave-flip-flop",
    "jk-master-slave",
    "six-nand-flip-flop",
}
"""Made of gates in loops: `test_latches` has their tables."""


def test_every_part_of_the_house_is_tried() -> None:
    assert {case.part for case in CASES} | {"constant"} | ONLY_IN_TIME == set(registry())


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.label)
def test_each_part_is_decided_by_its_truth_table(case: Case) -> None:
    """Every input and every state of 0, 1 and X: 3 to the power of their number."""
    b = Builder("one part")
    fed: dict[str, Bits] = {name: b.input(name, width) for name, width in case.ports}
    placed = b.part("P", case.part, fed, case.settings)
    for name, _ in case.outputs:
        b.output(name, placed[name])
    if case.state:
        b.output("q", placed["q"])
    netlist = flatten(b.circuit())
    order = [
        netlist.flip_flops.index(f)
        for q in netlist.outputs.get("q", ())
        for f in netlist.flip_flops
        if f.q == q
    ]
    size = sum(width for _, width in case.ports) + case.state
    every = product((0, 1, X), repeat=size)
    chance = random.Random(5)  # noqa: S311  # cases, no secrets
    tried = (
        every
        if size <= 8
        else ([chance.choice((0, 1, X)) for _ in range(size)] for _ in range(2000))
    )
    for bits in tried:
        at, inputs = 0, {}
        for name, width in case.ports:
            inputs[name] = bits[at : at + width]
            at += width
        held = [0] * case.state
        for position, number in enumerate(order):
            held[number] = bits[at + position]
        row = reference.settle(netlist, held, inputs)
        found = [row[net] for name, _ in case.outputs for net in netlist.outputs[name]]
        found += [reference.next_bit(netlist.flip_flops[number], row) for number in order]
        assert found == completed(case.does, bits), (inputs, bits[at:])


def test_between_parts_nothing_is_remembered() -> None:
    """F AND NOT F, of two parts, stays X, though no completion of F makes it 1."""
    b = Builder("two gates")
    f = b.input("f")
    other = b.part("N", "not", {"in": f})["out"]
    b.output("never", b.part("A", "and", {"in": (*f, *other)})["out"])
    netlist = flatten(b.circuit())
    row = reference.settle(netlist, [], {"f": [X]})
    assert row[netlist.outputs["never"][0]] == X


# ---------------------------------------------------------------------- whole circuits


@dataclass(frozen=True)
class Placed:
    """A part of a circuit: where each of its input bits comes from."""

    case: Case
    sources: tuple[int, ...]
    """Positions in the list of all bits: inputs, states, then outputs in the order of parts."""
    state: int
    """Position of its first stored bit."""
    start: tuple[int, ...]


@dataclass(frozen=True)
class Grown:
    """A random circuit: so many input bits, so many stored bits, then parts in order."""

    inputs: int
    states: int
    parts: tuple[Placed, ...]


SMALL: Final = [case for case in CASES if sum(w for _, w in case.ports) + case.state <= 7]


def grown(size: int, chance: random.Random) -> Grown:
    """A circuit of `size` parts, each fed from inputs, states and parts before it.

    One part in eight stores; feedback goes through those only. Most bits are taken from nearby,
    so that the circuit is deep.
    """
    cases = [
        chance.choice([case for case in SMALL if bool(case.state) == (chance.random() < 1 / 8)])
        for _ in range(size)
    ]
    inputs = max(4, size // 50)
    states = sum(case.state for case in cases)
    at, known, parts = inputs, inputs + states, []
    for case in cases:
        sources = tuple(
            chance.randrange(known)
            if chance.random() < 0.5
            else chance.randrange(max(0, known - 40), known)
            for _ in range(sum(width for _, width in case.ports))
        )
        start = tuple(chance.choice((0, 1, X)) for _ in range(case.state))
        if case.part != "flip-flop" and X in start:
            start = (X,) * case.state  # a word starts at a number, or unknown as a whole
        parts.append(Placed(case, sources, at, start))
        at += case.state
        known += sum(width for _, width in case.outputs)
    return Grown(inputs, states, tuple(parts))


def built(of: Grown) -> tuple[Builder, list[tuple[str, int]]]:
    """The circuit, and the net and index of each bit."""
    b = Builder("grown")
    b.input("x", of.inputs)
    bits = [("x", i) for i in range(of.inputs)]
    for number, placed in enumerate(of.parts):
        if placed.case.state:
            b.net(f"s{number}", placed.case.state)
            bits += [(f"s{number}", i) for i in range(placed.case.state)]
    for number, placed in enumerate(of.parts):
        fed: dict[str, Bits] = {}
        at = 0
        for name, width in placed.case.ports:
            fed[name] = tuple(Wire(*bits[source]) for source in placed.sources[at : at + width])
            at += width
        settings = dict(placed.case.settings)
        if placed.case.state:
            fed["q"] = wires(f"s{number}", placed.case.state)
            settings["start"] = "X" if X in placed.start else value_of(placed.start)
        b.part(f"P{number}", placed.case.part, fed, settings)
        bits += [(f"P{number}.{name}", i) for name, w in placed.case.outputs for i in range(w)]
    b.output("y", wires(*bits[-1][:1], 1))
    return b, bits


MET: dict[tuple[int, tuple[int, ...]], list[int]] = {}
"""What parts were found to give."""


def evaluated(of: Grown, words: Sequence[Sequence[int]]) -> list[list[int]]:
    """All bits in every row, part by part."""
    held = [bit for placed in of.parts for bit in placed.start]
    rows = []
    for word in words:
        row, following = [*word, *held], list(held)
        for placed in of.parts:
            case, first = placed.case, placed.state - of.inputs
            bits = (
                *(row[source] for source in placed.sources),
                *held[first : first + case.state],
            )
            key = (id(case), bits)
            if key not in MET:
                MET[key] = completed(case.does, bits)
            shown = sum(width for _, width in case.outputs)
            row += MET[key][:shown]
            following[first : first + case.state] = MET[key][shown:]
        rows.append(row)
        held = following
    return rows


@pytest.mark.parametrize("size", [100, 300, 1000, 3000, 10_000])
def test_generated_circuits(size: int) -> None:
    """The reference engine and the unrolled run, against the evaluation above."""
    chance = random.Random(size)  # noqa: S311  # cases, no secrets
    of = grown(size, chance)
    edges = 5
    words = [[chance.choice((0, 0, 1, 1, X)) for _ in range(of.inputs)] for _ in range(edges + 1)]
    b, bits = built(of)
    netlist = flatten(b.circuit())
    nets = [netlist.names[name][index] for name, index in bits]
    expected = evaluated(of, words)
    assert any(X in row for row in expected)
    held = [f.start for f in netlist.flip_flops]
    machine = Machine(Logic(Terms()))
    rails = [constant(f.start) for f in netlist.flip_flops]
    for number, word in enumerate(words):
        row = reference.settle(netlist, held, {"x": word})
        assert [row[net] for net in nets] == expected[number], number
        held = [reference.next_bit(f, row) for f in netlist.flip_flops]
        symbols = machine.settle(netlist, rails, {"x": [constant(bit) for bit in word]})
        assert [symbols[net] for net in nets] == [constant(bit) for bit in expected[number]]
        rails = machine.edge(netlist)(symbols)


PLAY: Final = """\
([flat, words]) => {
  let stored = flat.flipFlops.map((flipFlop) => flipFlop[5]);
  return words.map((word) => {
    const row = simulator.settle(flat, stored, word);
    stored = simulator.nextStored(flat, row);
    return [...row];
  });
}
"""


@pytest.mark.parametrize("size", [100, 1000])
def test_generated_circuits_on_the_page(page: Page, size: int) -> None:
    """The page's own simulator, in Chromium."""
    chance = random.Random(size + 1)  # noqa: S311  # cases, no secrets
    of = grown(size, chance)
    words = [[chance.choice((0, 1, X)) for _ in range(of.inputs)] for _ in range(6)]
    b, bits = built(of)
    netlist = flatten(b.circuit())
    nets = [netlist.names[name][index] for name, index in bits]
    load(page, "simulator")
    found = page.evaluate(PLAY, [design_data.flat(netlist), words])
    assert [[row[net] for net in nets] for row in found] == evaluated(of, words)
