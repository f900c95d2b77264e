"""How many clock edges the serial schemes take.

Outside: the counts are common practice, no source. Two words of n bits take 2n edges when
fed serially through two inputs, n after a parallel load, 3n through one serial input; each
further word through that input takes n more: 3n + n(x - 2) for x words.
"""

from __future__ import annotations

import pytest

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.reference import run

WIDTHS = (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 63, 64)


def edges_of(design: Design, phase: str) -> int:
    """Edges of one phase."""
    return sum(p.edges for p in design.procedure if p.name == phase)


@pytest.mark.parametrize("n", WIDTHS)
@pytest.mark.parametrize("name", ["serial-adder", "serial-adder-gated-clock"])
def test_two_words_fed_serially(name: str, n: int) -> None:
    assert catalogue.design(name, n=n).edges == 2 * n


@pytest.mark.parametrize("n", WIDTHS)
def test_two_words_loaded_in_parallel(n: int) -> None:
    design = catalogue.design("serial-adder-parallel-load", n=n)
    assert edges_of(design, "add") == n
    assert (edges_of(design, "load"), design.edges) == (1, n + 1)


@pytest.mark.parametrize("name", ["serial-accumulator", "serial-accumulator-cleared"])
@pytest.mark.parametrize("x", [1, 2, 3, 4, 7])
@pytest.mark.parametrize("n", WIDTHS)
def test_words_through_one_serial_input(name: str, x: int, n: int) -> None:
    design = catalogue.design(name, n=n, x=x)
    assert design.edges == n * (x + 1) == 3 * n + n * (x - 2)
    assert [phase.name for phase in design.procedure] == [
        "load",
        *(f"add({i})" for i in range(1, x + 1)),
    ]


def test_four_words_of_four_bits() -> None:
    assert catalogue.design("serial-accumulator", n=4, x=4).edges == 20


@pytest.mark.parametrize("name", ["serial-adder", "serial-adder-parallel-load"])
def test_one_edge_less_is_not_enough(name: str) -> None:
    """The counts are needed: one edge earlier, some sum is not there yet."""
    for n in (1, 2, 5, 8):
        design = catalogue.design(name, n=n)
        trace = run(design, {"a": 1, "b": 0})
        assert trace.word("sum", trace.edges).value == 1
        assert trace.word("sum", trace.edges - 1).value != 1
