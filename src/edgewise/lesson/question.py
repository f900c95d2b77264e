"""The ``question`` block: what a learner is asked, its answer computed and found to be fair."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import islice, product
from typing import TYPE_CHECKING, Any, Final

from edgewise import formula
from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.circuit.parts import count
from edgewise.errors import EdgewiseError, Place, TextError, nearest
from edgewise.formula import Claim, Name
from edgewise.lesson import law as laws
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run, Scope
from edgewise.lesson.options import (
    Gathering,
    after_of,
    names_of,
    options_of,
    row_of,
    rows_of,
    text_of,
)
from edgewise.numerals import whole
from edgewise.practice.believers import Believers
from edgewise.practice.question import Kind, Question
from edgewise.practice.table_question import Cell
from edgewise.practice.task import MOST_MARKS, Refused, Task
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Sequence, Tree, mapping, scalar, sequence, shortened

if TYPE_CHECKING:
    from edgewise.study.faults.models import Fault

EVERY: Final = ("ask", "marks", "text", "hint", "about")
"""The entries of any question."""
KINDS: Final[Mapping[Kind, tuple[str, ...]]] = {
    "next-rows": ("rows", "given", "columns", "operands"),
    "cells": ("rows", "columns", "blank", "operands"),
    "lane": ("rows", "columns", "lane", "operands"),
    "value": ("of", "after", "operands"),
    "edges": ("over",),
    "choice": ("of", "after", "operands"),
    "false-statement": ("statements", "operands"),
    "fault": ("fault", "among", "rows", "columns", "operands"),
    "operands": ("show", "sum", "given", "operands"),
    "formula": ("count", "over"),
}
"""What can be asked, with the entries that it has besides."""
STATEMENTS: Final = 4
_MOST_CASES: Final = 500


@dataclass(slots=True)
class Asking:
    """The questions of one lesson so far, and what misconceptions make of its design."""

    count: int = 0
    believers: dict[int, Believers] = field(default_factory=dict)

    def next_name(self) -> str:
        """The name of the next question: ``q1``, then ``q2``."""
        self.count += 1
        return f"q{self.count}"

    def of(self, run: Run) -> Believers:
        """Of the design of a run, made once."""
        key = id(run.design)
        if key not in self.believers:
            self.believers[key] = Believers(run.design)
        return self.believers[key]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question of a lesson.

    Parameters
    ----------
    task : Task
        What the author asks for.
    question : Question
        What comes of it with the author's operands.
    believers : Believers
    """

    task: Task
    question: Question
    believers: Believers


@dataclass(frozen=True, slots=True)
class _Reading:
    """One block being read, against a run that was found for it."""

    options: Keys
    run: Run
    blueprint: Blueprint
    believers: Believers
    head: dict[str, Any]

    @property
    def name(self) -> str:
        return str(self.head["name"])

    @property
    def place(self) -> Place:
        place: Place = self.head["place"]
        return place

    def need(self, key: str, example: str) -> Tree:
        """An entry that has to be there."""
        tree = self.options.get(key)
        if tree is None:
            raise TextError(f"{self.name}: say {key}, as in {key}: {example}", self.options.place)
        return tree


def read(
    block: Block, blueprint: Blueprint | None, run: Run | None, asking: Asking
) -> Asked | None:
    """The question of a block; without a run the block is only read.

    Raises
    ------
    Refused
        It would not be fair, or would tell nothing; with the reason.
    EdgewiseError or Problems
        Entries that can't be read.
    """
    name = asking.next_name()
    every = tuple(dict.fromkeys((*EVERY, *(key for keys in KINDS.values() for key in keys))))
    options = options_of(block, every)
    with Gathering() as gathering:
        kind = gathering.add(_kind, options)
        marks = gathering.add(_marks, options) or 1
        about = gathering.add(_words_of, options.get("about"), "about") or ()
        wording = gathering.add(text_of, options, "text") or ""
        hint = gathering.add(text_of, options, "hint") or ""
        own = gathering.add(_own, options.get("operands"), run)
    if kind is None or blueprint is None or run is None:
        return None
    believers = asking.of(run)
    ran = run if own is None else Run(run.design, own)
    head = {
        "name": name,
        "marks": marks,
        "place": block.place,
        "wording": wording,
        "hint": hint,
        "about": about,
    }
    if "operands" in KINDS[kind]:
        head["operands"] = None if own is None else dict(ran.operands)
    task = _READERS[kind](_Reading(options, ran, blueprint, believers, head))
    tells = task.tells(believers, ran.trace)
    shuffle = random.Random(name)  # noqa: S311  # an order that can be repeated
    return Asked(task, task.question(believers, ran.trace, shuffle, tells), believers)


