"""The mark of a computed value: which code spans of a lesson are formulas, which only code."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import Final

from edgewise.errors import Message, TextError

MARK: Final = "?"
"""A code span that begins with it is a formula, a question that the build answers: its value
takes the span's place."""
_OPERATORS: Final = "?:.=!"
"""Directly behind the mark they make it an operator of a programming language, as in ``??``."""
_BLANK: Final = "\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0"
"""Characters that print nothing though they are letters, marks or signs by category."""


@lru_cache(maxsize=1024)
def _unseen(character: str) -> bool:
    """Whether a character prints nothing: a space, a format character, a filler."""
    return character in _BLANK or unicodedata.category(character) in {"Zs", "Zl", "Zp", "Cf", "Cc"}


def _seen_from(text: str, at: int) -> int:
    while at < len(text) and _unseen(text[at]):
        at += 1
    return at


def formula_in(span: str) -> tuple[int, str] | None:
    r"""The formula in a code span, and where in the span it begins; nothing if it is only code.

    Spaces of any kind may stand around it; those inside it count as plain ones.

    Raises
    ------
    TextError
        If the span begins with a character that only looks like the mark.

    Examples
    --------
    >>> formula_in("? S after 7"), formula_in("\u200b?\u00a0S"), formula_in("S = 7")
    ((2, 'S after 7'), (3, 'S'), None)
    >>> formula_in("?"), formula_in("?? 7")
    (None, None)
    """
    start = _seen_from(span, 0)
    if start == len(span):
        return None
    if span[start] != MARK:
        if unicodedata.normalize("NFKC", span[start]) == MARK:
            raise TextError(
                Message("mark-meant", found=span[start], code=f"{ord(span[start]):04X}", mark=MARK)
            )
        return None
    at = _seen_from(span, start + 1)
    if at == len(span) or span[start + 1] in _OPERATORS:
        return None
    end = len(span)
    while span[end - 1] != " " and _unseen(span[end - 1]):
        end -= 1
    return at, "".join(" " if unicodedata.category(c) == "Zs" else c for c in span[at:end])


def equation_in(span: str) -> str | None:
    """The formula behind a leading ``=``, which is code to be shown; nothing if there is none.

    Examples
    --------
    >>> equation_in("= S after 7"), equation_in("S = 7"), equation_in("== 7")
    ('S after 7', None, None)
    """
    found = re.fullmatch(r"\s*=(?![=<>])\s*(\S.*)", span)
    return found[1].rstrip() if found else None


BEGUN: Final = re.compile(rf"(?<!\\)`[^\S\n]?{re.escape(MARK)}[^\S\n]?\w")
"""What a computed value looks like where it begins, also one that has no end."""
WRITTEN: Final = re.compile(rf"(?<!`)`+[^\S\n]*{re.escape(MARK)}[^\S\n]*[\w(−-][^`\n]*`")
"""A computed value in a text that is not read for code spans."""
