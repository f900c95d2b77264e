"""The fenced blocks of a lesson, one reader each, all of one signature."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, TypeAlias

from edgewise import formula, yamltext
from edgewise.arithmetic import evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, TextError, nearest, raise_all
from edgewise.formula import Name
from edgewise.lesson import claims
from edgewise.lesson.claims import Checked
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run, Scope
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Sequence, Tree

if TYPE_CHECKING:
    from edgewise.views.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Setting:
    """What a block is read in: the lesson's design and its run, where those could be built."""

    blueprint: Blueprint | None
    run: Run | None


@dataclass(frozen=True, slots=True)
class EdgeTable:
    """Some words in some rows; `columns` as named in the lesson, indices worked out."""

    columns: tuple[str, ...]
    rows: tuple[int, ...]
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture of a run, as SVG, with the rows and nets whose values it shows."""

    svg: str
    rows: tuple[int, ...]
    names: tuple[str, ...]
    caption: str = ""


@dataclass(frozen=True, slots=True)
class CircuitText:
    """The circuit of the lesson, as text."""

    text: str


Piece: TypeAlias = EdgeTable | Figure | Checked | CircuitText
"""What a block becomes."""


def edge_table(block: Block, setting: Setting) -> EdgeTable | None:
    """``rows: 6..12``, ``columns: [A, S]``, ``caption: …``; all rows and columns by default."""
    options = _options(block, ("rows", "columns", "caption"))
    caption = _text(options, "caption")
    run = setting.run
    if run is None:
        return None
    rows, columns = _rows_and_names(options, "columns", run)
    return EdgeTable(columns, rows, caption)


def claim(block: Block, setting: Setting) -> Checked | None:
    """One claim a line; ``#`` begins a comment."""
    return claims.check(block, setting.blueprint, setting.run)


def diagram(block: Block, setting: Setting) -> Figure | None:
    """``after: 6``, ``open: [FA]``, ``clock: hidden``, ``caption: …``; the last row by default."""
    from edgewise.views import diagram as views

    options = _options(block, ("after", "open", "clock", "caption"))
    caption = _text(options, "caption")
    shown = _clock(options)
    run = setting.run
    if run is None:
        return None
    after = options.get("after")
    row = run.design.edges if after is None else _row(yamltext.scalar(after, "after"), run)
    opened = _parts(options.get("open"), run)
    drawing = views.diagram(run.trace, after=row, open=opened, clock=shown)
    return Figure(_svg(drawing), (row,), run.trace.columns, caption)


def timing(block: Block, setting: Setting) -> Figure | None:
    """``rows: 6..12``, ``nets: [A, S]``, ``clock: hidden``, ``caption: …``."""
    from edgewise.views import timing as views

    options = _options(block, ("rows", "nets", "clock", "caption"))
    caption = _text(options, "caption")
    shown = _clock(options)
    run = setting.run
    if run is None:
        return None
    rows, nets = _rows_and_names(options, "nets", run)
    drawing = views.timing(run.trace, nets, rows, clock=shown)
    return Figure(_svg(drawing), rows, nets, caption)


def circuit(block: Block, setting: Setting) -> CircuitText:
    """The circuit text itself, for ``design: here``."""
    del setting
    return CircuitText(block.text)


BLOCKS: Final[Mapping[str, Callable[[Block, Setting], Piece | None]]] = {
    "edge-table": edge_table,
    "claim": claim,
    "diagram": diagram,
    "timing": timing,
    "circuit": circuit,
}
"""A reader for each block, by the word behind the fence."""


# ---------------------------------------------------------------------- options


def _options(block: Block, known: tuple[str, ...]) -> Keys:
    # Indented again, as in the lesson, so that places have the right column.
    margin = " " * block.indent
    text = "".join(margin + line for line in block.text.splitlines(keepends=True))
    trees = yamltext.read(text, block.place.file, block.first_line)
    example = f"{known[0]}: 6"
    tree = trees[0] if trees else Keys((), block.place)
    options = yamltext.mapping(tree, block.kind, example)
    raise_all(options.refuse_other_keys(known, block.kind))
    return options


