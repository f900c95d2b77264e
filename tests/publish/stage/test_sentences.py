"""The sentences of a page: their length, words told as one, and results."""

from __future__ import annotations

import random
from typing import Final

import pytest

from edgewise import blueprint as blueprints
from edgewise import catalogue
from edgewise.circuit.builder import Builder
from edgewise.design import Design, Phase, Purpose
from edgewise.engines import reference
from edgewise.formula import parse
from edgewise.trace import Trace
from tests.web.telling import told

# ---------------------------------------------------------------------- length


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_sentences_stay_short_for_wide_words(name: str) -> None:
    blueprint = catalogue.find(name)
    design = blueprint.design({blueprint.parameters[0].name: 32})
    for seed in range(4):
        chance = random.Random(seed)  # noqa: S311  # cases, no secrets
        operands = {o.name: o.number(chance.getrandbits(o.width)) for o in design.operands}
        if seed == 3:  # numbers as long as they can be
            operands = {o.name: o.numbers[-1] for o in design.operands}
        trace = reference.run(design, operands)
        assert max(len(told(trace, row)) for row in range(trace.edges + 1)) <= 320


def test_a_wide_output_is_told_as_a_number() -> None:
    trace = reference.run(catalogue.design("serial-adder", n=20), {"a": 600_000, "b": 500_000})
    assert told(trace, 40).endswith(
        "sum reads 51424 = the remainder of (a + b) ÷ 2ⁿ. carry reads 1 = the quotient of (a + b)"
        " ÷ 2ⁿ."
    )


def test_stages_of_one_bit_are_one_word() -> None:
    trace = reference.run(catalogue.design("crc-register", n=4), {"byte(1)": 60})
    assert told(trace, 0) == "At the start: R(3..0) = 0000."
    assert told(trace, 5) == (
        "Edge 5, phase take(1): R(3..0) shifted and became 1001: the feedback 1 = bit_in XOR R(3)"
        " entered R(0) and R(1)."
    )


def test_many_parts_that_hold_are_not_named() -> None:
    b = Builder("boxes")
    go, way = b.input("go"), b.input("way")
    held = [b.part(name, "flip-flop", {"d": way, "enable": go})["q"] for name in "PQRS"]
    b.part("T", "flip-flop", {"d": way})
    b.output("y", tuple(bit for bits in held for bit in bits))
    design = Design("boxes", b.circuit(), {}, (), (Phase("p", 1, ()),))
    for bit, text in (
        (0, "T took 1. The others kept their values."),
        (1, "P took 1, Q took 1, R took 1, S took 1 and T took 1."),
    ):
        row = reference.settle(design.netlist, [0] * 5, {"go": [bit], "way": [1]})
        assert told(Trace(design, {}, (row, row)), 1) == f"Edge 1, phase p: {text}"


def test_a_circuit_without_stores_is_told_so() -> None:
    b = Builder("light")
    b.output("y", b.part("N", "not", {"in": b.input("x")})["out"])
    design = Design("light", b.circuit(), {}, (), (Phase("p", 1, ()),))
    row = reference.settle(design.netlist, [], {"x": [1]})
    trace = Trace(design, {}, (row, row))
    assert told(trace, 0) == "At the start: nothing is stored."
    assert told(trace, 1) == "Edge 1, phase p: nothing is stored."


# ---------------------------------------------------------------------- results

LONG: Final = "w + 0 * (w + 1) * (w + 2) * (w + 3) * (w + 4) * (w + 5) * (w + 6) * (w + 7)"


@pytest.mark.parametrize(
    ("formula", "start", "text"),
    [
        ("w mod 8", 5, "y reads 101, which is 5 = the remainder of w ÷ 8."),
        ("w mod 8", 4, "y reads 100, which is 4; the remainder of w ÷ 8 is 5."),
        ("w mod 8", "X", "y reads XXX, not all of it known; the remainder of w ÷ 8 is 5."),
        ("5", 5, "y reads 101, which is 5, as expected."),
        ("5", 4, "y reads 100, which is 4; expected: 5."),
        ("5", "X", "y reads XXX, not all of it known; expected: 5."),
        ("-1", 4, "y reads 100, which is 4; expected: -1."),
        (LONG, 5, "y reads 101, which is 5, as expected."),
        (LONG, 4, "y reads 100, which is 4; expected: 5."),
        (LONG, "X", "y reads XXX, not all of it known; expected: 5."),
        ("w div (w - 5)", 5, "y reads 101."),
    ],
)
def test_a_result_is_told_beside_what_it_should_be(
    formula: str, start: int | str, text: str
) -> None:
    assert result(formula, start, 3) == text


@pytest.mark.parametrize(
    ("formula", "start", "text"),
    [
        ("w mod 2", 1, "y reads 1 = the remainder of w ÷ 2."),
        ("w mod 2", 0, "y reads 0; the remainder of w ÷ 2 is 1."),
        ("1", 1, "y reads 1, as expected."),
        ("1", 0, "y reads 0; expected: 1."),
    ],
)
def test_a_single_bit_is_not_told_twice(formula: str, start: int, text: str) -> None:
    assert result(formula, start, 1) == text


def result(formula: str, start: int | str, width: int) -> str:
    made = blueprints.from_text(
        f"circuit: crate\ninputs: {{w: 3}}\nparts:\n"
        f"  R: {{part: register, width: {width}, d: R, start: {start}}}\n"
        f"outputs: {{y: R}}\noperands: {{w: 3}}\n",
        "crate.yaml",
    ).design()
    design = Design(
        "crate", made.circuit, {}, made.operands, computes=(Purpose("y", parse(formula)),)
    )
    return told(reference.run(design, {"w": 5}), 0)
