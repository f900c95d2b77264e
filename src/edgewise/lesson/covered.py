"""The ``coverage`` block: what the lesson's own example shows, and what it leaves unseen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError, Message, TextError, nearest, raise_all
from edgewise.study.claims.run import Run
from edgewise.study.coverage import measured
from edgewise.study.coverage.measured import Coverage
from edgewise.study.coverage.report import PARTS
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, scalar, sequence

OPTIONS: Final = ("show", "parts", "caption")
"""The entries of a ``coverage`` block."""
SHOWN: Final = ("both", "table", "sentences")
"""What may stand behind ``show``."""


@dataclass(frozen=True, slots=True)
class Covered:
    """What the lesson's example shows.

    Parameters
    ----------
    coverage : Coverage
    parts : tuple of str
        Some of `edgewise.study.coverage.report.PARTS`.
    show : str
        One of `SHOWN`.
    caption : str
    """

    coverage: Coverage
    parts: tuple[str, ...] = PARTS
    show: str = "both"
    caption: str = ""

    def lines(self, words: Words = ENGLISH) -> tuple[tuple[str, ...], ...]:
        """The table, its heading first; none if only sentences are wanted."""
        table = self.coverage.table(self.parts, words)
        return () if self.show == "sentences" or len(table) == 1 else table

    def sentences(self, words: Words = ENGLISH) -> tuple[str, ...]:
        """The sentences; none if only the table is wanted and there is one."""
        empty = len(self.coverage.table(self.parts)) == 1
        wanted = self.show != "table" or empty  # they say why there is nothing to count
        return self.coverage.sentences(self.parts, words) if wanted else ()

    def title(self, words: Words = ENGLISH) -> str:
        """The caption; what was run, unless the lesson has one of its own."""
        given = equations(self.coverage.operands.items(), "\u00a0=\u00a0")
        if self.caption:
            return self.caption
        return words("coverage-title-of", given=given) if given else words("coverage-title")


def read(options: Keys, run: Run | None) -> Covered | None:
    """``show: table``, ``parts: [rows, carries]``, ``caption: …``; everything unless said.

    Raises
    ------
    EdgewiseError or Problems
        Options that can't be read.
    """
    errors: list[EdgewiseError] = []
    show, caption = options.get("show"), options.get("caption")
    shown, told = SHOWN[0], ""
    parts: tuple[str, ...] = PARTS
    try:
        if show is not None:
            given = scalar(show, "show")
            shown = given.text
            if shown not in SHOWN:
                raise TextError(Message("covered-shown", found=shown), given.place)
    except EdgewiseError as wrong:
        errors.append(wrong)
    try:
        parts = _parts(options.get("parts"))
    except EdgewiseError as wrong:
        errors += wrong.parts()
    try:
        told = "" if caption is None else " ".join(scalar(caption, "caption").text.split())
    except EdgewiseError as wrong:
        errors.append(wrong)
    raise_all(errors)
    return None if run is None else Covered(measured.of(run.trace), parts, shown, told)


def _parts(tree: Tree | None) -> tuple[str, ...]:
    """The parts in their own order; one may stand without brackets."""
    if tree is None:
        return PARTS
    items = (tree,) if isinstance(tree, Scalar) else sequence(tree, "parts", "[rows, carries]")
    found: list[str] = []
    errors: list[EdgewiseError] = []
    for item in items:
        given = scalar(item, "parts")
        if given.text not in PARTS:
            known = nearest(given.text, PARTS)
            errors.append(
                TextError(
                    Message("covered-part-unknown", name=given.text, suggestion=known), given.place
                )
            )
        found.append(given.text)
    raise_all(errors)
    return tuple(part for part in PARTS if part in found)
