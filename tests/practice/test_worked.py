"""Steps of a solution, each held to the rows before and after the edge."""

from __future__ import annotations

import random

import pytest

from edgewise import catalogue
from edgewise.bits import Word
from edgewise.circuit.storage import storage
from edgewise.engines import reference
from edgewise.practice.worked import MOST_ADDERS, step
from edgewise.study.coverage.adder_usage import adders

DESIGNS = [name for name in catalogue.ORDER if catalogue.design(name).edges]


@pytest.mark.parametrize("name", DESIGNS)
def test_a_step_says_what_the_edge_did(name: str) -> None:
    design = catalogue.design(name)
    draw = random.Random(name)  # noqa: S311
    operands = {o.name: o.number(draw.randrange(1 << o.width)) for o in design.operands}
    trace = reference.run(design, operands)
    stores = [one.name for one in storage(design.circuit, design.netlist)]
    columns = tuple(dict.fromkeys((*trace.columns, *stores)))
    told: set[str] = set()
    for row in range(1, trace.edges + 1):
        found = step(trace, row, columns)
        for one in found.stored:
            before, after = trace.word(one.store, row - 1), trace.word(one.store, row)
            assert one.word == after
            told.add(one.how)
            if one.how == "kept":
                assert after == before
            elif one.how == "cleared":
                assert after == Word(after.width)
            elif one.how == "shifted":
                old, new = str(before), str(after)
                assert new in (str(one.came) + old[:-1], old[1:] + str(one.came))
        shown = adders(design)
        assert len(found.added) == (len(shown) if len(shown) <= MOST_ADDERS else 0)
        for added in found.added:
            if all(bit.known for bit in added.inputs):
                total = sum(bit.value for bit in added.inputs)
                assert (added.sum.value, added.carry.value) == (total & 1, total >> 1)
    assert told or not stores


def test_a_cleared_flip_flop_and_a_kept_register_are_told() -> None:
    trace = reference.run(
        catalogue.design("serial-accumulator-cleared", n=3, x=2), {"w(1)": 7, "w(2)": 5}
    )
    told = {
        (one.store, one.how)
        for row in range(1, trace.edges + 1)
        for one in step(trace, row, ("A", "B", "C")).stored
    }
    assert {("A", "kept"), ("A", "shifted"), ("B", "shifted"), ("C", "took")} <= told
    assert ("C", "cleared") in told
