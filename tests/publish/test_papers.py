"""Papers in every form: what is written, and that nothing in a paper tells an answer."""

from __future__ import annotations

import html
import io
import re
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pikepdf
import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice import wording
from edgewise.practice.paper import Papers, read_paper
from edgewise.practice.question import CellsQuestion
from edgewise.publish import papers as publisher
from edgewise.publish.handout import papers as printed
from edgewise.publish.html import papers as pages
from tests.lesson.test_question import ASKED, FRONT

if TYPE_CHECKING:
    from playwright.sync_api import Page

EXAMPLE: Final = Path(__file__).parents[2] / "examples" / "three-gauges-paper.md"


@pytest.fixture(scope="module")
def papers() -> Papers:
    return read_paper(EXAMPLE).variants(3, seed=5)


@pytest.fixture(scope="module")
def every(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """A paper with a question of each kind."""
    blocks = "\n".join(f"```question\n{block}\n```" for block in ASKED.values())
    path = tmp_path_factory.mktemp("every") / "every.md"
    path.write_text(f"{FRONT}{blocks}\n", encoding="utf-8")
    return read_paper(path).variants(2, seed=3)


def test_one_run_writes_everything(papers: Papers, tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    written = publisher.build(papers, tmp_path, progress=lambda *at: told.append(at))
    assert [path.name for path in written] == [
        "three-gauges-paper-papers.pdf",
        "three-gauges-paper-key.pdf",
        "three-gauges-paper-solutions.pdf",
        "three-gauges-paper-papers.html",
        "three-gauges-paper-key.html",
        "three-gauges-paper-solutions.html",
        "three-gauges-paper-answers.csv",
    ]
    assert all(path.stat().st_size for path in written)
    assert told == [(i, 7) for i in range(1, 8)]


def test_the_same_papers_give_the_same_bytes(papers: Papers, tmp_path: Path) -> None:
    again = read_paper(EXAMPLE).variants(3, seed=5)
    first = publisher.build(papers, tmp_path / "one")
    second = publisher.build(again, tmp_path / "two")
    assert [path.read_bytes() for path in first] == [path.read_bytes() for path in second]


def test_another_paper_size_is_refused(papers: Papers, tmp_path: Path) -> None:
    for size, told in (
        ("lettre", "there is no paper lettre; did you mean letter?"),
        ("foolscap", "there is no paper foolscap; papers are a4 or letter"),
    ):
        with pytest.raises(EdgewiseError) as refused:
            publisher.build(papers, tmp_path, paper=size)
        assert str(refused.value) == told
    assert not list(tmp_path.iterdir())


def test_each_code_stands_on_its_paper(papers: Papers) -> None:
    source = printed.typst_of(papers, "papers").text
    page = pages.html_of(papers)
    for one in papers.variants:
        assert source.count(f'#paper-sheet("{one.code}"') == 1
        assert page.count(f'<section class="paper" id="{one.code}">') == 1


def test_a_paper_tells_no_answer(every: Papers) -> None:
    """Open cells have no digits, no solution is there, no fault and no misconception is named."""
    page, source = pages.html_of(every), printed.typst_of(every, "papers")
    asked = [question for one in every.variants for question in one.questions]
    open_bits = sum(
        len(question.expected(heading))
        for question in asked
        if isinstance(question, CellsQuestion) and question.kind != "lane"
        for heading in question.headings
    )
    assert page.count('<i class="open">') == open_bits
    opened = sum(len(word) for word in re.findall(r'word\("(_+)"', source.text))
    assert opened == open_bits
    for text in (page, source.text, *(content.decode() for content in source.files.values())):
        assert "Worked solution" not in text
        assert "Answer: " not in text
        assert "<edgewise-stage" not in text
    for one in every.variants:
        value = next(q for q in one.questions if q.kind == "value")
        # The digits of a value as a word of the page, apart from tables and options.
        plain = re.sub(r"<table.*?</table>|<ol.*?</ol>", "", page, flags=re.DOTALL)
        assert not re.search(rf"\b{value.expected(value.name)}\b", plain)


def test_a_missing_lane_is_left_to_be_drawn(every: Papers) -> None:
    source, worked = (printed.typst_of(every, what) for what in ("papers", "solutions"))
    left = [c for c in source.files.values() if b"the lane of C left to be drawn" in c]
    assert len(left) == len(source.files)
    assert all(b"left to be drawn" not in content for content in worked.files.values())
    # A 1 is a thick line; the missing lane has none.
    for asked, whole in zip(left, worked.files.values(), strict=True):
        assert asked.count(b'stroke-width="3"') < whole.count(b'stroke-width="3"')


def test_solutions_tell_every_answer(every: Papers) -> None:
    solved, key = pages.html_of(every, "solutions"), printed.typst_of(every, "key").text
    table = html.unescape(pages.html_of(every, "key"))
    for one in every.variants:
        for question in one.questions:
            if not isinstance(question, CellsQuestion):
                answer = question.expected(question.headings[0])
                assert answer in solved
                assert answer in key.replace("\xa0", " ")  # a formula stays on one line
                assert f"<td>{wording.answer(question, one.report.words)}</td>" in table
    assert solved.count("<summary>Worked solution</summary>") == 2 * len(ASKED)


def lowest(page: pikepdf.Page) -> float:
    """Where the lowest text of a page begins, pt from its lower edge."""
    at, kept, found = pikepdf.Matrix(), [], []
    for step in pikepdf.parse_content_stream(page):
        match str(step.operator):
            case "q":
                kept.append(at)
            case "Q":
                at = kept.pop()
            case "cm":
                at = pikepdf.Matrix(*map(float, step.operands)) @ at
            case "Tm":
                found.append((pikepdf.Matrix(*map(float, step.operands)) @ at).f)
    return min(found)


def test_no_solution_runs_over_the_foot_of_its_page(tmp_path: Path) -> None:
    """German words are longer: two tables of ten rows and what follows don't fit on a page."""
    text = EXAMPLE.read_text("utf-8").replace("---\n", "---\nlanguage: de\n", 1)
    (tmp_path / "pegel.md").write_text(text, "utf-8")
    made = printed.pdf_of(read_paper(tmp_path / "pegel.md").variants(1, seed=5), "solutions")
    with pikepdf.open(io.BytesIO(made)) as document:
        feet = {round(lowest(page)) for page in document.pages}
    assert len(feet) == 1, feet  # the line of the foot


def test_a_paper_is_called_as_in_its_language(tmp_path: Path) -> None:
    text = EXAMPLE.read_text("utf-8").replace("---\n", "---\nlanguage: de\n", 1)
    (tmp_path / "pegel.md").write_text(text, "utf-8")
    made = read_paper(tmp_path / "pegel.md").variants(1, seed=5)
    assert '#paper-facts("serieller Akkumulator", ' in printed.typst_of(made, "papers").text
    assert "<li>serieller Akkumulator</li>" in pages.html_of(made)


def test_ids_differ_on_a_page_of_many_papers(every: Papers) -> None:
    for what in printed.WHATS:
        ids = re.findall(r'\bid="([^"]+)"', pages.html_of(every, what))
        assert ids
        assert len(ids) == len(set(ids))


def test_the_page_opens_without_a_complaint(papers: Papers, page: Page, tmp_path: Path) -> None:
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    path = tmp_path / "papers.html"
    path.write_text(pages.html_of(papers), encoding="utf-8")
    page.goto(path.as_uri())
    assert page.locator("section.paper").count() == 3
    assert page.locator("section.question").count() == 18
    page.locator("summary", has_text="Hint").first.click()
    hint = page.get_by_text("Add first, then shift.").first
    assert hint.is_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert wrong == []
