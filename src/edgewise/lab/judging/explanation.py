"""What explains a wrong submission: only what is proved to, for all operands."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from itertools import combinations
from typing import Final, TypeAlias

from edgewise.bits import X
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lab.judging.comparison import compared
from edgewise.study.edits import circuit_edits, port_edits
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import faults
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.misconception import Misconception
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Fact, Words

LONGEST: Final = 20.0
"""Seconds for one proof, at most."""
_MOST_EXCHANGED: Final = 15
"""Pairs of ports that are tried exchanged."""


@dataclass(frozen=True)
class Explanation:
    """One thing that a submission is proved to follow for all operands.

    Parameters
    ----------
    kind : str
        ``start``, ``late``, ``early``, ``inverted``, ``low``, ``reversed``, ``exchanged``: right,
        but for that; ``idea``: a misconception, or several together; ``fault``: a single fault.
    names : tuple of str
        Ports, misconceptions, or the fault.
    form : str
        Of a fault, as messages name it.
    facts : tuple
        Of a fault.
    """

    kind: str
    names: tuple[str, ...] = ()
    form: str = ""
    facts: tuple[tuple[str, Fact], ...] = ()

    @property
    def name(self) -> str:
        """For programs: ``reversed sum``, ``carry-stays-set``."""
        named = " with ".join(self.names) if self.kind == "idea" else " ".join(self.names)
        return named if self.kind in ("idea", "fault") else f"{self.kind} {named}".strip()

    def said(self, words: Words = ENGLISH) -> str:
        """As a sentence."""
        if self.kind == "fault":
            told = words(f"fault-{self.form}", **dict(self.facts))
            return words("judged-fault", fault=told)
        if self.kind == "idea":
            thoughts = [f"{n} ({registry.find(n).said(words)})" for n in self.names]
            return words("judged-idea", ideas=listed(thoughts, words), count=len(thoughts))
        return words(f"judged-{self.kind}", names=listed(self.names, words), count=len(self.names))


Rival: TypeAlias = tuple[Explanation, Design, Design]
"""An explanation, and two designs that are equal if it holds."""


class Rivals:
    """What a wrong submission of a design may be instead; made once for several submissions.

    Parameters
    ----------
    design : Design
    """

    def __init__(self, design: Design) -> None:
        self.design = design

    def prepared(self) -> Rivals:
        """Itself, with what every wrong submission needs worked out already."""
        operands = {operand.name: 0 for operand in self.design.operands}
        for one in (self.design, *(changed for _, changed in self._ideas)):
            with suppress(EdgewiseError):  # an idea that makes no circuit of this design
                answers(one, operands)
        return self

    def explained(
        self, submitted: Design, operands: Mapping[str, int], deadline: float
    ) -> tuple[tuple[Explanation, ...], bool]:
        """What explains a submission, and whether all was tried before the deadline.

        Whatever is but for one thing right comes first, with single misconceptions; two of them
        together, and single faults, are tried only where those explain nothing.

        Parameters
        ----------
        submitted : Design
        operands : mapping of str to int
            For which it is wrong.
        deadline : float
            By `time.monotonic`.
        """
        search = _Search(operands, deadline)
        found = [*search.holding(self.but_for(submitted)), *search.holding(self.ideas(submitted))]
        for more in (self.pairs, self.faults):
            if not found:
                found = search.holding(more(submitted), first=True)
        return tuple(found), search.whole

    def but_for(self, submitted: Design) -> Iterator[Rival]:
        """The submission with one thing mended."""
        for told, mended in _mended(submitted, self.design):
            yield told, self.design, mended

    def ideas(self, submitted: Design) -> Iterator[Rival]:
        """The design under each misconception."""
        for one, changed in self._ideas:
            yield Explanation("idea", (one.name,)), changed, submitted

    def pairs(self, submitted: Design) -> Iterator[Rival]:
        """The design under two misconceptions."""
        for one, changed in self._ideas:
            for other, _ in self._ideas:
                both = None if other is one else _both(changed, other)
                if both is not None:
                    yield Explanation("idea", (one.name, other.name)), both, submitted

    def faults(self, submitted: Design) -> Iterator[Rival]:
        """The design with each single fault."""
        for one in self._faults:
            yield Explanation("fault", (one.name,), one.form, one.facts), one.design, submitted

    @cached_property
    def _ideas(self) -> tuple[tuple[Misconception, Design], ...]:
        return registry.applicable(self.design)

    @cached_property
    def _faults(self) -> tuple[Fault, ...]:
        return faults(self.design, inside=True)


class _Search:
    """Trying rivals: at one example first, then by a proof."""

    def __init__(self, operands: Mapping[str, int], deadline: float) -> None:
        self.operands, self.deadline, self.whole = operands, deadline, True

    def holding(self, rivals: Iterable[Rival], *, first: bool = False) -> list[Explanation]:
        """The explanations that are proved; with `first`, only the first of them."""
        found = []
        for told, *designs in rivals:
            left = self.deadline - time.monotonic()
            if left <= 0:
                self.whole = False
                break
            if self._holds(designs, min(left, LONGEST)):
                found.append(told)
                if first:
                    break
        return found

    def _holds(self, designs: Sequence[Design], seconds: float) -> bool:
        one, other = designs
        try:
            if answers(one, self.operands) != answers(other, self.operands):
                return False
            found = compared(one, other, seconds, exact=True)
        except EdgewiseError:  # an idea that makes no circuit of this design
            return False
        self.whole = self.whole and found.outcome != "undecided"
        return found.outcome == "proved"


def answers(design: Design, operands: Mapping[str, int]) -> dict[str, str]:
    """The answers of one run, by output."""
    run = reference.run(design, operands)
    rows = {p.output: p.after for p in design.computes} or dict.fromkeys(design.netlist.outputs)
    return {
        name: str(run.bits(design.netlist.outputs[name], run.edges if row is None else row))
        for name, row in rows.items()
    }


def _mended(submitted: Design, design: Design) -> Iterator[tuple[Explanation, Design]]:
    """The submission with one thing mended, and what that is."""
    netlist = submitted.netlist
    if any(one.start == X for one in netlist.flip_flops):
        yield Explanation("start"), _started(submitted)
    if design.edges:
        yield Explanation("late"), _shifted(submitted, 1)
        yield Explanation("early"), _shifted(submitted, -1)
    answers = [p.output for p in design.computes] or list(design.netlist.outputs)
    wide = [name for name in answers if len(netlist.outputs[name]) > 1]
    changes: tuple[tuple[str, Sequence[str], Callable[[Netlist, str], Netlist]], ...] = (
        ("inverted", answers, port_edits.inverted_output),
        ("reversed", wide, port_edits.reversed_output),
        (
            "low",
            [n for n, bits in netlist.inputs.items() if len(bits) == 1],
            port_edits.inverted_input,
        ),
    )
    for kind, ports, change in changes:
        for names in [(name,) for name in ports] + [tuple(ports)] * (len(ports) > 1):
            made = reduce(change, names, netlist)
            yield Explanation(kind, names), replace(submitted, altered=made)
    for names, mended in _exchanges(submitted, answers):
        yield Explanation("exchanged", names), mended


def _started(submitted: Design) -> Design:
    """The submission with 0 wherever the start is unknown."""
    return circuit_edits.with_flip_flops(
        submitted, lambda one: replace(one, start=0 if one.start == X else one.start)
    )


def _shifted(submitted: Design, step: int) -> Design:
    """The submission with its answers read some edges later."""
    return circuit_edits.longer(
        circuit_edits.read_after(submitted, lambda row: max(row + step, 0)), step
    )


def _exchanges(
    submitted: Design, outputs: Sequence[str]
) -> Iterator[tuple[tuple[str, ...], Design]]:
    """The submission with two inputs, or two outputs, in each other's place."""
    netlist = submitted.netlist
    for ports, change in (
        (netlist.inputs, port_edits.with_inputs),
        ({name: netlist.outputs[name] for name in outputs}, port_edits.with_outputs),
    ):
        pairs = [(a, b) for a, b in combinations(ports, 2) if len(ports[a]) == len(ports[b])]
        for a, b in pairs[:_MOST_EXCHANGED]:
            made = change(netlist, {a: ports[b], b: ports[a]})
            yield (a, b), replace(submitted, altered=made)


def _both(changed: Design, other: Misconception) -> Design | None:
    """What a second misconception makes of a design that has one."""
    try:
        return other.of(changed)
    except EdgewiseError:
        return None
