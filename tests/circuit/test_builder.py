"""Building circuits in Python."""

from __future__ import annotations

import pytest

from edgewise.bits import X
from edgewise.circuit.builder import Builder, as_kind, show, signal_of, wires
from edgewise.circuit.model import Tie, Wire
from edgewise.errors import CircuitError, Place


def test_signals() -> None:
    assert signal_of(1) == (Tie(1),)
    assert signal_of(X) == (Tie(X),)
    assert signal_of(Wire("a", 2)) == (Wire("a", 2),)
    assert signal_of(wires("a", 2)) == (Wire("a", 0), Wire("a", 1))


@pytest.mark.parametrize(
    ("signal", "text"),
    [
        (wires("a", 1), "a(0)"),
        (wires("a", 4)[1:3], "a(2..1)"),
        ((Tie(X), Wire("b", 3), Tie(0)), "[0, b(3), X]"),
        ((Wire("a", 1), Wire("a", 0)), "[a(0), a(1)]"),
        ((), "[]"),
    ],
)
def test_show(signal: tuple[Wire | Tie, ...], text: str) -> None:
    assert show(signal) == text


def test_a_placed_part_gives_its_ports_and_its_word() -> None:
    b = Builder("one")
    register = b.part("R", "register", {"d": b.input("d", 3)}, {"width": 3})
    assert register.word == register["q"] == wires("R.q", 3)
    adder = b.part("H", "half-adder", {"a": 0, "b": 1}, place=Place("f", 2, 1))
    with pytest.raises(CircuitError) as wrong:
        register["out"]
    assert str(wrong.value) == "part R has no port out"
    with pytest.raises(CircuitError) as wrong:
        _ = adder.word
    assert str(wrong.value) == "f:2:1: name a port of H"


def test_joins_need_equal_widths() -> None:
    b = Builder("one")
    x = b.input("x", 3)
    with pytest.raises(CircuitError) as wrong:
        b.join(b.net("k"), x)
    assert str(wrong.value) == "a join needs equal widths: k has 1 bit, x(2..0) has 3"


def test_a_circuit_as_a_kind() -> None:
    b = Builder("cell")
    x = b.input("x", 2)
    b.output("y", x)
    b.output("z", x[0])
    kind = as_kind(b.circuit(), {"k": 1}, name="cell.yaml", clocked=True)
    assert [(p.name, p.width, p.direction) for p in kind.ports] == [
        ("x", 2, "in"),
        ("clock", 1, "in"),
        ("y", 2, "out"),
        ("z", 1, "out"),
    ]
    assert (kind.name, kind.word, kind.setting("k")) == ("cell.yaml", None, 1)


def test_errors_name_the_part_and_its_place() -> None:
    b = Builder("one")
    d = b.input("d", 3)
    with pytest.raises(CircuitError) as wrong:
        b.part("R", "register", {"d": d}, {"width": 4}, Place("f", 2, 1), {"d": Place("f", 2, 9)})
    assert str(wrong.value) == (
        "f:2:9: part R: port d of register is 4 bits wide, but d(2..0) has 3 bits"
    )
    with pytest.raises(CircuitError) as wrong:
        b.part("R", "registr", {"d": d}, {"width": 4}, Place("f", 2, 1))
    assert str(wrong.value) == "f:2:1: part R: there is no part registr; did you mean register?"
