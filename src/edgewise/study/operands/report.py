"""What the adviser says: examples, what each shows, and what even the best can't show."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from edgewise.study.coverage.measured import Coverage
from edgewise.study.coverage.report import carries, rows
from edgewise.words import commands
from edgewise.words.lists import equations, listed
from edgewise.words.messages import ENGLISH, Words


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
        For each misconception that gives another answer, that answer.
    hidden : tuple of str
        Misconceptions whose answer is right here.
    alike : tuple of tuple of str
        Misconceptions that give the same wrong answer here, together.
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
        return equations(self.operands.items())

    @property
    def because(self) -> str:
        """In a few words, what speaks for it.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> from edgewise.study.operands.choose import example
        >>> example(catalogue.design("serial-adder", n=6), {"a": 3, "b": 22}).because
        'they show 6 of the 8 truth-table rows of the full adder and a carry chain of 2 places'
        """
        return self.reason()

    def reason(self, words: Words = ENGLISH) -> str:
        """The same in a language."""
        shown, said = self.coverage, []
        if any(adder.full for adder in shown.adders):
            said.append(words("choice-rows", count=len(shown.rows)))
        if shown.carries and shown.carries.longest:
            said.append(words("choice-carries", count=shown.carries.longest))
        if not said and shown.flip_flops:
            moving = sum(bit.rises and bit.falls for bit in shown.flip_flops)
            said.append(words("choice-flip-flops", count=moving, total=len(shown.flip_flops)))
        if not said:
            return words("choice-none-better")
        return words("choice-shows", operands=len(self.operands), what=listed(said, words))

    def sentences(
        self, never_detected: Sequence[str] = (), never_apart: Sequence[Sequence[str]] = ()
    ) -> tuple[str, ...]:
        """What it shows: rows, carries, and the wrong ideas that it tells from the truth.

        Parameters
        ----------
        never_detected, never_apart : sequences of names
            Misconceptions that no operands detect, or tell apart: no fault of this example, so they
            are not mentioned.
        """
        shown = self.coverage
        return (
            *shown.warnings(),
            *rows(shown, also=False),
            *carries(shown),
            *self._of_misconceptions(never_detected, never_apart),
        )

    def _of_misconceptions(
        self, never_detected: Sequence[str], never_apart: Sequence[Sequence[str]]
    ) -> Iterator[str]:
        hidden = [name for name in self.hidden if name not in never_detected]
        total = len(self.wrong) + len(hidden)
        if not total:
            return
        scope = "detectable" if never_detected else "all"
        if total == 1:
            (name,) = (*hidden, *self.wrong)
            yield commands.say("choose-one-right" if hidden else "choose-one-wrong", name=name)
        elif hidden:
            yield commands.say(
                "choose-some-wrong",
                wrong=len(self.wrong),
                count=total,
                scope=scope,
                names=listed(hidden, most=8),
                hidden=len(hidden),
            )
        else:
            yield commands.say("choose-all-wrong", count=total, scope=scope)
        for group in self.alike:
            if not any(set(group) <= set(same) for same in never_apart):
                names, answer = listed(group, most=8), self.wrong[group[0]]
                yield commands.say("choose-alike", names=names, answer=answer)

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists, for JSON."""
        return {
            "operands": dict(self.operands),
            "answer": self.truth,
            "wrong": dict(self.wrong),
            "hidden": list(self.hidden),
            "alike": [list(group) for group in self.alike],
            "coverage": self.coverage.data(),
            "because": self.because,
            "sentences": list(self.sentences()),
        }


@dataclass(frozen=True, slots=True)
class Least:
    """The least width at which operands cover all rows of the full adder's truth table."""

    parameter: str
    value: int
    operands: Mapping[str, int]

    def __str__(self) -> str:
        """``n = 8, for example a = 15, b = 86``."""
        given = equations(self.operands.items())
        return f"{self.parameter} = {self.value}, for example {given}"


