"""State diagram: states as circles, transitions as arrows with the inputs that lead there.

As in textbooks: the start has an arrow from nowhere; what the outputs are stands below the state
(Moore) or behind a slash at the arrow (Mealy). States that nothing leads to from the start have a
dashed rim; the present state is solid ink, and the transition that led to it heavy.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, hypot
from typing import Final

from edgewise.bits import X
from edgewise.errors import EdgewiseError, Message
from edgewise.state_graph import StateGraph, Transition
from edgewise.trace import Trace
from edgewise.views.diagram.picture import when
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import (
    Circle,
    Group,
    Item,
    Line,
    Path,
    Rectangle,
    Text,
    line_data,
    number,
)
from edgewise.views.drawing.svg import Drawing
from edgewise.views.states.columns import columns
from edgewise.views.states.labelling import Label, labelling
from edgewise.views.states.placing import Arrow, Measure, Placing, Point, entered, groups, packed
from edgewise.views.states.ring import ring
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

MOST_STATES: Final = 32
MOST_TRANSITIONS: Final = 40
WIDTH: Final = 760.0
"""Px after which states that don't hang together stand in the next line."""
_HEAD: Final = 9.0
"""Length of an arrowhead; its half width is a third."""
_ENTRY: Final = 26.0
"""Length of the arrow from nowhere."""
_LINE: Final = 15.0
"""From one line of a label to the next."""
_ENTRIES: Final = 4
"""Starts that are marked by an arrow, at most."""
_BETWEEN: Final = 28.0
"""Between states that don't hang together."""
_RIM: Final = 2.25
"""Of a state that is reached."""
_UNREACHED: Final = (3.0, 3.0)


def check(graph: StateGraph, name: str) -> None:
    """See that a state diagram of this size can be read.

    Raises
    ------
    EdgewiseError
        It can't.
    """
    shown = chosen(graph)
    arrows = sum(each.source in shown for each in graph.transitions)
    if len(shown) > MOST_STATES or arrows > MOST_TRANSITIONS:
        raise EdgewiseError(
            Message(
                "state-diagram-large",
                most_states=MOST_STATES,
                most_transitions=MOST_TRANSITIONS,
                design=name,
                reached=len(graph.reached),
                states=len(graph.states),
                transitions=arrows,
            )
        )


def chosen(graph: StateGraph) -> frozenset[int]:
    """The states that are drawn: all where there are few, else those that are reached."""
    every = frozenset(graph.states)
    few = len(every) <= MOST_STATES and len(graph.transitions) <= MOST_TRANSITIONS
    return every if few else graph.reached


def state_diagram(
    trace: Trace,
    graph: StateGraph,
    after: int | None = None,
    *,
    room: float | None = None,
    words: Words = ENGLISH,
) -> Drawing:
    """The state diagram of a design, its state in one row of a run marked.

    Parameters
    ----------
    trace : Trace
    graph : StateGraph
        Of the design that ran.
    after : int, optional
        The row whose state is marked; none if left out.
    room : float, optional
        Px that it may be wide.
    words : Words

    Raises
    ------
    EdgewiseError
        Too many states or transitions, or no such row.
    """
    check(graph, trace.design.name)
    row = after if after is not None else -1
    if after is not None:
        trace.bits((), after)
    figure = _Figure(trace, graph, row, words)
    return figure.drawing(room or WIDTH)


def title(trace: Trace, after: int | None, words: Words = ENGLISH) -> str:
    """The title of a state diagram, and its caption where it has none of its own."""
    subject = alt_text.subject(trace, words)
    if after and after > 0:
        return words("states-title-after", edge=after, subject=subject)
    return words("states-title", subject=subject)


