from __future__ import annotations

import json
import re
from itertools import product
from pathlib import Path
from typing import Any, Final

import pytest

from edgewise import blueprint, catalogue
from edgewise.errors import Problems
from edgewise.study.coverage.measured import coverage
from tests.conftest import Edgewise, Golden

EXAMPLES: Final[tuple[tuple[str, dict[str, int], dict[str, Any]], ...]] = (
    ("serial-adder", {"n": 6}, {"a": 22, "b": 43}),
    ("serial-adder", {"n": 4}, {"a": 5, "b": 2}),
    ("serial-adder", {"n": 4}, {"a": 0, "b": 5}),
    ("ripple-carry-adder", {"n": 4}, {"a": 5, "b": 2, "carry_in": 0}),
    ("ripple-carry-adder", {"n": 4}, {"a": 6, "b": 3, "carry_in": 1}),
    ("serial-accumulator", {}, {"w": [5, 9, 3]}),
    ("universal-shift-register", {}, {"w": 5}),
    ("carry-lookahead-adder", {}, {"a": 6, "b": 3, "carry_in": 1}),
    ("johnson-counter", {}, {}),
)


def test_what_examples_show(golden: Golden) -> None:
    lines = []
    for name, parameters, operands in EXAMPLES:
        shown = coverage(catalogue.design(name, **parameters), operands)
        lines += [f"{name} {parameters} {operands}", *(f"  {s}" for s in shown.sentences())]
        lines += [f"  | {' | '.join(line)}" for line in shown.table()]
    golden("study-coverage.txt", "\n".join(lines) + "\n")


def test_a_dull_example_is_warned_of() -> None:
    shown = coverage(catalogue.design("serial-adder", n=4), {"a": 0, "b": 5})
    assert shown.warnings() == (
        "The carry flip-flop C is never set: this example would look the same without it.",
        "A never holds a 1.",
    )
    assert not coverage(catalogue.design("serial-adder", n=4), {"a": 3, "b": 7}).warnings()
    ripple = coverage(catalogue.design("ripple-carry-adder", n=4), {"a": 5, "b": 2, "carry_in": 0})
    assert ripple.warnings() == (
        "There is no carry: this example would look the same without the carry wires.",
    )


def test_a_register_that_keeps_a_one_is_warned_of() -> None:
    text = (
        "{circuit: kept, parts: {R: {part: register, width: 2, d: R, start: 2}},"
        " outputs: {y: R}, procedure: [{phase: wait, edges: 2}], computes: {y: 2}}"
    )
    shown = coverage(blueprint.from_text(text, "kept.yaml").design(), {})
    assert shown.warnings() == ("R never changes from one known value to another.",)


def test_what_is_said_without_the_carry_is_true() -> None:
    """An adder whose carry flip-flop is never set answers alike without it."""
    from edgewise.study.misconceptions import registry

    design = catalogue.design("serial-adder", n=4)
    dropped = registry.find("carry-dropped").of(design)
    assert dropped is not None
    for a in range(16):
        for b in range(16):
            operands = {"a": a, "b": b}
            if any("never set" in w for w in coverage(design, operands).warnings()):
                assert registry.answers(design, operands) == registry.answers(dropped, operands)