@dataclass(frozen=True)
class Advice:
    """The best operands of a design.

    Parameters
    ----------
    design : str
    parameters : mapping of str to int
    wish : str
        What was asked for besides: ``carry chain 4, the sum fits``.
    examples : tuple of Example
        The best first, or in the order that the seed gave.
    exhaustive : bool
        Whether every operand set was looked at.
    sets : int
        Number of operand sets that there are.
    most_rows : int, optional
        Rows of the full adder's truth table that the best cover; None: no full adder.
    least : Least, optional
        Where all eight rows can be covered, if they can't be covered here.
    never_detected : tuple of str
        Misconceptions that give the right answer for all operands.
    never_apart : tuple of tuple of str
        Misconceptions that give the same answer for all operands, wrong for some; together.
    never_toggles : tuple of str
        Flip-flops that no operands make toggle in both directions, gates that none give both
        values.
    """

    design: str
    parameters: Mapping[str, int]
    wish: str
    examples: tuple[Example, ...]
    exhaustive: bool
    sets: int
    most_rows: int | None = None
    least: Least | None = None
    never_detected: tuple[str, ...] = ()
    never_apart: tuple[tuple[str, ...], ...] = ()
    never_toggles: tuple[str, ...] = ()

    def sentences(self) -> tuple[str, ...]:
        """How the examples were found, and what even the best can't show."""
        return tuple(self._said())

    def _said(self) -> Iterator[str]:
        asked = f" with {self.wish}" if self.wish else ""
        where = f" at {equations(self.parameters.items())}" if self.parameters else ""
        design = f"{self.design}{where}{asked}"
        found = "choose-best" if self.exhaustive else "choose-solved"
        yield commands.say(found, sets=self.sets, asked=design)
        if self.most_rows is not None and self.most_rows < 8:
            if self.exhaustive:
                yield commands.say("choose-rows-best", where=f"{where}{asked}", rows=self.most_rows)
            else:
                yield commands.say("choose-rows-these", rows=self.most_rows)
            if self.least:
                yield commands.say("choose-least", least=str(self.least))
        yield from self._never()

    def _never(self) -> Iterator[str]:
        """What no operands show."""
        if self.never_detected:
            names = listed(self.never_detected, most=8)
            yield commands.say("choose-never-detected", count=len(self.never_detected), names=names)
        if self.never_apart:
            groups = "; ".join(listed(group, most=8) for group in self.never_apart)
            yield commands.say("choose-never-apart", groups=groups)
        stored = {bit.name for one in self.examples for bit in one.coverage.flip_flops}
        for what, still in (
            ("stored", [name for name in self.never_toggles if name in stored]),
            ("gates", [name for name in self.never_toggles if name not in stored]),
        ):
            if still:
                yield commands.say("choose-never-toggle", names=listed(still, most=8), what=what)

    def about(self, example: Example) -> tuple[str, ...]:
        """What one of the examples shows; not what no operands can show."""
        return example.sentences(self.never_detected, self.never_apart)

    def misconception_table(self, example: Example) -> tuple[tuple[str, ...], ...]:
        """What a learner thinks who holds each misconception that applies, and answers: a key.

        Cells as text, a heading first, then the right answer; the right answer of a misconception
        is ``=``.
        """
        from edgewise.study.misconceptions.registry import find

        lines = [
            ("misconception", "what a learner thinks", example.title),
            ("right answer", "", example.truth),
        ]
        lines += [(name, find(name).said(), answer) for name, answer in example.wrong.items()]
        lines += [(name, find(name).said(), "=") for name in example.hidden]
        return tuple(lines)

    def table(self) -> tuple[tuple[str, ...], ...]:
        """Cells as text: a heading, then one line for each example.

        A column that says nothing of this design is left out.
        """
        lines = [
            (
                "operands",
                "answer",
                "rows covered",
                "carry chain",
                "misconceptions detected",
            )
        ]
        for one in self.examples:
            carries, misconceptions = one.coverage.carries, len(one.wrong) + len(one.hidden)
            lines.append(
                (
                    one.title,
                    one.truth,
                    f"{len(one.coverage.rows)} of 8" if self.most_rows is not None else "",
                    str(carries.longest) if carries else "",
                    f"{len(one.wrong)} of {misconceptions}" if misconceptions else "",
                )
            )
        columns = [column for column in zip(*lines, strict=True) if any(column[1:])]
        return tuple(zip(*columns, strict=True))

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
            "never detected": list(self.never_detected),
            "never apart": [list(group) for group in self.never_apart],
            "never toggles": list(self.never_toggles),
            "sentences": list(self.sentences()),
        }
