"""A bench sheet as PDF and as a page: parts, packages, wires to tick, and the run."""

from __future__ import annotations

from pathlib import Path

from edgewise.lab.wiring.check import Checked
from edgewise.lab.wiring.sheet import Sheet
from edgewise.words.messages import Words


def write(sheet: Sheet, checked: Checked, out: Path, words: Words, paper: str = "a4") -> Path:
    """Write a sheet whose suffix says how: ``.pdf``, or else a page.

    Raises
    ------
    EdgewiseError
        It can't be written, or has a character that the typefaces don't have.
    """
    from edgewise import files
    from edgewise.publish.bench import page, pdf

    if out.suffix.lower() == ".pdf":
        content = pdf.pdf_of(sheet, checked, words, paper)
    else:
        content = page.html_of(sheet, checked, words).encode()
    files.save(out, content)
    return out
