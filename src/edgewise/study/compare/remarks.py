"""Notes under a comparison: what its figures mean, and where they end."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from edgewise.study.compare.wording import listed, spans
from edgewise.study.cost import critical_path
from edgewise.study.cost.critical_path import number
from edgewise.study.cost.measure import SURE
from edgewise.study.cost.switching import RESULTS, SEED

if TYPE_CHECKING:
    from edgewise.study.compare.figures import Figures

_NAMED: Final = 6
"""Designs named in one note, at most."""


def notes(found: Figures) -> Iterator[str]:
    """All notes, the model first."""
    model = found.model
    yield f"Model {model.name}: {model.about}."
    yield f"Area in {model.area_unit}, time in {model.time_unit}; {critical_path.NOTE}."
    if "toggles" in found.quantities:
        yield from _toggles(found)
    yield from _unlike(found)
    yield from _idle(found)
    there = [name for name in found.designs if found.of(name)]
    clocked = [n for n in there if any(c.flip_flops for c in found.of(n).values())]
    if clocked and len(clocked) < len(there):
        rest = "the others keep" if len(there) - len(clocked) > 1 else "the other keeps"
        yield (
            f"Flip-flops count: {_those(clocked)} {'keep' if len(clocked) > 1 else 'keeps'} words"
            f" in registers, {rest} none."
        )
    for name in found.designs:
        gone = [value for design, value, _ in found.absent if design == name]
        if gone:
            why = next(why for design, _, why in found.absent if design == name)
            where = spans(gone, found.values)
            yield f"{name} is not there at {found.parameter} = {where}: {why}."


def _those(names: list[str]) -> str:
    return listed(names) if len(names) <= _NAMED else f"{len(names)} of these designs"


def _toggles(found: Figures) -> Iterator[str]:
    """What was counted, how sure it is, and what was not counted."""
    yield (
        f"Toggles: outputs of gates and flip-flops that change in one result, on average over"
        f" {RESULTS} random results (seed {SEED}), hazards left out; ± is the standard error, and"
        f" what is within {SURE} standard errors of the difference counts as equal."
    )
    value = found.values[-1]
    edges = sorted({c.edges for c in found.at(value) if c.flip_flops and c.toggles is not None})
    if edges:
        most = f"{2 * edges[0]}" if len(edges) == 1 else f"{2 * edges[0]} to {2 * edges[-1]}"
        yield (
            "The clock's own toggles, 2 an edge at each flip-flop, are not in these figures:"
            f" {most} a flip-flop in one result at {found.parameter} = {value}."
        )


def _unlike(found: Figures) -> Iterator[str]:
    """Who is not ranked with whom."""
    if len(found.groups) < 2:
        return
    alone = [group[0] for group in found.groups if len(group) == 1]
    yield "Ranked are designs with the same operands and outputs, each group for itself."
    if alone:
        verb = "have no equal" if len(alone) > 1 else "has no equal"
        yield f"{_those(alone)} {verb} here, hence no rank."


def _idle(found: Figures) -> Iterator[str]:
    """What was left out because the procedure never uses it, with the figures of all."""
    for name in found.designs:
        for value, cost in found.of(name).items():
            if cost.built is None:
                continue
            inputs = listed(cost.idle)
            area = f"{number(cost.area)} instead of {number(cost.built.area)}"
            told = (
                f"{name}: {inputs} {'stays' if len(cost.idle) == 1 else 'stay'} the same at every"
                f" edge, so the hardware that only waits for a change is left out: at"
                f" {found.parameter} = {value} area {area} {found.model.area_unit}"
            )
            if cost.period != cost.built.period and cost.period and cost.built.period:
                told += f", period {number(cost.period)} instead of {number(cost.built.period)}"
            yield told + "."
            break
