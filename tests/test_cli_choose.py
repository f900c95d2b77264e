"""The commands choose and break, and show with operands: whole outputs, every error whole."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.words.messages import ENGLISH
from tests.conftest import Edgewise, Golden

OPEN_INPUT = ENGLISH("fault-caution-open-input")

BREAK = ("break", "serial-adder", "--with", "n=4", "--operands", "a=3,b=7")


# ---------------------------------------------------------------------- choose


@pytest.mark.parametrize("n", [4, 6, 8])
def test_the_best_operands_and_what_they_show(edgewise: Edgewise, golden: Golden, n: int) -> None:
    out, err, code = edgewise("choose", "serial-adder", "--with", f"n={n}")
    assert (err, code) == ("", 0)
    golden(f"cli-choose-{n}.txt", out)


def test_misconceptions_come_with_their_thoughts_and_answers(
    edgewise: Edgewise, golden: Golden
) -> None:
    out, err, code = edgewise("choose", "serial-adder", "--most", "1", "--misconceptions")
    assert (err, code) == ("", 0)
    golden("cli-choose-misconceptions.txt", out)


def longest_chain(a: int, b: int, n: int = 8) -> int:
    """Places of the longest carry chain, added by hand."""
    longest = run = carry = 0
    for i in range(n):
        x, y = a >> i & 1, b >> i & 1
        run = 1 if x & y else run + 1 if carry and x ^ y else 0
        carry, longest = int(run > 0), max(longest, run)
    return longest


@pytest.mark.parametrize(
    ("options", "is_so"),
    [
        (("--operands", "a=29"), lambda a, _: a == 29),
        (("--feature", "carry chain 5"), lambda a, b: longest_chain(a, b) >= 5),
        (("--sum", "overflows"), lambda a, b: a + b > 255),
        (("--sum", "fits"), lambda a, b: a + b <= 255),
        (("--between", "60..99"), lambda a, b: 60 <= a <= 99 and 60 <= b <= 99),
        (("--feature", "no carry"), lambda a, b: not a & b),
    ],
)
def test_what_is_wished_is_so(
    edgewise: Edgewise, options: tuple[str, ...], is_so: Callable[[int, int], bool]
) -> None:
    out, err, code = edgewise("choose", "serial-adder", "--with", "n=8", *options, "--json")
    assert (err, code) == ("", 0)
    found = [one["operands"] for one in json.loads(out)["examples"]]
    assert len(found) == 3
    assert all(is_so(one["a"], one["b"]) for one in found)


def test_a_family_can_be_given_as_a_list(edgewise: Edgewise) -> None:
    words = ("choose", "serial-accumulator", "--with", "n=4,x=2", "--operands", "w=[3,5]")
    out, _, code = edgewise(*words)
    assert code == 0
    assert "w(1) = 3, w(2) = 5   sum 1000" in out


def test_a_seed_gives_the_same_again(edgewise: Edgewise) -> None:
    words = ("choose", "serial-adder", "--with", "n=8", "--seed")
    one, again, other = (edgewise(*words, seed)[0] for seed in ("7", "7", "8"))
    assert one == again
    assert one != other


def test_columns_that_say_nothing_are_left_out(edgewise: Edgewise) -> None:
    out, _, _ = edgewise("choose", "universal-shift-register", "--most", "1")
    assert out.splitlines()[0].split("  ")[0] == "operands"
    assert out.splitlines()[0].split() == ["operands", "answer", "misconceptions", "detected"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            "serial-adder --feature carry-chain",
            "carry-chain is not a feature; did you mean carry chain 4?",
        ),
        (
            "serial-adder --feature loud",
            "loud is not a feature; features are carry chain 4, no carry, all rows, row 011,"
            " misconception carry-dropped",
        ),
        (
            "serial-adder --with n=4 --feature carry\u00a0chain\u00a09",
            "there are no operands of serial-adder with carry chain 9; the longest carry chain is"
            " then 4 places",
        ),
        (
            "serial-adder --with n=8 --feature no\u00a0carry --feature row\u00a0111",
            "there are no operands of serial-adder with no carry, row 111; ask for less",
        ),
        (
            "serial-adder --feature misconception\u00a0carry-droped",
            "misconception carry-droped: none of that name applies here;"
            " did you mean carry-dropped?",
        ),
        (
            "universal-shift-register --feature all\u00a0rows",
            "all rows: the design has no full adder whose sum gets into the answer",
        ),
        (
            "universal-shift-register --sum fits",
            "universal-shift-register has no output named sum, so none that fits",
        ),
        ("serial-adder --operands c=3", "there is no operand c; there is: a, b"),
        (
            "serial-adder --operands a=64",
            "operand a is 64, which is too large; the range is 0..63 in 6 bits",
        ),
        (
            "serial-adder --operands a=[1,2]",
            "--operands: a: found 2 numbers, expected one, no list",
        ),
        ("serial-accumulator --operands w=[1]", "--operands: w: found 1 number, expected 3"),
        ("serial-adder --sum fit", "--sum is fit; expected fits or overflows"),
        ("serial-adder --between 20", "--between: found '20'; expected LOW..HIGH, as in 2..16"),
        (
            "serial-adder --between 99..20",
            "--between: 99..20 is empty; expected LOW..HIGH, as in 20..99",
        ),
        ("johnson-counter", "johnson-counter has no operands to choose"),
    ],
)
def test_what_can_not_be_chosen(edgewise: Edgewise, words: str, message: str) -> None:
    split = [word.replace("\u00a0", " ") for word in words.split(" ")]
    assert edgewise("choose", *split) == ("", f"{message}\n", 2)


# ---------------------------------------------------------------------- show


def test_what_an_example_shows(edgewise: Edgewise, golden: Golden) -> None:
    out, err, code = edgewise("show", "serial-adder", "--operands", "a=22,b=43", "--coverage")
    assert (err, code) == ("", 0)
    golden("cli-coverage.txt", out)
    data = json.loads(edgewise("show", "serial-adder", "--operands", "a=5,b=2", "--json")[0])
    assert data["warnings"] == [
        "The carry flip-flop C is never set: this example would look the same without it."
    ]


def test_what_an_example_shows_needs_an_example(edgewise: Edgewise) -> None:
    assert edgewise("show", "serial-adder", "--coverage") == (
        "",
        "operand a is missing; give a number in 0..63\n"
        "operand b is missing; give a number in 0..63\n",
        2,
    )


# ---------------------------------------------------------------------- break


def test_single_faults_and_what_shows_them(edgewise: Edgewise, golden: Golden) -> None:
    out, err, code = edgewise(*BREAK)
    assert (err, code) == ("", 0)
    golden("cli-break.txt", out)
    data = json.loads(edgewise(*BREAK, "--inside", "--json")[0])
    assert "FA.G1, input from A(0), stuck at 0" in {line["fault"] for line in data["faults"]}


def test_a_fault_is_drawn(edgewise: Edgewise, tmp_path: Path) -> None:
    file = tmp_path / "broken.svg"
    out = edgewise(*BREAK, "--draw", "C stuck at 0", "-o", str(file))
    text, *silence = out
    said = " ".join(text.split())
    assert said == f"The wire C is stuck at 0: what reads it reads 0. {OPEN_INPUT} {file}"
    assert silence == ["", 0]
    drawn = file.read_text("utf-8")
    assert "C stuck at 0" in drawn
    assert 'class="fault" data-name="C.q"' in drawn


def test_a_late_enable_comes_with_its_caution(edgewise: Edgewise, tmp_path: Path) -> None:
    file = tmp_path / "late.svg"
    words = ("break", "serial-adder-gated-clock", "--with", "n=4", "--operands", "a=3,b=7")
    fault = "late enable at the clock of C"
    out, err, code = edgewise(*words, "--draw", fault, "-o", str(file))
    assert (err, code) == ("", 0)
    assert " ".join(out.split()) == (
        "The signal that gates the clock of C falls late: one false edge gets through after it"
        f" should have ended. {GATED_CLOCK_CAUTION} {file}"
    )


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("C stuck at 2",), "--draw: there is no fault C stuck at 2; did you mean C stuck at 1?"),
        (("rust",), "--draw: there is no fault rust; without --draw, edgewise break lists all"),
        (
            ("C stuck at 0", "-o", "broken.txt"),
            "can't write broken.txt: its name ends in .txt; a figure is written as .svg, .png,"
            " .pdf or .eps",
        ),
    ],
)
def test_what_can_not_be_drawn(edgewise: Edgewise, options: tuple[str, ...], message: str) -> None:
    assert edgewise(*BREAK, "--draw", *options) == ("", f"{message}\n", 2)


def test_a_fault_needs_an_example(edgewise: Edgewise) -> None:
    assert edgewise("break", "serial-adder", "--operands", "a=3,b=100") == (
        "",
        "operand b is 100, which is too large; the range is 0..63 in 6 bits\n",
        2,
    )
