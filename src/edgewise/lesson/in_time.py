"""The ``in-time`` block: what a circuit does in time when waveforms come to its inputs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from edgewise import waveform
from edgewise.blueprint import Blueprint
from edgewise.circuit.family import number_in
from edgewise.errors import EdgewiseError, Message, TextError
from edgewise.lesson.composed import Composed, Content, Grid, Listing
from edgewise.lesson.naming import named_design
from edgewise.lesson.options import Gathering, choice_of, names_of, parts_of, text_of
from edgewise.lesson.pieces import Figure
from edgewise.response import Response
from edgewise.response.report import sentences
from edgewise.response.timeline import timeline
from edgewise.study.claims.run import Run
from edgewise.trace import Trace
from edgewise.views.registry import Wish, possible
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, mapping, scalar, sequence

OPTIONS: Final = (
    "design",
    "with",
    "waveforms",
    "model",
    "until",
    "columns",
    "from",
    "to",
    "at",
    "open",
    "symbols",
    "show",
    "caption",
)
"""The entries of an ``in-time`` block."""
SHOWN: Final = ("both", "table", "sentences", "timing", "diagram")
"""What may stand behind ``show``."""

MOST_SAID: Final = 40
"""Sentences, at most."""
MOST_ROWS: Final = 400
"""Rows of a table, at most."""


def read(
    options: Keys, own: Blueprint | None, folder: Path, words: Words = ENGLISH
) -> Composed | None:
    """Follow a circuit as a block asks for; without a design the block is only read.

    Parameters
    ----------
    options : Keys
        ``design:`` of the catalogue or a circuit file beside the lesson, the lesson's unless said;
        ``with: {n: 3}``; ``waveforms:`` in place of those of its text; ``model:``; ``until:``, the
        last time looked at; ``columns:``; ``from:`` and ``to:``, the times of the table; ``at:``,
        the times of diagrams, and ``open:`` and ``symbols:`` of these; ``show: table``.
    own : Blueprint, optional
        The lesson's.
    folder : Path
        Of the lesson.
    words : Words

    Raises
    ------
    EdgewiseError or Problems
        All that is wrong.
    """
    from edgewise.study.cost import models
    from edgewise.study.inside import Manner, follow

    with Gathering() as gathering:
        add = gathering.add
        show = add(choice_of, options, "show", SHOWN) or "both"
        symbols = add(choice_of, options, "symbols", ("distinctive", "rectangular"))
        caption = add(text_of, options, "caption") or ""
        until = add(_time, options.get("until"), "until")
        span = (add(_time, options.get("from"), "from"), add(_time, options.get("to"), "to"))
        times = add(_times, options.get("at")) or ()
        numbers = add(_numbers, options.get("with")) or {}
        named = options.get("design")
        if named is not None:
            own = add(lambda: named_design(scalar(named, "design"), folder, own))
    if own is None:
        return None
    try:
        manner = Manner(models.technology(text_of(options, "model") or "unit-gate"))
        design = own.made(numbers)
        waves = _waveforms(options.get("waveforms"), design.parameters)
        told = _Told(follow(design, manner, waves, until=until), words, caption, options)
        content: list[Content] = [told.grid(*span)] if show in ("both", "table") else []
        if show == "timing":
            content.append(told.timing())
        if show in ("both", "sentences"):
            content += told.sentences()
        content += [told.figure(time, symbols or "distinctive") for time in times]
    except EdgewiseError as wrong:
        raise wrong.placed(options.place) from None
    try:
        return Composed(tuple(content), words.language)
    except ValueError:  # it is bounded
        raise TextError(Message("time-large"), options.place) from None


class _Told:
    """A response as a lesson shows it."""

    def __init__(self, response: Response, words: Words, caption: str, options: Keys) -> None:
        self.response, self.words, self.place = response, words, options.place
        self.unit, self.line = unit(response.unit, words), timeline(response)
        self.title = caption or words(
            "followed-title", name=response.design.circuit.name, model=response.model
        )
        bare = replace(response.design, operands=(), procedure=(), computes=())
        run = Run(bare, {}, lambda *_: self.line.trace)
        named = options.get("columns")
        self.columns = response.columns if named is None else names_of(named, "columns", run)
        self.opened = parts_of(options.get("open"), run)

    def grid(self, first: Fraction | None, last: Fraction | None) -> Grid:
        """The table, or those of its rows that lie between two times."""
        head, *rows = self.line.lines(self.columns, self.words)
        times = [Fraction(row[0]) for row in self.line.lines(self.columns)[1:]]
        low, high = first or 0, last if last is not None else self.response.end
        shown = [row for time, row in zip(times, rows, strict=True) if low <= time <= high]
        if len(shown) > MOST_ROWS:
            raise TextError(Message("time-rows", count=len(shown), most=MOST_ROWS), self.place)
        return Grid(head, tuple(shown), self.title, right=(0,))

    def timing(self) -> Figure:
        """All that happens, to scale."""
        wish = Wish(names=self.columns, inside=self.line, words=self.words)
        possible(self.line.trace, "timing", wish)
        return Figure(self.line.trace, "timing", wish, (0,), self.columns, self.title, self.place)

    def sentences(self) -> list[Listing]:
        """What is to be said, if there is anything."""
        said = sentences(self.response, self.words)
        if len(said) > MOST_SAID:
            left = len(said) - MOST_SAID
            said[MOST_SAID:] = [self.words("list-more", count=left)]
        return [Listing(tuple((one,) for one in said))] if said else []

    def figure(self, time: Fraction, symbols: str) -> Figure:
        """The circuit as it stands at a time."""
        response, ticks = self.response, int(time * self.response.ticks)
        if ticks > response.end:
            end = response.figure(response.end)
            raise TextError(Message("time-after-end", at=f"{float(time):g}", end=end), self.place)
        trace = Trace(response.design, {}, (bytes(response.at(ticks)),))
        wish = Wish(after=0, open=self.opened, symbols=symbols, words=self.words)
        possible(trace, "diagram", wish)
        at = self.words.decimal(response.figure(ticks))
        facts = {"name": response.design.circuit.name, "at": at, "unit": self.unit}
        caption = self.words("followed-at", **facts)
        return Figure(trace, "diagram", wish, (0,), self.columns, caption, self.place)


def _times(tree: Tree | None) -> tuple[Fraction, ...]:
    if tree is None:
        return ()
    items = (tree,) if isinstance(tree, Scalar) else sequence(tree, "at", "[10, 12.5]")
    return tuple(time for item in items if (time := _time(item, "at")) is not None)


def _time(tree: Tree | None, key: str) -> Fraction | None:
    if tree is None:
        return None
    given = scalar(tree, key)
    if not waveform.TIME.fullmatch(given.text):
        told = Message("entry-expected", entry=key, found=given.text, expected="12.5")
        raise TextError(told, given.place)
    return Fraction(given.text)


def _numbers(tree: Tree | None) -> dict[str, int]:
    if tree is None:
        return {}
    pairs = mapping(tree, "with", "{n: 3}").pairs
    return {key.text: number_in(value, {}, key.text) for key, value in pairs}


def _waveforms(tree: Tree | None, parameters: Mapping[str, int]) -> tuple[waveform.Waveform, ...]:
    if tree is None:
        return ()
    pairs = mapping(tree, "waveforms", "{set: [1, 0 after 10]}").pairs
    return tuple(waveform.read(key.text, value, parameters) for key, value in pairs)
