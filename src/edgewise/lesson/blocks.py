"""The fenced blocks of a lesson, one reader each, all of one signature."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, ParamSpec, Self, TypeAlias, TypeVar, cast

from edgewise import formula, yamltext
from edgewise.arithmetic import evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, TextError, nearest, raise_all
from edgewise.formula import Name
from edgewise.lesson import broken, claims, compared, covered, law, proof
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.covered import Covered
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run, Scope
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.proof import Proved
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Sequence, Tree, scalar

if TYPE_CHECKING:
    from edgewise.views.drawing import Drawing
    from edgewise.views.manner import Clock
    from edgewise.views.symbols import Style


MOST_ROWS: Final = 1000
"""Rows in one table or figure, at most."""

Given = ParamSpec("Given")
Read = TypeVar("Read")


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
    blank: tuple[int, ...] | None = None
    """Rows that a handout with blanks leaves empty, where the lesson says which."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture of a run, as SVG, with the rows and nets whose values it shows."""

    svg: str
    rows: tuple[int, ...]
    names: tuple[str, ...]
    caption: str = ""
    drawing: Drawing | None = None
    """What the SVG was made of."""


@dataclass(frozen=True, slots=True)
class CircuitText:
    """The circuit of the lesson, as text."""

    text: str


@dataclass(frozen=True, slots=True)
class Stage:
    """A figure to step through.

    Parameters
    ----------
    columns : tuple of str
        Of its edge table and timing diagram; `Trace.columns` if empty.
    opened : tuple of str
        Parts drawn from inside.
    clock, symbols : str
        As in `edgewise.views.diagram.diagram`.
    row : int
        The row shown first.
    fade : int
        The last rows that a learner may leave out, at most; 0: any number.
    """

    columns: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    clock: Clock = "wedge"
    symbols: Style = "distinctive"
    row: int = 0
    fade: int = 0


@dataclass(frozen=True, slots=True)
class Said:
    """What the teacher says while the figure above is projected; readers don't see it.

    Parameters
    ----------
    text : str
        Plain paragraphs.
    rows : tuple of int
        The rows during which it is said; empty for all.
    """

    text: str
    rows: tuple[int, ...] = ()


Piece: TypeAlias = (
    EdgeTable
    | Figure
    | Stage
    | Said
    | Checked
    | CircuitText
    | FoundLaw
    | Proved
    | Covered
    | Broken
    | Compared
)
"""What a block becomes."""


def edge_table(block: Block, setting: Setting) -> EdgeTable | None:
    """``rows: 6..12``, ``columns: [A, S]``, ``caption: …``; all rows and columns by default.

    ``blank: 7..12`` or ``blank: none``: what a handout with blanks leaves empty.
    """
    options = _options(block, ("rows", "columns", "caption", "blank"))
    run = setting.run
    with _Gathering() as gathering:
        caption = gathering.add(_text, options, "caption") or ""
        rows = gathering.add(_rows, options.get("rows"), run) or ()
        names = gathering.add(_names, options.get("columns"), "columns", run) or ()
        blank = gathering.add(_blank, options.get("blank"), run, rows)
    return None if run is None else EdgeTable(names, rows, caption, blank)


def claim(block: Block, setting: Setting) -> Checked | None:
    """One claim a line; ``#`` begins a comment."""
    return claims.check(block, setting.blueprint, setting.run)


