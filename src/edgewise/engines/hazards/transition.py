"""What may happen at a net while one input changes: start, end, and whether it is clean.

A net is *clean* if it changes once where it has to, and never where it has not, however long each
gate and each wire takes. Otherwise it has a hazard: a static one, where it ends as it began, or a
dynamic one. For inputs that do not change this is the ternary simulation of E. Eichelberger,
"Hazard detection in combinational and sequential switching circuits", IBM J. Res. Dev. 9(2), 1965
(from memory); dynamic hazards need start and end as well. A gate by itself, the multiplexer too,
makes no pulse while one of its inputs changes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Generic

from edgewise.bits import Bit, X
from edgewise.circuit.truth import B, Logic


@dataclass(frozen=True, slots=True)
class Transition(Generic[B]):
    """A net while an input changes; `dirty` where it may change more often than it has to."""

    start: B
    end: B
    dirty: B


@dataclass(frozen=True, slots=True)
class Transitions(Generic[B]):
    """The five operations on transitions, over any logic whose bits are known.

    Examples
    --------
    An AND gate one of whose inputs rises while the other falls, and an OR gate likewise:

    >>> from edgewise.circuit.truth import KLEENE
    >>> logic = Transitions(KLEENE)
    >>> rises, falls = Transition(0, 1, 0), Transition(1, 0, 0)
    >>> logic.all_of([rises, falls])
    Transition(start=0, end=0, dirty=1)
    >>> logic.any_of([rises, falls]).dirty, logic.any_of([rises, logic.constant(1)]).dirty
    (1, 0)
    """

    logic: Logic[B]

    def constant(self, bit: Bit) -> Transition[B]:
        """A bit that stays; of an unknown one anything may come."""
        zero, one = self.logic.constant(0), self.logic.constant(1)
        if bit == X:
            return Transition(zero, zero, one)
        stays = one if bit else zero
        return Transition(stays, stays, zero)

    def bit_not(self, a: Transition[B]) -> Transition[B]:
        """NOT."""
        return Transition(self.logic.bit_not(a.start), self.logic.bit_not(a.end), a.dirty)

    def all_of(self, bits: Sequence[Transition[B]]) -> Transition[B]:
        """AND: not clean where one rises and one falls; clean where one stays 0."""
        logic = self.logic
        turned = [self.bit_not(bit) for bit in bits]
        both = list(zip(turned, bits, strict=True))
        rises = logic.any_of([logic.all_of([no.start, bit.end]) for no, bit in both])
        falls = logic.any_of([logic.all_of([bit.start, no.end]) for no, bit in both])
        shut = [logic.all_of([no.start, no.end, logic.bit_not(no.dirty)]) for no in turned]
        dirty = logic.any_of([*(bit.dirty for bit in bits), logic.all_of([rises, falls])])
        return Transition(
            logic.all_of([bit.start for bit in bits]),
            logic.all_of([bit.end for bit in bits]),
            logic.all_of([dirty, logic.bit_not(logic.any_of(shut))]),
        )

    def any_of(self, bits: Sequence[Transition[B]]) -> Transition[B]:
        """OR: by De Morgan."""
        return self.bit_not(self.all_of([self.bit_not(bit) for bit in bits]))

    def odd(self, bits: Sequence[Transition[B]]) -> Transition[B]:
        """XOR: not clean where two change."""
        return reduce(self._either, bits)

    def _either(self, a: Transition[B], b: Transition[B]) -> Transition[B]:
        logic = self.logic
        both = logic.all_of([self.changes(a), self.changes(b)])
        return Transition(
            logic.odd([a.start, b.start]),
            logic.odd([a.end, b.end]),
            logic.any_of([a.dirty, b.dirty, both]),
        )

    def bit_mux(
        self, select: Transition[B], when_0: Transition[B], when_1: Transition[B]
    ) -> Transition[B]:
        """Multiplexer, a gate of its own: clean where it chooses between two that stay alike."""
        logic = self.logic
        start = logic.bit_mux(select.start, when_0.start, when_1.start)
        end = logic.bit_mux(select.end, when_0.end, when_1.end)
        first, second = self.changes(when_0), self.changes(when_1)
        data = [when_0.dirty, when_1.dirty, first, second]
        alike = logic.bit_not(logic.any_of([*data, logic.odd([when_0.start, when_1.start])]))
        returns = logic.all_of([logic.any_of([first, second]), self._same(start, end)])
        moving = logic.any_of([select.dirty, *data[:2], logic.all_of([first, second]), returns])
        chosen = logic.bit_mux(select.start, when_0.dirty, when_1.dirty)
        still = logic.bit_not(logic.any_of([select.dirty, self.changes(select)]))
        moving = logic.all_of([moving, logic.bit_not(alike)])
        return Transition(start, end, logic.bit_mux(still, moving, chosen))

    def unsure(self, bit: Transition[B]) -> bool:  # noqa: ARG002  # as every logic
        """Never: what part around a gate decides does not count."""
        return False

    def changes(self, one: Transition[B]) -> B:
        """Whether it ends otherwise than it starts."""
        return self.logic.odd([one.start, one.end])

    def _same(self, a: B, b: B) -> B:
        return self.logic.bit_not(self.logic.odd([a, b]))
