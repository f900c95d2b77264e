"""The fenced blocks of a lesson, one reader each, all of one signature."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import FunctionType, NoneType
from typing import TYPE_CHECKING, Final, TypeAlias, cast, get_args

from edgewise.blueprint import Blueprint
from edgewise.errors import Message
from edgewise.guests import Group, Guest
from edgewise.lesson import broken, claims, compared, covered, hazard, in_time, inside, law, proof
from edgewise.lesson import question as questions
from edgewise.lesson import steps as stepping
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import Composed
from edgewise.lesson.covered import Covered
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.memory import Memory
from edgewise.lesson.options import (
    Gathering,
    across_of,
    after_of,
    blank_of,
    choice_of,
    fade_of,
    names_of,
    options_of,
    parts_of,
    rows_of,
    text_of,
)
from edgewise.lesson.patience import Patience
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked, Asking
from edgewise.lesson.steps import Steps
from edgewise.views.registry import Wish, possible
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Scalar

if TYPE_CHECKING:
    from edgewise.views.diagram.options import Clock
    from edgewise.views.drawing.gate_symbols import Style


@dataclass(frozen=True, slots=True)
class Setting:
    """What a block is read in: the lesson's design and its run, where those could be built.

    `folder` is the lesson's, `patience` what its claims and proofs may take together, `memory`
    what an earlier build of it made.
    """

    blueprint: Blueprint | None
    run: Run | None
    folder: Path = Path()
    patience: Patience = field(default_factory=Patience)
    memory: Memory = field(default_factory=Memory)
    words: Words = ENGLISH
    """The language of what stands in its figures."""
    asking: Asking = field(default_factory=Asking)
    """The questions so far."""
    model: Scalar | None = None
    """Whose delays the lesson is about, where it says so."""


Piece: TypeAlias = (
    EdgeTable
    | Figure
    | Stage
    | Said
    | Steps
    | Checked
    | CircuitText
    | FoundLaw
    | Proved
    | Covered
    | Broken
    | Compared
    | Opened
    | Composed
    | Asked
)
"""What a block becomes."""


def edge_table(block: Block, setting: Setting) -> EdgeTable | None:
    """``rows: 6..12``, ``columns: [A, S]``, ``caption: …``; all rows and columns by default.

    ``blank: 7..12`` or ``blank: none``: what a handout with blanks leaves empty.
    """
    options = options_of(block, ("rows", "columns", "caption", "blank"))
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        names = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        blank = gathering.add(blank_of, options.get("blank"), run, rows)
    return None if run is None else EdgeTable(run.trace, names, rows, caption, blank)


def claim(block: Block, setting: Setting) -> Checked | None:
    """One claim a line; ``#`` begins a comment."""
    return claims.check(
        block,
        setting.blueprint,
        setting.run,
        setting.patience,
        setting.memory,
        setting.model,
    )


