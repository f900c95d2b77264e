"""The mark under a path: what it refuses, each message whole."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from edgewise import catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.views.diagram.block_diagram import diagram


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ([("C.d", "12")], "a path has a net and an end at least"),
        (
            [("B(0)", "4"), ("D.d", "12")],
            "the path can't end at D.d: there is no such port; there is: A, B, C, FA, S, carry,"
            " sum",
        ),
        (
            [("B(0)", "4"), ("cary", "12")],
            "the path can't end at cary: there is no such port; did you mean carry?",
        ),
        (
            [("FA.carry", "8"), ("C.d", "12")],
            "there is no FA.carry here; did you mean FA.carry-in?",
        ),
        ([("B", "4"), ("C.d", "12")], "a path has single bits; B has 4"),
        ([("B(4)", "4"), ("C.d", "12")], "B has no bit 4; its bits are 3..0, MSB first"),
        (
            [("B", "4"), ("FA.summ", "6"), ("C.d", "12")],
            "a path has single bits; B has 4\nthere is no FA.summ here; did you mean FA.sum?",
        ),
    ],
)
def test_a_path_that_is_none_is_refused(path: Sequence[tuple[str, str]], message: str) -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    with pytest.raises(EdgewiseError) as wrong:
        diagram(trace, path=path)
    assert str(wrong.value) == message


def test_no_path_is_no_mark() -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    assert diagram(trace, path=()) == diagram(trace)
