"""The fewest examples that show every fault: by trying all, and where the search ends."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.errors import DesignError
from edgewise.study.faults import covering_set as study
from edgewise.study.faults.covering_set import cover, fewest_examples


@given(st.lists(st.sets(st.integers(0, 6), min_size=1), min_size=1, max_size=8))
def test_the_fewest_examples_by_trying_all(needed: list[set[int]]) -> None:
    masks = [sum(1 << i for i in some) for some in needed]
    fewest = next(
        size
        for size in range(1, 8)
        if any(all(n & {*some} for n in needed) for some in combinations(range(7), size))
    )
    found, sure = cover(masks)
    assert sure
    assert len(found) == fewest
    assert all(n & {*found} for n in needed)


def test_a_search_cut_short_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(study, "_TRIES", 0)
    found = fewest_examples(catalogue.design("serial-adder", n=3))
    assert not found.fewest
    assert found.operands


def test_too_many_operand_bits() -> None:
    with pytest.raises(DesignError) as wrong:
        fewest_examples(catalogue.design("serial-adder", n=7))
    assert str(wrong.value) == (
        "serial-adder has 14 operand bits; the fewest examples are looked for up to 12: take"
        " smaller parameters"
    )
