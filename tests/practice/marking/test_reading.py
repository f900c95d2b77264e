"""How answers are read: bits, binary, decimal, hexadecimal, and what is no answer."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.bits import Word
from edgewise.practice.marking.reading import LONGEST, Way, read

WIDTH = 6


@pytest.mark.parametrize(
    ("text", "way", "bits"),
    [
        ("010110", Way.BITS, "010110"),
        (" 01 0110 ", Way.BITS, "010110"),
        ("01_0110", Way.BITS, "010110"),
        ("01'0110", Way.BITS, "010110"),
        ("01\u00a00110", Way.BITS, "010110"),
        ("\uff10\uff11\uff10\uff11\uff11\uff10", Way.BITS, "010110"),
        ("x1011X", Way.BITS, "X1011X"),
        ("10110", Way.PADDED, "010110"),
        ("00010110", Way.PADDED, "010110"),
        ("1", Way.PADDED, "000001"),
        ("0b10110", Way.BINARY, "010110"),
        ("0B01 0110", Way.BINARY, "010110"),
        ("22", Way.DECIMAL, "010110"),
        ("0x16", Way.HEX, "010110"),
        ("0X16", Way.HEX, "010110"),
        ("0x11", Way.HEX, "010001"),
        ("16h", Way.HEX, "010110"),
        ("$16", Way.HEX, "010110"),
        ("1f", Way.BARE_HEX, "011111"),
        ("-3", Way.SIGNED, "111101"),
        ("\u22123", Way.SIGNED, "111101"),
        ("64", Way.TOO_LARGE, ""),
        ("0x40", Way.TOO_LARGE, ""),
        ("1000000", Way.TOO_LARGE, ""),
        ("-33", Way.TOO_LARGE, ""),
        ("1.01101E+15", Way.ROUNDED, ""),
        ("", Way.BLANK, ""),
        (" \u00a0\t", Way.BLANK, ""),
        ("two", Way.UNREADABLE, ""),
        ("?", Way.UNREADABLE, ""),
        ("=1+1", Way.UNREADABLE, ""),
        ("0" * (LONGEST + 1), Way.UNREADABLE, ""),
    ],
)
def test_a_text_is_read(text: str, way: Way, bits: str) -> None:
    found = read(text, WIDTH)
    assert (found.way, found.digits) == (way, bits)


def test_digits_that_are_bits_or_a_decimal_number_are_told() -> None:
    found = read("10", WIDTH)
    assert (found.digits, str(found.other), found.doubtful) == ("000010", "001010", True)
    assert found.in_decimal().digits == "001010"
    assert read("111", WIDTH).other is None  # no number of six bits


def test_zero_x_is_a_sign_or_two_bits() -> None:
    found = read("0X1", 3), read("0x1", 3), read("0x1", 4)
    assert [one.digits for one in found] == ["0X1", "001", "0001"]
    assert [one.doubtful for one in found] == [True, True, False]


def test_one_is_one_both_ways_and_truth_is_a_bit() -> None:
    assert not read("1", WIDTH).doubtful
    assert (read("TRUE", 1).digits, read("false", 1).digits) == ("1", "0")
    assert read("TRUE", WIDTH).way is Way.UNREADABLE


@given(st.text(max_size=30), st.integers(1, 70))
def test_any_text_is_a_word_of_that_width_or_none(text: str, width: int) -> None:
    found = read(text, width)
    assert found.text == text
    assert found.word is None or found.word.width == width


@given(st.integers(1, 64).flatmap(lambda w: st.tuples(st.just(w), st.integers(0, 2**w - 1))))
def test_python_writes_what_is_read(of: tuple[int, int]) -> None:
    """Outside: Python's own formats of whole numbers."""
    width, value = of
    for text in (f"{value:0{width}b}", bin(value), hex(value), f"{value:x}h"):
        assert read(text, width).word == Word.of(value, width), text
    if set(str(value)) - {"0", "1"}:
        assert read(str(value), width).word == Word.of(value, width)
