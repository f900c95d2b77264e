"""The flat netlist: the same as of a circuit whose parts were taken apart beforehand."""

from __future__ import annotations

import gc
import pickle
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from edgewise import catalogue
from edgewise.circuit.builder import Builder, as_kind, wires
from edgewise.circuit.flatten import flatten
from edgewise.circuit.insides import once_a_kind
from edgewise.circuit.model import CLOCK, Circuit, Connection, Join, Kind, Net, Part, Signal, Wire
from edgewise.circuit.netlist import Netlist
from edgewise.errors import CircuitError, Place
from tests.strategies import circuits


class TakenApart:
    """A circuit of gates, flip-flops and constants only, made by hand from one of parts in parts.

    The net ``cell`` inside the part S becomes the net ``S/cell``, the net of its port ``q`` stays
    ``S.q``, and the part ``bit(0)`` becomes the part ``S.bit(0)``.
    """

    def __init__(self, circuit: Circuit) -> None:
        self.nets: list[Net] = list(circuit.nets)
        self.joins: list[Join] = list(circuit.joins)
        self.parts: list[Part] = []
        for part in circuit.parts:
            self.add(part, part)
        self.circuit = replace(
            circuit, nets=tuple(self.nets), joins=tuple(self.joins), parts=tuple(self.parts)
        )

    def add(self, part: Part, moved: Part) -> None:
        """Add a part, `moved` being the same with the names that it has here."""
        inside = part.kind.inside
        if inside is None:
            self.parts.append(moved)
            return
        path = moved.name
        clocked = any(port.name == CLOCK for port in part.kind.ins)
        own = {net.name for net in inside.port_nets}

        def here(signal: Signal) -> Signal:
            return tuple(
                bit
                if not isinstance(bit, Wire) or (bit.net == CLOCK and not clocked)
                else Wire(f"{path}{'.' if bit.net in own else '/'}{bit.net}", bit.index)
                for bit in signal
            )

        self.nets += [Net(f"{path}/{net.name}", net.width) for net in inside.nets]
        for port in part.kind.ins:
            self.nets.append(Net(f"{path}/{port.name}", port.width))
            self.joins.append(
                Join(wires(f"{path}/{port.name}", port.width), moved.signal(port.name))
            )
        for output in inside.outputs:
            outside = moved.signal(output.name)
            if outside == wires(f"{path}.{output.name}", len(outside)):
                self.nets.append(Net(f"{path}.{output.name}", len(outside)))
            self.joins.append(Join(outside, here(output.signal)))
        self.joins += [Join(here(join.target), here(join.source)) for join in inside.joins]
        for inner in inside.parts:
            connections = tuple(Connection(c.port, here(c.signal)) for c in inner.connections)
            self.add(inner, Part(f"{path}.{inner.name}", inner.kind, connections))


def pairs(one: Netlist, other: Netlist) -> Iterator[tuple[int | None, int | None]]:
    """Nets that stand in the same places of two netlists."""
    for a, b in ((one.inputs, other.inputs), (one.outputs, other.outputs)):
        assert list(a) == list(b)
        for name in a:
            yield from zip(a[name], b[name], strict=True)
    for gate, same in zip(one.gates, other.gates, strict=True):
        assert (gate.name, gate.operator) == (same.name, same.operator)
        yield from zip((*gate.inputs, gate.output), (*same.inputs, same.output), strict=True)
    for flip_flop, alike in zip(one.flip_flops, other.flip_flops, strict=True):
        assert (flip_flop.name, flip_flop.start) == (alike.name, alike.start)
        for port in ("d", "q", "enable", "clear", "gate"):
            yield getattr(flip_flop, port), getattr(alike, port)
    for name in one.names.keys() & other.names.keys():
        yield from zip(one.names[name], other.names[name], strict=True)


def held_against_taken_apart(circuit: Circuit) -> None:
    netlist, apart = flatten(circuit), flatten(TakenApart(circuit).circuit)
    same: dict[int | None, int | None] = {}
    for net, there in pairs(netlist, apart):
        assert same.setdefault(net, there) == there
    assert len(set(same.values())) == len(same)
    for special in (0, 1, 2, 3, None):
        assert same.get(special, special) == special
    for gate in netlist.gates:
        assert netlist.names[f"{gate.name}.out"] == (gate.output,)
    for flip_flop in netlist.flip_flops:
        assert netlist.names[f"{flip_flop.name}.q"] == (flip_flop.q,)


@given(circuits(depth=2))
@settings(suppress_health_check=[HealthCheck.too_slow], max_examples=60)
def test_parts_in_parts_flatten_as_if_taken_apart(circuit: Circuit) -> None:
    held_against_taken_apart(circuit)


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_design_flattens_as_if_taken_apart(name: str) -> None:
    held_against_taken_apart(catalogue.design(name).circuit)


