"""How late a netlist settles, settled by a SAT solver: its true delay.

A critical path may be a *false* one: whatever the inputs, every net has settled before a change
could come along it. What was there before is unknown (X); the *true
delay* is the last moment at which some inputs leave an end unknown.

This is the floating mode of P. McGeer and R. Brayton, *Integrating Functional and Temporal Domains
in Logic Design*, 1991 (from memory): nothing changes later, whatever stood before and though each
delay may be shorter. Two sets of inputs, one after the other, may all settle sooner; `last_change`
looks for two that don't.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.bits import X
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.circuit.truth import KLEENE
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.moments import ALWAYS, Course, Moments, arrivals
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Exhausted, Terms
from edgewise.engines.symbolic.variables import Variable


@dataclass(frozen=True, slots=True)
class Effort:
    """How much may be spent on one netlist; counted, so that the answer is the same everywhere.

    Parameters
    ----------
    terms : int
        Nodes of the graph of terms.
    conflicts : int
        How often the solver may turn back for one question.
    """

    terms: int = 400_000
    conflicts: int = 50_000


USUAL: Final = Effort()
"""What a question may cost unless the caller says otherwise."""


@dataclass(frozen=True, slots=True)
class Latest:
    """The true delay.

    Parameters
    ----------
    at : int
        Some inputs leave an end unknown until then.
    most : int
        None leaves one unknown for longer; `at`, unless the effort was spent before that was known.
    values : mapping of Variable to int
        Such inputs; nothing where no end changes at all.
    """

    at: int
    most: int
    values: Mapping[Variable, int]


def settling(course: Course, values: Mapping[Variable, int]) -> int:
    """When the ends have settled for some inputs, if all was unknown before.

    A gate has settled one delay after those of its inputs that decide it.
    """
    machine, at = Machine(KLEENE), [ALWAYS] * course.netlist.size
    bits = [X] * course.netlist.size
    bits[0], bits[1], bits[CLOCK_NET] = 0, 1, 1
    for net, what in course.inputs.items():
        bits[net] = values.get(what, 0) if isinstance(what, Variable) else what
        at[net] = course.begins[net] if isinstance(what, Variable) else ALWAYS
    for gate, delay in zip(course.netlist.gates, course.delays, strict=True):
        nets = gate.inputs
        bits[gate.output] = final = machine.gate(gate.operator, [bits[net] for net in nets])
        if final != X:
            for moment in sorted({at[net] for net in nets}):
                seen = [bits[net] if at[net] <= moment else X for net in nets]
                if machine.gate(gate.operator, seen) == final:
                    at[gate.output] = moment + delay
                    break
    known = [at[net] + more for net, more in course.ends if bits[net] != X]
    return max([0, *known])


def reached(course: Course, at: int, effort: Effort = USUAL) -> bool | None:
    """Whether some inputs leave an end unknown until `at`; None if that took too much effort.

    Examples
    --------
    The first multiplexer takes the long way for s = 0, the second for s = 1:

    >>> from edgewise import blueprint
    >>> text = '''
    ... circuit: never both
    ... inputs: {s: 1, x: 1, y: 1}
    ... parts:
    ...   F: {part: and, in: [x, y]}
    ...   M: {part: multiplexer, select: s, d0: F.out, d1: x}
    ...   N: {part: multiplexer, select: s, d0: y, d1: M.out}
    ... outputs: {z: N.out}
    ... operands: {s: 1, x: 1, y: 1}
    ... '''
    >>> netlist = blueprint.from_text(text, "never.yaml").design().netlist
    >>> nets = [net for bits in netlist.inputs.values() for net in bits]
    >>> free = {net: Variable("", net) for net in nets}
    >>> ends = ((netlist.outputs["z"][0], 0),)
    >>> course = Course(netlist, [1, 1, 1], dict.fromkeys(nets, 0), free, ends)
    >>> reached(course, 3), reached(course, 2), latest(course).at
    (False, True, 2)
    """
    terms = Terms(most=effort.terms)
    try:
        question = Moments.floating(course, terms).late(at)
        with Session(terms, time.monotonic() + ENOUGH) as session:
            return session.ask(question, conflicts=effort.conflicts)
    except Exhausted:
        return None


ENOUGH: Final = 3600.0
"""Seconds that a solver has, whose conflicts are counted."""


def latest(course: Course, effort: Effort = USUAL, tries: Iterable[int] = (0, -1)) -> Latest:
    """The true delay of a netlist, by halving what lies between the latest found and the paths.

    Parameters
    ----------
    course : Course
    effort : Effort
    tries : iterable of int
        Numbers whose bits are tried as inputs first.
    """
    at = arrivals(course)
    high = max([0, *(at[net] + more for net, more in course.ends)])
    low, values = 0, dict[Variable, int]()
    variables = sorted({what for what in course.inputs.values() if isinstance(what, Variable)})
    for number in tries:
        tried = {variable: number >> i & 1 for i, variable in enumerate(variables)}
        if (found := settling(course, tried)) > low:
            low, values = found, tried
    terms = Terms(most=effort.terms)
    moments, guess = Moments.floating(course, terms), high
    try:
        with Session(terms, time.monotonic() + ENOUGH) as session:
            while low < high:
                answer = session.ask(moments.late(guess), conflicts=effort.conflicts)
                if answer is None:
                    break
                if answer:
                    values = session.bits(moments.known(session))
                    low = max(guess, settling(course, values))
                else:
                    high = guess - 1
                guess = (low + high + 1) // 2
    except Exhausted:
        pass
    return Latest(low, high, values)
