"""The commands prove and law: whole outputs, times left out."""

from __future__ import annotations

import json
import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from edgewise.progress import Progress

EDGEWISE = str(Path(sys.executable).parent / "edgewise")


@dataclass(frozen=True, slots=True)
class Done:
    """What a command printed, without times and names of machines, and its exit code."""

    out: str
    err: str
    code: int


def edgewise(*words: str) -> Done:
    done = subprocess.run(
        [EDGEWISE, *words],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        stdin=subprocess.DEVNULL,
        env=os.environ | {"COLUMNS": "100", "NO_COLOR": "1", "TERM": "dumb"},
    )
    out = re.sub(r"compiled for vectors of \d+ bits", "VECTORS", done.stdout)
    return Done(re.sub(r"\d+\.\d\d s", "TIME", out), done.stderr, done.returncode)


def test_a_true_design_exits_with_0() -> None:
    assert edgewise("prove", "serial-adder", "--with", "n=16") == Done(
        "serial-adder, n=16\n"
        "sum after 32 == (a + b) mod 2**n and carry after 32 == (a + b) div 2**n, for all a, b\n"
        "\n"
        "True: checked on all 4,294,967,296 operand pairs (VECTORS, TIME).\n",
        "",
        0,
    )


def test_a_false_one_exits_with_1_and_shows_where_it_goes_wrong() -> None:
    assert edgewise("prove", "serial-accumulator", "--with", "n=4") == Done(
        "serial-accumulator, n=4, x=3, m=4\n"
        "sum after 16 == total(w) mod 2**n, for all w\n"
        "\n"
        "False for w(1)=8, w(2)=8, w(3)=0, the smallest such operands (VECTORS, TIME).\n"
        "sum after 16 is 0001 (1), expected 0.\n"
        "\n"
        "After edge 12, the last of add(2), C holds a carry, and add(3) begins with it.\n"
        "With 0 in C in that row, and all else as it was, the claim would be true.\n"
        "\n"
        "after edge  phase   shift_a  shift_b  b_in  A     B     FA.sum  FA.carry-out  C\n"
        "──────────  ──────  ───────  ───────  ────  ────  ────  ──────  ────────────  ─\n"
        "        11  add(2)  1        1        0     0001  0001  0       1             0\n"
        "──────────  ──────  ───────  ───────  ────  ────  ────  ──────  ────────────  ─\n"
        "        12  add(3)  1        1        X     0000  0000  1       0             1\n"
        "        13  add(3)  1        1        X     1000  X000  0       0             0\n"
        "        15  add(3)  1        1        X     0010  XXX0  0       0             0\n"
        "        16  add(3)  1        1        X     0001  XXXX  X       X             0\n",
        "",
        1,
    )


def test_a_cleared_carry_or_a_wider_register_exits_with_0() -> None:
    assert edgewise("prove", "serial-accumulator-cleared").code == 0
    assert edgewise("prove", "serial-accumulator", "--with", "n=6,m=4").code == 0


def test_two_designs() -> None:
    words = "prove serial-adder --with n=64 --against ripple-carry-adder --operands carry_in=0"
    done = edgewise(*words.split())
    assert re.sub(r"[\d,]+ clauses over [\d,]+ variables", "SIZE", done.out) == (
        "serial-adder, n=64\n"
        "ripple-carry-adder, n=64\n"
        "the same answers for all operands, with carry_in=0\n"
        "\n"
        "True: proved by SAT (SIZE, TIME).\n"
    )
    assert done.code == 0


def test_time_up_is_undecided_and_exits_with_1() -> None:
    done = edgewise("prove", "ripple-carry-adder", "--with", "n=40", "--limit", "0")
    assert "\nUndecided: no proof in 0 s (" in done.out
    assert done.code == 1


def test_json() -> None:
    claim = "S after end - 1 == (a + b) mod 2**n"
    done = edgewise("prove", "serial-adder", "--with", "n=4", "--claim", claim, "--json")
    data = json.loads(done.out)
    assert (data["outcome"], data["operands"], data["row"]) == ("refuted", {"a": 0, "b": 1}, 7)
    assert data["why"] == ["S after end - 1 is 0010 (2), expected 1. It holds from edge 8 on."]
    assert [row["row"] for row in data["rows"]] == [6, 7, 8]
    assert done.code == 1


