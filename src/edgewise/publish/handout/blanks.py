"""Blanks: what a handout leaves empty for the reader to fill in.

Givens stay, what is worked out goes. An operand or a parameter by itself is given; so are the
rows of the first phase (the loading), the start, and every claim. Other values in the text,
the rows of later phases, and the words of a figure that shows such a row are left empty. A
table can say for itself: ``blank: 7..12``, or ``blank: none``.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from edgewise.formula import Name, parse
from edgewise.lesson import Report
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.publish import lanes
from edgewise.trace import Trace
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Item, Line, Path, Text
from edgewise.views.drawing.svg import Drawing
from edgewise.words.messages import Words


def is_given(text: str, report: Report) -> bool:
    """Whether a formula is an operand or a parameter by itself, such as ``a`` or ``w(2)``.

    Parameters
    ----------
    text : str
        As it stands in the lesson.
    report : Report
    """
    node = parse(text)
    if not isinstance(node, Name):
        return False
    told = "".join(text.split())
    given = {*report.trace.operands, *report.trace.design.parameters}
    return told in given


def rows(trace: Trace, shown: tuple[int, ...]) -> frozenset[int]:
    """The rows among `shown` that are left empty: those after the first phase.

    With a single phase, those after the start; without edges, row 0 itself.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=2), a=1, b=3)
    >>> sorted(rows(trace, (0, 1, 2, 3, 4)))
    [3, 4]
    """
    if not trace.edges:
        return frozenset(shown)
    with_edges = [last for _, first, last in trace.design.spans if last >= first]
    known = with_edges[0] if len(with_edges) > 1 else 0
    return frozenset(row for row in shown if row > known)


def of_table(table: EdgeTable) -> frozenset[int]:
    """The rows of a table that are left empty."""
    return rows(table.trace, table.rows) if table.blank is None else frozenset(table.blank)


def of_figure(figure: Figure) -> bool:
    """Whether the words of a figure are left empty."""
    return bool(rows(figure.trace, figure.rows))


def names(trace: Trace, columns: tuple[str, ...]) -> frozenset[str]:
    """The columns left empty in those rows: all, but in a circuit without edges its inputs."""
    if trace.edges:
        return frozenset(columns)
    inputs = {net.name for net in trace.design.circuit.inputs}
    return frozenset(name for name in columns if name not in inputs)


# ---------------------------------------------------------------- figures


def emptied(drawing: Drawing, words: Words) -> Drawing:
    """The figure without its values: cells open, wires all alike, lanes without a signal.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.block_diagram import diagram
    >>> trace = run(catalogue.design("serial-adder", n=2), a=1, b=3)
    >>> from edgewise.words.messages import ENGLISH
    >>> emptied(diagram(trace, after=1), ENGLISH).description
    'The same figure with its values left empty.'
    """
    return replace(
        drawing,
        title=words("handout-emptied", title=drawing.title),
        description=words("handout-emptied-description"),
        items=tuple(_emptied(drawing.items, lanes.span(drawing))),
    )


def _emptied(items: tuple[Item, ...], span: tuple[float, float]) -> Iterator[Item]:
    before: Item | None = None
    for item in items:
        match item:
            case Group(kind="cells"):
                yield replace(item, items=tuple(filter(_is_frame, item.items)))
            case Group(kind="signal"):
                if isinstance(before, Text):
                    yield lanes.open_lane(item, before.y, span)
            case Group(kind="guides" | "phases" | "edges" | "legend"):
                yield item
            case Group(kind="clock"):  # its arrows mark the edges at which something changes
                yield replace(item, items=tuple(i for i in item.items if isinstance(i, Line)))
            case Group():
                yield replace(item, items=tuple(_emptied(item.items, span)))
            case Line() if item.weight != theme.OUTLINE:
                yield replace(item, weight=theme.THIN, dash=())
            case _:
                yield item
        before = item


def _is_frame(item: Item) -> bool:
    if isinstance(item, Text):
        return item.text == "…"
    return isinstance(item, Path) and item.fill == theme.PAPER and item.stroke == theme.INK
