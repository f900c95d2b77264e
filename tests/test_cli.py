"""The commands, as a user meets them: what they print, where, and with which exit code."""

from __future__ import annotations

import csv
import io
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from edgewise import catalogue
from tests.conftest import Answer, Edgewise, Golden

ADDER = ("trace", "serial-adder", "--operands", "a=22,b=43")


def test_a_trace_is_a_readable_table(edgewise: Edgewise, golden: Golden) -> None:
    answer = edgewise(*ADDER)
    assert (answer.code, answer.err) == (0, "")
    golden("cli-trace.txt", answer.out)


def test_the_columns_of_a_trace_can_be_chosen(edgewise: Edgewise) -> None:
    answer = edgewise(*ADDER, "--with", "n=6", "--columns", "S(5..3),C", "--csv")
    lines = list(csv.reader(io.StringIO(answer.out)))
    assert lines[0] == ["after edge", "phase", "S(5..3)", "C"]
    assert lines[-1] == ["12", "add", "000", "1"]
    assert len(lines) == 14


def test_a_trace_can_be_read_by_a_program(edgewise: Edgewise) -> None:
    data = json.loads(edgewise(*ADDER, "--json").out)
    assert (data["design"], data["edges"]) == ("serial-adder", 12)
    assert data["operands"] == {"a": 22, "b": 43}
    assert data["rows"][12]["values"]["S"] == "000001"


def test_a_family_of_operands_is_given_as_a_list(edgewise: Edgewise) -> None:
    answer = edgewise("trace", "serial-accumulator", "--with", "n=4,x=2", "--operands", "w=[5,9]")
    assert answer.out.endswith("sum after edge 12: 1110 (14), as it should be\n")


def test_an_answer_that_is_not_the_right_one_is_said(edgewise: Edgewise) -> None:
    operands = "w=[12,12,1]"
    answer = edgewise("trace", "serial-accumulator", "--with", "n=4", "--operands", operands)
    assert answer.out.endswith("sum after edge 16: 1010 (10), but it should be 9\n")


def test_the_list_names_every_design(edgewise: Edgewise) -> None:
    answer = edgewise("list")
    named = [line.split()[0] for line in answer.out.splitlines() if re.match(r"  \S", line)]
    assert named == list(catalogue.ORDER)
    groups = [line for line in answer.out.splitlines() if line[:1].strip()]
    assert groups == list(catalogue.GROUPS)
    data = json.loads(edgewise("list", "--json").out)
    assert [entry["design"] for entry in data] == list(catalogue.ORDER)


def test_the_list_takes_a_word(edgewise: Edgewise) -> None:
    data = json.loads(edgewise("list", "multiplier", "--json").out)
    assert [entry["design"] for entry in data] == ["shift-add-multiplier", "bit-serial-multiplier"]
    assert {entry["group"] for entry in data} == {"multipliers"}
    answer = edgewise("list", "zeppelin")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == (
        "no design has “zeppelin” in its name or text; edgewise list shows them all\n"
    )


def test_the_version_is_told(edgewise: Edgewise) -> None:
    from importlib.metadata import version

    import edgewise as package

    assert edgewise("--version") == (f"edgewise {version('edgewise')}\n", "", 0)
    assert version("edgewise") == package.__version__


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("serial-addr", "did you mean serial-adder?"),
        ("skip", "there is: carry-skip-adder"),
        ("zeppelin", "edgewise list shows them"),
    ],
)
def test_an_unknown_design_names_the_nearest(edgewise: Edgewise, name: str, meant: str) -> None:
    answer = edgewise("show", name)
    assert answer == ("", f"the catalogue has no design {name}; {meant}\n", 2)


def test_a_design_is_shown_as_a_sheet(edgewise: Edgewise, golden: Golden) -> None:
    golden("cli-show.txt", edgewise("show", "serial-adder-gated-clock", "--with", "n=4").out)
    data = json.loads(edgewise("show", "serial-adder", "--json").out)
    assert data["parameters"] == [{"name": "n", "value": 6, "range": "1..64"}]
    assert data["flip-flops"] == 19


