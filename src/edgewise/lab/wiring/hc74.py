"""The packages of the 74HC family that a lab has: pins and functions.

Pins and functions are recalled from makers' data sheets and held against the open vectors of a
hardware chip tester (`tests/outside/data`, 28 of these packages); the source of each says so. A
74HC273 is in none of those vectors: its pins are from memory. Read your own maker's sheet before
you build.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.circuit.truth import Truth
from edgewise.lab.wiring.chip import Chip, Stored

_TESTED: Final = "makers' data sheets, from memory; agrees with the vectors of a chip tester"
_RECALLED: Final = "makers' data sheets, from memory"


def _no(truth: Truth) -> Truth:
    return ("not", truth)


# ---------------------------------------------------------------------- gates

_TWO: Final = "1A 1B 1Y 2A 2B 2Y GND 3Y 3A 3B 4Y 4A 4B VCC"
_THREE: Final = "1A 1B 2A 2B 2C 2Y GND 3Y 3A 3B 3C 1Y 1C VCC"
_FOUR: Final = "1A 1B NC 1C 1D 1Y GND 2Y 2A 2B NC 2C 2D VCC"
GATES: Final = {
    "74HC00": (_TWO, "AB", ("not", "and")),
    "74HC02": (
        "1Y 1A 1B 2Y 2A 2B GND 3A 3B 3Y 4A 4B 4Y VCC",
        "AB",
        ("not", "or"),
    ),
    "74HC04": ("1A 1Y 2A 2Y 3A 3Y GND 4Y 4A 5Y 5A 6Y 6A VCC", "A", ("not",)),
    "74HC08": (_TWO, "AB", ("and",)),
    "74HC10": (_THREE, "ABC", ("not", "and")),
    "74HC11": (_THREE, "ABC", ("and",)),
    "74HC20": (_FOUR, "ABCD", ("not", "and")),
    "74HC21": (_FOUR, "ABCD", ("and",)),
    "74HC27": (_THREE, "ABC", ("not", "or")),
    "74HC32": (_TWO, "AB", ("or",)),
    "74HC86": (_TWO, "AB", ("xor",)),
}


def _gates(name: str) -> Chip:
    pins, letters, operations = GATES[name]
    named = tuple(pins.split())
    outputs: dict[str, Truth] = {}
    for number in range(1, sum(pin.endswith("Y") for pin in named) + 1):
        ins = tuple(f"{number}{letter}" for letter in letters)
        truth: Truth = ins[0]
        for operation in reversed(operations):
            truth = (operation, truth) if operation == "not" else (operation, *ins)
        outputs[f"{number}Y"] = truth
    return Chip(name, named, outputs, source=_TESTED)


# ---------------------------------------------------------------------- selectors and the adder


def _mux_157() -> Chip:
    pins = "S 1A 1B 1Y 2A 2B 2Y GND 3Y 3B 3A 4Y 4B 4A G VCC"
    outputs = {f"{i}Y": ("and", ("choose", "S", f"{i}A", f"{i}B"), _no("G")) for i in range(1, 5)}
    low = frozenset({"G"})
    return Chip("74HC157", tuple(pins.split()), outputs, low, source=_TESTED)


def _mux_153() -> Chip:
    pins = "1G B 1C3 1C2 1C1 1C0 1Y GND 2Y 2C0 2C1 2C2 2C3 A 2G VCC"
    outputs: dict[str, Truth] = {}
    for half in "12":
        low, high = (("choose", "A", f"{half}C{i}", f"{half}C{i + 1}") for i in (0, 2))
        outputs[f"{half}Y"] = ("and", ("choose", "B", low, high), _no(f"{half}G"))
    return Chip(
        "74HC153",
        tuple(pins.split()),
        outputs,
        frozenset({"1G", "2G"}),
        source=_TESTED,
    )


def _adder_283() -> Chip:
    pins = "S2 B2 A2 S1 A1 B1 C0 GND C4 S4 B4 A4 S3 A3 B3 VCC"
    outputs: dict[str, Truth] = {}
    carry: Truth = "C0"
    for i in range(1, 5):
        a, b = f"A{i}", f"B{i}"
        outputs[f"S{i}"] = ("xor", a, b, carry)
        carry = ("or", ("and", a, b), ("and", carry, ("xor", a, b)))
    outputs["C4"] = carry
    return Chip("74HC283", tuple(pins.split()), outputs, source=_TESTED)


# ---------------------------------------------------------------------- flip-flops and registers

_CLEARED: Final[tuple[tuple[Truth, Truth], ...]] = ((_no("CLR"), 0),)


def _flip_flops_74() -> Chip:
    pins = "1CLR 1D 1CLK 1PRE 1Q 1QN GND 2QN 2Q 2PRE 2CLK 2D 2CLR VCC"
    stored, outputs = [], dict[str, Truth]()
    for i in "12":
        clear, preset = _no(f"{i}CLR"), _no(f"{i}PRE")
        stored.append(Stored(f"q{i}", f"{i}CLK", f"{i}D", ((preset, 1), (clear, 0))))
        outputs[f"{i}Q"], outputs[f"{i}QN"] = f"q{i}", ("or", _no(f"q{i}"), clear)
    low = frozenset({"1CLR", "2CLR", "1PRE", "2PRE", "1QN", "2QN"})
    return Chip("74HC74", tuple(pins.split()), outputs, low, tuple(stored), {}, _TESTED)


def _flip_flops(
    name: str,
    pins: str,
    number: int,
    source: str = _TESTED,
    *,
    complements: bool = False,
) -> Chip:
    """Flip-flops with one clock and one clear, which is active low."""
    bits = range(1, number + 1)
    stored = tuple(Stored(f"q{i}", "CLK", f"{i}D", _CLEARED) for i in bits)
    outputs: dict[str, Truth] = {f"{i}Q": f"q{i}" for i in bits}
    if complements:
        outputs |= {f"{i}QN": _no(f"q{i}") for i in bits}
    low = frozenset({"CLR", *(pin for pin in outputs if pin.endswith("N"))})
    return Chip(name, tuple(pins.split()), outputs, low, stored, {}, source)


def _register_173() -> Chip:
    pins = "OE1 OE2 1Q 2Q 3Q 4Q CLK GND IE1 IE2 4D 3D 2D 1D CLR VCC"
    load = ("and", _no("IE1"), _no("IE2"))
    bits = range(1, 5)
    stored = tuple(
        Stored(f"q{i}", "CLK", ("choose", load, f"q{i}", f"{i}D"), (("CLR", 0),)) for i in bits
    )
    drives: Truth = ("and", _no("OE1"), _no("OE2"))
    return Chip(
        "74HC173",
        tuple(pins.split()),
        {f"{i}Q": f"q{i}" for i in bits},
        frozenset({"OE1", "OE2", "IE1", "IE2"}),
        stored,
        {f"{i}Q": drives for i in bits},
        _TESTED,
    )


# ---------------------------------------------------------------------- shift registers

LETTERS: Final = "ABCDEFGH"


def _shift_164() -> Chip:
    pins = "A B QA QB QC QD GND CLK CLR QE QF QG QH VCC"
    before: list[Truth] = [("and", "A", "B"), *(f"q{letter}" for letter in LETTERS)]
    stored = tuple(
        Stored(f"q{letter}", "CLK", truth, _CLEARED)
        for letter, truth in zip(LETTERS, before, strict=False)
    )
    return Chip(
        "74HC164",
        tuple(pins.split()),
        {f"Q{letter}": f"q{letter}" for letter in LETTERS},
        frozenset({"CLR"}),
        stored,
        {},
        _TESTED,
    )


def _shift_165() -> Chip:
    pins = "SHLD CLK E F G H QHN GND QH SER A B C D INH VCC"
    before = ["SER", *(f"q{letter}" for letter in LETTERS)]
    stored = []
    for letter, shifted in zip(LETTERS, before, strict=False):
        load = _no("SHLD")
        both = (("and", load, letter), 1), (("and", load, _no(letter)), 0)
        stored.append(Stored(f"q{letter}", "CLK", ("choose", "INH", shifted, f"q{letter}"), both))
    return Chip(
        "74HC165",
        tuple(pins.split()),
        {"QH": "qH", "QHN": _no("qH")},
        frozenset({"SHLD", "QHN"}),
        tuple(stored),
        {},
        f"{_RECALLED}; of a chip tester's vectors two are one clock late and left out",
    )


def _shift_166() -> Chip:
    pins = "SER A B C D INH CLK GND CLR E F G QH H SHLD VCC"
    before = ["SER", *(f"q{letter}" for letter in LETTERS)]
    stored = tuple(
        Stored(
            f"q{letter}",
            "CLK",
            ("choose", "INH", ("choose", "SHLD", letter, shifted), f"q{letter}"),
            _CLEARED,
        )
        for letter, shifted in zip(LETTERS, before, strict=False)
    )
    low = frozenset({"SHLD", "CLR"})
    return Chip("74HC166", tuple(pins.split()), {"QH": "qH"}, low, stored, {}, _TESTED)


def _shift_194() -> Chip:
    pins = "CLR SRSER A B C D SLSER GND S0 S1 CLK QD QC QB QA VCC"
    row: list[Truth] = ["SRSER", "qA", "qB", "qC", "qD", "SLSER"]
    stored = tuple(
        Stored(
            f"q{letter}",
            "CLK",
            (
                "choose",
                "S1",
                ("choose", "S0", f"q{letter}", row[i]),
                ("choose", "S0", row[i + 2], letter),
            ),
            _CLEARED,
        )
        for i, letter in enumerate("ABCD")
    )
    return Chip(
        "74HC194",
        tuple(pins.split()),
        {f"Q{letter}": f"q{letter}" for letter in "ABCD"},
        frozenset({"CLR"}),
        stored,
        {},
        _TESTED,
    )


def _shift_195() -> Chip:
    pins = "CLR J KN A B C D GND SHLD CLK QDN QD QC QB QA VCC"
    first: Truth = ("choose", "qA", "J", "KN")
    before: list[Truth] = [first, "qA", "qB", "qC"]
    stored = tuple(
        Stored(f"q{letter}", "CLK", ("choose", "SHLD", letter, shifted), _CLEARED)
        for letter, shifted in zip("ABCD", before, strict=True)
    )
    outputs: dict[str, Truth] = {f"Q{letter}": f"q{letter}" for letter in "ABCD"}
    return Chip(
        "74HC195",
        tuple(pins.split()),
        {**outputs, "QDN": _no("qD")},
        frozenset({"CLR", "SHLD", "KN", "QDN"}),
        stored,
        {},
        _TESTED,
    )


def _shift_595() -> Chip:
    pins = "QB QC QD QE QF QG QH GND QHS SRCLR SRCLK RCLK OE SER QA VCC"
    before = ["SER", *(f"s{letter}" for letter in LETTERS)]
    shifting = tuple(
        Stored(f"s{letter}", "SRCLK", shifted, ((_no("SRCLR"), 0),))
        for letter, shifted in zip(LETTERS, before, strict=False)
    )
    held = tuple(Stored(f"r{letter}", "RCLK", f"s{letter}") for letter in LETTERS)
    outputs: dict[str, Truth] = {f"Q{letter}": f"r{letter}" for letter in LETTERS}
    return Chip(
        "74HC595",
        tuple(pins.split()),
        {**outputs, "QHS": "sH"},
        frozenset({"SRCLR", "OE"}),
        (*shifting, *held),
        {pin: _no("OE") for pin in outputs},
        _TESTED,
    )


# ---------------------------------------------------------------------- counters


def _counter(name: str, *, at_once: bool) -> Chip:
    pins = "CLR CLK A B C D ENP GND LOAD ENT QD QC QB QA RCO VCC"
    counts: Truth = ("and", "ENP", "ENT")
    stored = []
    for i, letter in enumerate("ABCD"):
        below = tuple(f"q{other}" for other in "ABCD"[:i])
        step: Truth = ("xor", f"q{letter}", ("and", counts, *below))
        taken: Truth = ("choose", "LOAD", letter, step)
        if not at_once:
            taken = ("and", "CLR", taken)
        stored.append(Stored(f"q{letter}", "CLK", taken, _CLEARED if at_once else ()))
    outputs: dict[str, Truth] = {f"Q{letter}": f"q{letter}" for letter in "ABCD"}
    outputs["RCO"] = ("and", "ENT", *(f"q{letter}" for letter in "ABCD"))
    low = frozenset({"CLR", "LOAD"})
    return Chip(name, tuple(pins.split()), outputs, low, tuple(stored), {}, _TESTED)


_MADE: Final = (
    *map(_gates, GATES),
    _flip_flops_74(),
    _mux_153(),
    _mux_157(),
    _counter("74HC161", at_once=True),
    _counter("74HC163", at_once=False),
    _shift_164(),
    _shift_165(),
    _shift_166(),
    _register_173(),
    _flip_flops(
        "74HC174",
        "CLR 1Q 1D 2D 2Q 3D 3Q GND CLK 4Q 4D 5Q 5D 6D 6Q VCC",
        6,
    ),
    _flip_flops(
        "74HC175",
        "CLR 1Q 1QN 1D 2D 2QN 2Q GND CLK 3Q 3QN 3D 4D 4QN 4Q VCC",
        4,
        complements=True,
    ),
    _shift_194(),
    _shift_195(),
    _flip_flops(
        "74HC273",
        "CLR 1Q 1D 2D 2Q 3Q 3D 4D 4Q GND CLK 5Q 5D 6D 6Q 7Q 7D 8D 8Q VCC",
        8,
        _RECALLED,
    ),
    _adder_283(),
    _shift_595(),
)
CHIPS: Final[Mapping[str, Chip]] = {chip.name: chip for chip in _MADE}
"""Every package of the family that is known here, by name."""


def chip(name: str) -> Chip:
    """A package.

    Examples
    --------
    >>> chip("74HC194").number("QA")
    15
    """
    return CHIPS[name]
