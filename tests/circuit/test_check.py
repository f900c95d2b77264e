"""Wiring faults of a circuit: names, drivers, loops, clocks."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from edgewise import blueprint
from edgewise.circuit.builder import Builder, as_kind, wires
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Circuit, Wire
from edgewise.errors import CircuitError, EdgewiseError
from tests.strategies import circuits

HEAD = """\
circuit: gauge
inputs: {x: 1, y: 1, w: 4}
operands: {x: 1, y: 1, w: 4}
"""
IN_TIME = "; to follow it in time, give it waveforms: edgewise trace --inside 0"
"""What a row can't tell may be told in time."""


def complaint(text: str) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_text(HEAD + text + "\n", "gauge.yaml").design()
    return str(wrong.value)


def refused(circuit: Circuit) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        flatten(circuit)
    return str(wrong.value)


MESSAGES = {
    "no driver": (
        "nets: {k: 1, m: 3}\nparts: {N: {part: not, in: k, out: m(1)}}\noutputs: {z: N.out}",
        (
            "4:8: nothing drives net k; let an output port or a join drive it\n"
            "gauge.yaml:4:14: nothing drives net m(0), m(2); let an output port or a join drive it"
        ),
    ),
    "many bits without a driver": (
        "nets: {m: 9}\njoin: {m(8): x}\noutputs: {z: m}",
        (
            "4:8: nothing drives net m(0), m(1), m(2), m(3), m(4), m(5), …; let an output port or a"
            " join drive it"
        ),
    ),
    "an output without a driver": (
        "outputs: {z: 2}",
        "4:11: nothing drives net z; let an output port or a join drive it",
    ),
    "two drivers": (
        (
            "nets: {k: 1, m: 2}\n"
            "parts: {N: {part: not, in: x, out: k}, M: {part: not, in: y, out: k}}\n"
            "join: {m: w(1..0), m(1): y}\noutputs: {z: k}"
        ),
        (
            "5:67: k has two drivers: N.out and M.out; leave one of them out\n"
            "gauge.yaml:6:20: m(1) has two drivers: the join from w(1..0) and the join from y(0);"
            " leave one of them out"
        ),
    ),
    "an input driven from inside": (
        "parts: {N: {part: not, in: x, out: w(2)}}\noutputs: {z: w}",
        "4:36: w(2) has two drivers: the input w and N.out; leave one of them out",
    ),
    "a constant driven": (
        "parts: {N: {part: not, in: x, out: 1}}\noutputs: {z: x}",
        "4:36: N.out can't drive the constant 1",
    ),
    "the clock driven": (
        "parts: {N: {part: not, in: x, out: clock}}\noutputs: {z: x}",
        "4:36: clock has two drivers: the clock itself and N.out; leave one of them out",
    ),
    "the clock declared": (
        "nets: {clock: 1}\noutputs: {z: x}",
        "4:8: clock can't be declared: every circuit has it, and it is not data",
    ),
    "a loop": (
        (
            "parts: {N: {part: nand, in: [x, M.out]}, M: {part: nand, in: [y, N.out]}}\n"
            "outputs: {z: N.out}"
        ),
        "4:9: combinational loop: N.out -> M.out -> N.out; put a flip-flop into it, or break it",
    ),
    "a gate that feeds itself": (
        "parts: {N: {part: nand, in: [x, N.out]}}\noutputs: {z: N.out}",
        "4:9: combinational loop: N.out -> N.out; put a flip-flop into it, or break it",
    ),
    "a loop through parts with parts inside": (
        (
            "nets: {c: 1}\nparts:\n"
            "  F: {part: full-adder, a: x, b: y, carry-in: c}\n"
            "  G: {part: full-adder, a: x, b: F.sum, carry-in: 0, carry-out: c}\n"
            "outputs: {z: F.sum}"
        ),
        (
            "6:3: combinational loop: F.sum -> G.G1.out -> c -> F.sum; put a flip-flop"
            " into it, or break it"
        ),
    ),
    "a ring of joins": (
        "nets: {a: 1, b: 1, c: 1}\njoin: {a: b, b: c, c: b}\noutputs: {z: a}",
        "1:1: nets joined in a ring have no driver: b -> c -> b",
    ),
    "logic in a clock": (
        (
            "parts: {G: {part: or, in: [clock, x]}, C: {part: flip-flop, d: y, clock: G.out}}\n"
            "outputs: {z: C}"
        ),
        (
            "4:40: the clock of C comes from the or gate G: every edge would then depend on its"
            " delays"
            " and glitches, which are not modelled here; use the clock itself with an enable, or"
            " one"
            " AND gate of the clock and other nets"
        ),
    ),
    "an AND gate without the clock": (
        (
            "parts: {G: {part: and, in: [y, x]}, C: {part: flip-flop, d: y, clock: G.out}}\n"
            "outputs: {z: C}"
        ),
        (
            "4:37: the clock of C comes from the and gate G: every edge would then depend on its"
            " delays and glitches, which are not modelled here; use the clock itself with an"
            " enable,"
            " or one AND gate of the clock and other nets"
        ),
    ),
    "an input as a clock": (
        "parts: {C: {part: flip-flop, d: y, clock: x}}\noutputs: {z: C}",
        (
            "4:9: the clock of C comes from the net x: every edge would then depend on its"
            " delays and"
            " glitches, which are not modelled here; use the clock itself with an enable, or one"
            " AND"
            " gate of the clock and other nets"
        ),
    ),
    "a clock switched by a multiplexer": (
        (
            "parts: {M: {part: multiplexer, d0: 0, d1: clock, select: x},"
            " C: {part: flip-flop, d: y, clock: M}}\noutputs: {z: C}"
        ),
        (
            "4:62: the clock of C comes from the multiplexer M: every edge would then depend on its"
            " delays and glitches, which are not modelled here; use the clock itself with an"
            " enable,"
            " or one AND gate of the clock and other nets"
        ),
    ),
    "the clock at d": (
        "parts: {C: {part: flip-flop, d: clock}}\noutputs: {z: C}",
        "4:9: port d of C reads the clock, but the clock is not data; it goes to clock ports only",
    ),
    "the clock at a gate": (
        "parts: {N: {part: not, in: clock}}\noutputs: {z: N.out}",
        "4:9: N reads the clock but drives no clock port; the clock is not data",
    ),
    "the clock at an output": (
        "outputs: {z: clock}",
        (
            "4:11: output z shows the clock, but the clock is not data: every row stands for one of"
            " its edges already"
        ),
    ),
    "cleared without an edge": (
        "parts: {C: {part: flip-flop, d: y, async-clear: x}}\noutputs: {z: C}",
        (
            "4:9: port async-clear of C does not wait for an edge, and a row tells what stands"
            " after one; use clear"
        ),
    ),
    "a gated clock as data": (
        (
            "parts: {G: {part: and, in: [clock, x]}, C: {part: flip-flop, d: y, clock: G.out},"
            " N: {part: not, in: G.out}}\noutputs: {z: C, u: N.out}"
        ),
        (
            "4:9: G.out is a gated clock and is read as data by N; take the net before the gate"
            " instead"
        ),
    ),
}


