"""Follow-through, learners side by side, held against the reference engine one by one."""

from __future__ import annotations

import random

import pytest

from edgewise.bits import X
from edgewise.circuit.model import Tie
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.practice.marking import beliefs
from edgewise.practice.marking.batch import Batch, counted, words
from edgewise.practice.table_question import Cell
from tests.practice.marking.classes import adder, asked, careless


def members(mask: int) -> list[int]:
    return [i for i, bit in enumerate(f"{mask:b}"[::-1]) if bit == "1"]


def one_by_one(
    design: Design, cells: tuple[Cell, ...], operands: dict[str, int], wrote: dict[Cell, str]
) -> dict[Cell, str]:
    """What follows from a learner's own rows: whole registers put in, the reference engine run.

    For registers that are asked whole, and sums that only their next row reads.
    """
    netlist = design.netlist
    stored = [one.start for one in netlist.flip_flops]
    found = {}
    for row, fed in enumerate(design.schedule):
        inputs = {
            name: [
                s.bit if isinstance(s, Tie) else operands[s.operand] >> s.index & 1 for s in bits
            ]
            for name, bits in fed.items()
        }
        values = reference.settle(netlist, stored, inputs)
        for cell in (cell for cell in cells if cell.row == row):
            nets = netlist.find(cell.column)
            found[cell] = "".join("01X"[values[net]] for net in reversed(nets))
        mine = {one.q: stored[i] for i, one in enumerate(netlist.flip_flops)}
        for cell, word in wrote.items():
            if cell.row == row:
                for net, digit in zip(netlist.find(cell.column), reversed(word), strict=True):
                    mine[net] = X if digit == "X" else int(digit)
        own = [mine[one.q] for one in netlist.flip_flops]
        stored = reference.edge(netlist)(reference.settle(netlist, own, inputs))
    return found


def test_what_follows_is_what_the_reference_engine_says_of_each_learner() -> None:
    design = adder(5)
    cells = asked(range(4, 11), ["A", "B", "C", "S"])
    rng = random.Random(16)  # noqa: S311
    operands = [{"a": rng.randrange(32), "b": rng.randrange(32)} for _ in range(60)]
    answers = []
    for numbers in operands:
        trace = reference.run(design, numbers)
        right = [str(trace.word(cell.column, cell.row)) for cell in cells]
        answers.append(careless(right, 0.15, rng))
    batch = Batch(design, cells, tuple(operands), tuple(zip(*answers, strict=True)))
    for learner, numbers in enumerate(operands):
        wrote = dict(zip(cells, answers[learner], strict=True))
        expected = one_by_one(design, cells, numbers, wrote)
        own = [words(bits, learner) for bits in batch.own if bits is not None]
        assert dict(zip(cells, own, strict=True)) == expected
        trace = reference.run(design, numbers)
        for place, cell in enumerate(cells):
            is_right = wrote[cell] == str(trace.word(cell.column, cell.row))
            assert (learner in members(batch.right[place])) == is_right
            assert (learner in members(batch.followed[place])) == (wrote[cell] == expected[cell])


def test_a_sum_that_is_written_wrong_goes_into_the_register_after_it() -> None:
    design = adder(2)
    cells = (Cell(3, "FA.sum"), Cell(4, "S"))
    batch = Batch(design, cells, ({"a": 1, "b": 1},), (("0",), ("00",)))
    assert [words(bits, 0) for bits in batch.true] == ["1", "10"]
    assert [words(bits or (), 0) for bits in batch.own] == ["1", "00"]
    assert (batch.right, batch.followed) == ((0, 0), (0, 1))


def test_a_blank_is_filled_by_what_follows() -> None:
    design = adder(2)
    cells = (Cell(3, "C"), Cell(4, "S"))
    batch = Batch(design, cells, ({"a": 1, "b": 1},) * 2, ((".", "."), ("10", "..")))
    assert (batch.given, batch.right, batch.followed) == ((0, 1), (0, 1), (0, 1))


def test_ideas_are_run_as_the_registry_runs_them() -> None:
    """Without own rows each idea gives what its design gives on the reference engine."""
    design = adder(3)
    cells = asked(range(7), ["A", "B", "C", "S", "FA.sum"])
    operands = tuple({"a": a, "b": b} for a in (1, 5, 7) for b in (0, 3, 6))
    right = [reference.run(design, numbers) for numbers in operands]
    answers = tuple(tuple(str(t.word(c.column, c.row)) for t in right) for c in cells)
    batch = Batch(design, cells, operands, answers)
    for belief in (*beliefs.singles(design), *beliefs.pairs(design)):
        seen = batch.seen(belief, own=False)
        for learner, numbers in enumerate(operands):
            trace = reference.run(belief.design, numbers)
            for cell, bits in zip(cells, seen, strict=True):
                nets = belief.nets(cell)
                assert (bits is None) == (nets is None)
                if bits is not None and nets is not None:
                    assert words(bits, learner) == str(trace.bits(nets, cell.row)), belief.names


@pytest.mark.parametrize("learners", [1, 7, 8, 9, 100])
@pytest.mark.parametrize("masks", [0, 1, 3, 255, 256, 300])
def test_counted_is_what_counting_one_by_one_gives(learners: int, masks: int) -> None:
    chance = random.Random(f"{learners} {masks}")  # noqa: S311  # no secrets
    made = [chance.getrandbits(learners) for _ in range(masks)]
    assert counted(made, learners) == [sum(m >> i & 1 for m in made) for i in range(learners)]
