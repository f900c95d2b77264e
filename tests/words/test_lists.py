"""Lists in a sentence."""

from __future__ import annotations

from edgewise.words.lists import listed


def test_names_in_a_sentence() -> None:
    assert listed([], most=4) == ""
    assert listed(["A"], most=4) == "A"
    assert listed(["A", "B"], most=4) == "A and B"
    assert listed(["A", "B", "C", "D", "E"], most=4) == "A, B, C, D and 1 more"