TOLD_IN_TIME = (
    "cleared without an edge",
    "a loop",
    "a gate that feeds itself",
    "a loop through parts with parts inside",
    "logic in a clock",
    "an AND gate without the clock",
    "an input as a clock",
    "a clock switched by a multiplexer",
    "the clock at d",
    "the clock at a gate",
    "a gated clock as data",
)


@pytest.mark.parametrize("case", MESSAGES)
def test_messages(case: str) -> None:
    text, message = MESSAGES[case]
    more = IN_TIME if case in TOLD_IN_TIME else ""
    assert complaint(text) == f"gauge.yaml:{message}{more}"


def test_faults_of_a_circuit_built_in_python() -> None:
    b = Builder("odd")
    x = b.input("x", 2)
    b.part("N", "not", {"in": Wire("nothing")})
    b.part("M", "not", {"in": Wire("x", 2)})
    b.output("z", x)
    b.output("z", x)
    assert refused(b.circuit()) == (
        "z is an output, but another output has that name already; give the output another name\n"
        "there is no net named nothing; there is: M.out, N.out, clock, x\n"
        "x has no bit 2; its bits are 1..0, MSB first"
    )


def test_a_kind_used_in_python_is_checked_like_a_part_type() -> None:
    inner = Builder("cell")
    inner.output("o", inner.input("i", 2))
    cell = as_kind(inner.circuit())
    b = Builder("outer")
    x = b.input("x")
    for ports, message in (
        ({"i": x}, "part P: port i of cell is 2 bits wide, but x has 1 bit"),
        ({}, "part P: nothing feeds port i of cell; add i: NET"),
        ({"i": (*x, *x), "k": x}, "part P: cell has no port k; there is: i, o"),
    ):
        with pytest.raises(CircuitError) as wrong:
            b.part("P", cell, ports)
        assert str(wrong.value) == message


