"""The table of figures in their columns: one that fits each, one that is broken into panels."""

from __future__ import annotations

from typing import TYPE_CHECKING

from edgewise import catalogue
from edgewise.views.drawing.column import column
from scripts.column_table import PLACES, table

if TYPE_CHECKING:
    import pytest


def test_no_letter_is_too_small_anywhere(monkeypatch: pytest.MonkeyPatch) -> None:
    names = ("brent-kung-adder", "bit-serial-multiplier")
    monkeypatch.setattr(catalogue, "ORDER", names)
    heading, *lines = table()
    assert tuple(heading.split()) == PLACES
    assert [line.split()[0] for line in lines] == list(names)
    for line in lines:
        points = [float(one) for one in line.split()[1:] if one[0].isdigit()]
        least = [round(column(place).least, 1) for place in PLACES]
        assert all(size >= low for size, low in zip(points, least, strict=True))
    assert "/" not in lines[0]
    assert lines[1].count("/") == len(PLACES)
