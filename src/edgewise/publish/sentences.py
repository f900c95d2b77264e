"""What happened at an edge, and why, in sentences made from the trace.

``web/sentences.js`` says the same for any run on a page; both are held to the same words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.bits import X
from edgewise.circuit.model import Part
from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.formula import show
from edgewise.trace import Trace

STORES: Final = ("flip-flop", "register", "shift-register", "counter")
_NO_NET: Final = -1


@dataclass(frozen=True, slots=True)
class Store:
    """What stores bits, for sentences.

    Parameters
    ----------
    name, kind : str
    q : tuple of int
        Net numbers, LSB first.
    takes : tuple of int
        Nets it stores when it neither loads nor shifts to the left: its ``d`` or ``in``.
    load, left : int
        Nets that choose; -1: not there.
    loads, left_in : tuple of int
        What is stored then.
    controls : tuple of int
        Enable, clear and clock gate of its flip-flops; -1: not there.
    """

    name: str
    kind: str
    q: tuple[int, ...]
    takes: tuple[int, ...]
    load: int
    left: int
    loads: tuple[int, ...]
    left_in: tuple[int, ...]
    controls: tuple[int, int, int]

    def data(self) -> list[Any]:
        """As plain lists."""
        return [
            self.name,
            self.kind,
            list(self.q),
            list(self.takes),
            self.load,
            self.left,
            list(self.loads),
            list(self.left_in),
            list(self.controls),
        ]


@dataclass(frozen=True, slots=True)
class Adder:
    """A single adder whose sum or carry goes straight into a store."""

    name: str
    a: int
    b: int
    carry_in: int
    """-1: a half adder."""
    carry_from: str
    """``stored`` where the carry comes from a flip-flop, else nothing."""
    sum: int
    carry: int

    def data(self) -> list[Any]:
        """As plain lists."""
        return [
            self.name,
            self.a,
            self.b,
            self.carry_in,
            self.carry_from,
            self.sum,
            self.carry,
        ]


def stores(design: Design) -> tuple[Store, ...]:
    """The storing parts of a design, as they stand in the circuit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [store.name for store in stores(catalogue.design("serial-adder"))]
    ['A', 'B', 'C', 'S']
    """
    return tuple(_store(design, p) for p in design.circuit.parts if p.kind.name in STORES)


def _store(design: Design, part: Part) -> Store:
    names = design.netlist.names

    def nets(*ports: str) -> tuple[int, ...]:
        return next((names[f"{part.name}.{p}"] for p in ports if part.signal(p)), ())

    def net(port: str) -> int:
        return nets(port)[0] if nets(port) else _NO_NET

    q = names[part.name]
    flip_flop = next(f for f in design.netlist.flip_flops if f.q == q[0])
    loads = nets("d") if net("load") != _NO_NET else ()
    controls = (flip_flop.enable, flip_flop.clear, flip_flop.gate)
    return Store(
        part.name,
        part.kind.name,
        q,
        nets("in", "d") if part.kind.name != "counter" else (),
        net("load"),
        net("left"),
        loads,
        nets("left-in"),
        tuple(_NO_NET if c is None else c for c in controls),  # type: ignore[arg-type]
    )


def adders(design: Design) -> tuple[Adder, ...]:
    """The adders whose results are stored."""
    stored = {net for store in stores(design) for net in store.takes}
    held = {flip_flop.q for flip_flop in design.netlist.flip_flops}
    names = design.netlist.names
    found = []
    for part in design.circuit.parts:
        if part.kind.name not in ("full-adder", "half-adder"):
            continue
        ports = {p.name: names[f"{part.name}.{p.name}"][0] for p in part.kind.ports}
        carry_in = ports.get("carry-in", _NO_NET)
        adder = Adder(
            part.name,
            ports["a"],
            ports["b"],
            carry_in,
            "stored" if carry_in in held else "",
            ports["sum"],
            ports["carry-out"],
        )
        if {adder.sum, adder.carry} & stored:
            found.append(adder)
    return tuple(found)


# ---------------------------------------------------------------------- sentences


def told(trace: Trace, row: int) -> str:
    """What happened at an edge, and why.

    Parameters
    ----------
    trace : Trace
    row : int
        0 tells the start; k, edge k.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    >>> told(trace, 8)  # doctest: +NORMALIZE_WHITESPACE
    'After edge 8, phase add: a=1, b=1 and the stored carry 0 add to 10: the sum bit 0 enters S,
    the carry 1 stays in C. X enters A and X enters B.'
    """
    return " ".join([*_head_and_acts(trace, row), *_results(trace, row)])


def _head_and_acts(trace: Trace, row: int) -> list[str]:
    design = trace.design
    kept = stores(design)
    if not trace.edges:
        return []
    if not row:
        values = ", ".join(f"{s.name} = {_word(trace.rows[0], s.q)}" for s in kept)
        return [f"At the start: {values}."]
    phase = design.phase_of(row)
    head = f"After edge {row}, phase {phase.name}:" if phase else f"After edge {row}:"
    acts = _acts(kept, adders(design), trace.rows[row - 1], trace.rows[row])
    return [head, *acts]


def _acts(
    kept: Sequence[Store], adding: Sequence[Adder], before: Sequence[int], after: Sequence[int]
) -> list[str]:
    does = {store.name: _action(store, before) for store in kept}
    said: list[str] = []
    told_of: set[str] = set()
    for adder in adding:
        text, names = _addition(adder, kept, does, before)
        if text:
            said.append(f"{adder.name}: {text}" if len(adding) > 1 else text)
            told_of |= names
    rest = [store for store in kept if store.name not in told_of]

    def doing(action: str) -> list[Store]:
        return [store for store in rest if does[store.name] == action]

    entering = [f"{_word(before, s.takes)} enters {s.name}" for s in doing("shift")]
    entering += [
        f"{_word(before, s.left_in)} enters {s.name} from the right" for s in doing("left")
    ]
    said += _sentence(entering)
    said += _sentence([f"{s.name} takes {_word(before, s.takes)}" for s in doing("take")])
    said += _sentence([f"{s.name} loads {_word(before, s.loads)}" for s in doing("load")])
    counted = [
        f"{s.name} counts from {_word(before, s.q)} to {_word(after, s.q)}" for s in doing("count")
    ]
    said += _sentence(counted)
    said += _together([s.name for s in doing("clear")], "is cleared", "are cleared")
    said += _together([s.name for s in doing("hold")], "holds", "hold")
    unsure = [s.name for s in doing("unsure")]
    if unsure:
        said.append(f"What {_and(unsure)} should do is unknown.")
    return said


def _action(store: Store, before: Sequence[int]) -> str:
    """What a store does at the edge that follows `before`."""
    enable, clear, gate = (before[net] if net >= 0 else None for net in store.controls)
    if gate == 0:
        return "hold"
    if X in (gate, clear):
        return "unsure"
    if clear == 1:
        return "clear"
    if enable == 0:
        return "hold"
    if enable == X:
        return "unsure"
    if store.load >= 0 and before[store.load]:
        return "load" if before[store.load] == 1 else "unsure"
    if store.left >= 0 and before[store.left]:
        return "left" if before[store.left] == 1 else "unsure"
    return {"shift-register": "shift", "counter": "count"}.get(store.kind, "take")


def _addition(
    adder: Adder, kept: Sequence[Store], does: dict[str, str], before: Sequence[int]
) -> tuple[str, set[str]]:
    def into(net: int) -> list[str]:
        taking = ("shift", "take")
        return [s.name for s in kept if s.takes == (net,) and does[s.name] in taking]

    sums, carries = into(adder.sum), into(adder.carry)
    if not sums and not carries:
        return "", set()
    bits = [before[adder.a], before[adder.b]]
    given = [f"a={_bit(bits[0])}", f"b={_bit(bits[1])}"]
    if adder.carry_in >= 0:
        bits.append(before[adder.carry_in])
        given.append(f"the {adder.carry_from or 'incoming'} carry {_bit(bits[2])}")
    total, carry = _bit(before[adder.sum]), _bit(before[adder.carry])
    result = "are not all known" if X in bits else f"add to {carry}{total}"
    goes = []
    if sums:
        goes.append(f"the sum bit {total} enters {_and(sums)}")
    if carries:
        goes.append(f"the carry {carry} stays in {_and(carries)}")
    return f"{_and(given)} {result}: {', '.join(goes)}.", {*sums, *carries}


def _results(trace: Trace, row: int) -> list[str]:
    """What stands at the outputs that are due in this row."""
    design, said = trace.design, []
    due = [p for p in design.computes if (trace.edges if p.after is None else p.after) == row]
    for purpose in due:
        word = trace.bits(design.netlist.outputs[purpose.output], row)
        text = f"{purpose.output} reads {word}"
        formula = show(purpose.formula)
        try:
            wanted = design.expected(trace.operands)[purpose.output]
        except EdgewiseError:
            said.append(f"{text}.")
            continue
        if not word.known:
            said.append(f"{text}, not all of it known; {formula} is {wanted}.")
        elif word.value == wanted:
            number = f", which is {wanted}" if word.width > 1 else ""
            said.append(f"{text}{number} = {formula}.")
        else:
            said.append(f"{text}, which is {word.value}; {formula} is {wanted}.")
    return said


# ---------------------------------------------------------------------- words


def _bit(bit: int) -> str:
    return "01X"[bit]


def _word(row: Sequence[int], nets: Sequence[int]) -> str:
    return "".join("01X"[row[net]] for net in reversed(nets))


def _and(names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _sentence(clauses: Sequence[str]) -> list[str]:
    return [f"{_and(clauses)}."] if clauses else []


def _together(names: Sequence[str], one: str, many: str) -> list[str]:
    return [f"{_and(names)} {one if len(names) == 1 else many}."] if names else []
