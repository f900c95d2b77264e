"""The places of a film's picture: nothing covers what is to be read."""

from __future__ import annotations

import pytest

from edgewise import catalogue, run
from edgewise.publish.film.board import MARGIN, WIDTH, Board
from edgewise.publish.film.pointer import pointing
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.shapes import Line, Text
from edgewise.words.messages import ENGLISH

RUNS = {
    "serial-adder": ({"n": 3}, {"a": 5, "b": 3}),
    "ring-counter": ({"n": 4}, {}),
    "serial-in-serial-out": ({"n": 4}, {"w": 6}),
    "shift-add-multiplier": ({"n": 4}, {"a": 9, "b": 11}),
    "ripple-carry-adder": ({"n": 4}, {"a": 9, "b": 11, "carry_in": 0}),
}


@pytest.fixture(params=RUNS)
def board(request: pytest.FixtureRequest) -> Board:
    given, operands = RUNS[request.param]
    trace = run(catalogue.design(request.param, **given), **operands)
    return Board(Picture(trace, Manner()), trace.columns, "Rain", ENGLISH)


def test_an_arrow_does_not_reach_over_the_heading(board: Board) -> None:
    heading = next(iter(board.panels(0)))
    line = next(item.points[0][1] for item in heading.items if isinstance(item, Line))
    for element in board.picture.scene.walk():
        found = pointing(board, (element.id,))
        assert found is None or found.reach[1] >= line, element.id


def test_every_panel_is_inside_the_picture(board: Board) -> None:
    for row in range(board.trace.edges + 1):
        for panel in board.panels(row):
            assert panel.x >= 0
            assert panel.y >= 0
        box = board.advance(row)
        assert box is None or box[0] + box[2] <= WIDTH - MARGIN + 8


def test_without_edges_the_title_is_the_heading() -> None:
    given, operands = RUNS["ripple-carry-adder"]
    trace = run(catalogue.design("ripple-carry-adder", **given), **operands)
    board = Board(Picture(trace, Manner()), trace.columns, "Rain", ENGLISH)

    def texts(section: str) -> list[str]:
        items = next(iter(board.panels(0, section))).items
        return [item.text for item in items if isinstance(item, Text) and item.text]

    assert texts("") == ["Rain"]
    assert texts("Carry") == ["Carry", "Rain"]
