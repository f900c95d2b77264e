"""Attempts handed in from a page: copied or saved in Chromium, then marked for the class."""

from __future__ import annotations

import html
import re
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from edgewise.practice.marking import table
from tests.conftest import Edgewise
from tests.publish.stages import LESSON, answer, begin, build, expected, fill

if TYPE_CHECKING:
    from playwright.sync_api import Page


def code(page: Page) -> str:
    page.get_by_role("button", name="Copy my attempts").click()
    return page.get_by_label("Code of my attempts").input_value()


def mark(edgewise: Edgewise, lesson: Path, *further: str) -> list[dict[str, str]]:
    """The table of marks, row by row."""
    folder = lesson.parent
    (folder / "lesson.md").write_text(LESSON, "utf-8")
    told = edgewise(
        *("mark", str(folder / "in"), "--paper", str(lesson), "-o", str(folder / "marked")),
        *("--table", "csv", *further),
    )
    assert told.code == 0, told.err
    found = table.read(folder / "marked" / "marks.csv")
    return [dict(zip(found.headings, line.cells, strict=True)) for line in found.lines]


def test_nothing_is_offered_before_anything_was_tried(opened: Page) -> None:
    begin(opened, 9)
    expect(opened.get_by_role("button", name="Copy my attempts")).to_be_hidden()
    answer(opened, expected(opened)[:1])
    expect(opened.get_by_role("button", name="Copy my attempts")).to_be_visible()


def test_a_class_hands_in_and_is_marked(opened: Page, tmp_path: Path, edgewise: Edgewise) -> None:
    """One right, one who goes on with a wrong carry, one who changes the code."""
    folder = tmp_path / "in"
    folder.mkdir()
    begin(opened, 9)
    for _ in range(3):
        answer(opened, expected(opened))
    with opened.expect_download() as saved:
        opened.get_by_role("button", name="Save them as a file").click()
    expect(opened.locator(".handed")).to_have_text("Saved as edgewise-attempts.txt.")
    saved.value.save_as(folder / "Ada.txt")
    right = code(opened)
    assert (folder / "Ada.txt").read_text("utf-8") == f"{right}\n"
    opened.get_by_role("button", name="Forget my progress").click()
    expect(opened.get_by_role("button", name="Copy my attempts")).to_be_hidden()

    begin_again = opened.get_by_role("button", name="Begin after the row shown")
    opened.locator('.ruler [data-row="9"]').click()
    begin_again.click()
    bits = expected(opened)
    bits[12] = 1 - bits[12]  # the carry, behind A and B
    answer(opened, bits)
    opened.get_by_role("button", name="Go on with my row").click()
    answer(opened, expected(opened))
    answer(opened, expected(opened)[:5])
    (folder / "Bo.txt").write_text(code(opened), "utf-8")
    (folder / "Cy.txt").write_text(right.replace(".b9.", ".b8."), "utf-8")

    marks = mark(edgewise, tmp_path / "lesson.md", "--sheets", "page")
    assert [(row["learner"], row["total"], row["of"], row["idea"]) for row in marks] == [
        ("Ada", "3", "3", "right"),
        ("Bo", "1.75", "3", "careless"),
        ("Cy", "", "", ""),
    ]
    assert marks[2]["note"] == "the code is damaged or changed: its checksum does not fit"
    told = (tmp_path / "marked" / "feedback.html").read_text("utf-8")
    texts = html.unescape(re.sub(r"<[^>]*>", "\n", told))
    assert "The error begins at C after 10" in texts
    assert "No code that fits was handed in" in texts
    report = (tmp_path / "marked" / "report.html").read_text("utf-8")
    assert "1 without a code that fits" in report
    assert "Ada" not in re.sub(r"(?s)<style>.*</style>", "", report)


def test_an_idea_that_the_page_recognised_is_in_the_code_and_fits(
    opened: Page, tmp_path: Path, edgewise: Edgewise
) -> None:
    """The sum bit is 1 if any input is: 1 + 1 and no carry, S takes 1."""
    (tmp_path / "in").mkdir()
    opened.locator('.ruler [data-row="7"]').click()
    opened.get_by_text("Predict the next rows").click()
    opened.get_by_role("button", name="Begin after the row shown").click()
    bits = expected(opened)
    bits[13] = 1
    answer(opened, bits)
    assert "One and one make one" in opened.locator(".verdict").inner_text()
    told = code(opened)
    assert re.search(r"\.u[0-9a-z]+_i[0-9a-z]+\.", told)
    (tmp_path / "in" / "Ada.txt").write_text(told, "utf-8")
    assert [row["note"] for row in mark(edgewise, tmp_path / "lesson.md")] == [""]
    (tmp_path / "in" / "Ada.txt").write_text(told, "utf-8")


def test_other_numbers_and_another_size_fit_too(
    opened: Page, tmp_path: Path, edgewise: Edgewise
) -> None:
    (tmp_path / "in").mkdir()
    opened.get_by_text("Try other numbers").click()
    opened.get_by_label("n", exact=True).select_option("4")
    fill(opened, "a", "5")
    fill(opened, "b", "11")
    opened.get_by_text("Predict the next rows").click()
    opened.locator('.ruler [data-row="7"]').click()
    opened.get_by_role("button", name="Begin after the row shown").click()
    answer(opened, expected(opened))
    assert ".r4_5_b_d.b7.s" in code(opened)
    (tmp_path / "in" / "Ada.txt").write_text(code(opened), "utf-8")
    (row,) = mark(edgewise, tmp_path / "lesson.md", "--no-feedback")
    assert (row["e8"], row["note"]) == ("1", "")


def test_attempts_stay_in_the_browser_and_are_forgotten_with_the_progress(opened: Page) -> None:
    begin(opened, 11)
    answer(opened, expected(opened))
    told = code(opened)
    opened.reload()
    opened.get_by_text("Predict the next rows").click()
    assert code(opened) == told
    opened.get_by_role("button", name="Forget my progress").click()
    assert opened.evaluate("localStorage.length") == 0


def test_a_page_that_may_not_copy_marks_the_code(page: Page, built: str) -> None:
    page.add_init_script("delete Navigator.prototype.clipboard")
    page.goto(built)
    begin(page, 11)
    answer(page, expected(page))
    page.get_by_role("button", name="Copy my attempts").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".handed")).to_have_text(
        "This browser does not let a page copy: copy the marked code yourself."
    )
    assert page.evaluate("getSelection().toString()").startswith("ew1.")


def test_german(page: Page, tmp_path: Path) -> None:
    page.goto(build(tmp_path, LESSON.replace("operands:", "language: de\noperands:")))
    page.locator('.ruler [data-row="11"]').click()
    page.get_by_text("Die nächsten Zeilen vorhersagen").click()
    page.locator(".prediction button", has_text="Nach der gezeigten Zeile").click()
    answer(page, expected(page))
    page.get_by_role("button", name="Meine Versuche kopieren").click()
    expect(page.locator(".handed")).to_contain_text("kopier", ignore_case=True)
    expect(page.get_by_label("Code meiner Versuche")).to_be_visible()
