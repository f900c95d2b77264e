"""Every adder held against whole-number addition.

Outside: Python's integers; for the accumulator whose carry is not cleared, the one's
complement sum of RFC 1071 (R. Braden, D. Borman, C. Partridge, "Computing the Internet
Checksum", 1988).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.reference import run

COMBINATIONAL = (
    "ripple-carry-adder",
    "ripple-carry-adder-without-carry-in",
    "carry-lookahead-adder",
    "carry-lookahead-adder-without-carry-in",
)
SERIAL = ("serial-adder", "serial-adder-parallel-load", "serial-adder-gated-clock")
ADDERS = (*COMBINATIONAL, *SERIAL)


@lru_cache(maxsize=8)
def built(name: str, n: int) -> Design:
    return catalogue.design(name, n=n)


def added(design: Design, *given: int) -> int:
    """Sum and carry of one run as one number; the operands in the design's order."""
    names = [operand.name for operand in design.operands]
    trace = run(design, dict(zip(names, given, strict=True)))
    n = design.parameters["n"]
    return trace.word("sum", trace.edges).value + (trace.word("carry", trace.edges).value << n)


@pytest.mark.parametrize("name", ADDERS)
@pytest.mark.parametrize("n", [1, 2, 3, 4])
def test_all_operands(name: str, n: int) -> None:
    design = catalogue.design(name, n=n)
    for numbers in product(*(operand.numbers for operand in design.operands)):
        assert added(design, *numbers) == sum(numbers), numbers


@pytest.mark.parametrize("name", COMBINATIONAL)
def test_all_operands_across_the_border_of_a_group(name: str) -> None:
    design = catalogue.design(name, n=5)
    for numbers in product(*(operand.numbers for operand in design.operands)):
        assert added(design, *numbers) == sum(numbers), numbers


def numbers_below(limit: int) -> st.SearchStrategy[int]:
    return st.integers(0, limit - 1)


@pytest.mark.parametrize("name", ADDERS)
@pytest.mark.parametrize("n", [6, 8, 15, 16, 17, 20, 33, 64])
@settings(max_examples=20)
@given(fractions=st.tuples(*[numbers_below(1 << 64)] * 3))
@example(fractions=((1 << 64) - 1, 0, (1 << 64) - 1))
@example(fractions=((1 << 64) - 1, 1 << 63, 0))
@example(fractions=((1 << 64) - 1, (1 << 64) - 1, (1 << 64) - 1))
def test_sampled_operands(name: str, n: int, fractions: tuple[int, int, int]) -> None:
    design = built(name, n)
    numbers = [f >> (64 - o.width) for f, o in zip(fractions, design.operands, strict=False)]
    assert added(design, *numbers) == sum(numbers)


@pytest.mark.parametrize("name", COMBINATIONAL)
@pytest.mark.parametrize("n", [65, 80, 256])
def test_a_carry_crosses_all_groups(name: str, n: int) -> None:
    design = catalogue.design(name, n=n)
    rest = [0] * (len(design.operands) - 2)
    assert added(design, (1 << n) - 1, 1, *rest) == 1 << n
    assert added(design, (1 << n) // 3, 2 * ((1 << n) // 3), *rest) == 3 * ((1 << n) // 3)
    if rest:
        assert added(design, (1 << n) - 1, 0, 1) == 1 << n


@pytest.mark.parametrize(("n", "x"), [(1, 4), (2, 3), (2, 4), (3, 2), (3, 3), (8, 1)])
def test_cleared_accumulator_all_words(n: int, x: int) -> None:
    design = catalogue.design("serial-accumulator-cleared", n=n, x=x)
    for words in product(range(1 << n), repeat=x):
        trace = run(design, design.values({"w": words}))
        assert trace.word("sum", trace.edges).value == sum(words) % 2**n, words


def end_around(words: tuple[int, ...], n: int) -> int:
    """One's complement sum as in RFC 1071, sec. 1 and 2(B): carries return to the LSB."""
    total = sum(words)
    while total >> n:
        total = (total & (1 << n) - 1) + (total >> n)
    return total


@settings(max_examples=40)
@given(st.lists(numbers_below(1 << 16), min_size=1, max_size=6).map(tuple))
@example((0x0001, 0xF203, 0xF4F5, 0xF6F7))
def test_a_carry_never_cleared_makes_the_internet_checksum(words: tuple[int, ...]) -> None:
    design = catalogue.design("serial-accumulator", n=16, x=len(words))
    trace = run(design, design.values({"w": words}))
    left = trace.word("sum", trace.edges).value + trace.word("carry", trace.edges).value
    assert end_around((left,), 16) == end_around(words, 16)


def test_the_example_of_rfc_1071() -> None:
    """Section 3 of the RFC adds 0001 f203 f4f5 f6f7 to ddf2 (from memory)."""
    design = catalogue.design("serial-accumulator", n=16, x=4)
    trace = run(design, design.values({"w": (0x0001, 0xF203, 0xF4F5, 0xF6F7)}))
    left = trace.word("sum", trace.edges).value + trace.word("carry", trace.edges).value
    assert left == 0xDDF2