def test_rows_that_only_loading_meets_do_not_count() -> None:
    shown = coverage(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
    assert shown.adders[0].occurring == ("000", "010", "011", "101", "110")
    assert shown.adders[0].covered == ("010", "011", "101", "110")
    assert shown.rows == shown.adders[0].covered


def test_phases_that_matter() -> None:
    text = (
        "{circuit: idle, inputs: {on: 1, x: 1}, operands: {w: 2},"
        " parts: {R: {part: shift-register, width: 2, in: x, enable: on}}, outputs: {y: R},"
        " procedure: [{phase: rest, edges: 2, on: 0, x: X},"
        " {phase: enter, edges: 2, on: 1, x: w lsb-first}], computes: {y: w}}"
    )
    shown = coverage(blueprint.from_text(text, "idle.yaml").design(), {"w": 2})
    assert [(phase.name, phase.matters) for phase in shown.phases] == [
        ("rest", False),
        ("enter", True),
    ]
    assert "Phase rest stores nothing that gets into the answer." in shown.sentences()


def test_data_is_plain() -> None:
    for name, parameters, operands in EXAMPLES:
        data = coverage(catalogue.design(name, **parameters), operands).data()
        assert json.loads(json.dumps(data))["design"] == name


def test_operands_that_do_not_fit() -> None:
    with pytest.raises(Problems):
        coverage(catalogue.design("serial-adder", n=4), {"a": 16, "c": 1})


@pytest.mark.parametrize("other", ["BA", "A_", "Z", "is", "AAA"])
@pytest.mark.parametrize("width", [1, 2])
def test_no_name_hides_another(other: str, width: int) -> None:
    """Two registers, one of which is never set and the other only rises."""
    text = (
        f"{{circuit: two, inputs: {{x: 1}}, parts: {{A: {{part: shift-register, width: {width},"
        f" in: x}}, {other}: {{part: shift-register, width: {width}, in: 0}}}},"
        f" outputs: {{y: A, z: {other}}}, operands: {{a: 1}},"
        " procedure: [{phase: go, edges: 3, x: 1}], computes: {y: 1}}"
    )
    said = coverage(blueprint.from_text(text, "two.yaml").design(), {"a": 1}).sentences()
    assert f"{other} never holds a 1." in said
    rising = "A rises" if width == 1 else "A(1) and A(0) rise"
    falls = "falls" if width == 1 else "fall"
    assert (
        f"0 of {2 * width} flip-flops toggle in both directions; {rising} but never {falls}."
        in said
    )
    # The other way about.
    text = text.replace(f"{width}, in: x", f"{width}, in: 1").replace("in: 0", "in: x")
    text = text.replace("in: 1", "in: 0", 1)
    said = coverage(blueprint.from_text(text, "two.yaml").design(), {"a": 1}).sentences()
    assert "A never holds a 1." in said
    assert any(f"; {other}" in sentence and "but never" in sentence for sentence in said)


@pytest.mark.parametrize("name", ["serial-adder", "serial-subtractor", "ripple-carry-adder"])
def test_never_is_never(name: str) -> None:
    """What an example is said not to cover stands in no row, in every state of the sentences."""
    design = catalogue.design(name, n=3)
    widths = {operand.name: operand.width for operand in design.operands}
    for numbers in product(*(range(1 << width) for width in widths.values())):
        shown = coverage(design, dict(zip(widths, numbers, strict=True)))
        occurring = {row for adder in shown.adders for row in adder.occurring}
        for sentence in shown.sentences(["rows"]):
            told, _, left_out = sentence.partition(", all but ")
            if "in sums that get into the answer" not in told:
                assert not occurring & set(re.findall(r"\b[01]{3}\b", left_out))
            if "also stands" in sentence:
                assert not any(", never " in other for other in shown.sentences(["rows"]))


def test_a_run_of_gates_alone_says_so(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "gates.yaml"
    path.write_text(
        "{circuit: gates, inputs: {a: 1, b: 1}, parts: {G: {part: and, in: [a, b]}},"
        " outputs: {y: G.out}, operands: {a: 1, b: 1}, computes: {y: a * b}}",
        "utf-8",
    )
    answer = edgewise("show", str(path), "--operands", "a=1,b=1", "--coverage")
    assert answer.out.split() == [
        "Without",
        "clock",
        "edges",
        "and",
        "adders",
        "there",
        "is",
        "nothing",
        "to",
        "count:",
        "the",
        "one",
        "row",
        "of",
        "the",
        "run",
        "is",
        "all",
        "there",
        "is",
        "to",
        "see.",
    ]
