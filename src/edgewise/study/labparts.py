"""Lab parts: how many packages of the 74HC family a netlist takes, and typical delays.

Delays are typical ones at 25 C, 5 V and 15 pF, as data sheets print them on their first page.
Those marked SEEN were read in a maker's sheet, those marked MEMORY are recalled: check your own
sheet before you build.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import Final, Literal

from edgewise.circuit.netlist import FlipFlop, Gate, Netlist
from edgewise.study.technology import Technology, Timing

Mark = Literal["SEEN", "MEMORY"]


@dataclass(frozen=True, slots=True)
class LabPart:
    """A part of the family.

    Parameters
    ----------
    name : str
    holds : int
        Gates, flip-flops or multiplexers in a package.
    delay : int
        Typical, ns.
    mark : str
        Whether the delay was read in a sheet or is recalled.
    source : str
        The sheet.
    """

    name: str
    holds: int
    delay: int
    mark: Mark
    source: str = ""


PARTS: Final[Mapping[tuple[str, int], LabPart]] = {
    ("nand", 2): LabPart("74HC00", 4, 7, "SEEN", "Philips 74HC/HCT00, Dec 1990"),
    ("nor", 2): LabPart("74HC02", 4, 7, "MEMORY"),
    ("not", 1): LabPart("74HC04", 6, 7, "MEMORY"),
    ("and", 2): LabPart("74HC08", 4, 7, "MEMORY"),
    ("nand", 3): LabPart("74HC10", 3, 9, "MEMORY"),
    ("and", 3): LabPart("74HC11", 3, 10, "MEMORY"),
    ("nand", 4): LabPart("74HC20", 2, 8, "MEMORY"),
    ("and", 4): LabPart("74HC21", 2, 10, "MEMORY"),
    ("nor", 3): LabPart("74HC27", 3, 8, "MEMORY"),
    ("or", 2): LabPart("74HC32", 4, 6, "MEMORY"),
    ("xor", 2): LabPart("74HC86", 4, 11, "MEMORY"),
}
"""By gate and number of inputs."""

FLIP_FLOP: Final = LabPart("74HC74", 2, 14, "SEEN", "Philips 74HC/HCT74, 23 Feb 1998")
SETUP: Final = 12
"""Ns before the edge, at least, at 4.5 V (MEMORY)."""
MULTIPLEXER: Final = LabPart("74HC157", 4, 11, "MEMORY")
"""Four multiplexers with one select input for all."""

ADDER: Final = "74HC283"
ADDER_DELAYS: Final[Mapping[tuple[str, str], int]] = {
    ("carry-in", "sum(0)"): 16,
    ("carry-in", "sum(1)"): 18,
    ("carry-in", "sum(2)"): 20,
    ("carry-in", "sum(3)"): 23,
    ("carry-in", "carry-out"): 20,
    ("a", "sum"): 21,
    ("a", "carry-out"): 20,
}
"""The 4-bit adder, typical ns; SEEN: Philips, Dec 1990, and Rev. 03, 11 Nov 2004."""

_STRAIGHT: Final = {"nand": "and", "nor": "or", "xnor": "xor"}


def adder_chain(packages: int) -> int:
    """Typical ns from a and b to the last sum bit of a chain of 4-bit adders.

    Examples
    --------
    >>> [adder_chain(k) for k in (1, 2, 4)]
    [21, 43, 83]
    """
    if packages == 1:
        return ADDER_DELAYS["a", "sum"]
    last = max(delay for (start, _), delay in ADDER_DELAYS.items() if start == "carry-in")
    through = ADDER_DELAYS["carry-in", "carry-out"]
    return ADDER_DELAYS["a", "carry-out"] + (packages - 2) * through + last


@lru_cache(maxsize=512)
def gates_for(operator: str, inputs: int) -> tuple[tuple[tuple[str, int], ...], ...]:
    """The gates of the family that make up a gate, level by level.

    Examples
    --------
    >>> gates_for("and", 5)
    ((('and', 4),), (('and', 2),))
    >>> gates_for("xnor", 2)
    ((('xor', 2),), (('not', 1),))
    """
    if operator == "buffer":
        return ((("not", 1),), (("not", 1),))
    if (operator, inputs) in PARTS:
        return (((operator, inputs),),)
    straight = _STRAIGHT.get(operator, operator)
    widest = max(width for kind, width in PARTS if kind == straight)
    if inputs > widest:
        groups = [min(widest, inputs - i) for i in range(0, inputs, widest)]
        first = tuple((straight, width) for width in groups if width > 1)
        return (_padded(first), *gates_for(operator, len(groups)))
    if operator in ("or", "xor"):  # two inputs only, and not above
        raise AssertionError(operator)
    return ((*_padded(((straight, inputs),)),), (("not", 1),))


def _padded(gates: tuple[tuple[str, int], ...]) -> tuple[tuple[str, int], ...]:
    """Each gate in the narrowest part that has its inputs."""
    return tuple(
        (kind, min(w for k, w in PARTS if k == kind and w >= width)) for kind, width in gates
    )


def _needs(netlist: Netlist) -> Iterator[tuple[str, LabPart]]:
    """Each gate, flip-flop or multiplexer; what can't share a package is told apart."""
    for gate in netlist.gates:
        if gate.operator == "multiplexer":
            yield f"select {gate.inputs[0]}", MULTIPLEXER
            continue
        for level in gates_for(gate.operator, len(gate.inputs)):
            for key in level:
                yield "", PARTS[key]
    cleared: set[int] = set()
    for flip_flop in netlist.flip_flops:
        yield "", FLIP_FLOP
        if flip_flop.enable is not None:
            yield f"select {flip_flop.enable}", MULTIPLEXER
        if flip_flop.clear is not None:
            yield "", PARTS["and", 2]
            if flip_flop.clear not in cleared:
                yield "", PARTS["not", 1]
                cleared.add(flip_flop.clear)


