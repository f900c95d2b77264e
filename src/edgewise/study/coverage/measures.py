"""What is measured of single adders, bits, carries and phases; `coverage` puts it together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AdderCoverage:
    """The rows of an adder's truth table that an example covers.

    Parameters
    ----------
    name, kind : str
    occurring : tuple of str
        Rows that occur at all, as ``a b carry-in``: ``011``.
    covered : tuple of str
        Rows whose sum can get into the answer.
    uncovered : tuple of str
        The rest of the truth table.
    """

    name: str
    kind: str
    occurring: tuple[str, ...]
    covered: tuple[str, ...]
    uncovered: tuple[str, ...]

    @property
    def full(self) -> bool:
        """Whether it takes a carry too: three bits, eight rows."""
        return len(self.covered) + len(self.uncovered) == 8


@dataclass(frozen=True, slots=True)
class BitCoverage:
    """One bit over a run: which values it takes, and for what is stored, which way it goes.

    `rises` and `falls` tell of flip-flops: from 0 to 1, from 1 to 0, at some edge.
    """

    name: str
    zero: bool
    one: bool
    rises: bool = False
    falls: bool = False

    @property
    def both(self) -> bool:
        """Whether it is 0 in some row and 1 in another."""
        return self.zero and self.one


@dataclass(frozen=True, slots=True)
class Carries:
    """How often, in additions that count, carries are generated, propagated and killed.

    `longest` is the longest carry chain in places: 1 for a carry that goes no farther than into
    the place beside the one where it was generated; 0 where there is none.
    """

    generated: int = 0
    propagated: int = 0
    killed: int = 0
    longest: int = 0

    @property
    def none(self) -> bool:
        """Whether no adder whose sum counts gives or takes a carry."""
        return not (self.generated or self.propagated or self.killed)


@dataclass(frozen=True, slots=True)
class PhaseCoverage:
    """A phase: whether an edge of it stores anything that can get into the answer.

    `adds`: whether an addition that counts stands before one of its edges.
    """

    name: str
    first: int
    last: int
    matters: bool
    adds: bool


@dataclass(frozen=True, slots=True)
class StillRegister:
    """A storage element that nothing is seen of: its bits never change between known values.

    `one`: whether any of them ever holds a 1.
    """

    name: str
    bits: tuple[str, ...]
    one: bool


@dataclass(frozen=True)
class Measured:
    """All that is measured of one run of a design.

    Parameters
    ----------
    design : str
    operands : mapping of str to int
    adders : tuple of AdderCoverage
    carries : Carries, optional
        None: the design has no adders.
    flip_flops, nets, gates : tuple of BitCoverage
        Stored bits; nets between top-level parts, stored bits left out; gate outputs.
    phases : tuple of PhaseCoverage
    registers : mapping of str to tuple of str
        Each storage element with its bits, the MSB first.
    carry_flip_flops : tuple of str
        Stored bits that take the carry of an adder.
    """

    design: str
    operands: Mapping[str, int]
    adders: tuple[AdderCoverage, ...]
    carries: Carries | None
    flip_flops: tuple[BitCoverage, ...]
    nets: tuple[BitCoverage, ...]
    gates: tuple[BitCoverage, ...]
    phases: tuple[PhaseCoverage, ...]
    registers: Mapping[str, tuple[str, ...]]
    carry_flip_flops: tuple[str, ...]

    @property
    def unset_carries(self) -> tuple[str, ...]:
        """The flip-flops of `carry_flip_flops` that never hold a 1."""
        ones = {bit.name for bit in self.flip_flops if bit.one}
        return tuple(name for name in self.carry_flip_flops if name not in ones)

    @property
    def still_registers(self) -> tuple[StillRegister, ...]:
        """Storage elements of which no bit goes from one known value to the other.

        Those that take the carry of an adder are left out: `unset_carries` tells of them.
        """
        bits = {bit.name: bit for bit in self.flip_flops}
        return tuple(
            StillRegister(name, members, any(bits[member].one for member in members))
            for name, members in self.registers.items()
            if members
            and not set(members) <= set(self.carry_flip_flops)
            and not any(bits[member].rises or bits[member].falls for member in members)
        )

    @property
    def rows(self) -> tuple[str, ...]:
        """Rows of the full adder's truth table that count, of all full adders together."""
        return tuple(sorted({row for a in self.adders if a.full for row in a.covered}))
