"""The hazards of a netlist, and the inputs that show each: by all inputs, or by a SAT solver."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeVar

from edgewise.circuit.netlist import Netlist
from edgewise.circuit.truth import Logic
from edgewise.engines.dual_rail import DualRail, Rails
from edgewise.engines.hazards.transition import Transition, Transitions
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.bounded import smallest
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import Exhausted, Term, Terms
from edgewise.engines.symbolic.unrolling import Logic as Symbolic
from edgewise.engines.symbolic.unrolling import Rail
from edgewise.engines.symbolic.variables import Variable

B = TypeVar("B")
Kind = Literal["static-0", "static-1", "dynamic"]
KINDS: Final[tuple[Kind, ...]] = ("static-0", "static-1", "dynamic")
FEW: Final = 12
"""Inputs up to which all of them are gone through."""
_SECONDS: Final = 60.0
"""How long the solver may take for all hazards of one netlist."""


@dataclass(frozen=True, slots=True)
class Hazard:
    """A hazard of one net, and the smallest inputs that show it.

    Parameters
    ----------
    net : int
    kind : str
        Static at 0 or at 1, or dynamic.
    values : mapping of Variable to int
        All inputs, the one that changes as 0: the fewest ones, then the smallest value.
    changed : Variable
        The input that changes, from 0 to 1 or back.
    pairs : int, optional
        How many pairs of inputs that differ in one have it; None where that was not counted.
    """

    net: int
    kind: Kind
    values: Mapping[Variable, int]
    changed: Variable
    pairs: int | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """The hazards of some nets; `complete` unless time was up before all were settled."""

    hazards: tuple[Hazard, ...]
    complete: bool = True


def hazards(
    netlist: Netlist,
    inputs: Mapping[int, Variable | int],
    order: Sequence[Variable],
    ends: Sequence[int],
    *,
    few: int = FEW,
    only: Kind | None = None,
) -> Found:
    """The hazards of some nets while one input changes.

    Parameters
    ----------
    netlist : Netlist
        Without flip-flops.
    inputs : mapping of int to (Variable or bit)
        What each input net is.
    order : sequence of Variable
        All of them, the most significant first: what "smaller" goes by.
    ends : sequence of int
        Nets that are looked at.
    few : int
        Inputs up to which all are gone through; beyond, a solver looks for them.
    only : str, optional
        One kind of hazard; a solver then takes any inputs that show it, not the smallest.
    """
    kinds = KINDS if only is None else (only,)
    if len(order) <= few:
        return Found(tuple(_exhaustive(netlist, inputs, order, ends, kinds)))
    return _by_solver(netlist, inputs, order, ends, kinds, least=only is None)


def _settled(
    netlist: Netlist, inputs: Mapping[int, Transition[B]], logic: Logic[B]
) -> list[Transition[B]]:
    """Every net while an input changes."""
    machine = Machine(transitions := Transitions(logic))
    found = [transitions.constant(bit) for bit in (0, 1, 2, 1)]
    found += [transitions.constant(0)] * (netlist.size - len(found))
    for net, one in inputs.items():
        found[net] = one
    for gate in netlist.gates:
        found[gate.output] = machine.gate(gate.operator, [found[net] for net in gate.inputs])
    return found


def _shows(one: Transition[B], kind: Kind, logic: Logic[B]) -> B:
    """Whether it is a hazard of this kind."""
    if kind == "dynamic":
        return logic.all_of([one.dirty, logic.odd([one.start, one.end])])
    bits = (one.start, one.end)
    held = bits if kind == "static-1" else tuple(map(logic.bit_not, bits))
    return logic.all_of([one.dirty, *held])


# ---------------------------------------------------------------------- all inputs


def _exhaustive(
    netlist: Netlist,
    inputs: Mapping[int, Variable | int],
    order: Sequence[Variable],
    ends: Sequence[int],
    kinds: Sequence[Kind],
) -> Iterator[Hazard]:
    """All inputs at once, a bit of a whole number for each; one that changes after the other."""
    width = len(order)
    logic = DualRail((1 << (1 << width)) - 1)
    zero = logic.constant(0)
    # In lane k the first variable is the highest bit of k: a smaller lane is a smaller value.
    planes = [_plane(width - 1 - i, width) for i in range(width)]
    pairs: dict[tuple[int, Kind], int] = {}
    best: dict[tuple[int, Kind], tuple[int, int, int]] = {}
    for number, changed in enumerate(order):
        at = {}
        for net, what in inputs.items():
            if isinstance(what, Variable):
                ones = planes[order.index(what)]
                start: Rails = (ones, ones ^ logic.mask)
                end = logic.constant(1) if what == changed else start
                at[net] = Transition(start, end, zero)
            else:
                at[net] = Transitions(logic).constant(what)
        settled = _settled(netlist, at, logic)
        asked = planes[number] ^ logic.mask
        for net in dict.fromkeys(ends):
            for kind in kinds:
                lanes = _shows(settled[net], kind, logic)[0] & asked
                key = net, kind
                pairs[key] = pairs.get(key, 0) + lanes.bit_count()
                if lanes:
                    # The variable that changes is the last to be compared: a later one is smaller.
                    least = min((lane.bit_count(), lane, -number) for lane in _lanes(lanes))
                    best[key] = min(best.get(key, least), least)
    for (net, kind), (_, lane, number) in best.items():
        values = {one: lane >> (width - 1 - i) & 1 for i, one in enumerate(order)}
        yield Hazard(net, kind, values, order[-number], pairs[net, kind])


def _plane(bit: int, width: int) -> int:
    """In which of 2**width lanes this bit of the lane's number is 1."""
    block = ((1 << (1 << bit)) - 1) << (1 << bit)
    size = 2 << bit
    while size < 1 << width:
        block |= block << size
        size *= 2
    return block


