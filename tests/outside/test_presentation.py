"""Slides as programs that nobody here wrote read and draw them.

Sources: LibreOffice 7.4 Impress (Debian's libreoffice-impress-nogui), its import of PresentationML
(ISO/IEC 29500) and export as flat ODF 1.3 (ISO/IEC 26300) and PNG; Chromium, for the SVG parts
(W3C SVG 1.1); the schemas of ISO/IEC 29500-4 (ECMA-376 part 4), where they are at hand: the
environment variable EDGEWISE_OOXML_SCHEMAS names their folder.
"""

from __future__ import annotations

import io
import os
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import numpy as np
import pikepdf
import pytest
from lxml import etree
from PIL import Image
from pptx import Presentation

from edgewise import lesson
from edgewise.publish.slides import placing
from edgewise.publish.slides.build import Manner, slides
from edgewise.publish.slides.content import deck
from edgewise.publish.slides.shape import SHAPES
from tests.outside.office import converted

if TYPE_CHECKING:
    from playwright.sync_api import Page

LESSON: Final = """\
---
title: Zwei Pegel am Hafen
language: LANGUAGE
design: serial-adder
with: {n: 3}
operands: {a: 5, b: 3}
---
```steps
- 0
- {rows: 4, point: [C], predict: [C, S], say: The carry rises here.}
- 5..6
```
```claim
S after end == (a + b) mod 8    for all a, b
```
```question
ask: next-rows
rows: 4..5
columns: [A, C, S]
about: [one-after-another]
```
"""
CASES: Final = (("en", "16:9"), ("de", "4:3"))
ODF: Final = {
    "draw": "urn:oasis:names:tc:opendocument:xmlns:drawing:1.0",
    "text": "urn:oasis:names:tc:opendocument:xmlns:text:1.0",
    "presentation": "urn:oasis:names:tc:opendocument:xmlns:presentation:1.0",
    "svg": "urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0",
    "style": "urn:oasis:names:tc:opendocument:xmlns:style:1.0",
    "fo": "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0",
}
NOT_SCHEMA: Final = ("docProps/", "ppt/media/", "ppt/printerSettings/", "ppt/theme/")


def report(language: str) -> lesson.Report:
    return lesson.check_text(LESSON.replace("LANGUAGE", language), "pegel.md", Path())


@pytest.fixture(scope="module")
def made() -> dict[tuple[str, str], bytes]:
    return {case: slides(report(case[0]), Manner(case[1]))[0] for case in CASES}


def saved(content: bytes, kind: str, folder: Path, profile: str) -> Path:
    """The presentation, opened by Impress and saved as another kind."""
    file = folder / "made.pptx"
    file.write_bytes(content)
    return converted(file, kind, folder / "saved", profile)


def texts(element: Any) -> list[str]:
    """The paragraphs below an element; a number of a slide is none."""
    found = []
    for one in element.iterfind(".//text:p", ODF):
        for field in one.findall(".//text:page-number", ODF):
            field.text = ""
        found.append("".join(one.itertext()))
    return [text for text in found if text]


def alone(content: bytes, place: int) -> bytes:
    """The presentation with one of its slides."""
    shown = Presentation(io.BytesIO(content))
    for number, slide in enumerate(list(shown.slides._sldIdLst)):
        if number != place:
            shown.part.drop_rel(slide.rId)
            shown.slides._sldIdLst.remove(slide)
    file = io.BytesIO()
    shown.save(file)
    return file.getvalue()


def grey(picture: Image.Image, size: tuple[int, int]) -> np.ndarray[Any, Any]:
    return np.asarray(picture.convert("L").resize(size), dtype=float)


@pytest.mark.parametrize("case", CASES, ids="-".join)
def test_impress_reads_every_text_note_and_description(
    case: tuple[str, str], made: dict[tuple[str, str], bytes], tmp_path: Path, profile: str
) -> None:
    language, shape = case
    tree = etree.parse(saved(made[case], "fodp", tmp_path, profile))
    shown = deck(report(language), SHAPES[shape])
    pages = tree.findall(".//draw:page", ODF)
    assert len(pages) == len(shown.slides)
    for page, slide in zip(pages, shown.slides, strict=True):
        (notes,) = page.findall("presentation:notes", ODF)
        assert "\n".join(texts(notes)) == "\n".join(p for p in slide.notes.split("\n") if p)
        page.remove(notes)
        assert texts(page) == [slide.title, *(line.text for line in slide.lines)]
        about = [one.text for one in page.iterfind(".//svg:desc", ODF)]
        assert about == [picture.about for picture in slide.pictures]
    wide = [
        str(one.get(f"{{{ODF['fo']}}}page-width"))
        for one in tree.iterfind(".//style:page-layout-properties", ODF)
    ]
    centimetres = SHAPES[shape].width / 72 * 2.54
    assert any(abs(float(one.removesuffix("cm")) - centimetres) < 0.02 for one in wide)


