"""Steps: in which order a lesson's rows are shown, what is pointed at, and what is said.

Slides, film, script and projected stage follow the same steps. A block ``steps`` writes them out;
without one they are the rows of the run. What others need of this module is `Step`, got from
`edgewise.lesson.Report.steps`, and the ``opening`` beside it. A step whose `Step.said` is None says
the sentence that is computed of its row: `edgewise.publish.stage.telling` puts it into words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from edgewise import formula, yamltext
from edgewise.errors import EdgewiseError, Message, Place, TextError, nearest
from edgewise.formula import Name
from edgewise.lesson.document import Block, Lesson
from edgewise.lesson.expression import Run, Scope, shown
from edgewise.lesson.options import MOST_ROWS, Gathering, names_of, span_of, tree_of
from edgewise.lesson.pieces import Said
from edgewise.trace import Trace
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree

if TYPE_CHECKING:
    from markdown_it.token import Token

    from edgewise.arithmetic import Value

ENTRIES: Final = ("rows", "point", "say", "predict")
"""What an item of the block may say."""
EXAMPLE: Final = "{rows: 7, point: [C], say: Look at C.}"
MOST_POINTED: Final = 8
"""Things that one step points at, at most."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing shown and said.

    Parameters
    ----------
    row : int
        Row of the lesson's run.
    points : tuple of str
        Parts, ports, nets and bits that are pointed at, by their names in the circuit, indices
        worked out.
    said : str, optional
        What is said. None: the sentence computed of the row. Empty: nothing more, for what the step
        before says goes on.
    predict : tuple of str
        Nets and words whose values are asked for before the row is shown; mostly none.
    phase : str
        Of the edge that led here; empty at the start and without edges.
    section : str
        Heading of the lesson under which the step stands; empty where there is none.
    """

    row: int
    points: tuple[str, ...] = ()
    said: str | None = None
    predict: tuple[str, ...] = ()
    phase: str = ""
    section: str = ""


@dataclass(frozen=True, slots=True)
class Steps:
    """The steps of one block, as its author wrote them."""

    steps: tuple[Step, ...]


def read(block: Block, run: Run | None) -> Steps | None:
    """The steps of a block: a list of rows, each alone or with what is pointed at and said.

    Raises
    ------
    EdgewiseError or Problems
        All that is wrong with them, each at its place.
    """
    tree = tree_of(block)
    items = () if tree is None else yamltext.sequence(tree, block.kind, f"- {EXAMPLE}")
    if not items:
        raise TextError(Message("steps-none", example=EXAMPLE), block.place)
    found: list[Step] = []
    with Gathering() as gathering:
        for item in items:
            last = found[-1].row if found else None
            found += gathering.add(_steps, item, run, last) or ()
    if len(found) > MOST_ROWS:
        raise TextError(Message("steps-many", count=len(found), most=MOST_ROWS), block.place)
    return None if run is None else Steps(tuple(found))


def of_run(trace: Trace) -> tuple[Step, ...]:
    """The steps of a lesson that writes out none: each row once, with its own sentence.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> made = of_run(run(catalogue.design("serial-adder", n=2), a=1, b=1))
    >>> [(step.row, step.phase) for step in made]
    [(0, ''), (1, 'load'), (2, 'load'), (3, 'add'), (4, 'add')]
    """
    return tuple(Step(row, phase=_phase(trace, row)) for row in range(trace.edges + 1))


def of(
    lesson: Lesson, trace: Trace, pieces: Mapping[Place, object], values: Mapping[Place, Value]
) -> tuple[Step, ...]:
    """A lesson's steps, block after block, with what its ``say`` blocks say of their rows.

    A ``say`` block of some rows is said at the first of them that is shown; the next ones, shown
    right behind it, go on with it.
    """
    sections = _sections(lesson.tokens, values)
    written: list[Step] = []
    for place, piece in pieces.items():
        if isinstance(piece, Steps):
            lines = [line for line in sections if line <= place.line]
            section = sections[max(lines)] if lines else ""
            written += (replace(step, section=section) for step in piece.steps)
    said = [piece for piece in pieces.values() if isinstance(piece, Said) and piece.rows]
    return tuple(_told(written or of_run(trace), said))


def opening(pieces: Mapping[Place, object]) -> str:
    """What is said before the first step: the ``say`` blocks that name no rows."""
    return "\n\n".join(
        piece.text for piece in pieces.values() if isinstance(piece, Said) and not piece.rows
    )


def _told(steps: Sequence[Step], said: Sequence[Said]) -> Iterator[Step]:
    going: list[Said] = []
    for step in steps:
        here = [piece for piece in said if step.row in piece.rows]
        new = [piece.text for piece in here if piece not in going]
        going = here
        if step.said is not None or not here:
            yield step
        else:
            yield replace(step, said="\n\n".join(new))


def _sections(tokens: Sequence[Token], values: Mapping[Place, Value]) -> dict[int, str]:
    """Each heading by its line, its computed values worked out."""
    found = {}
    for opened, inline in pairwise(tokens):
        if opened.type == "heading_open":
            line = (opened.map or (0, 0))[0] + 1
            found[line] = "".join(_text(child, values) for child in inline.children or ())
    return found


def _text(token: Token, values: Mapping[Place, Value]) -> str:
    place = token.meta.get("place")
    return token.content if place is None else shown(values[place])


# ------------------------------------------------------------------ one item of a block


def _steps(item: Tree, run: Run | None, last: int | None) -> list[Step]:
    """The steps of one item; `last` is the row shown before them."""
    if not isinstance(item, Keys):
        return [_step(row, run) for row in _onward(_rows(item, run), last)]
    with Gathering() as gathering:
        for wrong in item.refuse_other_keys(ENTRIES, "step"):
            gathering.errors.append(wrong)
        tree = item.get("rows")
        if tree is None:
            gathering.errors.append(
                TextError(Message("step-without-rows", example=EXAMPLE), item.place)
            )
        rows = gathering.add(_rows, tree, run) or () if tree is not None else ()
        points = gathering.add(_points, item.get("point"), run) or ()
        said = gathering.add(_said, item.get("say"))
        asked = gathering.add(_predicted, item.get("predict"), rows, run) or ()
    silent = None if said is None else ""
    return [
        replace(_step(row, run), points=points, said=silent if place else said, predict=asked)
        for place, row in enumerate(_onward(rows, last))
    ]


def _onward(rows: tuple[int, ...], last: int | None) -> tuple[int, ...]:
    """Several rows without the one just shown: a phase begins with the row before its edges."""
    return rows[1:] if len(rows) > 1 and rows[0] == last else rows


def _step(row: int, run: Run | None) -> Step:
    return Step(row, phase="" if run is None else _phase(run.trace, row))


def _phase(trace: Trace, row: int) -> str:
    """The phase of the edge that led to a row."""
    spans = trace.design.spans
    return next((phase.name for phase, first, last in spans if first <= row <= last), "")


def _rows(tree: Tree, run: Run | None) -> tuple[int, ...]:
    items = tree.items if isinstance(tree, yamltext.Sequence) else (tree,)
    rows: list[int] = []
    for item in items:
        given = yamltext.scalar(item, "rows")
        if not given.text.strip():
            raise TextError(Message("step-rows-empty"), item.place)
        span = () if run is None else tuple(span_of(given, run))
        rows += _onward(span, rows[-1] if rows else None)
    return tuple(rows)


def _said(tree: Tree | None) -> str | None:
    if tree is None:
        return None
    given = yamltext.scalar(tree, "say")
    if not given.text.strip():
        raise TextError(Message("step-say-empty"), given.place)
    return given.text.strip()


def _predicted(tree: Tree | None, rows: tuple[int, ...], run: Run | None) -> tuple[str, ...]:
    if tree is None or run is None:
        return ()
    names = (tree,) if isinstance(tree, Scalar) else yamltext.sequence(tree, "predict", "[C, S]")
    if 0 in rows:
        raise TextError(Message("step-predict-start"), tree.place)
    return names_of(yamltext.Sequence(tuple(names), tree.place), "predict", run)


def _points(tree: Tree | None, run: Run | None) -> tuple[str, ...]:
    if tree is None:
        return ()
    items = tree.items if isinstance(tree, yamltext.Sequence) else (tree,)
    if len(items) > MOST_POINTED:
        raise TextError(
            Message("step-points-many", count=len(items), most=MOST_POINTED), tree.place
        )
    names: list[str] = []
    with Gathering() as gathering:
        for item in items:
            name = gathering.add(_point, yamltext.scalar(item, "point"), run)
            names += (name,) if name else ()
    return tuple(dict.fromkeys(names))


def _point(given: Scalar, run: Run | None) -> str:
    """What is pointed at, found to be in the circuit."""
    node = formula.parse(given.text, place=given.place)
    if not isinstance(node, Name):
        raise TextError(
            Message("step-point-expected", found=yamltext.shortened(given.text)), given.place
        )
    if run is None:
        return ""
    name = Scope(run, place=given.place).canonical(node)
    design = run.design
    parts = [part.name for part in design.circuit.parts]
    if name in parts:
        return name
    try:
        design.netlist.find(name)
    except EdgewiseError as wrong:
        nets = design.netlist.top_names
        if node.base in nets:  # it is there, but has no such bit
            raise TextError(wrong.told, given.place) from None
        known = nearest(name, [*parts, *(net for net in nets if "." in name or "." not in net)])
        raise TextError(
            Message("step-point-unknown", name=name, suggestion=known), given.place
        ) from None
    return name
