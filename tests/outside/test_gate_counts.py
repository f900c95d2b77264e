"""Gates, area and depth of the adders, and the lookahead equations.

Outside: D. E. Knuth, *The Art of Computer Programming* 4A, sec. 7.1.2, and N. P. Red'kin,
1981 (gate counts; from memory); the unit-gate model of A. Tyagi, IEEE Trans. Computers
42(10), 1993 (from memory); B. Parhami, *Computer Arithmetic*, sec. 6.2, and Mano and
Ciletti, *Digital Design*, sec. 4.5 (lookahead; from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product

import pytest

from edgewise import catalogue
from edgewise.catalogue import lookahead
from edgewise.circuit.builder import Builder
from edgewise.circuit.flatten import flatten
from edgewise.circuit.netlist import Netlist
from edgewise.engines.reference import settle

UNIT = {"and": 1, "or": 1, "nand": 1, "nor": 1, "xor": 2, "xnor": 2, "not": 0, "buffer": 0}
"""Area and delay of a two-input gate in the unit-gate model."""


def of_part(kind: str, *inputs: str) -> Netlist:
    b = Builder(kind)
    part = b.part("P", kind, {name: b.input(name) for name in inputs})
    for name in ("sum", "carry-out"):
        b.output(name, part[name])
    return flatten(b.circuit())


def area(netlist: Netlist) -> int:
    """Unit-gate area; only for two-input gates."""
    assert all(len(gate.inputs) == 2 for gate in netlist.gates)
    return sum(UNIT[gate.operator] for gate in netlist.gates)


def depth(netlist: Netlist, delays: Mapping[str, int]) -> int:
    """The critical path from an input to an output."""
    at: dict[int, int] = {}
    for gate in netlist.gates:
        at[gate.output] = delays[gate.operator] + max(at.get(net, 0) for net in gate.inputs)
    return max(at.get(net, 0) for nets in netlist.outputs.values() for net in nets)


def test_half_adder() -> None:
    """Two gates (Knuth); unit-gate area 3, delay 2 (from the model's definition)."""
    half = of_part("half-adder", "a", "b")
    assert (len(half.gates), area(half), depth(half, UNIT)) == (2, 3, 2)


def test_full_adder() -> None:
    """Five gates (Knuth); unit-gate area 7, delay 4 (Tyagi, Zimmermann)."""
    full = of_part("full-adder", "a", "b", "carry-in")
    assert (len(full.gates), area(full), depth(full, UNIT)) == (5, 7, 4)


@pytest.mark.parametrize("n", [1, 2, 3, 8, 16, 32, 64])
def test_ripple_carry_adder(n: int) -> None:
    """5n - 3 gates without carry-in (Red'kin); with one 7n units of area, path 2n + 2."""
    without = catalogue.design("ripple-carry-adder-without-carry-in", n=n).netlist
    assert len(without.gates) == 5 * n - 3
    design = catalogue.design("ripple-carry-adder", n=n)
    assert (area(design.netlist), depth(design.netlist, UNIT)) == (7 * n, 2 * n + 2)


@pytest.mark.parametrize(("n", "units"), [(8, 52), (16, 108), (32, 220), (64, 444)])
def test_area_of_ripple_carry_without_carry_in(n: int, units: int) -> None:
    """Unit-gate areas computed by an independent script from the model's definition."""
    assert area(catalogue.design("ripple-carry-adder-without-carry-in", n=n).netlist) == units


@pytest.mark.parametrize(("n", "levels"), [(4, 5), (16, 9), (64, 13), (256, 17)])
def test_levels_of_carry_lookahead(n: int, levels: int) -> None:
    """4 log4 n + 1 levels, gates with any number of inputs: Parhami, sec. 6.2 (from memory).

    He counts one level to form g and p, and two for the XOR gate of the sum.
    """
    design = catalogue.design("carry-lookahead-adder", n=n)
    gates = dict.fromkeys(UNIT, 1)
    assert depth(design.netlist, gates) + 1 == levels


def of_unit(*, last: bool) -> Netlist:
    kind = lookahead.unit(4, carry_in=True, last=last)
    b = Builder("lookahead unit")
    ports = {p.name: b.input(p.name) for p in kind.ports if p.direction == "in"}
    part = b.part("LA", kind, ports)
    for port in kind.ports:
        if port.direction == "out":
            b.output(port.name, part[port.name])
    return flatten(b.circuit())


def test_lookahead_equations() -> None:
    """c1 to c4, and G, P of a group: Mano and Ciletti, sec. 4.5; Parhami, fig. 6.2."""
    inner, outer = of_unit(last=False), of_unit(last=True)
    assert list(outer.outputs) == ["c1", "c2", "c3", "c4"]
    assert list(inner.outputs) == ["c1", "c2", "c3", "generate", "propagate"]
    for g0, g1, g2, g3, p0, p1, p2, p3, c0 in product((0, 1), repeat=9):
        c1 = g0 | p0 & c0
        c2 = g1 | p1 & g0 | p1 & p0 & c0
        c3 = g2 | p2 & g1 | p2 & p1 & g0 | p2 & p1 & p0 & c0
        group_g = g3 | p3 & g2 | p3 & p2 & g1 | p3 & p2 & p1 & g0
        group_p = p3 & p2 & p1 & p0
        c4 = group_g | group_p & c0
        places = {"g0": g0, "g1": g1, "g2": g2, "g3": g3, "p0": p0, "p1": p1, "p2": p2, "p3": p3}
        inputs = {name: (bit,) for name, bit in {**places, "carry-in": c0}.items()}
        for netlist, wanted in (
            (outer, (c1, c2, c3, c4)),
            (inner, (c1, c2, c3, group_g, group_p)),
        ):
            row = settle(netlist, (), inputs)
            assert tuple(row[nets[0]] for nets in netlist.outputs.values()) == wanted


def test_lookahead_is_two_levels_deep() -> None:
    """A sum of products: no path through a unit has more than an AND and an OR gate."""
    gates = dict.fromkeys(UNIT, 1)
    assert [depth(of_unit(last=last), gates) for last in (False, True)] == [2, 2]