# ---------------------------------------------------------------------- entries of any question


def _kind(options: Keys) -> Kind:
    tree = options.get("ask")
    if tree is None:
        raise TextError(
            f"a question says what it asks for: ask: {next(iter(KINDS))}", options.place
        )
    given = scalar(tree, "ask")
    for kind, known in KINDS.items():
        if kind == given.text:
            _refuse_others(options, kind, (*EVERY, *known))
            return kind
    close = nearest(given.text, KINDS)
    hint = close if close.startswith("; did") else f"; one of {', '.join(KINDS)}"
    raise TextError(f"ask: there is no question {shortened(given.text)}{hint}", given.place)


def _refuse_others(options: Keys, kind: Kind, known: tuple[str, ...]) -> None:
    for key, _ in options.pairs:
        if key.text not in known:
            entries = ", ".join(known[len(EVERY) :])
            raise TextError(f"ask: {kind} has no entry {key.text}; it has {entries}", key.place)


def _marks(options: Keys) -> int:
    tree = options.get("marks")
    if tree is None:
        return 1
    given = scalar(tree, "marks")
    marks = whole(given.text, "marks")
    if marks is None or not 1 <= marks <= MOST_MARKS:
        raise TextError(
            f"marks: found {shortened(given.text)}, expected 1..{MOST_MARKS}", given.place
        )
    return marks


def _words_of(tree: Tree | None, key: str) -> tuple[str, ...]:
    if tree is None:
        return ()
    items = (tree,) if isinstance(tree, Scalar) else sequence(tree, key, "[carry-dropped]")
    return tuple(" ".join(scalar(item, key).text.split()) for item in items)


def _own(tree: Tree | None, run: Run | None) -> Mapping[str, int] | None:
    """The operands of a run of its own."""
    if tree is None or run is None:
        return None
    known = Numbers(run.design.parameters)

    def one(item: Tree, name: str) -> int:
        given = scalar(item, name)
        return number(evaluate_at(formula.parse(given.text, place=given.place), known, given.place))

    given: dict[str, Any] = {}
    for name, value in mapping(tree, "operands", "{a: 22, b: 43}").pairs:
        listed = isinstance(value, Sequence)
        items = value.items if isinstance(value, Sequence) else (value,)
        numbers = [one(item, name.text) for item in items]
        given[name.text] = numbers if listed else numbers[0]
    return run.design.values(given, tree.place)


# ---------------------------------------------------------------------- the kinds


def _next_rows(reading: _Reading) -> Task:
    from edgewise.practice.kinds.table import TableTask

    options, run = reading.options, reading.run
    with Gathering() as gathering:
        asked = gathering.add(lambda: rows_of(reading.need("rows", "7..8"), run)) or ()
        columns = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        tree = options.get("given")
        given = () if tree is None else gathering.add(rows_of, tree, run) or ()
    first = min(asked, default=0)
    given = given or ((first - 1,) if first else ())
    rows = tuple(sorted({*given, *asked}))
    cells = tuple(Cell(row, name) for row in sorted(asked) for name in columns)
    return TableTask(**reading.head, kind="next-rows", rows=rows, columns=columns, cells=cells)


def _cells(reading: _Reading) -> Task:
    from edgewise.practice.kinds.table import TableTask, telling

    options, run = reading.options, reading.run
    with Gathering() as gathering:
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        columns = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        blank = gathering.add(reading.need, "blank", "[S after 8] or blank: 4")
    if isinstance(blank, Scalar) and blank.text.isdecimal():
        stored = _worked_out(reading, rows, columns)
        most = _between(blank, "blank", len(stored))
        chosen = telling(reading.believers, run.trace, stored, most)
    else:
        assert blank is not None
        chosen = tuple(
            _cell(scalar(item, "blank"), run, rows, columns)
            for item in ((blank,) if isinstance(blank, Scalar) else _items(blank))
        )
    cells = tuple(cell for row in rows for name in columns if (cell := Cell(row, name)) in chosen)
    return TableTask(**reading.head, kind="cells", rows=rows, columns=columns, cells=cells)


def _items(tree: Tree) -> tuple[Tree, ...]:
    return sequence(tree, "blank", "[S after 8, C after 9]")


