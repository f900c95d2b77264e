"""Whole numbers and ranges as people write them in options, bounded before they are read."""

from __future__ import annotations

import re
from typing import Final

from edgewise.errors import Fact, Message, TextError

LONGEST: Final = 1300
"""Digits in a number, at most: it then has fewer bits than a formula may compute."""
_NUMERAL: Final = re.compile(r"[+-]?(?:0[bB][01]+|0[xX][0-9a-fA-F]+|0[oO][0-7]+|[0-9]+)", re.ASCII)
_ALMOST: Final = re.compile(r"([^\s.]+?)\s*(-|–|—|…|\.{3,}|\.|:|\bto\b)\s*([^\s.]+)")
_LONGEST_RANGE: Final = 60
_PLAIN: Final = re.compile(r"\w+", re.ASCII)


def whole(text: str, what: Fact) -> int | None:
    """The number that a text is; nothing if it is none.

    Parameters
    ----------
    text : str
        ``43``, ``-1``, or in binary, octal or hexadecimal ``0b101011``, ``0o53``, ``0x2b``.
    what : Fact
        What is given by it, for the error.

    Raises
    ------
    TextError
        If it has more than `LONGEST` digits.

    Examples
    --------
    >>> whole(" 43 ", "a"), whole("0b101011", "a"), whole("4 3", "a")
    (43, 43, None)
    """
    text = text.strip()
    if len(text) > LONGEST:
        raise TextError(Message("number-long", name=what, count=len(text), most=LONGEST))
    if not _NUMERAL.fullmatch(text):
        return None
    sign, digits = (-1 if text[0] == "-" else 1), text.lstrip("+-")
    # A leading zero is no octal sign here: 007 is seven.
    return sign * (int(digits, 10) if digits.isdecimal() else int(digits, 0))


def meant_range(text: str, name: str = "") -> Message | None:
    """What to write for a range that was almost written, behind its name; nothing if it was none.

    Examples
    --------
    >>> print(meant_range("0-8"), meant_range("n...8", "over"))
    ; write 0..8 ; write over=n..8
    >>> meant_range("0..8"), meant_range("end-8")
    (None, None)
    """
    almost = _ALMOST.fullmatch(text.strip()) if len(text) <= _LONGEST_RANGE else None
    if almost is None:
        return None
    low, sign, high = almost.groups()
    if not (_PLAIN.fullmatch(low) and _PLAIN.fullmatch(high)):
        return None
    # A name minus a number is a formula, and 8-0 as well as 0-8 is one, but seldom meant.
    if len(sign) == 1 and sign != "…" and not (low.isdigit() and high.isdigit()):
        return None
    return Message("range-meant", range=f"{name and f'{name}='}{low}..{high}")
