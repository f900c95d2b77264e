"""Edge table: a line for each row of a run, words as cells, as SVG or as HTML.

::

    phase  after edge    A      C    S
    load        start   ▢▢▢▢▢▢  ▢  ▢▢▢▢▢▢
                    1   ■▢▢▢▢▢  ▢  ▢▢▢▢▢▢
    ─────────────────────────────────────
    add             2   …
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from math import ceil
from typing import TYPE_CHECKING, Final

from edgewise.bits import Word
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.bit_cells import Placed, cells_height, cells_width, sheet
from edgewise.views.drawing.legend import Key
from edgewise.views.drawing.shapes import Group, Item, Line, Path, Text
from edgewise.views.drawing.svg import Drawing, escape
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.text import alt_text
from edgewise.views.text.selection import Choice, choose
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.trace import Trace

_BETWEEN: Final = 20.0
"""Px between two columns."""
_LEADING: Final = 5.0
"""Px between two lines."""
_HEAD: Final = 26.0
"""Height of the heading."""
_CAPTION: Final = 320.0
"""The caption of a narrow table may be this wide."""


def edge_table(  # noqa: PLR0913  # one signature for every view
    trace: Trace,
    columns: Sequence[str] | None = None,
    rows: Iterable[int] | None = None,
    *,
    caption: str | None = None,
    legend: bool = False,
    room: float | None = None,
    steady: bool = False,
    blank: Container[tuple[int, str]] = (),
    words: Words = ENGLISH,
) -> Drawing:
    """The edge table as a figure.

    Parameters
    ----------
    trace : Trace
    columns : sequence of str, optional
        Names of nets and words; `Trace.columns` if left out.
    rows : iterable of int, optional
        In the order given; all if left out.
    caption : str, optional
        What stands below. If left out: what ran and how to read the words. Empty for none.
    legend : bool
        Add what the fills and the band mean.
    room : float, optional
        Px that it may be wide: more columns than that stand below one another.
    steady : bool
        Columns stand where they do in the table of all rows, for one that grows.
    blank : container of (int, str)
        Words that are left open, by row and column.
    words : Words

    Returns
    -------
    Drawing

    Raises
    ------
    EdgewiseError or Problems
        Unknown names, or rows that are not there.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> edge_table(trace, ["A", "C"], range(4, 9)).title
    'Edge table, edges 4 to 8: bit-serial adder, n = 4, a = 6, b = 3'
    """
    choice = choose(trace, columns, rows)
    plans = [
        _Plan(trace, part, words, steady, blank) for part in _parts(trace, choice, room, words)
    ]
    items: list[Item] = []
    y = theme.MARGIN
    for plan in plans:
        body = tuple(_body(plan))
        items += body if y == theme.MARGIN else (Group(body, y=y - theme.MARGIN),)
        y += plan.height + theme.MARGIN
    y -= theme.MARGIN
    right = max(plan.right for plan in plans) + theme.MARGIN
    for line in _caption_lines(plans[0], caption, room):
        y += theme.SIZE_SMALL + 6
        items.append(Text(theme.MARGIN, y, line, theme.SIZE_SMALL, theme.SLATE))
        right = max(right, text_metrics.width(line, theme.SIZE_SMALL) + 2 * theme.MARGIN)
    y += theme.MARGIN
    if legend:
        key = Key(wires=False, room=room and room - 2 * theme.MARGIN, words=words)
        items.append(key.drawn(theme.MARGIN, y))
        y += key.size[1] + theme.MARGIN
        right = max(right, key.size[0] + 2 * theme.MARGIN)
    title, about = _title(trace, choice, words), _about(trace, choice, words, blank)
    return Drawing(ceil(right), ceil(y), title, about, tuple(items))


def _parts(trace: Trace, choice: Choice, room: float | None, words: Words) -> Iterator[Choice]:
    """The choice, its columns parted so that each part is narrow enough, or one column alone."""
    first = 0
    for last in range(1, len(choice.names) + 1):
        part = replace(choice, names=choice.names[first:last], nets=choice.nets[first:last])
        after = replace(choice, names=choice.names[first : last + 1])
        after = replace(after, nets=choice.nets[first : last + 1])
        wider = _Plan(trace, after, words).right + theme.MARGIN
        if last == len(choice.names) or (room is not None and wider > room):
            yield part
            first = last


def _body(plan: _Plan) -> Iterator[Item]:
    """Heading and rows, between two rules."""
    yield from _heading(plan)
    y = theme.MARGIN + _HEAD
    for phase, lines in groupby(plan.choice.rows, key=plan.phase):
        yield Line(((theme.MARGIN, y), (plan.right, y)), theme.SLATE, theme.HAIR)
        y += _LEADING
        if phase:
            yield _centred_on(theme.MARGIN, y, phase, theme.STRONG)
        for row in lines:
            yield _row(plan, row, y)
            y += plan.pitch
    yield Line(((theme.MARGIN, y), (plan.right, y)), theme.INK, theme.OUTLINE)


@dataclass(frozen=True)
class _Plan:
    """The measures of the table."""

    trace: Trace
    choice: Choice
    words: Words
    steady: bool = False
    blank: Container[tuple[int, str]] = ()

    def phase(self, row: int) -> str:
        """Name of the phase whose inputs stand in a row."""
        phase = self.trace.phase(row)
        return phase.name if phase else ""

    def changed(self, name: str, nets: Sequence[int], row: int) -> Word:
        """Has a 1 at each bit that differs from the row before; see `Trace.changed`.

        A mark would tell something of an open word above.
        """
        if not row or (row - 1, name) in self.blank:
            return Word(len(nets))
        now, before = self.trace.rows[row], self.trace.rows[row - 1]
        return Word.from_bits(int(now[net] != before[net]) for net in nets)

    @cached_property
    def phased(self) -> bool:
        """Whether there are phases and edges to be shown."""
        return self.trace.edges > 0

    @cached_property
    def edge_right(self) -> float:
        """Right end of the edge numbers."""
        if not self.phased:
            return theme.MARGIN
        rows = range(self.trace.edges + 1) if self.steady else self.choice.rows
        phases = {self.phase(row) for row in rows} | {self.words("table-phase")}
        first = max(text_metrics.width(phase, weight=theme.STRONG) for phase in phases)
        numbers = max(
            text_metrics.width(self.words("table-start")),
            text_metrics.width(self.words("table-after-edge"), weight=theme.STRONG),
            text_metrics.width(str(self.trace.edges), family="bits"),
        )
        return theme.MARGIN + first + _BETWEEN + numbers

    @cached_property
    def columns(self) -> tuple[tuple[float, float, float], ...]:
        """Left end, middle and right end of each column."""
        columns = []
        x = self.edge_right + (_BETWEEN if self.phased else 0.0)
        for name, width in zip(self.choice.names, self.choice.widths, strict=True):
            wide = max(
                cells_width(width, TABLE_CELL),
                text_metrics.width(name, weight=theme.STRONG),
                max(
                    (text_metrics.width(t, theme.SIZE_SMALL) for t in self._below(width)),
                    default=0.0,
                ),
            )
            wide = ceil(wide)
            columns.append((x, x + wide / 2, x + wide))
            x += wide + _BETWEEN
        return tuple(columns)

    def _below(self, width: int) -> Iterator[str]:
        """The widest texts that may stand below a folded word."""
        if width > theme.FOLD:
            yield self.words("figure-bits-unknown", unknown=width - 1, width=width)

    @cached_property
    def right(self) -> float:
        """Right end of the rules."""
        return self.columns[-1][2]

    @cached_property
    def pitch(self) -> float:
        """From line to line."""
        return cells_height(max(self.choice.widths), TABLE_CELL) + _LEADING

    @property
    def height(self) -> float:
        """From the upper rule to the lower one."""
        phases = sum(1 for _ in groupby(self.choice.rows, key=self.phase))
        return _HEAD + phases * _LEADING + len(self.choice.rows) * self.pitch


def _heading(plan: _Plan) -> Iterator[Item]:
    top = theme.MARGIN
    yield Line(((top, top), (plan.right, top)), theme.INK, theme.OUTLINE)
    base = top + _HEAD / 2 + theme.MIDDLE * theme.SIZE_TEXT
    if plan.phased:
        yield Text(theme.MARGIN, base, plan.words("table-phase"), weight=theme.STRONG)
        after = plan.words("table-after-edge")
        yield Text(plan.edge_right, base, after, weight=theme.STRONG, anchor="end")
    for name, (_, middle, _) in zip(plan.choice.names, plan.columns, strict=True):
        yield Text(middle, base, name, weight=theme.STRONG, anchor="middle")


def _row(plan: _Plan, row: int, y: float) -> Group:
    trace, choice = plan.trace, plan.choice
    placed, empty = [], []
    for name, nets, (_, middle, _) in zip(choice.names, choice.nets, plan.columns, strict=True):
        word = trace.bits(nets, row)
        x = middle - cells_width(word.width, TABLE_CELL) / 2
        if (row, name) in plan.blank:
            empty.append(Placed(Word(word.width), x, y))
        else:
            placed.append(Placed(word, x, y, plan.changed(name, nets, row)))
    items = sheet(placed, TABLE_CELL, words=plan.words).items
    open_cells = sheet(empty, TABLE_CELL, words=plan.words).items
    items = (*items, *(item for item in open_cells if isinstance(item, Path)))
    if plan.phased:
        base = y + TABLE_CELL.height / 2 + theme.MIDDLE * theme.SIZE_TEXT
        number = Text(plan.edge_right, base, str(row), family="bits", anchor="end")
        start = Text(plan.edge_right, base, plan.words("table-start"), anchor="end")
        items = (number if row else start, *items)
    return Group(items, kind="row", name=str(row))


def _centred_on(x: float, y: float, text: str, weight: int) -> Text:
    """A text on the line of cells whose top is `y`."""
    base = y + TABLE_CELL.height / 2 + theme.MIDDLE * theme.SIZE_TEXT
    return Text(x, base, text, weight=weight)


def _caption(trace: Trace, words: Words) -> str:
    subject = alt_text.subject(trace, words)
    return words("table-caption" if trace.edges else "table-caption-values", subject=subject)


def _caption_lines(plan: _Plan, caption: str | None, room: float | None) -> tuple[str, ...]:
    text = _caption(plan.trace, plan.words) if caption is None else caption
    wide = max(plan.right - theme.MARGIN, _CAPTION)
    if room is not None:
        wide = min(wide, room - 2 * theme.MARGIN)
    return text_metrics.wrapped(text, wide, theme.SIZE_SMALL)


def _title(trace: Trace, choice: Choice, words: Words) -> str:
    subject = alt_text.subject(trace, words)
    first, last = min(choice.rows), max(choice.rows)
    if not trace.edges:
        return words("table-title-values", subject=subject)
    if first < last:
        return words("table-title", first=first, last=last, subject=subject)
    if first:
        return words("table-title-after", edge=first, subject=subject)
    return words("table-title-start", subject=subject)


def _about(trace: Trace, choice: Choice, words: Words, blank: Container[tuple[int, str]]) -> str:
    said = [alt_text.phases(trace, sorted(choice.rows), words)]
    for row in choice.rows:
        at = row if trace.edges else None
        pairs = zip(choice.names, choice.words(trace, row), strict=True)
        told = [pair for pair in pairs if (row, pair[0]) not in blank]
        if told:
            names, values = [name for name, _ in told], [word for _, word in told]
            said.append(alt_text.state(names, values, at, words=words))
        if left := [name for name in choice.names if (row, name) in blank]:
            said.append(words("table-left-open", row=row, names=listed(left, words)))
    return alt_text.bounded(said, words=words)


# ---------------------------------------------------------------- HTML

STYLE: Final = f"""\
.edge-table {{ border-collapse: collapse; color: {theme.INK}; background: {theme.PAPER};
  border-block: 1.5px solid {theme.INK}; font: 14px {theme.FAMILIES["text"]}; }}