def test_a_kind_in_use_twice_and_deep_inside() -> None:
    """Its inside is planned once, and put in four times, twice through another circuit."""
    b = Builder("pass and turn")
    x, k = b.input("x", 2), b.net("k", 2)
    b.join(k, x[::-1])
    b.output("turned", k)
    b.output("first", b.part("N", "not", {"in": x[0]})["out"])
    turn = as_kind(b.circuit())
    b = Builder("twice")
    one = b.part("T", turn, {"x": b.input("x", 2)})
    two = b.part("U", turn, {"x": one["turned"], "turned": b.net("y", 2)})
    b.output("y", wires("y", 2))
    b.output("first", two["first"])
    twice = as_kind(b.circuit())
    b = Builder("all")
    w = b.input("w", 2)
    b.output("y", b.part("A", twice, {"x": w})["y"])
    b.output("z", b.part("B", twice, {"x": w[::-1]})["first"])
    circuit = b.circuit()
    held_against_taken_apart(circuit)
    netlist = flatten(circuit)
    assert netlist.find("y") == netlist.find("A.T.x") == netlist.find("w")
    assert netlist.find("A.T.turned") == netlist.find("B.U.turned") == netlist.find("w")[::-1]
    assert [gate.name for gate in netlist.gates] == ["A.T.N", "A.U.N", "B.T.N", "B.U.N"]


# ---------------------------------------------------------------------- names


def test_a_netlist_is_a_value() -> None:
    """Whether its names were asked for or not."""
    one, other = (flatten(catalogue.design("serial-adder").circuit) for _ in range(2))
    assert one == other
    packed = pickle.dumps(flatten(catalogue.design("serial-adder").circuit))
    assert pickle.loads(packed) == one  # noqa: S301  just packed here
    assert repr(one) == repr(other)
    assert one != replace(other, names={})
    assert {**one.names} == one.names


def test_names_of_input_ports_come_last() -> None:
    b = Builder("tide gate")
    high, low = b.input("high"), b.input("low")
    b.output("s", b.part("HA", "half-adder", {"a": high, "b": low})["sum"])
    assert list(flatten(b.circuit()).names) == [
        "high",
        "low",
        "HA.sum",
        "HA.carry-out",
        "HA.X1.out",
        "HA.G1.out",
        "s",
        "HA.a",
        "HA.b",
        "HA.X1.in",
        "HA.G1.in",
    ]


# ---------------------------------------------------------------------- what is kept


def test_a_result_is_kept_as_long_as_the_kind() -> None:
    met = []

    @once_a_kind
    def inputs(kind: Kind) -> int:
        met.append(kind.name)
        return len(kind.ins)

    b = Builder("cell")
    b.output("y", b.input("x"))
    cell = as_kind(b.circuit())
    assert [inputs(cell), inputs(cell)] == [1, 1]
    assert met == ["cell"]
    del cell
    gc.collect()
    other = as_kind(b.circuit(), name="other")  # perhaps where the first one stood in memory
    assert inputs(other) == 1
    assert met == ["cell", "other"]


# ---------------------------------------------------------------------- errors inside parts


def refused(circuit: Circuit) -> str:
    with pytest.raises(CircuitError) as wrong:
        flatten(circuit)
    return str(wrong.value)


def test_a_part_that_feeds_itself_straight_through() -> None:
    inner = Builder("straight")
    inner.output("y", inner.input("x"))
    b = Builder("outer", Place("tide.yaml", 1, 1))
    loose = b.net("loose")
    b.part("P", as_kind(inner.circuit()), {"x": loose, "y": loose})
    b.output("z", loose)
    assert refused(b.circuit()) == ("tide.yaml:1:1: nets joined in a ring have no driver: P -> P")


def test_a_ring_inside_a_part_names_the_first_of_them() -> None:
    inner = Builder("ring")
    one, other = inner.net("one"), inner.net("other")
    inner.join(one, other)
    inner.join(other, one)
    inner.output("y", inner.input("x"))
    ring = as_kind(inner.circuit())
    b = Builder("outer")
    x = b.input("x")
    for name in ("P", "Q"):
        b.output(f"y_{name}", b.part(name, ring, {"x": x})["y"])
    assert refused(b.circuit()) == (
        "nets joined in a ring have no driver: P.one -> P.other -> P.one"
    )


def test_a_fault_inside_a_part_is_told_each_time() -> None:
    inner = Builder("loose")
    inner.output("y", inner.net("k"))
    loose = as_kind(inner.circuit())
    b = Builder("outer")
    b.output("z", b.part("P", loose, {})["y"])
    message = "nothing drives net k; let an output port or a join drive it"
    assert [refused(b.circuit()), refused(b.circuit())] == [message, message]


def doubled(levels: int) -> Kind:
    """A circuit of two circuits of two circuits … of two inverters."""
    b = Builder("cell")
    x = b.input("x")
    b.output("y", b.part("N", "not", {"in": x})["out"])
    made = as_kind(b.circuit())
    for level in range(levels):
        b = Builder(f"level {level}")
        fed = b.part("L", made, {"x": b.input("x")})
        b.output("y", b.part("R", made, {"x": fed["y"]})["y"])
        made = as_kind(b.circuit())
    return made


def test_too_many_parts_are_refused_where_they_stand() -> None:
    b = Builder("outer")
    place = Place("tide.yaml", 7, 3)
    b.output("z", b.part("P", doubled(60), {"x": b.input("x")}, place=place)["y"])
    assert refused(b.circuit()) == (
        "tide.yaml:7:3: the whole circuit has more than 100000 parts, those inside parts counted"
    )


def test_too_many_nets_are_refused() -> None:
    inner = Builder("wide")
    x, k = inner.input("x"), inner.net("k", 4000)
    inner.join(k, x * 4000)
    inner.output("y", k[0])
    wide = as_kind(inner.circuit())
    b = Builder("outer")
    x = b.input("x")
    for i in range(500):
        b.part(f"P{i}", wide, {"x": x})
    b.output("z", x)
    assert refused(b.circuit()) == "the whole circuit has more than 2000000 nets"
