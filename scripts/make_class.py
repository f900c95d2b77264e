"""Write the answers of a made-up class for the paper of the examples.

Run ``PYTHONPATH=. python scripts/make_class.py`` after that paper, or what decides its codes, has
changed; ``tests/test_cli_mark.py`` tells when.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path
from typing import Final

from edgewise.engines import reference
from edgewise.practice.marking import beliefs
from edgewise.practice.paper import Paper, Variant, read_paper

EXAMPLES: Final = Path(__file__).parents[1] / "examples"
PAPER: Final = EXAMPLES / "three-gauges-paper.md"
ANSWERS: Final = EXAMPLES / "three-gauges-answers.csv"
SEED: Final = 5


def right(variant: Variant) -> dict[str, str]:
    """Everything as it should be."""
    return {h: q.expected(h) for q in variant.questions for h in q.headings}


def dropped(variant: Variant) -> dict[str, str]:
    """What someone writes who leaves the carry out, everywhere."""
    answers = right(variant)
    for question in variant.questions:
        asked = question.cells_asked
        if asked is None:
            led = [text for name, text in question.wrong if name == "carry-dropped"]
            answers |= dict.fromkeys(question.headings[:1], led[0]) if led else {}
            continue
        held = {one.names: one for one in beliefs.singles(asked.trace.design)}["carry-dropped",]
        trace = reference.run(held.design, asked.trace.operands)
        for heading, cell in zip(question.headings, asked.cells, strict=True):
            answers[heading] = str(trace.bits(held.nets(cell) or (), cell.row))
    return answers


def careless(variant: Variant) -> dict[str, str]:
    """One bit wrong, that of the third column."""
    answers, heading = right(variant), variant.headings[2]
    return answers | {heading: "1" if answers[heading] == "0" else "0"}


def decimal(variant: Variant) -> dict[str, str]:
    """Words of several bits in decimal, and one answer missing."""
    answers = {
        heading: str(int(text, 2)) if set(text) <= {"0", "1"} and len(text) > 1 else text
        for heading, text in right(variant).items()
    }
    return answers | {variant.headings[5]: ""}


def empty(_: Variant) -> dict[str, str]:
    """Nothing."""
    return {}


CLASS: Final[tuple[tuple[str, Callable[[Variant], dict[str, str]]], ...]] = (
    ("Ines", right),
    ("Tarek", dropped),
    ("Solveig", careless),
    ("Bao", empty),
    ("Marek", decimal),
    ("Aylin", right),
)
"""Learners and how they answer; the last one gets a letter of the code wrong."""


def lines(paper: Paper) -> list[list[str]]:
    """The answer sheet of the class, its headings first."""
    variants = paper.variants(len(CLASS), SEED).variants
    headings = variants[0].headings
    found = [["learner", "code", *headings]]
    for (name, of), variant in zip(CLASS, variants, strict=True):
        answers = of(variant)
        found.append([name, variant.code, *(answers.get(heading, "") for heading in headings)])
    code = found[-1][1]
    found[-1][1] = code[:-1] + ("Q" if code[-1] != "Q" else "R")
    return found


def text(paper: Paper) -> str:
    """The same as comma-separated values."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(lines(paper))
    return out.getvalue()


if __name__ == "__main__":
    ANSWERS.write_text(text(read_paper(PAPER)), encoding="utf-8")
