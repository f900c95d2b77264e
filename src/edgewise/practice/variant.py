"""Variants of a paper: each with its questions, and how equal they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from edgewise.lesson.report import Report
from edgewise.practice.question import Question
from edgewise.practice.variants import Features
from edgewise.words.commands import say
from edgewise.words.lists import listed


@dataclass(frozen=True)
class Variant:
    """One paper.

    Parameters
    ----------
    code : str
        By which it is known: ``M0GWX``.
    number : int
        From 1.
    report : Report
        The paper's text with its own operands; its questions are these.
    questions : tuple of Question
        In order.
    features : tuple of Features
        Of each run that the questions are about.
    """

    code: str
    number: int
    report: Report = field(repr=False)
    questions: tuple[Question, ...] = field(repr=False)
    features: tuple[Features, ...] = ()

    @property
    def marks(self) -> int:
        """For everything right."""
        return sum(question.marks for question in self.questions)

    @property
    def operands(self) -> Mapping[str, int]:
        """Of the paper's own run."""
        return self.report.trace.operands

    @property
    def headings(self) -> tuple[str, ...]:
        """The columns of an answer sheet, question by question."""
        return tuple(heading for one in self.questions for heading in one.headings)

    @property
    def titles(self) -> tuple[str, ...]:
        """The same in the language of the paper."""
        return tuple(title for one in self.questions for title in one.titles(self.report.words))


@dataclass(frozen=True, slots=True)
class Equality:
    """How equal the variants of one seed are.

    Parameters
    ----------
    tier : str
        One of `edgewise.practice.variants.TIERS`.
    exist : int
        Such variants, no run twice among them.
    exhaustive : bool
        Whether that is all there are; else those that were found.
    refused : int
        Of those that were drawn, those of which a question could not be asked.
    spread : tuple of (str, int, int)
        Each feature with its least and its greatest number.
    """

    tier: str
    exist: int
    exhaustive: bool
    refused: int
    spread: tuple[tuple[str, int, int], ...]

    @property
    def unequal(self) -> tuple[tuple[str, int, int], ...]:
        """The features in which the papers differ."""
        return tuple(one for one in self.spread if one[1] != one[2])


@dataclass(frozen=True)
class Papers:
    """All variants of one seed that were asked for, and how equal they are.

    Parameters
    ----------
    path : Path
        Of the file of questions.
    report : Report
        The file with the author's operands.
    seed : int
    variants : tuple of Variant
    equality : Equality
    """

    path: Path
    report: Report = field(repr=False)
    seed: int
    variants: tuple[Variant, ...]
    equality: Equality

    def sentences(self) -> tuple[str, ...]:
        """What was made, how equal the papers are, and how many such there are."""
        return tuple(self._said())

    def _said(self) -> Iterator[str]:
        first, equal = self.variants[0], self.equality
        yield say(
            "papers-made",
            papers=len(self.variants),
            questions=len(first.questions),
            marks=first.marks,
            seed=self.seed,
            codes=_span(first.code, self.variants[-1].code),
        )
        called = {
            name: say("bracketed", what=say(f"feature-{name}"), told=_span(low, high))
            for name, low, high in equal.spread
        }
        unlike = [called[name] for name, *_ in equal.unequal]
        if len(self.variants) > 1:
            alike = [told for told in called.values() if told not in unlike]
            yield say("papers-equal", features=listed(alike))
            if unlike:
                yield say("papers-unequal", features=listed(unlike))
        yield say("papers-levels", levels=", ".join(self._levels()))
        each = "runs" if len(first.features) > 1 else "operands"
        exist = "papers-exist" if equal.exhaustive else "papers-found"
        yield say(exist, count=equal.exist, each=each)
        if equal.refused:
            yield say("papers-refused", count=equal.refused)

    def _levels(self) -> Iterator[str]:
        for same in zip(*(one.questions for one in self.variants), strict=True):
            levels = sorted({question.level.number for question in same})
            yield f"{same[0].name} {_span(levels[0], levels[-1])}"

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists."""
        equal = self.equality
        return {
            "paper": str(self.path),
            "seed": self.seed,
            "equality": {
                "kind": equal.tier,
                "exist": equal.exist,
                "all looked at": equal.exhaustive,
                "refused": equal.refused,
                "features": {name: [low, high] for name, low, high in equal.spread},
            },
            "papers": [
                {
                    "code": one.code,
                    "operands": dict(one.operands),
                    "marks": one.marks,
                    "questions": [
                        {
                            "name": q.name,
                            "asks": q.kind,
                            "marks": q.marks,
                            "level": q.level.number,
                            "tells": list(q.tells),
                            "answers": {h: q.expected(h) for h in q.headings},
                        }
                        for q in one.questions
                    ],
                }
                for one in self.variants
            ],
            "sentences": list(self.sentences()),
        }


def spread(made: Sequence[Variant]) -> tuple[tuple[str, int, int], ...]:
    """Each feature of some papers, and the digits to write, with its least and its greatest."""
    found = [
        (one.name, min(values), max(values))
        for one in fields(Features)
        for values in ([_over_runs(one.name, v.features) for v in made],)
    ]
    digits = [sum(q.level.digits for q in v.questions) for v in made]
    return (*found, ("digits", min(digits), max(digits)))


def _over_runs(name: str, features: Sequence[Features]) -> int:
    """A feature of all runs of a paper together; of the chains the longest."""
    numbers = [getattr(one, name) for one in features]
    return max(numbers) if name == "chain" else sum(numbers)


def _span(first: int | str, last: int | str) -> str:
    return str(first) if first == last else say("papers-span", first=first, last=last)
