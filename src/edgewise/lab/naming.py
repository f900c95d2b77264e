"""What every bit of a circuit is called in its module: nets, ports of parts, words that are stored.

A word that a part stores is called after the part: ``A``, not ``A.q``. What the members of a family
give, one bit each, is one vector: bit 3 of ``FA_sum`` is ``FA(3).sum``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, TypeAlias

from edgewise.circuit.model import CLOCK, Circuit, Kind, Part, Tie
from edgewise.circuit.model import Port as PartPort
from edgewise.circuit.model import Signal as Wires
from edgewise.lab.description import CLOCK as CLOCK_NAME
from edgewise.lab.description import Bits, Constant, Port, Signal
from edgewise.lab.identifier import Identifiers
from edgewise.lab.storage import Stored

_MEMBER: Final = re.compile(r"(?P<base>.+)\((?P<index>\d+)\)")
Spot: TypeAlias = tuple[str, int | None]
"""A signal and a bit of it; None: it is a scalar."""
DIGITS: Final = "01x"
"""The digit of each bit."""


def member(name: str) -> tuple[str, int | None]:
    """A part's name without its index, and the index.

    Examples
    --------
    >>> member("FA(3)"), member("C")
    (('FA', 3), ('C', None))
    """
    found = _MEMBER.fullmatch(name)
    return (found["base"], int(found["index"])) if found else (name, None)


@dataclass(frozen=True, slots=True)
class _Own:
    """An output of a part that has a signal of its own."""

    part: Part
    port: PartPort
    start: str | None

    @property
    def net(self) -> str:
        """What the circuit calls it."""
        return f"{self.part.name}.{self.port.name}"

    @property
    def behind(self) -> str:
        """What stands behind the part's name: nothing for a word that is called after the part."""
        word = self.port.name == self.part.kind.word
        named = word and (self.start is not None or self.part.kind.role == "circuit")
        return "" if named else f".{self.port.name}"

    @property
    def family(self) -> tuple[str, str, bool]:
        """What the signals of a family's members have in common."""
        return member(self.part.name)[0], self.behind, self.start is not None


