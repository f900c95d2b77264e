"""Whatever the streams, the signals and the current folder are: one line, the documented code."""

from __future__ import annotations

import os
import re
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Final

import pytest

from edgewise.errors import unforeseen
from tests.conftest import Answer, Edgewise

TRACE: Final = "trace serial-adder --operands a=22,b=43"
UNKNOWN: Final = "the catalogue has no design serial-ader; did you mean serial-adder?\n"
CLOSED: Final = "the answer can't be written: the standard output is closed\n"
FULL: Final = "the answer can't be written: No space left on device\n"


def shell(
    words: str, folder: Path | None = None, environment: Mapping[str, str] | None = None
) -> Answer:
    """What a shell line gives; $E is the command."""
    done = subprocess.run(
        ["bash", "-c", words],
        cwd=folder,
        env={**os.environ, "E": f"{sys.executable} -m edgewise", "COLUMNS": "100"}
        | {"PYTHONSAFEPATH": ""}
        | dict(environment or {}),
        capture_output=True,
        timeout=100,
        check=False,
    )
    return Answer(
        done.stdout.decode(errors="replace"), done.stderr.decode(errors="replace"), done.returncode
    )


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        (f"$E {TRACE} >&-", Answer("", CLOSED, 2)),
        ("$E --help >&-", Answer("", CLOSED, 2)),
        ("$E show serial-adder --text >&-", Answer("", CLOSED, 2)),
        (f"$E {TRACE} >/dev/full", Answer("", FULL, 2)),
        ("$E choose serial-adder --with n=2 >/dev/full", Answer("", FULL, 2)),
        (f"$E {TRACE} <&- >/dev/null", Answer("", "", 0)),
        # Nobody can be told, but the exit code says it; and no message lands in the answer.
        ("$E trace serial-ader 2>&-", Answer("", "", 2)),
        ("$E trace serial-ader 2>/dev/full", Answer("", "", 2)),
        ("$E trase 2>/dev/full", Answer("", "", 2)),
        ("$E trace serial-ader >&- 2>&-", Answer("", "", 2)),
        (f"$E {TRACE} >&- 2>&- <&-", Answer("", "", 2)),
        (f"$E {TRACE} >/dev/full 2>/dev/full", Answer("", "", 2)),
        ("$E trace serial-ader >&-", Answer("", UNKNOWN, 2)),
    ],
)
def test_closed_and_full_streams(words: str, answer: Answer) -> None:
    assert shell(words) == answer


@pytest.mark.parametrize(
    "environment",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"PYTHONIOENCODING": "latin-1"},
        {"PYTHONIOENCODING": "cp1252"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    ],
)
def test_an_encoding_without_our_signs(environment: dict[str, str], tmp_path: Path) -> None:
    answer = shell(f"$E {TRACE}", environment=environment)
    assert (answer.code, answer.err) == (0, "")
    head, rule, start, *_ = answer.out.splitlines()
    assert head.split()[:3] == ["after", "edge", "phase"]
    assert set(rule) == {"-", " "}
    assert start.split()[0] == "start"
    # The longest sentences and tables, an error with such a sign, and help.
    for words in ("show serial-adder --operands a=22,b=43 --coverage", "list", "check --help"):
        answer = shell(f"$E {words}", environment=environment)
        assert (answer.code, answer.err) == (0, ""), words
    (tmp_path / "t.md").write_text("---\ntitle: Flöße\ndesign: “ripple”\n---\n", "utf-8")
    answer = shell(f"$E check {tmp_path / 't.md'}", environment=environment)
    assert answer.code == 2
    assert len(answer.err.splitlines()) == 1
    assert "Traceback" not in answer.err


def test_what_a_program_reads_is_exact_or_not_there(tmp_path: Path) -> None:
    path = tmp_path / "rain.yaml"
    path.write_text(
        "circuit: rain\nabout: gauges − two\noperands: {a: 1}\ninputs: {a: 1}\noutputs: {b: a}\n",
        "utf-8",
    )
    words = f"$E show {path} --text"
    assert shell(words).code == 0
    assert shell(words, environment={"PYTHONIOENCODING": "latin-1"}) == Answer(
        "",
        "the circuit text has '\\u2212' (U+2212), which iso8859-1 lacks; set the environment"
        " variable PYTHONIOENCODING=utf-8\n",
        2,
    )


def test_a_name_that_is_no_text(tmp_path: Path) -> None:
    name = "$'l\\xff.md'"
    words = f"printf -- '---\\ntitle: T\\n' > {name}; $E check {name}; $E build {name}"
    line = "l\\udcff.md: the name of this file is not UTF-8 text; give it another\n"
    assert shell(words, tmp_path) == Answer("", 2 * line, 2)
    answer = shell("$E new $'l\\xfe'", tmp_path)
    line = "'l\\udcfe' is not a name in UTF-8; give the lesson another\n"
    assert answer == Answer("", line, 2)
    answer = shell("$E show $'no\\xff.yaml'", tmp_path)
    assert answer == Answer(
        "", "no\\udcff.yaml: the name of this file is not UTF-8 text; give it another\n", 2
    )


