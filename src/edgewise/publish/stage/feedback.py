"""Feedback: registers that are fed from bits of their own, and where it enters."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.publish.stage.storage import Family, families
from edgewise.publish.stage.word_names import WordNames


@dataclass(frozen=True, slots=True)
class Feedback:
    """What is fed back into a word.

    Parameters
    ----------
    name : str
        Of the word, as `Family.name`.
    net : int
        What is fed back.
    source : str
        The bits that it is made of: ``R(3) XOR bit_in``.
    taps : tuple of str
        The stages of a word of single flip-flops which it enters; none for a shift register,
        which it enters at its end.
    """

    name: str
    net: int
    source: str
    taps: tuple[str, ...] = ()

    def data(self) -> list[Any]:
        """As plain lists."""
        return [self.name, self.net, self.source, list(self.taps)]


def feedback(design: Design, names: WordNames | None = None) -> tuple[Feedback, ...]:
    """The words of a design that are fed from bits of their own; `names` are its own, if at hand.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [(f.source, f.taps) for f in feedback(catalogue.design("crc-register", n=4))]
    [('bit_in XOR R(3)', ('R(0)', 'R(1)'))]
    >>> [f.source for f in feedback(catalogue.design("johnson-counter", n=4))]
    ['NOT R(0)']
    """
    names = names or WordNames(design)
    found = []
    for family in families(names.stores):
        found += [*_shifted(family, names), *_tapped(family, names)]
    return tuple(found)


def _shifted(family: Family, names: WordNames) -> Iterator[Feedback]:
    """A shift register whose input is made of its own bits."""
    (*others, one) = family.members
    if others or one.does != "shift" or len(one.takes) != 1:
        return
    if set(one.q).intersection(names.terms(one.takes[0])):
        yield Feedback(family.name, one.takes[0], names.expression(one.takes[0]))


def _tapped(family: Family, names: WordNames) -> Iterator[Feedback]:
    """Flip-flops in a row, each taking the one below, some XORed with what is fed back."""
    stages = family.members[::-1]
    if len(stages) < 2 or any((len(s.q), s.does) != (1, "take") for s in stages):
        return
    own = {stage.q[0] for stage in stages}
    back = stages[0].takes[0]
    if own.isdisjoint(names.terms(back)):
        return
    taps = [stages[0].name]
    for below, stage in itertools.pairwise(stages):
        (taken,) = stage.takes
        if taken == below.q[0]:
            continue
        gate = names.drivers.get(taken)
        if (
            gate is None
            or function(gate.operator).plain != "xor"
            or sorted(gate.inputs) != sorted((back, below.q[0]))
        ):
            return
        taps.append(stage.name)
    yield Feedback(family.name, back, names.expression(back), tuple(taps))
