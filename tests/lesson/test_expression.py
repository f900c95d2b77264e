"""The formulas of a lesson: what names and times mean, and what is said of bad ones."""

from __future__ import annotations

import pytest

from edgewise import catalogue
from edgewise.errors import EdgewiseError, Place
from edgewise.lesson.expression import Run, compute, shown

SERIAL = Run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
RIPPLE = Run(catalogue.design("ripple-carry-adder", n=4), {"a": 9, "b": 12, "carry_in": 1})
WORDS = Run(
    catalogue.design("serial-accumulator", n=6, x=3, m=4), {"w(1)": 13, "w(2)": 11, "w(3)": 14}
)


def value(text: str, run: Run = SERIAL) -> str:
    found = compute(text, run, Place("rain.md", 4, 10))
    assert found is not None
    return shown(found)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # A word prints as its bits, MSB left; a number in decimal; a truth in words.
        ("A after 6", "010110"),
        ("A after load", "010110"),
        ("A before 7", "010110"),
        ("A after 8", "XX0101"),
        ("C after end", "1"),
        ("S(0) after 7", "0"),
        ("S(5..3) after 9", "001"),
        ("S(n-1..n-3) after end - 3", "001"),
        ("FA.carry-out after 7", "1"),
        ("FA.X1.out after 6", "1"),
        ("value(S after end)", "1"),
        ("signed(B after load)", str(43 - 64)),
        ("known(A after 6)", "true"),
        ("known(A after 7)", "false"),
        ("(S after 2) + (B after load)", "43"),
        ("(A + B) after 6", "65"),
        ("edges", "12"),
        ("edges(add)", "6"),
        ("end", "12"),
        ("a", "22"),
        ("a(1)", "1"),
        ("a(3..1)", "011"),
        ("n", "6"),
        ("(a + b) mod 2**n", "1"),
        ("(a + b) div 2**n", "1"),
        ("-7 mod 4", "1"),
        ("max(a, b) - ceil_log2(n)", "40"),
        ("a < b and not a == b", "true"),
        ("A after load + 1 == 0b010110", None),
    ],
)
def test_values_of_the_serial_adder(text: str, expected: str | None) -> None:
    if expected is None:
        with pytest.raises(EdgewiseError, match="has no value"):
            value(text)
    else:
        assert value(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a", "9"),
        ("sum", "0110"),
        ("carry", "1"),
        ("c(4)", "1"),
        ("FA(2).sum", "1"),
        ("sum == 6", "true"),
    ],
)
def test_without_edges_row_0_is_meant(text: str, expected: str) -> None:
    assert value(text, RIPPLE) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("w(1)", "13"),
        ("w(1)(0)", "1"),
        ("total(w)", "38"),
        ("value(A after add(1))", "13"),
        ("value(A after add(2))", "24"),
        ("A after add", "100110"),
        ("edges(add)", "18"),
        ("edges(add(2))", "6"),
    ],
)
def test_families_of_operands_and_of_phases(text: str, expected: str) -> None:
    assert value(text, WORDS) == expected


@pytest.mark.parametrize(
    ("text", "run", "message"),
    [
        (
            "S",
            SERIAL,
            "rain.md:4:10: S changes from edge to edge; write S after k, for example S after 12"
            " (the edges are 0..12; 0 is the start)",
        ),
        (
            "1 + S(0)",
            SERIAL,
            "rain.md:4:14: S(0) changes from edge to edge; write S(0) after k, for example"
            " S(0) after 12 (the edges are 0..12; 0 is the start)",
        ),
        (
            "S after 13",
            SERIAL,
            "rain.md:4:10: S after 13: there is no edge 13; the edges are 0..12; 0 is the start",
        ),
        (
            "S before 0",
            SERIAL,
            "rain.md:4:10: S before 0: there is no edge 0; the edges are 1..12",
        ),
        (
            "S after lode",
            SERIAL,
            "rain.md:4:18: there is no lode here; did you mean load?",
        ),
        (
            "S after C",
            SERIAL,
            "rain.md:4:18: C is a word in the circuit, not the number of an edge",
        ),
        (
            "FA.carry-ot after 3",
            SERIAL,
            "rain.md:4:10: there is no FA.carry-ot here; did you mean FA.carry-out?",
        ),
        ("S(6) after 3", SERIAL, "rain.md:4:10: S has no bit 6; its bits are 5..0, MSB first"),
        (
            "S(0..5) after 3",
            SERIAL,
            "rain.md:4:10: S has no slice (0..5); its bits are 5..0, MSB first",
        ),
        (
            "1 + (A after 8)",
            SERIAL,
            "rain.md:4:10: A after 8 is XX0101, which has no value: bits 4 and 5 are unknown (X)",
        ),
        (
            "value(A after 7)",
            SERIAL,
            "rain.md:4:10: A after 7 is X01011, which has no value: bit 5 is unknown (X)",
        ),
        ("signed(5)", SERIAL, "rain.md:4:10: signed(…) reads a word of bits, found 5"),
        ("edges(lod)", SERIAL, "rain.md:4:10: there is no phase lod; did you mean load?"),
        ("total(a)", SERIAL, "rain.md:4:10: total(a): this design has no family of operands"),
        ("total(v)", WORDS, "rain.md:4:10: v is not a family of operands; there is: w"),
        ("w", WORDS, "rain.md:4:10: w is a family of operands; write w(1) or total(w)"),
        ("w(4)", WORDS, "rain.md:4:10: there is no w(4); the operands are w(1) to w(3)"),
        ("a div 0", SERIAL, "rain.md:4:10: 22 div 0: division by zero"),
        (
            "S after 11 + C after 11",
            SERIAL,
            "rain.md:4:25: can't read 'S after 11 + C after 11': found a second 'after': put"
            " parentheses around each “NAME after k”, as in (S after 2) + (C after 2)",
        ),
        (
            "sum after 1",
            RIPPLE,
            "rain.md:4:10: sum after 1: there is no edge 1; this design has no clock edges",
        ),
    ],
)
def test_messages(text: str, run: Run, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        value(text, run)
    assert str(caught.value) == message


def test_operands_are_asked_for_only_when_used() -> None:
    run = Run(catalogue.design("serial-adder", n=3), {})
    assert value("edges == 2*n", run) == "true"
    with pytest.raises(EdgewiseError, match="operand a is missing"):
        value("A after 1", run)
