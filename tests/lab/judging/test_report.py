"""Many submissions: the same in one process and in two, their groups, the page and the table."""

from __future__ import annotations

import csv
import json
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from edgewise import catalogue
from edgewise.lab.judging import warden
from edgewise.lab.judging.beside import beside
from edgewise.lab.judging.groups import groups
from edgewise.lab.judging.submission import gathered
from edgewise.lab.judging.verdict import Verdict
from edgewise.publish.submissions import build
from edgewise.publish.submissions import page as page_of
from edgewise.study.cost.sweep import workplace
from edgewise.words import messages
from edgewise.words.messages import ENGLISH
from tests.conftest import Edgewise
from tests.lab.judging.test_submission import RIGHT

if TYPE_CHECKING:
    from playwright.sync_api import Page

DESIGN = catalogue.design("serial-adder", n=4)
SET = ("C <= onward", "C <= onward | C")
ODD = ("C <= onward", "C <= onward & ~S[3]")
ODD_TOO = ("C <= onward", "C <= ~(~onward | S[3])")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Six submissions: two right, two with a known idea, two with an error of their own."""
    path = tmp_path_factory.mktemp("handed-in")
    for name, (old, new) in {
        "ada.v": ("", ""),
        "ben.v": SET,
        "cleo.v": ODD,
        "dan.v": SET,
        "eve.v": ODD_TOO,
        "finn.v": ("module adder", "module adder_of_finn"),
    }.items():
        assert old in RIGHT
        text = RIGHT.replace(old, new) if old else RIGHT
        (path / name).write_text(text, "utf-8")
    (path / "notes.txt").write_text("no description", "utf-8")
    return path


@pytest.fixture(scope="module")
def verdicts(folder: Path) -> list[Verdict]:
    return warden.judged(gathered([folder]), DESIGN)


def test_a_folder_is_judged_alike_in_one_process_and_in_two(
    folder: Path, verdicts: list[Verdict]
) -> None:
    outcomes = ["right", "wrong", "wrong", "wrong", "wrong", "right"]
    assert [one.outcome for one in verdicts] == outcomes
    paths = gathered([folder])[:2] * 6  # two pieces of work
    told = [list(one.sentences()) for one in warden.judged(paths, DESIGN, workplace(2))]
    assert told == [list(one.sentences()) for one in verdicts[:2]] * 6


def test_the_same_error_is_one_group(verdicts: list[Verdict]) -> None:
    found = groups(verdicts)
    assert [(one.name, [Path(v.file).stem for v in one.verdicts]) for one in found] == [
        ("carry-stays-set", ["ben", "dan"]),
        ("wrong", ["cleo", "eve"]),
        ("right", ["ada", "finn"]),
    ]


def test_one_that_takes_too_long_is_not_judged_and_the_next_is(tmp_path: Path) -> None:
    slow, next_ = tmp_path / "slow.v", tmp_path / "next.v"
    slow.write_text("module m(input [299:0] a, output [599:0] y); assign y = a * a; endmodule")
    found = warden.of_piece(warden.Piece((slow, next_), DESIGN, {}, 1.0, 0.0))
    assert [one.reason for one in found] == [
        f"{slow}: it takes more than 1 s or 4 GB to judge; make it smaller",
        f"{next_}: can't be read: No such file or directory",
    ]


class Text(HTMLParser):
    """The text of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []

    def handle_data(self, data: str) -> None:
        self.said.append(data)


def test_a_folder_becomes_a_page_and_a_table(verdicts: list[Verdict], tmp_path: Path) -> None:
    page, table = build.build(groups(verdicts), DESIGN, tmp_path / "judged", ENGLISH)
    lines = list(csv.DictReader(table.read_text("utf-8").splitlines()))
    assert [(Path(line["file"]).name, line["verdict"], line["error"]) for line in lines] == [
        ("ada.v", "right", ""),
        ("ben.v", "wrong", "1"),
        ("cleo.v", "wrong", "2"),
        ("dan.v", "wrong", "1"),
        ("eve.v", "wrong", "2"),
        ("finn.v", "right", ""),
    ]
    shown = [lines[1][name] for name in ("operands", "output", "edge", "found", "expected")]
    assert shown == ["a = 1, b = 1", "sum", "8", "1110", "0010"]
    text = Text()
    text.feed(page.read_text("utf-8"))
    said = " ".join(" ".join(text.said).split())
    for one in (
        "6 submissions 2 right 4 wrong",
        "Error 1: 2 submissions",
        "ben.v, dan.v",
        "ben.v beside the design, a = 1, b = 1. The first bits that differ stand after edge 6.",
        "These give the same answers for all operands, which was proved.",
    ):
        assert one in said


