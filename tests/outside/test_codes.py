"""Codes against integers of NumPy and against published sequences."""

from __future__ import annotations

import numpy as np
import pytest

from edgewise.codes import Code


@pytest.mark.parametrize("kind", [np.int8, np.int16, np.int32])
def test_twos_complement_is_that_of_numpy(kind: type[np.signedinteger]) -> None:
    """NumPy's integers are two's complement: their bytes are read again without a sign."""
    width = np.dtype(kind).itemsize * 8
    limits = np.iinfo(kind)
    chance = np.random.default_rng(11)
    numbers = chance.integers(limits.min, limits.max, 500, kind, endpoint=True)
    numbers = np.concatenate([numbers, np.array([limits.min, -1, 0, 1, limits.max], kind)])
    words = numbers.view(f"u{width // 8}")
    code = Code("twos-complement")
    assert (code.numbers(width)[0], code.numbers(width)[-1]) == (limits.min, limits.max)
    for number, word in zip(numbers.tolist(), words.tolist(), strict=True):
        assert code.pattern(number, width) == word
        assert code.number(word, width) == number


def test_gray_code_is_the_binary_reflected_one() -> None:
    """OEIS A003188, its first 32 terms (from memory)."""
    published = (
        *(0, 1, 3, 2, 6, 7, 5, 4, 12, 13, 15, 14, 10, 11, 9, 8),
        *(24, 25, 27, 26, 30, 31, 29, 28, 20, 21, 23, 22, 18, 19, 17, 16),
    )
    code = Code("gray")
    assert tuple(code.pattern(number, 5) for number in range(32)) == published
    neighbours = zip(published, (*published[1:], published[0]), strict=True)
    assert all((one ^ other).bit_count() == 1 for one, other in neighbours)


def test_the_table_of_four_bit_codes() -> None:
    """Mano and Ciletti, Digital Design, table 1.3: signed binary numbers (from memory)."""
    table = """
        +7 0111 0111 0111
        +1 0001 0001 0001
        +0 0000 0000 0000
        -1 1111 1110 1001
        -2 1110 1101 1010
        -7 1001 1000 1111
    """
    for line in filter(None, map(str.split, table.splitlines())):
        number, *words = int(line[0]), *line[1:]
        names = ("twos-complement", "ones-complement", "sign-magnitude")
        for name, word in zip(names, words, strict=True):
            assert f"{Code(name).pattern(number, 4):04b}" == word, (name, number)  # type: ignore[arg-type]
    assert Code("twos-complement").number(0b1000, 4) == -8


def test_bcd_reads_as_decimal_digits() -> None:
    """8421 code: the hexadecimal digits of the word are the decimal ones of the number."""
    code = Code("bcd")
    for number in range(1000):
        assert f"{code.pattern(number, 12):03x}" == f"{number:03d}"
    assert [word for word in range(16) if not code.has(word, 4)] == [*range(10, 16)]
