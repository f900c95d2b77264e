"""Runs of catalogue designs for the tests of figures, and all that can be wrong with one."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from typing import Any, Final

from edgewise import catalogue, run
from edgewise.design import Design
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.shapes import Line
from edgewise.views.drawing.svg import Drawing
from edgewise.views.drawing.text_metrics import Box
from tests.views.clashes import clashes
from tests.views.measures import faults, placed, texts

SIZES: Final = (2, 4, 8, 16)
OPERANDS: Final = {"a": 22, "b": 43, "w": 5, "carry_in": 1}


@cache
def traced(name: str, size: int) -> Trace:
    """A catalogue design of about this size, run."""
    first = catalogue.find(name).parameters[0].name
    return ran(catalogue.design(name, **{first: size}))


def ran(design: Design) -> Trace:
    operands: dict[str, Any] = {}
    for operand in design.operands:
        base, family, _ = operand.name.partition("(")
        if family:
            words = operands.setdefault(base, [])
            words.append((5 + 3 * len(words)) % (1 << operand.width))
        else:
            operands[base] = operand.number(OPERANDS.get(base, 1) % (1 << operand.width))
    return run(design, **operands)


def meets(a: Box, b: Box) -> bool:
    slack = 0.25
    return all(a[i] + slack < b[i + 2] and b[i] + slack < a[i + 2] for i in (0, 1))


def crossings(drawing: Drawing) -> list[str]:
    """Say which texts lie on a line."""
    said = []
    lines = [(item, by) for item, by in placed(drawing.items) if isinstance(item, Line)]
    for text in texts(drawing):
        for line, (x, y, _, _) in lines:
            half = line.weight / 2
            for (x1, y1), (x2, y2) in pairwise(line.points):
                left, right = sorted((x1 + x, x2 + x))
                top, bottom = sorted((y1 + y, y2 + y))
                wide, high = (half, 0.0) if x1 == x2 else (0.0, half)
                room = left - wide, top - high, right + wide, bottom + high
                if (x1 == x2 or y1 == y2) and meets(text.box, room):
                    said.append(f"{text.text!r} lies on the line {room}")
    return said


def wrong(trace: Trace, **options: Any) -> list[str]:
    """All that is wrong with a figure."""
    chosen = {{"open": "opened"}.get(key, key): value for key, value in options.items()}
    picture = Picture(trace, manner(trace.design.circuit, **chosen))
    drawing = diagram(trace, **options)
    return [*clashes(picture.layout), *faults(drawing), *crossings(drawing)]
