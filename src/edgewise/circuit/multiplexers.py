"""Multiplexers: of 2 inputs (a primitive), and trees of those for 4, 8, … inputs or words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Port
from edgewise.circuit.parts import PartFault, PartType, Setting, Settings, register
from edgewise.circuit.truth import Function
from edgewise.errors import Message

MOST: Final = 256
"""Data inputs of one multiplexer, at most."""
_DATA: Final = re.compile("d(0|[1-9][0-9]{0,8})", re.ASCII)


def data_inputs(bits: Mapping[str, int]) -> int:
    """How many data inputs d0, d1, … a multiplexer with these ports has; at least 2.

    Examples
    --------
    >>> data_inputs({"d0": 1, "d3": 1, "select": 2})
    4
    """
    numbered = [int(found[1]) + 1 for found in map(_DATA.fullmatch, bits) if found]
    most = max(numbered, default=2)
    if most > MOST:
        raise PartFault(Message("data-input-last", found=most - 1, last=MOST - 1), f"d{most - 1}")
    return max(most, 2)


def _ports(settings: Settings, bits: Mapping[str, int]) -> tuple[Port, ...]:
    width, number = int(settings["width"]), data_inputs(bits)
    data = tuple(Port(f"d{i}", width, "in") for i in range(number))
    return (
        *data,
        Port("select", (number - 1).bit_length(), "in", "select"),
        Port("out", width, "out"),
    )


def _check(_settings: Settings, bits: Mapping[str, int]) -> None:
    number = data_inputs(bits)
    if number & (number - 1):
        raise PartFault(Message("data-inputs-even", last=number - 1))
    missing = [f"d{i}" for i in range(number) if f"d{i}" not in bits]
    if missing:
        raise PartFault(Message("port-unfed", port=missing[0], kind="multiplexer"))


def _inside(settings: Settings, bits: Mapping[str, int]) -> Circuit | None:
    width, number = int(settings["width"]), data_inputs(bits)
    if (width, number) == (1, 2):
        return None
    b = Builder("multiplexer")
    layer = [b.input(f"d{i}", width) for i in range(number)]
    select = b.input("select", (number - 1).bit_length())
    for level, bit in enumerate(select):
        layer = [
            tuple(
                b.part(
                    f"M{level}_{pair}({i})",
                    "multiplexer",
                    {"d0": zero[i], "d1": one[i], "select": bit},
                )["out"][0]
                for i in range(width)
            )
            for pair, (zero, one) in enumerate(zip(layer[::2], layer[1::2], strict=True))
        ]
    b.output("out", layer[0])
    return b.circuit()


register(
    PartType(
        "multiplexer",
        "passes the data input whose number stands at select",
        _ports,
        frozenset({"select"}),
        (Setting("width", 1, low=1),),
        _inside,
        "out",
        _check,
        role="selector",
        symbol="MUX",
        function=Function(("select", "d0", "d1"), ("choose", "select", "d0", "d1")),
    ),
)
