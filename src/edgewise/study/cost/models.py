"""Technologies: what gates and flip-flops cost, and how long they take.

A technology gives the area of a netlist and the delay of each of its gates, in units of its own;
flip-flops are counted in every one. `docs/costs.md` tells their definitions, sources and limits.

All numbers inside are whole ticks; `ticks` of them make one unit of time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import starmap
from typing import Final

from edgewise.circuit.netlist import FlipFlop, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import made_of, ways
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Timing:
    """How long everything in one netlist takes, in ticks.

    Parameters
    ----------
    gates : tuple of int
        From any input to the output, for each gate in the netlist's order.
    clock_to_q : tuple of int
        Clock-to-Q delay of each flip-flop.
    setup : tuple of (int, int, int)
        Set-up times of d, enable and clear of each flip-flop.
    outside : (int, int)
        Clock-to-Q and set-up time of a plain flip-flop outside, before an input or behind an
        output.
    """

    gates: tuple[int, ...]
    clock_to_q: tuple[int, ...]
    setup: tuple[tuple[int, int, int], ...]
    outside: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Technology:
    """One way to count.

    Parameters
    ----------
    name, title : str
    area_unit, time_unit : str
        In the plural: ``gates``, ``gate delays``.
    area : function
        Area of a netlist, and how much of it stores bits.
    timing : function
    source, limits : str
        Where it comes from; what it leaves out.
    ticks : int
        Ticks in one unit of time.
    about : str
        The definition in a sentence, where there is no message ``compare-model-NAME``.
    """

    name: str
    title: str
    area_unit: str
    time_unit: str
    area: Callable[[Netlist], tuple[int, int]]
    timing: Callable[[Netlist], Timing]
    source: str
    limits: str
    ticks: int = 1
    about: str = ""

    def units(self, ticks: int) -> Fraction:
        """Ticks as units of time."""
        return Fraction(ticks, self.ticks)


_UNIT_MESSAGES: Final = {
    "gates": "compare-unit-gates",
    "gate levels": "compare-unit-levels",
    "gate units": "compare-unit-units",
    "gate delays": "compare-unit-delays",
    "transistors": "compare-unit-transistors",
    "packages": "compare-unit-packages",
}
"""The units of our own models as messages; others (ns, tau, those of guests) stay as they are."""


def unit(name: str, words: Words = ENGLISH) -> str:
    """A unit of area or time in a language.

    Examples
    --------
    >>> from edgewise.words import messages
    >>> unit("gate delays", messages.of("de")), unit("ns")
    ('Gatterlaufzeiten', 'ns')
    """
    return words(_UNIT_MESSAGES[name]) if name in _UNIT_MESSAGES else name


# ---------------------------------------------------------------------- gates of gates

Of = Callable[[str, int], int]
"""A figure of an elementary gate with so many inputs (`edgewise.circuit.truth.made_of`)."""


def summed(of: Of, operator: str, inputs: int) -> int:
    """The figures of all elementary gates that make up a gate."""
    return sum(starmap(of, made_of(function(operator), inputs)))


def slowest(of: Of, operator: str, inputs: int) -> int:
    """The figures along the slowest way through a gate."""
    return max(sum(starmap(of, way)) for way in ways(function(operator), inputs))


# ---------------------------------------------------------------------- gates alone

CLOCK_TO_Q_GATES: Final = 3
"""Clock-to-Q of the flip-flop of six NAND gates."""
SETUP_GATES: Final = 2
"""Its set-up time: gates that d must pass in it before the edge."""
FLIP_FLOP_GATES: Final = 6
FLIP_FLOP_UNITS: Final = 7
"""One of its six NAND gates has three inputs, so it weighs two."""
CLOCK_TO_Q_UNITS: Final = 4
"""The slowest way from the edge leads through that gate."""


@dataclass(frozen=True, slots=True)
class _Plain:
    """Gates that cost and take the same wherever they stand."""

    area_of: Callable[[str, int], int]
    delay_of: Callable[[str, int], int]
    flip_flop: int
    clock_to_q: int
    setup: int

    def area(self, netlist: Netlist) -> tuple[int, int]:
        logic = sum(self.area_of(gate.operator, len(gate.inputs)) for gate in netlist.gates)
        storage = sum(map(self._storage, netlist.flip_flops))
        return logic + storage, storage

    def _storage(self, flip_flop: FlipFlop) -> int:
        """The flip-flop, a multiplexer that holds its bit, and an AND gate that clears it."""
        held = self.area_of("multiplexer", 3) if flip_flop.enable is not None else 0
        cleared = self.area_of("and", 2) if flip_flop.clear is not None else 0
        return self.flip_flop + held + cleared

    def timing(self, netlist: Netlist) -> Timing:
        return Timing(
            tuple(self.delay_of(gate.operator, len(gate.inputs)) for gate in netlist.gates),
            (self.clock_to_q,) * len(netlist.flip_flops),
            tuple(map(self._setup, netlist.flip_flops)),
            (self.clock_to_q, self.setup),
        )

    def _setup(self, flip_flop: FlipFlop) -> tuple[int, int, int]:
        clear = self.setup + (self.delay_of("and", 2) if flip_flop.clear is not None else 0)
        d = clear + (self.delay_of("multiplexer", 3) if flip_flop.enable is not None else 0)
        return d, d, clear


def _count(operator: str, _inputs: int) -> int:
    return int(bool(function(operator).operation))


def two_input_gates(operator: str, inputs: int) -> int:
    """How many gates of two inputs an elementary gate stands for; inverters are free."""
    return {"not": 0, "buffer": 0, "multiplexer": 3}.get(operator, inputs - 1)


def two_input_levels(operator: str, inputs: int) -> int:
    """Their levels: those of a balanced tree."""
    return {"not": 0, "buffer": 0, "multiplexer": 2}.get(operator, (inputs - 1).bit_length())


def _weight(operator: str) -> int:
    return 2 if operator in ("xor", "xnor") else 1


def unit_area(operator: str, inputs: int) -> int:
    """Area of an elementary gate in the unit-gate model."""
    return two_input_gates(operator, inputs) * _weight(operator)


def unit_delay(operator: str, inputs: int) -> int:
    """Its delay."""
    return two_input_levels(operator, inputs) * _weight(operator)


_COUNTED: Final = _Plain(_count, _count, FLIP_FLOP_GATES, CLOCK_TO_Q_GATES, SETUP_GATES)
_UNITS: Final = _Plain(
    partial(summed, unit_area),
    partial(slowest, unit_delay),
    FLIP_FLOP_UNITS,
    CLOCK_TO_Q_UNITS,
    SETUP_GATES,
)

_SIX_NAND: Final = (
    "the edge-triggered flip-flop of six NAND gates: Mano and Ciletti, Digital Design, sec. 5.4"
    " (from memory)"
)

GATE_COUNT: Final = Technology(
    "gate-count",
    "gate count",
    "gates",
    "gate levels",
    _COUNTED.area,
    _COUNTED.timing,
    f"the textbooks' count of gates (common practice, no source); {_SIX_NAND}",
    "wide gates and XOR gates look as cheap and fast as a NAND gate of two inputs",
)

UNIT_GATE: Final = Technology(
    "unit-gate",
    "unit-gate model",
    "gate units",
    "gate delays",
    _UNITS.area,
    _UNITS.timing,
    "A. Tyagi, IEEE Trans. Computers 42(10), 1993 (from memory); flip-flops, which the model leaves"
    f" out, after {_SIX_NAND}",
    "fan-out and the length of wires do not count",
)
