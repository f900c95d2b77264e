"""Routes: the lines of every net, one for each sink, made into one tree per net.

A router that draws each driver-sink pair by itself draws shared stretches many times, and
sometimes side by side. Here the pairs of a net become one tree again, and where a longer
stretch saves a bend or a second track, it is made longer::

    a--+------b              a--+------b
       |                        |
       +--+           to        |
          |                     |
       +--+                     +------d
       +------d
"""

from __future__ import annotations

import heapq
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from edgewise.views.layout.graph import Point

Path = tuple[Point, ...]
Rect = tuple[float, float, float, float]
_Piece = tuple[Point, Point]
_Mesh = defaultdict[Point, dict[Point, float]]

# Prices in px of wire. A bend or a crossing costs the reader's eye something.
_BEND = 6.0
_CROSSING = 12.0
# What a longer stretch must keep free beside it, in px.
_CLEAR_OF_WIRES = 10.0
_CLEAR_OF_BOXES = 12.0
# Two stretches that meet are a bend, three a junction.
_DOT = 3


@dataclass(frozen=True, slots=True)
class Net:
    """The routes of one net before they are merged, and what stands around them."""

    source: Point
    ends: tuple[Point, ...]
    paths: tuple[Path, ...]
    """Orthogonal; from the source to each end. They may overlap and cross one another."""
    room: str | None = None
    """Id of the box in which the net runs; None is the page."""


@dataclass(frozen=True, slots=True)
class _Around:
    """What a new stretch of a net must keep clear of."""

    pieces: tuple[_Piece, ...]
    """Of all other nets in the room."""
    boxes: tuple[Rect, ...]
    walls: Rect | None


def trees(
    nets: Sequence[Net], boxes: Mapping[str, tuple[Rect, str | None]]
) -> list[tuple[Path, ...]]:
    """Each net as a tree of lines that clashes with no box and no other net.

    Parameters
    ----------
    nets : sequence of Net
        All nets of a figure.
    boxes : mapping from id to (rectangle, room)
        Rectangles as (left, top, right, bottom), each with the id of the box it is in.

    Returns
    -------
    list of tuple of Path
        A net's first line starts at its source, every other one on an earlier line.

    Examples
    --------
    >>> net = Net((0, 0), ((9, 0), (9, 5)), (((0, 0), (9, 0)), ((0, 0), (4, 0), (4, 5), (9, 5))))
    >>> trees([net], {})
    [(((0, 0), (9, 0)), ((4, 0), (4, 5), (9, 5)))]
    """
    nets = list(nets)
    # A second sweep uses the space that the first one freed.
    for _ in range(2):
        for number, net in enumerate(nets):
            others = (n.paths for n in nets if n is not net and n.room == net.room)
            around = _Around(
                pieces=tuple(piece for paths in others for piece in _pieces(paths)),
                boxes=tuple(rect for rect, room in boxes.values() if room == net.room),
                walls=boxes[net.room][0] if net.room is not None else None,
            )
            nets[number] = replace(net, paths=_tree(net, around))
    return [net.paths for net in nets]


def dots(lines: Iterable[Path]) -> tuple[Point, ...]:
    """The points where three or more stretches of one net meet, top left first.

    Examples
    --------
    >>> dots((((0, 0), (9, 0)), ((4, 0), (4, 5), (9, 5))))
    ((4, 0),)
    """
    meeting = Counter(point for piece in _cut(_pieces(lines)) for point in piece)
    return tuple(sorted(point for point, count in meeting.items() if count >= _DOT))


