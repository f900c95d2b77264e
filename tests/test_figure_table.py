"""The measures of figures: the instrument itself, and the table that it makes of the catalogue."""

from __future__ import annotations

import pytest

from scripts.figure_table import Measures, measured, table
from tests.conftest import Golden


def picture(*paths: str) -> str:
    wires = "".join(f'<g class="wire"><path stroke="#1b2430" d="{path}"/></g>' for path in paths)
    return f'<svg width="642.5" height="90" font-size="14"><text font-size="12"/>{wires}</svg>'


@pytest.mark.parametrize(
    ("paths", "crossings"),
    [
        (("M0 5H20", "M10 0V10"), 1),
        (("M0 5H20", "M10 5V10"), 0),  # a touch
        (("M0 5H20", "M0 5H20"), 0),  # an overlap
        (("M0 0L20 10", "M0 10L20 0"), 1),
        (("M0 0L20 10", "M0 4L20 14"), 0),
        (("M0 0L20 10", "M10 0V20"), 1),
        (("M0 5H20V20", "M10 0V10H30"), 2),
    ],
)
def test_crossings_of_two_nets(paths: tuple[str, str], crossings: int) -> None:
    assert measured(picture(*paths), "right").crossings == crossings


def test_bends_and_lengths() -> None:
    found = measured(picture("M0 0H10H20V5H12", "M0 20L3 24"), "right")
    assert found == Measures(0, 2, 20 + 5 + 8 + 5, 8, 642.5, 12)
    assert measured(picture("M0 5V0"), "down").backward == 5
    assert found.printed == pytest.approx(12 * 0.75 * (85 / 25.4 * 96) / 642.5)


def test_every_figure_of_the_catalogue(golden: Golden) -> None:
    golden("figure-table.txt", "\n".join(table()) + "\n")
