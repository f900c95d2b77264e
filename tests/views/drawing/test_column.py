"""Figures for a column: laid out for its width, every letter read back from SVG and PDF.

Outside: pikepdf reads the PDF; 6 pt as the smallest print is common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import pikepdf
import pytest
from PIL import Image

from edgewise.errors import EdgewiseError
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column, fitting
from edgewise.views.drawing.legend import Key
from edgewise.views.registry import Wish, figure
from tests.conftest import Edgewise
from tests.views.clashes import clashes
from tests.views.measures import faults
from tests.views.runs import crossings, traced

OPERANDS = ("--operands", "a=22,b=43")

# What a reader prints in a column: name, size, width.
NARROW = [
    ("serial-adder", 6, "85mm"),
    ("serial-adder", 8, "120mm"),
    ("ripple-carry-adder", 8, "85mm"),
    ("ripple-carry-adder", 16, "120mm"),
    ("ripple-carry-adder-without-carry-in", 8, "85mm"),
    ("brent-kung-adder", 8, "85mm"),
    ("kogge-stone-adder", 8, "85mm"),
    ("sklansky-adder", 8, "phone"),
    ("johnson-counter", 8, "85mm"),
    ("serial-accumulator", 4, "120mm"),
    ("ripple-carry-adder-subtractor", 4, "120mm"),
]


@pytest.mark.parametrize(("name", "n", "width"), NARROW)
def test_a_figure_is_laid_out_for_its_column(name: str, n: int, width: str) -> None:
    trace, place = traced(name, n), column(width)
    picture = Picture(trace, Manner()).fitted(place.room)
    assert picture.layout.width <= place.room
    assert clashes(picture.layout) == ()
    drawing = diagram(trace, room=place.room, legend=True)
    assert drawing.width <= place.room
    assert faults(drawing) == crossings(drawing) == []


@pytest.mark.parametrize("name", ["serial-adder", "kogge-stone-adder", "ripple-carry-adder"])
def test_a_narrow_figure_shows_every_bit(name: str) -> None:
    trace = traced(name, 8)
    nets = [
        {net for e in Picture(trace, manner).scene.walk() for net in e.word}
        for manner in (Manner(), Manner(narrow=1), Manner(narrow=3))
    ]
    assert nets[0] == nets[1] == nets[2]


def sizes_in_svg(path: Path) -> set[float]:
    """Pt of every letter on the paper."""
    root = ET.parse(path).getroot()  # noqa: S314  # what edgewise itself wrote
    _, _, wide, _ = map(float, root.get("viewBox", "").split())
    millimetres = float(root.get("width", "").removesuffix("mm"))
    scale = millimetres / 25.4 * 72 / wide
    return {float(size) * scale for each in root.iter() if (size := each.get("font-size"))}


def sizes_in_pdf(path: Path) -> set[float]:
    with pikepdf.open(path) as document:
        return {size for page in document.pages for size in _sizes(page.obj, pikepdf.Matrix())}


def _sizes(holder: pikepdf.Object, outer: pikepdf.Matrix) -> Iterator[float]:
    at, kept, font, text = outer, [], 0.0, pikepdf.Matrix()
    for step in pikepdf.parse_content_stream(holder):
        operands = step.operands
        match str(step.operator):
            case "q":
                kept.append(at)
            case "Q":
                at = kept.pop()
            case "cm":
                at = pikepdf.Matrix(*map(float, operands)) @ at
            case "Tf":
                font = float(operands[1])
            case "Tm":
                text = pikepdf.Matrix(*map(float, operands))
            case "Tj" | "TJ":
                whole = text @ at
                yield font * abs(whole.a * whole.d - whole.b * whole.c) ** 0.5
            case "Do":
                inner = holder.Resources.XObject[str(operands[0])]
                own = pikepdf.Matrix(*map(float, inner.get("/Matrix", (1, 0, 0, 1, 0, 0))))
                yield from _sizes(inner, own @ at)


@pytest.mark.parametrize("design", [("serial-adder", "n=6"), ("brent-kung-adder", "n=8")])
def test_no_letter_is_under_6_pt_in_a_column(
    edgewise: Edgewise, tmp_path: Path, design: tuple[str, str]
) -> None:
    name, numbers = design
    for suffix, sizes, options in ((".svg", sizes_in_svg, ("--text",)), (".pdf", sizes_in_pdf, ())):
        path = tmp_path / f"{name}{suffix}"
        words = (
            "draw",
            name,
            "--with",
            numbers,
            *OPERANDS,
            "--width",
            "85mm",
            "--legend",
            *options,
        )
        assert edgewise(*words, "-o", str(path)).code == 0
        found = sizes(path)
        assert found
        assert 6 <= min(found) <= max(found) < 13
    with pikepdf.open(tmp_path / f"{name}.pdf") as document:
        box = [float(one) for one in document.pages[0].MediaBox]
    assert box[2] <= 85 / 25.4 * 72 + 0.01


def test_a_png_has_300_pixels_to_the_inch(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "column.png"
    words = ("draw", "serial-adder", "--with", "n=6", *OPERANDS, "--width", "85mm")
    assert edgewise(*words, "-o", str(path)).code == 0
    with Image.open(path) as image:
        assert abs(image.width - 85 / 25.4 * 300) < 4


def test_a_slide_is_filled(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "slide.svg"
    words = ("draw", "serial-adder", "--with", "n=6", *OPERANDS, "--width", "slide", "--text")
    assert edgewise(*words, "-o", str(path)).code == 0
    assert min(sizes_in_svg(path)) >= 14
    assert 'width="338mm"' in path.read_text("utf-8")


@pytest.mark.parametrize("name", ["timing", "table", "filmstrip"])
def test_every_figure_is_broken_to_the_width(name: str) -> None:
    place = column("85mm")
    drawing = figure(traced("serial-adder", 4), name, Wish(room=place.room, legend=True))
    assert drawing.width <= place.room
    assert faults(drawing) == []


@pytest.mark.parametrize(
    ("width", "message"),
    [
        ("85", "a width is 85; expected 85mm, 12cm, slide or phone\n"),
        ("paper", "a width is paper; expected 85mm, 12cm, slide or phone\n"),
        ("5mm", "a width is 5mm; expected 20mm to 1000mm\n"),
    ],
)
def test_a_width_that_cannot_be(
    edgewise: Edgewise, tmp_path: Path, width: str, message: str
) -> None:
    path = tmp_path / "figure.svg"
    words = ("draw", "serial-adder", "--with", "n=6", *OPERANDS, "--width", width)
    answer = edgewise(*words, "-o", str(path))
    assert (answer.code, answer.err, path.exists()) == (2, message, False)


def test_a_figure_that_is_too_wide_is_refused(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "figure.svg"
    words = ("draw", "serial-adder", "--with", "n=6", *OPERANDS, "--width", "30mm")
    answer = edgewise(*words, "-o", str(path))
    assert (answer.code, path.exists()) == (2, False)
    assert re.fullmatch(
        r"this figure needs (\d\d)mm for letters of 6 pt; in 30mm they would have [345]\.\d pt:"
        r" choose --width \1mm, fewer bits, fewer rows or columns\n",
        answer.err,
    )


@pytest.mark.parametrize("name", ["serial-adder", "carry-lookahead-adder"])
def test_the_width_that_is_told_is_enough_and_the_least(name: str) -> None:
    trace = traced(name, 4)
    with pytest.raises(EdgewiseError) as caught:
        fitting(diagram(trace, room=column("30mm").room).width, column("30mm"))
    told = re.search(r"needs (\d+)mm", str(caught.value))
    assert told
    enough, less = (column(f"{int(told[1]) - k}mm") for k in (0, 1))
    assert diagram(trace, room=enough.room).width <= enough.room
    assert diagram(trace, room=less.room).width > less.room


def test_a_legend_takes_a_second_line_where_there_is_little_room() -> None:
    one, two = Key(), Key(room=300)
    assert two.size[0] <= 300 < one.size[0]
    assert two.size[1] > one.size[1]