.edge-table caption {{ caption-side: bottom; text-align: start; color: {theme.SLATE};
  font-size: 12px; padding-top: 6px; }}
.edge-table th, .edge-table td {{ padding: 3px 10px; text-align: center; font-weight: 400; }}
.edge-table thead th, .edge-table th[scope=rowgroup] {{ font-weight: 600; }}
.edge-table th[scope=rowgroup] {{ text-align: start; }}
.edge-table th[scope=row] {{ text-align: end; font-variant-numeric: tabular-nums; }}
.edge-table tbody th {{ vertical-align: top; line-height: 20px; }}
.edge-table tbody {{ border-top: 0.75px solid {theme.SLATE}; }}
.edge-table td {{ white-space: nowrap; font: 14px/20px {theme.FAMILIES["bits"]}; }}
.edge-table td i {{ display: inline-block; font-style: normal; text-align: center;
  box-sizing: border-box; width: 16px; line-height: 18px; border: 1.25px solid {theme.INK};
  margin-bottom: 5px; print-color-adjust: exact; }}
.edge-table td i + i {{ margin-inline-start: -1.25px; }}
.edge-table .one {{ background: {theme.INK}; color: {theme.PAPER}; }}
.edge-table .one + .one {{ border-inline-start-color: {theme.PAPER}; }}
.edge-table .unknown {{ background: repeating-linear-gradient(135deg, {theme.HATCH_LINE} 0 1.5px,
  {theme.PAPER} 1.5px 6px); }}
