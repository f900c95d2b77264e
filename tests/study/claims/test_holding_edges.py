"""At which rows a false claim would be true: every row named is one, every other is not."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.study.claims.holding_edges import Elsewhere
from edgewise.study.claims.proof_request import prove

LAST = 14


def rows_in(sentence: str, last: int) -> set[int]:
    """Read the rows that a sentence names, apart from what made it."""
    rows: set[int] = {0} if "at the start" in sentence else set()
    if found := re.search(r"from edge (\d+) on", sentence):
        rows |= set(range(int(found[1]), last + 1))
    after = re.search(r"after edges? ([\d to,and]*\d)", sentence)
    for low, high in re.findall(r"(\d+)(?: to (\d+))?", after[1] if after else ""):
        rows |= set(range(int(low), int(high or low) + 1))
    return rows


@given(st.sets(st.integers(0, LAST), min_size=1, max_size=LAST))
def test_a_sentence_names_the_rows_and_no_others(rows: set[int]) -> None:
    told = str(Elsewhere.of(rows, LAST))
    assert rows_in(told, LAST) == rows
    assert told.endswith((" only.", " on."))


@given(st.sets(st.integers(0, LAST), min_size=1, max_size=LAST))
def test_what_was_not_looked_into_is_not_denied(rows: set[int]) -> None:
    told = str(Elsewhere.of(rows, LAST, complete=False))
    assert told.startswith("It holds, for example, ")
    assert "only" not in told
    assert rows_in(told, LAST) == rows


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (set(), ""),
        ({0}, "It holds at the start only."),
        ({0, 2}, "It holds at the start and after edge 2 only."),
        ({4, 14, 24}, "It holds after edges 4, 14 and 24 only."),
        ({3, 4, 9}, "It holds after edges 3 to 4 and 9 only."),
        (set(range(0, 30, 2)), None),
    ],
)
def test_stretches_in_words(rows: set[int], told: str | None) -> None:
    found = str(Elsewhere.of(rows, 30))
    if told is None:
        told = (
            "It holds at the start and after edges 2, 4, 6, 8, 10, 12, 14 and 7 more stretches"
            " only."
        )
    assert found == told


@pytest.mark.parametrize("value", range(10))
@pytest.mark.parametrize("when", [0, 10, 25])
def test_a_counter_holds_a_number_in_each_of_its_rounds(value: int, when: int) -> None:
    """Counted by Python: the rows whose number leaves this rest when divided by 10."""
    found = prove(
        catalogue.find("modulo-counter"), {"m": 10, "k": 25}, f"CNT after {when} == {value}"
    )
    if when % 10 == value:
        assert found.holds
        return
    (why,) = found.why
    sentence = why[why.index("It holds") :]
    assert rows_in(sentence, 25) == {k for k in range(26) if k % 10 == value}
