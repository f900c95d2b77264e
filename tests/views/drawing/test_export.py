"""PNG and PDF of figures, and files written whole.

Outside: lxml, resvg, Debian's Chromium, Pillow and pikepdf read what we write.
"""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pikepdf
import pytest
from PIL import Image

from edgewise import catalogue, files, run
from edgewise.errors import EdgewiseError
from edgewise.views.charts.curves import Axis, Spot, plane
from edgewise.views.drawing.export import pdf, png, write
from edgewise.views.drawing.shapes import Text
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.drawing.text_metrics import font_file
from edgewise.views.drawing.theme import FAMILIES, FONT_FILES
from edgewise.views.table.edge_table import edge_table
from edgewise.views.timing.timing_diagram import timing

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from playwright.sync_api import Page


def figures() -> list[Drawing]:
    trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    return [
        timing(trace, ["a_in", "A", "FA.sum", "C", "S"], legend=True),
        edge_table(trace, ["A", "FA.carry-out", "C", "S"], range(5, 13), legend=True),
    ]


def grey(picture: bytes) -> NDArray[np.float64]:
    return np.asarray(Image.open(io.BytesIO(picture)).convert("L"), dtype=float)


def difference(one: bytes, other: bytes) -> tuple[float, float]:
    """Mean difference of grey levels (of 255), and the share of pixels far apart.

    Both pictures are first reduced to half their size: edges that are smoothed in another
    way don't count, whatever is moved, missing or of another weight does.
    """
    a, b = (
        np.asarray(Image.fromarray(grey(p).astype("uint8")).reduce(2), dtype=float)
        for p in (one, other)
    )
    apart = np.abs(a - b)
    return float(apart.mean()), float((apart > 96).mean())


@pytest.mark.parametrize("figure", figures(), ids=["timing", "table"])
def test_png_has_the_size_asked_for(figure: Drawing) -> None:
    picture = Image.open(io.BytesIO(png(svg(figure), scale=2)))
    assert picture.size == (2 * figure.width, 2 * figure.height)


def test_png_is_the_same_every_time() -> None:
    text = svg(figures()[0])
    assert png(text) == png(text)


@pytest.mark.browser
@pytest.mark.parametrize("figure", figures(), ids=["timing", "table"])
def test_resvg_and_chromium_draw_the_same(figure: Drawing, page: Page, tmp_path: Path) -> None:
    faces = "".join(
        f"@font-face {{ font-family: {FAMILIES[family].split(',')[0]}; font-weight: {weight};"
        f" src: url('{Path(font_file(family, weight)).as_uri()}'); }}"
        for family, weight in FONT_FILES
    )
    text = svg(figure)
    wide, high = 2 * int(figure.width), 2 * int(figure.height)
    style = f"{faces} body {{ margin: 0 }} svg {{ display: block; width: {wide}px; height: auto }}"
    document = tmp_path / "figure.html"
    document.write_text(f"<style>{style}</style>{text}")
    page.set_viewport_size({"width": wide, "height": high})
    page.goto(document.as_uri())
    page.evaluate("document.fonts.ready")
    mean, far = difference(png(text, 2), page.screenshot())
    assert mean < 1.5
    assert far < 0.002


@pytest.mark.parametrize("figure", figures(), ids=["timing", "table"])
def test_outlined_text_looks_like_text(figure: Drawing) -> None:
    mean, far = difference(png(svg(figure), 2), png(svg(figure, outlined=True), 2))
    assert mean < 0.5
    assert far < 0.001


@pytest.mark.parametrize("figure", figures(), ids=["timing", "table"])
def test_pdf_is_vector_with_embedded_fonts(figure: Drawing) -> None:
    # ISO 32000: an embedded font has a font file in its descriptor; a bitmap is an Image XObject.
    with pikepdf.open(io.BytesIO(pdf(svg(figure)))) as document:
        assert len(document.pages) == 1
        box = [float(side) for side in document.pages[0].MediaBox]
        assert box == pytest.approx([0, 0, figure.width * 0.75, figure.height * 0.75], abs=0.01)
        objects = [
            o for o in document.objects if isinstance(o, pikepdf.Dictionary | pikepdf.Stream)
        ]
        assert not [o for o in objects if o.get("/Subtype") == "/Image"]
        fonts = [o for o in objects if o.get("/Type") == "/FontDescriptor"]
        names = {str(font.FontName).partition("+")[2] for font in fonts}
        assert names == {"SourceSans3-Regular", "SourceSans3-Semibold", "IBMPlexMono-Regular"}
        assert all({"/FontFile", "/FontFile2", "/FontFile3"} & set(font.keys()) for font in fonts)
        assert str(document.docinfo.Title) == figure.title
        alternates = [str(o.Alt) for o in objects if "/Alt" in o]
        assert alternates == [figure.description]


