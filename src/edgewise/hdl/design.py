"""A description wherever a circuit file is accepted: read, and what is to be told as a warning."""

from __future__ import annotations

import warnings
from pathlib import Path

from edgewise.design import Design
from edgewise.errors import Caution
from edgewise.hdl.reading import read


def design(text: str, file: str) -> Design:
    """The design in a description; every input holds an operand while its clock runs.

    Raises
    ------
    EdgewiseError or Problems
    """
    found = read(text, file)
    for note in found.notes:
        where = f"{note.place}: " if note.place else ""
        warnings.warn(f"{where}{note.sentence}", Caution, stacklevel=2)
    return found.design(Path(file).stem)
