"""Parts have room for what stands in them, in both styles of symbols.

Outside: nothing; what may not overlap is common sense, no source.
"""

from __future__ import annotations

import pytest

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.clipping import bounds
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.shapes import Group, Item, Text
from edgewise.views.drawing.text_metrics import Box, box
from tests.views.runs import traced


def parts(items: tuple[Item, ...]) -> list[Group]:
    found: list[Group] = []
    for item in items:
        if isinstance(item, Group):
            found += [item] if item.kind == "part" else parts(item.items)
    return found


def meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


SERIAL = ["serial-adder", "serial-accumulator-cleared", "serial-subtractor"]
CASES = [*((name, ()) for name in catalogue.ORDER), *((name, ("FA",)) for name in SERIAL)]


@pytest.mark.parametrize("style", ["distinctive", "rectangular"])
@pytest.mark.parametrize(("name", "opened"), CASES)
def test_no_label_lies_on_a_cell(name: str, opened: tuple[str, ...], style: Style) -> None:
    trace = traced(name, 4)
    for part in parts(diagram(trace, 0, open=opened, symbols=style).items):
        cells = [b for each in part.items if isinstance(each, Group) for b in bounds(each)]
        labels = [box(each) for each in part.items if isinstance(each, Text)]
        for cell in cells:
            assert not [label for label in labels if meet(label, cell)], part.name
