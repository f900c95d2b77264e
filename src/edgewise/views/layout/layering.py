"""Columns: a seed for every part, so that a figure keeps its order when its sizes change.

Signals run from column to column: inputs first, then each part behind all that feed it,
outputs last. Feedback is cut where it enters a storage element, or a multiplexer that stands
in front of storage elements; what is cut runs back around the figure.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

MOST: Final = 40
"""A room with more boxes than this is left to the layout alone."""


@dataclass(frozen=True, slots=True)
class Node:
    """A part as the columns see it.

    Examples
    --------
    >>> Node("C", storing=True, bits=1).front
    False
    """

    id: str
    storing: bool = False
    bits: int = 1
    front: bool = False
    """A multiplexer that feeds storage elements only."""


def columns(nodes: Sequence[Node], links: Collection[tuple[str, str]]) -> dict[str, int]:
    """The column of each part, from 1; inputs have column 0.

    Parameters
    ----------
    nodes : sequence of Node
        In text order.
    links : collection of (str, str)
        Driver and sink, both among the nodes.

    Examples
    --------
    A serial adder: its carry flip-flop stands between the words and the adder.

    >>> nodes = [Node("A", True, 6), Node("FA"), Node("C", True, 1), Node("S", True, 6)]
    >>> links = [("A", "FA"), ("C", "FA"), ("FA", "C"), ("FA", "S")]
    >>> columns(nodes, links)
    {'A': 1, 'FA': 3, 'C': 2, 'S': 4}
    """
    order = {node.id: number for number, node in enumerate(nodes)}
    known = {node.id: node for node in nodes}
    reach = {name: _reached(name, links) for name in order}
    forward = [
        (a, b)
        for a, b in links
        if not (b in reach[a] and a in reach[b] and _is_cut(known[a], known[b], order))
    ]
    level = _levels(order, forward)
    after = {name: [level[b] for a, b in forward if a == name] for name in order}
    wide = any(node.storing and node.bits > 1 and level[node.id] == 1.0 for node in nodes)
    for node in nodes:
        returns = any(b == node.id for a, b in set(links) - set(forward))
        alone = node.storing and node.bits == 1 and level[node.id] == 1.0
        if wide and returns and alone and after[node.id]:
            level[node.id] = min(after[node.id]) - 0.5
    ranks = {value: rank for rank, value in enumerate(sorted(set(level.values())), 1)}
    return {name: ranks[level[name]] for name in order}


def _reached(start: str, links: Collection[tuple[str, str]]) -> set[str]:
    found: set[str] = set()
    waiting = [start]
    while waiting:
        here = waiting.pop()
        for a, b in links:
            if a == here and b not in found:
                found.add(b)
                waiting.append(b)
    return found


def _is_cut(a: Node, b: Node, order: Mapping[str, int]) -> bool:
    """Whether the link from a to b, both in one loop, runs back."""
    if a.id == b.id:
        return True
    if a.storing and b.storing:
        return order[b.id] < order[a.id]
    if b.storing:
        return not a.front
    if a.storing:
        return b.front
    return order[b.id] < order[a.id]


def _levels(order: Mapping[str, int], links: Collection[tuple[str, str]]) -> dict[str, float]:
    """Longest path to each node, from 1.0; a link that still closes a loop is passed over."""
    before: dict[str, list[str]] = {name: [] for name in order}
    for a, b in links:
        before[b].append(a)
    level: dict[str, float] = {}
    for start in order:
        stack, trail = [start], dict.fromkeys([start])
        while stack:
            here = stack[-1]
            open_ = [a for a in before[here] if a not in level and a not in trail]
            if here not in level and open_:
                stack.append(open_[0])
                trail[open_[0]] = None
                continue
            stack.pop()
            trail.pop(here, None)
            known = (level[a] for a in before[here] if a in level)
            level.setdefault(here, 1.0 + max(known, default=0.0))
    return level


def rows(
    nodes: Sequence[Node], links: Collection[tuple[str, str]], column: Mapping[str, int]
) -> dict[str, float]:
    """How far down each part stands: beside what feeds it, else in text order.

    Examples
    --------
    >>> nodes = [Node("A", True, 6), Node("FA"), Node("C", True, 1), Node("S", True, 6)]
    >>> links = [("A", "FA"), ("C", "FA"), ("FA", "C"), ("FA", "S")]
    >>> rows(nodes, links, columns(nodes, links))
    {'A': 0.0, 'C': 2.0, 'FA': 1.0, 'S': 1.0}
    """
    row: dict[str, float] = {}
    order = {node.id: float(number) for number, node in enumerate(nodes)}
    for name in sorted(order, key=lambda name: (column[name], order[name])):
        there = [row[a] for a, b in links if b == name and column[a] < column[name]]
        row[name] = mean(there, order[name])
    return row


def mean(numbers: Sequence[float], otherwise: float) -> float:
    """The mean, or `otherwise` of none.

    Examples
    --------
    >>> mean([1, 2], 0), mean([], 7)
    (1.5, 7)
    """
    return sum(numbers) / len(numbers) if numbers else otherwise
