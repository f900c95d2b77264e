r"""Characters that no text of ours may have: they can't be read, or they act on a terminal.

Refused are the controls C0 and C1 of ISO/IEC 6429 (but tab and line ends), half characters
(surrogates) that have no other half, noncharacters, and what Unicode uses to end lines or to
turn the direction of text around. A text with them is refused once, where it is read
(`edgewise.yamltext`, `edgewise.lesson.document`); what is told of names from elsewhere, such as
files and arguments, is made `visible` first.

References
----------
The Unicode Standard, 23.7 (noncharacters); UAX #9, 2 (directional formatting characters);
ISO/IEC 6429 (control functions).
"""

from __future__ import annotations

import re
from typing import Final

from edgewise.errors import Message, Place, TextError, visible

__all__ = ["first_unfit", "joined", "reason", "refuse", "visible"]

LARGEST: Final = 0x10FFFF
"""The last code point of Unicode."""
_UNFIT: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"
    "\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069"
    "\ud800-\udfff\ufdd0-\ufdef"
    + "".join(chr(plane << 16 | end) for plane in range(17) for end in (0xFFFE, 0xFFFF))
    + "]"
)
_PAIR: Final = re.compile("[\ud800-\udbff][\udc00-\udfff]")


def joined(text: str) -> str:
    r"""The text, each pair of half characters made the one character that it stands for.

    Examples
    --------
    >>> joined("tide \ud83c\udf0a") == "tide \U0001f30a"
    True
    """
    return _PAIR.sub(lambda pair: pair[0].encode("utf-16", "surrogatepass").decode("utf-16"), text)


def first_unfit(text: str, start: int = 0) -> int | None:
    r"""Where the first character stands that no text may have; nothing if there is none.

    Examples
    --------
    >>> first_unfit("rain\x1b[2J"), first_unfit("Regen für morgen\n")
    (4, None)
    """
    found = _UNFIT.search(text, start)
    return None if found is None else found.start()


def reason(character: str) -> Message:
    r"""What an unfit character is, for messages.

    Examples
    --------
    >>> print(reason("\x1b"), reason("\ud83c"), sep=", ")
    the invisible character U+001B, half a character (U+D83C)
    """
    code = ord(character)
    if 0xD800 <= code <= 0xDFFF:
        return Message("half-character", code=f"{code:04X}")
    return Message("invisible-character", code=f"{code:04X}")


def refuse(text: str, file: str, first_line: int = 1) -> None:
    r"""Refuse a text with an unfit character, at the character's place.

    Raises
    ------
    TextError

    Examples
    --------
    >>> refuse("rain\ntide\x1b[2J", "rain.md")
    Traceback (most recent call last):
    edgewise.errors.TextError: rain.md:2:5: the invisible character U+001B stands here; delete it
    """
    at = first_unfit(text)
    if at is not None:
        line = text.count("\n", 0, at)
        column = at - (text.rfind("\n", 0, at) + 1) + 1
        raise TextError(
            Message("character-here", found=reason(text[at])),
            Place(file, first_line + line, column),
        )
