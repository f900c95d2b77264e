"""The ``compare`` block: what designs cost and how long they take, computed while building."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path as Folder
from typing import TYPE_CHECKING, Final, TypeVar

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.errors import (
    DesignError,
    EdgewiseError,
    Message,
    Place,
    TextError,
    nearest,
    raise_all,
)
from edgewise.formula import parse
from edgewise.lesson.naming import named_design
from edgewise.lesson.pieces import Figure
from edgewise.views.registry import Wish
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, mapping, scalar, sequence

if TYPE_CHECKING:  # few lessons compare, and these are half as much again to import
    from edgewise.study.compare.comparison import Comparison
    from edgewise.study.compare.needs import Answer
    from edgewise.study.cost.critical_path import Path
    from edgewise.study.cost.true_delay import TrueDelay
    from edgewise.views.charts.curves import Chart

OPTIONS: Final = ("designs", "over", "with", "model", "chart", "at", "need", "path", "caption")
"""The entries of a ``compare`` block."""
MOST: Final = 2_000
"""Designs measured for one block, at most."""
NAMES: Final = 1
"""The column of a table in which designs are named; in the others stand figures."""
_PATH: Final = re.compile(r"(?P<design>[^\s]+)(\s+at\s+(?P<numbers>.+))?")

Read = TypeVar("Read")


@dataclass(frozen=True, slots=True)
class CriticalPath:
    """The critical path of a design: net by net, and marked in its diagram, all operands 0."""

    path: Path
    true: TrueDelay
    figure: Figure

    def note(self, words: Words = ENGLISH) -> str:
        """Its length and ends, the true delay, and which paths are false."""
        return "; ".join([self.path.note(words), *self.true.sentences(words)])


@dataclass(frozen=True, slots=True)
class Plot:
    """A chart that a block asks for, found to be possible; ``at``: of the chart area-delay."""

    kind: str
    at: int | None = None


@dataclass(frozen=True, slots=True)
class Compared:
    """A comparison in a lesson.

    Parameters
    ----------
    comparison : Comparison
    answer : Answer, optional
        What satisfies the need, if the block has one; the table is then of that.
    plot : Plot, optional
    path : CriticalPath, optional
    caption : str
    """

    comparison: Comparison
    answer: Answer | None = None
    plot: Plot | None = None
    path: CriticalPath | None = None
    caption: str = ""

    def chart(self, words: Words = ENGLISH) -> Chart | None:
        """The chart, if the block asks for one."""
        from edgewise.lesson.charts import chart

        plot = self.plot
        return None if plot is None else chart(self.comparison, plot.kind, plot.at, words=words)

    def title(self, words: Words = ENGLISH) -> str:
        """What the table shows."""
        found = self.comparison
        if self.caption:
            return self.caption
        if self.answer is not None:
            return words("compare-satisfies", need=self.answer.need.text)
        first, last = found.values[0], found.values[-1]
        span = str(first) if first == last else words("compare-span", first=first, last=last)
        over = f"{found.parameter}\u00a0=\u00a0{span}"
        return words("compare-title", over=over, **found.units(words))

    def lines(self, words: Words = ENGLISH) -> list[list[str]]:
        """The table, its heading first; empty if nothing satisfies the need."""
        if self.answer is None:
            return self.comparison.cells(words)
        return self.answer.cells(words) if self.answer.found else []

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """What satisfies the need, or in one sentence which design to take where."""
        return self.answer.sentences(words) if self.answer else self.comparison.choice(words)

    def notes(self, words: Words = ENGLISH) -> list[str]:
        """What the figures mean and where they end."""
        return self.comparison.notes(words)


def read(
    options: Keys,
    blueprint: Blueprint | None,
    parameters: Mapping[str, int],
    folder: Folder,
    words: Words = ENGLISH,
) -> Compared | None:
    """Compare what a block asks for.

    Parameters
    ----------
    options : Keys
        ``designs: [ripple-carry-adder, …]``, ``over: {n: 4..32}``, ``with: {d: 2}``,
        ``model: unit-gate``, ``chart: time``, ``at: 16`` (of the chart area-delay),
        ``need: n = 32, time <= 40``, ``path: ripple-carry-adder at n=8``, ``caption: …``.
    blueprint : Blueprint, optional
        The lesson's own design, which may be among those named.
    parameters : mapping of str to int
        The lesson's, for formulas in ranges.

    Raises
    ------
    EdgewiseError or Problems
        Options that can't be read, designs that can't be compared.
    """
    from edgewise.study.compare import needs
    from edgewise.study.compare.comparison import compare
    from edgewise.study.cost import models

    errors: list[EdgewiseError] = []

    def add(reading: Callable[[], Read], otherwise: Read) -> Read:
        try:
            return reading()
        except EdgewiseError as wrong:
            errors.extend(wrong.parts())
            return otherwise

    no_designs: list[Blueprint] = []
    no_ranges: dict[str, tuple[int, int]] = {}
    no_numbers: dict[str, int] = {}
    known = Numbers(parameters)
    designs = add(lambda: _designs(options, blueprint, folder), no_designs)
    over = add(lambda: _ranges(options.get("over"), known), no_ranges)
    fixed = add(lambda: _numbers(options.get("with"), known), no_numbers)
    model, chart, need, caption = (
        add(lambda key=key: _text(options, key), None)  # type: ignore[misc]
        for key in ("model", "chart", "need", "caption")
    )
    at = add(lambda: _at(options, known), None)
    path = add(lambda: _text(options, "path"), None)
    raise_all(errors)
    if not over and need is None:
        told = Message("compare-over-absent")
        raise TextError(told, options.place)
    many = len(designs) * sum(high - low + 1 for low, high in over.values())
    if many > MOST:
        place = options.get("over")
        told = Message("compare-designs-many", count=many, most=MOST)
        raise TextError(told, place.place if place else options.place)
    name = model.text if model else "unit-gate"
    models.technology(name, model.place if model else options.place)
    raise_all(_strangers(options.get("with"), designs, over))
    place_of = (options.get("over") or options).place
    answer = None
    if need is not None:
        answer = needs.need(designs, need.text, over, name, fixed, place=need.place)
        found = answer.comparison
    else:
        found = compare(designs, over, name, fixed, place=place_of)
    return Compared(
        found,
        answer,
        _plot(found, chart, at, options),
        _critical(path, name, blueprint, folder, words) if path else None,
        " ".join(caption.text.split()) if caption else "",
    )


def _text(options: Keys, key: str) -> Scalar | None:
    tree = options.get(key)
    return None if tree is None else scalar(tree, key)


def _designs(options: Keys, own: Blueprint | None, folder: Folder) -> list[Blueprint]:
    tree = options.get("designs")
    if tree is None:
        told = Message("compare-designs-absent")
        raise TextError(told, options.place)
    found: list[Blueprint] = []
    errors: list[EdgewiseError] = []
    items = (tree,) if isinstance(tree, Scalar) else sequence(tree, "designs", "[…]")
    if not items:
        raise TextError(Message("list-empty", entry="designs"), tree.place)
    for item in items:
        try:
            given = scalar(item, "designs")
            one = named_design(given, folder, own)
            if one in found:
                raise TextError(Message("design-named-twice", name=one.name), given.place)
            found.append(one)
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return found


def _value(text: str, place: Place, known: Numbers) -> int:
    return number(evaluate_at(parse(text, place=place), known, place))


def _ranges(tree: Tree | None, known: Numbers) -> dict[str, tuple[int, int]]:
    found: dict[str, tuple[int, int]] = {}
    for name, value in mapping(tree, "over", "{n: 4..32}").pairs if tree is not None else ():
        given = scalar(value, name.text)
        low, dots, high = given.text.partition("..")
        first = _value(low, given.place, known)
        behind = given.place.moved(len(low) + 2)
        found[name.text] = first, _value(high, behind, known) if dots else first
    return found


def _at(options: Keys, known: Numbers) -> int | None:
    """The number at which area is drawn against time; without that chart it says nothing."""
    tree, chart = options.get("at"), options.get("chart")
    if tree is None:
        return None
    given = scalar(tree, "at")
    if not (isinstance(chart, Scalar) and chart.text == "area-delay"):
        raise TextError(Message("compare-at-idle"), given.place)
    return _value(given.text, given.place, known)


def _strangers(
    tree: Tree | None, designs: Sequence[Blueprint], over: Mapping[str, tuple[int, int]]
) -> Iterator[EdgewiseError]:
    """Parameters behind ``with`` that mean nothing here."""
    known = sorted({one.name for design in designs for one in design.parameters})
    for name, _ in mapping(tree, "with", "{d: 2}").pairs if tree is not None else ():
        if name.text not in known:
            told = Message(
                "parameter-of-none", name=name.text, suggestion=nearest(name.text, known)
            )
            yield DesignError(told, name.place)
        elif name.text in over:
            yield TextError(Message("with-and-over", name=name.text), name.place)


def _numbers(tree: Tree | None, known: Numbers) -> dict[str, int]:
    found: dict[str, int] = {}
    for name, value in mapping(tree, "with", "{d: 2}").pairs if tree is not None else ():
        given = scalar(value, name.text)
        found[name.text] = _value(given.text, given.place, known)
    return found


def _plot(found: Comparison, kind: Scalar | None, at: int | None, options: Keys) -> Plot | None:
    """The chart, drawn once so that what is wrong with it is told at its place."""
    if kind is None or kind.text == "none":
        return None
    from edgewise.lesson.charts import chart

    if kind.text == "toggles":
        told = Message("compare-no-toggles")
        raise TextError(told, kind.place)
    tree = options.get("at")
    chart(found, kind.text, at, kind.place if tree is None else tree.place)
    return Plot(kind.text, at)


def _critical(
    given: Scalar, model: str, own: Blueprint | None, folder: Folder, words: Words
) -> CriticalPath:
    """The path that ``ripple-carry-adder at n=8`` asks for."""
    from edgewise.engines import reference
    from edgewise.study.cost import critical_path, models, true_delay

    asked = _PATH.fullmatch(given.text.strip())
    if asked is None:
        told = Message("path-expected", found=given.text.strip() or Message("nothing-found"))
        raise TextError(told, given.place)
    sizes: dict[str, int] = {}
    for item in (asked["numbers"] or "").split(",") if asked["numbers"] else ():
        name, _, value = (piece.strip() for piece in item.partition("="))
        if not (name.isidentifier() and value.isdecimal()):
            raise TextError(Message("path-number", found=item.strip()), given.place)
        if name in sizes:
            raise TextError(Message("path-twice", name=name), given.place)
        sizes[name] = int(value)
    try:
        design = named_design(Scalar(asked["design"], given.place), folder, own).design(sizes)
        trace = reference.run(design, design.values({one.name: 0 for one in design.operands}))
    except EdgewiseError as wrong:
        raise wrong.placed(given.place) from None
    chosen = models.technology(model, given.place)
    path = critical_path.longest(design.netlist, chosen)
    numbers = equations(design.parameters.items(), "\u00a0=\u00a0")
    title = words("compare-critical-path", design=design.name, given=numbers)
    wish = Wish(after=0, path=path.marks, words=words)
    true = true_delay.of(design, chosen)
    return CriticalPath(path, true, Figure(trace, "diagram", wish, (0,), (), title, given.place))