@dataclass(frozen=True)
class _Figure:
    trace: Trace
    graph: StateGraph
    row: int
    """-1: no state is marked."""
    words: Words

    def drawing(self, room: float) -> Drawing:
        """All of it, in the room there is."""
        placed = self._placed(room - 2 * theme.MARGIN)
        tags = dict(labelling(placed, self.measure.radius, self.sizes))
        over = min([0.0, *(x - w / 2 for x, _, w, _ in tags.values())])
        above = min([0.0, *(y - h / 2 for _, y, _, h in tags.values())])
        width = max([placed.width, *(x + w / 2 for x, _, w, _ in tags.values())]) - over
        head = when(self.trace, self.row, self.words) if self.row >= 0 else ""
        top = theme.MARGIN + (22.0 if head else 0.0)
        items: list[Item] = [Text(theme.MARGIN, 26, head, fill=theme.SLATE)] if head else []
        drawn = tuple(self._items(placed, tags))
        # A page's script marks the present state of a diagram that shows no row of its own.
        kind = "states" if self.row >= 0 else "states following"
        base = top + placed.height - above + theme.GAP
        lines = self._notes(max(room - 2 * theme.MARGIN, width))
        for line in lines:
            base += theme.SIZE_SMALL + 6
            items.append(Text(theme.MARGIN, base, line, theme.SIZE_SMALL, theme.SLATE))
        widths = [text_metrics.width(line, theme.SIZE_SMALL) for line in lines]
        wide = max(width, text_metrics.width(head), *widths) + 2 * theme.MARGIN
        left = (wide - width) / 2 - over
        items.append(Group(drawn, kind, self._places(), x=left, y=top - above))
        about = alt_text.bounded(self._about(), words=self.words)
        told = title(self.trace, self.row, self.words)
        return Drawing(ceil(wide), ceil(base + theme.MARGIN), told, about, tuple(items))

    def _places(self) -> str:
        """The flip-flops that the digits in a circle are of, as the page's script reads them."""
        return ", ".join(" ".join(map(str, reversed(p))) for _, p in self.graph.words)

    # ------------------------------------------------------------ places

    @cached_property
    def shown(self) -> frozenset[int]:
        return chosen(self.graph)

    @cached_property
    def transitions(self) -> tuple[Transition, ...]:
        return tuple(each for each in self.graph.transitions if each.source in self.shown)

    @cached_property
    def present(self) -> int | None:
        """The state in the marked row, if it is known."""
        return self._state(self.row) if self.row >= 0 else None

    def _state(self, row: int) -> int | None:
        bits = [self.trace.rows[row][one.q] for one in self.trace.design.netlist.flip_flops]
        return None if X in bits else sum(bit << place for place, bit in enumerate(bits))

    @cached_property
    def taken(self) -> tuple[int | None, int | None]:
        """The states before and after the last edge."""
        return (self._state(self.row - 1) if self.row > 0 else None), self.present

    @cached_property
    def measure(self) -> Measure:
        texts = [self.graph.spelled(state) for state in self.shown]
        texts += [self.graph.shown.get(state, "") for state in self.shown]
        wide = max(text_metrics.width(text, theme.SIZE_TEXT, "bits") for text in texts)
        labelled = max((size[0] for size in self.sizes.values()), default=0.0)
        return Measure(ceil(max(wide / 2 + 8, 20.0)), max(labelled + 24.0, 26.0))

    @cached_property
    def labels(self) -> dict[Transition, tuple[str, ...]]:
        """The lines at each arrow."""
        return {each: _label(each) for each in self.transitions if _label(each)}

    @cached_property
    def sizes(self) -> dict[Transition, tuple[float, float]]:
        """Width and height of each label."""
        return {
            each: (
                max(text_metrics.width(line, theme.SIZE_SMALL, "bits") for line in lines) + 4,
                _LINE * len(lines),
            )
            for each, lines in self.labels.items()
        }

    def _placed(self, room: float) -> Placing:
        parts = sorted(groups(self.shown, self.transitions), key=self._first)
        return packed([self._part(part, room) for part in parts], room, _BETWEEN)

    def _first(self, part: Sequence[int]) -> tuple[bool, int, int]:
        return not self.graph.reached.intersection(part), -len(part), part[0]

    def _part(self, part: Sequence[int], room: float) -> Placing:
        starts = sorted(self.graph.starts.intersection(part))
        first = starts[0] if starts else part[0]
        states = [first, *(state for state in part if state != first)]
        inside = [each for each in self.transitions if each.source in set(part)]
        placed = ring(states, inside, self.measure)
        if placed.crossings:
            beside = columns(states, inside, self.measure, self.sizes)
            ways = (placed, beside)
            placed = min(ways, key=lambda one: (one.width > max(room, placed.width), one.crossings))
        return entered(
            placed, starts if len(starts) <= _ENTRIES else (), self.measure.radius, _ENTRY
        )

    # ------------------------------------------------------------ items

    def _items(self, placed: Placing, tags: Mapping[Transition, Label]) -> Iterator[Item]:
        for arrow in placed.arrows:
            yield self._arrow(arrow)
        for each, (x, y, wide, high) in tags.items():
            yield self._tag(each, x, y, wide, high)
        for state, (x, y) in placed.spots.items():
            yield Group(tuple(self._circle(state)), "state", self.graph.spelled(state), x, y)

    def _arrow(self, arrow: Arrow) -> Group:
        each = arrow.transition
        if each is None:
            return Group((*_line(arrow.points, theme.THIN),), "start")
        last = (each.source, each.target) == self.taken
        name = f"{self.graph.spelled(each.source)} {self.graph.spelled(each.target)}"
        weight = theme.THICK if last and self._took(each) else theme.THIN
        return Group((*_line(arrow.points, weight),), "transition", name)

    def _took(self, each: Transition) -> bool:
        """Whether the inputs before the last edge were those of a transition."""
        if not each.when:
            return True
        bits = "".join(
            str(self.trace.rows[self.row - 1][self.trace.design.netlist.find(name)[0]])
            for name in self.graph.inputs
        )
        return any(
            all(digit in ("-", bit) for digit, bit in zip(way, bits, strict=True))
            for way in each.when
        )

    def _tag(self, each: Transition, x: float, y: float, wide: float, high: float) -> Group:
        lines = self.labels[each]
        ground = Rectangle(x - wide / 2, y - high / 2, wide, high, theme.PAPER)
        top = y - high / 2 + _LINE / 2 + theme.MIDDLE * theme.SIZE_SMALL
        texts = (
            Text(x, top + i * _LINE, line, theme.SIZE_SMALL, family="bits", anchor="middle")
            for i, line in enumerate(lines)
        )
        return Group((ground, *texts), "condition")

    def _circle(self, state: int) -> Iterator[Item]:
        here, radius = state == self.present, self.measure.radius
        ink = theme.PAPER if here else theme.INK
        if state in self.graph.reached:
            fill = theme.INK if here else theme.PAPER
            yield Circle(0, 0, radius, fill, theme.INK, _RIM)
        else:
            yield Circle(0, 0, radius, theme.INK if here else theme.PAPER)
            yield Path(_round(radius), stroke=theme.INK, weight=theme.THIN, dash=_UNREACHED)
        size, below = theme.SIZE_TEXT, self.graph.shown.get(state, "")
        middle = theme.MIDDLE * size
        if not below:
            yield Text(0, middle, self.graph.spelled(state), size, ink, "bits", anchor="middle")
            return
        yield Line(((-0.8 * radius, 0), (0.8 * radius, 0)), ink, theme.HAIR)
        for base, text in ((-8.0, self.graph.spelled(state)), (9.0, below)):
            yield Text(0, base + middle, text, size - 1, ink, "bits", anchor="middle")

    # ------------------------------------------------------------ words

    def _notes(self, room: float) -> tuple[str, ...]:
        """What the digits and rims mean, folded."""
        graph, words = self.graph, self.words
        said = [words("states-circle", words=_listed(name for name, _ in graph.words))]
        if graph.outputs:
            said.append(words("states-below", outputs=_listed(graph.outputs)))
        if graph.inputs:
            said.append(words("states-arrow", inputs=_listed(graph.inputs)))
            if any("-" in way for each in self.transitions for way in each.when):
                said.append(words("states-either"))
        if len(graph.starts) > _ENTRIES:
            said.append(words("states-starts", count=len(graph.starts)))
        if graph.mealy:
            said.append(words("states-slash", outputs=_listed(graph.mealy)))
        if self.shown - graph.reached:
            said.append(words("states-dashed"))
        if len(self.shown) < len(graph.states):
            said.append(words("states-left-out", count=len(graph.states) - len(self.shown)))
        return text_metrics.wrapped(" ".join(said), room, theme.SIZE_SMALL)

    def _about(self) -> Iterator[str]:
        """What the figure shows, from the facts it is drawn of."""
        graph, words = self.graph, self.words
        yield words("states-about-count", reached=len(graph.reached), all=len(graph.states))
        if self.row >= 0:
            here = self.present
            held = words("figure-unknown") if here is None else graph.spelled(here)
            yield words("states-about-present", edge=self.row, state=held)
        for state in sorted(self.shown, key=lambda one: (one not in graph.reached, one)):
            ways = [each for each in self.transitions if each.source == state]
            told = "; ".join(self._way(each) for each in ways)
            yield words("states-about-after", state=graph.spelled(state), ways=told)
        if graph.unreached:
            back = len(graph.unreached) - len(graph.stranded)
            which = "all" if not graph.stranded else "some" if back else "none"
            yield words("states-about-unused", count=len(graph.unreached), which=which, back=back)

    def _way(self, each: Transition) -> str:
        target, lines = self.graph.spelled(each.target), self.labels.get(each)
        when = " ".join(lines or ())
        return self.words("states-about-way", target=target, when=when) if lines else target