@pytest.mark.parametrize(
    ("name", "shown"), [("", "'.'"), (".", "'.'"), ("/", "'/'"), ("..", "'..'"), ("a/..", "'a/..'")]
)
def test_new_wants_a_name(edgewise: Edgewise, name: str, shown: str) -> None:
    line = f"{shown} names no file; give the lesson a name, as in edgewise new tide-hut\n"
    assert edgewise("new", name) == Answer("", line, 2)


def test_new_on_a_full_disk_can_be_tried_again(
    edgewise: Edgewise, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "hut.md"

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", full)
        answer = edgewise("new", str(path))
    assert answer == Answer("", f"{path}: can't be written: No space left on device\n", 2)
    assert list(tmp_path.iterdir()) == []
    assert edgewise("new", str(path)).code == 0


# ---------------------------------------------------------------- what nobody thought of


def broken(*_: object, **__: object) -> None:
    raise ZeroDivisionError("tide\nby \x1b[2J zero")


def test_an_unforeseen_error_is_one_line(
    edgewise: Edgewise, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("edgewise.catalogue.find", broken)
    answer = edgewise("trace", "serial-adder")
    assert answer == Answer(
        "",
        "unforeseen error: ZeroDivisionError: tide by \\x1b[2J zero; this is a mistake in edgewise:"
        " please report it with the file and what edgewise --debug prints\n",
        3,
    )


@pytest.mark.parametrize("words", [("--debug", "trace", "serial-adder"), ("list", "--debug")])
def test_debug_shows_the_traceback(
    edgewise: Edgewise, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    assert edgewise("--debug", "list").code == 0
    monkeypatch.setattr("edgewise.catalogue.find", broken)
    answer = edgewise(*words)
    assert answer.code == 3
    assert answer.err.startswith("Traceback (most recent call last):\n")
    assert "in broken\n" in answer.err
    assert answer.err.splitlines()[-1].startswith("unforeseen error: ZeroDivisionError: tide")


def test_a_panic_of_a_library_is_no_traceback(
    edgewise: Edgewise, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Panic(BaseException):  # as those of compiled libraries are
        pass

    def panics(_: str) -> None:
        raise Panic("index out of bounds")

    monkeypatch.setattr("edgewise.catalogue.find", panics)
    answer = edgewise("trace", "serial-adder")
    assert (answer.err, answer.code) == (f"{unforeseen(Panic('index out of bounds'))}\n", 3)


def test_too_little_memory_is_told(edgewise: Edgewise, monkeypatch: pytest.MonkeyPatch) -> None:
    def hungry(_: str) -> None:
        raise MemoryError

    monkeypatch.setattr("edgewise.catalogue.find", hungry)
    answer = edgewise("trace", "serial-adder")
    line = "there is not enough memory for this; ask for less at once, or allow more\n"
    assert answer == Answer("", line, 2)


# ---------------------------------------------------------------- signals


SLOW: Final = """
import sys, time
from edgewise import catalogue, cli
def slow(name):
    print("there", flush=True)
    time.sleep(60)
catalogue.find = slow
sys.argv = ["edgewise", "trace", "serial-adder"]
cli.main()
"""


@pytest.mark.parametrize(
    ("number", "line", "code"),
    [
        (signal.SIGINT, "stopped\n", 130),
        (signal.SIGTERM, "ended by SIGTERM\n", 143),
        (signal.SIGHUP, "ended by SIGHUP\n", 129),
    ],
)
def test_a_signal_is_one_line(number: int, line: str, code: int) -> None:
    process = subprocess.Popen(
        [sys.executable, "-c", SLOW], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    process.stdout.readline()
    process.send_signal(number)
    out, err = process.communicate(timeout=60)
    assert (out, err, process.returncode) == ("", line, code)


@pytest.mark.parametrize(
    "words",
    [
        ("prove", "bit-serial-multiplier", "--with", "n=24", "--limit", "60"),
        ("break", "shift-add-multiplier", "--with", "n=16", "--operands", "a=40000,b=50000"),
        ("compare", "*adder", "--over", "n=4..64", "--workers", "2"),
        ("law", "ripple-carry-adder", "gates", "--over", "n=1..64"),
        ("choose", "serial-adder", "--with", "n=16"),
    ],
)
@pytest.mark.parametrize("after", [0.4, 1.5])
def test_ctrl_c_is_one_line_in_the_middle_of_work(words: tuple[str, ...], after: float) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "edgewise", *words],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    time.sleep(after)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: everyone in the foreground
    out, err = process.communicate(timeout=60)
    # CPython ends by the signal itself if that came while it ran code made at run time, as that
    # of dataclasses is; a shell shows 130 for both.
    if process.returncode in (130, -signal.SIGINT) and not out:
        assert err == "stopped\n"
    else:  # it was done before, or so nearly that all of the answer was out
        assert (process.returncode, err) in ((0, ""), (130, "stopped\n"))


def test_sigterm_removes_what_is_half_made(tmp_path: Path) -> None:
    code = SLOW.replace("catalogue.find = slow", "import os; os.fsync = slow").replace(
        '"trace", "serial-adder"', '"new", sys.argv[1]'
    )
    process = subprocess.Popen(
        [sys.executable, "-c", code, str(tmp_path / "hut.md")],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdout is not None
    process.stdout.readline()
    assert [file.suffix for file in tmp_path.iterdir()] == [".new"]
    process.terminate()
    _, err = process.communicate(timeout=60)
    assert (err, process.returncode, list(tmp_path.iterdir())) == ("ended by SIGTERM\n", 143, [])


# ---------------------------------------------------------------- the current folder


def test_the_current_folder_is_not_imported_from(tmp_path: Path) -> None:
    """A lesson may come in a folder with a file named like a module."""
    for name in ("typing", "typer", "random", "json", "rich", "shutil", "multiprocessing", "lark"):
        (tmp_path / f"{name}.py").write_text("print('taken over')\n", "utf-8")
    for words in (TRACE, "compare ripple-carry-adder carry-skip-adder --over n=4..6 --workers 2"):
        answer = shell(f"$E {words}", tmp_path)
        assert "taken over" not in answer.out + answer.err
        assert answer.code == 0


# ---------------------------------------------------------------- memory, and where things go


def limited() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (3_000_000_000, 3_000_000_000))


def test_a_chart_under_a_memory_limit_is_told_and_no_abort(tmp_path: Path) -> None:
    command = [
        sys.executable, "-m", "edgewise", "compare", "ripple-carry-adder", "carry-skip-adder",
        "--over", "n=4..6", "--chart", "time", "-o", str(tmp_path / "c.svg"),
    ]  # fmt: skip
    done = subprocess.run(
        command,
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
        preexec_fn=limited,
    )
    assert (done.stderr, done.returncode) == (
        "a chart can't be drawn within the memory limit of 3,000 MB: the chart library needs room"
        " for addresses, most of which it never uses; raise the limit (ulimit -v"
        " unlimited), or leave the chart out\n",
        2,
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["x.pdf", "pages/x.html", "X.PDF", "x.json"])
def test_a_file_name_is_no_folder(edgewise: Edgewise, tmp_path: Path, name: str) -> None:
    lesson = tmp_path / "hut.md"
    assert edgewise("new", str(lesson)).code == 0
    out = tmp_path / name
    answer = edgewise("build", str(lesson), "--handout", "-o", str(out))
    assert answer == Answer(
        "",
        f"{out} is the name of a file; -o names a folder, and what is built in it is called after"
        f" its lesson: -o {out.parent}\n",
        2,
    )
    assert sorted(file.name for file in tmp_path.iterdir()) == ["hut.md"]


@pytest.mark.parametrize("name", ["x.html", "tide.PDF"])
def test_a_lesson_has_no_name_of_another_kind(
    edgewise: Edgewise, tmp_path: Path, name: str
) -> None:
    asked = tmp_path / name
    assert edgewise("new", str(asked)) == Answer(
        "",
        f"{asked} has the name of another kind of file; a lesson ends in .md: edgewise new"
        f" {asked.with_suffix('.md')}\n",
        2,
    )
    assert list(tmp_path.iterdir()) == []


INTEGERS = (
    ("draw", "serial-adder", "--after"),
    ("compare", "--chart", "area-delay", "--at"),
    ("compare", "--workers"),
    ("choose", "serial-adder", "--most"),
    ("choose", "serial-adder", "--seed"),
    ("watch", "hut.md", "--port"),
)


@pytest.mark.parametrize("words", INTEGERS, ids=lambda words: words[-1])
def test_a_number_of_thousands_of_digits_is_refused_in_short(
    edgewise: Edgewise, words: tuple[str, ...]
) -> None:
    answer = edgewise(*words, "9" * 5000)
    assert (answer.out, answer.code) == ("", 2)
    quoted = f"'{'9' * 99}…{'9' * 19}'"
    assert f"Invalid value for '{words[-1]}': {quoted} is not a valid int" in answer.err


def test_a_large_figure_is_drawn_as_large_as_it_can_be(
    edgewise: Edgewise, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is offered can be drawn; and who asks for no scale is given none that can't."""
    monkeypatch.setattr("edgewise.views.drawing.export._MOST_PIXELS", 300_000)
    path = tmp_path / "adder.png"
    words = ("draw", "serial-adder", "--operands", "a=1,b=2", "-o", str(path))
    assert edgewise(*words) == Answer(f"{path}\n", "", 0)
    answer = edgewise(*words, "--scale", "2")
    found = re.fullmatch(
        r"a scale of 2 can't be drawn; expected a number over 0 and up to (\d\.\d+) for this"
        r" figure of [\d.]+ x [\d.]+ px\n",
        answer.err,
    )
    assert found
    assert edgewise(*words, "--scale", found[1]).code == 0