def test_pdf_is_the_same_every_time() -> None:
    text = svg(figures()[1])
    assert pdf(text) == pdf(text)


@pytest.mark.parametrize(
    ("suffix", "start"),
    [("svg", b"<svg "), ("png", b"\x89PNG\r\n\x1a\n"), ("PDF", b"%PDF-1.7"), ("eps", b"%!")],
)
def test_the_suffix_chooses(suffix: str, start: bytes, tmp_path: Path) -> None:
    file = tmp_path / f"figure.{suffix}"
    file.write_bytes(b"an older figure")
    write(Drawing(40, 20, "A", "A.", (Text(5, 15, "A"),)), file, scale=2)
    assert file.read_bytes().startswith(start)
    assert [entry.name for entry in tmp_path.iterdir()] == [file.name]


def test_svg_text_and_outlines_can_be_written(tmp_path: Path) -> None:
    drawing = Drawing(40, 20, "A", "A.", (Text(5, 15, "A"),))
    write(drawing, tmp_path / "outlined.svg")
    write(drawing, tmp_path / "text.svg", text=True)
    assert "<text" not in (tmp_path / "outlined.svg").read_text()
    assert "<text" in (tmp_path / "text.svg").read_text()


def test_the_svg_of_a_chart_carries_its_letters(tmp_path: Path) -> None:
    spots = [Spot("ripple & carry", 28, 10, best=True), Spot("prefix", 40, 8, best=True)]
    chart = plane(spots, Axis("area"), Axis("time"), "Area against time")
    write(chart, tmp_path / "outlined.svg")
    write(chart, tmp_path / "text.svg", text=True)
    outlined, text = ((tmp_path / f"{name}.svg").read_text() for name in ("outlined", "text"))
    assert "<text" not in outlined
    assert text == chart
    mean, far = difference(png(text, 2), png(outlined, 2))
    assert mean < 0.5
    assert far < 0.001


def said(path: Path, folder: Path) -> str:
    with pytest.raises(EdgewiseError) as caught:
        write(Drawing(4, 4, "A", "A.", ()), path)
    return str(caught.value).replace(str(folder), "here")


def test_a_bad_place_is_said_whole(tmp_path: Path) -> None:
    (tmp_path / "taken.svg").mkdir()
    ways = "a figure is written as .svg, .png, .pdf or .eps"
    assert said(tmp_path / "a.bmp", tmp_path) == (
        f"can't write here/a.bmp: its name ends in .bmp; {ways}"
    )
    assert said(tmp_path / "a", tmp_path) == f"can't write here/a: its name has no suffix; {ways}"
    assert said(tmp_path / "no" / "a.svg", tmp_path) == (
        "can't write here/no/a.svg: there is no folder here/no; make it first"
    )
    assert said(tmp_path / "taken.svg", tmp_path) == ("can't write here/taken.svg: is a directory")
    assert [entry.name for entry in tmp_path.iterdir()] == ["taken.svg"]


def test_a_folder_that_must_not_be_written_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: Path, __: bytes) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files, "write", refuse)
    assert said(tmp_path / "a.svg", tmp_path) == "can't write here/a.svg: permission denied"


@pytest.mark.parametrize("scale", [0, -1, 1e6, float("nan")])
def test_a_bad_scale_is_said_whole(scale: float) -> None:
    with pytest.raises(EdgewiseError) as caught:
        png(svg(Drawing(100, 40, "A", "A.", ())), scale)
    assert str(caught.value) == (
        f"a scale of {scale:g} can't be drawn; expected a number over 0 and up to 158.11 for this"
        " figure of 100 x 40 px"
    )


def test_what_is_no_figure_is_said() -> None:
    with pytest.raises(EdgewiseError) as caught:
        png("<p>")
    assert re.fullmatch(r"this is not an SVG figure: .*", str(caught.value))
    with pytest.raises(EdgewiseError) as caught:
        png('<svg xmlns="http://www.w3.org/2000/svg"/>')
    assert str(caught.value) == "this SVG figure has no size: give it a width and a height"
