"""Products of the multipliers.

Outside: NumPy's multiplication at small widths, for all operands; Z3's bit-vector multiplication
and the SAT proof at 8 x 8.
"""

from __future__ import annotations

import numpy as np
import pytest

from edgewise import catalogue
from edgewise.engines.exhaustive.compiler import count
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.reference import run
from edgewise.engines.sat import bounded
from edgewise.engines.symbolic import specification, unrolling
from edgewise.engines.symbolic.terms import Terms

MULTIPLIERS = ["shift-add-multiplier", "bit-serial-multiplier"]


@pytest.mark.parametrize("name", MULTIPLIERS)
@pytest.mark.parametrize("n", [1, 2, 3, 4])
def test_all_products(name: str, n: int) -> None:
    design = catalogue.design(name, n=n)
    numbers = np.arange(1 << n)
    for a, row in enumerate(np.multiply.outer(numbers, numbers).tolist()):
        for b, product in enumerate(row):
            assert run(design, {"a": a, "b": b}).word("product", design.edges).value == product


@pytest.mark.parametrize("name", MULTIPLIERS)
def test_all_products_of_8_by_8(name: str) -> None:
    """All 65,536 pairs, against the same sum of products that the purpose stands for."""
    design = catalogue.design(name, n=8)
    terms = Terms()
    agreed = specification.agreement(design, terms, unrolling.unroll(design, terms))
    right = terms.both(agreed.one, agreed.unknown ^ 1)
    assert count(terms, right, Space.of(design)) == 2**16


@pytest.mark.parametrize("name", ["shift-add-multiplier"])
def test_products_are_proved_at_8_by_8(name: str) -> None:
    assert bounded.computes(catalogue.design(name, n=8)).outcome == "proved"


@pytest.mark.slow
def test_serial_products_are_proved_at_8_by_8() -> None:
    """Harder for the solver: the partial sums come in another order (4 s on a quiet machine)."""
    design = catalogue.design("bit-serial-multiplier", n=8)
    assert bounded.computes(design, seconds=90).outcome == "proved"


@pytest.mark.parametrize(("name", "edges"), [(MULTIPLIERS[0], 9), (MULTIPLIERS[1], 17)])
def test_edges(name: str, edges: int) -> None:
    """After the load n edges of shift and add, or 2n bits of the product, one an edge.

    Mano and Ciletti, sec. 8.7; Parhami, sec. 12.3 (both from memory).
    """
    assert catalogue.design(name, n=8).edges == edges


def test_the_carry_save_accumulator_is_proved() -> None:
    """In n - 1 edges the carries settle whatever the words: proved for all of them."""
    for n, x in ((1, 3), (2, 3), (8, 4), (16, 3)):
        design = catalogue.design("carry-save-accumulator", n=n, x=x)
        assert bounded.computes(design).outcome == "proved"
