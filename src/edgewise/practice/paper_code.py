"""The short code of a paper: what variant it is, and a check that it was read rightly.

In base 32 with the alphabet of D. Crockford (no I, L, O, U; from memory): the seed and how equal
the variants are, two digits for the number of the paper, two that check the others and belong to
this paper's circuit and questions.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError, Message

ALPHABET: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
MOST: Final = 1000
"""Papers of one seed."""
MOST_SEED: Final = 999_999_999
_READ_AS: Final = str.maketrans("ILO", "110")
_TIERS: Final = 4
_LONGEST: Final = 12


@dataclass(frozen=True, slots=True)
class PaperCode:
    """Which variant of a paper.

    Parameters
    ----------
    seed : int
    tier : int
        How equal the variants are, as an index of `edgewise.practice.variants.TIERS`.
    number : int
        Of the paper, from 0.

    Examples
    --------
    >>> code = PaperCode(5, 0, 16).text("serial-adder")
    >>> code, read(code.lower(), "serial-adder")
    ('M0GWX', PaperCode(seed=5, tier=0, number=16))
    """

    seed: int
    tier: int
    number: int

    def text(self, paper: str) -> str:
        """The code in a paper that is known by this text."""
        digits = _digits((self.seed * _TIERS + self.tier) * 1024 + self.number)
        return digits + _check(digits, paper)


def read(text: str, paper: str) -> PaperCode:
    """Read a code, in upper or lower case; blanks and hyphens don't count, O is 0, I and L are 1.

    Raises
    ------
    EdgewiseError
        It is no code of this paper.
    """
    told = "".join(text.upper().split()).replace("-", "").translate(_READ_AS)
    digits, check = told[:-2], told[-2:]
    odd = not digits or len(told) > _LONGEST or any(digit not in ALPHABET for digit in told)
    if odd or check != _check(digits, paper):
        raise unknown(text)
    value = 0
    for digit in digits:
        value = value * 32 + ALPHABET.index(digit)
    rest, number = divmod(value, 1024)
    seed, tier = divmod(rest, _TIERS)
    return PaperCode(seed, tier, number)


def unknown(text: str) -> EdgewiseError:
    """The error for what is no code of a paper."""
    return EdgewiseError(
        Message("paper-code-unknown", found=text.strip()[:40] or Message("nothing-found"))
    )


def _digits(value: int) -> str:
    digits = ""
    while value or len(digits) < 3:
        value, digit = divmod(value, 32)
        digits = ALPHABET[digit] + digits
    return digits


def _check(digits: str, paper: str) -> str:
    known = hashlib.sha256(f"{digits.lstrip('0')}/{paper}".encode()).digest()
    value = int.from_bytes(known[:2], "big") % 1024
    return ALPHABET[value // 32] + ALPHABET[value % 32]
