"""Every block diagram of the catalogue: nothing overlaps, everything keeps its place."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

import pytest

from edgewise import catalogue, run
from edgewise.circuit.builder import Builder
from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace
from edgewise.views.clashes import clashes
from edgewise.views.diagram import diagram
from edgewise.views.drawing import Drawing, svg
from edgewise.views.items import Line, Text
from edgewise.views.picture import Picture, manner
from tests.conftest import Golden
from tests.views.measures import faults, meet_boxes, placed, texts

SIZES: Final = (2, 4, 8, 16)
OPERANDS: Final = {"a": 22, "b": 43, "w": 5, "carry_in": 1}


@pytest.fixture(autouse=True, scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A cache folder of these tests' own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EDGEWISE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@cache
def traced(name: str, size: int) -> Trace:
    """A catalogue design of about this size, run."""
    first = catalogue.find(name).parameters[0].name
    design = catalogue.design(name, **{first: size})
    operands: dict[str, Any] = {}
    for operand in design.operands:
        base, family, _ = operand.name.partition("(")
        if family:
            words = operands.setdefault(base, [])
            words.append((5 + 3 * len(words)) % (1 << operand.width))
        else:
            operands[base] = OPERANDS[base] % (1 << operand.width)
    return run(design, **operands)


def crossings(drawing: Drawing) -> list[str]:
    """Say which texts lie on a line."""
    said = []
    lines = [(item, by) for item, by in placed(drawing.items) if isinstance(item, Line)]
    for text in texts(drawing):
        for line, by in lines:
            half = line.weight / 2
            for (x1, y1), (x2, y2) in pairwise(line.points):
                room = (
                    min(x1, x2) - half + by[0],
                    min(y1, y2) - half + by[1],
                    max(x1, x2) + half + by[0],
                    max(y1, y2) + half + by[1],
                )
                if (x1 == x2 or y1 == y2) and meet_boxes(text.box, room):
                    said.append(f"{text.text!r} lies on a line at {room}")
    return said


def sound(trace: Trace, **options: Any) -> list[str]:
    """All that is wrong with a figure."""
    choice = {"opened": (), "clock": "wedge", "symbols": "distinctive"}
    chosen = {**choice, **{{"open": "opened"}.get(k, k): v for k, v in options.items()}}
    picture = Picture(trace, manner(trace, **chosen))
    drawing = diagram(trace, **options)
    return [*clashes(picture.layout), *faults(drawing), *crossings(drawing)]
