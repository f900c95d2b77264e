"""Two sets of inputs, one after the other, after which a netlist changes last.

Every delay is exact here, and gates pass pulses of any length: where gates may be sooner, or inputs
were unknown, a change may come later, but never after the true delay (`lateness`).
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.bits import X
from edgewise.engines.sat.bounded import smallest
from edgewise.engines.sat.lateness import ENOUGH, USUAL, Effort
from edgewise.engines.sat.moments import BEFORE, Course, Moments
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import Exhausted, Term, Terms
from edgewise.engines.symbolic.variables import Variable


@dataclass(frozen=True, slots=True)
class Pair:
    """Two sets of inputs, the second after the first, and when the last end changes."""

    at: int
    before: Mapping[Variable, int]
    after: Mapping[Variable, int]


def changed(course: Course, most: int, effort: Effort = USUAL) -> Pair | None:
    """The pair of inputs after which an end changes last, if each delay is exact.

    Gates pass pulses of any length. Of such pairs one in which few inputs change, and few are 1
    where there are not many.

    Parameters
    ----------
    course : Course
    most : int
        No end changes later.
    effort : Effort

    Returns
    -------
    Pair or None
        None if it took too much effort, or inputs are unknown.
    """
    if X in course.inputs.values():
        return None
    times = [at for at in sorted(_times(course), reverse=True) if at <= most]
    terms = Terms(most=effort.terms)
    moments = Moments.after_known(course, terms)
    try:
        with Session(terms, time.monotonic() + ENOUGH) as session:
            for at in times[:_TRIED]:
                late = moments.late(at)
                answer = session.ask(late, conflicts=effort.conflicts)
                if answer is None:
                    return None
                if answer:
                    return _simple(session, moments, late, at, effort)
    except Exhausted:
        pass
    return None


_TRIED: Final = 60
"""Moments that a pair of inputs is looked for at."""
_SMALL: Final = 72
"""Bits of a pair up to which the fewest ones are looked for."""


def _simple(session: Session, moments: Moments, late: Term, at: int, effort: Effort) -> Pair:
    """A pair that changes few inputs, with few ones in them."""
    terms = session.terms
    after = [what for what in moments.course.inputs.values() if isinstance(what, Variable)]
    after = sorted(dict.fromkeys(after), key=lambda one: (one.name, -one.index))
    old = {one: Variable(one.name, one.index, BEFORE) for one in after}
    differ = [terms.differ(terms.variable(one), terms.variable(old[one])) for one in after]
    for few in (1, 2, 4):
        if few >= len(differ):
            break
        wanted = at_least(terms, differ, few + 1)[few] ^ 1
        if session.ask(late, wanted, conflicts=effort.conflicts):
            late = terms.both(late, wanted)
            break
    assert session.ask(late)
    both = [*after, *old.values()]
    if len(both) <= _SMALL:
        found, _ = smallest(session, late, both)
    else:
        found = session.bits({one: terms.variable(one) for one in both})
    before = {one: found.get(old[one], 0) for one in after}
    return Pair(at, before, {one: found.get(one, 0) for one in after})


def _times(course: Course) -> set[int]:
    """When an end may change: the lengths of all paths to it."""
    at: list[frozenset[int]] = [frozenset()] * course.netlist.size
    for net, what in course.inputs.items():
        if isinstance(what, Variable):
            at[net] = frozenset({course.begins[net]})
    for gate, delay in zip(course.netlist.gates, course.delays, strict=True):
        at[gate.output] = frozenset({one + delay for net in gate.inputs for one in at[net]})
    return {one + more for net, more in course.ends for one in at[net]}