def test_a_circuit_file_works_like_a_catalogue_name(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "turnstile.yaml"
    path.write_text(
        "circuit: turnstile\nparameters: {n: 3}\ninputs: {a: n}\noutputs: {b: a}\n"
        "operands: {a: n}\ncomputes: {b: a}\n",
        "utf-8",
    )
    answer = edgewise("trace", str(path), "--operands", "a=5")
    assert answer.out.endswith("b: 101 (5), as it should be\n")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            ("trace", "serial-ader"),
            "the catalogue has no design serial-ader; did you mean serial-adder?\n",
        ),
        (
            ("trace", "serial-adder", "--with", "n=6", "--operands", "a=22,b=64"),
            "operand b is 64, which is too large; the range is 0..63 in 6 bits\n",
        ),
        (
            ("trace", "serial-adder", "--operands", "a:22"),
            "--operands: found 'a:22'; expected NAME=NUMBER, as in a=22,b=43 or w=[5,9,3]\n",
        ),
        (
            ("trace", "serial-adder", "--operands", "a=1,a=2"),
            "--operands: a is given twice\n",
        ),
        (("show", "serial-adder", "--with", "n=[4]"), "--with: n is one number, not a list\n"),
        (
            ("show", "serial-adder", "--with", "n=65"),
            "parameter n is 65; the range is 1..64\n",
        ),
        (("show", "missing.yaml"), "missing.yaml: can't be read: No such file or directory\n"),
        (
            (*ADDER, "--columns", "A,Q"),
            "there is no Q here; there is: A, B, C, S, a_in, b_in, carry, shift, sum\n",
        ),
        (
            ("draw", *ADDER[1:], "--figure", "table", "--rows", "6-9", "-o", "x.svg"),
            "--rows: found '6-9'; write 6..9\n",
        ),
        (
            ("draw", "serial-adder", "--operands", "a=1,b=2", "--figure", "tming", "-o", "x.svg"),
            "there is no figure tming; did you mean timing?\n",
        ),
        # What is drawn is settled before a run is asked for.
        (
            ("draw", "serial-adder", "--figure", "tming", "-o", "x.svg"),
            "there is no figure tming; did you mean timing?\n",
        ),
        (
            ("draw", "serial-adder", "--figure", "tming", "--path", "--clock", "off"),
            "there is no figure tming; did you mean timing?\n"
            "clock is off; expected wedge, hidden or wires\n",
        ),
        (
            ("draw", "serial-adder", "--figure", "timing", "-o", "x.svg"),
            "operand a is missing; give a number in 0..63\n"
            "operand b is missing; give a number in 0..63\n",
        ),
        (
            ("draw", "serial-adder", "--operands", "a=1,b=2", "--after", "13", "-o", "x.svg"),
            "there is no row 13: the rows are 0..12\n",
        ),
        (
            ("draw", "serial-adder", "--operands", "a=1,b=2", "--symbols", "round", "-o", "x.svg"),
            "symbols is round; expected distinctive or rectangular\n",
        ),
        (
            ("check", "missing.md"),
            "missing.md: can't be read: No such file or directory\n",
        ),
    ],
)
def test_bad_input_gets_one_message_and_exit_code_2(
    edgewise: Edgewise, words: tuple[str, ...], message: str
) -> None:
    answer = edgewise(*words)
    assert (answer.err, answer.code, answer.out) == (message, 2, "")


def test_a_command_that_is_not_there_is_not_a_traceback(edgewise: Edgewise) -> None:
    answer = edgewise("trase")
    assert answer.code == 2
    assert "No such command 'trase'. Did you mean 'trace'?" in answer.err
    assert "Traceback" not in answer.err


LESSON = """\
---
title: A claim about tickets
design: serial-adder
with: {n: 4}
operands: {a: 3, b: 6}
---
```claim
S after 8 == a + b
S after 7 == a + b
```
"""


