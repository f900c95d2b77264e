"""Pages: a deck as PDF, a page a slide, by typst: tagged, with descriptions of its figures."""

from __future__ import annotations

from collections.abc import Iterable
from importlib import resources

from edgewise.publish.handout import pdf
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.slides import placing
from edgewise.publish.slides.deck import Deck, Line
from edgewise.publish.slides.placing import Placed
from edgewise.publish.slides.shape import Box, Shape


def pages(deck: Deck, slides: Iterable[Placed], shape: Shape) -> bytes:
    """The PDF of a deck; the same deck gives the same bytes."""
    return pdf.pdf(*_source(deck, slides, shape))


def pictures(deck: Deck, slides: Iterable[Placed], shape: Shape, ppi: float = 72) -> list[bytes]:
    """Each page as a PNG, to be looked at."""
    return pdf.pictures(*_source(deck, slides, shape), ppi=ppi)


def _source(deck: Deck, slides: Iterable[Placed], shape: Shape) -> tuple[str, dict[str, bytes]]:
    """Typst, and the files that it opens."""
    look = resources.files(__package__ or "") / "slides.typ"
    files = {"slides.typ": look.read_bytes()}
    body = "#pagebreak()\n".join(_page(one, shape, files) for one in slides)
    return _opening(deck, shape) + body, files


def _opening(deck: Deck, shape: Shape) -> str:
    number, language = shape.number, quoted(deck.language[:2].lower())
    right = shape.width - number.x - number.width
    return (
        '#import "slides.typ": *\n'
        f"#show: slides.with(title: {quoted(deck.title)}, lang: {language},"
        f" width: {shape.width:g}pt, height: {shape.height:g}pt, right: {right:g}pt,"
        f" bottom: {shape.height - number.y - number.height:g}pt)\n"
    )


def _page(one: Placed, shape: Shape, files: dict[str, bytes]) -> str:
    slide = one.slide
    if slide.opening:
        lines = "".join(_line(line, 24.0) for line in slide.lines)
        box = Box(shape.content.x, 100, shape.content.width, 340)
        return f"{_placed(box)}[#opening({quoted(slide.title)})[{lines}]]\n"
    made = f"{_placed(shape.title)}[#slide-title({one.title_size:g}pt, {quoted(slide.title)})]\n"
    if one.text is not None:
        lines = "".join(_line(line, one.size) for line in slide.lines)
        made += f"{_placed(one.text)}[{lines}]\n"
    for placed in one.pictures:
        content = placed.picture.svg.encode()
        same = (name for name, known in files.items() if known == content)
        name = next(same, f"figure-{len(files) + 1}.svg")
        files[name] = content
        about = quoted(placed.picture.about)
        made += (
            f"{_placed(placed.box)}[#picture({quoted(name)}, {about}, {placed.box.width:.2f}pt)]\n"
        )
    if one.table is not None:
        table = one.table
        wide = "".join(f"{width:.2f}pt, " for width in placing.widths(table))
        heads, *rows = table.rows
        cells = ", ".join(quoted(cell) for row in rows for cell in row)
        told = ", ".join(quoted(head) for head in heads)
        made += (
            f"{_placed(table.box)}[#slide-table({table.size:g}pt, ({wide}), ({told},), {cells})]\n"
        )
    return made


def _placed(box: Box) -> str:
    return f"#at({box.x:.2f}pt, {box.y:.2f}pt, {box.width:.2f}pt, {box.height:.2f}pt)"


def _line(line: Line, size: float) -> str:
    high = size * placing.SHARES[line.style]
    after = high * placing.AFTER[line.style]
    text = quoted(line.text)
    return f"#slide-line({quoted(line.style)}, {high:g}pt, {after:.2f}pt, {text})"
