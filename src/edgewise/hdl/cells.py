"""From cells to elements: gates, multiplexers and adders; what stores is in `words`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.errors import CircuitError, Message
from edgewise.hdl.element import Element, Nets
from edgewise.hdl.netlist import Bit, Bits, Cell

_GATES: Final = ("and", "or", "xor", "xnor", "nand", "nor")
_REDUCED: Final = {
    "reduce_and": "and",
    "reduce_or": "or",
    "reduce_bool": "or",
    "reduce_xor": "xor",
    "reduce_xnor": "xnor",
}
_OPPOSITE: Final = {"and": "nand", "or": "nor", "xor": "xnor"}
UNSUPPORTED: Final = frozenset({"tribuf", "tbuf", "dlatch", "adlatch", "dlatchsr", "sr"})
"""Kinds of cells that no circuit here has, each with a message of its own."""


@dataclass
class Made:
    """The elements of some cells, made one after another."""

    nets: Nets

    def of(self, cell: Cell) -> Iterator[Element]:
        """The elements of one cell that stores nothing.

        Raises
        ------
        CircuitError
            There are none for it.
        """
        make = _MAKERS.get(cell.kind)
        if make is None:
            raise CircuitError(Message("cell-unsupported", kind=cell.kind), cell.place)
        yield from make(self, cell)

    def gate(self, part: str, bits: Bits, out: Bit, cell: Cell) -> Iterator[Element]:
        """A gate of any number of inputs; of one input it is a copy, or a NOT gate."""
        if len(bits) == 1 and part in _OPPOSITE:
            self.nets.join(out, bits[0])
            return
        if len(bits) == 1:
            part = "not"
        yield Element(part, {"in": bits}, {"out": (out,)}, {}, cell.place)

    def gates(self, cell: Cell) -> Iterator[Element]:
        """A gate for each bit of a word."""
        a, b = _extended(cell, "A"), _extended(cell, "B")
        for bits, out in zip(zip(a, b, strict=True), cell.ports["Y"], strict=True):
            yield from self.gate(cell.kind, tuple(bits), out, cell)

    def inverters(self, cell: Cell) -> Iterator[Element]:
        """A NOT gate for each bit."""
        for bit, out in zip(_extended(cell, "A"), cell.ports["Y"], strict=True):
            yield Element("not", {"in": (bit,)}, {"out": (out,)}, {}, cell.place)

    def copies(self, cell: Cell) -> Iterator[Element]:
        """Nothing: the nets are the same."""
        for bit, out in zip(_extended(cell, "A"), cell.ports["Y"], strict=True):
            self.nets.join(out, bit)
        yield from ()

    def reduction(self, cell: Cell) -> Iterator[Element]:
        """One gate over all bits of a word."""
        yield from self.gate(_REDUCED[cell.kind], cell.ports["A"], self._bit(cell), cell)

    def negation(self, cell: Cell) -> Iterator[Element]:
        """Whether a word is 0."""
        yield from self.gate("nor", cell.ports["A"], self._bit(cell), cell)

    def both(self, cell: Cell) -> Iterator[Element]:
        """AND and OR of words as truths."""
        ends = []
        for port in ("A", "B"):
            (end,) = self.nets.new()
            yield from self.gate("or", cell.ports[port], end, cell)
            ends.append(end)
        yield from self.gate(cell.kind.removeprefix("logic_"), tuple(ends), self._bit(cell), cell)

    def equality(self, cell: Cell) -> Iterator[Element]:
        """Whether two words are alike: an XNOR a bit, or a NOT where one of them is constant."""
        alike: list[Bit] = []
        width = max(len(cell.ports["A"]), len(cell.ports["B"]))
        words = [_extended(cell, port, width) for port in ("A", "B")]
        for bits in zip(*words, strict=True):
            constant = [bit for bit in bits if bit in ("0", "1")]
            others = [bit for bit in bits if bit not in ("0", "1")]
            if len(constant) == 1 and constant[0] == "1":
                alike.append(others[0])
                continue
            (end,) = self.nets.new()
            fed = tuple(others) if len(constant) == 1 else bits
            yield from self.gate("xnor", fed, end, cell)
            alike.append(end)
        part = "and" if cell.kind == "eq" else "nand"
        yield from self.gate(part, tuple(alike), self._bit(cell), cell)

    def choice(self, cell: Cell) -> Iterator[Element]:
        """A multiplexer of words."""
        ports = cell.ports
        ins = {"d0": ports["A"], "d1": ports["B"], "select": ports["S"]}
        settings = {"width": len(ports["Y"])} if len(ports["Y"]) > 1 else {}
        yield Element("multiplexer", ins, {"out": ports["Y"]}, settings, cell.place)

    def sum(self, cell: Cell) -> Iterator[Element]:
        """A full adder a bit."""
        yield from self.chain(cell, _extended(cell, "A"), _extended(cell, "B"), "0")

    def difference(self, cell: Cell) -> Iterator[Element]:
        """A full adder a bit, with the other word inverted and a carry coming in."""
        inverted: list[Bit] = []
        for bit in _extended(cell, "B"):
            if bit in ("0", "1"):
                inverted.append("1" if bit == "0" else "0")
                continue
            (end,) = self.nets.new()
            yield Element("not", {"in": (bit,)}, {"out": (end,)}, {}, cell.place)
            inverted.append(end)
        yield from self.chain(cell, _extended(cell, "A"), tuple(inverted), "1")

    def chain(self, cell: Cell, a: Bits, b: Bits, carry: Bit) -> Iterator[Element]:
        """A ripple-carry adder."""
        for i, (one, other, out) in enumerate(zip(a, b, cell.ports["Y"], strict=True)):
            (onward,) = self.nets.new()
            yield adder((one, other, carry), out, onward, cell, i)
            carry = onward

    def _bit(self, cell: Cell) -> Bit:
        """The first bit of what a truth drives; the others are 0."""
        first, *others = cell.ports["Y"]
        for bit in others:
            self.nets.join(bit, "0")
        return first


def adder(ins: Bits, total: Bit, carry: Bit, cell: Cell, index: int) -> Element:
    """A full adder of a chain."""
    ports = dict(zip(("a", "b", "carry-in"), ((bit,) for bit in ins), strict=True))
    outs = {"sum": (total,), "carry-out": (carry,)}
    return Element("full-adder", ports, outs, {}, cell.place, (f"{id(cell)}", index))


def _extended(cell: Cell, port: str, width: int = 0) -> Bits:
    """A word at the width of what the cell gives."""
    bits = cell.ports[port]
    width = width or len(cell.ports["Y"])
    more = bits[-1] if cell.number(f"{port}_SIGNED") and bits else "0"
    return (*bits, *(more,) * (width - len(bits)))[:width]


_MAKERS: Final[Mapping[str, Callable[[Made, Cell], Iterator[Element]]]] = {
    **dict.fromkeys(_GATES, Made.gates),
    "not": Made.inverters,
    "buf": Made.copies,
    "pos": Made.copies,
    **dict.fromkeys(_REDUCED, Made.reduction),
    "logic_not": Made.negation,
    "logic_and": Made.both,
    "logic_or": Made.both,
    "eq": Made.equality,
    "ne": Made.equality,
    "mux": Made.choice,
    "add": Made.sum,
    "sub": Made.difference,
}