.edge-table .changed {{ box-shadow: 0 3px {theme.PAPER}, 0 6px {theme.AMBER}; }}
"""
"""Style sheet of the HTML table; it colours nothing outside ``.edge-table``."""

_CLASSES: Final = ("", "one", "unknown")


def edge_table_html(
    trace: Trace,
    columns: Sequence[str] | None = None,
    rows: Iterable[int] | None = None,
    *,
    caption: str | None = None,
    words: Words = ENGLISH,
    blank: Container[tuple[int, str]] = (),
) -> str:
    r"""The edge table as an HTML ``table``, to be styled with `STYLE`.

    Each bit is an element of class ``one`` or ``unknown`` (none for 0) and ``changed``; a row
    carries its number in ``data-row``. Parameters and errors are those of `edge_table`; words in
    `blank`, by row and column, are left open: their bits are of class ``open``.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=2), a=1, b=3)
    >>> table = edge_table_html(trace, ["A"], [3], caption="one row")
    >>> print(table.splitlines()[4].replace("><", ">\n<"))
    <tr data-row="3">
    <th scope="rowgroup">add</th>
    <th scope="row">3</th>
    <td>
    <i class="unknown changed">X</i>
    <i class="changed">0</i>
    </td>
    </tr>
    """
    choice = choose(trace, columns, rows)
    plan = _Plan(trace, choice, words, blank=blank)
    own = (words("table-phase"), words("table-after-edge")) if plan.phased else ()
    heads = (*own, *choice.names)
    text = _caption(trace, words) if caption is None else caption
    lines = ['<table class="edge-table">']
    if text:
        lines.append(f"<caption>{escape(text)}</caption>")
    results = answers(trace, choice)
    cells = "".join(
        f'<th scope="col"{_ANSWER if head in results else ""}>{escape(head)}</th>' for head in heads
    )
    lines.append(f"<thead><tr>{cells}</tr></thead>")
    for phase, run in groupby(choice.rows, key=plan.phase):
        members = list(run)
        lines.append("<tbody>")
        for row in members:
            first = row == members[0] and plan.phased
            lines.append(_html_row(plan, row, phase, len(members) if first else 0))
        lines.append("</tbody>")
    return "\n".join([*lines, "</table>\n"])


def answers(trace: Trace, choice: Choice) -> frozenset[str]:
    """The columns in which what the design computes comes to stand.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> sorted(answers(trace, choose(trace)))
    ['C', 'S']
    """
    outputs = trace.design.netlist.outputs
    nets = {net for purpose in trace.design.computes for net in outputs[purpose.output]}
    columns = zip(choice.names, choice.nets, strict=True)
    return frozenset(name for name, own in columns if nets.issuperset(own))


_ANSWER: Final = ' class="answer"'


def _html_row(plan: _Plan, row: int, phase: str, spanned: int) -> str:
    trace = plan.trace
    heads = ""
    if spanned:
        rowspan = f' rowspan="{spanned}"' if spanned > 1 else ""
        group = f'<th scope="rowgroup"{rowspan}>{escape(phase)}</th>'
        heads = group if phase else f"<td{rowspan}></td>"
    if plan.phased:
        heads += f'<th scope="row">{row or plan.words("table-start")}</th>'
    cells = []
    for name, nets in zip(plan.choice.names, plan.choice.nets, strict=True):
        if (row, name) in plan.blank:
            cells.append('<i class="open">&nbsp;</i>' * len(nets))
            continue
        bits = zip(trace.bits(nets, row), plan.changed(name, nets, row), strict=True)
        cells.append("".join(reversed([_html_bit(bit, changed) for bit, changed in bits])))
    return f'<tr data-row="{row}">{heads}<td>{"</td><td>".join(cells)}</td></tr>'


def _html_bit(bit: int, changed: int) -> str:
    kind = " ".join(filter(None, (_CLASSES[bit], "changed" if changed else "")))
    return f'<i class="{kind}">{"01X"[bit]}</i>' if kind else f"<i>{bit}</i>"