def test_a_long_loop_is_cut_short() -> None:
    b = Builder("chain")
    nets = [b.net(f"k{i}") for i in range(3000)]
    for i, net in enumerate(nets):
        b.part(f"N{i}", "not", {"in": nets[i - 1], "out": net})
    b.output("z", nets[0])
    message = refused(b.circuit())
    assert message.startswith("combinational loop: k")
    assert " -> … 2961 more … -> " in message
    assert message.count(" -> ") == 40


def test_too_many_parts_are_refused() -> None:
    inner = Builder("cell")
    x = inner.input("x")
    for i in range(1000):
        inner.part(f"N{i}", "not", {"in": x})
    inner.output("o", x)
    cell = as_kind(inner.circuit())
    b = Builder("outer")
    x = b.input("x")
    for i in range(101):
        b.part(f"P{i}", cell, {"x": x})
    b.output("z", x)
    assert refused(b.circuit()) == (
        "the whole circuit has more than 100000 parts, those inside parts counted"
    )


def test_a_gated_clock_is_accepted_and_marked() -> None:
    b = Builder("gated")
    go = b.input("go")
    gate = b.part("G", "and", {"in": (*wires("clock", 1), *go)})["out"]
    register = b.part("R", "register", {"d": b.input("d", 2), "clock": gate}, {"width": 2})
    free = b.part("C", "flip-flop", {"d": go, "clock": wires("clock", 1)})
    b.output("q", (*register["q"], *free["q"]))
    netlist = flatten(b.circuit())
    marks = {f.name: f.gate for f in netlist.flip_flops}
    assert marks == {
        "R.bit(0)": netlist.find("G.out")[0],
        "R.bit(1)": netlist.find("G.out")[0],
        "C": None,
    }


@given(circuits(depth=2))
@settings(suppress_health_check=[HealthCheck.too_slow], max_examples=60)
def test_well_formed_circuits_flatten(circuit: Circuit) -> None:
    netlist = flatten(circuit)
    driven: set[int] = {0, 1, 2, 3}
    driven |= {net for nets in netlist.inputs.values() for net in nets}
    driven |= {flip_flop.q for flip_flop in netlist.flip_flops}
    for gate in netlist.gates:  # each gate comes after all that it reads
        assert driven.issuperset(gate.inputs)
        assert gate.output not in driven
        driven.add(gate.output)
    assert len(driven) == netlist.size
    assert all(net in driven for nets in netlist.names.values() for net in nets)
    assert all(netlist.labels)


def test_names_of_nets() -> None:
    text = HEAD + (
        "nets: {c: 1}\nparts:\n  F: {part: full-adder, a: x, b: y, carry-in: w(0), carry-out: c}\n"
        "outputs: {z: F.sum, v: w(3..2)}\n"
    )
    netlist = blueprint.from_text(text, "gauge.yaml").design().netlist
    assert netlist.find("w(3..2)") == netlist.find("v") == netlist.inputs["w"][2:]
    assert netlist.find("F.carry-out") == netlist.find("c") == netlist.find("F.OR.out")
    assert netlist.find("F.X1.in(1)") == netlist.inputs["x"]
    assert [netlist.labels[net] for net in netlist.find("z")] == ["F.sum"]
    assert netlist.labels[netlist.find("F.carry-in")[0]] == "w(0)"
    for name, message in (
        ("F.sm", "there is no F.sm here; did you mean F.sum?"),
        ("w(4)", "w has no bit 4; its bits are 3..0, MSB first"),
        ("w(1..2)", "w has no slice (1..2); its bits are 3..0, MSB first"),
    ):
        with pytest.raises(CircuitError) as wrong:
            netlist.find(name)
        assert str(wrong.value) == message


def test_an_output_may_have_the_name_of_the_part_whose_word_it_shows() -> None:
    b = Builder("store")
    stored = b.part("S", "flip-flop", {"d": b.input("d")})
    b.output("S", stored.word)
    assert flatten(b.circuit()).names["S"] == flatten(b.circuit()).names["S.q"]
