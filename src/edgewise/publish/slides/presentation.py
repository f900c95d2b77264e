"""Presentation: a deck as PPTX (ISO/IEC 29500-1, transitional), by python-pptx.

Each figure is a vector picture: its SVG hangs on the PNG that readers without SVG show, by the
extension ``svgBlip`` (Microsoft, [MS-ODRAWXML], namespace of 2016). What is written is the same
for the same deck: no time stands in it.
"""

from __future__ import annotations

import io
import zipfile
from datetime import datetime
from typing import TYPE_CHECKING, Any, Final

from edgewise.errors import EdgewiseError, Message
from edgewise.publish import output
from edgewise.publish.slides import placing, template
from edgewise.publish.slides.deck import Deck, Line, Picture
from edgewise.publish.slides.placing import Placed, PlacedPicture, PlacedTable
from edgewise.publish.slides.shape import Box, Shape
from edgewise.views.drawing import export
from edgewise.words import messages

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from edgewise.study.cost.sweep import Progress

SVG_EXTENSION: Final = "{96DAC541-7B7A-43D3-8B79-37D633B846F1}"
"""The extension that holds an SVG beside a picture."""
SVG_NAMESPACE: Final = "http://schemas.microsoft.com/office/drawing/2016/SVG/main"
_EMU: Final = 12_700
"""English metric units in a point (ISO/IEC 29500-1, 20.1.2.1)."""
_PIXELS: Final = 1.25
"""Pixels of a fallback to a point: 1,200 across a slide; drawing them is most of the work."""
_DATE: Final = datetime(2000, 1, 1)  # noqa: DTZ001  # no moment of anything
_PLAIN_GRID: Final = "{5940675A-B579-460E-94D1-54222C63F5DA}"
"""The table style without fills."""
_BITS: Final = "Courier New"
"""For bits and formulas: a typeface that every reader has."""


def needed() -> None:
    """See that python-pptx is there, before anything is computed.

    Raises
    ------
    EdgewiseError
        It is not; says how to install it.
    """
    try:
        import pptx  # noqa: F401
    except ImportError:
        raise EdgewiseError(Message("slides-package")) from None


def presentation(
    deck: Deck,
    slides: Sequence[Placed],
    shape: Shape,
    own: Path | None,
    progress: Progress | None = None,
) -> bytes:
    """The file of a deck.

    Parameters
    ----------
    deck : Deck
    slides : sequence of Placed
    shape : Shape
    own : Path, optional
        A presentation of the teacher's, whose look it takes.
    progress : function, optional
        Is told how many slides are written, and how many there are.
    """
    made = template.blank(shape) if own is None else template.read(own)
    told = made.core_properties
    told.title, told.language = deck.title, deck.language
    if own is None:
        told.author = told.last_modified_by = told.keywords = told.comments = ""
        told.created = told.modified = _DATE
    writing = _Writing(made, deck)
    for done, one in enumerate(slides, 1):
        writing.slide(one, shape)
        if progress is not None:
            progress(done, len(slides))
    file = io.BytesIO()
    made.save(file)
    with zipfile.ZipFile(file) as dated:
        return output.zipped((name, dated.read(name)) for name in dated.namelist())


