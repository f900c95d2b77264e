"""Handouts read back with pikepdf (QPDF): an accessible PDF as the standards ask.

Sources beside each check: ISO 32000-1:2008 (PDF 1.7), ISO 14289-1:2014 (PDF/UA-1), ISO
19005-2:2011 (PDF/A-2), and for the papers ISO 216:2007 and ANSI/ASME Y14.1.
"""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

import pikepdf
import pytest

from edgewise import lesson
from edgewise.publish.handout import build

EXAMPLES: Final = Path(__file__).parents[2] / "examples"
LESSON: Final = """\
---
title: Zwei Pegel & ein "Addierer"
design: serial-adder
with: {n: 4}
operands: {a: 6, b: 7}
language: de-CH
---
Der erste Pegel meldet `? a`, mit *Nachdruck*.

# Erster Teil

### Tiefer

1. eins
2. zwei, siehe [Seite](https://example.org/)

| Pegel | Wert |
|:--|--:|
| eins | `? A after 4` |

```edge-table
columns: [A, C, S]
```
```diagram
after: 6
caption: Zwei Stellen sind addiert.
```
```timing
columns: [C, S]
```
```claim
S after 8 == (a + b) mod 16    for all a, b
```
"""


@pytest.fixture(scope="module", params=["plain", "blanks", "answers"])
def pdf(request: pytest.FixtureRequest) -> Iterator[pikepdf.Pdf]:
    report = lesson.check_text(LESSON, "pegel.md", Path())
    sheets = build.pdfs(report, blanks=request.param != "plain")
    with pikepdf.open(io.BytesIO(sheets[-1 if request.param == "answers" else 0])) as opened:
        yield opened


def elements(pdf: pikepdf.Pdf) -> list[Any]:
    """The structure elements, in the order in which they are read (ISO 32000-1, 14.7.2)."""
    found: list[Any] = []

    def walk(node: Any) -> None:
        if isinstance(node, pikepdf.Array):
            for item in node:
                walk(item)
        elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
            found.append(node)
            if "/K" in node:
                walk(node.K)

    walk(pdf.Root.StructTreeRoot.K)
    return found


def kinds(pdf: pikepdf.Pdf) -> Counter[str]:
    return Counter(str(element.S).lstrip("/") for element in elements(pdf))


