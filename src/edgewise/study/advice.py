"""What the adviser says: examples, what each shows, and what even the best can't show."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from edgewise.circuit.parts import count
from edgewise.study.account import carries, idle, listed, rows
from edgewise.study.coverage import Coverage


@dataclass(frozen=True)
class Example:
    """Operands, and what they show.

    Parameters
    ----------
    operands : mapping of str to int
    coverage : Coverage
    truth : str
        The right answer: ``sum 011001, carry 0``.
    wrong : mapping of str to str
        For each slip that gives another answer, that answer.
    hidden : tuple of str
        Slips whose answer is right here.
    alike : tuple of tuple of str
        Slips that give the same wrong answer here, together.
    """

    operands: Mapping[str, int]
    coverage: Coverage
    truth: str
    wrong: Mapping[str, str]
    hidden: tuple[str, ...]
    alike: tuple[tuple[str, ...], ...]

    @property
    def title(self) -> str:
        """``a = 3, b = 22``."""
        return ", ".join(f"{name} = {value}" for name, value in self.operands.items())

    def sentences(self) -> tuple[str, ...]:
        """What it shows: the coverage, and which wrong ideas it tells from the truth."""
        return (*self.coverage.sentences(), *self._of_slips())

    def _of_slips(self) -> Iterator[str]:
        total = len(self.wrong) + len(self.hidden)
        if not total:
            return
        if self.hidden:
            one = len(self.hidden) == 1
            yield (
                f"{len(self.wrong)} of {count(total, 'slip')} give a wrong answer;"
                f" {listed(self.hidden, 8)} {'leads' if one else 'lead'} to the right one."
            )
        else:
            yield f"{'All' if total > 1 else 'The'} {count(total, 'slip')} give a wrong answer."
        for group in self.alike:
            yield f"{listed(group, 8)} give the same wrong answer, {self.wrong[group[0]]}."

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists, for JSON."""
        return {
            "operands": dict(self.operands),
            "answer": self.truth,
            "wrong": dict(self.wrong),
            "hidden": list(self.hidden),
            "alike": [list(group) for group in self.alike],
            "coverage": self.coverage.data(),
            "sentences": list(self.sentences()),
        }


@dataclass(frozen=True, slots=True)
class Least:
    """The least width at which operands meet all rows of the full adder's truth table."""

    parameter: str
    value: int
    operands: Mapping[str, int]

    def __str__(self) -> str:
        """``n = 8, for example a = 15, b = 86``."""
        given = ", ".join(f"{name} = {value}" for name, value in self.operands.items())
        return f"{self.parameter} = {self.value}, for example {given}"


@dataclass(frozen=True)
class Advice:
    """The best operands of a design.

    Parameters
    ----------
    design : str
    parameters : mapping of str to int
    wish : str
        What was asked for besides: ``carry runs 4, the sum fits``.
    examples : tuple of Example
        The best first, or in the order that the seed gave.
    exhaustive : bool
        Whether every operand set was looked at.
    sets : int
        Number of operand sets that there are.
    most_rows : int, optional
        Rows of the full adder's truth table that the best meet; None: no full adder.
    least : Least, optional
        Where all eight rows can be met, if they can't be met here.
    never_told : tuple of str
        Slips that give the right answer for all operands.
    never_apart : tuple of tuple of str
        Slips that give the same answer for all operands, wrong for some; together.
    never_moves : tuple of str
        Flip-flops that no operands make go both ways, gates that none give both values.
    """

    design: str
    parameters: Mapping[str, int]
    wish: str
    examples: tuple[Example, ...]
    exhaustive: bool
    sets: int
    most_rows: int | None = None
    least: Least | None = None
    never_told: tuple[str, ...] = ()
    never_apart: tuple[tuple[str, ...], ...] = ()
    never_moves: tuple[str, ...] = ()

    def sentences(self) -> tuple[str, ...]:
        """How the examples were found, and what even the best can't show."""
        return tuple(self._said())

    def _said(self) -> Iterator[str]:
        asked = f" with {self.wish}" if self.wish else ""
        where = f" at {_numbers(self.parameters)}" if self.parameters else ""
        if self.exhaustive:
            yield f"Best of all {self.sets:,} operand sets of {self.design}{where}{asked}."
        else:
            yield (
                f"{self.design}{where}{asked} has {self.sets:,} operand sets, too many to look at"
                " each: a solver found these, and better ones are not ruled out."
            )
        if self.most_rows is not None and self.most_rows < 8:
            even = "even the best meet" if self.exhaustive else "these meet"
            yield (
                f"No operands{where}{asked} meet all eight rows of the full adder:"
                f" {even} {self.most_rows}."
                if self.exhaustive
                else f"Of the full adder's eight rows, {even} {self.most_rows}."
            )
            if self.least:
                yield f"The least width at which all eight are met is {self.least}."
        if self.never_told:
            one = len(self.never_told) == 1
            yield (
                f"No operands tell {listed(self.never_told, 8)} from the truth on this design:"
                f" {'its answer is' if one else 'their answers are'} always right."
            )
        for group in self.never_apart:
            yield f"No operands tell {listed(group, 8)} apart: they lead to the same answers."
        stored = {bit.name for one in self.examples for bit in one.coverage.flip_flops}
        for names, what in (
            ([name for name in self.never_moves if name in stored], "go both ways"),
            ([name for name in self.never_moves if name not in stored], "take both values"),
        ):
            if names:
                yield f"No operands make {listed(names, 8)} {what}."

    def table(self) -> tuple[tuple[str, ...], ...]:
        """Cells as text: a heading, then one line for each example."""
        lines = [("operands", "answer", "rows met", "longest carry run", "slips told")]
        for one in self.examples:
            carries = one.coverage.carries
            lines.append(
                (
                    one.title,
                    one.truth,
                    f"{len(one.coverage.rows)} of 8" if self.most_rows is not None else "",
                    str(carries.longest) if carries else "",
                    f"{len(one.wrong)} of {len(one.wrong) + len(one.hidden)}",
                )
            )
        return tuple(lines)

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists, for JSON."""
        least = self.least
        return {
            "design": self.design,
            "parameters": dict(self.parameters),
            "wish": self.wish,
            "exhaustive": self.exhaustive,
            "sets": self.sets,
            "examples": [one.data() for one in self.examples],
            "most rows": self.most_rows,
            "least width": least
            and {least.parameter: least.value, "operands": dict(least.operands)},
            "never told": list(self.never_told),
            "never apart": [list(group) for group in self.never_apart],
            "never moves": list(self.never_moves),
            "sentences": list(self.sentences()),
        }


def _numbers(parameters: Mapping[str, int]) -> str:
    return ", ".join(f"{name} = {value}" for name, value in parameters.items())
