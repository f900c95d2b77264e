"""Gates that take a hazard away: terms that hold an output while an input changes.

Where an output stays 1 while an input changes, an AND of inputs that stay 1 with it, one more input
of an OR behind the output, holds it: the consensus term of a Karnaugh map. Where it stays 0, an OR
in front of an AND. The terms are prime implicants of what the output computes (or of its
complement), found from the inputs that show the hazard; what is added is proved to change nothing
and to leave no such hazard.
"""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from edgewise.circuit.netlist import Gate, Netlist
from edgewise.engines.hazards.search import Hazard, hazards
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Exhausted, Term, Terms
from edgewise.engines.symbolic.unrolling import Logic, Rail, constant
from edgewise.engines.symbolic.variables import Variable

MOST_TERMS: Final = 8
"""Added gates for one output, at most."""
_SECONDS: Final = 10.0
Kind = Literal["static-0", "static-1"]


@dataclass(frozen=True, slots=True)
class AddedGate:
    """An AND (for an output that stays 1) or an OR (for one that stays 0) of some inputs.

    `literals` are the inputs, each with the bit that it has while the output is held.
    """

    kind: Kind
    literals: tuple[tuple[Variable, int], ...]


@dataclass(frozen=True, slots=True)
class Question:
    """A netlist, its inputs, and the output in question."""

    netlist: Netlist
    inputs: Mapping[int, Variable | int]
    order: Sequence[Variable]
    net: int


@dataclass(frozen=True, slots=True)
class Remedy:
    """Gates to add; `whole` if they take all hazards of a kind away from an output.

    Otherwise there is one, which takes it away for the inputs that were shown, or none.
    """

    gates: tuple[AddedGate, ...] = ()
    whole: bool = False


def remedy(asked: Question, hazard: Hazard) -> Remedy:
    """The gates that take the hazards of one kind away from an output, proved.

    Examples
    --------
    The textbook's: f = a and b, or not a and c, glitches while a changes and b = c = 1.

    >>> from edgewise import blueprint
    >>> text = '''
    ... circuit: choice
    ... inputs: {a: 1, b: 1, c: 1}
    ... parts:
    ...   N: {part: not, in: a}
    ...   P: {part: and, in: [a, b]}
    ...   Q: {part: and, in: [N.out, c]}
    ...   F: {part: or, in: [P.out, Q.out]}
    ... outputs: {f: F.out}
    ... operands: {a: 1, b: 1, c: 1}
    ... '''
    >>> netlist = blueprint.from_text(text, "choice.yaml").design().netlist
    >>> order = [Variable(name, 0) for name in "abc"]
    >>> inputs = {netlist.inputs[one.name][0]: one for one in order}
    >>> asked = Question(netlist, inputs, order, netlist.outputs["f"][0])
    >>> (hazard,) = hazards(netlist, inputs, order, [asked.net]).hazards
    >>> (gate,) = remedy(asked, hazard).gates
    >>> gate.kind, [(literal.name, bit) for literal, bit in gate.literals]
    ('static-1', [('b', 1), ('c', 1)])
    """
    if hazard.kind == "dynamic":
        return Remedy()
    terms = Terms(time.monotonic() + _SECONDS)
    added = list[AddedGate]()
    try:
        with Session(terms, terms.deadline) as session:
            whole = _hold(session, asked, hazard, hazard.kind, added)
    except Exhausted:
        whole = False
    return Remedy(tuple(added if whole else added[:1]), whole)


def _hold(
    session: Session, asked: Question, hazard: Hazard, kind: Kind, added: list[AddedGate]
) -> bool:
    """Add gate after gate until no hazard is left; whether that came to an end, proved."""
    low, terms = int(kind == "static-0"), session.terms
    wanted = _of(terms, asked.netlist, asked.inputs)[asked.net] ^ low
    netlist, net, left = asked.netlist, asked.net, [hazard]
    while left:
        gate = _prime(session, wanted, left[0], kind)
        if gate is None or len(added) == MOST_TERMS:
            return False
        added.append(gate)
        netlist, net = _with(netlist, net, asked.inputs, gate)
        found = hazards(netlist, asked.inputs, asked.order, [net], only=kind)
        if not found.complete:
            return False
        left = list(found.hazards)
    same = _of(terms, netlist, asked.inputs)[net] ^ low
    return session.ask(terms.differ(wanted, same)) is False


def _prime(session: Session, wanted: Term, hazard: Hazard, kind: Kind) -> AddedGate | None:
    """As few as can be of the inputs that stay, one left out after the other."""
    terms = session.terms
    kept = {one: bit for one, bit in hazard.values.items() if one != hazard.changed}

    def implies(literals: Mapping[Variable, int]) -> bool:
        cube = [terms.variable(one) ^ 1 ^ bit for one, bit in literals.items()]
        return session.ask(terms.both(terms.all_of(cube), wanted ^ 1)) is False

    if not implies(kept):
        return None
    for one in tuple(kept):
        less = {other: bit for other, bit in kept.items() if other != one}
        if implies(less):
            kept = less
    return AddedGate(kind, tuple(kept.items()))


def _of(terms: Terms, netlist: Netlist, inputs: Mapping[int, Variable | int]) -> list[Term]:
    """Every net as a term."""
    machine = Machine(Logic(terms))
    rails = [constant(min(bit, 1)) for bit in (0, 1, 0, 1)]
    rails += [constant(0)] * (netlist.size - len(rails))
    for net, what in inputs.items():
        variable = isinstance(what, Variable)
        rails[net] = Rail(terms.variable(what)) if variable else constant(what)  # type: ignore[arg-type]
    for gate in netlist.gates:
        rails[gate.output] = machine.gate(gate.operator, [rails[net] for net in gate.inputs])
    return [rail.one for rail in rails]


def _with(
    netlist: Netlist, net: int, inputs: Mapping[int, Variable | int], added: AddedGate
) -> tuple[Netlist, int]:
    """A netlist with the gate added behind an output, and the new output."""
    nets = {what: net for net, what in inputs.items() if isinstance(what, Variable)}
    gates, size, read = list(netlist.gates), netlist.size, list[int]()
    straight = int(added.kind == "static-1")
    for one, bit in added.literals:
        if bit == straight:
            read.append(nets[one])
            continue
        gates.append(Gate("not", (nets[one],), size, ""))
        read.append(size)
        size += 1
    if len(read) > 1:
        gates.append(Gate("and" if straight else "or", tuple(read), size, ""))
        read = [size]
        size += 1
    gates.append(Gate("or" if straight else "and", (net, *read), size, ""))
    return replace(netlist, size=size + 1, gates=tuple(gates)), size