def _lanes(lanes: int) -> Iterator[int]:
    while lanes:
        lowest = lanes & -lanes
        yield lowest.bit_length() - 1
        lanes ^= lowest


# ---------------------------------------------------------------------- a solver


def _by_solver(
    netlist: Netlist,
    inputs: Mapping[int, Variable | int],
    order: Sequence[Variable],
    ends: Sequence[int],
    kinds: Sequence[Kind],
    *,
    least: bool,
) -> Found:
    """With a variable more for each input, which says that it is the one that changes."""
    terms = Terms(time.monotonic() + _SECONDS)
    logic = Symbolic(terms)
    moving = {one: Variable(one.name, one.index, 0) for one in order}
    at: dict[int, Transition[Rail]] = {}
    for net, what in inputs.items():
        if isinstance(what, Variable):
            start, moves = terms.variable(what), terms.variable(moving[what])
            end = terms.either(start, moves)
            at[net] = Transition(Rail(start), Rail(end), logic.constant(0))
        else:
            at[net] = Transitions(logic).constant(what)
    found, complete = list[Hazard](), True
    try:
        settled = _settled(netlist, at, logic)
        one = _one_moves(terms, order, moving)
        for net in dict.fromkeys(ends):
            for kind in kinds:
                wrong = terms.both(one, _shows(settled[net], kind, logic).one)
                with Session(terms, terms.deadline) as session:
                    answer = session.ask(wrong)
                    if answer:
                        both = [*order, *moving.values()]
                        values, sure = _values(session, wrong, both, least=least)
                        changed = next(v for v in order if values.get(moving[v]))
                        known = {v: values.get(v, 0) for v in order}
                        found.append(Hazard(net, kind, known, changed))
                        complete &= sure
                    complete &= answer is not None
    except Exhausted:
        complete = False
    return Found(tuple(found), complete)


def _values(
    session: Session, wrong: Term, both: Sequence[Variable], *, least: bool
) -> tuple[Mapping[Variable, int], bool]:
    """Inputs that show a hazard, the smallest if wanted; and whether they are what was wanted."""
    if least:
        return smallest(session, wrong, both)
    terms = session.terms
    return session.bits({one: terms.variable(one) for one in both}), True


def _one_moves(terms: Terms, order: Sequence[Variable], moving: Mapping[Variable, Variable]) -> int:
    """Exactly one input changes, and it is 0 before."""
    moves = [terms.variable(moving[one]) for one in order]
    several = at_least(terms, moves, 2)
    zero = [
        terms.both(terms.variable(one), move) ^ 1 for one, move in zip(order, moves, strict=True)
    ]
    return terms.all_of([several[0], *(more ^ 1 for more in several[1:]), *zero])
