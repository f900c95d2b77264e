"""Inside clock periods, to scale: the clock, nets and words from one edge to the next.

Each line has, from the top: edge numbers, a scale of time after the edge, the clock, the nets and
words with what is to be marked below each, and at its foot when all nets have settled. A period
that is too short for the figure's width to tell its changes apart breaks into lines of equal
scale.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final

from edgewise.inside import Inside
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Group, Item, Line, Path, Rectangle, Text, line_data
from edgewise.views.drawing.svg import Drawing
from edgewise.views.text import alt_text
from edgewise.views.timing import marks
from edgewise.views.timing.inside_plan import HEAD, LEAD, SIZE, Laid, Lane, Plan, Spot, plan_of
from edgewise.views.timing.timing_diagram import WIDTH, arrow, legend_of, legend_width, value
from edgewise.views.timing.waveforms import HEIGHT, SLOPE, guide, levels, lozenges, spans
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit


def inside_timing(
    moment: Inside,
    names: Sequence[str] | None = None,
    *,
    clock: bool = True,
    legend: bool = False,
    width: float = WIDTH,
    words: Words = ENGLISH,
) -> Drawing:
    """The timing diagram of what happens inside clock periods, to scale.

    Parameters
    ----------
    moment : Inside
    names : sequence of str, optional
        From top to bottom; `names_of` if left out.
    clock, legend : bool
    width : float
        Px after which a line is broken.
    words : Words

    Raises
    ------
    EdgewiseError or Problems
        Unknown names, or none; more lines than a figure has.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.study.inside import inside
    >>> moment = inside(run(catalogue.design("serial-adder", n=6), a=22, b=43), 8)
    >>> inside_timing(moment, ["A", "FA.sum"]).title
    'Inside edge 8, delays of unit-gate: bit-serial adder, n = 6, a = 22, b = 43'
    """
    plan = plan_of(moment, names, clock=clock, width=width, words=words)
    items: list[Item] = []
    for line in plan.lines:
        items += _line(plan, line)
    bottom = plan.lines[-1].bottom + theme.MARGIN
    right = plan.left + max(line.width for line in plan.scale.lines) + SLOPE + theme.MARGIN - 0.01
    if any(plan.windows):
        items.append(_key(bottom - 4, words))
        bottom += HEIGHT + theme.MARGIN
        right = max(right, _key_width(words) + 2 * theme.MARGIN)
    if legend:
        items.append(legend_of(theme.MARGIN, bottom, words))
        bottom += HEIGHT + theme.MARGIN
        right = max(right, legend_width(words) + 2 * theme.MARGIN)
    return Drawing(ceil(right), ceil(bottom), _title(moment, words), _about(plan), tuple(items))


def _line(plan: Plan, line: Laid) -> Iterator[Item]:
    y = line.top + HEAD
    yield Group(tuple(_guides(plan, line)), kind="guides")
    yield Group(tuple(_axis(plan, line)), kind="axis")
    if plan.clock:
        yield _name(plan.words("timing-clock"), y, theme.SLATE)
        yield _clock(plan, line, y)
    shown = zip(plan.lanes, line.lanes, line.marks, plan.windows, strict=False)
    for lane, top, placed, spots in shown:
        yield from _windows(line, spots, top, rim=False)
        yield _name(lane.name, top)
        rims = tuple(_windows(line, spots, top, rim=True))
        yield Group(_signal(line, lane, top, rims), kind="signal", name=lane.name)
        below = top + HEIGHT + 5
        marked = tuple(item for one in placed for item in marks.drawn(one, below, plan.words))
        if marked:
            yield Group(marked, kind="marks", name=lane.name)
    yield Group(tuple(_settled(plan, line)), kind="settled")


def _name(name: str, top: float, fill: str = theme.INK) -> Text:
    base = top + HEIGHT / 2 + theme.MIDDLE * theme.SIZE_TEXT
    return Text(theme.MARGIN, base, name, weight=theme.STRONG, fill=fill)


def _guides(plan: Plan, line: Laid) -> Iterator[Item]:
    """An upright line at each edge, and where all nets have settled."""
    for edge in _edges(plan, line):
        yield guide(line.x(edge), line.top + HEAD - 6, line.foot)
    for tick, _ in plan.settled:
        if line.has(tick):
            upright = ((line.x(tick), line.top + HEAD - 6), (line.x(tick), line.foot + 4))
            yield Line(upright, theme.SLATE, theme.HAIR, theme.DASH)


def _edges(plan: Plan, line: Laid) -> list[int]:
    """The ticks of a line at which periods begin."""
    return [tick for tick in plan.begins if line.has(tick)]


def _axis(plan: Plan, line: Laid) -> Iterator[Item]:
    """Edge numbers, and below them the time after each edge."""
    moment, words = plan.moment, plan.words
    base = line.top + theme.SIZE_SMALL
    if moment.first:
        yield Text(theme.MARGIN, base, words("timing-edge"), SIZE, theme.SLATE)
        for tick in _edges(plan, line):
            number = str(moment.edge_of(tick))
            yield Text(line.x(tick), base, number, SIZE, family="bits", anchor="middle")
    y = base + theme.SIZE_SMALL + 5
    yield Text(theme.MARGIN, y, plan.unit, SIZE, theme.SLATE)
    step = plan.scale.step(moment.ticks)
    rule = y + 5
    yield Line(((line.x(line.begin), rule), (line.x(line.end), rule)), theme.SLATE, theme.HAIR)
    for begin in plan.begins:
        for tick in range(begin, begin + plan.period, step):
            if not line.begin <= tick < line.end:
                continue
            x = line.x(tick)
            yield Line(((x, rule), (x, rule + 4)), theme.SLATE, theme.HAIR)
            written = words.decimal(moment.figure(tick - begin))
            half = text_metrics.width(written, SIZE, "bits") / 2
            if tick + (half + 12) / plan.scale.pitch < begin + plan.period:
                yield Text(x, y, written, SIZE, theme.SLATE, "bits", anchor="middle")


def _clock(plan: Plan, line: Laid, top: float) -> Group:
    """High in the first half of each period."""
    low, half, period = top + HEIGHT, plan.moment.period // 2, plan.moment.period
    high = line.begin % period and line.begin % period < half
    y = top if high else low
    points = [(line.x(line.begin) - LEAD, y)]
    arrows: list[Item] = []
    for begin in plan.begins:
        for tick, to in ((begin, top), (begin + half, low)):
            if line.has(tick):
                points += [(line.x(tick), y), (line.x(tick), to)]
                y = to
                if to == top:
                    arrows.append(arrow(line.x(tick), top + HEIGHT / 2))
    points.append((line.x(line.end), y))
    return Group((Line(tuple(points), theme.SLATE, theme.OUTLINE), *arrows), kind="clock")


def _signal(line: Laid, lane: Lane, top: float, rims: tuple[Item, ...]) -> tuple[Item, ...]:
    """What a lane holds along a line; the rims of windows lie under its values."""
    start = line.x(line.begin)
    past = [word for time, word in lane.history if time < line.begin]
    words = [past[-1]]
    xs = [start - LEAD]
    for time, word in lane.history:
        if line.has(time):
            words.append(word)
            xs.append(line.x(time))
    runs = spans(words, [*xs, line.x(line.end)], start)
    if len(lane.nets) == 1:
        return (*levels(runs, top), *rims)
    texts = [_fitting(run.end - max(run.readable, run.start), value(run.word)) for run in runs]
    items = lozenges(runs, top, texts, SIZE)
    paths = [item for item in items if isinstance(item, Path)]
    return (*paths, *rims, *items[len(paths) :])


def _fitting(room: float, text: str) -> str:
    """The value, where there is room for the whole of it."""
    return text if text_metrics.width(text, SIZE, "bits") + 2 * SLOPE <= room else ""


def _windows(line: Laid, spots: Sequence[Spot], top: float, *, rim: bool) -> Iterator[Item]:
    """Where a lane must stand around edges: a ground behind it and, over it, a rim."""
    shown: list[Item] = []
    for spot in spots:
        left, right = line.x(spot.begin), line.x(spot.end)
        if right - left >= 1:
            shown.append(_window(left, top - 4, right - left, rim=rim, broken=spot.broken))
    if shown:
        yield Group(tuple(shown), kind="windows")


def _window(x: float, y: float, wide: float, *, rim: bool, broken: bool = False) -> Rectangle:
    box = x, y, wide, HEIGHT + 8
    if not rim:
        return Rectangle(*box, theme.PANEL)
    if broken:
        return Rectangle(*box, stroke=theme.BRICK, weight=theme.OUTLINE)
    return Rectangle(*box, stroke=theme.SLATE, weight=theme.HAIR, dash=(3.0, 2.0))


def _settled(plan: Plan, line: Laid) -> Iterator[Item]:
    """When all nets have settled, those not shown among them."""
    words, y = plan.words, line.foot
    shown = [(line.x(tick), time) for tick, time in plan.settled if line.has(tick)]
    ends = [x - theme.GAP for x, _ in shown[1:]] + [line.x(line.end)]
    taken = 0.0
    for (x, time), end in zip(shown, ends, strict=False):
        corners = ((x - 4, y + 11), (x, y + 4), (x + 4, y + 11))
        yield Path(line_data(corners, closed=True), fill=theme.SLATE)
        figure = words.decimal(plan.moment.figure(time))
        text = words("inside-mark-settled", time=figure)
        wide = text_metrics.width(text, SIZE)
        at = x + theme.GAP if x + theme.GAP + wide <= end else x - theme.GAP - wide
        if at >= taken:
            yield Text(at, y + 13, text, SIZE, theme.SLATE_DARK)
        taken = max(x + theme.GAP, at + wide + theme.GAP)


_SAMPLE: Final = 28.0


def _key(y: float, words: Words) -> Group:
    """What the windows are."""
    box = (_window(theme.MARGIN, y, _SAMPLE, rim=rim) for rim in (False, True))
    base = y + (HEIGHT + 8) / 2 + theme.MIDDLE * SIZE
    at = theme.MARGIN + _SAMPLE + theme.GAP
    text = Text(at, base, words("inside-key-window"), SIZE, theme.SLATE_DARK)
    return Group((*box, text), kind="legend")


def _key_width(words: Words) -> float:
    return _SAMPLE + theme.GAP + text_metrics.width(words("inside-key-window"), SIZE)


def _title(moment: Inside, words: Words) -> str:
    facts: dict[str, int | str] = {
        "model": moment.model,
        "subject": alt_text.subject(moment.trace, words),
    }
    if not moment.first:
        return words("inside-title-inputs", **facts)
    if moment.first == moment.last:
        return words("inside-title-edge", edge=moment.first, **facts)
    return words("inside-title-edges", first=moment.first, last=moment.last, **facts)


def _about(plan: Plan) -> str:
    """The figure in sentences."""
    moment, words = plan.moment, plan.words
    said = [f"{text[:1].upper()}{text[1:]}." for text in moment.sentences(words)]
    said += (_history(moment, lane, words) for lane in plan.lanes)
    return alt_text.bounded(said, words=words)


def _history(moment: Inside, lane: Lane, words: Words) -> str:
    """What a lane holds, with the time after the edge at which it changes."""
    before, *rest = lane.history
    if not rest:
        held = alt_text.spell(before[1], words)
        return words("about-throughout", name=lane.name, value=held)
    told = [words("inside-about-first", value=alt_text.spell(before[1], words))]
    for time, word in rest[:_MOST_TOLD]:
        edge = moment.edge_of(time)
        after = words.decimal(moment.figure(time - (edge - moment.first) * moment.period))
        facts = {"value": alt_text.spell(word, words), "time": after}
        name = "inside-about-after" if moment.first else "inside-about-time"
        told.append(words(name, unit=unit(moment.unit, words), edge=edge, **facts))
    left = len(rest) - _MOST_TOLD
    if left > 0:
        told.append(words("inside-about-left", count=left))
    return words("about-history", name=lane.name, values=", ".join(told))


_MOST_TOLD: Final = 8
"""Changes of a lane that are told one by one."""