class Naming:
    """The signals of a circuit.

    Parameters
    ----------
    circuit : Circuit
    kind : Kind, optional
        What it is a part as; its ports come in that order.
    clocked : bool
        Whether the module needs the clock.
    stored : mapping of str to Stored
        The parts that are told of as words that are stored.
    names : Identifiers
        Those of the module.
    """

    def __init__(
        self,
        circuit: Circuit,
        kind: Kind | None,
        stored: Mapping[str, Stored],
        names: Identifiers,
        *,
        clocked: bool,
    ) -> None:
        self.circuit, self.names, self.stored = circuit, names, stored
        self.spots: dict[str, tuple[Spot, ...]] = {}
        self.signals: list[Signal] = []
        self._widths: dict[str, int] = {}
        self.ports = tuple(self._ports(kind, clocked=clocked))
        for net in circuit.nets:
            if net.name not in self.spots:
                self.spots[net.name] = _spots(self._declare(net.name, net.width))
        self._parts()

    # ------------------------------------------------------------------ declaring

    def _ports(self, kind: Kind | None, *, clocked: bool) -> Iterator[Port]:
        if clocked:
            self.names.port(CLOCK)
            self.spots[CLOCK] = ((CLOCK_NAME, None),)
            yield Port(Signal(CLOCK_NAME), "in")
        nets = {net.name: net for net in self.circuit.nets}
        outputs = {output.name: output for output in self.circuit.outputs}
        for net in self.circuit.inputs:
            if net.name != CLOCK:
                yield Port(self._port(net.name, net.width, net), "in")
        order = [port.name for port in kind.outs] if kind else list(outputs)
        for name in order:
            output = outputs[name]
            signal = self._port(name, len(output.signal), output, shown=name in nets)
            yield Port(signal, "out")

    def _port(self, name: str, width: int, of: object, *, shown: bool = True) -> Signal:
        found = self.names.port(name, getattr(of, "place", None))
        signal = _signal(found, width, name)
        self._widths[found] = width
        if shown:
            self.spots[name] = _spots(signal)
        return signal

    def port_of(self, name: str) -> Bits:
        """A port of the module, by the name that the circuit gives it."""
        signal = next(p.signal for p in self.ports if (p.signal.known_as or p.signal.name) == name)
        return Bits(signal.name, (), signal.width)

    def _declare(self, name: str, width: int, start: str | None = None) -> Signal:
        return self._add(_signal(self.names.inner(name), width, name, start))

    def _add(self, signal: Signal) -> Signal:
        self.signals.append(signal)
        self._widths[signal.name] = signal.width
        return signal

    def _parts(self) -> None:
        own = {net.name for net in self.circuit.port_nets}
        families: dict[tuple[str, str, bool], list[_Own]] = {}
        for part in self.circuit.parts:
            stored = self.stored.get(part.name)
            for port in part.kind.outs:
                if stored and port.name == stored.port:
                    one = _Own(part, port, stored.start)
                elif f"{part.name}.{port.name}" in own and port.name not in _shown(stored):
                    one = _Own(part, port, None)
                else:
                    continue
                families.setdefault(one.family, []).append(one)
        for members in families.values():
            self._family(members)
        for part in self.circuit.parts:
            self._show(part)

    def _family(self, members: list[_Own]) -> None:
        by_index = {member(one.part.name)[1]: one for one in members}
        numbers = sorted(index for index in by_index if index is not None)
        in_a_row = (
            numbers == list(range(numbers[0], numbers[0] + len(members))) if numbers else False
        )
        if not in_a_row or any(one.port.width > 1 for one in members):
            for one in members:
                found = self._declare(one.part.name + one.behind, one.port.width, one.start)
                self.spots[one.net] = _spots(found)
            return
        base, behind, stores = members[0].family
        starts = [by_index[i].start or "x" for i in reversed(numbers)]
        name = self.names.inner(base + behind)
        known = "" if name == base else f"{base}(i){behind}"
        start = "".join(starts) if stores else None
        found = Signal(name, numbers[-1], numbers[0], start, known)
        self._add(found)
        for i in numbers:
            self.spots[by_index[i].net] = ((found.name, i),)

    def _show(self, part: Part) -> None:
        """Name the outputs of a stored word that are bits of it."""
        stored = self.stored.get(part.name)
        if stored:
            word = self.spots[f"{part.name}.{stored.port}"]
            for name, bits in stored.shown.items():
                self.spots[f"{part.name}.{name}"] = tuple(word[i] for i in bits)

    # ------------------------------------------------------------------ asking

    def pieces(self, wires: Wires) -> tuple[Bits | Constant, ...]:
        """Some bits as signals, slices and constants, MSB first."""
        found: list[Bits | Constant] = []
        for bit in reversed(wires):
            if isinstance(bit, Tie):
                text = DIGITS[bit.bit]
                if found and isinstance(found[-1], Constant):
                    found[-1] = Constant(found[-1].bits + text)
                else:
                    found.append(Constant(text))
                continue
            name, index = self.spots[bit.net][bit.index]
            last = found[-1] if found else None
            if index is None:
                found.append(Bits(name))
            elif (
                isinstance(last, Bits)
                and last.name == name
                and last.span
                and last.span[-1] == index + 1
            ):
                found[-1] = Bits(name, (last.span[0], index), last.width + 1)
            else:
                found.append(Bits(name, (index,)))
        return tuple(map(self._whole, found))

    def _whole(self, one: Bits | Constant) -> Bits | Constant:
        """A slice that is all of a signal, as the signal."""
        if isinstance(one, Bits) and len(one.span) > 1 and one.width == self._widths[one.name]:
            return Bits(one.name, (), one.width)
        return one


def _shown(stored: Stored | None) -> frozenset[str]:
    return frozenset(stored.shown) if stored else frozenset()


def _signal(found: str, width: int, name: str, start: str | None = None) -> Signal:
    low = 0 if width > 1 else None
    return Signal(found, width - 1, low, start, "" if name == found else name)


def _spots(signal: Signal) -> tuple[Spot, ...]:
    if signal.low is None:
        return ((signal.name, None),)
    return tuple((signal.name, i) for i in range(signal.width))
