"""Breaking a design: which single faults an example detects, and what detects the others."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Any, Final

from edgewise.circuit.parts import count
from edgewise.design import Design
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.replay import bits_of, truths
from edgewise.engines.sat import bounded
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import unroll
from edgewise.errors import DesignError
from edgewise.study.faults.models import BENCH_CAUTION, Fault, faults, share
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
        return equations([*self.smallest.items()]) or "-"


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
        Of how many wires faults were tried, and how many there are; alike unless it is large.

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
        given = equations([*self.operands.items()])
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
    with bounded.Session(terms, time.monotonic() + _SECONDS) as session:
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
    largest = {operand.name: (1 << operand.width) - 1 for operand in design.operands}
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


# ---------------------------------------------------------------------- fewest examples


@dataclass(frozen=True, slots=True)
class CoveringSet:
    """Operand sets that together detect every fault that can be detected.

    Parameters
    ----------
    operands : tuple of mapping of str to int
    faults : int
        How many faults they detect.
    fewest : bool
        Whether no smaller number of sets does; if False, the search was cut short.
    """

    operands: tuple[Mapping[str, int], ...]
    faults: int
    fewest: bool


MOST_SETS: Final = 12
"""Operand bits up to which the fewest examples are looked for."""
_TRIES: Final = 200_000
"""Steps of the search, at most."""


def fewest_examples(design: Design, tried: Sequence[Fault] | None = None) -> CoveringSet:
    """The fewest operand sets that detect every fault that any operands detect.

    Only for designs of up to 12 operand bits: the search is exact as far as its steps reach.

    Raises
    ------
    DesignError
        Too many operand bits.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = fewest_examples(catalogue.design("serial-in-parallel-out", n=4))
    >>> found.fewest, [dict(one) for one in found.operands]
    (True, [{'w': 0}, {'w': 1}])
    """
    space, terms = Space.of(design), Terms()
    if space.bits > MOST_SETS:
        raise DesignError(
            f"{design.name} has {count(space.bits, 'operand bit')}; the fewest examples are looked"
            f" for up to {MOST_SETS}: take smaller parameters"
        )
    found = faults(design) if tried is None else tuple(tried)
    masks = [m for m in compiler.masks(terms, detections(design, found, terms), space) if m]
    chosen, exact = cover(masks)
    return CoveringSet(tuple(space.decode(number) for number in chosen), len(masks), exact)


def cover(masks: Sequence[int]) -> tuple[tuple[int, ...], bool]:
    """The fewest positions such that each mask has a 1 at one of them; whether that is sure.

    Examples
    --------
    >>> cover([0b0011, 0b0110, 0b1100])
    ((1, 2), True)
    """
    needed: list[int] = []
    for mask in sorted(set(masks), key=int.bit_count):
        if not any(mask & other == other for other in needed):
            needed.append(mask)
    search = _Cover(needed)
    greedy = search.greedy()
    for size in range(len(greedy)):
        better = search.within(0, size)
        if search.steps > _TRIES:
            return greedy, False
        if better is not None:
            return tuple(sorted(better)), True
    return greedy, True


class _Cover:
    def __init__(self, needed: list[int]) -> None:
        self.needed, self.steps = needed, 0
        columns: dict[int, int] = {}
        for row, mask in enumerate(needed):
            for position in _ones(mask):
                columns[position] = columns.get(position, 0) | 1 << row
        self.columns: dict[int, int] = {}
        """Position by what it covers; of equals the lowest, none that another one outdoes."""
        for position, covers in sorted(
            columns.items(), key=lambda one: (-one[1].bit_count(), one[0])
        ):
            if not any(covers & other == covers for other in self.columns):
                self.columns[covers] = position

    def greedy(self) -> tuple[int, ...]:
        left, chosen = (1 << len(self.needed)) - 1, []
        while left:
            covers = max(self.columns, key=lambda c: (c & left).bit_count())
            chosen.append(self.columns[covers])
            left &= ~covers
        return tuple(sorted(chosen))

    def within(self, covered: int, size: int) -> list[int] | None:
        """Positions that cover what is left, at most `size`."""
        left = ((1 << len(self.needed)) - 1) & ~covered
        if not left:
            return []
        self.steps += 1
        if not size or self.steps > _TRIES:
            return None
        row = min(_ones(left), key=lambda r: self.needed[r].bit_count())
        for covers, position in self.columns.items():
            if covers >> row & 1:
                rest = self.within(covered | covers, size - 1)
                if rest is not None:
                    return [position, *rest]
        return None


def _ones(mask: int) -> list[int]:
    return [i for i in range(mask.bit_length()) if mask >> i & 1]
