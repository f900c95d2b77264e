"""The options of a block: YAML entries read against the lesson's run, all errors kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, ParamSpec, Self, TypeVar

from edgewise import formula, yamltext
from edgewise.arithmetic import evaluate_at, number
from edgewise.errors import EdgewiseError, Message, TextError, nearest, raise_all
from edgewise.formula import Name
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run, Scope
from edgewise.listing import either
from edgewise.numerals import meant_range, whole
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Sequence, Tree, scalar, shortened

MOST_ROWS: Final = 1000
"""Rows in one table or figure, at most."""

Given = ParamSpec("Given")
Read = TypeVar("Read")


_EXAMPLES: Final = {
    "law": "edges",
    "prove": "false",
    "coverage": "table",
    "fault": "C stuck at 0",
    "compare": "[ripple-carry-adder, carry-skip-adder]",
    "hazard": "sum",
    "question": "next-rows",
    "inside": "8",
}
"""What the first entry of a block may be, if not a row."""


def options_of(block: Block, known: tuple[str, ...]) -> Keys:
    """The entries of a block; one that is not known is refused, the nearest suggested."""
    example = f"{known[0]}: {_EXAMPLES.get(block.kind, '6')}"
    tree = tree_of(block) or Keys((), block.place)
    options = yamltext.mapping(tree, block.kind, example)
    raise_all(options.refuse_other_keys(known, block.kind))
    return options


def tree_of(block: Block) -> Tree | None:
    """What the YAML of a block says; nothing if it is empty."""
    # Indented again, as in the lesson, so that places have the right column.
    margin = " " * block.indent
    text = "".join(margin + line for line in block.text.splitlines(keepends=True))
    trees = yamltext.read(text, block.place.file, block.first_line)
    return trees[0] if trees else None


def text_of(options: Keys, key: str) -> str:
    """The words of an entry on one line; empty without it."""
    tree = options.get(key)
    return "" if tree is None else " ".join(yamltext.scalar(tree, key).text.split())


class Gathering:
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


def after_of(tree: Tree | None, run: Run | None) -> int:
    """The row of ``after``: a formula or a phase's name; the last unless said."""
    if run is None:
        return 0
    return run.design.edges if tree is None else row_of(yamltext.scalar(tree, "after"), run)


def row_of(given: Scalar, run: Run) -> int:
    """A row given as a formula or a phase's name."""
    node = formula.parse(given.text, place=given.place)
    scope = Scope(run, counting=True, place=given.place)
    row = number(evaluate_at(node, scope, given.place))
    last = run.design.edges
    if not 0 <= row <= last:
        raise TextError(Message("row-unknown", row=row, last=last), given.place)
    return row


def rows_of(tree: Tree | None, run: Run | None) -> tuple[int, ...]:
    """``6..12``, ``[0, 6, 12]``, or a phase's name: the row before it and its own."""
    if run is None:
        return ()
    rows: list[int] = []
    with Gathering() as gathering:
        match tree:
            case None:
                rows += range(run.design.edges + 1)
            case Sequence(items=items):
                for item in items:
                    rows += gathering.add(span_of, item, run) or ()
            case _:
                rows += gathering.add(span_of, tree, run) or ()
    chosen = tuple(dict.fromkeys(rows))
    if len(chosen) > MOST_ROWS:
        place = tree.place if tree is not None else None
        raise TextError(Message("rows-shown-many", count=len(chosen), most=MOST_ROWS), place)
    return chosen


def fade_of(tree: Tree | None, run: Run | None) -> int:
    """The k of ``1..k``: how many of the last rows may be left out."""
    if tree is None or run is None:
        return 0
    given = yamltext.scalar(tree, "fade")
    low, dots, high = given.text.partition("..")
    most, last = high if dots else low, run.design.edges
    if (dots and low.strip() != "1") or whole(most, "fade") is None:
        hint = meant_range(given.text) or Message("range-fade")
        told = Message("range-unread", name="fade", found=shortened(given.text), hint=hint)
        raise TextError(told, given.place)
    if not 1 <= int(most) <= last:
        raise TextError(Message("fade-outside", count=int(most), last=last), given.place)
    return int(most)


def blank_of(tree: Tree | None, run: Run | None, shown: tuple[int, ...]) -> tuple[int, ...] | None:
    """Rows to be left empty, all of them shown; ``none`` for none."""
    if tree is None or run is None:
        return None
    if isinstance(tree, Scalar) and tree.text == "none":
        return ()
    rows = rows_of(tree, run)
    for row in rows:
        if row not in shown:
            raise TextError(Message("blank-outside", row=row), tree.place)
    return rows


def span_of(item: Tree, run: Run) -> range:
    """The rows of one item: ``6``, ``6..12``, or a phase's name."""
    given = yamltext.scalar(item, "rows")
    for phase, first, last in run.design.spans:
        if phase.name == given.text:
            return range(first - 1, last + 1)
    if hint := meant_range(given.text):
        raise TextError(
            Message("range-unread", name="rows", found=given.text, hint=hint), given.place
        )
    low, dots, high = given.text.partition("..")
    first = row_of(Scalar(low, given.place), run)
    last = row_of(Scalar(high, given.place.moved(len(low) + 2)), run) if dots else first
    if first > last:
        raise TextError(Message("rows-backwards", found=given.text), given.place)
    return range(first, last + 1)


def names_of(tree: Tree | None, key: str, run: Run | None) -> tuple[str, ...]:
    """The nets and words of a list, their indices worked out; all the usual ones unless said."""
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
                raise TextError(Message("net-name-expected", found=given.text), given.place)
            found.append(Scope(run, place=given.place).net_name(node))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return tuple(found)


def parts_of(tree: Tree | None, run: Run | None) -> tuple[str, ...]:
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
            raise TextError(
                Message("part-to-open-unknown", name=given.text, suggestion=known), given.place
            )
        if part.kind.inside is None:
            raise TextError(
                Message("part-without-inside", name=given.text, kind=part.kind.name), given.place
            )
        names.append(given.text)
    return tuple(names)


def choice_of(options: Keys, key: str, choices: tuple[str, ...]) -> str:
    """One of some words; the first unless said."""
    tree = options.get(key)
    if tree is None:
        return choices[0]
    given = yamltext.scalar(tree, key)
    if given.text not in choices:
        told = Message("entry-expected", entry=key, found=given.text, expected=either(choices))
        raise TextError(told, given.place)
    return given.text


def across_of(tree: Tree | None) -> int | None:
    """How many diagrams stand side by side."""
    if tree is None:
        return None
    text = scalar(tree, "across")
    if not 1 <= (whole(text.text, "across") or 0) <= _MOST_ACROSS:
        found, expected = shortened(text.text), f"1..{_MOST_ACROSS}"
        told = Message("entry-expected", entry="across", found=found, expected=expected)
        raise TextError(told, text.place)
    return int(text.text)


_MOST_ACROSS: Final = 12
