"""Timing: nets and words over rows, as a textbook prints them.

Row k stands between edge k and edge k+1; what it holds of the inputs, edge k+1 samples. What
gates a clock changes in the middle of a row, at the falling edge. The scale depends on what is
shown, never on how long the run is: a long run breaks into lines of equal scale. Each line has,
from the top: phases in brackets, edge numbers, the clock, the nets and words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import ceil
from typing import TYPE_CHECKING, Final

from edgewise.bits import Word, X
from edgewise.circuit.clocks import falling, gating
from edgewise.errors import EdgewiseError, Message
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.legend import entries
from edgewise.views.drawing.shapes import Group, Item, Line, Path, Text, line_data
from edgewise.views.drawing.svg import Drawing
from edgewise.views.text import alt_text
from edgewise.views.text.selection import Choice, choose
from edgewise.views.timing.waveforms import HEIGHT, SLOPE, Span, guide, levels, lozenges, spans
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.trace import Trace

WIDTH: Final = 760.0
"""Px that a line is broken at: the text width of a page at about 10 pt."""
_PITCH: Final = 36.0
"""Least px from edge to edge."""
_ROW: Final = 34.0
"""From signal to signal."""
_LEAD: Final = 12.0
"""What is seen of the row before the first."""
_BITS: Final = 8
"""A word of up to this many bits is written in bits, a wider one as ``=`` and a number."""
_SIZE: Final = theme.SIZE_SMALL
_LINE_GAP: Final = 22.0
_AFTER: Final = SLOPE + 1.0
"""Px from the last edge of a phase to the end of its bracket."""


def timing(  # noqa: PLR0913  # one signature for every view
    trace: Trace,
    names: Sequence[str] | None = None,
    rows: Iterable[int] | None = None,
    *,
    clock: bool = True,
    legend: bool = False,
    width: float = WIDTH,
    steady: bool = False,
    words: Words = ENGLISH,
) -> Drawing:
    """The timing diagram of chosen nets and words.

    Parameters
    ----------
    trace : Trace
    names : sequence of str, optional
        From top to bottom; `Trace.columns` if left out.
    rows : iterable of int, optional
        One after another; all if left out.
    clock : bool
        Show the clock. An arrow marks an edge that arrives at what is shown; where a gate in
        the clock keeps it from all of that, or nobody knows, there is none.
    legend : bool
        Add what the levels and the hatch mean.
    width : float
        Px after which a line is broken.
    steady : bool
        Edges are as far apart as where all rows are shown, for a diagram that grows.
    words : Words

    Returns
    -------
    Drawing

    Raises
    ------
    EdgewiseError or Problems
        Unknown names, rows that are not there or don't follow one another, or a circuit
        without clock edges.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> drawing = timing(trace, ["A", "C"], range(4, 9))
    >>> drawing.title
    'Timing diagram, edges 4 to 8: bit-serial adder, n = 4, a = 6, b = 3'
    """
    choice = choose(trace, names, rows)
    check(trace, choice)
    plan = _Plan(trace, choice, width, clock, words, steady)
    items: list[Item] = []
    y = theme.MARGIN
    for line in plan.lines:
        items += _line(plan, line, y)
        y += plan.line_height + _LINE_GAP
    y += theme.MARGIN - _LINE_GAP
    right = plan.left + plan.pitch * max(map(len, plan.lines)) + SLOPE + theme.MARGIN
    if legend:
        items.append(legend_of(theme.MARGIN, y, words))
        y += HEIGHT + theme.MARGIN
        right = max(right, legend_width(words) + 2 * theme.MARGIN)
    title, about = _title(trace, choice, words), _about(trace, choice, words)
    return Drawing(ceil(right), ceil(y), title, about, tuple(items))


def check(trace: Trace, choice: Choice) -> None:
    """See that a run has a timing diagram of these rows.

    Raises
    ------
    EdgewiseError
        There are no clock edges, or the rows don't follow one another.
    """
    if not trace.edges:
        raise EdgewiseError(Message("timing-clockless", design=trace.design.name))
    for before, row in zip(choice.rows, choice.rows[1:], strict=False):
        if row != before + 1:
            raise EdgewiseError(Message("timing-rows", row=row, before=before))


def scale(
    trace: Trace,
    names: Sequence[str] | None = None,
    rows: Iterable[int] | None = None,
    *,
    clock: bool = True,
    words: Words = ENGLISH,
) -> tuple[float, float]:
    """Where the first edge of a line stands, px, and how far it is from edge to edge.

    Parameters and errors are those of `timing`.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> scale(run(catalogue.design("serial-adder", n=4), a=6, b=3), ["C"])
    (68, 36)
    """
    choice = choose(trace, names, rows)
    check(trace, choice)
    plan = _Plan(trace, choice, WIDTH, clock, words)
    return plan.left, plan.pitch


@dataclass(frozen=True)
class _Plan:
    """The measures of the figure."""

    trace: Trace
    choice: Choice
    width: float
    clock: bool
    words: Words
    steady: bool = False

    @cached_property
    def falling(self) -> frozenset[int]:
        """Nets that change at the falling edge."""
        return falling(self.trace.design.netlist)

    @cached_property
    def clocks(self) -> frozenset[int]:
        """Gated clocks: they are drawn as pulses."""
        return frozenset(gating(self.trace.design.netlist))

    @cached_property
    def gates(self) -> frozenset[int | None]:
        """The gates in the clocks of what is shown (or, if nothing shown stores, of all)."""
        stored = self.trace.design.netlist.flip_flops
        names = {net for nets in self.choice.nets for net in nets}
        shown = [f.gate for f in stored if f.q in names]
        return frozenset(shown or [f.gate for f in stored])

    def arrives(self, edge: int) -> bool:
        """Whether an edge arrives at something shown."""
        before = self.trace.rows[edge - 1]
        return any(gate is None or before[gate] == 1 for gate in self.gates)

    @cached_property
    def left(self) -> float:
        """X of the first edge of a line: right of the names."""
        names = (*self.choice.names, self.words("timing-clock"), self.words("timing-edge"))
        wide = max(text_metrics.width(name, weight=theme.STRONG) for name in names)
        return ceil(theme.MARGIN + wide + theme.GAP + _LEAD)

    @cached_property
    def histories(self) -> tuple[tuple[Word, ...], ...]:
        """The words of each name, one row more before the first, if there is one."""
        first = self.choice.rows[0]
        rows = (*((first - 1,) if first else ()), *self.choice.rows)
        return tuple(tuple(self.trace.bits(nets, row) for row in rows) for nets in self.choice.nets)

    @cached_property
    def pitch(self) -> float:
        """Px from edge to edge: room for the widest value and the narrowest phase."""
        shown = self.choice
        if self.steady:
            shown = replace(shown, rows=tuple(range(self.trace.edges + 1)))
        histories = replace(self, choice=shown, steady=False).histories
        values = {value(word) for words in histories for word in words if word.width > 1}
        widest = max((text_metrics.width(v, _SIZE, "bits") for v in values), default=0.0)
        phases = [
            (text_metrics.width(phase.name) + theme.GAP) / (last - first + 1)
            for phase, first, last in self.trace.design.stretches
        ]
        return ceil(max(_PITCH, widest + SLOPE + theme.GAP, *phases, self._start_width))

    @property
    def _start_width(self) -> float:
        return text_metrics.width(self.words("table-start"), theme.SIZE_SMALL) + theme.GAP

    @cached_property
    def lines(self) -> tuple[tuple[int, ...], ...]:
        """The rows of each line, as even as can be."""
        rows = self.choice.rows
        room = self.width - self.left - SLOPE - theme.MARGIN
        most = max(1, int(room // self.pitch))
        each = ceil(len(rows) / ceil(len(rows) / most))
        return tuple(rows[i : i + each] for i in range(0, len(rows), each))

    @cached_property
    def head(self) -> float:
        """Height of phases and edge numbers."""
        return theme.SIZE_TEXT + 14.0 + theme.SIZE_SMALL + 8.0

    @property
    def line_height(self) -> float:
        """From the phases down to the low level of the last signal."""
        return self.head + _ROW * (len(self.choice.names) + self.clock) - (_ROW - HEIGHT)


def value(word: Word) -> str:
    """What stands in a lozenge: bits up to 8, else ``=`` and the unsigned value.

    The sign tells a number such as 10 from bits. What is unknown has none; it is hatched.

    Examples
    --------
    >>> [value(word) for word in (Word.of(5, 4), Word.of(300, 16), Word.parse("X1"), Word(2, 0, 3))]
    ['0101', '= 300', 'X1', '']
    """
    if word.unknown.bit_count() == word.width:
        return ""
    if word.width <= _BITS:
        return str(word)
    return f"= {word.value}" if word.readable else ""


def _line(plan: _Plan, rows: Sequence[int], top: float) -> Iterator[Item]:
    """One line of the figure."""
    xs = [plan.left + plan.pitch * i for i in range(len(rows) + 1)]
    bottom = top + plan.line_height
    y = top + plan.head
    edges = [(row, x) for row, x in zip(rows, xs, strict=False) if row]
    yield Group(tuple(guide(x, y - 2, bottom + 4) for _, x in edges), kind="guides")
    yield Group(tuple(_phases(plan, rows, xs, top)), kind="phases")
    yield Group(tuple(_numbers(plan, rows, xs, y - 8)), kind="edges")
    if plan.clock:
        yield _name(plan.words("timing-clock"), y, theme.SLATE)
        yield _clock(plan, rows, xs, y)
        y += _ROW
    for name, nets, words in zip(plan.choice.names, plan.choice.nets, plan.histories, strict=True):
        runs = _runs(plan, nets, words, rows, xs)
        yield _name(name, y)
        if len(nets) == 1:
            items = levels(runs, y)
        else:
            # What reaches in from the line before has no room for its value.
            texts = [value(run.word) if run.end > xs[0] else "" for run in runs]
            items = lozenges(runs, y, texts, _SIZE)
        yield Group(items, kind="signal", name=name)
        y += _ROW


def _runs(
    plan: _Plan,
    nets: Sequence[int],
    words: Sequence[Word],
    rows: Sequence[int],
    xs: Sequence[float],
) -> tuple[Span, ...]:
    """What one name holds along a line, each value from where it comes to where it goes."""
    before = rows[0] > 0
    half = plan.pitch / 2
    if nets[0] in plan.clocks:
        bits = [plan.trace.rows[row - 1][nets[0]] if row else 0 for row in rows]
        pulses = [Word(1), *(w for bit in bits for w in (Word.from_bits([bit]), Word(1)))]
        halves = [x for start in xs[:-1] for x in (start, start + half)]
        return spans(pulses, [xs[0] - _LEAD * before, *halves, xs[-1]], xs[0])
    offset = plan.choice.rows[0] - (1 if plan.choice.rows[0] else 0)
    shown = words[rows[0] - before - offset : rows[-1] - offset + 1]
    late = half if plan.falling.issuperset(nets) else 0.0
    places = [x + late * (row > 0) for row, x in zip(rows, xs, strict=False)]
    return spans(shown, [*([xs[0] - _LEAD] if before else []), *places, xs[-1]], xs[0])


def _name(name: str, top: float, fill: str = theme.INK) -> Text:
    base = top + HEIGHT / 2 + theme.MIDDLE * theme.SIZE_TEXT
    return Text(theme.MARGIN, base, name, weight=theme.STRONG, fill=fill)


def _numbers(plan: _Plan, rows: Sequence[int], xs: Sequence[float], base: float) -> Iterator[Text]:
    """Edge numbers, each over its edge; over row 0 stands that it is the start."""
    yield Text(theme.MARGIN, base, plan.words("timing-edge"), theme.SIZE_SMALL, theme.SLATE)
    for row, x in zip(rows, xs, strict=False):
        if row:
            yield Text(x, base, str(row), theme.SIZE_SMALL, family="bits", anchor="middle")
        else:
            yield Text(x, base, plan.words("table-start"), theme.SIZE_SMALL, theme.SLATE)


def _phases(plan: _Plan, rows: Sequence[int], xs: Sequence[float], top: float) -> Iterator[Item]:
    """A bracket over the edges of each phase and the time in which its inputs stand."""
    for phase, opening, closing in plan.trace.design.stretches:
        first, last = max(opening, rows[0]), min(closing, rows[-1])
        if last < first:
            continue
        # Inputs change just after the last edge of their phase, which stands below the bracket.
        begins, goes_on = opening == first and first > 0, closing > last or last == rows[-1]
        start = xs[first - rows[0]] + (_AFTER + 3 if begins else -_AFTER if first else 3)
        end = xs[last - rows[0] + 1] + (-3 if goes_on else _AFTER - 1)
        y = top + theme.SIZE_TEXT + 4
        bracket = ((start, y + 5), (start, y), (end, y), (end, y + 5))
        yield Line(bracket, theme.SLATE, theme.LIGHT)
        text = text_metrics.fitted(phase.name, end - start)
        if text:
            yield Text((start + end) / 2, y - 5, text, anchor="middle")


def _clock(plan: _Plan, rows: Sequence[int], xs: Sequence[float], top: float) -> Group:
    """High in the first half of each row; it rises at each edge."""
    low, half = top + HEIGHT, plan.pitch / 2
    points = [(xs[0] - (_LEAD if rows[0] else 0), low)]
    arrows = []
    for row, x in zip(rows, xs, strict=False):
        if row:
            points += [(x, low), (x, top), (x + half, top), (x + half, low)]
            if plan.arrives(row):
                arrows.append(arrow(x, top + HEIGHT / 2))
    points.append((xs[-1], low))
    return Group((Line(tuple(points), theme.SLATE, theme.OUTLINE), *arrows), kind="clock")


def arrow(x: float, y: float) -> Path:
    """The mark of an active edge: it points the way the clock goes."""
    corners = ((x - 3.5, y + 3.5), (x, y - 4.0), (x + 3.5, y + 3.5))
    return Path(line_data(corners, closed=True), fill=theme.SLATE)


_SAMPLE: Final = 36.0


def legend_of(x: float, y: float, words: Words) -> Group:
    """What the levels and the hatch mean, in one line.

    Examples
    --------
    >>> [item.text for item in legend_of(0, 0, ENGLISH).items if isinstance(item, Text)]
    ['1', '0', 'unknown']
    """
    items: list[Item] = []
    middle = y + HEIGHT / 2
    for text, bit in entries(words):
        items.append(Text(x, middle + theme.MIDDLE * theme.SIZE_TEXT, text, weight=theme.STRONG))
        x += text_metrics.width(text, weight=theme.STRONG) + theme.GAP
        if bit == X:
            unknown = spans([Word(1, 0, 1)], [x, x + _SAMPLE], x)
            items += lozenges(unknown, y, [""], _SIZE)
        else:
            weight = theme.HIGH if bit else theme.THIN
            items.append(Line(((x, middle), (x + _SAMPLE, middle)), weight=weight))
        x += _SAMPLE + theme.LEGEND_GAP
    return Group(tuple(items), kind="legend")


def legend_width(words: Words) -> float:
    """Px that it takes."""
    one = theme.GAP + _SAMPLE + theme.LEGEND_GAP
    texts = (text for text, _ in entries(words))
    return sum(text_metrics.width(text, weight=theme.STRONG) + one for text in texts)


def _title(trace: Trace, choice: Choice, words: Words) -> str:
    subject, first, last = alt_text.subject(trace, words), choice.rows[0], choice.rows[-1]
    if first < last:
        return words("timing-title", first=first, last=last, subject=subject)
    if first:
        return words("timing-title-after", edge=first, subject=subject)
    return words("timing-title-start", subject=subject)


def _about(trace: Trace, choice: Choice, words: Words) -> str:
    said = [alt_text.phases(trace, choice.rows, words)]
    for i, name in enumerate(choice.names):
        said.append(alt_text.history(name, choice.history(trace, i), choice.rows, words))
    return alt_text.bounded(said, words=words)
