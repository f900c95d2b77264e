"""Seats: the seeds of all elements of one room, for a figure that keeps its order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from edgewise.circuit.model import Role
from edgewise.circuit.parts import role
from edgewise.views.diagram.elements import Element
from edgewise.views.diagram.nets import Thread
from edgewise.views.layout.layering import MOST, Node, columns, mean, rows

Seat = tuple[int, int]


def seats(
    first: Sequence[Element],
    parts: Sequence[Element],
    last: Sequence[Element],
    threads: Iterable[Thread],
    *,
    in_order: bool = False,
) -> dict[str, Seat]:
    """Column and row of each element; nothing where there are too many.

    Parameters
    ----------
    first, last : sequence of Element
        What stands in the first and in the last column.
    parts : sequence of Element
        In text order.
    threads : iterable of Thread
    in_order : bool
        Keep the order of `first` and `last`; else each stands beside what it is wired to.

    Examples
    --------
    >>> seats([], [Element("A", "storage"), Element("B", "storage")], [], [])
    {'A': (1, 0), 'B': (1, 1)}
    """
    if len(first) + len(parts) + len(last) > MOST:
        return {}
    home = {pin.id: e.id for group in (first, parts, last) for e in group for pin in e.pins}
    links = sorted(
        {
            (home[thread.source], home[target])
            for thread in threads
            for target in thread.targets
            if thread.source in home and target in home
        }
    )
    among = {e.id for e in parts}
    inner = [(a, b) for a, b in links if a in among and b in among]
    roles = {e.id: role(e.kind) for e in parts}
    nodes = [_node(e, links, roles) for e in parts]
    column = columns(nodes, inner)
    row = rows(nodes, inner, column)
    end = max(column.values(), default=0) + 1
    column |= {e.id: 0 for e in first} | {e.id: end for e in last}
    for number, e in enumerate((*first, *last)):
        beside = [row[b] for a, b in links if a == e.id and b in among]
        beside += [row[a] for a, b in links if b == e.id and a in among]
        row[e.id] = float(number) if in_order else mean(beside, float(number))
        if e.control and len(beside) > 1 and not in_order:
            # Its wire runs up from below all that it controls, so that it crosses no data.
            row[e.id] = max(beside) + 0.25
    # Equal rows keep the order in which they came: a sort is stable.
    ranked = sorted(row, key=row.__getitem__)
    return {name: (column[name], rank) for rank, name in enumerate(ranked)}


def _node(element: Element, links: Sequence[tuple[str, str]], roles: Mapping[str, Role]) -> Node:
    fed = [roles.get(b) for a, b in links if a == element.id]
    front = roles[element.id] == "selector" and bool(fed) and {*fed} == {"storage"}
    return Node(element.id, roles[element.id] == "storage", len(element.word), front)