def _label(each: Transition) -> tuple[str, ...]:
    """The lines at an arrow: the inputs, and behind a slash the outputs."""
    told = f"/{each.output}" if each.output else ""
    ways = [way.replace("-", "–") for way in each.when]
    if not ways:
        return (told,) if told else ()
    return (*(f"{way}," for way in ways[:-1]), f"{ways[-1]}{told}")


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)


def _line(points: Sequence[Point], weight: float) -> Iterator[Item]:
    """A line with an arrowhead that ends where it ends."""
    (x1, y1), (x2, y2) = points[-2], points[-1]
    far = hypot(x2 - x1, y2 - y1) or 1.0
    ux, uy = (x2 - x1) / far, (y2 - y1) / far
    base = x2 - _HEAD * ux, y2 - _HEAD * uy
    # A thick line must not stand out beside the tip.
    inner = [p for p in points[:-1] if hypot(p[0] - x2, p[1] - y2) > _HEAD]
    yield Line((*inner, base), theme.INK, weight)
    half = max(_HEAD / 2.6, weight)
    corners = (
        (base[0] - half * uy, base[1] + half * ux),
        (x2, y2),
        (base[0] + half * uy, base[1] - half * ux),
    )
    yield Path(line_data(corners, closed=True), fill=theme.INK)


def _round(radius: float) -> str:
    r = number(radius)
    return f"M-{r} 0A{r} {r} 0 0 1 {r} 0A{r} {r} 0 0 1 -{r} 0Z"
