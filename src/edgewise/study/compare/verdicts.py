"""The sentences of a comparison: which design is smaller, faster, better, and where.

Each says no more than was compared: a run of numbers ends where the comparison does, figures of a
sample that can't be told apart are no order, and designs that do different things are only set side
by side with what differs.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from typing import TYPE_CHECKING, Final

from edgewise.study.compare import equal_function
from edgewise.study.compare.wording import last_run, listed, others, plain_name, spans
from edgewise.study.cost.critical_path import number

if TYPE_CHECKING:
    from edgewise.study.compare.figures import Figures
    from edgewise.study.cost.measure import Cost

MOST_PAIRED: Final = 4
"""Up to so many designs every pair has its sentences; beyond, only the best are told."""
TIMED: Final = ("time", "period", "area_delay", "throughput")
"""Quantities that a critical path decides."""
_WORDS: Final = {
    "area": ("smallest", "smaller"),
    "logic": ("smallest without flip-flops", "smaller without flip-flops"),
    "time": ("fastest", "faster"),
    "area_delay": ("best in area-delay product", "better in area-delay product"),
    "toggles": ("quietest", "quieter"),
}
"""What the least of a quantity is called, and what less of it is."""


def sentences(found: Figures) -> Iterator[str]:
    """Every answer: pair by pair, or the best of many."""
    for quantity in found.quantities:
        if len(found.designs) > MOST_PAIRED:
            yield from _best_of_each(found, quantity)
        else:
            for one, other in combinations(found.designs, 2):
                yield pair(found, one, other, quantity)


# ---------------------------------------------------------------------- two designs


def pair(found: Figures, one: str, other: str, quantity: str) -> str:
    """How two designs compare in a quantity, with the crossovers if there are any."""
    first, second = found.of(one), found.of(other)
    both = [value for value in found.values if value in first and value in second]
    if not both:
        return f"{one} and {other} are never there at the same {found.parameter}."
    signs = {value: first[value].order(second[value], quantity) for value in both}
    ends = _ends(both)
    if set(signs.values()) == {0}:
        text = f"{one} and {other} {_tied(quantity)} at every {_range(found, both)}"
        if quantity == "toggles":
            text += f": {_figures(found, one, other, quantity, ends)}"
        return text + _limits(found, (one, other), quantity, ends) + "."
    sign = next(sign for sign in reversed(signs.values()) if sign)
    (winner, loser) = (one, other) if sign < 0 else (other, one)
    text = f"{winner} is {_WORDS[quantity][1]} than {loser}"
    less = [value for value in both if signs[value] == sign]
    if len(less) == len(both):
        text += f" at every {_range(found, both)}"
        text += f": {_figures(found, winner, loser, quantity, ends)}"
    else:
        start, end = last_run(less, both), less[-1]
        i, j = both.index(start), both.index(end)
        # Both sides of the crossover: before the run, or behind one that begins at once.
        ends = [both[i - 1], start] if i else [end, both[j + 1]]
        text += f"{_run(found, start, end, both)}: {_figures(found, winner, loser, quantity, ends)}"
        text += _elsewhere(found, (winner, loser), quantity, signs, (start, end))
    return text + _limits(found, (one, other), quantity, sorted({*ends, *_ends(both)})) + "."


def _elsewhere(
    found: Figures,
    ranked: tuple[str, str],
    quantity: str,
    signs: dict[int, int],
    run: tuple[int, int],
) -> str:
    """What holds outside of the run that was told, in which the first design is better."""
    both, word, winner_sign = list(signs), _WORDS[quantity][1], signs[run[0]]
    told = {
        winner_sign: f"{ranked[0]} is {word}",
        -winner_sign: f"{ranked[1]} is {word}",
        0: "no difference to be seen" if quantity == "toggles" else "equal",
    }
    rest = others(signs, both, *run, winner_sign)
    pieces = [f"{told[sign]} at {found.parameter} = {spans(v, both)}" for sign, v in rest]
    return "; " + ", ".join(pieces) if pieces else ""


def _run(found: Figures, start: int, end: int, both: Sequence[int]) -> str:
    """A run of numbers, not said to go on beyond what was compared."""
    name = found.parameter
    last = ", the last compared" if end == both[-1] else ""
    return (
        f" at {name} = {start}{last}" if start == end else f" from {name} = {start} to {end}{last}"
    )


def _tied(quantity: str) -> str:
    if quantity == "toggles":
        return "can't be told apart in toggles"
    return f"are equal in {plain_name(quantity)}"


def _ends(values: Sequence[int]) -> list[int]:
    return [values[0]] if len(values) == 1 else [values[0], values[-1]]


def _figures(found: Figures, one: str, other: str, quantity: str, values: Sequence[int]) -> str:
    """The figures of two designs at some numbers."""
    unit = {
        "time": f" {found.model.time_unit}",
        "area": f" {found.model.area_unit}",
        "logic": f" {found.model.area_unit}",
    }.get(quantity, "")
    pieces = []
    for value in values:
        costs = found.of(one)[value], found.of(other)[value]
        first, second = (shown(cost, quantity) for cost in costs)
        pieces.append(f"{first} against {second}{unit} at {found.parameter} = {value}")
    return "; ".join(pieces)


def shown(cost: Cost, quantity: str) -> str:
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
        return f"{float(figure):.1f} ± {cost.toggles_error:.1f}"
    return number(figure)


def _range(found: Figures, values: Sequence[int]) -> str:
    return f"{found.parameter} = {spans(values, found.values)}"


# ---------------------------------------------------------------------- what limits an answer


def _limits(found: Figures, names: Sequence[str], quantity: str, values: Sequence[int]) -> str:
    """In the same sentence: what differs, and critical paths that no operands take."""
    first, *rest = (found.some(name) for name in names)
    told = [equal_function.difference(first, other) for other in rest]
    if quantity in TIMED:
        told += sooner(found, names, values)
    return "".join(f"; {one}" for one in told if one)


def sooner(found: Figures, names: Sequence[str], values: Sequence[int]) -> Iterator[str]:
    """Designs whose critical path is known to be false at some of these numbers."""
    for name in names:
        false = [v for v in values if v in found.of(name) and found.never_taken(name, v)]
        if false:
            at = f"{found.parameter} = {spans(false, found.values)}"
            yield f"{name} settles sooner than its critical path, which no operands take, at {at}"


# ---------------------------------------------------------------------- the best of many


def _best_of_each(found: Figures, quantity: str) -> Iterator[str]:
    """Of each group of designs that are alike: who has the least of a quantity."""
    ranked = [group for group in found.groups if len(group) > 1]
    kinds = {group: found.some(group[0]).does for group in found.groups}
    for group in ranked:
        rest = [does for other, does in kinds.items() if other != group]
        whose = f" of those {equal_function.label(kinds[group], rest)}" if rest else ""
        yield f"{_WORDS[quantity][0].capitalize()}{whose}: {_best(found, group, quantity)}."


def _best(found: Figures, group: Sequence[str], quantity: str) -> str:
    runs: list[tuple[tuple[str, ...], list[int]]] = []
    for value in found.values:
        ranks = found.ranks(value, quantity)
        best = tuple(name for name in group if ranks.get(name) == 1)
        if runs and runs[-1][0] == best:
            runs[-1][1].append(value)
        elif best:
            runs.append((best, [value]))
    told = []
    for names, values in runs:
        told.append(
            f"{listed(names)} at {_range(found, values)} ({_least(found, names, values, quantity)})"
        )
    text = "; ".join(told)
    if quantity == "toggles" and any(len(names) > 1 for names, _ in runs):
        text += "; those named together can't be told apart"
    # Of so many designs the critical paths are looked at where the range begins and ends.
    return text + _limits(found, group, quantity, _ends(found.values))


def _least(found: Figures, names: Sequence[str], values: Sequence[int], quantity: str) -> str:
    """The figures of the best at both ends of a run."""
    ends = []
    for value in _ends(values):
        every = dict.fromkeys(shown(found.of(name)[value], quantity) for name in names)
        ends.append(" and ".join(every))
    return ends[0] if ends[0] == ends[-1] else " to ".join(ends)