def _worked_out(
    reading: _Reading, rows: tuple[int, ...], columns: tuple[str, ...]
) -> tuple[Cell, ...]:
    """The cells that are not inputs, nor in the first row shown."""
    inputs = {net.name for net in reading.run.design.circuit.inputs}
    later = rows[1:] if len(rows) > 1 else rows
    return tuple(Cell(row, name) for row in later for name in columns if name not in inputs)


def _cell(given: Scalar, run: Run, rows: tuple[int, ...], columns: tuple[str, ...]) -> Cell:
    what, after, when = given.text.rpartition(" after ")
    if not after:
        raise TextError(
            f"blank: found {shortened(given.text)}, expected a word after an edge: S after 8",
            given.place,
        )
    node = formula.parse(what, place=given.place)
    if not isinstance(node, Name):
        raise TextError(f"blank: expected the name of a net, found {what}", given.place)
    name = Scope(run, place=given.place).net_name(node)
    row = row_of(Scalar(when, given.place.moved(len(what) + len(after))), run)
    if row not in rows or name not in columns:
        raise TextError(
            f"blank: {name} after {row} is not in the table of this question", given.place
        )
    return Cell(row, name)


def _between(given: Scalar, key: str, most: int) -> int:
    cells = whole(given.text, key)
    if cells is None or not 1 <= cells <= most:
        raise TextError(f"{key}: found {shortened(given.text)}, expected 1..{most}", given.place)
    return cells


def _lane(reading: _Reading) -> Task:
    from edgewise.practice.kinds.table import TableTask

    options, run = reading.options, reading.run
    with Gathering() as gathering:
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        nets = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        lane = gathering.add(lambda: _net(scalar(reading.need("lane", "C"), "lane"), run))
    if lane not in nets:
        raise TextError(
            f"lane: {lane} is not among the columns of this timing diagram", reading.options.place
        )
    if len(rows) < 2:
        raise TextError("lane: a timing diagram has two rows or more", reading.options.place)
    cells = tuple(Cell(row, lane) for row in rows[1:])
    return TableTask(**reading.head, kind="lane", rows=rows, columns=nets, cells=cells)


def _net(given: Scalar, run: Run) -> str:
    node = formula.parse(given.text, place=given.place)
    if not isinstance(node, Name):
        raise TextError(f"expected the name of a net, found {given.text}", given.place)
    return Scope(run, place=given.place).net_name(node)


def _of_after(reading: _Reading) -> Cell:
    with Gathering() as gathering:
        name = gathering.add(lambda: _net(scalar(reading.need("of", "S"), "of"), reading.run))
        row = gathering.add(after_of, reading.options.get("after"), reading.run)
    return Cell(row or 0, name or "")


def _value(reading: _Reading) -> Task:
    from edgewise.practice.kinds import value

    spot = value.spot(reading.believers, _of_after(reading))
    return value.ValueTask(**reading.head, spot=spot)


def _choice(reading: _Reading) -> Task:
    from edgewise.practice.kinds import value

    spot = value.spot(reading.believers, _of_after(reading))
    return value.ChoiceTask(**reading.head, spot=spot)


def _edges(reading: _Reading) -> Task:
    from edgewise.practice.kinds.count import EdgesTask, alike

    design = reading.run.design
    tree, first = reading.options.get("over"), dict(design.chosen)
    cases: tuple[Mapping[str, int], ...] = (first,)
    if tree is not None:
        grid = laws.grid(reading.options, design.parameters)
        first = {**first, **{name: design.parameters[name] for name in grid}}
        spans = [range(low, high + 1) for low, high in grid.values()]
        points = islice(product(*spans), _MOST_CASES)
        others = [{**first, **dict(zip(grid, point, strict=True))} for point in points]
        cases = alike(reading.blueprint, first, others)
    return EdgesTask(**reading.head, blueprint=reading.blueprint, cases=cases)


def _formula(reading: _Reading) -> Task:
    from edgewise.practice.kinds.count import FormulaTask

    asked = Keys(
        tuple(pair for pair in reading.options.pairs if pair[0].text in ("count", "over")),
        reading.options.place,
    )
    found = laws.read(asked, reading.blueprint, reading.run.design)
    assert found is not None
    if not found.text:
        raise Refused(f"{reading.name}: {found.how}", reading.place)
    return FormulaTask(**reading.head, blueprint=reading.blueprint, law=found.law)