class _Writing:
    """One presentation being written."""

    def __init__(self, made: Any, deck: Deck) -> None:
        self.made = made
        self.deck = deck
        self.words = messages.of(deck.spoken)
        self.vectors: dict[str, Any] = {}
        """The parts of SVGs written so far: what is the same is kept once."""
        self.opening, self.plain = template.layouts(made)

    def slide(self, one: Placed, shape: Shape) -> None:
        slide = one.slide
        page = self.made.slides.add_slide(self.opening if slide.opening else self.plain)
        size = None if slide.opening else one.title_size
        self._title(page, slide.title, size)
        if slide.opening:
            self._subtitle(page, slide.lines, shape)
        else:
            template.clear(page)
            if one.text is not None:
                box = self._text_box(page, one.text)
                self._lines(box.text_frame, slide.lines, one.size)
        for number, picture in enumerate(one.pictures, 1):
            self._picture(page, picture, number)
        if one.table is not None:
            self._table(page, one.table)
        self._number(page, shape)
        if slide.notes:
            frame = page.notes_slide.notes_text_frame
            frame.text = slide.notes
            self._spoken(frame, self.deck.language if slide.own else self.deck.spoken)

    # ------------------------------------------------------------------ text

    def _title(self, page: Any, text: str, size: float | None) -> None:
        from pptx.util import Pt

        title = page.shapes.title
        title.text_frame.text = text
        for run in title.text_frame.paragraphs[0].runs:
            if size is not None:
                run.font.size = Pt(size)
            self._language(run, self.deck.language if size is None else self.deck.spoken)

    def _subtitle(self, page: Any, lines: tuple[Line, ...], shape: Shape) -> None:
        below = [one for one in page.placeholders if one.placeholder_format.idx == 1]
        for other in page.placeholders:
            if other.placeholder_format.idx not in (0, 1):
                other.element.getparent().remove(other.element)
        if below:
            frame = below[0].text_frame
        else:
            room = shape.content
            frame = self._text_box(page, Box(room.x, 320, room.width, 150)).text_frame
        self._lines(frame, lines, 24.0)

    def _text_box(self, page: Any, box: Box) -> Any:
        from pptx.enum.text import MSO_AUTO_SIZE

        made = page.shapes.add_textbox(*_emu(box))
        frame = made.text_frame
        frame.word_wrap = True
        frame.auto_size = MSO_AUTO_SIZE.NONE
        frame.margin_left = frame.margin_right = frame.margin_top = frame.margin_bottom = 0
        return made

    def _lines(self, frame: Any, lines: tuple[Line, ...], size: float) -> None:
        from pptx.util import Pt

        for number, line in enumerate(lines):
            paragraph = frame.paragraphs[0] if not number else frame.add_paragraph()
            high = size * placing.SHARES[line.style]
            paragraph.space_after = Pt(round(high * placing.AFTER[line.style], 1))
            paragraph.space_before = Pt(0)
            run = paragraph.add_run()
            run.text = line.text
            run.font.size = Pt(round(high, 1))
            if line.style == "formula":
                run.font.name, run.font.bold = _BITS, True
            if line.style == "bullet":
                template.bullet(paragraph, int(high * placing.INDENT * _EMU))
            self._language(run, self.deck.spoken)

    def _spoken(self, frame: Any, language: str) -> None:
        for paragraph in frame.paragraphs:
            for run in paragraph.runs:
                self._language(run, language)

    def _language(self, run: Any, language: str) -> None:
        """A voice reads text in its language (WCAG 2.2, 3.1.2)."""
        run._r.get_or_add_rPr().set("lang", template.language(language))

    def _number(self, page: Any, shape: Shape) -> None:
        """The slide's number, as the layout has it, or where ours stands."""
        template.number(page, len(self.made.slides), _emu(shape.number))

    # ------------------------------------------------------------------ pictures and tables

    def _picture(self, page: Any, one: PlacedPicture, number: int) -> None:
        picture = one.picture
        fallback = io.BytesIO(self._png(picture, one.box.width))
        made = page.shapes.add_picture(fallback, *_emu(one.box))
        made.name = self.words("handout-figure", number=number)
        made.element.nvPicPr.cNvPr.set("descr", picture.about)
        self._vector(page, made, picture)

    def _png(self, picture: Picture, width: float) -> bytes:
        scale = _PIXELS * width / picture.width
        return export.png(picture.outlined, min(scale, 4.0))

    def _vector(self, page: Any, made: Any, picture: Picture) -> None:
        """Hang the SVG on a picture."""
        from lxml import etree
        from pptx.opc.constants import RELATIONSHIP_TYPE
        from pptx.opc.package import Part
        from pptx.opc.packuri import PackURI

        part = self.vectors.get(picture.outlined)
        if part is None:
            name = PackURI(f"/ppt/media/figure{len(self.vectors) + 1}.svg")
            content = picture.outlined.encode()
            part = Part(name, "image/svg+xml", self.made.part.package, content)
            self.vectors[picture.outlined] = part
        relation = page.part.relate_to(part, RELATIONSHIP_TYPE.IMAGE)
        blip = made.element.blipFill.find(template.tag("a:blip"))
        extensions = etree.SubElement(blip, template.tag("a:extLst"))
        extension = etree.SubElement(extensions, template.tag("a:ext"), uri=SVG_EXTENSION)
        vector = etree.SubElement(
            extension, f"{{{SVG_NAMESPACE}}}svgBlip", nsmap={"asvg": SVG_NAMESPACE}
        )
        vector.set(template.tag("r:embed"), relation)

    def _table(self, page: Any, table: PlacedTable) -> None:
        from pptx.util import Pt

        rows, columns = len(table.rows), len(table.rows[0])
        frame = page.shapes.add_table(rows, columns, *_emu(table.box))
        frame.element.graphic.graphicData.tbl.tblPr.find(
            template.tag("a:tableStyleId")
        ).text = _PLAIN_GRID
        for width, column in zip(placing.widths(table), frame.table.columns, strict=True):
            column.width = int(width * _EMU)
        for row, texts in zip(frame.table.rows, table.rows, strict=True):
            row.height = int(table.box.height / rows * _EMU)
            for cell, text in zip(row.cells, texts, strict=True):
                cell.text = text
                cell.margin_top = cell.margin_bottom = Pt(2)
                for run in cell.text_frame.paragraphs[0].runs:
                    run.font.size = Pt(table.size)
                    self._language(run, self.deck.spoken)


def _emu(box: Box) -> tuple[int, int, int, int]:
    return tuple(round(side * _EMU) for side in (box.x, box.y, box.width, box.height))  # type: ignore[return-value]
