"""Bits 0, 1, X and the words made of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.bits import Bit, Word, X, bit_and, bit_mux, bit_not, bit_or, bit_xor
from edgewise.errors import EdgewiseError, UnknownBit
from tests.strategies import bits, words

# Kleene's strong tables, whole, rows and columns in the order 0, 1, X
# (S. C. Kleene, Introduction to Metamathematics, 1952, section 64; from memory).
TABLES = {
    bit_and: "000 01X 0XX",
    bit_or: "01X 111 X1X",
    bit_xor: "01X 10X XXX",
}


def read(digit: str) -> Bit:
    return "01X".index(digit)


@pytest.mark.parametrize("operator", TABLES)
def test_whole_tables(operator: object) -> None:
    rows = TABLES[operator].split()  # type: ignore[index]
    for a in range(3):
        for b in range(3):
            assert operator((a, b)) == read(rows[a][b])  # type: ignore[operator]


def test_not_and_mux_whole() -> None:
    assert [bit_not(b) for b in (0, 1, X)] == [1, 0, X]
    # IEEE 1800-2023, 11.4.11: with an unknown condition, bits that agree are kept.
    for a in range(3):
        for b in range(3):
            assert bit_mux(0, a, b) == a
            assert bit_mux(1, a, b) == b
            assert bit_mux(X, a, b) == (a if a == b else X)


def test_operators_of_no_bits() -> None:
    assert (bit_and(()), bit_or(()), bit_xor(())) == (1, 0, 0)


@given(st.lists(bits, max_size=6))
def test_order_does_not_matter(some: list[Bit]) -> None:
    for operator in (bit_and, bit_or, bit_xor):
        assert operator(some) == operator(some[::-1])


@given(st.lists(bits, max_size=6))
def test_a_known_result_holds_for_every_value_of_the_unknown_bits(some: list[Bit]) -> None:
    for filling in range(1 << some.count(X)):
        choices = iter(f"{filling:06b}"[::-1])
        filled = [int(next(choices)) if b == X else b for b in some]
        for operator in (bit_and, bit_or, bit_xor):
            if operator(some) != X:
                assert operator(some) == operator(filled)


# ---------------------------------------------------------------------- words


@given(words())
def test_text_round_trip(word: Word) -> None:
    assert Word.parse(str(word)) == word
    assert Word.from_bits(word) == word
    assert len(str(word)) == len(word) == word.width


def test_parse_takes_groups_and_small_x() -> None:
    assert str(Word.parse("1x_0 1")) == "1X01"
    assert Word.parse("") == Word(0)


@given(st.integers(1, 70), st.data())
def test_unsigned_and_signed_readings(width: int, data: st.DataObject) -> None:
    value = data.draw(st.integers(0, (1 << width) - 1))
    word = Word.of(value, width)
    assert word.value == value
    # Two's complement by its weights: the MSB counts -2**(width-1) (common practice).
    weights = [1 << i for i in range(width - 1)] + [-(1 << (width - 1))]
    assert word.signed == sum(b * w for b, w in zip(word, weights, strict=True))
    assert Word.of(word.signed, width) == word
    # Python's own conversion says the same.
    size = (width + 7) // 8
    sign_extended = word.signed.to_bytes(size, "little", signed=True)
    assert int.from_bytes(sign_extended, "little") & ((1 << width) - 1) == value


@given(words(), st.data())
def test_slices_are_the_text_between(word: Word, data: st.DataObject) -> None:
    if not word.width:
        return
    high = data.draw(st.integers(0, word.width - 1))
    low = data.draw(st.integers(0, high))
    text = str(word)
    assert str(word.slice(high, low)) == text[len(text) - 1 - high : len(text) - low]
    assert str(word.slice(high, high)) == "01X"[word.bit(high)]


@given(words(width=5), words(width=5))
def test_bitwise(a: Word, b: Word) -> None:
    assert list(a & b) == [bit_and(pair) for pair in zip(a, b, strict=True)]
    assert list(a | b) == [bit_or(pair) for pair in zip(a, b, strict=True)]
    assert list(a ^ b) == [bit_xor(pair) for pair in zip(a, b, strict=True)]
    assert ~(a & b) == ~a | ~b
    assert ~~a == a


def test_all_unknown_and_known() -> None:
    assert str(Word.all_unknown(3)) == "XXX"
    assert not Word.all_unknown(1).known
    assert Word.all_unknown(0).known


def test_the_empty_word_is_zero() -> None:
    assert (Word(0).value, Word(0).signed, str(Word(0))) == (0, 0, "")
    assert Word.of(0, 0) == Word(0)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Word(-1), "a word can't have -1 bits; the width is 0 or more"),
        (lambda: Word.of(0, -1), "a word can't have -1 bits; the width is 0 or more"),
        (lambda: Word(2, 4), "the bits given don't fit a word of 2 bits"),
        (lambda: Word(2, 1, 1), "the bits given don't fit a word of 2 bits"),
        (lambda: Word(1, -1), "the bits given don't fit a word of 1 bit"),
        (
            lambda: Word.of(64, 6),
            "64 doesn't fit in 6 bits; the range is 0..63 unsigned or -32..31 in two's complement",
        ),
        (
            lambda: Word.of(-33, 6),
            "-33 doesn't fit in 6 bits; the range is 0..63 unsigned or -32..31 in two's complement",
        ),
        (
            lambda: Word.of(2, 1),
            "2 doesn't fit in 1 bit; the range is 0..1 unsigned or -1..0 in two's complement",
        ),
        (
            lambda: Word.of(1, 0),
            "1 doesn't fit in 0 bits; the range is 0..0 unsigned or 0..0 in two's complement",
        ),
        (lambda: Word.from_bits([0, 3]), "3 is not a bit; a bit is 0, 1 or bits.X"),
        (lambda: Word.parse("0120"), "'0120' is not a word: '2' is not 0, 1 or X"),
        (lambda: Word.parse("\u0660"), "'\u0660' is not a word: '\u0660' is not 0, 1 or X"),
        (
            lambda: Word.of(5, 4).bit(4),
            "there is no bit 4 in a word of 4 bits; the bits are 3..0",
        ),
        (
            lambda: Word.of(5, 4).bit(-1),
            "there is no bit -1 in a word of 4 bits; the bits are 3..0",
        ),
        (lambda: Word(0).bit(0), "there is no bit 0 in a word of 0 bits; it has none"),
        (
            lambda: Word.of(5, 4).slice(1, 2),
            (
                "(1..2) is not a slice of a word of 4 bits; write (high..low) with"
                " 3 >= high >= low >= 0"
            ),
        ),
        (
            lambda: Word.of(5, 4) & Word.of(5, 3),
            "0101 has 4 bits and 101 has 3; a bitwise operation needs equal widths",
        ),
    ],
)
def test_messages(make: object, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        make()  # type: ignore[operator]
    assert str(wrong.value) == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("1X0", "1X0 has no value: bit 1 is unknown (X)"),
        ("XX0", "XX0 has no value: 2 bits are unknown (X)"),
    ],
)
def test_a_word_with_an_unknown_bit_has_no_value(text: str, message: str) -> None:
    for reading in ("value", "signed"):
        with pytest.raises(UnknownBit) as wrong:
            getattr(Word.parse(text), reading)
        assert str(wrong.value) == message
