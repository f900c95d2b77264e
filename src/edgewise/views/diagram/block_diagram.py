"""Diagram: the block diagram of a design, with its values in one row of a run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from typing import Final

from edgewise.circuit.clocks import gating
from edgewise.circuit.model import Part
from edgewise.trace import Trace
from edgewise.views.diagram.fault_mark import flash, flashes
from edgewise.views.diagram.options import Clock, manner
from edgewise.views.diagram.path_highlight import Step, trail
from edgewise.views.diagram.path_highlight import told as path_told
from edgewise.views.diagram.picture import HEADING, Picture, when
from edgewise.views.diagram.pointer import pointers
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.legend import Key
from edgewise.views.drawing.shapes import Group, Item, Text
from edgewise.views.drawing.svg import Drawing
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

_FLASH_ROOM: Final = 16.0
"""Room for a flash in a line of text."""


def diagram(  # noqa: PLR0913  # one signature for every view
    trace: Trace,
    after: int | None = None,
    *,
    open: Iterable[str] = (),  # noqa: A002  # the word of the lesson's option
    clock: Clock = "wedge",
    symbols: Style = "distinctive",
    legend: bool = False,
    names: Sequence[str] = (),
    mark: Sequence[str] = (),
    fault: str = "",
    path: Sequence[Step] = (),
    point: Sequence[str] = (),
    room: float | None = None,
    words: Words = ENGLISH,
) -> Drawing:
    """The block diagram of a run as it stands after one edge.

    Parameters
    ----------
    trace : Trace
    after : int, optional
        The row: 0 is the start, k is after edge k; the last row if left out.
    open : iterable of str
        Parts drawn with their inside: ``FA``, or ``CNT.step(0)`` for one inside another.
    clock : {"wedge", "hidden", "wires"}
        Mark clock inputs with the wedge; leave out the clock, and nothing else; or draw the
        clock's wires too. An AND gate in a clock is always drawn.
    symbols : {"distinctive", "rectangular"}
        Gates in distinctive shapes (IEEE Std 91), or rectangles with qualifying symbols
        (IEC 60617-12).
    legend : bool
        Add what weights and fills mean.
    names : sequence of str
        Nets whose names stand beside their wires.
    mark : sequence of str
        Parts, ports and nets that are marked as faulty, as far as they are drawn.
    fault : str
        What is wrong, to stand above the picture; the names in `mark` unless said.
    path : sequence of (str, str)
        A path that is marked: nets, at last the port in which it ends, each with the running
        delay as it is to be written.
    point : sequence of str
        Parts, ports, nets and bits that an arrow points at, as far as they are drawn.
    room : float, optional
        Px that it may be wide; as narrow as it can be if that is wider.
    words : Words
        The language of what stands in the figure.

    Returns
    -------
    Drawing
        The same parts stand in the same places in every row.

    Raises
    ------
    EdgewiseError or Problems
        No such row, part, net or option.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> drawing = diagram(trace, 5)
    >>> drawing.title
    'Block diagram after edge 5: bit-serial adder, n = 4, a = 6, b = 3'
    >>> drawing.description.partition(", A is")[0]
    'After edge 5, with the inputs of phase add: shift is 1, a_in is unknown, b_in is unknown'
    """
    row = trace.edges if after is None else after
    trace.bits((), row)
    picture = Picture(
        trace, manner(trace.design.circuit, open, clock, symbols), tuple(names), words
    ).fitted(room, breaks=True)
    head = when(trace, row, words)
    marks = [*flashes(picture, mark)]
    wrong = fault or ", ".join(mark)
    if mark and not marks:
        wrong = words("figure-fault-elsewhere", fault=wrong)
    top = HEADING if head or wrong else 0.0
    items: list[Item] = heading(head, theme.MARGIN)
    beside = theme.MARGIN + (text_metrics.width(head) + theme.LEGEND_GAP if head else 0.0)
    items += _wrong(wrong, beside)
    marked = trail(picture, path) if path else None
    under = [*marked.under()] if marked else []
    arrows = [*pointers(picture, point)]
    over = [*(marked.figures() if marked else ()), *marks, *arrows]
    items.append(Group(tuple(picture.items(row, under=under, over=over)), kind="diagram", y=top))
    width, height = picture.size[0], picture.size[1] + top
    if picture.panels and picture.panels.numbers:
        items.append(Text(theme.MARGIN, height + 4, words("figure-goes-on"), theme.SIZE_SMALL))
        height += 20
    width = max(width, theme.MARGIN * 2 + text_metrics.width(head))
    if wrong:
        width = max(width, beside + _FLASH_ROOM + text_metrics.width(wrong) + theme.MARGIN)
    if legend:
        nodes = any(element.role == "node" for element in picture.scene.elements)
        buffers = any(element.mark == "buffer" for element in picture.scene.elements)
        banded = bool(trace.design.procedure)
        inner = room and room - 2 * theme.MARGIN
        key = Key(
            banded=banded,
            nodes=nodes,
            buffers=buffers,
            buses=picture.has_buses,
            ports=picture.shortened,
            room=inner,
            words=words,
        )
        items.append(key.drawn(theme.MARGIN, height + 4))
        wide, high = key.size
        width, height = max(width, wide + 2 * theme.MARGIN), height + high + theme.MARGIN + 4
    told = [words("about-faulty", fault=wrong)] if wrong else []
    told += [path_told(path, words=words)] if path else []
    told += [words("about-pointed", names=", ".join(one.name for one in arrows))] if arrows else []
    about = alt_text.bounded([*told, *sentences(trace, [row], words)], words=words)
    return Drawing(ceil(width), ceil(height), title(trace, row, words), about, tuple(items))


def title(trace: Trace, row: int, words: Words) -> str:
    """The title of a diagram; a circuit without edges has no moment."""
    subject = alt_text.subject(trace, words)
    if not trace.design.procedure:
        return words("figure-diagram", subject=subject)
    if row:
        return words("figure-diagram-after", edge=row, subject=subject)
    return words("figure-diagram-start", subject=subject)


def heading(text: str, x: float, y: float = 0.0) -> list[Item]:
    """What stands over a picture; nothing for an empty text."""
    return [Text(x, y + 26, text, fill=theme.SLATE)] if text else []


def _wrong(text: str, x: float) -> list[Item]:
    """What is wrong, behind a flash."""
    if not text:
        return []
    return [flash(x + 2, 28, scale=0.75), Text(x + _FLASH_ROOM, 26, text, fill=theme.BRICK)]


def sentences(trace: Trace, rows: Sequence[int], words: Words = ENGLISH) -> Iterator[str]:
    """What a block diagram shows, in words: its values, its parts, and the caution."""
    names = trace.columns
    for row in rows:
        values = [trace.word(name, row) for name in names]
        phase = trace.phase(row)
        at = row if trace.design.procedure else None
        yield alt_text.state(names, values, at, phase.name if phase else "", words)
    yield _parts(trace.design.circuit.parts, words)
    if gating(trace.design.netlist):
        yield words("fault-caution-gated-clock")


def _parts(parts: Sequence[Part], words: Words) -> str:
    """What there is, family by family."""
    families: dict[tuple[str, str], list[str]] = {}
    for part in parts:
        kind = alt_text.kind(part.kind.name, int(part.kind.setting("width") or 0), words)
        families.setdefault((part.name.partition("(")[0], kind), []).append(part.name)
    said = [
        words("about-parts-alike", first=names[0], last=names[-1], kind=kind)
        if len(names) > 1
        else words("about-part", name=names[0], kind=kind)
        for (_, kind), names in families.items()
    ]
    return words("about-parts", parts="; ".join(said)) if said else ""