def test_it_is_marked_as_tagged_and_says_which_standards(pdf: pikepdf.Pdf) -> None:
    # ISO 14289-1, 7.1: MarkInfo with Marked true; 5: pdfuaid:part 1 in the metadata.
    assert pdf.Root.MarkInfo.Marked
    with pdf.open_metadata() as told:
        assert told["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
        # ISO 19005-2, 6.6.4: part 2, conformance A.
        assert told["pdfaid:part"] == "2"
        assert told["pdfaid:conformance"] == "A"
        # ISO 14289-1, 7.1: dc:title.
        assert str(told["dc:title"]).startswith('Zwei Pegel & ein "Addierer"')
    # The same clause: the window's title bar shows it.
    assert pdf.Root.ViewerPreferences.DisplayDocTitle


def test_the_language_is_told(pdf: pikepdf.Pdf) -> None:
    # ISO 14289-1, 7.2: the natural language of all text.
    assert str(pdf.Root.Lang) == "de-CH"


def test_every_figure_says_what_it_shows(pdf: pikepdf.Pdf) -> None:
    # ISO 14289-1, 7.3: figures have an alternative text.
    figures = [element for element in elements(pdf) if element.S == "/Figure"]
    told = [str(figure.Alt) for figure in figures]
    assert told[0].startswith("Blockschaltbild nach Flanke 6")
    # The stage that a page has by itself is not worked out, so the answers leave it out.
    assert [text.startswith("Blockschaltbild am Anfang") for text in told[1:-1]] in ([True], [])
    assert told[-1].startswith("Impulsdiagramm")
    assert all(len(text) > 40 for text in told)


def test_tables_have_head_cells_with_their_scope(pdf: pikepdf.Pdf) -> None:
    # ISO 14289-1, 7.5: header cells, with a scope. ISO 32000-1, 14.8.4.3.4: Table, TR, TH, TD.
    found = kinds(pdf)
    # The lesson's two, and the stage's; with blanks a wide one goes on in another.
    assert found["Table"] in {3, 4}
    assert found["THead"] == found["Table"]
    heads = [element for element in elements(pdf) if element.S == "/TH"]
    assert len(heads) in {2 + 5 + 11, 3 + 5 + 11, 2 + 5 + 13}
    for head in heads:
        attributes = head.A if isinstance(head.A, pikepdf.Array) else [head.A]
        assert any(str(a.get("/Scope", "")) == "/Column" for a in attributes)
    rows = 9 + 1  # all rows of the run, and the head
    assert found["TR"] >= rows


def test_headings_come_in_order(pdf: pikepdf.Pdf) -> None:
    # ISO 14289-1, 7.4.2: no heading level is passed over.
    levels = [
        int(str(e.S)[2]) for e in elements(pdf) if str(e.S) in {f"/H{i}" for i in range(1, 7)}
    ]
    assert levels
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_lists_links_and_emphasis_are_tagged() -> None:
    report = lesson.check_text(LESSON, "pegel.md", Path())
    with pikepdf.open(io.BytesIO(build.pdfs(report)[0])) as pdf:
        found = kinds(pdf)
        # ISO 32000-1, 14.8.4.3.3 and 14.8.4.4.2.
        assert found["L"] >= 2
        assert found["LI"] >= 3
        assert found["Link"] == 1
        assert found["Em"] == 1
        annotations = [note for page in pdf.pages for note in page.get("/Annots", [])]
        assert [str(note.A.URI) for note in annotations] == ["https://example.org/"]


def test_every_typeface_is_embedded(pdf: pikepdf.Pdf) -> None:
    # ISO 19005-2, 6.2.11.4: font programs of all fonts used are embedded.
    fonts: dict[str, bool] = {}
    for page in pdf.pages:
        _gather(page.get("/Resources", pikepdf.Dictionary()), fonts)
    assert fonts
    assert {name.split("+")[-1].split("-")[0] for name in fonts} <= {"SourceSans3", "IBMPlexMono"}
    assert all(fonts.values()), fonts


def _gather(resources: Any, fonts: dict[str, bool]) -> None:
    for font in dict(resources.get("/Font", {})).values():
        descendants = font.get("/DescendantFonts", [font])
        for one in descendants:
            told = one.get("/FontDescriptor", pikepdf.Dictionary())
            has = any(f"/FontFile{n}" in told for n in ("", "2", "3"))
            fonts[str(one.BaseFont).lstrip("/")] = has
    for inner in dict(resources.get("/XObject", {})).values():
        if "/Resources" in inner:
            _gather(inner.Resources, fonts)


def test_figures_are_vectors(pdf: pikepdf.Pdf) -> None:
    # Common practice, no source: a drawing is printed as lines, not as a picture of pixels.
    images = [name for page in pdf.pages for name in page.get_images()]
    assert images == []


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_the_paper_has_its_size(paper: str, width: float, height: float) -> None:
    # ISO 216: A4 is 210 mm x 297 mm; ANSI/ASME Y14.1: size A is 8.5 in x 11 in.
    report = lesson.check_text(LESSON, "pegel.md", Path())
    for sheet in build.pdfs(report, paper=paper, blanks=True):
        with pikepdf.open(io.BytesIO(sheet)) as pdf:
            for page in pdf.pages:
                box = [float(side) * 25.4 / 72 for side in page.mediabox]
                assert box == pytest.approx([0, 0, width, height], abs=0.1)


def test_the_same_lesson_gives_the_same_bytes() -> None:
    report = lesson.check_text(LESSON, "pegel.md", Path())
    again = lesson.check_text(LESSON, "pegel.md", Path())
    assert build.pdfs(report, blanks=True) == build.pdfs(again, blanks=True)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.md")), ids=lambda path: path.stem)
def test_every_example_prints(path: Path) -> None:
    report = lesson.check(path)
    for sheet in build.pdfs(report, blanks=True):
        with pikepdf.open(io.BytesIO(sheet)) as pdf:
            assert pdf.Root.MarkInfo.Marked
            assert 1 <= len(pdf.pages) < 20
            assert not pdf.check_pdf_syntax()
