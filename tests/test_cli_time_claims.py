"""``edgewise prove`` with claims about time: whole commands, whole messages."""

from __future__ import annotations

import json

import pytest

from tests.test_cli_draw_inside import call

RUN = ("prove", "serial-adder", "--with", "n=3", "--model", "unit-gate", "--claim")


def test_what_is_true(capsys: pytest.CaptureFixture[str]) -> None:
    assert call(*RUN, "settled(S) within 4 gate delays") == 0
    assert capsys.readouterr().out == (
        "serial-adder, n=3\n"
        "settled(S) within 4 gate delays, for all a, b\n"
        "\n"
        "True: proved for all operands: no path takes longer than 4 gate delays (delays of"
        " unit-gate).\n"
    )
    assert call(*RUN, "no glitch on FA.G1.out", "--operands", "a=1") == 0
    assert capsys.readouterr().out == (
        "serial-adder, n=3\n"
        "no glitch on FA.G1.out, for all b, with a=1\n"
        "\n"
        "True: checked in time on all 8 runs (delays of unit-gate).\n"
    )


def test_what_is_false_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert call(*RUN, "no glitch on FA.sum for all b", "--operands", "a=3") == 1
    assert capsys.readouterr().out == (
        "serial-adder, n=3\n"
        "no glitch on FA.sum for all b, with a=3\n"
        "\n"
        "False for b=1, such operands with the fewest ones.\n"
        "After edge 4 FA.sum is 0 1 0.\n"
        "\n"
        "edge  time  net     from  to\n"
        "────  ────  ──────  ────  ──\n"
        "   4     6  FA.sum     0   1\n"
        "   4     8  FA.sum     1   0\n"
        "\n"
        "after edge 4 all nets have settled within 8 gate delays\n"
        "glitch: FA.sum is 0 1 0 after edge 4; it ends as it was\n"
        "glitch: FA.carry-out is 1 0 1 after edge 4; it ends as it was\n"
    )


def test_what_is_not_known(capsys: pytest.CaptureFixture[str]) -> None:
    assert call(*RUN, "no glitch on FA.sum", "--limit", "0") == 1
    assert capsys.readouterr().out.splitlines()[2:] == [
        "",
        "Undecided: time was up.",
        "Give it more time, or take smaller words.",
    ]


def test_for_programs(capsys: pytest.CaptureFixture[str]) -> None:
    assert call(*RUN, "settled(FA.sum) within 7 gate delays for all a, b", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    assert (told["outcome"], told["holds"]) == ("refuted", False)
    assert told["why"].startswith("after edge ")
    assert set(told["operands"]) == {"a", "b"}
    assert call(*RUN, "no glitch on FA.sum", "--limit", "0", "--json") == 1
    assert json.loads(capsys.readouterr().out)["outcome"] == "undecided"


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            ("prove", "serial-adder", "--claim", "settled(S) within 4 ns"),
            "a claim about time holds with some delays only; name whose: --model 74hc, or another"
            " of cmos, gate-count, unit-gate, 74hc, 74hc-worst",
        ),
        (
            (*RUN, "settled(S) within 4 ns"),
            "within 4 ns: the model unit-gate counts in gate delays; write within 4 gate delays, or"
            " name another model",
        ),
        (
            (*RUN, "no glitch on C", "--always"),
            "--always has no effect with a claim about time",
        ),
        (
            (*RUN, "C after 3 == 0"),
            "--model has no effect without a claim about time",
        ),
        (
            (*RUN, "no glitch on"),
            "can't read 'no glitch on': the formula ends too early; expected a name",
        ),
    ],
)
def test_what_is_refused(
    given: tuple[str, ...], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert call(*given) == 2
    assert capsys.readouterr().err.rstrip("\n").endswith(message)