def _packed(needs: Mapping[tuple[str, LabPart], int]) -> dict[str, int]:
    found: Counter[str] = Counter()
    for (_, part), number in needs.items():
        found[part.name] += ceil(number / part.holds)
    return dict(sorted(found.items()))


def packages(netlist: Netlist) -> dict[str, int]:
    """Packages of each part, by name.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> packages(catalogue.design("serial-adder", n=4).netlist)
    {'74HC08': 1, '74HC157': 4, '74HC32': 1, '74HC74': 7, '74HC86': 1}
    """
    return _packed(Counter(_needs(netlist)))


def _area(netlist: Netlist) -> tuple[int, int]:
    """All packages, and those of flip-flops with the multiplexers that hold their bits."""
    needs = Counter(_needs(netlist))
    holding = {f"select {f.enable}" for f in netlist.flip_flops}
    stored = {
        (select, part): number
        for (select, part), number in needs.items()
        if part is FLIP_FLOP or select in holding
    }
    return sum(_packed(needs).values()), sum(_packed(stored).values())


@lru_cache(maxsize=512)
def _delay(operator: str, inputs: int) -> int:
    if operator == "multiplexer":
        return MULTIPLEXER.delay
    levels = gates_for(operator, inputs)
    return sum(max(PARTS[key].delay for key in level) for level in levels)


def _setup(flip_flop: FlipFlop) -> tuple[int, int, int]:
    d = clear = SETUP
    if flip_flop.clear is not None:
        d += PARTS["and", 2].delay
        clear = d + PARTS["not", 1].delay
    if flip_flop.enable is not None:
        d += MULTIPLEXER.delay
    return d, d, clear


def _timing(netlist: Netlist) -> Timing:
    def delay(gate: Gate) -> int:
        return _delay(gate.operator, len(gate.inputs))

    flip_flops = netlist.flip_flops
    return Timing(
        tuple(map(delay, netlist.gates)),
        (FLIP_FLOP.delay,) * len(flip_flops),
        tuple(map(_setup, flip_flops)),
        (FLIP_FLOP.delay, SETUP),
    )


LAB_PARTS: Final = Technology(
    "74hc",
    "74HC lab parts",
    "packages",
    "ns",
    _area,
    _timing,
    "gates of 2 to 4 inputs, 74HC157 multiplexers (four share a select) and 74HC74 flip-flops;"
    " whole packages; typical delays at 25 C, 5 V, 15 pF",
    "makers' data sheets: 74HC00 and 74HC74 were read, the other delays are from memory: check"
    " your own sheet",
    "typical is not worst: at 4.5 V and 50 pF a part may take two to three times as long; registers"
    " and adders in one package (74HC164, 74HC283) would take fewer packages",
)
