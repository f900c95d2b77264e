"""Lab parts: how many packages of the 74HC family a netlist takes, and how long they take.

There are two columns that are never mixed, each a technology of its own: *typical* times at 25 C,
5 V and 15 pF, as data sheets print them on their first page, and *worst* ones, the limits at 25 C,
4.5 V and 50 pF. Set-up times belong to the columns as delays do. What is marked SEEN was read in a
maker's sheet, what is marked MEMORY is recalled: check your own sheet before you build.

This file is the one source of these numbers; `docs/costs.md` is held to it by a test.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache, partial
from math import ceil
from typing import Final, Literal

from edgewise.circuit.netlist import FlipFlop, Gate, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import made_of
from edgewise.study.cost.technology import Technology, Timing, slowest

Mark = Literal["SEEN", "MEMORY"]


Column = Literal["typical", "worst"]


@dataclass(frozen=True, slots=True)
class LabPart:
    """A part of the family.

    Parameters
    ----------
    name : str
    what : str
        ``2-input NAND``.
    holds : int
        Gates, flip-flops or multiplexers in a package.
    typical, worst : int
        Delay, ns; of a flip-flop clock-to-Q.
    mark : str
        Whether the typical delay was read in a sheet or is recalled; all worst ones are recalled.
    source : str
        The sheet.
    """

    name: str
    what: str
    holds: int
    typical: int
    worst: int
    mark: Mark
    source: str = ""

    def delay(self, column: Column) -> int:
        """The delay in a column.

        Examples
        --------
        >>> FLIP_FLOP.delay("typical"), FLIP_FLOP.delay("worst")
        (14, 35)
        """
        return self.typical if column == "typical" else self.worst


PARTS: Final[Mapping[tuple[str, int], LabPart]] = {
    ("nand", 2): LabPart(
        "74HC00", "2-input NAND", 4, 7, 18, "SEEN", "Philips 74HC/HCT00, Dec 1990"
    ),
    ("nor", 2): LabPart("74HC02", "2-input NOR", 4, 7, 18, "MEMORY"),
    ("not", 1): LabPart("74HC04", "inverter", 6, 7, 17, "MEMORY"),
    ("and", 2): LabPart("74HC08", "2-input AND", 4, 7, 18, "MEMORY"),
    ("nand", 3): LabPart("74HC10", "3-input NAND", 3, 9, 19, "MEMORY"),
    ("and", 3): LabPart("74HC11", "3-input AND", 3, 10, 20, "MEMORY"),
    ("nand", 4): LabPart("74HC20", "4-input NAND", 2, 8, 18, "MEMORY"),
    ("and", 4): LabPart("74HC21", "4-input AND", 2, 10, 22, "MEMORY"),
    ("nor", 3): LabPart("74HC27", "3-input NOR", 3, 8, 18, "MEMORY"),
    ("or", 2): LabPart("74HC32", "2-input OR", 4, 6, 18, "MEMORY"),
    ("xor", 2): LabPart("74HC86", "2-input XOR", 4, 11, 24, "MEMORY"),
}
"""By gate and number of inputs."""

FLIP_FLOP: Final = LabPart(
    "74HC74", "D flip-flop", 2, 14, 35, "SEEN", "Philips 74HC/HCT74, 23 Feb 1998"
)
SETUPS: Final[Mapping[Column, int]] = {"typical": 2, "worst": 12}
"""Set-up times, ns; both at 4.5 V, both MEMORY."""
HOLD: Final = 3
"""Hold time, ns, in both columns; MEMORY."""
MULTIPLEXER: Final = LabPart("74HC157", "2:1 multiplexer, one select for all", 4, 11, 25, "MEMORY")
"""Four multiplexers with one select input for all."""
ALL: Final = (*PARTS.values(), MULTIPLEXER, FLIP_FLOP)
"""Every part that a netlist may take."""

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
    """The gates of the family that make up an elementary gate, level by level.

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
        for operator, inputs in made_of(function(gate.operator), len(gate.inputs)):
            if operator == "multiplexer":
                yield f"select {gate.inputs[0]}", MULTIPLEXER
                continue
            for level in gates_for(operator, inputs):
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


@lru_cache(maxsize=1024)
def _delay(column: Column, operator: str, inputs: int) -> int:
    if operator == "multiplexer":
        return MULTIPLEXER.delay(column)
    levels = gates_for(operator, inputs)
    return sum(max(PARTS[key].delay(column) for key in level) for level in levels)


def _setup(flip_flop: FlipFlop, column: Column) -> tuple[int, int, int]:
    d = clear = SETUPS[column]
    if flip_flop.clear is not None:
        d += PARTS["and", 2].delay(column)
        clear = d + PARTS["not", 1].delay(column)
    if flip_flop.enable is not None:
        d += MULTIPLEXER.delay(column)
    return d, d, clear


def _timing(column: Column, netlist: Netlist) -> Timing:
    def delay(gate: Gate) -> int:
        return slowest(partial(_delay, column), gate.operator, len(gate.inputs))

    flip_flops, clock_to_q = netlist.flip_flops, FLIP_FLOP.delay(column)
    return Timing(
        tuple(map(delay, netlist.gates)),
        (clock_to_q,) * len(flip_flops),
        tuple(_setup(flip_flop, column) for flip_flop in flip_flops),
        (clock_to_q, SETUPS[column]),
        HOLD,
    )


CONDITIONS: Final[Mapping[Column, str]] = {
    "typical": "25 °C, 5 V, 15 pF",
    "worst": "25 °C, 4.5 V, 50 pF",
}
_READ: Final = " and ".join(part.name for part in ALL if part.mark == "SEEN")
_PACKAGED: Final = (
    "registers and adders in one package (74HC164, 74HC283) would take fewer packages"
)


def _technology(name: str, column: Column, source: str, limits: str) -> Technology:
    return Technology(
        name,
        f"74HC lab parts, {column} times",
        "packages",
        "ns",
        _area,
        partial(_timing, column),
        source,
        f"{limits}; {_PACKAGED}",
    )


TYPICAL: Final = _technology(
    "74hc",
    "typical",
    f"makers' data sheets: the delays of {_READ} were read, all other times are from memory (the"
    " set-up time is one at 4.5 V): check your own sheet",
    "typical is not worst: by the model 74hc-worst a part takes two to three times as long",
)
WORST: Final = _technology(
    "74hc-worst",
    "worst",
    "limits of makers' data sheets, all from memory: check your own sheet",
    "parts of another maker, warm or cold ones, and more load have limits of their own",
)

TECHNOLOGIES: Final = (TYPICAL, WORST)
