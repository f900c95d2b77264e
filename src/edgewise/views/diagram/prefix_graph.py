"""Prefix graph: adders whose carries come from a network of nodes that each join two spans.

It is found in the netlist, by what its parts compute: a node's ``g or (p and g-below)`` and, unless
its span reaches down to column 0, its ``p and p-below``. What else there is gives the columns their
g and p at the top, or makes sums of the carries at the foot; a span may pass a buffer in a row. A
circuit with anything more is none.

Rows are levels: how many nodes a signal passes, at most. A node that could stand higher stands as
late as it may where that costs no crossing and makes rows of equal reach, as in the second half of
a Brent-Kung network.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from edgewise.circuit import parts
from edgewise.circuit.model import Circuit, Part, Signal, Tie
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.prefix_operator import Operator, operator

Pair: TypeAlias = tuple[Origin, Origin | None]
"""The g and the p of a span; no p where nothing asks for it."""


@dataclass(frozen=True, slots=True)
class Node:
    """A part that joins the span above `below` with that one, or a buffer, which joins none.

    Parameters
    ----------
    part : Part
        Of a buffer, that of g.
    out, own : Pair
        What it gives and what it takes in.
    below : Pair, optional
    column, reach : int
        The highest column of its span, and that of the span below.
    level : int
        From 1.
    """

    part: Part
    out: Pair
    own: Pair
    below: Pair | None
    column: int = 0
    reach: int = 0
    level: int = 0

    @property
    def black(self) -> bool:
        """Whether it gives a p, too."""
        return self.out[1] is not None


@dataclass(frozen=True, slots=True)
class Sum:
    """A gate at the foot: of a column's p and the carry from below."""

    part: Part
    column: int
    p: Origin
    carry: Origin


@dataclass(frozen=True, slots=True)
class PrefixGraph:
    """A circuit as a prefix graph.

    Parameters
    ----------
    columns : tuple of Pair
        The g and p of each column, that of the LSB first.
    leaves : tuple of (Part or None)
        What gives them; None: they are inputs of the circuit.
    nodes : tuple of Node
        Level by level, each from the LSB on; the last is in the lowest level.
    sums : tuple of Sum
    """

    columns: tuple[Pair, ...]
    leaves: tuple[Part | None, ...]
    nodes: tuple[Node, ...]
    sums: tuple[Sum, ...]

    def last(self, column: int) -> Origin:
        """The g that comes to the foot of a column."""
        own = [node for node in self.nodes if node.column == column]
        return own[-1].out[0] if own else self.columns[column][0]


class _NoGraph(Exception):
    """There is something in the circuit that a prefix graph does not have."""


def find(circuit: Circuit) -> PrefixGraph | None:
    """The prefix graph that a circuit is, or nothing.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> graph = find(catalogue.design("kogge-stone-adder", n=8).circuit)
    >>> len(graph.nodes), graph.nodes[-1].level, sum(node.black for node in graph.nodes)
    (17, 3, 10)
    >>> find(catalogue.design("ripple-carry-adder", n=8).circuit) is None
    True
    """
    operators = {part.name: found for part in circuit.parts if (found := operator(part.kind))}
    if not operators:
        return None
    try:
        return _Search(circuit, operators).graph()
    except _NoGraph:
        return None


