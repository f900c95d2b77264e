"""What a marker typed into the table of marks, to be kept when marking runs again."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Final

from edgewise.practice.formula_guard import unguarded
from edgewise.practice.marking import table
from edgewise.practice.marking.answer_sheet import LEARNER, key

_MARKS: Final = re.compile(r"[0-9]{1,6}([.,][0-9]{1,4})?")


@dataclass(frozen=True, slots=True)
class Overrules:
    """An earlier table of marks.

    Parameters
    ----------
    headings : tuple of str
    rows : mapping of str to (mapping of str to str)
        By learner, then by heading, what stood there.
    """

    headings: tuple[str, ...] = ()
    rows: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def at(self, learner: str, heading: str) -> str:
        """What stood under a heading, in a learner's row; or nothing."""
        return self.rows.get(learner, {}).get(heading, "")


def read(path: Path) -> Overrules:
    """What stands in the table of marks, if there is one.

    Rows of one learner that are there twice keep the first text that is no blank.

    Raises
    ------
    EdgewiseError
        It can't be read; it is better to stop than to lose what was typed.
    """
    if not path.exists():
        return Overrules()
    old = table.read(path)
    headings = tuple(unguarded(heading) for heading in old.headings)
    name = next((i for i, heading in enumerate(headings) if key(heading) == LEARNER), None)
    if name is None:
        return Overrules()
    rows: dict[str, dict[str, str]] = {}
    for line in old.lines:
        row = rows.setdefault(" ".join(unguarded(line.cells[name]).split()), {})
        for heading, text in zip(headings, line.cells, strict=True):
            if text and not row.get(heading):
                row[heading] = unguarded(text)
    return Overrules(headings, rows)


def marks(text: str, most: int) -> Fraction | None:
    """A marker's number of marks; None where it is none, or more than there are.

    Examples
    --------
    >>> marks("2,5", 4), marks("3", 4), marks("5", 4), marks("see me", 4)
    (Fraction(5, 2), Fraction(3, 1), None, None)
    """
    if not _MARKS.fullmatch(text):
        return None
    given = Fraction(text.replace(",", "."))
    return given if given <= most else None
