"""Each sentence of a feedback sheet, in every state it can meet, in English and German."""

from __future__ import annotations

import html
import re

import pytest

from edgewise.practice.marking import answer_sheet, class_marks, mark_sheet, table
from edgewise.practice.marking.diagnosis import Diagnosis, Fit, Status, judged
from edgewise.practice.marking.overrules import Overrules
from edgewise.publish.handout import pdf
from edgewise.publish.marking import sheet_page, sheet_print
from edgewise.publish.marking.feedback_sheet import MOST_CELLS, Sheets, idea
from edgewise.words import messages
from tests.practice.marking.classes import (
    OnePaper,
    Papers,
    Plain,
    adder,
    asked,
    paper,
)

CELLS = asked(range(5, 9), ["C", "S"])
FILLED = paper(adder(4), CELLS, {"K7": {"a": 7, "b": 5}}).variants["K7"].questions[0]
LETTER = Plain("q2", "letter", {"q2": "b"})
PAPER = Papers({"K7": OnePaper((FILLED, LETTER))})
RIGHT = [FILLED.expected(heading) for heading in FILLED.headings]
STRING = re.compile(r'"((?:[^"\\]|\\.)*)"')


def sheets(*rows: list[str], language: str = "en", old: Overrules | None = None) -> Sheets:
    head = ["learner", "code", *FILLED.headings, "q2"]
    text = "\n".join(",".join(row) for row in [head, *rows])
    marked = class_marks.mark(answer_sheet.of_table(table.of_text(text, "x.csv"), PAPER))
    marks = mark_sheet.overruled(marked, old or Overrules())
    return Sheets("Rain gauges", marked, marks, messages.of(language), language)


def strings(made: Sheets, number: int = 0) -> list[str]:
    """What is printed of one learner, string by string."""
    return STRING.findall(sheet_print.source(made, [number]))[4:]


def wrote(letter: str = "b", name: str = "Bo", **wrong: str) -> list[str]:
    words = list(RIGHT)
    for place, word in wrong.items():
        words[int(place[1:])] = word
    return [name, "K7", *words, letter]


def test_all_right() -> None:
    assert strings(sheets(wrote())) == [
        "Bo",
        "Paper K7",
        "You have 6 of 6 marks.",
        "Question 1: 4 of 4",
        "8 of 8 cells are right.",
        "Question 2: 2 of 2",
        "b is right.",
    ]


def test_where_an_error_began_and_what_follows() -> None:
    """7 + 5 with the carry of edge 6 forgotten: see test_marks."""
    assert strings(sheets(wrote("a", c2="0", c5="0000", c7="1000"))) == [
        "Bo",
        "Paper K7",
        "You have 3.5 of 6 marks.",
        "There are 2 errors, and no idea that is known here fits them and all else you wrote.",
        "Question 1: 3.5 of 4",
        "5 of 8 cells are right.",
        "The error begins at C after 6: you wrote 0, but 1 follows from your other cells.",
        "2 wrong cells follow from your own, and count for the method.",
        "where",
        "you wrote",
        "right",
        "from your own cells",
        "this is",
        "C after 6",
        "0",
        "1",
        "",
        "an error",
        "S after 7",
        "0000",
        "1000",
        "0000",
        "what follows",
        "S after 8",
        "1000",
        "1100",
        "1000",
        "what follows",
        "Question 2: 0 of 2",
        "You wrote a; a right answer is b.",
    ]


def test_missing_unread_and_read_in_doubt() -> None:
    told = strings(sheets(wrote("two", c1="10", c3="", c5="?", c7="\U0001f600")))
    assert "One answer is missing." in told
    assert "2 answers can’t be read." in told
    assert " (read as 0010)" in told
    assert told[-1] == "two can’t be read as an answer to this question."
    assert told.count("?") == 2  # a letter that no typeface has is shown as one


def test_what_a_marker_overruled_is_what_counts() -> None:
    old = Overrules(("learner", "q1 overrule"), {"Bo": {"q1 overrule": "1,5"}})
    told = strings(sheets(wrote(), old=old))
    assert "You have 3.5 of 6 marks." in told
    assert "Question 1: 1.5 of 4" in told


def test_a_code_of_no_paper() -> None:
    told = strings(sheets(["Bo", "Z9", *RIGHT, "b"]))
    assert told == [
        "Bo",
        "Paper Z9",
        "No paper has this code, so that nothing could be marked. Ask your teacher.",
    ]


