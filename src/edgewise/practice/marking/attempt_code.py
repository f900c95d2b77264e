"""The code in which a page hands over what a learner tried: read as text, nothing run yet.

Fields with points between: ``ew1``, the lesson, then what was done, then a checksum, the CRC-32 of
all before it (ISO/IEC 8802-3). It is written by ``publish/stage/web/attempts.js``.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.errors import EdgewiseError, Message

End: TypeAlias = Literal["right", "corrected", "shown", "own", "left"]
"""What became of a row: right at the first try, in the end, shown, gone on with, or left."""
VERSION: Final = "ew1"
LONGEST: Final = 60_000
"""Letters of a code, at most."""
MOST: Final = 600
"""Fields of a code, at most; a page writes 500."""
_ENDS: Final[dict[str, End]] = {
    "s": "right",
    "c": "corrected",
    "f": "shown",
    "o": "own",
    "u": "left",
}
_NUMBER: Final = r"[0-9a-z]{1,2000}"
_RUN: Final = re.compile(rf"r({_NUMBER}(?:_{_NUMBER}){{0,400}})_([01xd])|r([01xd])")
_BEGIN: Final = re.compile(r"b([0-9a-z]{1,4})")
_IDEAS: Final = r"(?:_i([0-9a-z]{1,3}(?:-[0-9a-z]{1,3}){0,99}))?"
_ROW: Final = re.compile(rf"(?:([scfu])({_NUMBER})|(o)({_NUMBER})_({_NUMBER})){_IDEAS}")
_DIGITS: Final = "01X-"


@dataclass(frozen=True, slots=True)
class Row:
    """A row that was filled in.

    Parameters
    ----------
    end : End
    tries : str
        The first try at each bit, MSB left, store by store; ``-`` where there was none.
    own : str
        The row that was gone on with, if one was.
    ideas : tuple of int
        The wrong ideas that the page recognised, by their numbers there.
    """

    end: End
    tries: str
    own: str = ""
    ideas: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Exercise:
    """Rows left out of a run, filled in one after another.

    Parameters
    ----------
    numbers : tuple of int
        Parameters of the design, then its operands.
    start : str
        What every flip-flop holds at power-up: ``0``, ``1``, ``x``; ``d``: as designed.
    shown : int
        The last row that was not left out.
    rows : tuple of Row
        Those that follow.
    """

    numbers: tuple[int, ...]
    start: str
    shown: int
    rows: tuple[Row, ...]


def read(text: str, lesson: str) -> tuple[Exercise, ...]:
    """Read a code.

    Raises
    ------
    EdgewiseError
        It is no code, damaged or changed, or of another lesson.

    Examples
    --------
    >>> code = "ew1.5f3a9c00.r4_6_3_d.b5.s1"
    >>> made = f"{code}.{written(zlib.crc32(code.encode()))}"
    >>> read(made, "5f3a9c00")[0].shown
    5
    >>> read(made.replace("b5", "b6"), "5f3a9c00")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: the code is damaged or changed: its checksum does not fit
    """
    fields = text.split(".") if len(text) <= LONGEST and text.isascii() else []
    if len(fields) < 4 or fields[0] != VERSION or len(fields) > MOST:
        raise EdgewiseError(Message("attempts-no-code"))
    told, check = text.rpartition(".")[::2]
    if check != written(zlib.crc32(told.encode())):
        raise EdgewiseError(Message("attempts-damaged"))
    if fields[1] != lesson:
        raise EdgewiseError(Message("attempts-other-lesson"))
    return tuple(_exercises(fields[2:-1]))


def _exercises(fields: list[str]) -> Iterator[Exercise]:
    run: tuple[tuple[int, ...], str] | None = None
    shown: int | None = None
    rows: list[Row] = []
    for field in [*fields, "b0"]:
        begins = _BEGIN.fullmatch(field)
        if (begins or field.startswith("r")) and rows and run and shown is not None:
            yield Exercise(*run, shown, tuple(rows))
            rows = []
        if begins:
            shown = int(begins[1], 36)
        elif (found := _RUN.fullmatch(field)) is not None:
            numbers = found[1].split("_") if found[1] else []
            run, shown = (tuple(int(one, 36) for one in numbers), found[2] or found[3]), None
        elif run is not None and shown is not None:
            rows.append(_row(field))
        else:
            raise _made_up()


def _row(field: str) -> Row:
    found = _ROW.fullmatch(field)
    if found is None:
        raise _made_up()
    ideas = tuple(int(one, 36) for one in (found[6] or "").split("-") if one)
    tries, own = found[2] or found[4], found[5]
    return Row(_ENDS[found[1] or found[3]], _bits(tries), _bits(own) if own else "", ideas)


def _bits(number: str) -> str:
    """Digits of base 4 behind a 1."""
    value, bits = int(number, 36), ""
    while value > 1:
        value, digit = divmod(value, 4)
        bits = _DIGITS[digit] + bits
    if value != 1:
        raise _made_up()
    return bits


def _made_up() -> EdgewiseError:
    return EdgewiseError(Message("attempts-made-up"))


def written(number: int) -> str:
    """A number in base 36.

    Examples
    --------
    >>> written(0), written(35), written(36)
    ('0', 'z', '10')
    """
    digits = ""
    while number or not digits:
        number, digit = divmod(number, 36)
        digits = "0123456789abcdefghijklmnopqrstuvwxyz"[digit] + digits
    return digits
