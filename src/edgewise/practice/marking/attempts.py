"""What learners tried on a page, row by row: run again, held to the run, and marked.

A row is held to the one before it: to that of the run, or to the learner's own where they went on
with it. What does not fit was not made by a page. A code that fits may still have been made by
somebody who can compute the run: it has no signature.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from edgewise.bits import Word
from edgewise.circuit.storage import storage
from edgewise.design import Design
from edgewise.engines import dual_rail, reference
from edgewise.engines.dual_rail import Rails
from edgewise.errors import EdgewiseError, Fact, Message
from edgewise.practice import next_row
from edgewise.practice.marking import beliefs
from edgewise.practice.marking.attempt_code import Exercise, Row
from edgewise.practice.marking.batch import words
from edgewise.practice.marking.beliefs import Names
from edgewise.practice.marking.diagnosis import EARNS, Diagnosis, judged, rank
from edgewise.practice.marking.feedback import Told, Verdict
from edgewise.practice.marking.reading import Reading, Way
from edgewise.practice.marking.score import Score
from edgewise.practice.table_question import Cell

_STARTS: Final = {"0": 0, "1": 1, "x": 2}


@dataclass(frozen=True)
class Tried:
    """A design on a page.

    Parameters
    ----------
    design : Design
    """

    design: Design

    @cached_property
    def asked(self) -> tuple[tuple[str, tuple[int, ...]], ...]:
        """Each store, and its flip-flops by number, MSB left: the order of the page."""
        design = self.design
        number = {one.q: i for i, one in enumerate(design.netlist.flip_flops)}
        return tuple(
            (one.name, tuple(number[net] for net in reversed(one.q)))
            for one in storage(design.circuit, design.netlist)
        )

    @cached_property
    def singles(self) -> tuple[tuple[Names, Design], ...]:
        """Those who have one wrong idea, in the order in which the page numbers them."""
        return tuple(((idea.name,), other) for idea, other in next_row.ideas(self.design))

    @cached_property
    def pairs(self) -> tuple[tuple[Names, Design], ...]:
        """Those who have two."""
        if not self.singles:
            return ()
        found = ((one.names, one.design) for one in beliefs.pairs(self.design))
        return tuple(one for one in found if next_row.same_stores(one[1], self.design))

    def text(self, stored: Sequence[int]) -> str:
        """What stands in all that stores, store by store."""
        return "".join("01X"[stored[at]] for _, places in self.asked for at in places)

    def stored(self, text: str, base: Sequence[int]) -> list[int]:
        """What each flip-flop holds; what is not asked for as in `base`."""
        found = list(base)
        places = [at for _, places in self.asked for at in places]
        for at, bit in zip(places, text, strict=True):
            found[at] = "01X".index(bit)
        return found


@dataclass(frozen=True, slots=True)
class Step:
    """One row that a learner filled in.

    Parameters
    ----------
    tried : Tried
    operands : mapping of str to int
    start : str
    row : int
        The number of the row, from 1.
    base : tuple of int
        What each flip-flop held in the row before.
    follows, true : str
        What follows from that, and what the run has.
    typed : Row
    """

    tried: Tried
    operands: Mapping[str, int]
    start: str
    row: int
    base: tuple[int, ...]
    follows: str
    true: str
    typed: Row

    @property
    def run(self) -> object:
        """What tells it from a step at another row, or of another run."""
        design = self.tried.design
        numbers = (*design.parameters.items(), *self.operands.items())
        return numbers, self.start, self.row

    def cells(self) -> Iterator[tuple[str, slice]]:
        """Each store with the place of its bits."""
        first = 0
        for name, places in self.tried.asked:
            yield name, slice(first, first + len(places))
            first += len(places)


def replayed(exercises: Sequence[Exercise], designs: Sequence[Tried]) -> tuple[Step, ...]:
    """The rows of a code, each with what follows.

    Parameters
    ----------
    exercises : sequence of Exercise
    designs : sequence of Tried
        Those of the page.

    Raises
    ------
    EdgewiseError
        It does not fit: a run that the page does not have, rows that are not there, or a row
        that can't have ended as it says.
    """
    known = {tuple(one.design.parameters.values()): one for one in designs}
    return tuple(step for one in exercises for step in _steps(one, known))


def _steps(exercise: Exercise, known: Mapping[tuple[int, ...], Tried]) -> Iterator[Step]:
    tried, operands = _run_of(exercise, known)
    design, schedule = tried.design, tried.design.schedule
    patterns = design.patterns(operands)
    netlist = design.netlist
    last = exercise.shown + len(exercise.rows)
    if last > design.edges:
        raise _misfit("end", row=last, last=design.edges)
    edge = reference.edge(netlist)
    bit = _STARTS.get(exercise.start)
    stored = [one.start if bit is None else bit for one in netlist.flip_flops]

    def after(held: Sequence[int], row: int) -> list[int]:
        fed = reference.fed(schedule[row], patterns)
        return list(edge(reference.settle(netlist, held, fed)))

    for row in range(exercise.shown):
        stored = after(stored, row)
    base = true = stored
    for row, typed in enumerate(exercise.rows, exercise.shown + 1):
        # Only who has gone on with a row of their own is apart from the run.
        follows = after(base, row - 1)
        true = follows if base == true else after(true, row - 1)
        step = Step(
            tried,
            operands,
            exercise.start,
            row,
            tuple(base),
            tried.text(follows),
            tried.text(true),
            typed,
        )
        _check(step, last=row == last)
        yield step
        base = tried.stored(typed.own, follows) if typed.end == "own" else follows


def _run_of(
    exercise: Exercise, known: Mapping[tuple[int, ...], Tried]
) -> tuple[Tried, dict[str, int]]:
    for parameters, tried in known.items():
        operands = tried.design.operands
        numbers = exercise.numbers[len(parameters) :]
        if exercise.numbers[: len(parameters)] != parameters or len(numbers) != len(operands):
            continue
        if all(n < 1 << one.width for n, one in zip(numbers, operands, strict=True)):
            return tried, {
                one.name: one.number(n) for one, n in zip(operands, numbers, strict=True)
            }
    raise _misfit("numbers")


def _check(step: Step, *, last: bool) -> None:
    """A row ended as it says."""
    typed, row = step.typed, step.row
    if len(typed.tries) != len(step.follows):
        raise _misfit("bits", row=row, count=len(typed.tries), bits=len(step.follows))
    full = "-" not in typed.tries
    if typed.end == "left":
        if not last:
            raise _misfit("left", row=row)
        return
    if not full:
        raise _misfit("unfilled", row=row)
    right = typed.tries == step.follows
    if right is not (typed.end == "right") and typed.end in ("right", "corrected"):
        raise _misfit("said", row=row, end=typed.end)
    if typed.end == "own" and (
        len(typed.own) != len(step.follows) or "-" in typed.own or typed.own == step.follows
    ):
        raise _misfit("said", row=row, end=typed.end)


def _misfit(why: str, /, **facts: Fact) -> EdgewiseError:
    return EdgewiseError(Message("attempts-misfit", why=Message(f"misfit-{why}", **facts)))


# ---------------------------------------------------------------------- ideas


def believed(steps: Sequence[Step], *, two: bool = False) -> list[dict[Names, str]]:
    """For each step, what everybody with one wrong idea, or two, would have written."""
    groups: dict[tuple[int, int], list[int]] = {}
    for number, step in enumerate(steps):
        groups.setdefault((id(step.tried), step.row), []).append(number)
    found: list[dict[Names, str]] = [{} for _ in steps]
    for members in groups.values():
        chosen = [steps[number] for number in members]
        tried = chosen[0].tried
        names = [one.name for one in tried.design.netlist.flip_flops]
        lanes = {
            operand.name: dual_rail.planes(
                [operand.pattern(one.operands[operand.name]) for one in chosen]
            )
            for operand in tried.design.operands
        }
        base = {name: _lanes([one.base[i] for one in chosen]) for i, name in enumerate(names)}
        for held, design in tried.pairs if two else tried.singles:
            theirs = [one.name for one in design.netlist.flip_flops]
            rails = dual_rail.next_stored(
                design, lanes, len(chosen), [base[name] for name in theirs], chosen[0].row - 1
            )
            by_name = dict(zip(theirs, rails, strict=True))
            asked = [by_name[names[at]] for _, places in tried.asked for at in places]
            for place, number in enumerate(members):
                found[number][held] = words(asked[::-1], place)
    return found


def _lanes(bits: Sequence[int]) -> Rails:
    one = sum(1 << place for place, bit in enumerate(bits) if bit != 0)
    return one, sum(1 << place for place, bit in enumerate(bits) if bit != 1)


def recognised(steps: Sequence[Step]) -> list[EdgewiseError | None]:
    """For each step, what is wrong with the ideas that the page is said to have recognised."""
    found: list[EdgewiseError | None] = []
    for step, of in zip(steps, believed(steps), strict=True):
        tries, wrong = step.typed.tries, step.typed.tries != step.follows
        full = "-" not in tries
        ideas = [i for i, text in enumerate(of.values()) if text == tries] if full and wrong else []
        fits = tuple(ideas) == step.typed.ideas
        found.append(None if fits else _misfit("ideas", row=step.row))
    return found


def diagnosed(learners: Sequence[Sequence[Step]]) -> list[Diagnosis]:
    """What the first tries of each learner say, word by word.

    A row of a run that somebody tried again counts once.
    """
    steps = [list({step.run: step for step in reversed(of)}.values())[::-1] for of in learners]
    every = [step for of in steps for step in of]
    found = iter(believed(every))
    singles = [[next(found) for _ in of] for of in steps]
    fits = [_fits(of, ideas) for of, ideas in zip(steps, singles, strict=True)]
    two = 2 * (EARNS - 1)
    unsettled = [i for i, of in enumerate(fits) if of[0][1] and min(map(rank, of))[0] > two]
    found = iter(believed([step for i in unsettled for step in steps[i]], two=True))
    for i in unsettled:
        fits[i] += _fits(steps[i], [next(found) for _ in steps[i]])[1:]
    return [
        judged(sum(1 for step in of for _ in _read(step)), its[0][1], its)
        for of, its in zip(steps, fits, strict=True)
    ]


def _fits(
    steps: Sequence[Step], ideas: Sequence[Mapping[Names, str]]
) -> list[tuple[Names, int, int]]:
    """Of the truth and of each idea: wrong words that it does not give, right ones it would not."""
    names = dict.fromkeys(name for of in ideas for name in of)
    missed, contradicted = dict.fromkeys(names, 0), dict.fromkeys(names, 0)
    wrong = 0
    for step, of in zip(steps, ideas, strict=True):
        tries, follows = step.typed.tries, step.follows
        for at in _read(step):
            right = tries[at] == follows[at]
            wrong += not right
            for name in names:
                gives = of.get(name, follows)[at] == tries[at]
                missed[name] += not right and not gives
                contradicted[name] += right and not gives
    return [((), wrong, 0), *((name, missed[name], contradicted[name]) for name in names)]


def _read(step: Step) -> Iterator[slice]:
    """Words of which every bit was filled in."""
    return (at for _, at in step.cells() if "-" not in step.typed.tries[at])


# ---------------------------------------------------------------------- marks


def told(steps: Sequence[Step]) -> dict[str, tuple[Told, ...]]:
    """The first row that was tried at each edge, word by word: ``e7`` is that after edge 7."""
    first: dict[int, Step] = {}
    for step in steps:
        first.setdefault(step.row, step)
    return {f"e{row}": tuple(_told(first[row])) for row in sorted(first)}


def _told(step: Step) -> Iterator[Told]:
    for name, at in step.cells():
        tries, right, follows = (text[at] for text in (step.typed.tries, step.true, step.follows))
        if "-" in tries:
            blank = not tries.strip("-")
            reading = Reading(tries.strip("-"), Way.BLANK if blank else Way.UNREADABLE)
            verdict = Verdict.BLANK if blank else Verdict.UNREAD
        else:
            reading = Reading(tries, Way.BITS, Word.parse(tries))
            verdict = Verdict.FOLLOWS if tries == follows else Verdict.WRONG
            verdict = Verdict.RIGHT if tries == right else verdict
        yield Told(Cell(step.row, name), reading, right, follows, verdict)


def score(name: str, cells: Sequence[Told]) -> Score:
    """A mark for each row."""
    counts = {verdict: sum(one.verdict is verdict for one in cells) for verdict in Verdict}
    right = counts[Verdict.RIGHT]
    followed = right + counts[Verdict.FOLLOWS]
    return Score(
        name, 1, len(cells), right, followed, counts[Verdict.BLANK], counts[Verdict.UNREAD]
    )
