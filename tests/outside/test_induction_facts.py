"""Facts of rings and shift registers that hold for ever, by k-induction and by counting.

Outside: M. M. Mano, M. D. Ciletti, *Digital Design*, sec. 6.5 (ring and Johnson counters;
from memory, high confidence); taps of maximal length after P. Alfke, XAPP052, 1996 (from
memory), each checked against galois, an independent library of finite fields; S. Golomb,
*Shift Register Sequences* (the number of ones in a period; from memory).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest

from edgewise import blueprint, catalogue
from edgewise.circuit.builder import Builder
from edgewise.design import Design, Phase
from edgewise.engines import reference
from edgewise.engines.sat import k_induction
from edgewise.engines.sat.k_induction import among, exactly_one
from edgewise.engines.symbolic.terms import Term
from edgewise.engines.symbolic.unrolling import Logic, Row

JOHNSON: Final = ("0000", "1000", "1100", "1110", "1111", "0111", "0011", "0001")
UNUSED: Final = ("0100", "1010", "1101", "0110", "1011", "0101", "0010", "1001")
TAPS: Final[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "data" / "lfsr_taps.json").read_text("utf-8")
)


def numbers(words: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(int(word, 2) for word in words)


def switch_tail(start: str) -> Design:
    return blueprint.from_text(
        f"""
        circuit: switch-tail ring
        parts:
          R:   {{part: shift-register, width: {len(start)}, in: NOT.out, start: 0b{start}}}
          NOT: {{part: not, in: R.out}}
        outputs: {{state: R}}
        """,
        "ring.yaml",
    ).design()


def test_a_johnson_counter_keeps_to_its_eight_states() -> None:
    design = catalogue.design("johnson-counter", n=4)
    found = k_induction.always(design, among(design.netlist.find("R"), numbers(JOHNSON)), since=0)
    assert (found.outcome, found.k) == ("proved", 1)


@pytest.mark.parametrize("start", UNUSED)
def test_a_johnson_counter_never_leaves_its_unused_states(start: str) -> None:
    design = switch_tail(start)
    nets = design.netlist.find("R")
    found = k_induction.always(design, among(nets, numbers(UNUSED)))
    assert (found.outcome, found.k) == ("proved", 1)
    found = k_induction.always(design, among(nets, numbers(UNUSED[:-1])))
    assert found.outcome == "refuted"  # all eight are one loop
    assert found.counterexample is not None
    rows = found.counterexample.trace.rows
    assert len({bytes(row[net] for net in nets) for row in rows}) == len(rows) <= len(UNUSED)


@pytest.mark.parametrize("n", [2, 4, 8, 64])
def test_a_ring_counter_always_has_exactly_one_1(n: int) -> None:
    design = catalogue.design("ring-counter", n=n)
    found = k_induction.always(design, exactly_one(design.netlist.find("R")), since=0)
    assert (found.outcome, found.k) == ("proved", 1)


def test_a_ring_counter_does_not_correct_itself() -> None:
    """Two ones stay two: a state with another number of ones is never left."""
    design = blueprint.from_text(
        """
        circuit: ring
        parts: {R: {part: shift-register, width: 4, in: R.out, start: 0b1010}}
        outputs: {state: R}
        """,
        "ring.yaml",
    ).design()
    nets = design.netlist.find("R")

    def never_one(logic: Logic, row: Row) -> Term:
        return exactly_one(nets)(logic, row) ^ 1

    assert k_induction.always(design, never_one).outcome == "proved"


# --------------------------------------------------------------- shift registers with feedback


def feedback_register(n: int, taps: tuple[int, ...]) -> Design:
    """Stage t of `taps`, counted from 1 at the input, goes into the XOR that feeds stage 1."""
    b = Builder("feedback shift register")
    fed = b.net("fed")
    register = b.part("R", "shift-register", {"in": fed}, {"width": n, "start": 1 << (n - 1)})
    # Stage 1 is the MSB: the register moves towards the LSB.
    stages = tuple(register["q"][n - tap] for tap in taps)
    b.part("XOR", "xor", {"in": stages, "out": fed})
    b.output("q", register["q"])
    return Design("feedback-register", b.circuit(), procedure=(Phase("run", 3, ()),)).check()


def next_states(design: Design) -> list[int]:
    """For each bit of the next state, the mask of the state bits whose XOR it is.

    Read off the netlist by linearity: each state with a single 1 is settled by the reference
    engine.
    """
    netlist = design.netlist
    count = len(netlist.flip_flops)
    masks = [0] * count
    for one in range(count):
        row = reference.settle(netlist, [int(i == one) for i in range(count)], {})
        for i, flip_flop in enumerate(netlist.flip_flops):
            masks[i] |= reference.next_bit(flip_flop, row) << one
    assert {gate.operator for gate in netlist.gates} == {"xor"}  # so that it is linear
    return masks


def states(design: Design) -> Iterator[int]:
    """What the register holds from the start until just before that returns."""
    masks = next_states(design)
    (fed,) = (i for i, mask in enumerate(masks) if mask.bit_count() > 1)
    assert all(mask == 2 << i for i, mask in enumerate(masks) if i != fed)  # the others shift
    start = state = sum(f.start << i for i, f in enumerate(design.netlist.flip_flops))
    while True:
        yield state
        state = state >> 1 | ((state & masks[fed]).bit_count() & 1) << fed
        if state == start:
            return


def period(design: Design) -> int:
    """Edges until the initial state returns, one edge at a time."""
    return sum(1 for _ in states(design))


@pytest.mark.parametrize("n", range(3, 21))
def test_taps_of_maximal_length(n: int) -> None:
    row = TAPS[str(n)]
    assert row["primitive"]
    assert period(feedback_register(n, tuple(row["taps"]))) == 2**n - 1 == row["period"]


@pytest.mark.parametrize("n", range(3, 13))
def test_ones_in_a_period(n: int) -> None:
    """Golomb (from memory): 2**(n-1) ones and one zero fewer."""
    design = feedback_register(n, tuple(TAPS[str(n)]["taps"]))
    ones = sum(state & 1 for state in states(design))
    assert (ones, period(design) - ones) == (2 ** (n - 1), 2 ** (n - 1) - 1)


@pytest.mark.parametrize("n", range(3, 21))
def test_taps_are_primitive_polynomials(n: int) -> None:
    """By galois: x**n plus the sum of x**t over the taps below n, plus 1."""
    import galois

    degrees = {n, 0} | {tap for tap in TAPS[str(n)]["taps"] if tap != n}
    assert galois.Poly.Degrees(sorted(degrees, reverse=True)).is_primitive()


def test_taps_that_are_not_primitive() -> None:
    """x**8 + x**4 + x**3 + x + 1 is irreducible but not primitive: 51 edges, not 255."""
    import galois

    polynomial = galois.Poly.Degrees([8, 4, 3, 1, 0])
    assert polynomial.is_irreducible()
    assert not polynomial.is_primitive()
    assert period(feedback_register(8, (8, 4, 3, 1))) == 51


def test_stepping_agrees_with_the_reference_engine() -> None:
    design = feedback_register(5, (5, 3))
    trace = reference.run(design, {})
    assert [str(trace.word("R", row)) for row in range(4)] == ["10000", "01000", "00100", "10010"]


@pytest.mark.parametrize("n", [3, 4, 5, 8, 20])
def test_a_feedback_register_never_comes_to_rest(n: int) -> None:
    """From any start but 0 it never holds only zeros, the one state that it would keep."""
    design = feedback_register(n, tuple(TAPS[str(n)]["taps"]))
    nets = design.netlist.find("R")

    def moving(logic: Logic, row: Row) -> Term:
        return logic.terms.any_of(row[net].one for net in nets)

    found = k_induction.always(design, moving, since=0)
    assert (found.outcome, found.k) == ("proved", 1)
