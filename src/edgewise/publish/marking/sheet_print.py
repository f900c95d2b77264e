"""Sheets of learners to be printed: each on a page of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from edgewise.publish.blocks import Heading, Paragraph
from edgewise.publish.handout.pdf import PAPERS, quoted
from edgewise.publish.marking.feedback_sheet import Block, Sheet, Sheets


def source(sheets: Sheets, numbers: Iterable[int], paper: str = "a4") -> str:
    """The typst of some learners' sheets; `paper` is one of `PAPERS`."""
    title, language = sheets.heading, sheets.language.partition("-")[0].lower()
    opening = (
        f"#show: setup.with(title: {quoted(title)}, lang: {quoted(language)},"
        f" paper: {quoted(PAPERS[paper][0])}, foot: {quoted(title)})\n"
    )
    return opening + "#pagebreak()\n".join(_page(sheets.sheet(number)) for number in numbers)


def _page(sheet: Sheet) -> str:
    head = f"#title[#{quoted(sheet.name)};]\n#facts([], {quoted(sheet.facts)})\n"
    return head + "".join(map(_block, sheet.blocks))


def _block(block: Block) -> str:
    match block:
        case Heading(text):
            return f"#heading(level: 1)[#{quoted(text)};]\n"
        case Paragraph(text):
            return f"#{quoted(text)};\n\n"
    heads = ", ".join(f"[#{quoted(text)};]" for text in block.headings)
    count = len(block.headings)
    lines = ",\n  ".join(map(_line, block.lines))
    aligned = ", ".join(["left"] * count)
    return f"#own-table({count}, ({aligned}), ({heads},),\n  {lines})\n"


def _line(cells: Sequence[str]) -> str:
    where, wrote, read, right, follows, verdict = cells
    own = f"#value({quoted(wrote)});" + (f"#{quoted(' ' + read)};" if read else "")
    bits = ", ".join(f"[#value({quoted(word)});]" for word in (right, follows))
    return f"[#{quoted(where)};], [{own}], {bits}, [#{quoted(verdict)};]"
