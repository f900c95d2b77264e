"""Papers: a Markdown file of questions, and its equally hard variants, each with a short code."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import Final

from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Message, Place, raise_all
from edgewise.lesson.checking import again, check
from edgewise.lesson.question import Asked
from edgewise.lesson.report import Report
from edgewise.practice import identity, paper_code
from edgewise.practice.given import copied
from edgewise.practice.paper_code import PaperCode
from edgewise.practice.question import Question
from edgewise.practice.task import Refused
from edgewise.practice.variant import Equality, Papers, Variant, spread
from edgewise.practice.variants import TIERS, Inquiry, Subject
from edgewise.words.lists import equations

__all__ = ["Paper", "Papers", "Variant", "read_paper"]

_NONE: Final[tuple[tuple[str, int], ...]] = ()


class NoPaper(EdgewiseError):
    """A lesson that has no questions."""


class TooFew(EdgewiseError):
    """There are fewer equally hard variants than asked for."""


@dataclass
class _Drawn:
    """Variants of one seed, made in their order as far as somebody asks."""

    paper: Paper
    seed: int
    tier: int
    found: list[Variant] = field(default_factory=list)
    refused: int = 0
    tried: int = 0

    @cached_property
    def _orders(self) -> list[tuple[int, ...]]:
        # A stream for each run: two runs of the same width are not to get the same numbers.
        subjects, tier = self.paper.subjects, TIERS[self.tier]
        return [one.pools[tier].order(self.seed + 7919 * i) for i, one in enumerate(subjects)]

    def at(self, number: int) -> Variant:
        while len(self.found) <= number:
            if self.tried >= self.paper.exist(TIERS[self.tier]):
                raise self.paper.too_few(number + 1, len(self.found))
            self.tried += 1
            try:
                self.found.append(self._made(self.tried - 1, len(self.found)))
            except Refused:
                self.refused += 1
        return self.found[number]

    def _made(self, turn: int, number: int) -> Variant:
        paper = self.paper
        operands: list[Mapping[str, int]] = [
            one.space.decode(order[turn])
            for one, order in zip(paper.subjects, self._orders, strict=True)
        ]
        code = PaperCode(self.seed, self.tier, number).text(paper.identity)
        return paper.made(code, number, operands)


@dataclass(frozen=True)
class Paper:
    """A file of questions.

    Parameters
    ----------
    path : Path
    report : Report
        The file as it stands, with the author's operands: everything in it is checked.
    """

    path: Path
    report: Report
    _drawn: dict[tuple[int, int], _Drawn] = field(default_factory=dict, repr=False)

    @cached_property
    def asked(self) -> tuple[Asked, ...]:
        """The questions as the author asks them, in order."""
        return tuple(p for p in self.report.pieces.values() if isinstance(p, Asked))

    @cached_property
    def _runs(self) -> Mapping[tuple[tuple[str, int], ...], tuple[Asked, ...]]:
        """The questions by the operands of their own; the paper's run first."""
        runs: dict[tuple[tuple[str, int], ...], list[Asked]] = {_NONE: []}
        for one in self.asked:
            own = one.task.operands
            runs.setdefault(_NONE if own is None else tuple(own.items()), []).append(one)
        return {key: tuple(ones) for key, ones in runs.items()}

    @cached_property
    def subjects(self) -> tuple[Subject, ...]:
        """The runs that its questions are about, the paper's own first."""
        believers = self.asked[0].believers
        return tuple(
            Subject(
                believers,
                dict(key) if key else dict(self.report.trace.operands),
                tuple(
                    Inquiry(one.task.spots, one.question.tells, one.task.given)
                    for one in ones
                    if one.task.spots
                ),
                tuple(
                    term for one in ones for term in one.task.needs(believers, one.question.tells)
                ),
            )
            for key, ones in self._runs.items()
        )

    @cached_property
    def identity(self) -> str:
        """What its codes belong to: the circuit, the runs and the questions, not their wording."""
        told = list(identity.told(self.report.trace.design))
        told += [str(tuple(one.operands.items())) for one in self.subjects]
        told += [f"{asked.task.known_by} {asked.question.tells}" for asked in self.asked]
        return "\n".join(told)

    def exist(self, tier: str) -> int:
        """How many variants of a tier there are, no run twice among them."""
        return min(len(one.pools[tier].numbers) for one in self.subjects)

    def too_few(self, asked: int, found: int) -> TooFew:
        """The error where there are not so many."""
        exhaustive = all(subject.exhaustive for subject in self.subjects)
        message = "variants-few" if exhaustive else "variants-few-tried"
        return TooFew(Message(message, count=found, asked=asked), Place(str(self.path)))

    def _tier(self, number: int) -> int:
        """The most equal tier that has so many variants."""
        try:
            enough = (i for i, tier in enumerate(TIERS) if self.exist(tier) >= number)
            index = next(enough, None)
        except EdgewiseError as wrong:  # too many operand bits
            raise wrong.placed(Place(str(self.path))) from None
        if index is not None:
            return index
        raise self.too_few(number, self.exist(TIERS[-1]))

    def variants(self, number: int, seed: int = 1) -> Papers:
        """So many papers; the same seed gives the same ones.

        Raises
        ------
        TooFew
            There are not so many that are equally hard.

        Examples
        --------
        >>> papers = read_paper(Path("examples/three-gauges-paper.md")).variants(3, seed=5)
        >>> len({tuple(one.operands.values()) for one in papers.variants})
        3
        """
        if not 1 <= number <= paper_code.MOST:
            raise EdgewiseError(Message("variants-expected", count=number, most=paper_code.MOST))
        if not 0 <= seed <= paper_code.MOST_SEED:
            raise EdgewiseError(Message("seed-outside", seed=seed, most=paper_code.MOST_SEED))
        for tier in range(self._tier(number), len(TIERS)):
            drawn = self._of(seed, tier)
            try:
                drawn.at(number - 1)
            except TooFew:
                if tier == len(TIERS) - 1:
                    raise
                continue
            made = tuple(drawn.found[:number])
            equality = self._equality(tier, drawn.refused, made)
            return Papers(self.path, self.report, seed, made, equality)
        raise AssertionError(number)

    def _equality(self, tier: int, refused: int, made: tuple[Variant, ...]) -> Equality:
        exhaustive = all(subject.exhaustive for subject in self.subjects)
        return Equality(TIERS[tier], self.exist(TIERS[tier]), exhaustive, refused, spread(made))

    def variant(self, code: str) -> Variant:
        """The paper of a code.

        Raises
        ------
        EdgewiseError
            It is no code of this paper.
        """
        read = paper_code.read(code, self.identity)
        if read.tier >= len(TIERS) or read.number >= paper_code.MOST:
            raise paper_code.unknown(code)
        try:
            return self._of(read.seed, read.tier).at(read.number)
        except TooFew:
            raise paper_code.unknown(code) from None

    def _of(self, seed: int, tier: int) -> _Drawn:
        return self._drawn.setdefault((seed, tier), _Drawn(self, seed, tier))

    def made(self, code: str, number: int, operands: list[Mapping[str, int]]) -> Variant:
        """The paper with these operands, one set for each of `subjects`.

        Raises
        ------
        Refused
            A question can't be asked of them.
        """
        design = self.report.trace.design
        traces = [reference.run(design, one) for one in operands]
        questions: dict[Place, Question] = {}
        for trace, ones in zip(traces, self._runs.values(), strict=True):
            for one in ones:
                # Its own stream, so that one question's order tells nothing of another's.
                shuffle = random.Random(f"{code} {one.task.name}")  # noqa: S311
                tells = one.question.tells
                questions[one.task.place] = one.task.question(one.believers, trace, shuffle, tells)
        in_order = tuple(questions[one.task.place] for one in self.asked)
        pieces = {
            one.task.place: replace(one, question=questions[one.task.place]) for one in self.asked
        }
        features = tuple(
            subject.features(trace.operands)
            for subject, trace in zip(self.subjects, traces, strict=True)
        )
        try:
            report = again(self.report, traces[0], pieces)
        except EdgewiseError as wrong:
            given = equations(tuple(traces[0].operands.items()))
            raise wrong.parts()[0].within(Message("in-paper", given=given)) from None
        return Variant(code, number + 1, report, in_order, features)

    def __iter__(self) -> Iterator[Question]:
        """The questions with the author's own operands."""
        return (asked.question for asked in self.asked)


def read_paper(path: Path) -> Paper:
    """Read a file of questions, and check everything in it.

    Raises
    ------
    NoPaper
        There are no questions in it.
    EdgewiseError or Problems
        Everything that is wrong with it; each question that would not be fair, with the reason.
    """
    report = check(path)
    paper = Paper(path, report)
    if not paper.asked:
        raise NoPaper(Message("questions-none"), Place(str(path)))
    raise_all(copied(report, paper.asked))
    return paper
