"""Small texts that ask for much are refused in time and told why; whole messages.

Resource exhaustion by size, by numbers, by nesting and by expressions, as in OWASP's Denial of
Service Cheat Sheet (from memory). A process of its own may use 2 s of processor time and 500 MB
beside what starting takes.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

from edgewise import blueprint
from edgewise.cli import options
from edgewise.errors import MOST_TOLD, EdgewiseError, Place, Problems, TextError
from edgewise.lesson import document
from edgewise.lesson.blocks import BLOCKS

FRONT: Final = "---\ntitle: Rain\ndesign: serial-adder\n---\n"
ONE: Final = "circuit: c\ninputs: {a: 1}\noutputs: {y: a}\n"
SUB: Final = "---\ncircuit: sub\nparameters: {k: 1}\ninputs: {x: 1}\n"


def many(text: str, count: int) -> str:
    return "".join(text.format(k=k) for k in range(count))


CIRCUITS: Final = {
    "operands": (
        ONE + "operands:\n" + many(" w{k}(i = 0..19999): 4\n", 100),
        "c.yaml:5:2: more than 4,096 operands",
    ),
    "phases": (
        ONE + "procedure:\n" + many(" - {{phase: p{k}(i = 0..19999), edges: 0, a: X}}\n", 100),
        "c.yaml:5:4: more than 4,096 phases, or more than 50,000 inputs fed in all of them; make"
        " longer phases of them",
    ),
    "sub-circuits": (
        ONE + "parts:\n S(i = 1..500): {part: sub, k: i, x: a}\n" + SUB
        + "parts:\n P(j = 0..9999): {part: not, in: x}\noutputs: {y: P(0).out}\n",
        "c.yaml:11:2: this text makes more than 30,000 parts in all",
    ),
    "nets": (
        ONE + "parts:\n S(i = 1..1500): {part: sub, k: i, x: a}\n" + SUB
        + "nets:\n n(j = 0..40): 4096\noutputs: {y: x}\n",
        "c.yaml:11:2: this text makes more than 400,000 bits of nets in all",
    ),
    "lists": (
        ONE + f"parts:\n P(i = 0..9000): {{part: and, in: [{', '.join(['a'] * 4000)}]}}\n",
        "c.yaml:5:34: the lists of all parts have more than 100,000 items",
    ),
    "a family at fault": (
        ONE + "parts:\n P(j = 0..19899): {part: full-adder, a: a, b: a, carry: a}\n",
        "c.yaml:5:57: part P(0): full-adder has no port carry; did you mean carry-in?",
    ),
    "edges": (
        "circuit: c\ninputs: {a: 4000}\noutputs: {y: a}\noperands: {w: 4000}\n"
        "procedure: [{phase: p, edges: 100000, a: w}]\n",
        "c.yaml:1:1: a run of 100000 edges of 4,000 input bits is too large; the limit for one"
        " times the other is 10,000,000",
    ),
    "unknown keys": (
        "circuit: c\n" + many("q{k}: 1\n", 15_000),
        "c.yaml:2:1: a circuit text has no entry q0; there is: about, circuit, computes, inputs,"
        " join, nets, operands, outputs, parameters, parts, procedure, source, …",
    ),
}  # fmt: skip
LESSONS: Final = {
    "quotes": (
        '"' * 150_000,
        'r.md:5: the character " stands 150,000 times in this paragraph; the limit is 2,000',
    ),
    "brackets": (
        "![" * 60_000,
        "r.md:5: the character [ stands 60,000 times in this paragraph; the limit is 1,000",
    ),
    "blanks in a span": ("x `" + "a " * 250 + "`` b", ""),
    "a span of blanks": ("`" + " " * 100_000 + "`", ""),
    "backslashes": ("\\" * 100_000, ""),
    "backticks": ("".join("`" * k + " " for k in range(1, 190)), ""),
}

LIMITED: Final = """
import resource, sys, time
sys.path.insert(0, {root!r})
import tests.test_bounds as bounds
kind, name = sys.argv[1:]
resource.setrlimit(resource.RLIMIT_CPU, (20, 20))
began = time.process_time()
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(bounds.told(kind, name))
used = time.process_time() - began
more = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
# Twice the limit: processors differ, and the growth that is looked for is a hundredfold.
sys.exit(f"{{used:.1f}} s, {{more:.0f}} MB" if used > 4 or more > 500 else 0)
"""


def told(kind: str, name: str) -> str:
    """The first message about one of the texts above."""
    if kind == "circuit":
        try:
            blueprint.from_text(CIRCUITS[name][0], "c.yaml").design()
        except EdgewiseError as wrong:
            return str(wrong.parts()[0])
        return ""
    found = document.read(FRONT + LESSONS[name][0], "r.md", Path(), tuple(BLOCKS))
    return str(found.faults[0]) if found.faults else ""


@pytest.mark.parametrize(
    ("kind", "name"), [("circuit", name) for name in CIRCUITS] + [("lesson", n) for n in LESSONS]
)
def test_a_small_text_that_asks_for_much(kind: str, name: str) -> None:
    root = str(Path(__file__).parents[1])
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED.format(root=root), kind, name],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout.strip("\n") == (CIRCUITS if kind == "circuit" else LESSONS)[name][1]


def test_at_most_twenty_errors_are_told() -> None:
    errors = [TextError(f"fault {k}", Place("r.md", k + 1)) for k in range(400)]
    lines = str(Problems([Problems(errors[:300]), Problems(errors[300:])])).splitlines()
    assert len(lines) == MOST_TOLD + 1
    assert lines[0] == "r.md:1: fault 0"
    assert lines[-1] == "and 380 errors more; mend these first"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("0..99999999", "--rows: 100,000,000 rows are too many to show; the limit is 1,000"),
        ("0-8", "--rows: found '0-8'; write 0..8"),
        ("0...8", "--rows: found '0...8'; write 0..8"),
        ("8..0", "--rows: 8..0 is empty; write 0..8"),
        ("9" * 5000, "--rows: found a number of 5,000 characters; the limit is 1,300"),
        ("x", "--rows: found 'x'; expected 6..12 or 0,6,12"),
    ],
)
def test_rows(text: str, message: str) -> None:
    with pytest.raises(TextError) as wrong:
        options.rows_of(text)
    assert str(wrong.value) == message


def test_numbers_of_many_digits() -> None:
    for digits in ("9" * 5000, "0b" + "1" * 20_000, "-" + "1" * 4301):
        with pytest.raises(TextError) as wrong:
            options.assignments(f"a={digits}", "--operands")
        size = f"{len(digits):,}"
        assert str(wrong.value) == (
            f"--operands: a: found a number of {size} characters; the limit is 1,300"
        )


@pytest.mark.parametrize("before", ["", " ", "\u00a0", "\u200b", "\u2060 ", "\u3000", "\ufeff"])
@pytest.mark.parametrize("behind", ["", " ", "\u00a0", "\u200b"])
def test_a_span_with_the_mark_is_a_value(before: str, behind: str) -> None:
    found = document.read(f"{FRONT}x `{before}?{behind}a`", "r.md", Path(), tuple(BLOCKS))
    assert [value.formula for value in found.values] == ["a"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "`\uff1f a`",
            "r.md:5:2: found \uff1f (U+FF1F) at the beginning of a code span; a computed value"
            " begins with ?",
        ),
        (
            "Text:\n\n    Now `? a`.",
            "r.md:7:9: this computed value is indented by four blanks or more, which makes it text"
            " to be shown; indent it less, or show it between two lines ~~~",
        ),
        ("```{claim}\n```", "r.md:5:4: there is no block {claim}; did you mean claim?"),
        ("```laws\n```", "r.md:5:4: there is no block laws; did you mean law?"),
        ("```sya\n```", "r.md:5:4: there is no block sya; did you mean say?"),
        ("```proof\n```", "r.md:5:4: there is no block proof; did you mean prove?"),
        ("a\x1b[2J", "r.md:5:2: the invisible character U+001B stands here; delete it"),
        ("a\u202eb", "r.md:5:2: the invisible character U+202E stands here; delete it"),
        ("a &#x202e;b", "r.md:5:3: this stands for the invisible character U+202E; leave it out"),
        ("a\ud83d", "r.md:5:2: half a character (U+D83D) stands here; delete it"),
        (
            "```claim\nedges == 12\n\n```stage\n```\n",
            "r.md:5:1: the block from line 5 has no closing ``` before the next one begins in"
            " line 8",
        ),
    ],
)
def test_messages(text: str, message: str) -> None:
    found = document.read(FRONT + text, "r.md", Path(), tuple(BLOCKS))
    assert "\n".join(map(str, found.faults)) == message


def test_pairs_of_halves_are_joined() -> None:
    found = document.read(FRONT + "tide \ud83c\udf0a", "r.md", Path(), tuple(BLOCKS))
    assert found.faults == ()
    assert found.tokens[1].content == "tide \U0001f30a"


LONG: Final = "z" * 60_000
SHORT: Final = "z" * 100 + "…" + "z" * 20


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["show", LONG], f"the catalogue has no design {SHORT[:-1]}; edgewise list shows them"),
        (
            ["trace", "serial-adder", "--with", f"{LONG}=3"],
            f"serial-adder has no parameter {SHORT[:-1]}; there is: n",
        ),
        (["new", LONG], f"{SHORT[:-3]}.md: can't be written: File name too long"),
    ],
)
def test_a_long_word_is_quoted_in_part(words: list[str], message: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "edgewise", *words], capture_output=True, text=True, check=False
    )
    assert (done.stderr, done.returncode) == (f"{message}\n", 2)
