"""A session: one solver that is asked one question after another, until time is up."""

from __future__ import annotations

import time
from collections.abc import Mapping
from typing import Any, Final, Self, TypeVar

from edgewise.engines.sat.aside import Aside
from edgewise.engines.sat.cnf import Clauses
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms

Key = TypeVar("Key")
_SLICE: Final = 500
"""Conflicts between two looks at the clock."""
_GRACE: Final = 0.5
"""Seconds that the end of a question waits for a solver still at work."""


class Session:
    """One solver over one set of terms; what it has learned stays between questions.

    Parameters
    ----------
    terms : Terms
        May grow between questions.
    deadline : float
        On the clock of `time.monotonic`.
    """

    def __init__(self, terms: Terms, deadline: float) -> None:
        from pysat.solvers import Cadical195

        self.terms, self.deadline = terms, deadline
        self.clauses = Clauses(terms)
        # In the main thread the solver would catch Ctrl-C by a long jump out of its own code.
        self._solver: Any = Cadical195()
        self._slice: Aside[bool | None] | None = None
        self._conflicts = 0
        self._model: frozenset[int] = frozenset()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        # A solver still at work can't be taken away; it ends with its slice, or the process.
        if self._slice is None or self._slice.finished(_GRACE):
            self._solver.delete()

    @property
    def size(self) -> tuple[int, int, int]:
        """Clauses, variables, and how often the solver had to turn back, so far."""
        return self.clauses.written, self.clauses.variables, self._conflicts

    def require(self, term: Term) -> None:
        """From now on `term` holds."""
        self.clauses.add((self.clauses.literal(term),))

    def ask(self, *wanted: Term, conflicts: int | None = None) -> bool | None:
        """Whether all of `wanted` can hold at once; None if that was not known in time.

        `conflicts`: how often the solver may turn back for it, about; any number unless given.
        """
        if FALSE in wanted:
            return False
        literals = [self.clauses.literal(term) for term in wanted if term != TRUE]
        if self._slice is not None and not self._slice.finished(0):
            return None  # time was up in the midst of the question before
        for number, clause in enumerate(self.clauses.take()):
            if not number & _SLICE:
                self.terms.watch()
            self._solver.add_clause(clause)
        answer: bool | None = None
        begun = self._conflicts
        while answer is None:
            left = self.deadline - time.monotonic()
            if left <= 0 or (conflicts is not None and self._conflicts - begun >= conflicts):
                return None
            self._solver.conf_budget(_SLICE)
            self._slice = Aside(lambda: self._solver.solve_limited(assumptions=literals))
            if not self._slice.finished(left):
                return None
            answer = self._slice.result()
            self._conflicts = int(self._solver.accum_stats()["conflicts"])
        if answer:
            self._model = frozenset(self._solver.get_model())
        return answer

    def bits(self, terms: Mapping[Key, Term]) -> dict[Key, int]:
        """What terms were when a question was last answered by yes; they had literals then."""
        return {key: int(self.clauses.literal(t) in self._model) for key, t in terms.items()}