def test_a_false_claim_is_exit_code_1(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "tickets.md"
    path.write_text(LESSON, "utf-8")
    answer = edgewise("check", str(path))
    assert answer.code == 1
    assert answer.err == (
        f'{path}:9:1: the claim "S after 7 == a + b" is false: S after 7 is 0010 (2), expected'
        " 9. It holds from edge 8 on.\n"
        "  after edge  phase  shift  a_in  b_in  A     B     FA.sum  FA.carry-out  C  S\n"
        "  ──────────  ─────  ─────  ────  ────  ────  ────  ──────  ────────────  ─  ────\n"
        "           6  add    1      X     X     XX00  XX01  0       1             1  0100\n"
        "           7  add    1      X     X     XXX0  XXX0  1       0             1  0010\n"
        "           8  add    1      X     X     XXXX  XXXX  X       X             0  1001\n"
    )
    built = edgewise("build", str(path), "-o", str(tmp_path / "pages"))
    assert built.code == 1
    assert not (tmp_path / "pages" / "tickets.html").exists()


def test_good_lessons_are_built_although_another_is_bad(edgewise: Edgewise, tmp_path: Path) -> None:
    good, bad = tmp_path / "good.md", tmp_path / "bad.md"
    good.write_text(LESSON.replace("S after 7 == a + b\n", ""), "utf-8")
    bad.write_text(LESSON, "utf-8")
    answer = edgewise("build", str(bad), str(good), "-o", str(tmp_path / "pages"))
    assert answer.code == 1
    assert answer.out == f"{good} -> {tmp_path / 'pages' / 'good.html'}\n"


def test_a_lesson_named_twice_is_built_once(edgewise: Edgewise, tmp_path: Path) -> None:
    path, out = tmp_path / "good.md", tmp_path / "pages"
    path.write_text(LESSON.replace("S after 7 == a + b\n", ""), "utf-8")
    same = tmp_path / "pages" / ".." / "good.md"
    out.mkdir()
    answer = edgewise("build", str(path), str(same), "-o", str(out))
    assert answer == Answer(f"{path} -> {out / 'good.html'}\n", "", 0)


def test_two_lessons_do_not_share_a_page(edgewise: Edgewise, tmp_path: Path) -> None:
    paths = [tmp_path / folder / "hut.md" for folder in ("north", "south")]
    for path in paths:
        path.parent.mkdir()
        path.write_text(LESSON.replace("S after 7 == a + b\n", ""), "utf-8")
    out = tmp_path / "pages"
    assert edgewise("build", *map(str, paths), "-o", str(out)) == Answer(
        "",
        f"{paths[1]}: its page would take the place of that of {paths[0]} in {out}; rename one of"
        " them, or build it into another folder\n",
        2,
    )
    assert not out.exists()


def test_pages_go_to_a_folder(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "hut.md"
    path.write_text(LESSON, "utf-8")
    answer = edgewise("build", str(path), "-o", str(path))
    assert answer == Answer("", f"{path} is not a folder; name a folder with -o\n", 2)
    assert path.read_text("utf-8") == LESSON


def test_a_lesson_is_no_design(edgewise: Edgewise) -> None:
    for path in ("hut.md", "lessons/hut.md"):
        assert edgewise("trace", path) == Answer(
            "",
            f"{path} is a lesson; name a design of the catalogue, or a circuit file that ends in"
            " .yaml\n",
            2,
        )


def test_json_or_csv(edgewise: Edgewise) -> None:
    answer = edgewise(*ADDER, "--json", "--csv")
    assert answer == Answer("", "give --json or --csv, not both\n", 2)


def test_a_sheet_counts_inverters_apart(edgewise: Edgewise) -> None:
    """As `edgewise law … gates` does, so that both say the same."""
    answer = edgewise("show", "johnson-counter", "--with", "n=1,k=1")
    assert "  size        0 gates, 1 inverter, 1 flip-flop, 1 edge\n" in answer.out
    assert "\n  count  edge 1\n" in answer.out


def test_what_was_checked_can_be_read_by_a_program(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "good.md"
    path.write_text(LESSON.replace("S after 7 == a + b\n", ""), "utf-8")
    (report,) = json.loads(edgewise("check", str(path), "--json").out)
    assert report["claims"][0]["holds"] is True


@pytest.mark.parametrize("suffix", ["svg", "png", "pdf", "eps"])
def test_a_figure_is_written_by_its_suffix(edgewise: Edgewise, tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"adder.{suffix}"
    operands = ("--operands", "a=22,b=43")
    answer = edgewise("draw", "serial-adder", *operands, "--after", "8", "-o", str(path))
    assert answer == Answer(f"{path}\n", "", 0)
    starts = {"svg": b"<svg", "png": b"\x89PNG", "pdf": b"%PDF", "eps": b"%!PS"}
    assert path.read_bytes().startswith(starts[suffix])


def test_a_reader_that_leaves_early_is_no_error() -> None:
    command = f"set -o pipefail; {sys.executable} -m edgewise list | head -n 1"
    done = subprocess.run(
        ["bash", "-c", command], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.stdout == "serial adders\n"
    assert done.stderr == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full")
def test_a_full_disk_is_told() -> None:
    command = [sys.executable, "-m", "edgewise", "show", "serial-adder"]
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = subprocess.run(
            command, stdout=full, stderr=subprocess.PIPE, text=True, check=False, timeout=60
        )
    assert (done.stderr, done.returncode) == (
        "the answer can't be written: No space left on device\n",
        2,
    )
