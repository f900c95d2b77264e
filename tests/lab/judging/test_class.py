"""A class's submissions, in the styles that learners write: every verdict, and what explains it.

Each file in ``submissions/`` says in its first line what it is held against, and what it
is:
``right``; ``wrong`` and the explanation that is to be among those that are proved, or none; or
``refused`` and a piece of the reason. The mistakes are common practice, no source.
"""

from __future__ import annotations

import re
import shutil
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.lab.judging.explanation import Rivals
from edgewise.lab.judging.submission import judge

FOLDER: Final = Path(__file__).with_name("submissions")
FILES: Final = sorted(path for path in FOLDER.iterdir() if path.suffix != ".vh")
_HEAD: Final = re.compile(
    r"(?://|--) against (?P<design>\S+) n=(?P<n>\d+): (?P<outcome>right|wrong|refused)"
    r"(?:, ?(?P<why>.*))?"
)


@dataclass(frozen=True)
class Handed:
    """What the first line of a submission says."""

    design: str
    n: int
    outcome: str
    why: str


def handed(path: Path) -> Handed:
    found = _HEAD.fullmatch(path.read_text("utf-8").splitlines()[0])
    assert found, path.name
    return Handed(found["design"], int(found["n"]), found["outcome"], found["why"] or "")


@cache
def rivals(name: str, n: int) -> Rivals:
    return Rivals(catalogue.design(name, n=n))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_the_verdict_is_right(path: Path) -> None:
    if path.suffix in (".vhd", ".vhdl") and shutil.which("ghdl") is None:
        pytest.skip("ghdl is not installed")
    told = handed(path)
    known = rivals(told.design, told.n)
    verdict = judge(path, known.design, known)
    assert verdict.outcome == told.outcome, list(verdict.sentences())
    if told.outcome == "refused":
        assert told.why in verdict.reason
    else:
        names = [one.name for one in verdict.explanations]
        assert told.why in names if told.why else not names
        assert verdict.whole


def test_the_class_is_large_and_mixed() -> None:
    outcomes = Counter(handed(path).outcome for path in FILES)
    assert outcomes["right"] >= 35
    assert outcomes["wrong"] >= 45
    assert Counter(path.suffix for path in FILES).keys() == {".v", ".sv", ".vhd", ".vhdl"}
