"""Elements: parts of a circuit to be, between nets that have numbers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from edgewise.errors import Place
from edgewise.hdl.netlist import Bit, Bits


@dataclass(frozen=True)
class Element:
    """A part to be.

    Parameters
    ----------
    part : str
        The part type: ``full-adder``.
    ins, outs : mapping of str to Bits
        What it reads and drives, by port.
    settings : mapping of str to int or str
    place : Place, optional
    family : (str, int), optional
        The name that it shares with others, and its index among them.
    """

    part: str
    ins: Mapping[str, Bits]
    outs: Mapping[str, Bits]
    settings: Mapping[str, int | str] = field(default_factory=dict)
    place: Place | None = None
    family: tuple[str, int] | None = None

    @property
    def reads(self) -> Iterator[Bit]:
        """The bits that it reads."""
        return (bit for bits in self.ins.values() for bit in bits)

    @property
    def drives(self) -> Iterator[Bit]:
        """The nets that it drives."""
        return (bit for bits in self.outs.values() for bit in bits)


class Nets:
    """Numbers for new nets, and nets that are one another's copies."""

    def __init__(self, used: Iterable[Bit]) -> None:
        self._last = max((bit for bit in used if isinstance(bit, int)), default=0)
        self._same: dict[Bit, Bit] = {}

    def new(self, width: int = 1) -> Bits:
        """Some new nets."""
        first = self._last + 1
        self._last += width
        return tuple(range(first, first + width))

    def join(self, copy: Bit, of: Bit) -> None:
        """Have one net be a copy of another, or of a constant."""
        self._same[copy] = of

    def of(self, bit: Bit) -> Bit:
        """What a bit is a copy of, in the end; itself where it is none."""
        seen = {bit}
        while bit in self._same:
            bit = self._same[bit]
            if bit in seen:
                return "x"
            seen.add(bit)
        return bit

    def all_of(self, bits: Iterable[Bit]) -> Bits:
        """The same for several bits."""
        return tuple(map(self.of, bits))
