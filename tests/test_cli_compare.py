"""The commands compare and draw --path: whole outputs, every error whole."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.conftest import Edgewise, Golden

WIRE = """
circuit: wire
parameters: {n: 4 in 1..64}
inputs: {x: n}
outputs: {y: x}
operands: {x: n}
"""
PAIR = ("compare", "ripple-carry-adder", "carry-lookahead-adder")


def test_the_table_and_the_answers(edgewise: Edgewise, golden: Golden) -> None:
    out, err, code = edgewise(*PAIR, "--over", "n=4..16")
    assert (err, code) == ("", 0)
    golden("cli-compare.txt", out)


def test_what_satisfies_a_need(edgewise: Edgewise, golden: Golden) -> None:
    need = "n = 8, gates <= 60, time <= 20 gate delays"
    out, err, code = edgewise("compare", "*carry*-adder", "--need", need)
    assert (err, code) == ("", 0)
    golden("cli-compare-need.txt", out)


def test_json_holds_every_number(edgewise: Edgewise) -> None:
    out, _, code = edgewise(*PAIR, "--over", "n=4..6", "--json")
    data = json.loads(out)
    assert (code, data["values"], len(data["costs"])) == (0, [4, 5, 6], 6)


def test_a_chart_is_written(edgewise: Edgewise, tmp_path: Path) -> None:
    out, err, code = edgewise(
        *PAIR, "--over", "n=4..6", "--chart", "time", "-o", str(tmp_path / "time.svg")
    )
    assert (err, code) == ("", 0)
    assert out.endswith(f"\n{tmp_path / 'time.svg'}\n")
    assert "Time of one result over n" in (tmp_path / "time.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ((*PAIR,), "say over which parameter to compare, for example n=4..64"),
        (
            (*PAIR, "--over", "n=4..6", "--model", "unit-gat"),
            "there is no cost model unit-gat; did you mean unit-gate?",
        ),
        (
            (*PAIR, "--over", "n=4..6", "-o", "x.svg"),
            "-o names the file of a chart; add --chart time, area or area-delay",
        ),
        (
            (*PAIR, "--need", "n = 4, time <= 9", "--activity"),
            "--need counts toggles where it names them; leave out --activity",
        ),
        (
            ("compare", "*-plough", "--over", "n=4..6"),
            "no design that can be compared is called *-plough; see edgewise list",
        ),
        ((*PAIR, "--over", "n=4..6", "--with", "n=5"), "--over and --with: n is given twice"),
        (
            (*PAIR, "--over", "n=4..6", "--workers", "2", "--cluster", "tcp://h:1"),
            "a cluster has workers of its own; leave out one of workers and cluster",
        ),
        *(
            (
                (*PAIR, "--over", "n=4..6", "--cluster", where),
                f"--cluster: found {where!r}, expected the address of a Dask scheduler, as in"
                " tcp://host:8786",
            )
            for where in ("foo", "tcp://", "http://x:80", "a b", "h:99999", "tcp://h:x", "h:0")
        ),
        (
            (*PAIR, "--over", "n=4..6", "--cluster", "tcp://127.0.0.1:1"),
            "there is no Dask scheduler at tcp://127.0.0.1:1: Connection refused",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--at", "5"),
            "--at is the number of --chart area-delay; add that, or leave out --at",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--at", "5", "--chart", "time", "-o", "x.svg"),
            "--at is the number of --chart area-delay; add that, or leave out --at",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--at", "7", "--chart", "area-delay", "-o", "x.svg"),
            "--at: n = 7 is not compared; expected 4..6",
        ),
        (
            (*PAIR, "--with", "n=4", "--at", "7", "--chart", "area-delay"),
            "--at: n = 7 is not compared; expected 4",
        ),
        (
            ("compare", "--over", "tide=3..4"),
            "no design of the catalogue is compared over tide; see edgewise list",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--chart", "period", "-o", "x.svg"),
            "--chart period: none of these designs has a clock",
        ),
        (
            (*PAIR, "--need", "n = 4, time <= 9", "--chart", "toggles", "-o", "x.svg"),
            "--chart toggles: the need names no toggles, so that none are counted",
        ),
        *(
            (
                ("compare", "wire.yaml", "--over", "n=4..6", *option),
                f"{option[0]}: designs of the catalogue are measured there, circuit files are not;"
                " leave it out",
            )
            for option in (("--workers", "2"), ("--cluster", "tcp://h:1"))
        ),
        (
            (*PAIR, "--over", f"n=1..1{'0' * 400}"),
            f"--over: found 'n=1..1{'0' * 74} …'; expected numbers of up to 18 digits",
        ),
        (
            (*PAIR, "--over", "n=4..6,x=1..2"),
            "--over: found 2 ranges, expected one; --with is for numbers",
        ),
        (
            (*PAIR, "--with", "n=4..6"),
            "--with: found 'n=4..6', a range; give it as --over",
        ),
        (
            (*PAIR, "--need", f"n = 4, time <= 1{'0' * 400}"),
            f"time <= 1{'0' * 31}…: found a number of 401 digits, expected up to 18",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--workers", "0"),
            "0 workers can't be had; expected 1..256",
        ),
        *(
            (
                (*PAIR, "--over", f"n={found}"),
                f"--over: found {item!r}; expected NAME=LOW..HIGH, as in n=1..32,x=2..16",
            )
            for found, item in (("abc", "n=abc"), ("4,8,16", "n=4"), ("4..6,", ""))
        ),
        (
            (*PAIR, "--over", "n=4..6", "--chart", "tim", "-o", "x.svg"),
            "there is no chart tim; did you mean time?",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--chart", "time", "-o", "x.gif"),
            "can't write x.gif: its name ends in .gif; a chart is written as .svg, .png or .pdf",
        ),
        (
            (*PAIR, "--over", "n=4..6", "--chart", "time", "-o", "attic/x.svg"),
            "can't write attic/x.svg: there is no folder attic; make it first",
        ),
        (
            (*PAIR, "--need", "n = 4, time <= 45.7"),
            "time <= 45.7: found 45.7, expected a whole number, since figures are rounded up to one"
            " first; write 46",
        ),
        (
            ("draw", "serial-adder", "--path", "--figure", "timing", "-o", "x.svg"),
            "--path has no effect in a timing diagram; choose --rows and --columns",
        ),
    ],
)
def test_every_error_is_told_whole(
    edgewise: Edgewise,
    words: tuple[str, ...],
    message: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "wire.yaml").write_text(WIRE, encoding="utf-8")
    _, err, code = edgewise(*words)
    assert (err, code) == (f"{message}\n", 2)


def test_nothing_is_measured_for_an_option_that_is_refused(
    edgewise: Edgewise, monkeypatch: pytest.MonkeyPatch
) -> None:
    def measured(*_: object, **__: object) -> None:
        raise AssertionError

    monkeypatch.setattr("edgewise.study.cost.sweep.measured", measured)
    for option in (
        ("--model", "unit-gat"),
        ("--chart", "tim"),
        ("--chart", "time", "-o", "attic/x.svg"),
        ("--chart", "period"),
        ("--at", "5"),
        ("--cluster", "foo"),
        ("--workers", "0"),
        ("--need", "n = 4, time <= 2**9999"),
        ("--need", "n = 4, tim <= 9"),
    ):
        _, err, code = edgewise(*PAIR, "--over", "n=4..6", *option)
        assert code == 2, option
        assert err.count("\n") == 1, option


def test_what_answers_but_is_no_scheduler(edgewise: Edgewise) -> None:
    """A server that waits for whoever calls to speak first."""
    import socket

    with socket.create_server(("127.0.0.1", 0)) as server:
        where = f"tcp://127.0.0.1:{server.getsockname()[1]}"
        _, err, code = edgewise(*PAIR, "--over", "n=4..6", "--cluster", where)
    assert (err, code) == (
        f"there is no Dask scheduler at {where}: nothing answers as one does\n",
        2,
    )


def test_without_names_like_is_ranked_with_like(edgewise: Edgewise) -> None:
    out, err, code = edgewise("compare", "--with", "n=8")
    assert (err, code) == ("", 0)
    assert "ripple-carry-adder-without-carry-in at n = 8 (52)" in " ".join(out.split())
    assert not [line for line in out.splitlines() if line.startswith("Smallest: ")]


def test_the_critical_path_is_drawn_and_listed(
    edgewise: Edgewise, golden: Golden, tmp_path: Path
) -> None:
    file = tmp_path / "path.svg"
    words = ("--with", "n=4", "--operands", "a=11,b=6", "--path", "--text", "-o", str(file))
    out, err, code = edgewise("draw", "serial-adder", *words)
    assert (err, code) == ("", 0)
    assert out.splitlines()[-3:] == [
        "critical path: 12 gate delays, from B(0) to d of C; a path counts whether or not operands"
        " take it",
        "",
        str(file),
    ]
    golden("figure-diagram-serial-adder-path.svg", file.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("design", "told"),
    [
        ("ripple-carry-adder", "10 gate delays, from b(0) to sum(3)"),
        ("carry-lookahead-adder", "8 gate delays, from a(1) to sum(2)"),
    ],
)
def test_the_critical_path_through_an_adder_without_a_clock(
    edgewise: Edgewise, golden: Golden, tmp_path: Path, design: str, told: str
) -> None:
    file = tmp_path / "path.svg"
    words = (
        "--with",
        "n=4",
        "--operands",
        "a=9,b=6,carry_in=1",
        "--path",
        "--text",
        "-o",
        str(file),
    )
    out, err, code = edgewise("draw", design, *words)
    assert (err, code) == ("", 0)
    assert f"critical path: {told}; " in out
    golden(f"path-{design}.txt", out.removesuffix(f"\n{file}\n"))
    golden(f"figure-diagram-{design}-path.svg", file.read_text(encoding="utf-8"))
