"""Sources: who drives each bit of a circuit, joins followed to their end.

A signal becomes runs: bits that lie side by side and come side by side from one port.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.bits import Bit
from edgewise.circuit.model import CLOCK, Circuit, Signal, Tie, Wire


@dataclass(frozen=True, slots=True)
class Origin:
    """The port that drives a bit.

    Examples
    --------
    >>> Origin("FA", "sum", 0).owner
    'FA'
    """

    owner: str
    """Name of a part; empty: an input of the circuit itself, or the clock."""
    port: str
    index: int = 0


@dataclass(frozen=True, slots=True)
class Run:
    """Bits `at` … of a sink, LSB first, with where they come from.

    Parameters
    ----------
    at, width : int
    origin : Origin, optional
        Of the lowest bit; the others follow it. None: `ties` are constants.
    ties : tuple of Bit
        LSB first.
    """

    at: int
    width: int
    origin: Origin | None
    ties: tuple[Bit, ...] = ()


class Sources:
    """The drivers of one circuit, not of what is inside its parts.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adder = catalogue.design("ripple-carry-adder", n=2).circuit
    >>> Sources(adder).runs(adder.parts[1].signal("carry-in"))
    (Run(at=0, width=1, origin=Origin(owner='FA(0)', port='carry-out', index=0), ties=()),)
    """

    def __init__(self, circuit: Circuit) -> None:
        self._outputs = circuit.outputs
        self._from: dict[Wire, Origin | Wire | Tie] = {Wire(CLOCK): Origin("", CLOCK)}
        for net in circuit.inputs:
            self._drive("", net.name, tuple(Wire(net.name, i) for i in range(net.width)))
        for part in circuit.parts:
            for port in part.kind.ports:
                if port.direction == "out":
                    self._drive(part.name, port.name, part.signal(port.name))
        for join in circuit.joins:
            for target, source in zip(join.target, join.source, strict=True):
                if isinstance(target, Wire):
                    self._from[target] = source

    def _drive(self, owner: str, port: str, signal: Signal) -> None:
        for i, bit in enumerate(signal):
            if isinstance(bit, Wire):
                self._from[bit] = Origin(owner, port, i)

    def origin(self, bit: Wire | Tie) -> Origin | Tie:
        """What drives one bit."""
        here: Origin | Wire | Tie = bit
        while isinstance(here, Wire):
            here = self._from[here]
        return here

    def shown(self) -> dict[Origin, str]:
        """The name of the output bit that each port drives, the last of several.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> adder = catalogue.design("ripple-carry-adder", n=2).circuit
        >>> Sources(adder).shown()[Origin("FA(1)", "sum")]
        'sum(1)'
        """
        found = {}
        for output in self._outputs:
            for i, bit in enumerate(output.signal):
                origin = self.origin(bit)
                if isinstance(origin, Origin):
                    found[origin] = f"{output.name}({i})" if len(output.signal) > 1 else output.name
        return found

    def runs(self, signal: Signal) -> tuple[Run, ...]:
        """A signal in as few runs as it has, LSB first."""
        return tuple(self._runs(signal))

    def single(self, signal: Signal) -> tuple[Run, ...]:
        """A signal in runs of one bit each, LSB first."""
        return tuple(run for i, bit in enumerate(signal) for run in self._runs((bit,), i))

    def _runs(self, signal: Signal, start: int = 0) -> Iterator[Run]:
        found: list[Origin | Tie] = [self.origin(bit) for bit in signal]
        low = 0
        for high in range(1, len(found) + 1):
            if high < len(found) and _follows(found[high - 1], found[high]):
                continue
            first = found[low]
            if isinstance(first, Tie):
                ties = tuple(tie.bit for tie in found[low:high] if isinstance(tie, Tie))
                yield Run(start + low, high - low, None, ties)
            else:
                yield Run(start + low, high - low, first)
            low = high


def _follows(before: Origin | Tie, after: Origin | Tie) -> bool:
    if isinstance(before, Tie) or isinstance(after, Tie):
        return isinstance(before, Tie) and isinstance(after, Tie)
    same = (before.owner, before.port) == (after.owner, after.port)
    return same and after.index == before.index + 1
