"""The measures themselves find what they are made to find."""

from __future__ import annotations

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Letters, Path, Text, rectangle_data
from edgewise.views.drawing.svg import Drawing
from tests.views.measures import faults, pairs


def drawing(*items: Text | Group | Letters | Path) -> Drawing:
    return Drawing(100, 50, "a figure", "A figure.", items)


def test_texts_that_overlap_are_found() -> None:
    assert faults(drawing(Text(10, 20, "sum"), Text(20, 24, "carry"))) == ["'sum' meets 'carry'"]


def test_a_group_carries_its_texts_along() -> None:
    there = Group((Text(10, 20, "sum"),), x=40)
    assert not faults(drawing(Text(10, 20, "sum"), there))
    assert faults(drawing(Text(50, 20, "sum"), there)) == ["'sum' meets 'sum'"]


def test_a_text_outside_the_picture_is_found() -> None:
    assert faults(drawing(Text(90, 20, "carry"))) == ["'carry' leaves the picture"]
    assert faults(drawing(Text(10, 6, "carry"))) == ["'carry' leaves the picture"]


def test_the_ground_of_each_letter_is_found() -> None:
    solid = Path(rectangle_data(10, 10, 20, 20), fill=theme.INK)
    digits = Letters((20, 40), 25, "10", (theme.PAPER, theme.INK))
    assert pairs(drawing(solid, digits)) == {(theme.PAPER, theme.INK), (theme.INK, theme.PAPER)}