def test_german() -> None:
    told = strings(sheets(wrote("a", c2="0", c5="0000", c7="1000"), language="de"))
    assert told[:7] == [
        "Bo",
        "Blatt K7",
        "Du hast 3,5 von 6 Punkten.",
        "Es sind 2 Fehler, und keine hier bekannte Vorstellung passt zu ihnen und allem anderen,"
        " was du geschrieben hast.",
        "Aufgabe 1: 3,5 von 4",
        "5 von 8 Feldern sind richtig.",
        "Der Fehler beginnt bei C nach 6: Du hast 0 geschrieben, aus deinen anderen Feldern folgt"
        " aber 1.",
    ]


@pytest.mark.parametrize(
    ("found", "told"),
    [
        (judged(9, 0, [Fit((), 0, 0)]), []),
        (
            Diagnosis(Status.NOTHING),
            [
                "There is nothing yet that could be marked. The worked solutions show how each"
                " answer comes about; ask where you would like to begin."
            ],
        ),
        (
            Diagnosis(Status.UNREADABLE, 2, 2),
            [
                "Most of what you wrote can’t be read here, so nothing is said about the ideas"
                " behind it. Show your teacher what you meant."
            ],
        ),
        (
            judged(9, 1, [Fit((), 1, 0)]),
            ["There is one error; one alone does not show a wrong idea."],
        ),
        (
            judged(9, 6, [Fit((), 6, 0)]),
            [
                "No idea that is known here explains these errors. Talk about them with your"
                " teacher."
            ],
        ),
        (
            judged(9, 4, [Fit((), 4, 0), Fit(("carry-dropped",), 1, 1)]),
            [
                "Your answers look as if you thought:",
                "“Each place is added by itself; the carry is left out.”",
                "That gives 3 of your 4 wrong answers; one right answer speaks against it.",
            ],
        ),
        (
            judged(9, 5, [Fit((), 5, 0), Fit(("carry-dropped", "or-for-sum"), 0, 0)]),
            [
                "Your answers look as if you thought two things together:",
                "“Each place is added by itself; the carry is left out.” and “One and one make"
                " one: the sum bit is 1 if any input is 1.”",
                "That gives 5 of your 5 wrong answers.",
            ],
        ),
        (
            judged(9, 4, [Fit((), 4, 0), Fit(("wrong-end",), 0, 2), Fit(("re-enters",), 0, 2)]),
            [
                "Your answers look as if you thought one of these, which they don’t tell apart:",
                "“The new bit enters at the other end of the register.”",
                "“The bit that leaves the register comes in again at its other end.”",
                "That gives 4 of your 4 wrong answers; 2 right answers speak against it.",
            ],
        ),
    ],
)
def test_what_is_said_of_an_idea(found: Diagnosis, told: list[str]) -> None:
    assert list(idea(found, messages.of("en"))) == told


def test_a_sheet_of_many_cells_ends() -> None:
    filled = paper(adder(8), asked(range(17), ["A", "B", "C"]), {"K7": {"a": 7, "b": 5}})
    question = filled.variants["K7"].questions[0]
    text = "\n".join([",".join(["learner", "code", *question.headings]), "Bo,K7,1"])
    marked = class_marks.mark(answer_sheet.of_table(table.of_text(text, "x.csv"), filled))
    made = Sheets("T", marked, mark_sheet.overruled(marked, Overrules()), messages.of("en"))
    assert f"… and {3 * 17 - MOST_CELLS} cells more." in strings(made)


@pytest.mark.parametrize("name", ['=1+1"', "#panic()", "\u4e2d\u6587", "[*]", "a" * 300, "$x$"])
def test_a_name_is_text_whatever_it_is(name: str) -> None:
    made = sheets(wrote(name=name.replace('"', '""').join('""') if '"' in name else name))
    assert pdf.pdf(sheet_print.source(made, [0]), {}).startswith(b"%PDF")


def test_the_page_of_a_sheet_says_what_the_printed_one_says() -> None:
    made = sheets(wrote("a", c2="0", c5="0000", c7="1000", name="<b>Bo</b> & Co"))
    told = sheet_page.html_of(made, [0])
    body = told[told.index("<main>") : told.index("</main>")]
    texts = [
        html.unescape(one) for one in re.sub(r"<[^>]*>", "\n", body).split("\n") if one.strip()
    ]
    assert texts == [one for one in strings(made) if one]
    assert "<b>" not in body


def test_the_page_of_a_class_has_a_section_for_each() -> None:
    made = sheets(wrote(), wrote(name="Cy"), language="de")
    told = sheet_page.html_of(made, range(2))
    assert told.count("<section>") == 2
    assert '<html lang="de">' in told
    assert "Berechnet aus deinen eigenen Antworten." in told
