"""A bench sheet as PDF."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.lab.wiring.check import Checked
from edgewise.lab.wiring.sheet import Sheet
from edgewise.publish.bench import blocks
from edgewise.publish.bench.blocks import Block, Picture, Points, Table
from edgewise.publish.blocks import Heading, Paragraph
from edgewise.publish.handout import pdf
from edgewise.publish.handout.pdf import PAPERS, quoted
from edgewise.views.drawing.svg import svg
from edgewise.words.messages import Words


def pdf_of(sheet: Sheet, checked: Checked, words: Words, paper: str = "a4") -> bytes:
    """The PDF.

    Raises
    ------
    EdgewiseError
        A character that the typefaces don't have.
    """
    made = typst_of(sheet, checked, words, paper)
    try:
        return pdf.pdf(made.text, made.files)
    except pdf.NoGlyph as wrong:
        raise EdgewiseError(wrong.told) from None


@dataclass
class Source:
    """The typst of a sheet, and the pictures that it opens."""

    text: str = ""
    files: dict[str, bytes] = field(default_factory=dict)

    def block(self, block: Block) -> str:
        """A block as typst."""
        match block:
            case Heading():
                return f"#heading(level: 1)[#{quoted(block.text)};]\n"
            case Paragraph(leads=True):
                return f"#block(sticky: true)[#{quoted(block.text)};]\n\n"
            case Paragraph():
                return f"#{quoted(block.text)};\n\n"
            case Points():
                return self._points(block)
            case Table():
                return self._table(block)
            case Picture():
                return self._picture(block)

    @staticmethod
    def _points(block: Points) -> str:
        items = "".join(f"[#{quoted(text)};], " for text in block.texts)
        return f"#{'ticks' if block.ticked else 'list'}({items})\n\n"

    @staticmethod
    def _table(block: Table) -> str:
        heads = "".join(f"{quoted(head)}, " for head in block.heads)
        cells = "".join(f"{quoted(cell)}, " for line in block.lines for cell in line)
        bits = "".join(f"{column}, " for column in sorted(block.bits))
        across = "2" if block.narrow and len(block.lines) > 8 else "1"
        return f"#tick-table({across}, ({heads}), ({bits}), {len(block.lines)}, {cells})\n\n"

    def _picture(self, block: Picture) -> str:
        name = f"packages-{len(self.files) + 1}.svg"
        self.files[name] = svg(block.drawing).encode()
        about = f"{block.drawing.title}. {block.drawing.description}"
        caption = quoted(block.caption) if block.caption else "none"
        wide = f"{min(block.drawing.width * _POINTS, _WIDEST):g}pt"
        return f"#drawing({quoted(name)}, {quoted(about)}, {wide}, {caption})\n\n"


_POINTS: Final = 0.75
_WIDEST: Final = 470.0
"""Points of a drawing, at most: the width of the text."""


def typst_of(sheet: Sheet, checked: Checked, words: Words, paper: str = "a4") -> Source:
    """The typst of a sheet."""
    told = blocks.title(sheet, words)
    source = Source()
    body = "".join(map(source.block, blocks.blocks(sheet, checked, words)))
    owned = ", ".join(quoted(words(f"handout-{what}")) for what in ("name", "date"))
    facts, trust = _strings(blocks.facts(sheet, words)), quoted(words("bench-footer"))
    source.text = (
        f"#show: setup.with(title: {quoted(told)}, lang: {quoted(words.language)},"
        f" paper: {quoted(PAPERS[paper][0])}, foot: {quoted(told)})\n"
        f"#title[#{quoted(told)};]\n#facts({trust}, {facts})\n#owner({owned})\n\n{body}"
    )
    return source


def _strings(texts: Iterable[str]) -> str:
    return "".join(f"{quoted(text)}, " for text in texts)