def diagram(block: Block, setting: Setting) -> Figure | None:
    """``after: 6``, ``open: [FA]``, ``clock: hidden``, ``symbols: …``, ``caption: …``.

    The last row unless said; ``clock: wires`` draws the clock's wires too.
    """
    from edgewise.views import diagram as views

    options = _options(block, ("after", "open", "clock", "symbols", "legend", "caption"))
    run = setting.run
    with _Gathering() as gathering:
        caption = gathering.add(_text, options, "caption") or ""
        clock = gathering.add(_choice, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(_choice, options, "symbols", ("distinctive", "rectangular"))
        legend = gathering.add(_choice, options, "legend", ("hidden", "shown")) == "shown"
        row = gathering.add(_after, options.get("after"), run) or 0
        opened = gathering.add(_parts, options.get("open"), run) or ()
    if run is None:
        return None
    drawing = views.diagram(
        run.trace,
        after=row,
        open=opened,
        clock=cast("Clock", clock),
        symbols=cast("Style", symbols),
        legend=legend,
    )
    return Figure(_svg(drawing, block), (row,), run.trace.columns, caption, drawing)


def stage(block: Block, setting: Setting) -> Stage | None:
    """``after: 6``, ``columns: [A, S]``, ``open: [FA]``, ``fade: 1..3``, as in a diagram.

    ``after`` is the row shown first, the start unless said. ``fade: 1..k`` lets a learner leave
    out the last row, then the last two, and so on, but no more than k.
    """
    options = _options(block, ("after", "columns", "open", "clock", "symbols", "fade"))
    run = setting.run
    with _Gathering() as gathering:
        clock = gathering.add(_choice, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(_choice, options, "symbols", ("distinctive", "rectangular"))
        after = options.get("after")
        row = gathering.add(_after, after, run) if after is not None else 0
        names = gathering.add(_names, options.get("columns"), "columns", run) or ()
        opened = gathering.add(_parts, options.get("open"), run) or ()
        fade = gathering.add(_fade, options.get("fade"), run) or 0
    if run is None:
        return None
    return Stage(names, opened, cast("Clock", clock), cast("Style", symbols), row or 0, fade)


def filmstrip(block: Block, setting: Setting) -> Figure | None:
    """``rows: 6..9``, ``across: 2``, and the options of a diagram: one diagram for each row."""
    from edgewise.views import filmstrip as views

    known = ("rows", "across", "open", "clock", "symbols", "legend", "caption")
    options = _options(block, known)
    run = setting.run
    with _Gathering() as gathering:
        caption = gathering.add(_text, options, "caption") or ""
        clock = gathering.add(_choice, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(_choice, options, "symbols", ("distinctive", "rectangular"))
        legend = gathering.add(_choice, options, "legend", ("hidden", "shown")) == "shown"
        rows = gathering.add(_rows, options.get("rows"), run) or ()
        opened = gathering.add(_parts, options.get("open"), run) or ()
        across = gathering.add(_across, options.get("across"))
    if run is None:
        return None
    drawing = views.filmstrip(
        run.trace,
        rows,
        across=across,
        open=opened,
        clock=cast("Clock", clock),
        symbols=cast("Style", symbols),
        legend=legend,
    )
    return Figure(_svg(drawing, block), rows, run.trace.columns, caption, drawing)


def _across(tree: Tree | None) -> int | None:
    """How many diagrams stand side by side."""
    if tree is None:
        return None
    text = scalar(tree, "across")
    if not (text.text.isdecimal() and 1 <= int(text.text) <= _MOST_ACROSS):
        raise TextError(f"across: found {text.text}, expected 1..{_MOST_ACROSS}", text.place)
    return int(text.text)


_MOST_ACROSS: Final = 12


def timing(block: Block, setting: Setting) -> Figure | None:
    """``rows: 6..12``, ``nets: [A, S]``, ``clock: hidden``, ``caption: …``."""
    from edgewise.views import timing as views

    options = _options(block, ("rows", "nets", "clock", "legend", "caption"))
    run = setting.run
    with _Gathering() as gathering:
        caption = gathering.add(_text, options, "caption") or ""
        clock = gathering.add(_choice, options, "clock", ("shown", "hidden")) == "shown"
        legend = gathering.add(_choice, options, "legend", ("hidden", "shown")) == "shown"
        rows = gathering.add(_rows, options.get("rows"), run) or ()
        names = gathering.add(_names, options.get("nets"), "nets", run) or ()
    if run is None:
        return None
    drawing = views.timing(run.trace, names, rows, clock=clock, legend=legend)
    return Figure(_svg(drawing, block), rows, names, caption, drawing)


def say(block: Block, setting: Setting) -> Said | None:
    """Plain text; a first line ``rows: 7..9`` tells when it is said."""
    first, _, rest = block.text.partition("\n")
    if not re.match(r"\s*rows\s*:", first):
        return Said(block.text.strip())
    rows = _rows(_options(replace(block, text=first + "\n"), ("rows",)).get("rows"), setting.run)
    return None if setting.run is None else Said(rest.strip(), rows)


def circuit(block: Block, setting: Setting) -> CircuitText:
    """The circuit text itself, for ``design: here``."""
    del setting
    return CircuitText(block.text)


def found_law(block: Block, setting: Setting) -> FoundLaw | None:
    """``count: edges``, ``over: {n: 1..16, x: 2..5}``, ``claim: n*(x + 1)``."""
    run = setting.run
    options = _options(block, law.OPTIONS)
    return law.read(options, setting.blueprint, None if run is None else run.design)


def proved(block: Block, setting: Setting) -> Proved | None:
    """``design: …``, ``with: {n: 4}``, ``claim: …``, ``expect: false``, ``caption: …``."""
    run = setting.run
    options = _options(block, proof.OPTIONS)
    return proof.read(options, setting.blueprint, {} if run is None else run.design.parameters)


def coverage(block: Block, setting: Setting) -> Covered | None:
    """``show: table``, ``parts: [rows, carries]``, ``caption: …``."""
    return covered.read(_options(block, covered.OPTIONS), setting.run)


def fault(block: Block, setting: Setting) -> Broken | None:
    """``fault: C stuck at 0``, ``rows: …``, ``columns: …``, ``solution: true``, ``caption: …``."""
    options = _options(block, broken.OPTIONS)
    run = setting.run
    with _Gathering() as gathering:
        caption = gathering.add(_text, options, "caption") or ""
        solution = gathering.add(broken.solved, options) or False
        found = gathering.add(broken.named, options, run)
        tree = options.get("rows")
        rows = None if tree is None else gathering.add(_rows, tree, run)
        names = gathering.add(_names, options.get("columns"), "columns", run) or ()
    if run is None or found is None:
        return None
    return broken.read(found, run, names, rows, solution=solution, caption=caption)


def comparison(block: Block, setting: Setting) -> Compared | None:
    """``designs: [...]``, ``over: {n: 4..32}``, ``chart: time``, ``need: …``, ``path: …``."""
    run = setting.run
    options = _options(block, compared.OPTIONS)
    return compared.read(options, setting.blueprint, {} if run is None else run.design.parameters)


BLOCKS: Final[Mapping[str, Callable[[Block, Setting], Piece | None]]] = {
    "edge-table": edge_table,
    "claim": claim,
    "diagram": diagram,
    "timing": timing,
    "filmstrip": filmstrip,
    "stage": stage,
    "say": say,
    "circuit": circuit,
    "law": found_law,
    "prove": proved,
    "coverage": coverage,
    "fault": fault,
    "compare": comparison,
}
"""A reader for each block, by the word behind the fence."""


# ---------------------------------------------------------------------- options


_EXAMPLES: Final = {
    "law": "edges",
    "prove": "false",
    "coverage": "table",
    "fault": "C stuck at 0",
    "compare": "[ripple-carry-adder, carry-skip-adder]",
}
"""What the first entry of a block may be, if not a row."""


def _options(block: Block, known: tuple[str, ...]) -> Keys:
    # Indented again, as in the lesson, so that places have the right column.
    margin = " " * block.indent
    text = "".join(margin + line for line in block.text.splitlines(keepends=True))
    trees = yamltext.read(text, block.place.file, block.first_line)
    example = f"{known[0]}: {_EXAMPLES.get(block.kind, '6')}"
    tree = trees[0] if trees else Keys((), block.place)
    options = yamltext.mapping(tree, block.kind, example)
    raise_all(options.refuse_other_keys(known, block.kind))
    return options


def _text(options: Keys, key: str) -> str:
    tree = options.get(key)
    return "" if tree is None else " ".join(yamltext.scalar(tree, key).text.split())


class _Gathering:
    """Reads the options of one block so that all that is wrong with them is reported."""

    def __init__(self) -> None:
        self.errors: list[EdgewiseError] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        raise_all(self.errors)

    def add(
        self, reading: Callable[Given, Read], *given: Given.args, **named: Given.kwargs
    ) -> Read | None:
        """What a reading gives; nothing where it fails, which is noted."""
        try:
            return reading(*given, **named)
        except EdgewiseError as wrong:
            self.errors += wrong.parts()
            return None


# Without a run, the design or the operands being at fault, only the form is read.


def _after(tree: Tree | None, run: Run | None) -> int:
    if run is None:
        return 0
    return run.design.edges if tree is None else _row(yamltext.scalar(tree, "after"), run)


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


def _rows(tree: Tree | None, run: Run | None) -> tuple[int, ...]:
    """``6..12``, ``[0, 6, 12]``, or a phase's name: the row before it and its own."""
    if run is None:
        return ()
    rows: list[int] = []
    with _Gathering() as gathering:
        match tree:
            case None:
                rows += range(run.design.edges + 1)
            case Sequence(items=items):
                for item in items:
                    rows += gathering.add(_span, item, run) or ()
            case _:
                rows += gathering.add(_span, tree, run) or ()
    chosen = tuple(dict.fromkeys(rows))
    if len(chosen) > MOST_ROWS:
        place = tree.place if tree is not None else None
        raise TextError(
            f"{len(chosen):,} rows are too many to show; the limit is {MOST_ROWS:,}: write rows:"
            " low..high",
            place,
        )
    return chosen


def _fade(tree: Tree | None, run: Run | None) -> int:
    """The k of ``1..k``: how many of the last rows may be left out."""
    if tree is None or run is None:
        return 0
    given = yamltext.scalar(tree, "fade")
    low, dots, high = given.text.partition("..")
    most, last = high if dots else low, run.design.edges
    if (dots and low.strip() != "1") or not most.strip().isdecimal():
        raise TextError(f"fade: found {given.text}, expected 1..k, such as 1..3", given.place)
    if not 1 <= int(most) <= last:
        there = f"the last row is {last}" if last else "this design has no clock edges"
        raise TextError(f"fade: {int(most)} rows can't be left out; {there}", given.place)
    return int(most)


def _blank(tree: Tree | None, run: Run | None, shown: tuple[int, ...]) -> tuple[int, ...] | None:
    """Rows to be left empty, all of them shown; ``none`` for none."""
    if tree is None or run is None:
        return None
    if isinstance(tree, Scalar) and tree.text == "none":
        return ()
    rows = _rows(tree, run)
    for row in rows:
        if row not in shown:
            raise TextError(f"blank: row {row} is not among the rows of this table", tree.place)
    return rows


def _span(item: Tree, run: Run) -> range:
    given = yamltext.scalar(item, "rows")
    for phase, first, last in run.design.spans:
        if phase.name == given.text:
            return range(first - 1, last + 1)
    low, dots, high = given.text.partition("..")
    first = _row(Scalar(low, given.place), run)
    last = _row(Scalar(high, given.place.moved(len(low) + 2)), run) if dots else first
    if first > last:
        raise TextError(f"rows {given.text} is empty; write low..high", given.place)
    return range(first, last + 1)


def _names(tree: Tree | None, key: str, run: Run | None) -> tuple[str, ...]:
    if run is None:
        return ()
    if tree is None:
        return run.trace.columns
    found: list[str] = []
    errors: list[EdgewiseError] = []
    for item in yamltext.sequence(tree, key, "[A, FA.sum, S]"):
        try:
            given = yamltext.scalar(item, key)
            node = formula.parse(given.text, place=given.place)
            if not isinstance(node, Name):
                raise TextError(f"expected the name of a net, found {given.text}", given.place)
            found.append(Scope(run, place=given.place).net_name(node))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return tuple(found)


def _parts(tree: Tree | None, run: Run | None) -> tuple[str, ...]:
    """Names of parts that can be opened."""
    if tree is None or run is None:
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


def _choice(options: Keys, key: str, choices: tuple[str, ...]) -> str:
    """One of some words; the first unless said."""
    tree = options.get(key)
    if tree is None:
        return choices[0]
    given = yamltext.scalar(tree, key)
    if given.text not in choices:
        raise TextError(f"{key}: found {given.text}, expected {' or '.join(choices)}", given.place)
    return given.text


def _svg(drawing: Drawing, block: Block) -> str:
    from edgewise.views.drawing import svg

    # Ids must differ even where a lesson shows the same figure twice.
    return svg(drawing, prefix=f"line{block.place.line}-")
