"""Notes under a comparison: what its figures mean, and where they end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Final

from edgewise.study.compare.wording import spans
from edgewise.study.cost.measure import SURE
from edgewise.study.cost.switching import RESULTS, SEED
from edgewise.study.cost.technology import number
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.study.compare.figures import Figures
    from edgewise.study.cost.measure import Cost

_NAMED: Final = 6
"""Designs named in one note, at most."""


def notes(found: Figures, rows: Sequence[Cost], words: Words = ENGLISH) -> Iterator[str]:
    """All notes on a table of these rows, the model first."""
    model, units = found.model, found.units(words)
    told = f"compare-model-{model.name}"
    about = words(told) if told in words else model.about
    yield words("compare-model", name=model.name, about=about)
    yield words("compare-units", area=units["area"], time=units["time"])
    if found.truths(rows, words):
        yield words("compare-true-delay")
    if "toggles" in found.quantities:
        yield from _toggles(found, words)
    yield from _unlike(found, words)
    yield from _idle(found, words)
    yield from _registers(found, words)
    for name in found.designs:
        gone = [value for design, value, _ in found.absent if design == name]
        if gone:
            why = next(why for design, _, why in found.absent if design == name)
            at = f"{found.parameter} = {spans(gone, found.values, words)}"
            yield words("compare-absent", name=name, at=at, why=why)


def _those(names: list[str], words: Words) -> str:
    if len(names) <= _NAMED:
        return listed(names, words)
    return words("compare-those", count=len(names))


def _toggles(found: Figures, words: Words) -> Iterator[str]:
    """What was counted, how sure it is, and what was not counted."""
    yield words("compare-toggles", results=RESULTS, seed=SEED, sure=SURE)
    yield words("compare-toggles-in-time")
    value = found.values[-1]
    edges = sorted({c.edges for c in found.at(value) if c.flip_flops and c.toggles is not None})
    if edges:
        first, last = 2 * edges[0], 2 * edges[-1]
        most = str(first) if first == last else words("compare-span", first=first, last=last)
        yield words("compare-clock-toggles", most=most, at=f"{found.parameter} = {value}")


def _unlike(found: Figures, words: Words) -> Iterator[str]:
    """Who is not ranked with whom."""
    if len(found.groups) < 2:
        return
    alone = [group[0] for group in found.groups if len(group) == 1]
    yield words("compare-ranked")
    if alone:
        yield words("compare-alone", names=_those(alone, words), count=len(alone))


def _registers(found: Figures, words: Words) -> Iterator[str]:
    """Who keeps words in registers, where not all do."""
    there = [name for name in found.designs if found.of(name)]
    clocked = [n for n in there if any(c.flip_flops for c in found.of(n).values())]
    if clocked and len(clocked) < len(there):
        yield words(
            "compare-registers",
            names=_those(clocked, words),
            count=len(clocked),
            rest=len(there) - len(clocked),
        )


def _idle(found: Figures, words: Words) -> Iterator[str]:
    """What was left out because the procedure never uses it, with the figures of all."""
    for name in found.designs:
        waiting = (one for one in found.of(name).items() if one[1].built is not None)
        for value, cost in islice(waiting, 1):
            built = cost.built
            assert built is not None
            yield words(
                "compare-idle",
                name=name,
                inputs=listed(cost.idle, words),
                count=len(cost.idle),
                at=f"{found.parameter} = {value}",
                area=words.decimal(number(cost.area)),
                built_area=words.decimal(number(built.area)),
                unit=found.units(words)["area"],
                changed="period" if cost.period != built.period else "area",
                period=words.decimal(number(cost.period or 0)),
                built_period=words.decimal(number(built.period or 0)),
            )
