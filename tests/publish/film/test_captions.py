"""Captions: their lines, and that no word is lost."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from edgewise.publish.film.captions import LINE, LINES, cut, timed

TEXTS = st.lists(st.text("aeiou01X.,;:=", min_size=1, max_size=LINE), max_size=60).map(" ".join)


@given(TEXTS)
def test_lines_fit_and_no_word_is_lost(text: str) -> None:
    captions = cut(text)
    assert all(len(lines) <= LINES for lines in captions)
    assert all(len(line) <= LINE for lines in captions for line in lines)
    assert " ".join(line for lines in captions for line in lines) == text


@given(TEXTS, st.integers(0, 10**7), st.integers(5000, 10**6))
def test_captions_fill_the_time_without_a_gap(text: str, start: int, length: int) -> None:
    cues = list(timed(text, start, start + length))
    if text:
        assert (cues[0].start, cues[-1].end) == (start, start + length)
    assert all(one.end == two.start for one, two in pairwise(cues))
