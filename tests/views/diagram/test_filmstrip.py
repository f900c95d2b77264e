"""Filmstrips: one diagram in several rows."""

from __future__ import annotations

from typing import Any

import pytest

from edgewise import catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.filmstrip import filmstrip
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Letters, Text
from edgewise.views.drawing.svg import svg
from tests.conftest import Golden
from tests.views.measures import faults, placed, texts


def trace() -> Trace:
    return run(catalogue.design("serial-adder", n=4), a=6, b=3)


def strips(drawing: Any) -> list[Group]:
    return [item for item in drawing.items if isinstance(item, Group) and item.kind == "strip"]


def test_golden(golden: Golden) -> None:
    text = svg(filmstrip(trace(), range(5, 8), clock="hidden", legend=True))
    assert len(text) < 60_000
    golden("figure-filmstrip-serial-adder.svg", text)


def test_every_strip_has_the_same_places() -> None:
    made = strips(filmstrip(trace(), range(9)))
    heads = [item.text for strip in made for item in strip.items if isinstance(item, Text)]
    assert heads[0] == "at the start, inputs of phase load"
    assert heads[5] == "after edge 5, inputs of phase add"
    seen = set()
    for strip in made:
        (picture,) = (item for item in strip.items if isinstance(item, Group))
        parts = (i for i in picture.items if isinstance(i, Group) and i.kind == "part")
        seen.add(tuple((part.name, part.x, part.y) for part in parts))
    assert len(seen) == 1


@pytest.mark.parametrize(("across", "columns"), [(1, 1), (2, 2), (5, 5), (None, 1)])
def test_side_by_side_or_in_a_column(across: int | None, columns: int) -> None:
    drawing = filmstrip(trace(), range(4, 9), across=across)
    assert len({strip.x for strip in strips(drawing)}) == columns
    assert not faults(drawing)


def test_only_what_changed_is_in_full_ink() -> None:
    run_ = trace()
    drawing = filmstrip(run_, [6], clock="hidden")
    for item, _ in placed(drawing.items):
        if isinstance(item, Letters):
            assert set(item.fills) <= {theme.INK, theme.SLATE, theme.PAPER}
    inked = sum(
        fill == theme.INK
        for item, _ in placed(drawing.items)
        if isinstance(item, Letters)
        for fill in item.fills
    )
    names = ("A", "B", "C", "S")
    changed = sum(
        1
        for name in names
        for i in range(run_.word(name, 6).width)
        if run_.changed(name, 6).bit(i) and run_.word(name, 6).bit(i) != 1
    )
    assert inked == changed


def test_the_words_are_those_of_the_diagram() -> None:
    digits = sorted("".join(text.text for text in texts(filmstrip(trace(), [5]))))
    assert digits == sorted("".join(text.text for text in texts(diagram(trace(), 5))))


@pytest.mark.parametrize(
    ("rows", "title"),
    [
        ([5], "after edge 5"),
        ([5, 6], "after edges 5 and 6"),
        ([2, 5, 7], "after edges 2, 5 and 7"),
        ([0, 2], "at the start and after edge 2"),
        ([0, 2, 5], "at the start and after edges 2 and 5"),
        (range(4, 9), "from edge 4 to edge 8"),
        (range(5), "from the start to edge 4"),
    ],
)
def test_titles(rows: Any, title: str) -> None:
    subject = "bit-serial adder, n = 4, a = 6, b = 3"
    assert filmstrip(trace(), rows).title == f"Block diagram {title}: {subject}"


@pytest.mark.parametrize(
    ("rows", "options", "message"),
    [
        ([], {}, "no row was chosen; the rows are 0..8"),
        ([3, 12], {}, "there is no row 12: the rows are 0..8"),
        (
            [1] * 65,
            {},
            "65 rows are too many for one filmstrip; choose up to 64, for example 1..6",
        ),
        ([1], {"across": 0}, "0 strips side by side can't be drawn; expected 1 or more"),
        ([1], {"open": ["Fa"]}, "there is no part Fa to open; did you mean FA?"),
    ],
)
def test_errors(rows: list[int], options: dict[str, Any], message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        filmstrip(trace(), rows, **options)
    assert str(caught.value) == message