@dataclass(slots=True)
class _Search:
    circuit: Circuit
    operators: Mapping[str, Operator]
    sources: Sources = field(init=False)
    nodes: dict[Origin, Node] = field(default_factory=dict)
    """By the g that each gives."""
    buffers: set[str] = field(default_factory=set)
    p_of: dict[Origin, Origin] = field(default_factory=dict)
    """Of a g, its p."""
    spans: dict[Origin, tuple[Origin, ...]] = field(default_factory=dict)
    """Of a g, the g of the columns that it spans, MSB first."""

    def graph(self) -> PrefixGraph:
        self.sources = Sources(self.circuit)
        self._set_nodes()
        self._set_buffers()
        heads = max((self._span(g) for g in self.nodes), key=len)[::-1]
        place = {g: column for column, g in enumerate(heads)}
        nodes = [self._placed(node, place) for node in self.nodes.values()]
        columns = tuple((g, self.p_of.get(g)) for g in heads)
        leaves = tuple(map(self._leaf, columns))
        made = PrefixGraph(columns, leaves, _level(nodes), ())
        self._check_columns(made)
        sums = self._sums(made, {part.name for part in leaves if part})
        return replace(made, sums=sums)

    # ------------------------------------------------------------ nodes

    def _at(self, part: Part, port: str) -> Origin:
        """What drives an input of one bit."""
        origin = self.sources.origin(part.signal(port)[0])
        if isinstance(origin, Tie):
            raise _NoGraph
        return origin

    def _set_nodes(self) -> None:
        parts = [part for part in self.circuit.parts if part.name in self.operators]
        # A node with propagate tells which p belongs to which g; the others are told by them.
        for part in sorted(parts, key=lambda part: not self.operators[part.name].propagate):
            ports = self.operators[part.name]
            g = self._at(part, ports.g)
            p, below = self._own_p(part, ports, g)
            out = Origin(part.name, ports.generate)
            lower = (below, self._at(part, ports.p_below) if ports.p_below else None)
            passed = Origin(part.name, ports.propagate) if ports.propagate else None
            for one, other in ((g, p), lower, (out, passed)):
                if other is not None and self.p_of.setdefault(one, other) != other:
                    raise _NoGraph
            self.nodes[out] = Node(part, (out, passed), (g, p), lower)

    def _set_buffers(self) -> None:
        """Buffers of g, each with that of its p beside it, in the columns that they stand in."""
        found = {Origin(p.name, "out"): p for p in self.circuit.parts if _passes(p)}

        def depth(out: Origin) -> int:
            return 1 + depth(self._at(found[out], "in")) if out in found else 0

        # Of several in a row the last first: what it takes in belongs together, too.
        for out in sorted(found, key=depth, reverse=True):
            part = found[out]
            if out in self.p_of.values():
                continue
            g, p = self._at(part, "in"), self.p_of.get(out)
            own_p = None
            if p is not None:
                other = found.get(p)
                if other is None:
                    raise _NoGraph
                own_p = self._at(other, "in")
                if self.p_of.setdefault(g, own_p) != own_p:
                    raise _NoGraph
            self.nodes[out] = Node(part, (out, p), (g, own_p), None)
        self.buffers = {part.name for part in found.values()}

    def _own_p(self, part: Part, ports: Operator, g: Origin) -> tuple[Origin, Origin]:
        """The own p, and the g below."""
        taken = [port.name for port in part.kind.ins if port.name not in (ports.g, ports.p_below)]
        if len(ports.p) == 1:
            taken.sort(key=ports.p[0].__ne__)
        one, other = (self._at(part, port) for port in taken)
        pair = self.p_of.get(g)
        if len(ports.p) == 1 or pair == one:
            return one, other
        # A g and its p come from one part, and never from ports of one name.
        of = self._unbuffered(g)
        likely = [p for p in (one, other) if self._beside(self._unbuffered(p), of)]
        if pair == other or likely == [other]:
            return other, one
        if likely == [one]:
            return one, other
        raise _NoGraph

    def _unbuffered(self, origin: Origin) -> Origin:
        """What drives a bit, buffers passed over."""
        part = self.circuit.part(origin.owner) if origin.owner else None
        if part is None or not _passes(part):
            return origin
        return self._unbuffered(self._at(part, "in"))

    @staticmethod
    def _beside(p: Origin, g: Origin) -> bool:
        return p.owner == g.owner and p.port != g.port

    def _span(self, g: Origin) -> tuple[Origin, ...]:
        if g not in self.spans:
            node = self.nodes.get(g)
            known: tuple[Origin, ...] = (g,)
            if node is not None:
                below = self._span(node.below[0]) if node.below else ()
                known = (*self._span(node.own[0]), *below)
            self.spans[g] = known
        return self.spans[g]

    def _placed(self, node: Node, place: Mapping[Origin, int]) -> Node:
        """The node in its column, if its span is one of columns side by side."""
        span = [place.get(g, -1) for g in self._span(node.out[0])]
        low = len(span) - 1
        if span != list(range(span[0], span[0] - low - 1, -1)) or span[-1] < 0:
            raise _NoGraph
        if node.below is None:
            return replace(node, column=span[0], reach=span[0])
        if (span[-1] > 0) != node.black:
            raise _NoGraph
        return replace(node, column=span[0], reach=place[self._span(node.below[0])[0]])

    # ------------------------------------------------------------ what is above and below

    def _leaf(self, pair: Pair) -> Part | None:
        """What gives a column its g and p: an input, or a part that inputs feed."""
        owners = {origin.owner for origin in pair if origin is not None}
        if owners == {""}:
            return None
        part = self.circuit.part(owners.pop())
        if owners or part is None or any(port.width != 1 for port in part.kind.ports):
            raise _NoGraph
        for port in part.kind.ins:
            origin = self.sources.origin(part.signal(port.name)[0])
            if isinstance(origin, Tie) or origin.owner:
                raise _NoGraph
        return part

    def _check_columns(self, graph: PrefixGraph) -> None:
        """Whether each node takes in what its columns hold just above it."""
        holds: dict[int, Origin] = {column: g for column, (g, _) in enumerate(graph.columns)}
        rows: defaultdict[int, list[Node]] = defaultdict(list)
        for node in graph.nodes:
            rows[node.level].append(node)
        for level in sorted(rows):
            before = dict(holds)
            for node in rows[level]:
                own, below = before[node.column], before[node.reach]
                if own != node.own[0] or holds[node.column] != own:
                    raise _NoGraph
                if node.below is not None and below != node.below[0]:
                    raise _NoGraph
                holds[node.column] = node.out[0]

    def _sums(self, graph: PrefixGraph, leaves: set[str]) -> tuple[Sum, ...]:
        """The gates at the foot; all other parts must be nodes or leaves."""
        ps = {p: column for column, (g, _) in enumerate(graph.columns) if (p := self._any_p(g))}
        ends = {graph.last(column): column for column in range(len(graph.columns))}
        sums = []
        for part in self.circuit.parts:
            if part.name in self.operators or part.name in leaves | self.buffers:
                continue
            function = part.kind.function
            if function is None or function.plain != "xor":
                raise _NoGraph
            taken = [self.sources.origin(bit) for bit in _inputs(part)]
            ones = [one for one in taken if isinstance(one, Origin)]
            p = next((one for one in ones if one in ps), None)
            carry = next((one for one in ones if one in ends and one != p), None)
            if len(taken) != 2 or p is None or carry is None or ends[carry] != ps[p] - 1:
                raise _NoGraph
            sums.append(Sum(part, ps[p], p, carry))
        shown = {*ps, *ends, *(Origin(one.part.name, "out") for one in sums)}
        shown -= {one.carry for one in sums}
        for output in self.circuit.outputs:
            if any(self.sources.origin(bit) not in shown for bit in output.signal):
                raise _NoGraph
        return tuple(sums)

    def _any_p(self, g: Origin) -> Origin | None:
        """The p of a column; of one that no node asks for, the output of equal name."""
        known = self.p_of.get(g)
        if known is None and g.owner:
            ports = {p.port for one, p in self.p_of.items() if one.owner and one.port == g.port}
            known = Origin(g.owner, ports.pop()) if len(ports) == 1 else None
        return known


