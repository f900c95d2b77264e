"""The best operand sets by several criteria at once, the first criterion counting most.

Criteria are written as **planes**: the bits of a score as terms, the most significant first.
The native engine gives each plane as a mask over very many sets; the best are those left
when the sets without the first plane's bit are dropped, then those without the second's, and
so on, wherever some are left. No set is looked at by itself.
"""

from __future__ import annotations

import heapq
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.sat import bounded
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.arithmetic import ZERO, Whole, Words
from edgewise.engines.symbolic.terms import FALSE, Term, Terms
from edgewise.engines.symbolic.variables import Variable

STRETCH: Final = 1 << 22
"""Operand sets whose masks are held at once."""

Progress = Callable[[int, int], None]
"""Is told (sets done, sets in all)."""


@dataclass(frozen=True, slots=True)
class Ranked:
    """An operand set and its score.

    Parameters
    ----------
    number : int
        As `edgewise.engines.exhaustive.operand_space.Space` numbers sets.
    score : int
        The planes' bits, the first plane as the most significant bit.
    """

    number: int
    score: int


def many(terms: Terms, predicates: Sequence[Term]) -> tuple[Term, ...]:
    """Planes by which a set is the better the more predicates hold.

    Examples
    --------
    >>> terms = Terms()
    >>> bits = [terms.variable(Variable("x", i)) for i in range(2)]
    >>> compiler.masks(terms, many(terms, bits), Space((("x", 2),)))  # 11 has two, 01 and 10 one
    (8, 6)
    """
    words = Words(terms)
    sums = [words.unsigned([term]) for term in predicates if term != FALSE]
    while len(sums) > 1:
        pairs = [words.add(*sums[i : i + 2]) for i in range(0, len(sums) - 1, 2)]
        sums = pairs + sums[2 * len(pairs) :]
    return tuple(reversed((sums[0] if sums else ZERO).bits[:-1]))


def small(number: Whole) -> tuple[Term, ...]:
    """Planes by which a set is the better the smaller a number, which is never negative."""
    return tuple(bit ^ 1 for bit in reversed(number.bits[:-1]))


def best(
    terms: Terms,
    wanted: Term,
    planes: Sequence[Term],
    space: Space,
    most: int = 1,
    progress: Progress | None = None,
) -> tuple[Ranked, ...]:
    """The best sets of a whole space for which `wanted` holds, the best first.

    Among equals the smaller number comes first.

    Examples
    --------
    >>> terms = Terms()
    >>> bits = [terms.variable(Variable("a", i)) for i in range(4)]
    >>> [r.number for r in best(terms, bits[0], many(terms, bits), Space((("a", 4),)), 3)]
    [15, 7, 11]
    """
    found: list[Ranked] = []
    for start in range(0, space.size, STRETCH):
        stop = min(start + STRETCH, space.size)
        masks = compiler.masks(terms, [wanted, *planes], space, start, stop)
        positions = _in_order(masks[0], masks[1:], most)
        found += [Ranked(start + bit, _score(masks[1:], bit)) for bit in positions]
        found = heapq.nsmallest(most, found, key=lambda r: (-r.score, r.number))
        if progress:
            progress(stop, space.size)
    return tuple(found)


def _in_order(candidates: int, planes: Sequence[int], most: int) -> Iterator[int]:
    """Positions of candidates, the best first, at most `most`."""
    waiting = [(candidates, 0)]
    while waiting and most:
        left, plane = waiting.pop()
        while plane < len(planes) and left & (left - 1):
            with_bit = left & planes[plane]
            plane += 1
            if with_bit and with_bit != left:
                waiting.append((left ^ with_bit, plane))
                left = with_bit
        while left and most:
            lowest = left & -left
            yield lowest.bit_length() - 1
            left ^= lowest
            most -= 1


def _score(planes: Sequence[int], bit: int) -> int:
    score = 0
    for plane in planes:
        score = score << 1 | (plane >> bit & 1)
    return score


def best_by_solver(
    terms: Terms,
    wanted: Term,
    planes: Sequence[Term],
    space: Space,
    most: int = 1,
    seconds: float = bounded.SECONDS,
) -> tuple[dict[str, int], ...]:
    """Good sets of a space too large to go through, found by SAT.

    Each plane's bit is asked for in turn; what time was left for is kept. The sets are the
    best there are if all questions were answered in time, which isn't promised.
    """
    found: list[dict[str, int]] = []
    with Session(terms, time.monotonic() + seconds) as session:
        apart = wanted
        while len(found) < most:
            _, model = solved(session, apart, planes, space)
            if model is None:
                break
            found.append(model)
            apart = terms.both(apart, _apart(terms, model, space))
    return tuple(found)


def solved(
    session: Session, wanted: Term, planes: Sequence[Term], space: Space
) -> tuple[bool | None, dict[str, int] | None]:
    """Whether `wanted` can hold (None: time was up), and the best set that was found."""
    answer = session.ask(wanted)
    if not answer:
        return answer, None
    kept, model = [wanted], _model(session, space)
    for plane in planes:
        better = session.ask(*kept, plane)
        if better is None:
            break
        kept.append(plane if better else plane ^ 1)
        if better:
            model = _model(session, space)
    return True, model


def _model(session: Session, space: Space) -> dict[str, int]:
    held = {v: t for v in space.variables if session.clauses.known(t := session.terms.variable(v))}
    bits = session.bits(held)
    return {
        name: sum(bit << v.index for v, bit in bits.items() if v.name == name)
        for name, _ in space.widths
    }


def _apart(terms: Terms, operands: Mapping[str, int], space: Space) -> Term:
    """Where no operand of more than one bit has a value that one has here."""
    wide = {name: width for name, width in space.widths if width > 1}
    words = Words(terms)
    return terms.all_of(
        words.equal(
            words.unsigned(terms.variable(Variable(name, i)) for i in range(width)),
            words.number(value),
        ).one
        ^ 1
        for name, width in wide.items()
        for value in sorted({operands[other] for other in wide})
    )


def best_each(
    terms: Terms,
    wanted: Sequence[Term],
    planes: Sequence[Term],
    space: Space,
    progress: Progress | None = None,
) -> tuple[tuple[int | None, int], ...]:
    """For each of some terms, the best set for which it holds (or None), and how many there are.

    Examples
    --------
    >>> terms = Terms()
    >>> bits = [terms.variable(Variable("a", i)) for i in range(3)]
    >>> best_each(terms, [bits[1], FALSE], many(terms, bits), Space((("a", 3),)))
    ((7, 4), (None, 0))
    """
    found: list[tuple[Ranked | None, int]] = [(None, 0)] * len(wanted)
    for start in range(0, space.size, STRETCH):
        stop = min(start + STRETCH, space.size)
        masks = compiler.masks(terms, [*wanted, *planes], space, start, stop)
        heights = masks[len(wanted) :]
        for i, mask in enumerate(masks[: len(wanted)]):
            before, sets = found[i]
            for bit in _in_order(mask, heights, 1):
                here = Ranked(start + bit, _score(heights, bit))
                if before is None or here.score > before.score:
                    before = here
            found[i] = (before, sets + mask.bit_count())
        if progress:
            progress(stop, space.size)
    return tuple((one.number if one else None, sets) for one, sets in found)
