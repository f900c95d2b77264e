"""Places, single errors and several at once."""

from __future__ import annotations

import copy
import importlib
import pickle
import pkgutil
import re
from pathlib import Path

import pytest

import edgewise
from edgewise.circuit.parts import PartFault
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


def _every(kind: type[EdgewiseError]) -> list[type[EdgewiseError]]:
    return [kind, *(deeper for one in kind.__subclasses__() for deeper in _every(one))]


def test_every_error_keeps_its_class_and_what_it_knows_when_it_is_told_again() -> None:
    """Whatever its constructor asks for: at a place, with a prefix, in another process."""
    for module in pkgutil.walk_packages(edgewise.__path__, "edgewise."):
        if module.name != "edgewise.__main__":
            importlib.import_module(module.name)
    kinds = _every(EdgewiseError)
    assert len(kinds) > 10
    for kind in kinds:
        if issubclass(kind, Problems):
            wrong: EdgewiseError = kind([TextError("one"), PartFault("two", "in")])
        else:
            wrong = kind.__new__(kind)  # as the class is, without knowing its constructor
            wrong.__dict__.update(told="one", place=None, known="more")
            wrong.args = ("one",)
        for again in (
            wrong.placed(Place("tide.md", 4, 7)),
            wrong.within("n=4"),
            pickle.loads(pickle.dumps(wrong)),  # noqa: S301  # our own
            copy.copy(wrong),
        ):
            assert type(again) is kind
            assert again.exit_code == wrong.exit_code
            assert [type(e) for e in again.parts()] == [type(e) for e in wrong.parts()]
            if kind is not Problems:
                assert again.__dict__["known"] == "more"
        assert str(wrong.placed(Place("tide.md", 4, 7))).startswith("tide.md:4:7: one")
        assert str(wrong.within("n=4")).startswith("n=4: one")


def test_no_error_is_made_again_by_its_class() -> None:
    """`type(error)(message, place)` fails for a class whose constructor asks for more."""
    for path in Path(edgewise.__path__[0]).rglob("*.py"):
        assert not re.search(r"type\((wrong|single|error|e|why)\)\(", path.read_text("utf-8")), path


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
    assert str(nearest(name, known)) == suggestion
