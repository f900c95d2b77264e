"""Papers held to the standards of their forms by readers that are not ours.

Sources: ISO 32000-1:2008, ISO 14289-1:2014 and ISO 19005-2:2011, read with pikepdf (QPDF);
html-validate 9.0.0 for the WHATWG HTML Living Standard; axe-core 4.14.1 for WCAG 2.2 AA.
"""

from __future__ import annotations

import io
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

import pikepdf
import pytest

from edgewise.practice.paper import Papers, read_paper
from edgewise.publish.handout import papers as printed
from edgewise.publish.html import papers as pages
from edgewise.publish.marking.build import Wanted
from tests.lesson.test_question import ASKED, FRONT
from tests.outside import test_axe, test_html_validity
from tests.outside.test_pdf_accessibility import elements, kinds
from tests.publish.marking.test_build import built

if TYPE_CHECKING:
    from playwright.sync_api import Browser, ViewportSize

COUNT: Final = 2


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """A paper with a question of each kind."""
    blocks = "\n".join(f"```question\n{block}\n```" for block in ASKED.values())
    path = tmp_path_factory.mktemp("forms") / "every.md"
    path.write_text(f"{FRONT}{blocks}\n", encoding="utf-8")
    return read_paper(path).variants(COUNT, seed=3)


@pytest.mark.parametrize("what", printed.WHATS)
def test_the_pdf_is_accessible(papers: Papers, what: printed.What) -> None:
    with pikepdf.open(io.BytesIO(printed.pdf_of(papers, what))) as pdf:
        assert not pdf.check_pdf_syntax()
        # ISO 14289-1, 7.1 and 5; ISO 19005-2, 6.6.4.
        assert pdf.Root.MarkInfo.Marked
        with pdf.open_metadata() as told:
            assert told["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
            assert (told["pdfaid:part"], told["pdfaid:conformance"]) == ("2", "A")
        # ISO 14289-1, 7.3: figures have an alternative text.
        figures = [element for element in elements(pdf) if element.S == "/Figure"]
        assert all(len(str(figure.Alt)) > 40 for figure in figures)
        assert bool(figures) == (what != "key")
        # ISO 14289-1, 7.4.2: no heading level is passed over.
        levels = [int(str(e.S)[2]) for e in elements(pdf) if str(e.S)[:2] == "/H" != str(e.S)]
        assert levels.count(1) == COUNT
        assert all(after - before <= 1 for before, after in pairwise(levels))
        # ISO 14289-1, 7.5: tables with head cells.
        found = kinds(pdf)
        assert found["Table"] == found["THead"] > 0


def test_the_pages_are_valid(papers: Papers, tmp_path: Path) -> None:
    for what in printed.WHATS:
        text = pages.html_of(papers, what)
        assert test_html_validity.complaints(tmp_path, text) == []


@pytest.fixture(scope="module")
def written(papers: Papers, tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Every page about papers and about a class that wrote one."""
    folder = tmp_path_factory.mktemp("pages")
    for what in printed.WHATS:
        (folder / f"{what}.html").write_text(pages.html_of(papers, what), encoding="utf-8")
    built(folder, Wanted(sheets="page"), "de")
    return sorted(folder.rglob("*.html"))


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 360, 1280])
def test_axe_finds_nothing(
    written: list[Path], browser: Browser, width: int, scheme: Literal["light", "dark"]
) -> None:
    size: ViewportSize = {"width": width, "height": 900}
    context = browser.new_context(viewport=size, bypass_csp=True, color_scheme=scheme)
    page = context.new_page()
    for path in written:
        page.goto(path.as_uri())
        page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
        assert test_axe.complaints(page) == [], path.name
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path.name
    context.close()