def _inputs(part: Part) -> Signal:
    return tuple(bit for port in part.kind.ins for bit in part.signal(port.name))


def _level(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """The nodes in their levels, each from the LSB on."""
    by_g = {node.out[0]: node for node in nodes}
    levels: dict[Origin, int] = {}

    def early(g: Origin) -> int:
        if g not in by_g:
            return 0
        if g not in levels:
            node = by_g[g]
            levels[g] = 1 + max(early(pair[0]) for pair in (node.own, node.below) if pair)
        return levels[g]

    first = {node.out[0]: early(node.out[0]) for node in nodes}
    late = dict(first)
    depth = max(first.values())
    after: defaultdict[Origin, list[Origin]] = defaultdict(list)
    for node in nodes:
        after[node.own[0]].append(node.out[0])
        if node.below is not None:
            after[node.below[0]].append(node.out[0])
    for node in sorted(nodes, key=lambda node: -first[node.out[0]]):
        # What joins a narrow span to a wide one is of the second half.
        if node.column - node.reach < node.reach + 1 and not node.black:
            g = node.out[0]
            late[g] = min((late[other] for other in after[g]), default=depth + 1) - 1
    chosen = min((first, late), key=lambda level: _price(nodes, level))
    placed = (replace(node, level=chosen[node.out[0]]) for node in nodes)
    return tuple(sorted(placed, key=lambda node: (node.level, node.column)))


def _price(nodes: Sequence[Node], level: Mapping[Origin, int]) -> tuple[int, int]:
    """How many columns are crossed, and how many different distances there are in all rows."""
    runs: dict[tuple[int, Origin], int] = {}
    for node in nodes:
        if node.below is None:
            continue
        run = level[node.out[0]], node.below[0]
        runs[run] = max(runs.get(run, 0), node.column - node.reach - 1)
    reaches = {(level[node.out[0]], node.column - node.reach) for node in nodes if node.below}
    return sum(runs.values()), len(reaches)


def _passes(part: Part) -> bool:
    """Whether a part gives what it is given."""
    known = parts.registry().get(part.kind.name)
    return known is not None and known.function is not None and known.function.truth == "in"
