"""Items answered in a renderer that is not ours, its score held against the key.

Source: @citolab/qti-components 7.27.4 (Citolab), which shows items of 1EdTech QTI 3.0 and processes
their responses by the standard's own rules.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

from edgewise.practice.paper import Papers, read_paper
from edgewise.publish.qti import item, markup
from edgewise.publish.qti.item import Item
from tests.lesson.test_question import ASKED, FRONT
from tests.web import workshop

if TYPE_CHECKING:
    from playwright.sync_api import Page

RENDERER: Final = workshop.TOOLS / "@citolab" / "qti-components" / "cdn" / "index.global.js"
SHOW: Final = """\
(xml) => {
  const made = (node) => {
    if (node.nodeType !== Node.ELEMENT_NODE) return document.importNode(node, true);
    const element = document.createElement(node.localName);
    for (const { name, value } of node.attributes) element.setAttribute(name, value);
    element.append(...[...node.childNodes].map(made));
    return element;
  };
  const parsed = new DOMParser().parseFromString(xml, "text/xml").documentElement;
  document.body.replaceChildren(made(parsed));
  return new Promise((done) => setTimeout(done, 100));
}
"""
OUTCOMES: Final = """\
() => {
  const item = document.querySelector("qti-assessment-item");
  item.processResponse();
  return ["SCORE", "FEEDBACK"].map((name) => item.getOutcome(name)?.value ?? null);
}
"""


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    blocks = "\n".join(f"```question\n{block}\n```" for block in ASKED.values())
    path = tmp_path_factory.mktemp("renderer") / "every.md"
    path.write_text(f"{FRONT}{blocks}\n", encoding="utf-8")
    return read_paper(path).variants(1, seed=3)


@pytest.fixture
def renderer(page: Page) -> Page:
    if not RENDERER.exists():
        pytest.fail(f"this test needs @citolab/qti-components; {workshop.ADVICE}", pytrace=False)
    page.goto("about:blank")
    page.add_script_tag(path=RENDERER)
    return page


def answered(page: Page, one: Item, answers: list[str]) -> tuple[float, str | None]:
    """The score, and the feedback, of answers given as a learner gives them."""
    page.evaluate(SHOW, markup.written(one, "3.0").decode())
    if one.choices:
        page.locator(f"qti-simple-choice[identifier='{answers[0]}']").click()
    fields = page.locator("qti-text-entry-interaction input")
    assert fields.count() == len(one.fields)
    for number, _ in enumerate(one.fields):
        fields.nth(number).fill(answers[number])
        fields.nth(number).press("Tab")
    score, feedback = page.evaluate(OUTCOMES)
    return float(score), feedback


def right(one: Item) -> list[str]:
    return [one.right] if one.choices else [blank.right[0] for blank in one.fields]


def test_right_answers_have_all_marks_and_wrong_ones_have_theirs(
    renderer: Page, papers: Papers
) -> None:
    wrong: Any = []
    for one in item.items(papers.variants[0])[0]:
        score, told_so_far = answered(renderer, one, right(one))
        assert score == pytest.approx(one.marks)
        assert told_so_far is None
        if len(one.fields) > 1:
            # One cell wrong, the others right: a share of the marks.
            spoiled = [*right(one)[:-1], "2"]
            share = float(one.marks - one.each)
            # The renderer rounds what it shows to three places.
            assert answered(renderer, one, spoiled)[0] == pytest.approx(share, abs=5e-4)
        for told in one.told:
            assert answered(renderer, one, [told.answer]) == (0.0, told.identifier)
            wrong.append(told.identifier)
    assert {"carry-dropped", "one-edge-early"} <= set(wrong)


def test_upper_and_lower_case_are_the_same_and_nothing_is_worth_nothing(
    renderer: Page, papers: Papers
) -> None:
    (first, *_) = item.items(papers.variants[0])[0]
    unknown = Item(
        identifier="X",
        title="X",
        language="en",
        prompt="?",
        marks=2,
        facts="-",
        blanks=(item.Blank("R1", "S", ("X01",), 3),),
    )
    assert answered(renderer, unknown, ["x01"])[0] == 2.0
    assert answered(renderer, first, [""] * len(first.fields))[0] == 0.0


def test_the_example_is_an_item_in_either_version() -> None:
    paper = read_paper(Path(__file__).parents[2] / "examples" / "three-gauges-paper.md")
    made, left = item.items(paper.variants(1).variants[0])
    assert (len(made), left) == (6, ())
    for version in markup.NAMESPACES:
        assert [markup.read(markup.written(one, version)) for one in made] == list(made)
