"""The kinds of questions, each read from the entries of its block."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from edgewise import formula
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message, Place, TextError, nearest
from edgewise.formula import Claim, Name
from edgewise.lesson import law as laws
from edgewise.lesson.expression import Run, Scope
from edgewise.lesson.front import SUMS
from edgewise.lesson.options import (
    Gathering,
    after_of,
    names_of,
    row_of,
    rows_of,
    text_of,
)
from edgewise.listing import either
from edgewise.numerals import whole
from edgewise.practice.believers import Believers
from edgewise.practice.question import Kind
from edgewise.practice.table_question import Cell
from edgewise.practice.task import Refused, Task
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, scalar, sequence, shortened

if TYPE_CHECKING:
    from edgewise.study.faults.fault import Fault

STATEMENTS: Final = 4
_MOST_CASES: Final = 500


@dataclass(frozen=True, slots=True)
class Reading:
    """One block being read, against a run that was found for it.

    Parameters
    ----------
    options : Keys
    run : Run
    blueprint : Blueprint
    believers : Believers
        Of the run's design.
    head : dict
        What every task has, by name.
    """

    options: Keys
    run: Run
    blueprint: Blueprint
    believers: Believers
    head: dict[str, Any]

    @property
    def name(self) -> str:
        """The question's: ``q1``."""
        return str(self.head["name"])

    @property
    def place(self) -> Place:
        """Of the block."""
        place: Place = self.head["place"]
        return place

    def need(self, key: str, example: str) -> Tree:
        """An entry that has to be there."""
        tree = self.options.get(key)
        if tree is None:
            raise TextError(
                Message("question-say", question=self.name, entry=key, example=example),
                self.options.place,
            )
        return tree


def words_of(tree: Tree | None, key: str) -> tuple[str, ...]:
    """One or several words of an entry, such as names of misconceptions."""
    if tree is None:
        return ()
    items = (tree,) if isinstance(tree, Scalar) else sequence(tree, key, "[carry-dropped]")
    return tuple(" ".join(scalar(item, key).text.split()) for item in items)


def _next_rows(reading: Reading) -> Task:
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


def _cells(reading: Reading) -> Task:
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
    reading: Reading, rows: tuple[int, ...], columns: tuple[str, ...]
) -> tuple[Cell, ...]:
    """The cells that are not inputs, nor in the first row shown, nor part of another column."""
    netlist = reading.run.design.netlist
    nets = {name: set(netlist.find(name)) for name in columns}
    fed = {net for bits in netlist.inputs.values() for net in bits}
    own = [
        name
        for name in columns
        if not nets[name] <= fed and not any(nets[name] & nets[n] for n in columns if n != name)
    ]
    later = rows[1:] if len(rows) > 1 else rows
    return tuple(Cell(row, name) for row in later for name in own)


def _cell(given: Scalar, run: Run, rows: tuple[int, ...], columns: tuple[str, ...]) -> Cell:
    what, after, when = given.text.rpartition(" after ")
    if not after:
        raise TextError(Message("blank-expected", found=shortened(given.text)), given.place)
    node = formula.parse(what, place=given.place)
    if not isinstance(node, Name):
        raise TextError(Message("net-name-expected", found=what), given.place)
    name = Scope(run, place=given.place).net_name(node)
    row = row_of(Scalar(when, given.place.moved(len(what) + len(after))), run)
    if row not in rows or name not in columns:
        raise TextError(Message("blank-not-in-table", name=name, row=row), given.place)
    return Cell(row, name)


def _between(given: Scalar, key: str, most: int) -> int:
    cells = whole(given.text, key)
    if cells is None or not 1 <= cells <= most:
        found = shortened(given.text)
        told = Message("entry-expected", entry=key, found=found, expected=f"1..{most}")
        raise TextError(told, given.place)
    return cells


def _lane(reading: Reading) -> Task:
    from edgewise.practice.kinds.table import TableTask

    options, run = reading.options, reading.run
    with Gathering() as gathering:
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        nets = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        lane = gathering.add(lambda: _net(scalar(reading.need("lane", "C"), "lane"), run))
    if lane not in nets:
        raise TextError(Message("lane-outside", name=str(lane)), reading.options.place)
    if len(rows) < 2:
        raise TextError(Message("lane-rows"), reading.options.place)
    cells = tuple(Cell(row, lane) for row in rows[1:])
    return TableTask(**reading.head, kind="lane", rows=rows, columns=nets, cells=cells)


def _net(given: Scalar, run: Run) -> str:
    node = formula.parse(given.text, place=given.place)
    if not isinstance(node, Name):
        raise TextError(Message("net-name-expected", found=given.text), given.place)
    return Scope(run, place=given.place).net_name(node)


def _of_after(reading: Reading) -> Cell:
    with Gathering() as gathering:
        name = gathering.add(lambda: _net(scalar(reading.need("of", "S"), "of"), reading.run))
        row = gathering.add(after_of, reading.options.get("after"), reading.run)
    return Cell(row or 0, name or "")


def _value(reading: Reading) -> Task:
    from edgewise.practice.kinds import value

    spot = value.spot(reading.believers, _of_after(reading))
    return value.ValueTask(**reading.head, spot=spot)


def _choice(reading: Reading) -> Task:
    from edgewise.practice.kinds import value

    spot = value.spot(reading.believers, _of_after(reading))
    return value.ChoiceTask(**reading.head, spot=spot)


