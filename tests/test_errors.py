"""Places, single errors and several at once."""

from __future__ import annotations

import pytest

from edgewise.errors import (
    CircuitError,
    DesignError,
    EdgewiseError,
    Place,
    Problems,
    TextError,
    UnknownBit,
    nearest,
    raise_all,
)


def test_place_text() -> None:
    assert str(Place("tide.md")) == "tide.md"
    assert str(Place("tide.md", 4)) == "tide.md:4"
    assert str(Place("tide.md", 4, 7)) == "tide.md:4:7"


def test_place_moves_only_where_it_has_a_column() -> None:
    assert Place("tide.md", 4, 7).moved(3) == Place("tide.md", 4, 10)
    assert Place("tide.md", 4).moved(3) == Place("tide.md", 4)


def test_every_error_has_the_one_base_and_its_exit_code() -> None:
    for kind in (TextError, CircuitError, DesignError, UnknownBit, Problems):
        assert issubclass(kind, EdgewiseError)
        assert kind.exit_code == 2


def test_problems_keep_text_order_inside_a_file_and_files_as_they_came() -> None:
    problems = Problems(
        [
            EdgewiseError("late", Place("b.yaml", 9, 2)),
            EdgewiseError("other file", Place("a.yaml", 1, 1)),
            EdgewiseError("early", Place("b.yaml", 9, 1)),
            EdgewiseError("earlier", Place("b.yaml", 2, 5)),
        ]
    )
    assert str(problems) == (
        "b.yaml:2:5: earlier\nb.yaml:9:1: early\nb.yaml:9:2: late\na.yaml:1:1: other file"
    )
    assert problems.place is None
    assert [single.message for single in problems.parts()] == [
        "earlier",
        "early",
        "late",
        "other file",
    ]


def test_problems_inside_problems_are_flat() -> None:
    inner = Problems([EdgewiseError("one"), EdgewiseError("two")])
    assert len(Problems([inner, EdgewiseError("three")]).errors) == 3


def test_raise_all() -> None:
    raise_all([])
    one = EdgewiseError("x", Place("a", 1))
    with pytest.raises(EdgewiseError) as single:
        raise_all([one])
    assert single.value is one
    with pytest.raises(Problems, match="a:1: x\na:2: y"):
        raise_all([EdgewiseError("y", Place("a", 2)), one])


def test_an_error_that_reads_the_same_is_reported_once() -> None:
    twice = [EdgewiseError("x", Place("a", 1)), EdgewiseError("x", Place("a", 1))]
    with pytest.raises(EdgewiseError) as single:
        raise_all(twice)
    assert not isinstance(single.value, Problems)


@pytest.mark.parametrize(
    ("name", "known", "suggestion"),
    [
        ("cary-out", ["sum", "carry-out"], "; did you mean carry-out?"),
        ("SUM", ["sum", "carry-out"], "; did you mean sum?"),
        ("zzz", ["sum", "carry-out"], "; there is: carry-out, sum"),
        ("zzz", [], ""),
        ("zzz", [f"n{i:02}" for i in range(14)], ("; there is: n00, n01, n02, n03, n04, n05, n06, "
         "n07, n08, n09, n10, n11, …")),
    ],
)  # fmt: skip
def test_nearest(name: str, known: list[str], suggestion: str) -> None:
    assert nearest(name, known) == suggestion
