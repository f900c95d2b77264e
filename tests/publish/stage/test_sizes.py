"""The sizes of a design that a page holds: as many as can be drawn while somebody waits."""

from __future__ import annotations

from typing import Final

import pytest

from edgewise import catalogue
from edgewise.blueprint import from_text
from edgewise.design import Design
from edgewise.publish.stage.sizes import MOST_WORK, sizes, work

# Who asks for it has adders placed by the general layout.
PLAIN: Final = """\
circuit: trays of two ovens
parameters: {n: 8 in 1..256}
inputs: {a: n, b: n}
nets: {c: n + 1}
join: {c(0): 0}
parts:
  FA(i = 0..n-1):
    {part: full-adder, a: a(i), b: b(i), carry-in: c(i), sum: sum(i), carry-out: c(i+1),
     look: plain}
outputs: {sum: n, carry: c(n)}
operands: {a: n, b: n}
"""


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_first_page_of_a_design_lays_out_no_more_than_can_be_waited_for(name: str) -> None:
    blueprint = catalogue.find(name)
    design = blueprint.design({})
    circuits = {id(size.circuit): size for size in sizes(design, blueprint)}
    different: list[Design] = []
    for size in circuits.values():
        if size.circuit not in [other.circuit for other in different]:
            different.append(size)
    assert sum(map(work, different)) <= MOST_WORK
    if design.parameters:
        assert len(circuits) > 1  # some other size is offered with every design


def test_a_size_that_would_take_long_is_left_out() -> None:
    blueprint = from_text(PLAIN, "gates.yaml")
    found = sizes(blueprint.design({"n": 64}), blueprint)
    assert {size.parameters["n"] for size in found} == {64}  # drawing it takes long enough


def test_sizes_of_the_same_circuit_are_all_offered() -> None:
    blueprint = catalogue.find("crc-register")
    found = sizes(blueprint.design({"n": 32, "x": 3}), blueprint)
    assert {size.parameters["x"] for size in found} > {3}
