"""What comes back from the process that reads a description: cells and the nets between them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, TypeAlias

from edgewise.errors import CircuitError, Message, Place

Bit: TypeAlias = int | str
"""The number of a net, or a constant: ``0``, ``1``, ``x``, ``z``."""
Bits: TypeAlias = tuple[Bit, ...]
"""LSB first."""
MOST_CELLS: Final = 20_000
_SOURCE: Final = re.compile(r"([^|:]+):(\d+)(?:\.(\d+))?")


@dataclass(frozen=True)
class Cell:
    """One cell.

    Parameters
    ----------
    kind : str
        ``add``, ``mux``, ``dffe``; those of single gates in small letters: ``and``.
    ports : mapping of str to Bits
    settings : mapping of str to str
        As binary digits.
    place : Place, optional
    """

    kind: str
    ports: Mapping[str, Bits]
    settings: Mapping[str, str]
    place: Place | None

    def number(self, setting: str) -> int:
        """A setting as a number; 0 where there is none."""
        return int(self.settings.get(setting, "0").replace("x", "0") or "0", 2)

    @property
    def outs(self) -> tuple[str, ...]:
        """The ports that drive."""
        return tuple(port for port in ("Y", "Q") if port in self.ports)

    @property
    def reads(self) -> Iterator[Bit]:
        """The bits that it reads."""
        return (bit for port, bits in self.ports.items() if port not in self.outs for bit in bits)


@dataclass(frozen=True)
class Module:
    """A whole description, flat.

    Parameters
    ----------
    name : str
    inputs, outputs : mapping of str to Bits
    cells : tuple of Cell
    nets : mapping of str to Bits
        Those with names of their own, the outermost first.
    places : mapping of str to Place
        Where nets were declared.
    initial : mapping of int to str
        What a net holds at the start.
    """

    name: str
    inputs: Mapping[str, Bits]
    outputs: Mapping[str, Bits]
    cells: tuple[Cell, ...]
    nets: Mapping[str, Bits]
    places: Mapping[str, Place]
    initial: Mapping[Bit, str]

    def tied(self, constants: Mapping[Bit, str]) -> Module:
        """The module with some nets held at constants."""

        def held(bits: Bits, driven: bool) -> Bits:  # noqa: FBT001
            return bits if driven else tuple(constants.get(bit, bit) for bit in bits)

        return replace(
            self,
            cells=tuple(
                replace(
                    cell, ports={p: held(bits, p in cell.outs) for p, bits in cell.ports.items()}
                )
                for cell in self.cells
            ),
            outputs={name: held(bits, driven=False) for name, bits in self.outputs.items()},
        )

    def name_of(self, bit: Bit) -> str:
        """What a bit is called in the description."""
        for name, bits in self.nets.items():
            if bit in bits:
                return name if len(bits) == 1 else f"{name}({bits.index(bit)})"
        return "a net without a name"


def module(
    data: Mapping[str, Any],
    top: str,
    place: Any,
    names: Mapping[str, str],
    declared: Mapping[str, Place],
) -> Module:
    """The module from what the reader wrote down.

    Parameters
    ----------
    data : mapping
        The netlist.
    top : str
    place : function
        The place for a file, a line and a column.
    names : mapping of str to str
        How names were written, by the names that came back.
    declared : mapping of str to Place
        Where ports are declared, if that does not come back.

    Raises
    ------
    EdgewiseError
        Too many cells; a port that drives and is driven.
    """
    found = data["modules"].get(top) or next(iter(data["modules"].values()))

    def at(attributes: Mapping[str, str]) -> Place | None:
        sources = _SOURCE.findall(attributes.get("src", ""))
        return (
            place(sources[0][0], int(sources[0][1]), int(sources[0][2] or 0)) if sources else None
        )

    if len(found["cells"]) > MOST_CELLS:
        raise CircuitError(Message("cells-many", count=len(found["cells"]), most=MOST_CELLS))
    nets: dict[str, Bits] = {}
    places: dict[str, Place] = {}
    initial: dict[Bit, str] = {}
    for name, net in found["netnames"].items():
        bits = tuple(net["bits"])
        start = net["attributes"].get("init", "")
        known = zip(bits, reversed(start), strict=False)
        initial |= {bit: value for bit, value in known if value in "01"}
        if not net["hide_name"]:
            shown = ".".join(names.get(part, part) for part in name.split("."))
            nets[shown] = bits
            if (spot := at(net["attributes"])) is not None:
                places[shown] = spot
    places |= declared
    ports: dict[str, dict[str, Bits]] = {"input": {}, "output": {}}
    for name, port in found["ports"].items():
        shown = names.get(name, name)
        if port["direction"] == "inout":
            told = Message("port-inout", name=shown)
            raise CircuitError(told, places.get(shown))
        ports[port["direction"]][shown] = tuple(port["bits"])
    inputs, outputs = (_as_written(ports[way], places) for way in ("input", "output"))
    cells = tuple(_cell(cell, at(cell["attributes"])) for cell in found["cells"].values())
    order = sorted(nets, key=lambda name: name.count("."))
    made = Module(
        top,
        inputs,
        outputs,
        tuple(cell for cell in cells if cell.kind not in ("print", "check", "scopeinfo")),
        {name: nets[name] for name in order},
        places,
        initial,
    )
    _refuse_driven_twice(made)
    return made


def _refuse_driven_twice(module: Module) -> None:
    """Refuse a net that two cells drive, or a cell and the outside."""
    drivers: dict[Bit, Place | None] = {
        bit: module.places.get(name) for name, bits in module.inputs.items() for bit in bits
    }
    for cell in module.cells:
        for bit in (bit for port in cell.outs for bit in cell.ports[port]):
            if bit in drivers:
                first = drivers[bit]
                told = Message(
                    "driven-twice", name=module.name_of(bit), line=first.line if first else 0
                )
                raise CircuitError(told, cell.place)
            drivers[bit] = cell.place


def _as_written(ports: Mapping[str, Bits], places: Mapping[str, Place]) -> dict[str, Bits]:
    """Ports in the order in which they are declared; they come in that of their names."""

    def order(name: str) -> tuple[str, int, int]:
        place = places.get(name)
        return (place.file, place.line, place.column) if place else ("", 0, 0)

    return {name: ports[name] for name in sorted(ports, key=order)}


def _cell(cell: Mapping[str, Any], place: Place | None) -> Cell:
    kind = cell["type"].strip("$_").lower()
    ports = {port: tuple(bits) for port, bits in cell["connections"].items()}
    return Cell(kind, ports, cell["parameters"], place)