@pytest.mark.parametrize("case", CASES, ids="-".join)
def test_impress_draws_the_figures_in_their_places(
    case: tuple[str, str], made: dict[tuple[str, str], bytes], tmp_path: Path, profile: str
) -> None:
    """Readers without SVG show the fallback; it lies where it was placed, and nothing over it."""
    language, shape = case
    size = SHAPES[shape]
    place = 3
    drawn = Image.open(saved(alone(made[case], place), "png", tmp_path, profile))
    scale = drawn.width / size.width
    slide = deck(report(language), size).slides[place]
    (one,) = placing.placed(slide, size, report(language).words)
    page = list(Presentation(io.BytesIO(made[case])).slides)[place]
    fallbacks = [shape.image.blob for shape in page.shapes if shape.shape_type == 13]
    for placed, blob in zip(one.pictures, fallbacks, strict=True):
        box = placed.box
        left, top = box.x * scale, box.y * scale
        seen = drawn.crop((left, top, left + box.width * scale, top + box.height * scale))
        wanted = Image.open(io.BytesIO(blob))
        small = (200, round(200 * box.height / box.width))
        difference = np.abs(grey(seen, small) - grey(wanted, small))
        assert difference.mean() < 6
        assert np.corrcoef(grey(seen, small).ravel(), grey(wanted, small).ravel())[0, 1] > 0.97


def test_impress_prints_a_page_for_each_slide_with_its_pictures(
    made: dict[tuple[str, str], bytes], tmp_path: Path, profile: str
) -> None:
    shown = deck(report("de"), SHAPES["4:3"])
    with pikepdf.open(saved(made[CASES[1]], "pdf", tmp_path, profile)) as printed:
        assert len(printed.pages) == len(shown.slides)
        for page, slide in zip(printed.pages, shown.slides, strict=True):
            assert [round(float(side)) for side in page.mediabox[2:]] == [720, 540]
            drawn = [op for op in pikepdf.parse_content_stream(page) if str(op.operator) == "Do"]
            assert len(drawn) == len(slide.pictures)


def vectors(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Each SVG part with its fallback."""
    for page in Presentation(io.BytesIO(content)).slides:
        for shape in page.shapes:
            if shape.shape_type == 13:
                (blip,) = shape.element.iter("{*}svgBlip")
                (ident,) = blip.attrib.values()
                yield page.part.related_part(ident).blob, shape.image.blob


def test_chromium_draws_each_vector_like_its_fallback(
    made: dict[tuple[str, str], bytes], page: Page
) -> None:
    seen = 0
    for svg, png in vectors(made[CASES[0]]):
        wanted = Image.open(io.BytesIO(png))
        page.set_viewport_size({"width": wanted.width, "height": wanted.height})
        page.set_content(
            f"<style>body{{margin:0}}svg{{display:block;width:100vw;height:100vh}}</style>"
            f"{svg.decode()}"
        )
        drawn = Image.open(io.BytesIO(page.screenshot()))
        size = (wanted.width // 3, wanted.height // 3)
        difference = np.abs(grey(drawn, size) - grey(wanted, size))
        assert difference.mean() < 4
        assert np.corrcoef(grey(drawn, size).ravel(), grey(wanted, size).ravel())[0, 1] > 0.98
        seen += 1
    assert seen == 10


@pytest.mark.skipif(
    "EDGEWISE_OOXML_SCHEMAS" not in os.environ, reason="the schemas of ECMA-376 are not at hand"
)
@pytest.mark.parametrize("case", CASES, ids="-".join)
def test_every_part_is_valid_by_the_schemas(
    case: tuple[str, str], made: dict[tuple[str, str], bytes]
) -> None:
    folder = Path(os.environ["EDGEWISE_OOXML_SCHEMAS"])
    schemas = {
        name: etree.XMLSchema(etree.parse(folder / name))
        for name in ("pml.xsd", "opc-contentTypes.xsd", "opc-relationships.xsd")
    }
    checked = 0
    with zipfile.ZipFile(io.BytesIO(made[case])) as package:
        for name in package.namelist():
            if name.startswith(NOT_SCHEMA):
                continue
            kind = "opc-relationships.xsd" if name.endswith(".rels") else "pml.xsd"
            kind = "opc-contentTypes.xsd" if name == "[Content_Types].xml" else kind
            tree = etree.fromstring(package.read(name))
            if kind == "pml.xsd" and "presentationml" not in tree.tag:
                continue
            schemas[kind].assertValid(tree)
            checked += 1
    assert checked > 30
