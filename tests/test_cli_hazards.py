"""`edgewise hazards` through the command: table, JSON, refusals."""

from __future__ import annotations

import json

import pytest

from edgewise.cli import main


def command(
    words: str, capsys: pytest.CaptureFixture[str], patch: pytest.MonkeyPatch
) -> tuple[int, str, str]:
    patch.setattr("sys.argv", ["edgewise", "hazards", *words.split()])
    with pytest.raises(SystemExit) as left:
        main()
    out, wrong = capsys.readouterr()
    return int(left.value.code or 0), out, wrong


def test_a_table(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    code, out, wrong = command("ripple-carry-adder --with n=1", capsys, monkeypatch)
    assert (code, wrong) == (0, "")
    assert "carry    static 1   a=1, b=1," in out
    assert "without a hazard: sum" in out


def test_data(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    words = "ripple-carry-adder --with n=2 --output sum(1) --model 74hc --json"
    code, out, wrong = command(words, capsys, monkeypatch)
    assert (code, wrong) == (0, "")
    told = json.loads(out)
    assert (told["model"], told["outputs"]) == ("74hc", ["sum(1)"])
    assert [one["kind"] for one in told["hazards"]] == ["static-0", "static-1"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            "serial-adder",
            "serial-adder has flip-flops; hazards are looked for in circuits without",
        ),
        ("ripple-carry-adder --output summ", "there is no summ here; did you mean sum?"),
        ("ripple-carry-adder --output a", "a is not an output; the outputs are sum, carry"),
        (
            "ripple-carry-adder --model steam",
            "there is no cost model steam; there is: 74hc, 74hc-worst, cmos, gate-count, unit-gate",
        ),
    ],
)
def test_what_is_refused(
    words: str,
    told: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert command(words, capsys, monkeypatch) == (2, "", f"{told}\n")