def test_the_row_is_drawn(tmp_path: Path) -> None:
    file = tmp_path / "leak.svg"
    done = edgewise("prove", "serial-accumulator", "--with", "n=4", "--draw", str(file))
    assert done.code == 1
    assert "after edge 12" in file.read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            ["prove", "serial-added"],
            "the catalogue has no design serial-added; did you mean serial-adder?\n",
        ),
        (
            ["prove", "serial-adder", "--claim", "S after 3 = 1"],
            "the claim:1:11: can't read 'S after 3 = 1': found '=': a comparison is written ==\n",
        ),
        (
            ["law", "serial-adder", "--over", "n=1.9"],
            "--over: found 'n=1.9'; write n=1..9\n",
        ),
        (
            ["prove", "serial-adder", "--limit", "nan"],
            "--limit is nan; expected seconds, 86,400 at most\n",
        ),
        (
            ["prove", "serial-adder", "--limit", "inf"],
            "--limit is inf; expected seconds, 86,400 at most\n",
        ),
        (
            ["law", "serial-adder", "--over", "1.9"],
            "--over: found '1.9'; expected NAME=LOW..HIGH, as in n=1..32,x=2..16\n",
        ),
        (["law", "serial-adder", "--over", "n=1..9,n=2..4"], "--over: n is given twice\n"),
        (
            ["law", "serial-adder", "gate", "--over", "n=1..9"],
            "there is no count gate; did you mean gates?\n",
        ),
    ],
)
def test_bad_input_exits_with_2(words: list[str], message: str) -> None:
    assert edgewise(*words) == Done("", message, 2)


def test_a_law() -> None:
    assert edgewise("law", "serial-accumulator", "edges", "--over", "n=1..32,x=2..16") == Done(
        "edges = n*(x + 1)\n"
        "checked on 480 designs, n = 1 to 32, x = 2 to 16; on 18 beyond, with n up to 64,"
        " x up to 64\n"
        "6 of them determined the formula, the other 492 agree with it\n",
        "",
        0,
    )


def test_no_law_shows_the_counts() -> None:
    done = edgewise("law", "carry-lookahead-adder", "depth", "--over", "n=1..6")
    assert done.out == (
        "no formula of the family fits the depth of carry-lookahead-adder\n"
        "counted on 6 designs, n = 1 to 6\n"
        "tried: polynomials in the parameters up to degree 3, and up to degree 2 with floor_log2,\n"
        "ceil_log2, 2**ceil_log2, 2**n, groups of four (div 4, mod 4) or levels of four\n"
        "\n"
        "n  depth\n1      3\n2      4\n3      4\n4      4\n5      5\n6      7\n"
    )


def test_a_law_as_json() -> None:
    done = edgewise("law", "serial-adder", "--over", "n=1..9", "--json")
    data = json.loads(done.out)
    assert (data["formula"], data["designs"], data["determined by"]) == ("2*n", 9, 2)
    assert data["counts"][2] == {"n": 3, "edges": 6}


def test_examples_of_the_help() -> None:
    assert "edgewise prove serial-accumulator --with n=6,m=4" in edgewise("prove", "--help").out
    assert "Exit code 0: true; 1: false" in edgewise("prove", "--help").out
    assert "edgewise law serial-accumulator edges --over" in edgewise("law", "--help").out


SLOW = ["law", "serial-accumulator", "gates", "--over", "n=1..64,x=2..64"]


def test_ctrl_c_leaves_quietly() -> None:
    running = subprocess.Popen([EDGEWISE, *SLOW], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    time.sleep(1.5)
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=20)
    assert (out, err, running.returncode) == (b"", b"stopped\n", 130)


def test_a_bar_on_a_terminal_for_work_over_a_second() -> None:
    ours, theirs = pty.openpty()
    running = subprocess.Popen(
        [EDGEWISE, *SLOW],
        stdout=subprocess.DEVNULL,
        stderr=theirs,
        env=os.environ | {"TERM": "xterm", "COLUMNS": "100", "NO_COLOR": "1"},
    )
    os.close(theirs)
    shown = b""
    until = time.monotonic() + 20
    while time.monotonic() < until and b" left" not in shown:
        if select.select([ours], [], [], 0.2)[0]:
            shown += os.read(ours, 4096)
    running.send_signal(signal.SIGINT)
    running.wait(timeout=20)
    os.close(ours)
    text = shown.decode("utf-8", "replace")
    assert re.search(r"\d+ %, [\d,]+ designs a second, .* left", text)


def test_no_bar_where_there_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    with Progress("designs") as progress:
        progress.began -= 5
        progress(1, 2)
    assert capsys.readouterr().err == ""
