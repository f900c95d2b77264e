"""A folder of what learners saved or pasted: a text file for each, with one code or several."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.practice.marking import attempt_code, attempts
from edgewise.practice.marking.attempts import Step, Tried
from edgewise.practice.marking.table import decoded

SUFFIX: Final = ".txt"
MOST_FILES: Final = 5_000
MOST_BYTES: Final = 1_000_000
MOST_CODES: Final = 50
_CODE: Final = re.compile(r"\bew[0-9]+\.[0-9A-Za-z._-]+")


@dataclass(frozen=True, slots=True)
class HandedIn:
    """What one learner handed in.

    Parameters
    ----------
    number : int
        Of the file, in the order of their names, from 1.
    name : str
        Of the file, without its ending: the learner's.
    codes : tuple of str
    steps : tuple of Step
        Of the codes that fit.
    faults : tuple of str
        Why others don't, and what else is to be looked at.
    """

    number: int
    name: str
    codes: tuple[str, ...]
    steps: tuple[Step, ...]
    faults: tuple[str, ...]


def read(folder: Path, lesson: str, designs: Sequence[Tried]) -> tuple[HandedIn, ...]:
    """Read all files of a folder, in the order of their names.

    Parameters
    ----------
    folder : Path
    lesson : str
        By which codes know it (`edgewise.practice.identity.short`).
    designs : sequence of Tried
        Those of the lesson's page.

    Raises
    ------
    EdgewiseError
        It can't be read, has no such file, or too many.
    """
    place = Place(str(folder))
    try:
        files = sorted(p for p in folder.iterdir() if p.suffix.lower() == SUFFIX and p.is_file())
    except OSError as wrong:
        raise EdgewiseError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), place
        ) from None
    if not files:
        raise EdgewiseError(Message("attempts-no-file", suffix=SUFFIX), place)
    if len(files) > MOST_FILES:
        raise EdgewiseError(
            Message("attempts-files-many", count=len(files), most=MOST_FILES), place
        )
    found = [_read(number, path, lesson, designs) for number, path in enumerate(files, 1)]
    return tuple(_looked_at(found))


def _read(number: int, path: Path, lesson: str, designs: Sequence[Tried]) -> HandedIn:
    steps: list[Step] = []
    faults: list[str] = []
    codes: tuple[str, ...] = ()
    try:
        codes = _codes(path)
    except OSError as wrong:
        told = Message("attempts-file-unreadable", why=wrong.strerror or str(wrong))
        faults.append(str(told))
    except EdgewiseError as wrong:
        faults.append(wrong.message)
    for code in codes:
        try:
            steps += attempts.replayed(attempt_code.read(code, lesson), designs)
        except EdgewiseError as wrong:
            faults.append(wrong.message)
    return HandedIn(number, path.stem, codes, tuple(steps), tuple(dict.fromkeys(faults)))


def _codes(path: Path) -> tuple[str, ...]:
    """The codes in a file, whatever stands around them."""
    if path.stat().st_size > MOST_BYTES:
        raise EdgewiseError(Message("attempts-file-large", most=MOST_BYTES))
    found = tuple(dict.fromkeys(_CODE.findall(decoded(path.read_bytes()))))
    if not found:
        raise EdgewiseError(Message("attempts-file-without-code"))
    if len(found) > MOST_CODES:
        raise EdgewiseError(Message("attempts-codes-many", count=len(found), most=MOST_CODES))
    return found


def _looked_at(found: Sequence[HandedIn]) -> Iterator[HandedIn]:
    """What can only be seen of all: ideas that do not fit, and codes of which there are two."""
    wrong = iter(attempts.recognised([step for one in found for step in one.steps]))
    first: dict[str, int] = {}
    for one in found:
        misfits = [error.message for _ in one.steps if (error := next(wrong)) is not None]
        same = {first.setdefault(code, one.number) for code in one.codes} - {one.number}
        told = [str(Message("attempts-same-code", row=number + 1)) for number in sorted(same)]
        faults = tuple(dict.fromkeys((*one.faults, *misfits, *told)))
        steps = () if misfits else one.steps
        yield HandedIn(one.number, one.name, one.codes, steps, faults)
