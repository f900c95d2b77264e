"""Papers and answer sheets made up for the tests of marking."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.practice.marking.beliefs import Belief, truth
from edgewise.practice.table_question import Cell, TableQuestion
from edgewise.words.messages import Words


@dataclass(frozen=True)
class Filled:
    """A question that asks for cells."""

    table: TableQuestion

    reads = "cells"
    wrong: tuple[tuple[str, str], ...] = ()

    @property
    def name(self) -> str:
        return self.table.name

    @property
    def marks(self) -> int:
        return self.table.marks

    @property
    def cells_asked(self) -> TableQuestion:
        return self.table

    @property
    def headings(self) -> tuple[str, ...]:
        return tuple(f"{self.name}: {cell}" for cell in self.table.cells)

    def titles(self, words: Words) -> tuple[str, ...]:
        return tuple(f"{self.name}: {cell.said(words)}" for cell in self.table.cells)

    def expected(self, heading: str) -> str:
        return str(self.table.expected(self.table.cells[self.headings.index(heading)]))

    def right(self, answers: Mapping[str, str]) -> bool:
        return all(answers[heading] == self.expected(heading) for heading in self.headings)


@dataclass(frozen=True)
class Plain:
    """A question with one answer for each column."""

    name: str
    reads: str
    answers: Mapping[str, str]
    wrong: tuple[tuple[str, str], ...] = ()
    marks: int = 2
    cells_asked: None = None

    @property
    def headings(self) -> tuple[str, ...]:
        return tuple(self.answers)

    def titles(self, words: Words) -> tuple[str, ...]:  # noqa: ARG002  # as of a question
        return self.headings

    def expected(self, heading: str) -> str:
        return self.answers[heading]

    def right(self, answers: Mapping[str, str]) -> bool:
        if "nonsense" in answers.values():
            raise EdgewiseError("found nonsense, expected a formula")
        return dict(answers) == dict(self.answers)


@dataclass(frozen=True)
class OnePaper:
    """A variant."""

    questions: tuple[Filled | Plain, ...]


@dataclass(frozen=True)
class Papers:
    """Variants by code."""

    variants: Mapping[str, OnePaper]

    def variant(self, code: str) -> OnePaper:
        if code not in self.variants:
            raise EdgewiseError(f"there is no paper {code}")
        return self.variants[code]


def asked(rows: Sequence[int], columns: Sequence[str]) -> tuple[Cell, ...]:
    """All cells of some rows and columns."""
    return tuple(Cell(row, column) for row in rows for column in columns)


def paper(
    design: Design,
    cells: Sequence[Cell],
    operands: Mapping[str, Mapping[str, int]],
    marks: int = 4,
) -> Papers:
    """One question in variants with operands of their own, by code."""
    return Papers(
        {
            code: OnePaper(
                (Filled(TableQuestion("q1", reference.run(design, numbers), tuple(cells), marks)),)
            )
            for code, numbers in operands.items()
        }
    )


def adder(n: int = 6) -> Design:
    """The serial adder."""
    return catalogue.design("serial-adder", n=n)


def believed(belief: Belief, cells: Sequence[Cell], operands: Mapping[str, int]) -> list[str]:
    """What a believer writes, run on the reference engine."""
    trace = reference.run(belief.design, operands)
    true = truth(belief.design)
    return [str(trace.bits(belief.nets(c) or true.nets(c) or (), c.row)) for c in cells]


def careless(words: Sequence[str], rate: float, rng: random.Random) -> list[str]:
    """The same with one bit wrong in some of the words."""
    found = list(words)
    for place, word in enumerate(found):
        if rng.random() < rate:
            bit = rng.randrange(len(word))
            found[place] = word[:bit] + ("0" if word[bit] == "1" else "1") + word[bit + 1 :]
    return found
