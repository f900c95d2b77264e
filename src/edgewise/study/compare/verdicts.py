"""The sentences of a comparison: which design is smaller, faster, better, and where.

Each says no more than was compared: a run of numbers ends where the comparison does, figures of a
sample that can't be told apart are no order, and designs that do different things are only set side
by side with what differs.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations, groupby
from operator import itemgetter
from typing import TYPE_CHECKING, Final

from edgewise.study.compare import equal_function
from edgewise.study.compare.wording import last_run, others, spans
from edgewise.study.cost.technology import number
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.study.compare.figures import Figures
    from edgewise.study.cost.measure import Cost

MOST_PAIRED: Final = 4
"""Up to so many designs every pair has its sentences; beyond, only the best are told."""
TIMED: Final = ("time", "period", "area_delay", "throughput")
"""Quantities that a critical path decides."""


def sentences(found: Figures, words: Words = ENGLISH) -> Iterator[str]:
    """Every answer: pair by pair, or the best of many."""
    for quantity in found.quantities:
        if len(found.designs) > MOST_PAIRED:
            yield from _best_of_each(found, quantity, words)
        else:
            for one, other in combinations(found.designs, 2):
                yield pair(found, one, other, quantity, words)


# ---------------------------------------------------------------------- two designs


def pair(found: Figures, one: str, other: str, quantity: str, words: Words = ENGLISH) -> str:
    """How two designs compare in a quantity, with the crossovers if there are any."""
    first, second = found.of(one), found.of(other)
    both = [value for value in found.values if value in first and value in second]
    if not both:
        return words("compare-together", one=one, other=other, parameter=found.parameter)
    signs = {value: first[value].order(second[value], quantity) for value in both}
    if set(signs.values()) == {0}:
        return _tied(found, (one, other), quantity, both, words)
    sign = next(sign for sign in reversed(signs.values()) if sign)
    (winner, loser) = ranked = (one, other) if sign < 0 else (other, one)
    less, ends = [value for value in both if signs[value] == sign], _ends(both)
    if len(less) == len(both):
        where, rest = words("compare-where-every", range=_range(found, both, words)), []
    else:
        start, end = last_run(less, both), less[-1]
        i, j = both.index(start), both.index(end)
        # Both sides of the crossover: before the run, or behind one that begins at once.
        ends = [both[i - 1], start] if i else [end, both[j + 1]]
        where = _run(found, start, end, both, words)
        rest = _elsewhere(found, ranked, quantity, signs, (start, end), words)
    said = [_figures(found, ranked, quantity, ends, words), *rest]
    said += _limits(found, (one, other), quantity, sorted({*ends, *_ends(both)}), words)
    return words(
        "compare-pair",
        name=winner,
        quantity=quantity,
        loser=loser,
        where=where,
        told="; ".join(said),
    )


def _tied(
    found: Figures, names: tuple[str, str], quantity: str, both: Sequence[int], words: Words
) -> str:
    """That two designs are equal in a quantity; those of a sample with their figures."""
    ends, (one, other) = _ends(both), names
    figures = _figures(found, names, quantity, ends, words) if quantity == "toggles" else ""
    told = "".join(f"; {one}" for one in _limits(found, names, quantity, ends, words))
    return words(
        "compare-tied",
        one=one,
        other=other,
        quantity=quantity,
        range=_range(found, both, words),
        told=(f": {figures}" if figures else "") + told,
    )


def _elsewhere(  # where what was found, and in which words
    found: Figures,
    ranked: tuple[str, str],
    quantity: str,
    signs: dict[int, int],
    run: tuple[int, int],
    words: Words,
) -> list[str]:
    """What holds outside of the run that was told, in which the first design is better."""
    both, sign = list(signs), signs[run[0]]
    told = {
        sign: words("compare-is", name=ranked[0], quantity=quantity),
        -sign: words("compare-is", name=ranked[1], quantity=quantity),
        0: words("compare-equal", quantity=quantity),
    }
    rest = others(signs, both, *run, sign)
    pieces = [
        words("compare-elsewhere", told=told[one], at=_at(found, spans(values, both, words)))
        for one, values in rest
    ]
    return [", ".join(pieces)] if pieces else []


def _run(found: Figures, start: int, end: int, both: Sequence[int], words: Words) -> str:
    """A run of numbers, not said to go on beyond what was compared."""
    last = "last" if end == both[-1] else "inner"
    if start == end:
        return words("compare-where-one", at=_at(found, start), end=last)
    return words("compare-where-run", name=found.parameter, first=start, last=end, end=last)


def _ends(values: Sequence[int]) -> list[int]:
    return [values[0]] if len(values) == 1 else [values[0], values[-1]]


def _figures(
    found: Figures, names: tuple[str, str], quantity: str, values: Sequence[int], words: Words
) -> str:
    """The figures of two designs at some numbers."""
    units = found.units(words)
    unit = units.get({"logic": "area"}.get(quantity, quantity), "")
    pieces = []
    for value in values:
        first, second = (shown(found.of(name)[value], quantity, words) for name in names)
        facts = {"first": first, "second": second, "at": _at(found, value)}
        pieces.append(
            words("compare-against-unit", unit=unit, **facts)
            if unit
            else words("compare-against", **facts)
        )
    return "; ".join(pieces)


def _at(found: Figures, value: int | str) -> str:
    """``n = 4``."""
    return f"{found.parameter} = {value}"


def shown(cost: Cost, quantity: str, words: Words = ENGLISH) -> str:
    """A figure for people, one of a sample with its standard error.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.cost.measure import measure
    >>> found = measure(catalogue.find("ripple-carry-adder"), {"n": 8}, activity=True)
    >>> shown(found, "time"), shown(found, "toggles")
    ('18', '17.6 ± 0.3')
    """
    figure: Fraction = cost.figure(quantity)
    if quantity == "toggles" and cost.toggles is not None:
        return words.decimal(f"{float(figure):.1f} ± {cost.toggles_error:.1f}")
    return words.decimal(number(figure))


def _range(found: Figures, values: Sequence[int], words: Words) -> str:
    return _at(found, spans(values, found.values, words))


# ---------------------------------------------------------------------- what limits an answer


def _limits(
    found: Figures, names: Sequence[str], quantity: str, values: Sequence[int], words: Words
) -> list[str]:
    """In the same sentence: what differs, and critical paths that no operands take."""
    first, *rest = (found.some(name) for name in names)
    told = [equal_function.difference(first, other, words) for other in rest]
    if quantity in TIMED:
        told += sooner(found, names, values, words)
    return [one for one in told if one]


def sooner(
    found: Figures, names: Sequence[str], values: Sequence[int], words: Words = ENGLISH
) -> Iterator[str]:
    """Designs whose critical path is known to be false at some of these numbers."""
    for name in names:
        false = [v for v in values if v in found.of(name) and found.never_taken(name, v)]
        if false:
            yield words("compare-sooner", name=name, at=_range(found, false, words))


# ---------------------------------------------------------------------- which to take


def choice(found: Figures, words: Words = ENGLISH) -> Iterator[str]:
    """In one sentence which design to take where; of many, who is the best of those alike.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.compare.comparison import compare
    >>> pair = [catalogue.find(n) for n in ("ripple-carry-adder", "carry-lookahead-adder")]
    >>> print(*choice(compare(pair, {"n": (13, 14)})))  # doctest: +NORMALIZE_WHITESPACE
    Which to take: for the least area, ripple-carry-adder at n = 13, 14 (91 to 98); for the least
    time, carry-lookahead-adder at n = 13, 14 (15); for the least area-delay product,
    ripple-carry-adder at n = 13 (2548), carry-lookahead-adder at n = 14 (2835).
    """
    if len(found.designs) > MOST_PAIRED:
        yield from sentences(found, words)
    elif len(found.designs) > 1:
        told = [
            words("compare-take-for", quantity=one, told=", ".join(_runs(found, one, words)))
            for one in found.quantities
        ]
        ends = _ends(found.values)
        told += dict.fromkeys(
            limit
            for one in found.quantities
            for limit in _limits(found, found.designs, one, ends, words)
        )
        yield words("compare-take", told="; ".join(told))


def _runs(found: Figures, quantity: str, words: Words) -> list[str]:
    """Run by run of the numbers, which designs have the least of a quantity."""
    least = [
        (
            tuple(
                cost.design
                for cost in found.at(value)
                if all(cost.order(other, quantity) <= 0 for other in found.at(value))
            ),
            value,
        )
        for value in found.values
    ]
    runs = [
        (names, [value for _, value in run])
        for names, run in groupby(least, key=itemgetter(0))
        if names
    ]
    return [_best_at(found, names, values, quantity, words) for names, values in runs]


def _best_at(
    found: Figures, names: Sequence[str], values: Sequence[int], quantity: str, words: Words
) -> str:
    """Who is the best over a run of numbers, and with which figures."""
    return words(
        "compare-best-at",
        names=listed(names, words),
        range=_range(found, values, words),
        figures=_least(found, names, values, quantity, words),
    )


# ---------------------------------------------------------------------- the best of many


def _best_of_each(found: Figures, quantity: str, words: Words) -> Iterator[str]:
    """Of each group of designs that are alike: who has the least of a quantity."""
    ranked = [group for group in found.groups if len(group) > 1]
    kinds = {group: found.some(group[0]).does for group in found.groups}
    for group in ranked:
        rest = [does for other, does in kinds.items() if other != group]
        whose = f" {equal_function.label(kinds[group], rest, words)}" if rest else ""
        told = _best(found, group, quantity, words)
        yield words("compare-best", quantity=quantity, whose=whose, told=told)


def _best(found: Figures, group: Sequence[str], quantity: str, words: Words) -> str:
    runs: list[tuple[tuple[str, ...], list[int]]] = []
    for value in found.values:
        ranks = found.ranks(value, quantity)
        best = tuple(name for name in group if ranks.get(name) == 1)
        if runs and runs[-1][0] == best:
            runs[-1][1].append(value)
        elif best:
            runs.append((best, [value]))
    told = [_best_at(found, names, values, quantity, words) for names, values in runs]
    if quantity == "toggles" and any(len(names) > 1 for names, _ in runs):
        told.append(words("compare-alike"))
    # Of so many designs the critical paths are looked at where the range begins and ends.
    told += _limits(found, group, quantity, _ends(found.values), words)
    return "; ".join(told)


def _least(
    found: Figures, names: Sequence[str], values: Sequence[int], quantity: str, words: Words
) -> str:
    """The figures of the best at both ends of a run."""
    ends = []
    for value in _ends(values):
        every = dict.fromkeys(shown(found.of(name)[value], quantity, words) for name in names)
        ends.append(listed([*every], words))
    first, last = ends[0], ends[-1]
    return first if first == last else words("compare-span", first=first, last=last)
