"""The figures of slides: an arrow is whole, and nothing moves from one slide to the next."""

from __future__ import annotations

from edgewise import catalogue, run
from edgewise.lesson.pieces import Stage
from edgewise.publish.slides.figures import Figures
from edgewise.publish.slides.shape import SHAPES
from edgewise.views.diagram.pointer import SHAPE
from edgewise.views.drawing.shapes import Group
from edgewise.words.messages import ENGLISH


def figures(*pointed: str) -> Figures:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    return Figures(trace, Stage(), SHAPES["16:9"].content, "diagram", ENGLISH, pointed)


def test_an_arrow_at_what_stands_on_top_is_whole() -> None:
    (moved,) = figures("A").diagram(4, ("A",)).items
    assert isinstance(moved, Group)
    arrow = next(one for one in moved.items if isinstance(one, Group) and one.kind == "pointer")
    assert moved.y + arrow.y + min(y for _, y in SHAPE) >= 0


def test_a_step_without_an_arrow_leaves_the_same_room() -> None:
    made = figures("A")
    with_arrow, without = made.diagram(4, ("A",)), made.diagram(5)
    assert (with_arrow.width, with_arrow.height) == (without.width, without.height)
    assert figures("C").diagram(5).height < without.height
