"""What words and bits of a design are called, by the nets that they stand on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import Final

from edgewise.circuit.netlist import Gate
from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.publish.stage.storage import families, stores

MOST_TERMS: Final = 4
"""Bits in an expression, at most."""


def inverts(gate: Gate) -> bool:
    """Whether a gate is an inverter."""
    of = function(gate.operator)
    return of.inverted and not of.operation


def passes(gate: Gate) -> bool:
    """Whether a gate is an XOR, an inverter or a buffer."""
    of = function(gate.operator)
    return of.plain == "xor" or not of.operation


class WordNames:
    """The stored words and the inputs of a design, and the names of their slices and bits.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("lfsr", n=4)
    >>> names = WordNames(design)
    >>> register = design.netlist.find("S")
    >>> names.name(register[1:3]), names.bit(register[0])
    ('S(2..1)', 'S(0)')
    """

    def __init__(self, design: Design) -> None:
        self.netlist = design.netlist
        self.stores = stores(design)
        self.places: dict[int, tuple[str, str, int]] = {}
        """By net: the word in full, its base for a slice, and the bit's index."""
        self.alone: dict[int, str] = {}
        """Single stored bits that belong to no word."""
        for family in families(self.stores):
            lowest = family.members[-1]
            if len(lowest.q) > 1:
                for member in family.members:
                    self._put(member.name, member.name, member.q)
            elif len(family.members) > 1:
                base, _, low = family.name[:-1].rpartition("..")
                stages = [member.q[0] for member in reversed(family.members)]
                self._put(family.name, base.rpartition("(")[0], stages, int(low))
            else:
                self.alone[lowest.q[0]] = family.name
        for name, nets in self.netlist.inputs.items():
            self._put(name, name, nets)
        self.widths = Counter(name for name, _, _ in self.places.values())

    def _put(self, name: str, base: str, nets: Sequence[int], low: int = 0) -> None:
        for index, net in enumerate(nets, low):
            self.places.setdefault(net, (name, base, index))

    def name(self, nets: Sequence[int]) -> str:
        """What a word is called, if its bits stand in a row in a store or an input."""
        if len(nets) == 1:
            return self.bit(nets[0])
        found = [self.places.get(net) for net in nets]
        first = found[0] if found else None
        if first is None:
            return ""
        name, base, low = first
        if found != [(name, base, index) for index in range(low, low + len(nets))]:
            return ""
        return name if len(nets) == self.widths[name] else f"{base}({low + len(nets) - 1}..{low})"

    def bit(self, net: int) -> str:
        """What a bit is called, if it is one of a store or an input."""
        if net in self.alone:
            return self.alone[net]
        if net not in self.places:
            return ""
        name, base, index = self.places[net]
        return name if self.widths[name] == 1 else f"{base}({index})"

    def terms(self, net: int) -> tuple[int, ...]:
        """The named bits of which a net is the XOR, or the one that it is; none: of something else.

        An inverter on the way is told by `expression`.
        """
        found = tuple(self._terms(net))
        named = len(found) <= MOST_TERMS and all(self.bit(one) for one in found)
        return found if named else ()

    def _terms(self, net: int) -> Iterator[int]:
        gate = None if self.bit(net) else self.drivers.get(net)
        if gate is not None and passes(gate):
            for one in gate.inputs:
                yield from self._terms(one)
        else:
            yield net

    def expression(self, net: int) -> str:
        """``R(3) XOR R(0)``, ``NOT R(0)`` or ``R(0)``: what the net is, of named bits."""
        if not self.terms(net):
            return ""
        inverted, at = 0, [net]
        while at:
            gate = None if self.bit(at[-1]) else self.drivers.get(at[-1])
            at.pop()
            if gate is not None:
                inverted ^= inverts(gate)
                at += gate.inputs
        told = " XOR ".join(map(self.bit, self.terms(net)))
        if not inverted:
            return told
        return f"NOT ({told})" if len(self.terms(net)) > 1 else f"NOT {told}"

    @cached_property
    def drivers(self) -> Mapping[int, Gate]:
        """The gate that drives each net that one drives."""
        return {gate.output: gate for gate in self.netlist.gates}
