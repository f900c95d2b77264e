"""Codes: numbers, their words, and what has no word."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.bits import Word
from edgewise.codes import NAMES, Code
from edgewise.errors import EdgewiseError, UnknownBit


@given(st.sampled_from(NAMES), st.integers(1, 12), st.data())
def test_every_number_has_a_word_of_its_own(name: str, digits: int, data: st.DataObject) -> None:
    code, width = Code(name), 4 * digits  # type: ignore[arg-type]
    number = data.draw(st.integers(code.numbers(width).start, code.numbers(width).stop - 1))
    word = code.pattern(number, width)
    assert 0 <= word < 1 << width
    assert code.number(word, width) == number
    assert code.has(word, width)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [4, 8])
def test_as_many_words_as_numbers(name: str, width: int) -> None:
    code = Code(name)  # type: ignore[arg-type]
    words = [word for word in range(1 << width) if code.has(word, width)]
    assert sorted(map(code.number, words, [width] * len(words))) == [*code.numbers(width)]  # type: ignore[type-var]
    assert code.total == (len(words) == 1 << width)


@pytest.mark.parametrize(
    ("name", "width", "message"),
    [
        ("gray", 0, "a word without bits stands for no number"),
        ("bcd", 6, "BCD takes 4 bits a digit, and 6 bits are no whole number of digits"),
    ],
)
def test_widths_without_words(name: str, width: int, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        Code(name).numbers(width)  # type: ignore[arg-type]
    assert str(caught.value) == message


def test_a_word_that_is_no_digit_has_no_value() -> None:
    word = Word.from_bits([1, 1, 0, 1])
    assert word.readable
    coded = Word(4, word.ones, code=Code("bcd"))
    assert not coded.readable
    assert coded == word, "the bits are the same"
    with pytest.raises(
        UnknownBit, match="1011, which has no value: a digit of BCD is 0000 to 1001"
    ):
        _ = coded.value
