"""Breaking a design: which single faults an example detects, and what detects the others."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Any, Final

from edgewise.design import Design
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.replay import bits_of, truths
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import unroll
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import BENCH_CAUTION, faults, share
from edgewise.study.operands import legibility, lexicographic
from edgewise.study.operands.choose import EXHAUSTIVE, told
from edgewise.study.operands.criteria import answer, differ
from edgewise.study.operands.lexicographic import Progress
from edgewise.words import commands
from edgewise.words.lists import equations, listed

_TINY: Final = 4
"""Sums below this one are tried before the solver is asked …"""
_TINY_SETS: Final = 100
"""… as long as there are no more sets than this."""
_SECONDS: Final = 20.0
"""For all questions to the solver together, where there are too many sets to look at."""


@dataclass(frozen=True, slots=True)
class Line:
    """One fault, and what detects it.

    Parameters
    ----------
    fault : Fault
    answer : str
        What the faulty design gives for the example: ``sum 000000, carry 0``; X where the
        answer is unknown, and may come out right by luck.
    detected : bool
        Whether that differs from the right answer.
    smallest : mapping of str to int, optional
        Operands with the smallest sum that detect the fault; None where none are known.
    sets : int, optional
        How many operand sets detect it; None where that is not known. 0 is sure.
    """

    fault: Fault
    answer: str
    detected: bool
    smallest: Mapping[str, int] | None
    sets: int | None

    @property
    def never(self) -> bool:
        """Whether it is sure that no operands detect it."""
        return self.sets == 0

    @property
    def detected_by(self) -> str:
        """``a = 0, b = 1``; ``no operands``; ``not known``; ``-`` where there are none at all."""
        if self.smallest is None:
            return commands.say("break-no-operands" if self.never else "break-not-known")
        return equations(self.smallest.items()) or "-"


@dataclass(frozen=True)
class Breakage:
    """What single faults do to a design.

    Parameters
    ----------
    design : str
    operands : mapping of str to int
        The example.
    truth : str
        The right answer to it.
    lines : tuple of Line
    exhaustive : bool
        Whether all operand sets were looked at; if not, a solver was asked, and the operands
        that it found need not be the smallest.
    sets : int
        Number of operand sets.
    drawn : tuple of (int, int)
        Of how many wires, and branches inside, faults were tried, and how many there are; alike
        unless it is large.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> broken = breakage(catalogue.design("serial-adder", n=4), {"a": 5, "b": 2})
    >>> [line.detected_by for line in broken.lines if line.fault.name == "C stuck at 0"]
    ['a = 1, b = 1']
    """

    design: str
    operands: Mapping[str, int]
    truth: str
    lines: tuple[Line, ...]
    exhaustive: bool
    sets: int
    drawn: tuple[int, int] = (0, 0)

    @property
    def coverage(self) -> float:
        """The fault coverage of the example: the share of the faults that it detects.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> broken = breakage(catalogue.design("serial-adder", n=4), {"a": 3, "b": 7})
        >>> f"{broken.coverage:.1%}"
        '82.5%'
        """
        detected = sum(line.detected for line in self.lines)
        return detected / len(self.lines) if self.lines else 1.0

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to say beside faults that are tried in a lab."""
        said = (BENCH_CAUTION, *(c for line in self.lines for c in line.fault.cautions))
        return tuple(dict.fromkeys(said))

    def sentences(self) -> tuple[str, ...]:
        """In words, with the cautions at the end."""
        return (*self._said(), *self.cautions)

    def _said(self) -> Iterator[str]:
        given = equations(self.operands.items())
        missed = [line for line in self.lines if not line.detected and line.smallest is not None]
        never = [line.fault.name for line in self.lines if line.never]
        open_ = [line for line in self.lines if line.smallest is None and not line.never]
        yield commands.say(
            "break-coverage",
            example=commands.say("break-example", given=given)
            if given
            else commands.say("break-run"),
            detected=sum(line.detected for line in self.lines),
            count=len(self.lines),
            percent=f"{100 * self.coverage:.1f}",
        )
        broken, wires = self.drawn
        if broken < wires:
            yield commands.say("break-wires", broken=broken, wires=wires)
        if missed:
            told = [
                commands.say("break-by", fault=line.fault.name, operands=line.detected_by)
                for line in missed
            ]
            yield commands.say("break-others", names=listed(told, most=6))
        if never:
            which = "operands" if given else "none"
            yield commands.say("break-never", given=which, names=listed(never, most=8))
        if open_:
            names = listed([line.fault.name for line in open_], most=8)
            yield commands.say("break-open", names=names)

    def table(self) -> tuple[tuple[str, ...], ...]:
        """Cells as text: a heading, then a line for each fault."""
        columns = ("fault", "answer", "detected", "smallest")
        return (
            tuple(commands.say(f"break-column-{column}") for column in columns),
            *(
                (
                    line.fault.name,
                    line.answer,
                    commands.say("break-yes" if line.detected else "break-no"),
                    line.detected_by,
                )
                for line in self.lines
            ),
        )

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists, for JSON."""
        return {
            "design": self.design,
            "operands": dict(self.operands),
            "answer": self.truth,
            "exhaustive": self.exhaustive,
            "sets": self.sets,
            "wires": {"broken": self.drawn[0], "all": self.drawn[1]},
            "fault coverage": round(100 * self.coverage, 1),
            "faults": [
                {
                    "kind": line.fault.kind,
                    "fault": line.fault.name,
                    "where": list(line.fault.where),
                    "sentence": line.fault.sentence,
                    "answer": line.answer,
                    "detected": line.detected,
                    "smallest": line.smallest and dict(line.smallest),
                    "detected by": line.sets,
                }
                for line in self.lines
            ],
            "sentences": list(self.sentences()),
        }


def breakage(
    design: Design,
    operands: Mapping[str, int | Sequence[int]],
    tried: Sequence[Fault] | None = None,
    progress: Progress | None = None,
    *,
    inside: bool = False,
) -> Breakage:
    """Try single faults on a design.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int
        The example.
    tried : sequence of Fault, optional
        All of `edgewise.study.faults.models.faults` unless given.
    progress : function, optional
        Is told (faults done, faults in all), then (sets done, sets in all).
    inside : bool
        Whether `tried` has faults inside parts; as for `edgewise.study.faults.models.faults`.

    Raises
    ------
    DesignError
        Operands that don't fit.
    """
    given = design.values(operands)
    found = faults(design, inside=inside) if tried is None else tuple(tried)
    terms = Terms()
    shown = detections(design, found, terms, progress)
    truth = told(design, given)
    smallest = _smallest(design, terms, shown, progress)
    lines = []
    for fault, (numbers, sets) in zip(found, smallest, strict=True):
        said = told(fault.design, given)
        lines.append(Line(fault, said, said != truth, numbers, sets))
    bits = sum(operand.width for operand in design.operands)
    drawn = share(design, inside=inside)
    return Breakage(design.name, given, truth, tuple(lines), bits <= EXHAUSTIVE, 1 << bits, drawn)


def detections(
    design: Design, found: Sequence[Fault], terms: Terms, progress: Progress | None = None
) -> tuple[Term, ...]:
    """For each fault, where its answer differs from the right one."""
    truth = answer(design, unroll(design, terms))
    differing = []
    for number, fault in enumerate(found):
        differing.append(differ(terms, truth, answer(fault.design, unroll(fault.design, terms))))
        if progress is not None:
            progress(number + 1, len(found))
    return tuple(differing)


def _smallest(
    design: Design, terms: Terms, shown: Sequence[Term], progress: Progress | None
) -> list[tuple[dict[str, int] | None, int | None]]:
    space = Space.of(design)
    planes = lexicographic.small(legibility.total(terms, space))
    if sum(operand.width for operand in design.operands) <= EXHAUSTIVE:
        best = lexicographic.best_each(terms, shown, planes, space, progress)
        return [(None if n is None else space.decode(n), sets) for n, sets in best]
    found = _tiny(design, terms, shown)
    answers: list[tuple[dict[str, int] | None, int | None]] = []
    with Session(terms, time.monotonic() + _SECONDS) as session:
        for i, term in enumerate(shown):
            if i in found:
                answers.append((found[i], None))
            else:
                possible, operands = lexicographic.solved(session, term, planes, space)
                answers.append((operands, 0 if possible is False else None))
    return answers


def _tiny(design: Design, terms: Terms, shown: Sequence[Term]) -> dict[int, dict[str, int]]:
    """Of the sets with the smallest sums, the first that detects each fault; most are detected."""
    names = [operand.name for operand in design.operands]
    largest = {operand.name: operand.numbers[-1] for operand in design.operands}
    found: dict[int, dict[str, int]] = {}
    tried = 0
    for total in range(_TINY):
        if tried + math.comb(total + len(names) - 1, total) > _TINY_SETS:
            break
        for where in reversed(list(combinations_with_replacement(names, total))):
            operands = {name: where.count(name) for name in names}
            if any(value > largest[name] for name, value in operands.items()):
                continue
            tried += 1
            bits = bits_of(operands, design.operands)
            left = [i for i in range(len(shown)) if i not in found]
            holds = truths(terms, [shown[i] for i in left], bits)
            found.update({i: operands for i, one in zip(left, holds, strict=True) if one})
    return found
