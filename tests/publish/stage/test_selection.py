"""What is said where multiplexers choose what a storage element takes."""

from __future__ import annotations

from edgewise import catalogue, run
from edgewise.engines import reference
from edgewise.publish.stage.selection import selectors
from edgewise.trace import Trace
from tests.web.telling import told


def test_a_word_that_selects_is_named_with_what_it_selects() -> None:
    trace = run(catalogue.design("universal-shift-register", n=4, k=1), w=0b0111)
    assert [told(trace, row) for row in range(1, 5)] == [
        "Edge 1, phase load: Q(3..0) took 0111 (mode = 11).",
        "Edge 2, phase hold: Q(3..0) kept its value (mode = 00).",
        "Edge 3, phase right: Q(3..0) shifted right (0 in, 1 out), as mode = 01.",
        "Edge 4, phase left: Q(3..0) shifted left (0 in, 0 out), as mode = 10. word reads 0110,"
        " which is 6 = the remainder of (w div 2**k · 2**k) ÷ 2ⁿ.",
    ]


def test_a_carry_is_followed_through_a_multiplexer() -> None:
    trace = run(catalogue.design("serial-adder-subtractor", n=2), a=3, b=1, subtract=1)
    assert told(trace, 1).endswith("C took 1 (load = 1).")
    assert "carry 1 was stored in C (unchanged)" in told(trace, 3)


def test_an_enable_is_named_where_it_is_not_1_throughout() -> None:
    trace = run(catalogue.design("shift-add-multiplier", n=4), a=11, b=5)
    assert "M took 1011 (load = 1)." in told(trace, 1)
    trace = run(catalogue.design("serial-subtractor", n=2), a=1, b=2)  # shift = 1 in every row
    assert not any("shift = 1" in told(trace, row) for row in range(1, trace.edges + 1))


def test_an_unknown_select_decides_nothing() -> None:
    design = catalogue.design("universal-shift-register", n=2, k=0)
    netlist = design.netlist
    fed = {"mode": [2, 1], "w": [1, 0], "right_in": [0], "left_in": [0]}
    before = reference.settle(netlist, [1, 0], fed)
    following = [reference.next_bit(flip_flop, before) for flip_flop in netlist.flip_flops]
    trace = Trace(design, {}, (before, reference.settle(netlist, following, fed)))
    assert " took " in told(trace, 1)
    assert "mode" not in told(trace, 1)


def test_each_multiplexer_is_there_once() -> None:
    found = selectors(catalogue.design("universal-shift-register", n=8, k=1))
    assert len(found) == len({one.output for one in found}) == 3 * 8
