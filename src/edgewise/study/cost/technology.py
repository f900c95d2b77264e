"""Technologies: what gates and flip-flops cost, and how long they take.

A technology gives the area of a netlist and the delay of each of its gates, in units of its own;
flip-flops are counted in every one. `docs/costs.md` tells their definitions, sources and limits.

All numbers inside are whole ticks; `ticks` of them make one unit of time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import starmap
from typing import TypeAlias

from edgewise.circuit.netlist import FlipFlop, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import made_of, ways


def number(value: Fraction | int) -> str:
    """A figure for people: whole, or with one decimal.

    Examples
    --------
    >>> number(Fraction(1234)), number(Fraction(10, 3))
    ('1234', '3.3')
    """
    value = Fraction(value)
    return str(value.numerator) if value.denominator == 1 else f"{float(value):.1f}"


def plain(value: Fraction | int) -> int | float:
    """A figure for programs.

    Examples
    --------
    >>> plain(Fraction(4)), plain(Fraction(1, 2))
    (4, 0.5)
    """
    value = Fraction(value)
    return value.numerator if value.denominator == 1 else float(value)


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
    hold : int
        How long d, enable and clear must stand after the edge.
    """

    gates: tuple[int, ...]
    clock_to_q: tuple[int, ...]
    setup: tuple[tuple[int, int, int], ...]
    outside: tuple[int, int]
    hold: int = 0


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


# ---------------------------------------------------------------------- gates of gates

Of: TypeAlias = Callable[[str, int], int]
"""A figure of an elementary gate with so many inputs (`edgewise.circuit.truth.made_of`)."""


def summed(of: Of, operator: str, inputs: int) -> int:
    """The figures of all elementary gates that make up a gate."""
    return sum(starmap(of, made_of(function(operator), inputs)))


def slowest(of: Of, operator: str, inputs: int) -> int:
    """The figures along the slowest way through a gate."""
    return max(sum(starmap(of, way)) for way in ways(function(operator), inputs))


@dataclass(frozen=True, slots=True)
class Plain:
    """Gates that cost and take the same wherever they stand; `area` and `timing` of a `Technology`.

    Parameters
    ----------
    area_of, delay_of : function
        Of a gate of the netlist, by its operator and its number of inputs.
    flip_flop, clock_to_q, setup : int
        Area of a flip-flop, its clock-to-Q delay and its set-up time.
    """

    area_of: Callable[[str, int], int]
    delay_of: Callable[[str, int], int]
    flip_flop: int
    clock_to_q: int
    setup: int

    def area(self, netlist: Netlist) -> tuple[int, int]:
        """Of a netlist, and how much of it stores bits."""
        logic = sum(self.area_of(gate.operator, len(gate.inputs)) for gate in netlist.gates)
        storage = sum(map(self._storage, netlist.flip_flops))
        return logic + storage, storage

    def _storage(self, flip_flop: FlipFlop) -> int:
        """The flip-flop, a multiplexer that holds its bit, and an AND gate that clears it."""
        held = self.area_of("multiplexer", 3) if flip_flop.enable is not None else 0
        cleared = self.area_of("and", 2) if flip_flop.clear is not None else 0
        return self.flip_flop + held + cleared

    def timing(self, netlist: Netlist) -> Timing:
        """How long everything in a netlist takes."""
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
