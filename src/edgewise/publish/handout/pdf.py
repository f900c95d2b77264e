"""Printing: typst source and its files made into an accessible PDF, the same on any machine.

The PDF is PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1): tagged, with its language, a
description of each figure, and every typeface embedded.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal, TypeAlias

from edgewise.errors import EdgewiseError, Message, Suggestion
from edgewise.listing import either
from edgewise.publish import look
from edgewise.spelling import close

if TYPE_CHECKING:
    import typst

STANDARDS: Final = ("a-2a", "ua-1")
PAPERS: Final = {"a4": ("a4", 210.0, 297.0), "letter": ("us-letter", 215.9, 279.4)}
"""Typst's name, width and height in mm (ISO 216; ANSI/ASME Y14.1) of each paper."""
_MISSING: Final = re.compile(r'the text `"?(?P<text>.*?)"?` could not be displayed', re.DOTALL)
_UNSAFE: Final = re.compile(r'[\\"\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]')


Paper: TypeAlias = Literal["papers", "marks", "handout", "sheet"]
"""What a paper is for."""


def check_paper(paper: str, of: Paper) -> None:
    """Refuse a paper that is none of `PAPERS`; `there_are` stands before their names.

    Raises
    ------
    EdgewiseError
        Suggests the nearest, if one is near.

    Examples
    --------
    >>> check_paper("foolscap", "papers")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: there is no paper foolscap; papers are a4 or letter
    """
    if paper not in PAPERS:
        meant = close(paper, PAPERS)
        there = Message("papers-there", of=of, papers=either(PAPERS))
        hint = Suggestion(meant) if meant else there
        raise EdgewiseError(Message("paper-unknown", paper=paper, hint=hint))


class NoGlyph(EdgewiseError):
    """A character that the handout's typefaces don't have."""

    def __init__(self, text: str) -> None:
        self.text = text
        super().__init__(Message("glyph-missing", text=repr(text), codes=_codes(text)))


def _codes(text: str) -> str:
    return " ".join(f"U+{ord(letter):04X}" for letter in text[:4])


def quoted(text: str) -> str:
    r"""A text as a typst string: whatever is in it stays text.

    Examples
    --------
    >>> print(quoted('say "#panic()" \\ x'))
    "say \"#panic()\" \\ x"
    """
    return f'"{_UNSAFE.sub(_escaped, text)}"'


def _escaped(found: re.Match[str]) -> str:
    letter = found[0]
    if letter in '\\"':
        return f"\\{letter}"
    return " " if "\ud800" <= letter <= "\udfff" else f"\\u{{{ord(letter):x}}}"


def pdf(source: str, files: Mapping[str, bytes]) -> bytes:
    """The PDF of a typst text; the same text gives the same bytes.

    Parameters
    ----------
    source : str
        Typst; what `handout.typ` defines is known in it.
    files : mapping of str to bytes
        What the text may open, by name; it can open nothing else.

    Raises
    ------
    NoGlyph
        A character that the typefaces don't have.
    EdgewiseError
        Anything else that can't be printed, such as a damaged picture.
    """
    content: bytes = _compiled(source, files, "pdf", pdf_standards=list(STANDARDS))
    return content


def pictures(source: str, files: Mapping[str, bytes], ppi: float = 96) -> list[bytes]:
    """Each page as a PNG, to be looked at."""
    made = _compiled(source, files, "png", ppi=ppi)
    return made if isinstance(made, list) else [made]


def _compiled(source: str, files: Mapping[str, bytes], kind: str, **options: Any) -> Any:
    import typst

    prelude = look.typst().encode()
    prelude += (resources.files(__package__ or "") / "handout.typ").read_bytes()
    with tempfile.TemporaryDirectory(prefix="edgewise-") as folder:
        root = Path(folder)
        for name, content in {"handout.typ": prelude, **files}.items():
            (root / name).write_bytes(content)
        main = root / "main.typ"
        main.write_text(f'#import "handout.typ": *\n{source}', "utf-8")
        compiled: Any = typst.compile
        try:
            return compiled(str(main), root=folder, font_paths=_fonts(), format=kind, **options)
        except typst.TypstError as wrong:
            missing = _MISSING.search(wrong.message)
            if missing:
                raise NoGlyph(missing["text"]) from None
            raise EdgewiseError(Message("handout-unprintable", why=wrong.message)) from None


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    import typst

    folder = str(Path(str(resources.files("edgewise"))) / "fonts")
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]
    )