def _false_statement(reading: _Reading) -> Task:
    from edgewise.practice.kinds.statement import StatementTask, only_false

    example = "[S after 8 == 21, C after 8 == 0, …]"
    items = sequence(reading.need("statements", example), "statements", example)
    if len(items) != STATEMENTS:
        raise TextError(
            f"statements: found {len(items)}, expected {STATEMENTS}", reading.options.place
        )
    with Gathering() as gathering:
        read_ = [gathering.add(_said, scalar(item, "statements")) for item in items]
    statements = tuple(said for said in read_ if said is not None)
    false = only_false(reading.name, reading.place, statements, reading.run.trace)
    return StatementTask(**reading.head, statements=statements, false=false)


def _said(given: Scalar) -> Any:
    from edgewise.practice.kinds.statement import Said

    claim: Claim = formula.parse(given.text, "claim", given.place)
    if claim.for_all or claim.ranges:
        raise TextError(
            "a statement of a question is about its own run; leave out for …", given.place
        )
    return Said(" ".join(given.text.split()), claim.truth, given.place)


def _fault(reading: _Reading) -> Task:
    from edgewise.practice.kinds.fault import OTHERS, FaultTask, others
    from edgewise.study.faults.models import faults

    options, run = reading.options, reading.run
    known = {fault.name: fault for fault in faults(run.design, inside=True)}
    with Gathering() as gathering:
        there = gathering.add(
            lambda: _named(scalar(reading.need("fault", "C stuck at 0"), "fault"), known, run)
        )
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        columns = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        among: list[Fault] = []
        if (tree := options.get("among")) is not None:
            for item in sequence(tree, "among", "[C stuck at 1, FA.sum stuck at 0, …]"):
                found = gathering.add(_named, scalar(item, "among"), known, run)
                among += [] if found is None else [found]
    assert there is not None
    if tree is not None and len(among) != OTHERS:
        raise TextError(f"among: found {count(len(among), 'fault')}, expected {OTHERS}", tree.place)
    if not among:
        among = [*others(there, faults(run.design), run.trace, rows, columns)]
        if len(among) < OTHERS:
            told = count(len(among), "other fault")
            raise Refused(
                f"{reading.name}: only {told} can be told from it by this table; one of four"
                f" needs {OTHERS}",
                reading.place,
            )
    return FaultTask(**reading.head, faults=(there, *among), rows=rows, columns=columns)


def _named(given: Scalar, known: Mapping[str, Fault], run: Run) -> Fault:
    text = " ".join(given.text.split())
    if text not in known:
        close = nearest(text, known)
        hint = close if close.startswith("; did") else "; edgewise break lists them"
        raise TextError(f"{run.design.name} has no fault {text}{hint}", given.place)
    return known[text]


def _operands(reading: _Reading) -> Task:
    from edgewise.practice.kinds.operands import OperandsTask
    from edgewise.study.operands import choose
    from edgewise.study.operands.requirements import Wish, fulfilled

    options, run = reading.options, reading.run
    features = _words_of(options.get("show"), "show")
    given = _words_of(options.get("given"), "given")
    total = text_of(options, "sum")
    place = reading.place
    if total not in ("", "fits", "overflows"):
        raise TextError(f"sum: found {total}, expected fits or overflows", options.place)
    if not features and not total:
        raise TextError(f"{reading.name}: say show, as in show: carry chain 4", options.place)
    wish = Wish(features=features, sum=total or None)  # type: ignore[arg-type]
    own = reading.head["operands"]
    for name in given:
        if name not in run.operands:
            raise TextError(
                f"given: there is no operand {name}{nearest(name, run.operands)}", place
            )
    if given and own is None:
        raise TextError(
            f"{reading.name}: given needs operands of its own, an example: operands: {{…}}",
            options.place,
        )
    if given and len(given) == len(run.operands):
        raise TextError(f"{reading.name}: all operands are given", options.place)
    try:
        if own is None and fulfilled(run.design, wish, run.operands):
            raise Refused(
                f"{reading.name}: the paper's own operands show {wish}, so the answer can be"
                " copied; ask for something else",
                place,
            )
        example = own or choose.choose(run.design, wish, most=1).examples[0].operands
    except EdgewiseError as wrong:
        raise wrong.placed(place) from None
    return OperandsTask(**reading.head, wish=wish, fixed=given, example=dict(example))


_READERS: Final[Mapping[Kind, Callable[[_Reading], Task]]] = {
    "next-rows": _next_rows,
    "cells": _cells,
    "lane": _lane,
    "value": _value,
    "edges": _edges,
    "choice": _choice,
    "false-statement": _false_statement,
    "fault": _fault,
    "operands": _operands,
    "formula": _formula,
}
