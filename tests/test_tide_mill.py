"""The package of examples/tide-mill, installed and used: one of each kind of guest.

It is built and installed by pip as anybody's package is, without a network, and used by commands
in processes of their own.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page

ROOT: Final = Path(__file__).parents[1]
PACKAGE: Final = ROOT / "examples" / "tide-mill"
KINDS: Final[Mapping[str, str]] = {
    "part": "inhibit",
    "design": "mill-sluice",
    "block": "changes",
    "misconception": "sluice-ignored",
    "cost model": "nand-only",
    "importer": "csv",
    "publisher": "transcript",
}


@pytest.fixture
def mill(tmp_path: Path) -> Path:
    """A folder with the lesson and the truth table of the package."""
    for name in ("lesson.md", "flood.csv"):
        shutil.copy(PACKAGE / name, tmp_path)
    return tmp_path


Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def run(mill: Path, tide_mill: Path) -> Run:
    def command(*words: str, code: int = 0) -> subprocess.CompletedProcess[str]:
        path = os.pathsep.join([str(tide_mill), os.environ.get("PYTHONPATH", "")])
        done = subprocess.run(
            [sys.executable, "-m", "edgewise", *words],
            cwd=mill,
            env=os.environ | {"PYTHONPATH": path.strip(os.pathsep), "COLUMNS": "100"},
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )
        assert done.returncode == code, done.stderr
        return done

    return command


def test_it_brings_one_of_each_kind(run: Run) -> None:
    listed = json.loads(run("guests", "--json").stdout)
    assert listed == [
        {"kind": kind, "name": name, "package": "tide-mill", "fault": ""}
        for kind, name in KINDS.items()
    ]


def test_the_part_and_the_design_run_as_any(run: Run) -> None:
    for closed, level in ((0, 11), (1, 0)):
        done = run("trace", "mill-sluice", "--operands", f"water=11,closed={closed}", "--json")
        rows = json.loads(done.stdout)["rows"]
        assert rows[-1]["values"]["WHEEL"] == f"{level:04b}"
        assert done.stderr == ""
    assert "True: checked on all 32 operand pairs" in run("prove", "mill-sluice").stdout
    run("new", "first", "--design", "mill-sluice")
    assert run("check", "first.md").stderr == ""


def test_the_design_stands_in_the_list_below_ours(run: Run) -> None:
    listed = json.loads(run("list", "--json").stdout)
    assert listed[-1]["design"] == "mill-sluice"
    assert listed[-1]["group"] == "of the package tide-mill"
    assert "did you mean mill-sluice?" in run("show", "mill-slice", code=2).stderr


def test_the_design_and_its_part_are_drawn(run: Run, mill: Path) -> None:
    run("draw", "mill-sluice", "--symbols", "rectangular", "--text", "-o", "sluice.svg")
    assert "OPEN" in (mill / "sluice.svg").read_text("utf-8")


def test_the_cost_model_measures(run: Run) -> None:
    """XOR of 4 NAND gates, AND of 2, OR of 3, inverter of 1: Mano and Ciletti, from memory."""
    done = run("compare", "ripple-carry-adder", "--with", "n=4", "--model", "nand-only", "--json")
    (cost,) = json.loads(done.stdout)["costs"]
    assert cost["area"] == 8 * 4 + 8 * 2 + 4 * 3
    done = run("compare", "mill-sluice", "--with", "n=4", "--model", "nand-only", "--json")
    (cost,) = json.loads(done.stdout)["costs"]
    assert cost["area"] == 2 + 1 + 4 * 6
    told = run("compare", "mill-sluice", "--with", "n=4", "--model", "nand-onl", code=2).stderr
    assert told == "there is no cost model nand-onl; did you mean nand-only?\n"


def test_the_misconception_is_told_apart(run: Run) -> None:
    """A closed sluice tells the believer from the truth: the wheel of one gets all the water."""
    given = ("--operands", "closed=1", "--json")
    example = json.loads(run("choose", "mill-sluice", *given).stdout)["examples"][0]
    water = example["operands"]["water"]
    assert f"level {water:04b}" in json.dumps(example)
    assert "sluice-ignored" in json.dumps(example)


def test_a_truth_table_is_a_circuit_file(run: Run, mill: Path) -> None:
    for rain, shut in ((0, 0), (0, 1), (1, 0), (1, 1)):
        done = run("trace", "flood.csv", "--operands", f"rain={rain},shut={shut}")
        assert f"flood: {rain & shut} ({rain & shut}), as it should be" in done.stdout
    run("new", "flooded", "--design", "flood.csv")
    run("check", "flooded.md")
    (mill / "used.yaml").write_text(
        "circuit: flood warning\n"
        "inputs: {r: 1, s: 1}\n"
        "parts:\n"
        "  F: {part: flood.csv, rain: r, shut: s}\n"
        "  C: {part: flip-flop, d: F.flood}\n"
        "outputs: {warning: C}\n"
        "operands: {r: 1, s: 1}\n"
        "procedure:\n"
        "  - {phase: look, edges: 1}\n"
        "computes: {warning: r * s}\n",
        "utf-8",
    )
    assert "True: checked on all 4 operand pairs" in run("prove", "used.yaml").stdout


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "wrong.csv:1: found 0 columns, expected 1..8 inputs and an output"),
        (
            "a,y\n0,1\n1,X\n",
            "wrong.csv:3: found 1,X, expected 2 cells of 0 and 1",
        ),
        ("a,y\n0,1\n", "wrong.csv:1: expected each of the 2 rows of the truth table once"),
        ("a,a\n0,1\n1,1\n", "wrong.csv:1: 'a' is no name, or stands there twice"),
    ],
)
def test_a_wrong_truth_table_is_told_at_its_line(
    run: Run, mill: Path, text: str, message: str
) -> None:
    (mill / "wrong.csv").write_text(text, "utf-8")
    assert run("show", "wrong.csv", code=2).stderr == f"{message}\n"


def test_the_block_is_published_in_every_format(run: Run, mill: Path, page: Page) -> None:
    run("build", "lesson.md", "-o", "out")
    run("build", "lesson.md", "-o", "out", "--handout")
    run("build", "lesson.md", "-o", "out", "--as", "transcript")
    told = (mill / "out" / "lesson.txt").read_text("utf-8")
    assert "word      changes  at edges\nWHEEL     5        1, 2, 3, 4, 5\n" in told
    assert "(Say: Ask what the wheel holds if the sluice is shut.)" in told
    page.goto((mill / "out" / "lesson.html").as_uri())
    table = page.locator("table", has_text="What moves while the water flows")
    assert table.locator("td").all_inner_texts() == [
        *("WHEEL", "5", "1, 2, 3, 4, 5"),
        *("OPEN.out", "3", "2, 4, 5"),
    ]
    assert page.get_by_text("WHEEL changes most often.").count() == 1
    said = page.evaluate(
        """() => {
          const { stage } = document.querySelector("edgewise-stage");
          return stage.sentence(stage.run, 5).trim();
        }"""
    )
    assert "level reads 10011, which is 19" in said
    assert (mill / "out" / "lesson.pdf").read_bytes().startswith(b"%PDF")


def test_a_block_tells_what_is_wrong_with_it(run: Run, mill: Path) -> None:
    text = (mill / "lesson.md").read_text("utf-8")
    (mill / "wrong.md").write_text(text.replace("OPEN.out]", "OPN.out]"), "utf-8")
    told = run("check", "wrong.md", code=2).stderr
    assert told == "wrong.md:10:13: there is no OPN.out here; did you mean OPEN.out?\n"


def test_a_wide_comparison_is_measured_in_other_processes_too(run: Run) -> None:
    words = ("compare", "ripple-carry-adder", "--over", "n=4..9", "--model", "nand-only", "--json")
    told = [json.loads(run(*words, "--workers", n).stdout)["costs"] for n in ("1", "2")]
    assert told[0] == told[1]
    assert [cost["area"] for cost in told[0]] == [15 * n for n in range(4, 10)]


def test_a_package_that_lies_in_the_current_folder_is_not_read(mill: Path) -> None:
    """What somebody put beside a lesson is not ours to run."""
    (mill / "tide_gears.py").write_text("raise SystemExit('run from the current folder')", "utf-8")
    info = mill / "tide_gears-1.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.4\nName: tide-gears\nVersion: 1\n", "utf-8")
    (info / "entry_points.txt").write_text(
        "[edgewise.designs]\ngears = tide_gears:GEARS\n", "utf-8"
    )
    done = subprocess.run(
        [sys.executable, "-m", "edgewise", "guests"],
        cwd=mill,
        capture_output=True,
        text=True,
        check=True,
    )
    assert (done.stdout, done.stderr) == ("no installed package brings anything to edgewise\n", "")


def test_without_the_package_each_is_told_to_be_missing(mill: Path) -> None:
    for words, message in {
        ("show", "mill-sluice"): "the catalogue has no design mill-sluice; edgewise list shows"
        " them",
        ("build", "lesson.md", "--as", "transcript"): "there is no format transcript; there is:"
        " handout, page, slides",
    }.items():
        done = subprocess.run(
            [sys.executable, "-m", "edgewise", *words],
            cwd=mill,
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, done.stderr) == (2, f"{message}\n")