def _text(options: Keys, key: str) -> str:
    tree = options.get(key)
    return "" if tree is None else " ".join(yamltext.scalar(tree, key).text.split())


def _row(given: Scalar, run: Run) -> int:
    """A row given as a formula or a phase's name."""
    node = formula.parse(given.text, place=given.place)
    scope = Scope(run, counting=True, place=given.place)
    row = number(evaluate_at(node, scope, given.place))
    last = run.design.edges
    if not 0 <= row <= last:
        there = f"the rows are 0..{last}" if last else "there is only row 0"
        raise TextError(f"there is no row {row}: {there}", given.place)
    return row


def _rows(tree: Tree | None, run: Run) -> tuple[int, ...]:
    """``6..12``, ``[0, 6, 12]``, or a phase's name: the row before it and its own."""
    if tree is None:
        return ()
    rows: list[int] = []
    for item in tree.items if isinstance(tree, Sequence) else (tree,):
        given = yamltext.scalar(item, "rows")
        low, dots, high = given.text.partition("..")
        spans = [
            (first, last) for phase, first, last in run.design.spans if phase.name == given.text
        ]
        if spans:
            rows += range(spans[0][0] - 1, spans[0][1] + 1)
        elif dots:
            first = _row(Scalar(low, given.place), run)
            last = _row(Scalar(high, given.place.moved(len(low) + 2)), run)
            if first > last:
                raise TextError(f"rows {given.text} is empty; write low..high", given.place)
            rows += range(first, last + 1)
        else:
            rows.append(_row(given, run))
    return tuple(dict.fromkeys(rows))


def _rows_and_names(options: Keys, key: str, run: Run) -> tuple[tuple[int, ...], tuple[str, ...]]:
    """Rows and nets of a block, all of them where it names none; what is wrong with both."""
    errors: list[EdgewiseError] = []
    rows, names = tuple(range(run.design.edges + 1)), run.trace.columns
    try:
        rows = _rows(options.get("rows"), run) or rows
    except EdgewiseError as wrong:
        errors += wrong.parts()
    try:
        names = _names(options.get(key), key, run) or names
    except EdgewiseError as wrong:
        errors += wrong.parts()
    raise_all(errors)
    return rows, names


def _names(tree: Tree | None, key: str, run: Run) -> tuple[str, ...]:
    if tree is None:
        return ()
    found: list[str] = []
    errors: list[EdgewiseError] = []
    for item in yamltext.sequence(tree, key, "[A, FA.sum, S]"):
        try:
            given = yamltext.scalar(item, key)
            node = formula.parse(given.text, place=given.place)
            if not isinstance(node, Name):
                raise TextError(f"expected the name of a net, found {given.text}", given.place)
            name = Scope(run, place=given.place).canonical(node)
            run.design.netlist.find(name, given.place)
            found.append(name)
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return tuple(found)


def _parts(tree: Tree | None, run: Run) -> tuple[str, ...]:
    """Names of parts that can be opened."""
    if tree is None:
        return ()
    parts = {part.name: part for part in run.design.circuit.parts}
    names: list[str] = []
    for item in tree.items if isinstance(tree, Sequence) else (tree,):
        given = yamltext.scalar(item, "open")
        part = parts.get(given.text)
        if part is None:
            known = nearest(given.text, parts)
            raise TextError(f"there is no part {given.text} to open{known}", given.place)
        if part.kind.inside is None:
            raise TextError(f"{given.text} is a {part.kind.name}; it has no inside", given.place)
        names.append(given.text)
    return tuple(names)


def _clock(options: Keys) -> bool:
    """Whether the clock is to be shown."""
    tree = options.get("clock")
    if tree is None:
        return True
    given = yamltext.scalar(tree, "clock")
    if given.text not in ("shown", "hidden"):
        raise TextError(f"clock: found {given.text}, expected shown or hidden", given.place)
    return given.text == "shown"


def _svg(drawing: Drawing) -> str:
    from edgewise.views.drawing import svg

    return svg(drawing)
