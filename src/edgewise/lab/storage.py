"""Parts that store a word: what they start with, and what they take in at an edge.

What a part does is what its type says of itself: `PartType.does`, `PartType.stores`, and the roles
of its ports. At an edge ``clear`` comes first, then ``load``, then ``enable``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.circuit import parts
from edgewise.circuit.cover import Condition, Terms
from edgewise.circuit.model import Kind, Part, PortRole
from edgewise.lab.description import Bits, Constant, Operation, Term

DATA: Final = "d"
"""The port of the parallel data."""
OPPOSITE: Final = "left-in"
"""The port of the bit that enters from the other side, where a port chooses the direction."""
_PLAIN: Final[tuple[PortRole, ...]] = ("enable", "clear", "clock", "data")


@dataclass(frozen=True, slots=True)
class Stored:
    """A part that is told of as a word.

    Parameters
    ----------
    part : Part
    does, takes : str
        As `PartType.does` and `PartType.stores`.
    port : str
        The port that shows the word.
    start : str
        Its bits before the first edge, MSB first.
    shown : mapping of str to tuple of int
        Other ports that show bits of the word, and which, LSB first.
    """

    part: Part
    does: str
    takes: str
    port: str
    start: str
    shown: Mapping[str, tuple[int, ...]]

    @property
    def width(self) -> int:
        """How many bits it stores."""
        return len(self.start)

    @property
    def last(self) -> int:
        """Of a counter, the state after which it begins anew."""
        modulo = self.part.kind.setting("modulo")
        return modulo - 1 if isinstance(modulo, int) else (1 << self.width) - 1

    def fed(self, role: PortRole) -> str | None:
        """The port of a role, if something feeds it."""
        return next((port.name for port in self.part.kind.ins if port.role == role), None)


def stored(part: Part) -> Stored | None:
    """The part as a word that is stored; None where only its inside tells what it does.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> circuit = catalogue.design("serial-adder", n=4).circuit
    >>> found = [stored(part) for part in circuit.parts]
    >>> [(one.part.name, one.does, one.start) for one in found if one][:2]
    [('A', 'shift', '0000'), ('B', 'shift', '0000')]
    """
    kind = part.kind
    if kind.role != "storage" or kind.word is None:
        return None
    what = parts.part_type(kind.name)
    if kind.inside is not None and not (kind.name in parts.GUESTS.own() and _plain(kind, what)):
        return None
    port = kind.port(kind.word)
    assert port is not None, kind.name
    start = kind.setting("start")
    bits = "x" * port.width if start == "X" else f"{int(start or 0):0{port.width}b}"
    return Stored(part, what.does, what.stores, kind.word, bits, _shown(kind))


def _plain(kind: Kind, what: parts.PartType) -> bool:
    """Whether what the type says of itself is all that it does."""
    if what.does == "take":
        return kind.port(what.stores) is not None and all(p.role in _PLAIN for p in kind.ins)
    return True


def _shown(kind: Kind) -> dict[str, tuple[int, ...]]:
    """The outputs, beside the word, that are bits of it."""
    if kind.inside is None:
        return {}
    signals = {output.name: output.signal for output in kind.inside.outputs}
    at = {bit: i for i, bit in enumerate(signals[kind.word or ""])}
    return {
        name: tuple(at[bit] for bit in bits)
        for name, bits in signals.items()
        if name != kind.word and all(bit in at for bit in bits)
    }


@dataclass(frozen=True, slots=True)
class Word:
    """A stored word and what is at the ports of its part, as terms."""

    of: Stored
    bits: Bits
    ports: Mapping[str, Term]

    def at(self, role: PortRole) -> Term | None:
        """What feeds the port of a role, or nothing."""
        port = self.of.fed(role)
        found = self.ports[port] if port else None
        return None if role == "enable" and found == Constant("1") else found

    def ways(self) -> tuple[tuple[Term | None, Term], ...]:
        """What is stored at an edge, and when; fixed conditions are left out."""
        clear, load, enable = (self.at(role) for role in ("clear", "load", "enable"))
        zero = Constant("0" * self.of.width)
        found: list[tuple[Term | None, Term]] = []
        if clear is not None:
            found.append((clear, zero))
        if load is not None:
            found.append((load, self.ports[DATA]))
        exact = self._exact()
        if exact is not None:
            return tuple(_decided([*found, (None, exact)]))
        wraps = self.of.does == "count" and self.of.last != (1 << self.of.width) - 1
        if wraps and not isinstance(enable, Constant):
            last = self.at_last()
            found.append((last if enable is None else _all(enable, last), zero))
        found.append((enable, self.taken()))
        return tuple(_decided(found))

    def taken(self) -> Term:
        """What is stored where nothing else is said."""
        if self.of.does == "take":
            return self.ports[self.of.takes]
        if self.of.does == "count":
            return self._next()
        entering = self.ports[self.of.takes]
        if self.of.part.kind.setting("direction") == "left":
            return self._from_right(entering)
        right = self._from_left(entering)
        way = self.at("direction")
        if way is None:
            return right
        left = self._from_right(self.ports[OPPOSITE])
        return Operation("choose", (way, right, left), self.of.width)

    def _from_left(self, bit: Term) -> Term:
        return self._joined(bit, *self._slice(self.of.width - 1, 1))

    def _from_right(self, bit: Term) -> Term:
        return self._joined(*self._slice(self.of.width - 2, 0), bit)

    def _joined(self, *of: Term) -> Term:
        return of[0] if len(of) == 1 else Operation("join", of, self.of.width)

    def _slice(self, high: int, low: int) -> tuple[Bits, ...]:
        if high < low:
            return ()
        if high == low:
            return (Bits(self.bits.name, (high,)),)
        return (Bits(self.bits.name, (high, low), high - low + 1),)

    def _next(self) -> Term:
        """One more.

        A word that may be loaded may have some bits that are X: it is told bit by bit, since in
        both languages all bits of a sum are X as soon as one bit of a summand is.
        """
        if self.of.width == 1:
            return Operation("not", (self.bits,))
        if self.of.fed("load") is None:
            return Operation("next", (self.bits,), self.of.width)
        bits: list[Term] = []
        for i in reversed(range(self.of.width)):
            bit, below = Bits(self.bits.name, (i,)), self._slice(i - 1, 0)
            turns = Operation("and", below) if i > 1 else below[0] if below else None
            bits.append(Operation("xor", (bit, turns)) if turns else Operation("not", (bit,)))
        return Operation("join", tuple(bits), self.of.width)

    def _exact(self) -> Term | None:
        """What each bit becomes by the complete sum that the part says of itself (`Decided`).

        Of a counter with a modulus that may be loaded with some bits X.
        """
        kind = self.of.part.kind
        if self.of.does != "count" or self.of.fed("load") is None or not kind.decided:
            return None
        bits = [_any([self._product(terms) for terms in one.sum]) for one in kind.decided]
        return self._joined(*reversed(bits))

    def _product(self, terms: Terms) -> Term:
        some = [_any([self._literal(one) for one in terms.some])] if terms.some else []
        factors = (*map(self._literal, terms.every), *some)
        return factors[0] if len(factors) == 1 else Operation("and", factors)

    def _literal(self, one: Condition) -> Term:
        net, index, wanted = one
        bit = self.ports.get(net) or Bits(self.bits.name, (index,) if self.of.width > 1 else ())
        return bit if wanted else Operation("not", (bit,))

    def at_last(self) -> Term:
        """1 where a counter stands at its last state."""
        if self.of.width == 1:
            return self.bits if self.of.last else Operation("not", (self.bits,))
        if self.of.last == (1 << self.of.width) - 1:
            return Operation("and", (self.bits,))
        return Operation("equals", (self.bits, Constant(f"{self.of.last:0{self.of.width}b}")))

    def terminal(self) -> Term:
        """1 where a counter stands at its last state and counts."""
        enable = self.at("enable")
        return self.at_last() if enable is None else _all(enable, self.at_last())


def _any(terms: list[Term]) -> Term:
    return terms[0] if len(terms) == 1 else Operation("or", tuple(terms))


def _all(one: Term, other: Term) -> Term:
    return Operation("and", (one, other))


def _decided(
    ways: list[tuple[Term | None, Term]],
) -> list[tuple[Term | None, Term]]:
    """The ways without conditions that are constants: what is X is not 1."""
    found: list[tuple[Term | None, Term]] = []
    for condition, value in ways:
        if condition == Constant("1") or condition is None:
            return [*found, (None, value)]
        if not isinstance(condition, Constant):
            found.append((condition, value))
    return found
