"""Edges at which a false claim would be true."""

from __future__ import annotations

import random
import time
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import islice
from typing import Final

from edgewise.arithmetic import evaluate, truth
from edgewise.design import Operand
from edgewise.engines.sat.outcome import Outcome
from edgewise.engines.symbolic.specification import Unsupported
from edgewise.errors import EdgewiseError, Place, UnknownBit
from edgewise.formula import Binary, Node
from edgewise.study.claims import decision
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope, times
from edgewise.study.claims.shared_runs import Steps
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

FEW: Final = 10
"""Operand bits up to which every combination is run on the reference engine."""
_SAMPLES: Final = 24
"""Runs that sort out most edges before an engine is asked about the others."""
_SECONDS: Final = 5.0
"""How long that may take in all; rows not settled by then are not spoken of as settled."""
_TOGETHER: Final = 64
"""Rows that are one question to an engine, at most."""
_MOST: Final = 8
"""Stretches named in a sentence, at most."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """The rows at which a claim with one time holds.

    Parameters
    ----------
    stretches : tuple of (int, int)
        First and last row of each stretch of rows known to hold, ascending.
    last : int
        The last row of the run.
    complete : bool
        Whether it holds in no other row; if not, those were not all looked into.

    Examples
    --------
    >>> print(Elsewhere(((4, 4), (14, 14), (24, 24)), 25))
    It holds after edges 4, 14 and 24 only.
    >>> print(Elsewhere(((3, 5), (9, 12)), 12), Elsewhere(((7, 7),), 12, complete=False))
    It holds after edges 3 to 5 and from edge 9 on. It holds, for example, after edge 7.
    """

    stretches: tuple[tuple[int, int], ...] = ()
    last: int = 0
    complete: bool = True

    @classmethod
    def of(cls, rows: Collection[int], last: int, *, complete: bool = True) -> Elsewhere:
        """The stretches of some rows."""
        stretches: list[tuple[int, int]] = []
        for row in sorted(rows):
            if stretches and stretches[-1][1] == row - 1:
                stretches[-1] = (stretches[-1][0], row)
            else:
                stretches.append((row, row))
        return cls(tuple(stretches), last, complete)

    def __bool__(self) -> bool:
        return bool(self.stretches)

    def __str__(self) -> str:
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """A sentence; nothing where there are no rows."""
        if not self.stretches:
            return ""
        *_, (first, final) = self.stretches
        onward = final == self.last and (first < final or len(self.stretches) == 1)
        if not self.complete:
            return words("claim-holds-example", where=self._all(self.stretches, words))
        if not onward:
            return words("claim-holds-only", where=self._all(self.stretches, words))
        before = self.stretches[:-1]
        told = [self._all(before, words)] if before else []
        where = listed([*told, words("claim-from-edge", edge=first)], words)
        return words("claim-holds", where=where)

    def _all(self, stretches: Sequence[tuple[int, int]], words: Words) -> str:
        """``at the start and after edges 4 to 6, 14 and 24``."""
        left = [(max(first, 1), final) for first, final in stretches if final]
        if stretches[0][0] == 0 and stretches[0][1]:
            left[0] = (0, left[0][1])
        start = [words("claim-at-start")] if stretches[0] == (0, 0) else []
        shown = [
            f"{first}" if first == final else words("claim-edges-range", first=first, last=final)
            for first, final in left
        ]
        if len(shown) > _MOST:
            more = words("claim-more-stretches", count=len(shown) - _MOST + 1)
            shown = [*shown[: _MOST - 1], more]
        many = len(left) > 1 or any(first < final for first, final in left)
        edges = listed(shown, words)
        after = [words("claim-after-edges", count=1 + many, edges=edges)] if shown else []
        return listed(start + after, words)


def instead(
    claimed: Node,
    failing: Run,
    steps: Steps,
    names: Sequence[str],
    place: Place | None = None,
) -> Elsewhere:
    """The rows at which a claim holds instead, if all its times are one and there are any.

    Parameters
    ----------
    claimed : Node
        The claim, false as it stands.
    failing : Run
        A run in which it is.
    steps : Steps
        Of the design.
    names : sequence of str
        Operands that the claim is about all values of.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> steps = Steps(catalogue.design("serial-adder", n=6))
    >>> run = steps.of({"a": 0, "b": 1})
    >>> print(instead(parse("S after 11 == (a + b) mod 64"), run, steps, ("a", "b")))
    It holds from edge 12 on.
    """
    scope = Scope(failing, place=place)
    rows = {scope.row_of(timed) for timed in times(claimed)}
    if len(rows) != 1:
        return Elsewhere()
    (row,) = rows
    return _held(claimed, failing, steps, names, row)


def _held(claimed: Node, failing: Run, steps: Steps, names: Sequence[str], row: int) -> Elsewhere:
    """The rows at which it holds for all operands, as far as that is found in time."""
    last = steps.design.edges
    of = {operand.name: operand for operand in steps.design.operands}
    others = {name: value for name, value in failing.operands.items() if name not in names}
    everything = sum(of[name].width for name in names) <= FEW
    runs = steps.runs(names, others) if everything else _sampled(steps, of, names, others)
    held = set(range(steps.design.edges + 1))
    for run in _chained([failing], runs):
        held = {k for k in held if true(claimed, Scope(run, instead=k))}
        if not held:
            return Elsewhere(last=last)
    if everything:
        return Elsewhere.of(held, last)
    sure, complete = _settled(claimed, failing, others, held, row)
    return Elsewhere.of(sure, last, complete=complete)


def _chained(first: Iterable[Run], then: Iterable[Run]) -> Iterator[Run]:
    yield from first
    yield from then


def _sampled(
    steps: Steps, of: Mapping[str, Operand], names: Sequence[str], others: Mapping[str, int]
) -> Iterator[Run]:
    chance = random.Random(0)  # noqa: S311  # always the same
    for top in islice((0, 1, None, *[None] * _SAMPLES), _SAMPLES):
        given = {
            one.name: one.number(chance.getrandbits(one.width))
            if top is None
            else top * one.numbers[-1]
            for one in (of[name] for name in names)
        }
        yield steps.of({**others, **given})


def _settled(
    claimed: Node, failing: Run, others: Mapping[str, int], held: set[int], row: int
) -> tuple[set[int], bool]:
    """Of some rows those at which an engine finds it true for all; whether that is all of them."""
    until = time.monotonic() + _SECONDS
    names = [name for name in failing.operands if name not in others]

    def outcome(rows: Sequence[int]) -> Outcome:
        left = until - time.monotonic()
        if left <= 0:
            return "undecided"
        asked = [ground(claimed, Scope(failing, instead=k), names) for k in rows]
        whole = reduce(lambda a, b: Binary("and", a, b), asked)
        try:
            return decision.settle(failing.design, whole, others, limit=left).outcome
        except (Unsupported, EdgewiseError):
            return "undecided"

    if len(held) <= _TOGETHER and outcome(sorted(held)) == "proved":  # one question for all
        return held, True
    near = sorted(held, key=lambda k: (abs(k - row), -k))
    each = {k: outcome([k]) for k in near}
    return {k for k in near if each[k] == "proved"}, "undecided" not in each.values()


def true(node: Node, scope: Scope) -> bool:
    """Whether a truth is true in a run; with an unknown bit in it, it is not."""
    try:
        return truth(evaluate(node, scope))
    except UnknownBit:
        return False
    except EdgewiseError as wrong:
        raise wrong.placed(scope.place) from None
