"""The clock of a description, and its resets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.errors import CircuitError, Message, Place
from edgewise.hdl.netlist import Bit, Cell, Module
from edgewise.words.messages import ENGLISH, Words

STORING: Final = frozenset(
    {"dff", "dffe", "sdff", "sdffe", "sdffce", "adff", "adffe", "aldff", "aldffe"}
)
"""Cells that store at an edge, with the controls that their names tell."""
_INVERTING: Final = ("not", "logic_not")


@dataclass(frozen=True, slots=True)
class Note:
    """Something that was understood in a way that is to be told.

    Parameters
    ----------
    what : str
        ``reset``, ``falling``.
    name : str
        Of the input.
    place : Place, optional
    """

    what: str
    name: str
    place: Place | None

    @property
    def sentence(self) -> str:
        """In English."""
        return self.said()

    def said(self, words: Words = ENGLISH) -> str:
        """In words."""
        return words(f"hdl-{self.what}", name=self.name)


@dataclass(frozen=True, slots=True)
class Clocking:
    """What makes a description's edges.

    Parameters
    ----------
    clock : str
        The input; empty where nothing is stored.
    gates : mapping of Bit to Cell
        The AND gates through which it passes, by the nets that they drive.
    nets : frozenset of Bit
        The clock itself.
    """

    clock: str
    gates: Mapping[Bit, Cell]
    nets: frozenset[Bit]


def without_resets(module: Module) -> tuple[Module, tuple[Note, ...]]:
    """The module as it is once its asynchronous resets are over, and what is to be told.

    What a reset puts into a flip-flop is its initial value then.

    Raises
    ------
    CircuitError
        A reset that is no input; one that loads what is no constant.
    """
    drivers = _drivers(module)
    inputs = {bit: name for name, bits in module.inputs.items() for bit in bits}
    initial = dict(module.initial)
    held: dict[Bit, str] = {}
    notes: dict[Bit, Note] = {}
    for cell in module.cells:
        if cell.kind.startswith("dffsr") or "sr" in cell.kind.split("_"):
            raise CircuitError(Message("set-and-reset"), cell.place)
        if not cell.kind.startswith(("adff", "aldff")):
            continue
        port, polarity = (
            ("ARST", "ARST_POLARITY")
            if "ARST" in cell.ports
            else (
                "ALOAD",
                "ALOAD_POLARITY",
            )
        )
        active = cell.number(polarity)
        bit = cell.ports[port][0]
        while bit not in inputs and (one := drivers.get(bit)) and one.kind in _INVERTING:
            bit, active = one.ports["A"][0], 1 - active
        values = cell.settings.get("ARST_VALUE") or "".join(
            str(value) for value in reversed(cell.ports.get("AD", ()))
        )
        if bit not in inputs or set(values) - set("01x"):
            name = module.name_of(cell.ports["Q"][0])
            raise CircuitError(Message("set-by-logic", name=name), cell.place)
        if held.setdefault(bit, str(1 - active)) != str(1 - active):
            raise CircuitError(Message("reset-by-both", name=inputs[bit]), cell.place)
        notes.setdefault(bit, Note("reset", inputs[bit], module.places.get(inputs[bit])))
        initial.update(zip(cell.ports["Q"], reversed(values), strict=True))
    tied = module.tied(held)
    return (
        Module(
            module.name,
            {n: bits for n, bits in module.inputs.items() if not set(bits) & held.keys()},
            tied.outputs,
            tied.cells,
            module.nets,
            module.places,
            initial,
        ),
        tuple(notes.values()),
    )


def clocking(module: Module) -> tuple[Clocking, tuple[Note, ...]]:
    """The clock of a module.

    Raises
    ------
    CircuitError
        Two clocks; both edges; a clock that is computed; one that is read as data.
    """
    inputs = {bit: name for name, bits in module.inputs.items() for bit in bits}
    drivers = _drivers(module)
    found: dict[tuple[Bit, int], Cell] = {}
    gates: dict[Bit, Cell] = {}
    nets: set[Bit] = set()
    storing = [cell for cell in module.cells if cell.kind in STORING]
    clocks = {cell.ports["CLK"][0] for cell in storing}
    for cell in storing:
        bit, edge = cell.ports["CLK"][0], cell.number("CLK_POLARITY")
        root, edge = _root(bit, edge, drivers, nets)
        gate = drivers.get(root)
        if root not in inputs and gate is not None and gate.kind in ("and", "logic_and") and edge:
            ends = [_root(gate.ports[p][0], 1, drivers, set()) for p in ("A", "B")]
            likely = [e for e in ends if e[0] in inputs and e[1] == 1]
            direct = [e for e in likely if e[0] in clocks or _is_clock_name(inputs[e[0]])]
            if direct or len(likely) == 1:
                gates[root] = gate
                root = (direct or likely)[0][0]
        if root not in inputs:
            name = module.name_of(cell.ports["Q"][0])
            raise CircuitError(Message("clock-by-logic", name=name), cell.place)
        found.setdefault((root, edge), cell)
    if not found:
        return Clocking("", {}, frozenset()), ()
    (first, edge), *others = found
    for (bit, other), cell in list(found.items())[1:]:
        if bit != first:
            told = Message("clock-second", name=inputs[bit], first=inputs[first])
            raise CircuitError(told, cell.place)
        if other != edge:
            told = Message("clock-both-edges", name=inputs[bit])
            raise CircuitError(told, cell.place)
    del others
    nets |= {first}
    _refuse_data(module, nets, gates, inputs[first])
    name = inputs[first]
    notes = () if edge else (Note("falling", name, module.places.get(name)),)
    return Clocking(name, gates, frozenset(nets)), notes


def _is_clock_name(name: str) -> bool:
    return name.lower().startswith(("clk", "clock", "ck", "cp"))


def _root(bit: Bit, edge: int, drivers: Mapping[Bit, Cell], nets: set[Bit]) -> tuple[Bit, int]:
    """A clock net followed back through buffers and inverters."""
    while (cell := drivers.get(bit)) is not None and cell.kind in (*_INVERTING, "buf", "pos"):
        nets.add(bit)
        edge = edge if cell.kind in ("buf", "pos") else 1 - edge
        bit = cell.ports["A"][0]
    return bit, edge


def _refuse_data(module: Module, nets: set[Bit], gates: Mapping[Bit, Cell], name: str) -> None:
    """Refuse a clock that something else than a clock input reads."""
    for cell in module.cells:
        for port, bits in cell.ports.items():
            inside = cell in gates.values() or port == "CLK" or port in cell.outs
            if not inside and nets & set(bits) and not nets & set(cell.ports.get("Y", ())):
                raise CircuitError(Message("clock-as-data", name=name), cell.place)
    for output, bits in module.outputs.items():
        if (nets | gates.keys()) & set(bits):
            raise CircuitError(Message("output-is-clock", output=output), module.places.get(output))


def _drivers(module: Module) -> dict[Bit, Cell]:
    return {bit: cell for cell, bit in _driven(module)}


def _driven(module: Module) -> Iterator[tuple[Cell, Bit]]:
    for cell in module.cells:
        for port in cell.outs:
            for bit in cell.ports[port]:
                yield cell, bit
