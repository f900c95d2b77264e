"""How each package of the 74HC family can be used: its sections, and what they share."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.lab.wiring.chip import Section
from edgewise.lab.wiring.hc74 import GATES, LETTERS, chip


def _each(*names: str) -> dict[str, tuple[str, ...]]:
    """Roles called as their pins are, in small letters."""
    return {name.lower(): (name,) for name in names}


def _gate_sections(name: str) -> Section:
    letters = GATES[name][1]
    made = chip(name)
    number = len(made.outputs)
    sections = tuple(
        {letter.lower(): (f"{i}{letter}",) for letter in (*letters, "Y")}
        for i in range(1, number + 1)
    )
    return Section(name, made, sections)


def _register(name: str, number: int) -> Section:
    sections = tuple({"d": (f"{i}D",), "q": (f"{i}Q",)} for i in range(1, number + 1))
    stores = tuple({"q": f"q{i}"} for i in range(1, number + 1))
    return Section(name, chip(name), sections, _each("CLK", "CLR"), {}, stores)


def _whole(
    name: str, made: str, roles: Mapping[str, tuple[str, ...]], ties: Mapping[str, int]
) -> Section:
    """A use that takes a package to itself."""
    used = chip(made)
    stores = {
        role: truth
        for role, pins in roles.items()
        if isinstance(truth := used.outputs.get(pins[0]), str)
    }
    return Section(name, used, (roles,), {}, ties, (stores,))


def _sections() -> tuple[Section, ...]:
    four = _each("A", "B", "C", "D", "QA", "QB", "QC", "QD", "CLK", "CLR")
    eight = _each(*LETTERS, "QH", "CLK", "CLR", "SHLD", "SER")
    counting = four | _each("ENP", "ENT", "LOAD", "RCO")
    chain = _each("C0", "C4", *(f"{x}{i}" for x in "ABS" for i in range(1, 5)))
    loading = tuple({"d": (x,), "q": (f"Q{x}",)} for x in "ABCD")
    return (
        *map(_gate_sections, GATES),
        Section(
            "74HC74",
            chip("74HC74"),
            tuple(
                {role.lower(): (f"{i}{role}",) for role in ("D", "CLK", "Q", "CLR", "PRE")}
                for i in "12"
            ),
            stores=({"q": "q1"}, {"q": "q2"}),
        ),
        Section(
            "74HC153",
            chip("74HC153"),
            tuple({**{f"c{i}": (f"{h}C{i}",) for i in range(4)}, "y": (f"{h}Y",)} for h in "12"),
            {"s0": ("A",), "s1": ("B",)},
            {"1G": 0, "2G": 0},
        ),
        Section(
            "74HC157",
            chip("74HC157"),
            tuple({x.lower(): (f"{i}{x}",) for x in "ABY"} for i in range(1, 5)),
            {"s": ("S",)},
            {"G": 0},
        ),
        Section(
            "74HC173",
            chip("74HC173"),
            tuple({"d": (f"{i}D",), "q": (f"{i}Q",)} for i in range(1, 5)),
            _each("CLK", "CLR") | {"hold": ("IE1", "IE2")},
            {"OE1": 0, "OE2": 0},
            tuple({"q": f"q{i}"} for i in range(1, 5)),
        ),
        _register("74HC174", 6),
        _register("74HC175", 4),
        _register("74HC273", 8),
        Section(
            "74HC194 loading",
            chip("74HC194"),
            loading,
            _each("CLK", "CLR") | {"take": ("S0", "S1")},
            {"SRSER": 0, "SLSER": 0},
            tuple({"q": f"q{x}"} for x in "ABCD"),
        ),
        _whole(
            "74HC194 shifting",
            "74HC194",
            four | _each("S0", "S1") | {"ser": ("SRSER",)},
            {"SLSER": 0},
        ),
        _whole(
            "74HC164",
            "74HC164",
            {f"q{x.lower()}": (f"Q{x}",) for x in LETTERS}
            | _each("CLK", "CLR")
            | {"ser": ("A", "B")},
            {},
        ),
        _whole("74HC166", "74HC166", eight, {"INH": 0}),
        _whole("74HC195", "74HC195", four | _each("SHLD") | {"ser": ("J", "KN")}, {}),
        _whole("74HC161", "74HC161", counting, {}),
        Section(
            "74HC283 pair",
            chip("74HC283"),
            (
                {"a": ("A1",), "b": ("B1",), "c": ("C0",), "s": ("S1",), "co": ("S2",)},
                {"a": ("A3",), "b": ("B3",), "c": ("A2", "B2"), "s": ("S3",), "co": ("S4",)},
            ),
            {},
            {"A4": 0, "B4": 0},
        ),
        Section(
            "74HC283 single",
            chip("74HC283"),
            ({"a": ("A1",), "b": ("B1",), "c": ("C0",), "s": ("S1",), "co": ("S2",)},),
        ),
        _whole("74HC283 chain", "74HC283", chain, {}),
    )


SECTIONS: Final[Mapping[str, Section]] = {one.name: one for one in _sections()}
"""Every way to use a package, by name.

A 74HC165 loads at once and a 74HC595 shows its bits one edge late, which no part of the notation
does; a 74HC163 is cleared at the edge alone, and so not by the power-up clear. They are not used.
In half a 74HC283, S2 = C1 where A2 = B2, and C2 = A2: two full adders fit into one, unless one
feeds the other, which would lead from S2 back to A2 and B2.
"""