@pytest.mark.browser
@pytest.mark.parametrize("wide", [1100, 380])
def test_the_page_is_whole_in_a_browser(
    verdicts: list[Verdict], wide: int, page: Page, tmp_path: Path
) -> None:
    made, _ = build.build(groups(verdicts), DESIGN, tmp_path, messages.of("de"))
    wrong: list[str] = []
    page.on("console", lambda message: wrong.append(message.text))
    page.set_viewport_size({"width": wide, "height": 900})
    page.goto(made.as_uri())
    assert page.locator("figure svg").count() == 2
    assert page.locator("h1").inner_text() == "Beurteilte Abgaben: serial-adder, n = 4"
    width = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert (wrong, width <= 0) == ([], True)


def test_the_drawing_shows_both_runs(verdicts: list[Verdict]) -> None:
    refuted = verdicts[1].refuted
    assert refuted is not None
    both, names = beside(refuted)
    assert names[3:] == (
        *("sum: design", "sum: submitted", "carry: design", "carry: submitted", "differs"),
    )
    for row in range(both.edges + 1):
        words = [str(both.word(name, row)) for name in names[3:]]
        runs = [str(run.word(name, row)) for name in ("sum", "carry") for run in refuted.runs]
        assert words == [*runs, str(int(row >= 6))]
    drawing = page_of.drawn(refuted, ENGLISH)
    assert drawing.title.startswith("Timing diagram, edges 5 to 8")


def test_a_program_reads_it_all(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "a.v"
    path.write_text(RIGHT.replace(*SET), "utf-8")
    words = ("verify", str(path), "--against", "serial-adder", "--with", "n=4", "--json")
    answer = edgewise(*words)
    told = json.loads(answer.out)
    assert (answer.err, answer.code) == ("", 1)
    assert told["count"] == {"wrong": 1}
    (one,) = told["submissions"]
    assert one["refuted"]["operands"] == {"a": 1, "b": 1}
    assert one["refuted"]["first"] == 6
    assert one["explanations"][0]["names"] == ["carry-stays-set"]


def test_a_single_one_is_told_with_both_runs(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "a.v"
    path.write_text(RIGHT.replace(*SET), "utf-8")
    out = tmp_path / "judged"
    words = ("verify", str(path), "--against", "serial-adder", "--with", "n=4", "-o", str(out))
    assert edgewise(*words) == (
        f"{path}: wrong: for a = 1, b = 1, sum is 1110 after edge 8 and should be 0010\n"
        "  does exactly what the idea carry-stays-set (Once there is a carry, it is added in every"
        " place that follows.) leads to, for all operands\n"
        "\n"
        "After edge   sum    sum: submitted   carry   carry: submitted\n"
        "─────────────────────────────────────────────────────────────\n"
        "6            1000   1000             0       1               \n"
        "7            0100   1100             0       1               \n"
        "8            0010   1110             0       1               \n"
        "\n"
        f"{out / 'submissions.html'}\n{out / 'submissions.csv'}\n",
        "",
        1,
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("-o", "judged/all.html"),
            "judged/all.html is the name of a file; -o names a folder, for a page and a table of"
            " all submissions: -o judged",
        ),
        (("--language", "fr"), "--language: found 'fr', expected en or de"),
        (("--ports", "none.yaml"), "none.yaml: can't be read: No such file or directory"),
        (
            (),
            "there is no hardware description in handed-in; expected files that end in .sv, .v,"
            " .vhd, .vhdl",
        ),
    ],
)
def test_what_is_refused(
    words: tuple[str, ...],
    told: str,
    edgewise: Edgewise,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("handed-in").mkdir()
    answer = edgewise("verify", "handed-in", "--against", "serial-adder", *words)
    assert answer == ("", f"{told}\n", 2)
