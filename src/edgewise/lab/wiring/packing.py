"""The choice of packages: as few as can be, and of those choices one with few wired pins.

A search moves pieces of the same kind from one way to another while that helps. Then a solver is
asked whether fewer packages can do, and its answer is either a better choice, a proof that there
is none, or, for a large design, nothing: the choice is then the best one found, and says so.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Final, TypeAlias

from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import FALSE, TRUE, Exhausted, Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.lab.wiring import sections
from edgewise.lab.wiring.demand import Choice, Demand, Demands, Option, Pins, active, cost
from edgewise.lab.wiring.mapping import Needed

CONFLICTS: Final = 6_000
"""How often the solver may turn back for a question: a number, so that any machine finds alike."""
SECONDS: Final = 60.0
MOST_PROVED: Final = 1_200
"""Ways of all demands beyond which no proof is tried."""
MOST_ROUNDS: Final = 40

_Group: TypeAlias = tuple[str, Pins]


@dataclass(frozen=True)
class Packed:
    """A choice.

    Parameters
    ----------
    options : mapping of str to Option
        Of each demand that is one.
    packages : int
    proved : bool
        Whether no choice among these ways takes fewer packages.
    """

    options: Mapping[str, Option]
    packages: int
    proved: bool


def packed(needed: Needed) -> Packed:
    """The choice for a design's demands.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab.wiring import mapping
    >>> found = packed(mapping.needed(catalogue.design("serial-adder", n=4)))
    >>> found.packages, found.proved
    (6, True)
    """
    roots, demands = needed.roots, needed.demands
    choice = _improved(roots, demands, dict.fromkeys(demands, 0))
    proved = False
    ways = sum(len(demand.options) for demand in demands.values())
    while ways <= MOST_PROVED:
        packages = cost(active(roots, demands, choice))[0]
        answer = _fewer(roots, demands, packages)
        if answer is None:
            break
        if not answer:
            proved = True
            break
        choice = _improved(roots, demands, answer)
    options = active(roots, demands, choice)
    return Packed(options, cost(options)[0], proved)


# ---------------------------------------------------------------------- by search


def _improved(roots: tuple[str, ...], demands: Demands, start: Choice) -> dict[str, int]:
    """The choice after moves that help: pieces of a kind, few or all, go another way."""
    best = dict(start)
    least = cost(active(roots, demands, best))
    for _ in range(MOST_ROUNDS):
        moved = False
        for names in _kinds(roots, demands, best):
            for changed in _moves(names, demands, best):
                found = cost(active(roots, demands, changed))
                if found < least:
                    best, least, moved = changed, found, True
        if not moved:
            break
    return best


def _kinds(roots: tuple[str, ...], demands: Demands, choice: Choice) -> list[list[str]]:
    """The demands that are one, those of a kind together."""
    kinds: dict[tuple[object, ...], list[str]] = {}
    for name in active(roots, demands, choice):
        kinds.setdefault((*_kind(demands[name]), choice[name]), []).append(name)
    return list(kinds.values())


def _kind(demand: Demand) -> tuple[object, ...]:
    """What two demands share that can be made of the same packages."""
    return tuple(
        (tuple(use.group for use in option.uses), len(option.needs)) for option in demand.options
    )


def _moves(names: list[str], demands: Demands, choice: Choice) -> Iterator[dict[str, int]]:
    ways = len(demands[names[0]].options)
    now = choice[names[0]]
    amounts = sorted({*range(1, min(4, len(names)) + 1), len(names)})
    for way in range(ways):
        if way != now:
            for amount in amounts:
                yield {**choice, **dict.fromkeys(names[-amount:], way)}


# ---------------------------------------------------------------------- by proof


def _fewer(roots: tuple[str, ...], demands: Demands, packages: int) -> dict[str, int] | None:
    """A choice of fewer packages; an empty one if there is none; None if it was not known."""
    if packages <= 1:
        return {}
    terms = Terms(deadline=time.monotonic() + SECONDS)
    question = _Question(terms, roots, demands)
    try:
        with Session(terms, terms.deadline) as session:
            total = at_least(terms, question.packages(), packages)
            session.require(question.sound())
            answer = session.ask(total[packages - 1] ^ 1, conflicts=CONFLICTS)
            if not answer:
                return None if answer is None else {}
            chosen = session.bits(
                {key: term for key, term in question.taken.items() if session.clauses.known(term)}
            )
    except Exhausted:
        return None
    return {
        name: next((i for i in range(len(d.options)) if chosen.get((name, i))), 0)
        for name, d in demands.items()
    }


class _Question:
    """The choice as terms: which way each demand takes, and what this asks for."""

    def __init__(self, terms: Terms, roots: tuple[str, ...], demands: Demands) -> None:
        self.terms, self.roots, self.demands = terms, roots, demands
        self.taken: dict[tuple[str, int], Term] = {
            (name, way): TRUE if len(demand.options) == 1 else terms.variable(Variable(name, way))
            for name, demand in demands.items()
            for way in range(len(demand.options))
        }
        self.asked = lru_cache(maxsize=None)(self._asked)
        self.askers: dict[str, list[tuple[str, int]]] = {}
        for name, demand in demands.items():
            for way, option in enumerate(demand.options):
                for need in option.needs:
                    self.askers.setdefault(need, []).append((name, way))

    def _asked(self, name: str) -> Term:
        """Whether a demand is one."""
        if name in self.roots:
            return TRUE
        return self.terms.any_of(self.uses(*asker) for asker in self.askers.get(name, ()))

    def uses(self, name: str, way: int) -> Term:
        """Whether a demand is one and takes a way."""
        return self.terms.both(self.asked(name), self.taken[name, way])

    def sound(self) -> Term:
        """Each demand takes exactly one way."""
        terms = self.terms
        found = []
        for name, demand in self.demands.items():
            ways = [self.taken[name, way] for way in range(len(demand.options))]
            if len(ways) > 1:
                found.append(terms.any_of(ways))
                found += [
                    terms.both(one, other) ^ 1 for i, one in enumerate(ways) for other in ways[:i]
                ]
        return terms.all_of((*found, *self._in_order()))

    def _in_order(self) -> Iterator[Term]:
        """Of demands of one kind the earlier takes the earlier way: nothing is lost by that."""
        kinds: dict[tuple[object, ...], list[str]] = {}
        for name in self.roots:
            demand = self.demands[name]
            if len(demand.options) > 1 and not any(option.needs for option in demand.options):
                kinds.setdefault(_kind(demand), []).append(name)
        for names in kinds.values():
            for one, other in pairwise(names):
                ways = range(len(self.demands[one].options))
                for way in ways:
                    later = [self.taken[one, above] for above in ways if above > way]
                    yield self.terms.both(self.taken[other, way], self.terms.any_of(later)) ^ 1

    def packages(self) -> tuple[Term, ...]:
        """For each package that there might be, whether there is."""
        groups: dict[_Group, list[Term]] = {}
        for name, demand in self.demands.items():
            for way, option in enumerate(demand.options):
                used = self.uses(name, way)
                for use in option.uses:
                    if used != FALSE:
                        groups.setdefault(use.group, []).append(used)
        found: list[Term] = []
        for (section, _), taken in groups.items():
            counts = at_least(self.terms, tuple(taken), len(taken))
            found += counts[:: sections.SECTIONS[section].holds]
        return tuple(found)
