"""The figures that can be drawn, by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, cast, get_args

from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.inside import Inside
from edgewise.listing import choice
from edgewise.state_graph import StateGraph
from edgewise.trace import Trace
from edgewise.views.diagram.options import Clock
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.svg import Drawing
from edgewise.views.text.selection import choose
from edgewise.words.messages import ENGLISH, Words

WIDTH: Final = 760.0
"""Px that the lines of a timing diagram are broken at, unless told otherwise."""
NAMES: Final = ("diagram", "timing", "table", "filmstrip", "states")
"""Every figure."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a figure is to show; each figure takes what concerns it.

    Parameters
    ----------
    after : int, optional
        The row of a diagram, the last unless given; of a state diagram, none unless given.
    rows : sequence of int, optional
        The rows of every other figure; all unless given.
    names : sequence of str, optional
        Nets and words of a timing diagram or a table.
    open : sequence of str
        Parts of a diagram that are shown from inside.
    clock : str
        ``wedge``, ``hidden`` or ``wires``.
    symbols : str
        ``distinctive`` or ``rectangular``.
    legend : bool
    path : sequence of (str, str)
        Marked in a diagram: nets, and at last a port, each with the arrival time.
    across : int, optional
        Strips of a filmstrip that stand side by side; about a page wide unless given.
    mark : sequence of str
        Parts, ports and nets that a diagram marks as faulty.
    fault : str
        What is wrong, above a diagram; the names in `mark` unless given.
    point : sequence of str
        Parts, ports, nets and bits that arrows in a diagram point at.
    inside : Inside, optional
        What a timing diagram shows instead of rows: what happens between edges.
    room : float, optional
        Px that it may be wide; as wide as it is unless given.
    graph : StateGraph, optional
        The states of the design, for a state diagram.
    words : Words
        The language of what stands in it.
    """

    after: int | None = None
    rows: Sequence[int] | None = None
    names: Sequence[str] | None = None
    open: Sequence[str] = ()
    clock: str = "wedge"
    symbols: str = "distinctive"
    legend: bool = False
    path: Sequence[tuple[str, str]] = ()
    across: int | None = None
    mark: Sequence[str] = ()
    fault: str = ""
    point: Sequence[str] = ()
    inside: Inside | None = None
    room: float | None = None
    graph: StateGraph | None = None
    words: Words = ENGLISH


def check(name: str, wish: Wish) -> None:
    """See that there is such a figure and such choices, before a run is computed for it.

    Raises
    ------
    EdgewiseError or Problems
        Unknown figure, clock or symbols; all of them at once.

    Examples
    --------
    >>> check("tming", Wish(clock="none"))
    Traceback (most recent call last):
    edgewise.errors.Problems: there is no figure tming; did you mean timing?
    clock is none; expected wedge, hidden or wires
    """
    errors = []
    if name not in NAMES:
        errors.append(
            EdgewiseError(
                Message("figure-name-unknown", name=name, suggestion=nearest(name, NAMES))
            )
        )
    choices = (("clock", wish.clock, get_args(Clock)), ("symbols", wish.symbols, get_args(Style)))
    for option, found, allowed in choices:
        if found not in allowed:
            told = Message("value-expected", name=option, found=found, expected=choice(allowed))
            errors.append(EdgewiseError(told))
    raise_all(errors)


def possible(trace: Trace, name: str, wish: Wish) -> None:
    """See that a figure can show of a run what is wished, without drawing it.

    Raises
    ------
    EdgewiseError or Problems
        Unknown names, rows that there are not, too many, or not one after the other; a timing
        diagram of a circuit without clock edges.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> possible(trace, "timing", Wish(rows=[3, 9]))
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: there is no row 9: the rows are 0..8
    """
    check(name, wish)
    if name == "timing" and wish.inside is not None:
        from edgewise.views.timing import inside_plan

        _ = inside_plan.plan_of(wish.inside, wish.names, width=wish.room or WIDTH).scale
        return
    choice = choose(trace, wish.names, wish.rows)
    if name == "timing":
        from edgewise.views.timing import timing_diagram

        timing_diagram.check(trace, choice)
    elif name == "filmstrip":
        from edgewise.views.diagram import filmstrip

        filmstrip.check(choice.rows, wish.across)
    elif name == "states" and wish.graph:
        from edgewise.views.states import state_diagram

        state_diagram.check(wish.graph, trace.design.name)


def figure(trace: Trace, name: str, wish: Wish | None = None) -> Drawing:
    """Draw a figure of a run.

    Raises
    ------
    EdgewiseError or Problems
        As of `check`; unknown net, row or part; each with the nearest name or the range.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> figure(trace, "timing", Wish(names=["A", "C"])).title
    'Timing diagram, edges 0 to 8: bit-serial adder, n = 4, a = 6, b = 3'
    """
    wish = wish or Wish()
    check(name, wish)
    clock, symbols = cast("Clock", wish.clock), cast("Style", wish.symbols)
    if name == "timing":
        shows_clock = wish.clock != "hidden"
        if wish.inside is not None:
            from edgewise.views.timing.inside_diagram import inside_timing

            return inside_timing(
                wish.inside,
                wish.names,
                clock=shows_clock,
                legend=wish.legend,
                width=wish.room or WIDTH,
                words=wish.words,
            )
        from edgewise.views.timing.timing_diagram import timing

        return timing(
            trace,
            wish.names,
            wish.rows,
            clock=shows_clock,
            legend=wish.legend,
            width=wish.room or WIDTH,
            words=wish.words,
        )
    if name == "table":
        from edgewise.views.table.edge_table import edge_table

        return edge_table(
            trace, wish.names, wish.rows, legend=wish.legend, room=wish.room, words=wish.words
        )
    if name == "diagram":
        from edgewise.views.diagram.block_diagram import diagram

        return diagram(
            trace,
            wish.after,
            open=wish.open,
            clock=clock,
            symbols=symbols,
            legend=wish.legend,
            path=wish.path,
            mark=wish.mark,
            fault=wish.fault,
            point=wish.point,
            room=wish.room,
            words=wish.words,
        )
    if name == "states":
        from edgewise.views.states.state_diagram import state_diagram

        if wish.graph is None:
            raise EdgewiseError(Message("state-graph-missing"))
        return state_diagram(trace, wish.graph, wish.after, room=wish.room, words=wish.words)
    from edgewise.views.diagram.filmstrip import filmstrip

    rows = range(trace.edges + 1) if wish.rows is None else wish.rows
    return filmstrip(
        trace,
        rows,
        across=wish.across,
        open=wish.open,
        clock=clock,
        symbols=symbols,
        legend=wish.legend,
        room=wish.room,
        words=wish.words,
    )