def straight(path: Iterable[Point]) -> Path:
    """The path without repeated points and points in the middle of a straight stretch.

    Examples
    --------
    >>> straight([(0, 0), (4, 0), (4, 0), (9, 0), (9, 5)])
    ((0, 0), (9, 0), (9, 5))
    """
    kept: list[Point] = []
    for point in path:
        if kept and kept[-1] == point:
            continue
        if len(kept) > 1 and _in_line(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _in_line(a: Point, b: Point, c: Point) -> bool:
    return a[0] == b[0] == c[0] or a[1] == b[1] == c[1]


def _pieces(paths: Iterable[Path]) -> list[_Piece]:
    """All straight stretches, each from left to right or downwards, without repeats."""
    found = {(min(pair), max(pair)) for path in paths for pair in pairwise(path)}
    return sorted(found)


def _cut(pieces: Sequence[_Piece]) -> list[_Piece]:
    """The same stretches, cut wherever two of them meet; overlaps are there once."""
    corners = {point for piece in pieces for point in piece}
    flat = [p for p in pieces if p[0][1] == p[1][1]]
    upright = [p for p in pieces if p[0][1] != p[1][1]]
    corners.update(spot for h in flat for v in upright if (spot := _crossing(h, v)))
    points = sorted(corners)
    found: set[_Piece] = set()
    for (x1, y1), (x2, y2) in pieces:
        on = [p for p in points if x1 <= p[0] <= x2 and y1 <= p[1] <= y2]
        found.update(pairwise(on))
    return sorted(found)


def _crossing(flat: _Piece, upright: _Piece) -> Point | None:
    """Where a flat and an upright stretch meet or cross, ends included."""
    x, y = upright[0][0], flat[0][1]
    if flat[0][0] <= x <= flat[1][0] and upright[0][1] <= y <= upright[1][1]:
        return (x, y)
    return None


def _tree(net: Net, around: _Around) -> tuple[Path, ...]:
    pieces = _pieces(net.paths)
    offers = (*((piece,) for piece in _longer(pieces)), *_corners_cut(net.paths))
    longer = [
        piece for offer in offers if all(_is_free(p, around) for p in offer) for piece in offer
    ]
    mesh: _Mesh = defaultdict(dict)
    for a, b in _cut(pieces + longer):
        length = b[0] - a[0] + b[1] - a[1]
        mesh[a][b] = mesh[b][a] = length + _CROSSING * _crossings((a, b), around.pieces)
    tree: dict[Point, None] = {net.source: None}
    lines: list[Path] = []
    waiting = list(dict.fromkeys(net.ends))
    while waiting:
        branch = _nearest(mesh, tree, waiting)
        waiting.remove(branch[-1])
        lines.append(straight(branch))
        tree.update(dict.fromkeys(branch))
    return tuple(lines)


def _longer(pieces: Sequence[_Piece]) -> Iterator[_Piece]:
    """Every stretch carried on, at either end, to the next stretch of the same net."""
    for a, b in pieces:
        along = 0 if a[1] == b[1] else 1
        across = 1 - along
        stops = [
            p[0][along]
            for p in pieces
            if p[0][along] == p[1][along] and p[0][across] <= a[across] <= p[1][across]
        ]
        before = max((s for s in stops if s < a[along]), default=None)
        after = min((s for s in stops if s > b[along]), default=None)
        if before is not None:
            yield ((before, a[1]) if along == 0 else (a[0], before)), a
        if after is not None:
            yield b, ((after, b[1]) if along == 0 else (b[0], after))


def _corners_cut(paths: Iterable[Path]) -> Iterator[tuple[_Piece, _Piece]]:
    """For every jog the two stretches that meet at one corner instead.

    a --- b        e         a --- b --- * --- e
          |        |    to
          c ------ d              (* is new; here d lies below *)
    """
    for path in paths:
        for a, b, c, d, e in zip(path, path[1:], path[2:], path[3:], path[4:], strict=False):
            corner = (d[0], a[1]) if a[1] == b[1] else (a[0], d[1])
            if _onward(a, b, corner) and _onward(e, d, corner) and corner not in (b, c, d):
                yield (min(b, corner), max(b, corner)), (min(corner, d), max(corner, d))


def _onward(a: Point, b: Point, c: Point) -> bool:
    """Whether c lies on the way from a through b, at b or beyond."""
    return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) >= 0


def _is_free(piece: _Piece, around: _Around) -> bool:
    """Whether a new stretch keeps clear of all boxes and of the lines of other nets."""
    if any(_meet(piece, rect, _CLEAR_OF_BOXES) for rect in around.boxes):
        return False
    if around.walls and not _within(piece, around.walls, _CLEAR_OF_BOXES):
        return False
    return all(
        not _meet(piece, (*other[0], *other[1]), _CLEAR_OF_WIRES)
        or _cross_well(piece, other, _CLEAR_OF_WIRES)
        for other in around.pieces
    )


def _meet(piece: _Piece, rect: Rect, gap: float) -> bool:
    (x1, y1), (x2, y2) = piece
    left, top, right, bottom = rect
    return x1 < right + gap and left - gap < x2 and y1 < bottom + gap and top - gap < y2


def _within(piece: _Piece, rect: Rect, gap: float) -> bool:
    (x1, y1), (x2, y2) = piece
    left, top, right, bottom = rect
    return left + gap <= x1 and x2 <= right - gap and top + gap <= y1 and y2 <= bottom - gap


def _cross_well(a: _Piece, b: _Piece, gap: float) -> bool:
    """Whether two stretches cross, and each goes on for a while on both sides."""
    flat, upright = (a, b) if a[0][1] == a[1][1] else (b, a)
    (x1, y), (x2, _) = flat
    (x, y1), (x_end, y2) = upright
    return x == x_end and x1 + gap <= x <= x2 - gap and y1 + gap <= y <= y2 - gap


def _crossings(piece: _Piece, others: Iterable[_Piece]) -> int:
    flat = piece[0][1] == piece[1][1]
    return sum(
        1
        for other in others
        if (other[0][1] != other[1][1]) == flat
        and (_crossing(piece, other) if flat else _crossing(other, piece))
    )


def _nearest(mesh: _Mesh, tree: Iterable[Point], ends: Sequence[Point]) -> list[Point]:
    """The cheapest way from any point of the tree to any of the ends."""
    rank = {end: number for number, end in enumerate(ends)}
    # Price, then the order of the ends, then who came first: never a comparison of ways.
    queue = [(0.0, rank.get(point, len(rank)), n, [point]) for n, point in enumerate(tree)]
    heapq.heapify(queue)
    came = len(queue)
    done: set[tuple[Point, Point | None]] = set()
    while queue:
        cost, _, _, way = heapq.heappop(queue)
        point, before = way[-1], way[-2] if len(way) > 1 else None
        if point in rank:
            return way
        if (point, before) in done:
            continue
        done.add((point, before))
        for after, price in mesh.get(point, {}).items():
            if after == before:
                continue
            bend = before is not None and not _in_line(before, point, after)
            after_cost = cost + price + (_BEND if bend else 0.0)
            came += 1
            heapq.heappush(queue, (after_cost, rank.get(after, len(rank)), came, [*way, after]))
    message = f"no path leads on from {tree} to {ends}"
    raise AssertionError(message)
