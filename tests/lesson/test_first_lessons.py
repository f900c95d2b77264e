"""A first lesson builds as it stands, for every design, without a warning of its own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from edgewise import blueprint, catalogue, lesson
from edgewise.blueprint import Blueprint
from edgewise.engines import reference
from edgewise.lesson import scaffold
from edgewise.study.coverage import measured
from edgewise.study.coverage.report import PARTS

DOCUMENTS = [Path("README.md"), *sorted(Path("docs").glob("*.md"))]
TEXTS = [
    text
    for document in DOCUMENTS
    if not document.name.startswith("guest")  # these need a package: tests/test_tide_mill.py
    for text in re.findall(r"```yaml\n(circuit:.*?)```", document.read_text("utf-8"), re.DOTALL)
    if "\nwaveforms:" not in text  # what is followed in time has no rows to begin a lesson with
]


def warnings_of(path: Path) -> list[str]:
    return [note.text for note in lesson.check(path).notes if note.kind == "warning"]


def fewest(design: Blueprint) -> int:
    """The fewest warnings that any operands leave, all tried."""
    built = design.design()
    assert sum(o.width for o in built.operands) <= 8
    found = []
    for number in range(1 << sum(o.width for o in built.operands)):
        values, left = {}, number
        for operand in built.operands:
            values[operand.name] = operand.number(left % (1 << operand.width))
            left >>= operand.width
        found.append(len(measured.of(reference.run(built, values)).warnings(PARTS)))
    return min(found)


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_catalogue_design(name: str, tmp_path: Path) -> None:
    design = catalogue.find(name)
    found = warnings_of(scaffold.write(tmp_path / "first", design, name))
    if found:  # then no operands do better
        assert len(found) == fewest(design)


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_every_circuit_text_of_the_documents(number: int, tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text(TEXTS[number], "utf-8")
    path = scaffold.write(tmp_path / "first.md", blueprint.from_file(file), str(file))
    assert warnings_of(path) == []


@pytest.mark.parametrize(
    ("purpose", "claim"),
    [
        ("a < b", "(borrow == 1 and (a < b)) or (borrow == 0 and not (a < b))     for all a, b"),
        ("not a < b", "not (not a < b))     for all a, b"),
        ("a < b and a < 2", "(a < b and a < 2)"),
    ],
)
def test_a_comparison_becomes_a_claim_that_can_be_checked(
    purpose: str, claim: str, tmp_path: Path
) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text(
        "circuit: compare\ninputs: {a: 1, b: 1}\nparts:\n"
        "  na: {part: not, in: a}\n  G: {part: and, in: [na.out, b]}\n"
        "  N: {part: not, in: G.out}\n"
        f"outputs: {{borrow: {'N' if purpose.startswith('not') else 'G'}.out}}\n"
        f"operands: {{a: 1, b: 1}}\ncomputes: {{borrow: {purpose}}}\n",
        "utf-8",
    )
    path = scaffold.write(tmp_path / "first.md", blueprint.from_file(file), str(file))
    lesson.check(path)
    assert claim in path.read_text("utf-8")


def test_operands_with_which_the_circuit_goes_wrong(tmp_path: Path) -> None:
    path = scaffold.write(
        tmp_path / "first",
        catalogue.find("serial-accumulator"),
        "serial-accumulator",
        {"n": 4},
        {"w": [9, 9, 3]},
    )
    lesson.check(path)
    told = path.read_text("utf-8")
    assert "not (sum after end == total(w) mod 2**n)" in told
    assert "that is **not** `total(w) mod 2**n`: here the circuit goes wrong" in told