def _edges(reading: Reading) -> Task:
    from edgewise.practice.kinds.count import EdgesTask, alike

    design = reading.run.design
    tree, first = reading.options.get("over"), dict(design.chosen)
    cases: tuple[Mapping[str, int], ...] = (first,)
    if tree is not None:
        grid = laws.grid(reading.options, design.parameters)
        for name in grid:
            if name not in design.parameters:
                known = nearest(name, design.parameters)
                raise TextError(
                    Message("over-parameter-unknown", name=name, suggestion=known), tree.place
                )
        points = [{**first, **point} for point in _points(grid)]
        own = {**first, **{name: design.parameters[name] for name in grid}}
        cases = alike(reading.blueprint, own, points)
        if not cases:
            raise TextError(Message("over-no-designs"), tree.place)
    return EdgesTask(**reading.head, blueprint=reading.blueprint, cases=cases)


def _points(grid: Mapping[str, tuple[int, int]]) -> list[dict[str, int]]:
    """Numbers of a grid: all, or some drawn at random, always the same."""
    spans = [range(low, high + 1) for low, high in grid.values()]
    total = math.prod(map(len, spans))
    draw = random.Random(0)  # noqa: S311  # always the same
    numbers = sorted(draw.sample(range(total), min(total, _MOST_CASES)))
    found = []
    for at_point in numbers:
        point, rest = {}, at_point
        for name, span in zip(grid, spans, strict=True):
            rest, place = divmod(rest, len(span))
            point[name] = span[place]
        found.append(point)
    return found


def _formula(reading: Reading) -> Task:
    from edgewise.practice.kinds.count import FormulaTask

    asked = Keys(
        tuple(pair for pair in reading.options.pairs if pair[0].text in ("count", "over")),
        reading.options.place,
    )
    found = laws.read(asked, reading.blueprint, reading.run.design)
    assert found is not None
    if not found.text:
        raise Refused(Message("within", what=reading.name, told=found.how), reading.place)
    return FormulaTask(**reading.head, blueprint=reading.blueprint, law=found.law)


def _false_statement(reading: Reading) -> Task:
    from edgewise.practice.kinds.statement import StatementTask, only_false

    example = "[S after 8 == 21, C after 8 == 0, …]"
    items = sequence(reading.need("statements", example), "statements", example)
    if len(items) != STATEMENTS:
        told = Message("entry-expected", entry="statements", found=len(items), expected=STATEMENTS)
        raise TextError(told, reading.options.place)
    with Gathering() as gathering:
        read_ = [gathering.add(_said, scalar(item, "statements")) for item in items]
    statements = tuple(said for said in read_ if said is not None)
    false = only_false(reading.name, reading.place, statements, reading.run.trace)
    return StatementTask(**reading.head, statements=statements, false=false)


def _said(given: Scalar) -> Any:
    from edgewise.practice.kinds.statement import Said

    claim: Claim = formula.parse(given.text, "claim", given.place)
    if claim.for_all or claim.ranges:
        raise TextError(Message("statement-elsewhere"), given.place)
    return Said(" ".join(given.text.split()), claim.truth, given.place)


def _fault(reading: Reading) -> Task:
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
        raise TextError(Message("among-expected", count=len(among), expected=OTHERS), tree.place)
    if not among:
        among = [*others(there, faults(run.design), run.trace, rows, columns)]
        if len(among) < OTHERS:
            raise Refused(
                Message("faults-few", question=reading.name, count=len(among), most=OTHERS),
                reading.place,
            )
    return FaultTask(**reading.head, faults=(there, *among), rows=rows, columns=columns)


def _named(given: Scalar, known: Mapping[str, Fault], run: Run) -> Fault:
    text = " ".join(given.text.split())
    if text not in known:
        close = nearest(text, known)
        hint = close if close.meant else Message("faults-listed")
        told = Message("fault-unknown", design=run.design.name, name=text, hint=hint)
        raise TextError(told, given.place)
    return known[text]


def _operands(reading: Reading) -> Task:
    from edgewise.practice.kinds.operands import OperandsTask
    from edgewise.study.operands import choose
    from edgewise.study.operands.requirements import FEATURES, Wish, fulfilled

    options, run = reading.options, reading.run
    features = words_of(options.get("show"), "show")
    given = words_of(options.get("given"), "given")
    total = text_of(options, "sum")
    place = reading.place
    if total not in ("", *SUMS):
        told = Message("entry-expected", entry="sum", found=total, expected=either(SUMS))
        raise TextError(told, options.place)
    if not features and not total:
        raise TextError(
            Message("question-say", question=reading.name, entry="show", example=FEATURES[0]),
            options.place,
        )
    wish = Wish(features=features, sum=total or None)  # type: ignore[arg-type]
    own = reading.head["operands"]
    for name in given:
        if name not in run.operands:
            told = Message("operand-unknown", name=name, suggestion=nearest(name, run.operands))
            raise TextError(Message("within", what="given", told=told), place)
    if given and own is None:
        raise TextError(Message("given-without-example", question=reading.name), options.place)
    if given and len(given) == len(run.operands):
        raise TextError(Message("given-all", question=reading.name), options.place)
    try:
        if own is None and fulfilled(run.design, wish, run.operands):
            raise Refused(Message("question-copied", question=reading.name, wish=str(wish)), place)
        example = own or choose.choose(run.design, wish, most=1).examples[0].operands
    except EdgewiseError as wrong:
        raise wrong.placed(place) from None
    return OperandsTask(**reading.head, wish=wish, fixed=given, example=dict(example))


READERS: Final[Mapping[Kind, Callable[[Reading], Task]]] = {
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
"""A reader for each kind: from a block to what an author asks for."""
