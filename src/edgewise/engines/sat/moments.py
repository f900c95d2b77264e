"""What every net of a netlist holds at any moment after its inputs change, as terms.

What it holds at last, from the end of the longest path to it on; what it held before, until the end
of the shortest; and in between what its gate makes of its inputs one delay sooner.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import ONE, UNKNOWN, ZERO, Logic, Rail, constant
from edgewise.engines.symbolic.variables import Variable

ALWAYS: Final = -(1 << 60)
"""When a constant settles."""


BEFORE: Final = 0
"""The row of a variable that stands for an input before."""


@dataclass(frozen=True, slots=True)
class Course:
    """A netlist whose inputs change once.

    Parameters
    ----------
    netlist : Netlist
    delays : sequence of int
        Of each gate, in the netlist's order.
    begins : mapping of int to int
        When each net changes that no gate drives.
    inputs : mapping of int to (Variable or bit)
        What it changes to.
    ends : tuple of (int, int)
        Nets that are waited for, and how much longer each takes: a set-up time.
    """

    netlist: Netlist
    delays: Sequence[int]
    begins: Mapping[int, int]
    inputs: Mapping[int, Variable | int]
    ends: tuple[tuple[int, int], ...]


def arrivals(course: Course, *, latest: bool = True) -> list[int]:
    """When each net has settled by its longest path, or begins to change by its shortest."""
    chosen = max if latest else min
    at = [ALWAYS] * course.netlist.size
    for net, begin in course.begins.items():
        at[net] = ALWAYS if course.inputs[net] in (0, 1) else begin
    for gate, delay in zip(course.netlist.gates, course.delays, strict=True):
        at[gate.output] = delay + chosen([at[net] for net in gate.inputs])
    return at


class Moments:
    """What every net holds at any moment, as terms."""

    def __init__(self, course: Course, terms: Terms, before: Mapping[int, Rail]) -> None:
        self.course, self.terms = course, terms
        self.machine = Machine(Logic(terms))
        self.latest, self.earliest = arrivals(course), arrivals(course, latest=False)
        self.drivers = {
            gate.output: (gate, delay)
            for gate, delay in zip(course.netlist.gates, course.delays, strict=True)
        }
        after = {net: _rail(terms, what) for net, what in course.inputs.items()}
        self.before, self.after = self.settled(before), self.settled(after)
        self.found: dict[tuple[int, int], Rail] = {}

    @classmethod
    def floating(cls, course: Course, terms: Terms) -> Moments:
        """With inputs that were unknown before."""
        before = {
            net: UNKNOWN if isinstance(what, Variable) else constant(what)
            for net, what in course.inputs.items()
        }
        return cls(course, terms, before)

    @classmethod
    def after_known(cls, course: Course, terms: Terms) -> Moments:
        """With inputs before that are variables, too."""
        before = {
            net: _rail(terms, Variable(what.name, what.index, BEFORE))
            if isinstance(what, Variable)
            else constant(what)
            for net, what in course.inputs.items()
        }
        return cls(course, terms, before)

    def settled(self, inputs: Mapping[int, Rail]) -> list[Rail]:
        """Every net, once all has settled."""
        rails = [ZERO] * self.course.netlist.size
        rails[1], rails[2], rails[CLOCK_NET] = ONE, UNKNOWN, ONE
        for net, rail in inputs.items():
            rails[net] = rail
        for gate in self.course.netlist.gates:
            rails[gate.output] = self.machine.gate(
                gate.operator, [rails[net] for net in gate.inputs]
            )
        return rails

    def at(self, net: int, moment: int) -> Rail:
        """A net, the changes of this moment included."""
        waiting, found = [(net, moment)], self.found
        while waiting:
            one, now = key = waiting[-1]
            if key in found:
                waiting.pop()
            elif now >= self.latest[one]:
                found[key] = self.after[one]
            elif now < self.earliest[one]:
                found[key] = self.before[one]
            else:
                gate, delay = self.drivers[one]
                read = [(before, now - delay) for before in gate.inputs]
                if missing := [each for each in read if each not in found]:
                    waiting += missing
                else:
                    found[key] = self.machine.gate(gate.operator, [found[each] for each in read])
        return found[net, moment]

    def late(self, moment: int) -> Term:
        """Whether just before a moment some end does not hold yet what it holds at last."""
        terms, wrong = self.terms, list[Term]()
        for net, more in self.course.ends:
            if net > CLOCK_NET and moment - more <= self.latest[net]:
                last, then = self.after[net], self.at(net, moment - more - 1)
                off = terms.either(then.unknown, terms.differ(then.one, last.one))
                wrong.append(terms.both(off, last.unknown ^ 1))
        return terms.any_of(wrong)

    def known(self, session: Session) -> dict[Variable, Term]:
        """The variables that a question has come upon."""
        return {
            variable: term
            for variable, term in self.terms.variables()
            if session.clauses.known(term)
        }


def _rail(terms: Terms, what: Variable | int) -> Rail:
    return Rail(terms.variable(what)) if isinstance(what, Variable) else constant(what)