def diagram(block: Block, setting: Setting) -> Figure | None:
    """``after: 6``, ``open: [FA]``, ``clock: hidden``, ``symbols: …``, ``caption: …``.

    The last row unless said; ``clock: wires`` draws the clock's wires too.
    """
    options = options_of(block, ("after", "open", "clock", "symbols", "legend", "caption"))
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        clock = gathering.add(choice_of, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(choice_of, options, "symbols", ("distinctive", "rectangular"))
        legend = gathering.add(choice_of, options, "legend", ("hidden", "shown")) == "shown"
        row = gathering.add(after_of, options.get("after"), run) or 0
        opened = gathering.add(parts_of, options.get("open"), run) or ()
    if run is None:
        return None
    wish = Wish(
        after=row,
        open=opened,
        clock=clock or "wedge",
        symbols=symbols or "distinctive",
        legend=legend,
        words=setting.words,
    )
    return Figure(run.trace, "diagram", wish, (row,), run.trace.columns, caption, block.place)


def stage(block: Block, setting: Setting) -> Stage | None:
    """``after: 6``, ``columns: [A, S]``, ``open: [FA]``, ``fade: 1..3``, as in a diagram.

    ``after`` is the row shown first, the start unless said. ``fade: 1..k`` lets a learner leave
    out the last row, then the last two, and so on, but no more than k.
    """
    options = options_of(block, ("after", "columns", "open", "clock", "symbols", "fade"))
    run = setting.run
    with Gathering() as gathering:
        clock = gathering.add(choice_of, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(choice_of, options, "symbols", ("distinctive", "rectangular"))
        after = options.get("after")
        row = gathering.add(after_of, after, run) if after is not None else 0
        names = gathering.add(names_of, options.get("columns"), "columns", run) or ()
        opened = gathering.add(parts_of, options.get("open"), run) or ()
        fade = gathering.add(fade_of, options.get("fade"), run) or 0
    if run is None:
        return None
    return Stage(names, opened, cast("Clock", clock), cast("Style", symbols), row or 0, fade)


def filmstrip(block: Block, setting: Setting) -> Figure | None:
    """``rows: 6..9``, ``across: 2``, and the options of a diagram: one diagram for each row."""
    known = ("rows", "across", "open", "clock", "symbols", "legend", "caption")
    options = options_of(block, known)
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        clock = gathering.add(choice_of, options, "clock", ("wedge", "hidden", "wires"))
        symbols = gathering.add(choice_of, options, "symbols", ("distinctive", "rectangular"))
        legend = gathering.add(choice_of, options, "legend", ("hidden", "shown")) == "shown"
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        opened = gathering.add(parts_of, options.get("open"), run) or ()
        across = gathering.add(across_of, options.get("across"))
    if run is None:
        return None
    wish = Wish(
        rows=rows,
        across=across,
        open=opened,
        clock=clock or "wedge",
        symbols=symbols or "distinctive",
        legend=legend,
        words=setting.words,
    )
    possible(run.trace, "filmstrip", wish)
    return Figure(run.trace, "filmstrip", wish, rows, run.trace.columns, caption, block.place)


def timing(block: Block, setting: Setting) -> Figure | None:
    """``rows: 6..12``, ``nets: [A, S]``, ``clock: hidden``, ``caption: …``."""
    options = options_of(block, ("rows", "columns", "clock", "legend", "caption"))
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        clock = gathering.add(choice_of, options, "clock", ("shown", "hidden"))
        legend = gathering.add(choice_of, options, "legend", ("hidden", "shown")) == "shown"
        rows = gathering.add(rows_of, options.get("rows"), run) or ()
        names = gathering.add(names_of, options.get("columns"), "columns", run) or ()
    if run is None:
        return None
    wish = Wish(
        names=names,
        rows=rows,
        clock="hidden" if clock == "hidden" else "wedge",
        legend=legend,
        words=setting.words,
    )
    possible(run.trace, "timing", wish)
    return Figure(run.trace, "timing", wish, rows, names, caption, block.place)


def states(block: Block, setting: Setting) -> Figure | None:
    """``after: 6``, ``caption: …``: the state diagram, the state after that edge marked."""
    options = options_of(block, ("after", "caption"))
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        after = options.get("after")
        row = None if after is None else gathering.add(after_of, after, run)
    if run is None:
        return None
    from edgewise.engines.state_space import graph  # few lessons need it

    wish = Wish(after=row, graph=graph(run.design), words=setting.words)
    possible(run.trace, "states", wish)
    rows = () if row is None else (row,)
    return Figure(run.trace, "states", wish, rows, run.trace.columns, caption, block.place)


def say(block: Block, setting: Setting) -> Said | None:
    """Plain text; a first line ``rows: 7..9`` tells when it is said."""
    first, _, rest = block.text.partition("\n")
    if not re.match(r"\s*rows\s*:", first):
        return Said(block.text.strip())
    rows = rows_of(
        options_of(replace(block, text=first + "\n"), ("rows",)).get("rows"), setting.run
    )
    return None if setting.run is None else Said(rest.strip(), rows)


def steps(block: Block, setting: Setting) -> Steps | None:
    """A list: ``- load``, ``- 7..9``, ``- {rows: 7, point: [C, FA.sum], say: …}``."""
    return stepping.read(block, setting.run)


def circuit(block: Block, setting: Setting) -> CircuitText:
    """The circuit text itself, for ``design: here``."""
    del setting
    return CircuitText(block.text)


def found_law(block: Block, setting: Setting) -> FoundLaw | None:
    """``count: edges``, ``over: {n: 1..16, x: 2..5}``, ``claim: n*(x + 1)``."""
    run = setting.run
    options = options_of(block, law.OPTIONS)
    return law.read(options, setting.blueprint, None if run is None else run.design)


def proved(block: Block, setting: Setting) -> Proved | None:
    """``design: …``, ``with: {n: 4}``, ``claim: …``, ``expect: false``, ``caption: …``."""
    run = setting.run
    options = options_of(block, proof.OPTIONS)
    parameters = {} if run is None else run.design.parameters
    return proof.read(
        options, setting.blueprint, parameters, setting.folder, setting.patience, setting.words
    )


def coverage(block: Block, setting: Setting) -> Covered | None:
    """``show: table``, ``parts: [rows, carries]``, ``caption: …``."""
    return covered.read(options_of(block, covered.OPTIONS), setting.run)


def fault(block: Block, setting: Setting) -> Broken | None:
    """``fault: C stuck at 0``, ``rows: …``, ``columns: …``, ``solution: true``, ``caption: …``."""
    options = options_of(block, broken.OPTIONS)
    run = setting.run
    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        solution = gathering.add(broken.solved, options) or False
        found = gathering.add(broken.named, options, run)
        tree = options.get("rows")
        rows = None if tree is None else gathering.add(rows_of, tree, run)
        names = gathering.add(names_of, options.get("columns"), "columns", run) or ()
    if run is None or found is None:
        return None
    return broken.read(
        found,
        run,
        names,
        rows,
        solution=solution,
        caption=caption,
        place=block.place,
        words=setting.words,
    )


def comparison(block: Block, setting: Setting) -> Compared | None:
    """``designs: [...]``, ``over: {n: 4..32}``, ``chart: time``, ``need: …``, ``path: …``."""
    run = setting.run
    options = options_of(block, compared.OPTIONS)
    parameters = {} if run is None else run.design.parameters
    return compared.read(options, setting.blueprint, parameters, setting.folder, setting.words)


def hazards(block: Block, setting: Setting) -> Composed | None:
    """``output: sum``, ``model: 74hc``, ``caption: …``."""
    return hazard.read(options_of(block, hazard.OPTIONS), setting.run, setting.words)


def opened(block: Block, setting: Setting) -> Opened | None:
    """``edges: 8..9``, ``model: 74hc``, ``columns: [A, FA.sum]``, ``when: {shift: 9}``, …."""
    return inside.read(options_of(block, inside.OPTIONS), setting.run, setting.model, setting.words)


def question(block: Block, setting: Setting) -> Asked | None:
    """``ask: next-rows``, ``rows: 7..8``, ``marks: 4``, ``hint: …``, and more for each kind."""
    return questions.read(block, setting.blueprint, setting.run, setting.asking)


def followed(block: Block, setting: Setting) -> Composed | None:
    """``design: latch.yaml``, ``waveforms: {…}``, ``columns: […]``, ``at: [20, 60]``, and more."""
    options = options_of(block, in_time.OPTIONS)
    return in_time.read(options, setting.blueprint, setting.folder, setting.words)


Reader: TypeAlias = Callable[[Block, Setting], Piece | None]
"""Makes a piece of a block; nothing where the lesson's run could not be built."""
BLOCKS: Final[Mapping[str, Reader]] = {
    "edge-table": edge_table,
    "claim": claim,
    "diagram": diagram,
    "timing": timing,
    "filmstrip": filmstrip,
    "state-diagram": states,
    "stage": stage,
    "say": say,
    "steps": steps,
    "circuit": circuit,
    "law": found_law,
    "prove": proved,
    "coverage": coverage,
    "fault": fault,
    "compare": comparison,
    "hazard": hazards,
    "inside": opened,
    "question": question,
    "in-time": followed,
}
"""A reader for each block, by the word behind the fence."""


def _guarded(guest: Guest, reader: FunctionType) -> FunctionType:
    """A reader of another package, with what goes wrong in it told as the guest's."""
    guarded = guest.guarded(reader, *get_args(Piece), NoneType, expected=Message("guest-piece"))
    return cast("FunctionType", guarded)


GUESTS: Final = Group("edgewise.blocks", "block", FunctionType, BLOCKS.keys, _guarded)
"""Readers that other packages bring, each under the word behind the fence."""


def kinds() -> tuple[str, ...]:
    """The word of every block that there is, those that other packages bring too."""
    return (*BLOCKS, *GUESTS.names())


def reader(kind: str) -> Reader:
    """The reader of a block, by one of `kinds`.

    Raises
    ------
    GuestError
        Another package brings it, but it can't be used.
    """
    found = BLOCKS.get(kind) or GUESTS.find(kind)
    assert found is not None, kind
    return cast("Reader", found)
