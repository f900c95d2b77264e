"""Prefix adders: carries from a network of nodes that each join two neighbouring spans.

A span of places generates a carry (g) or propagates one (p). A node joins a span with the span
below it: ``g = g_high or (p_high and g_low)``, ``p = p_high and p_low``. A network is a list of
levels, a level a list of (column, column below that it takes in); after the last level every
column's span reaches down to column 0 and its g is the carry out of that column.

Each network is defined for a power of 2 by its author. For any other n it is that of the next
power of 2 with the columns from n on left out: a node never takes in a column above its own, so
what is left is whole. Ladner and Fischer define theirs for any n.

With a carry-in, the carry-in is one more column below the others.

References
----------
J. Sklansky, IRE Trans. EC-9, 1960; P. Kogge, H. Stone, IEEE Trans. Computers C-22(8), 1973;
R. Ladner, M. Fischer, J. ACM 27(4), 1980; R. Brent, H. T. Kung, IEEE Trans. Computers C-31(3),
1982; T. Han, D. Carlson, 8th IEEE Symp. Computer Arithmetic, 1987; B. Parhami, *Computer
Arithmetic*, sec. 6.4 and 6.5 (all from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache, partial
from typing import Final, TypeAlias

from edgewise.blueprint import Blueprint
from edgewise.catalogue.sums import CARRY_IN, of_sum
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Kind, Signal
from edgewise.circuit.parts import one_bit
from edgewise.design import Design
from edgewise.formula import Number
from edgewise.parameter import Parameter

Level: TypeAlias = list[tuple[int, int]]
"""Nodes side by side: the column of each, and the column below that it takes in."""


def serial(n: int) -> list[Level]:
    """One node after the other: the ripple of carries, as a network.

    Examples
    --------
    >>> serial(4)
    [[(1, 0)], [(2, 1)], [(3, 2)]]
    """
    return [[(i, i - 1)] for i in range(1, n)]


def sklansky(n: int) -> list[Level]:
    """Each block of 1, 2, 4, … columns takes in the whole block below it.

    Examples
    --------
    >>> sklansky(4)
    [[(1, 0), (3, 2)], [(2, 1), (3, 1)]]
    """
    return [[(i, i // d * d - 1) for i in range(n) if i & d] for d in _powers(n)]


def kogge_stone(n: int) -> list[Level]:
    """Every column takes in the one 1, 2, 4, … places below.

    Examples
    --------
    >>> kogge_stone(4)
    [[(1, 0), (2, 1), (3, 2)], [(2, 0), (3, 1)]]
    """
    return [[(i, i - d) for i in range(d, n)] for d in _powers(n)]


def brent_kung(n: int) -> list[Level]:
    """A tree of pairs up, and a tree back down to the columns between.

    Examples
    --------
    >>> brent_kung(4)
    [[(1, 0), (3, 2)], [(3, 1)], [(2, 1)]]
    """
    up = [[(i, i - d) for i in range(2 * d - 1, n, 2 * d)] for d in _powers(n)]
    down = [[(i, i - d) for i in range(3 * d - 1, n, 2 * d)] for d in reversed(_powers(n))]
    return [level for level in (*up, *down) if level]


def han_carlson(n: int) -> list[Level]:
    """Pairs first, Kogge-Stone on the odd columns, the even ones last.

    Examples
    --------
    >>> han_carlson(5)
    [[(1, 0), (3, 2)], [(3, 1)], [(2, 1), (4, 3)]]
    """
    pairs = [(i, i - 1) for i in range(1, n, 2)]
    odd = [[(i, i - d) for i in range(d + 1, n, 2)] for d in _powers(n)[1:]]
    even = [(i, i - 1) for i in range(2, n, 2)]
    return [level for level in (pairs, *odd, even) if level]


def ladner_fischer(n: int, k: int = 1) -> list[Level]:
    """The network P_k: up to `k` levels more than the least, for fewer nodes.

    P_0 of n columns is P_1 of the lower half, P_0 of the upper, and the last column of the
    lower taken in by all of the upper. P_k for k > 0 joins columns in pairs, applies
    P_(k-1) to the pairs, and takes what stands below into the columns between.

    Examples
    --------
    >>> ladner_fischer(4, 0)
    [[(1, 0), (3, 2)], [(2, 1), (3, 1)]]
    >>> ladner_fischer(4, 1)
    [[(1, 0), (3, 2)], [(3, 1), (2, 1)]]
    """
    at = [0] * n
    levels: list[Level] = []
    for column, below in _ladner_fischer(tuple(range(n)), k):
        level = max(at[column], at[below])
        at[column] = level + 1
        levels.extend([] for _ in range(level + 1 - len(levels)))
        levels[level].append((column, below))
    return levels


def _ladner_fischer(columns: tuple[int, ...], k: int) -> Iterator[tuple[int, int]]:
    n = len(columns)
    if n < 2:
        return
    if k == 0:
        low, high = columns[: (n + 1) // 2], columns[(n + 1) // 2 :]
        yield from _ladner_fischer(low, 1)
        yield from _ladner_fischer(high, 0)
        yield from ((column, low[-1]) for column in high)
        return
    yield from zip(columns[1::2], columns[::2], strict=False)
    # The second of each pair stands for the pair; a last column without partner for itself.
    upper = (*columns[1::2], *columns[n - n % 2 :])
    yield from _ladner_fischer(upper, k - 1)
    between = columns[2 : n - n % 2 : 2]
    yield from zip(between, columns[1::2], strict=False)


def _powers(n: int) -> list[int]:
    """1, 2, 4, … below n."""
    return [1 << level for level in range((n - 1).bit_length())]


NETWORKS: Final[Mapping[str, tuple[str, Callable[[int], list[Level]], str]]] = {
    "sklansky-adder": (
        "Sklansky adder",
        sklansky,
        "prefix adder of the least depth and few nodes; fan-out of a carry up to n/2",
    ),
    "kogge-stone-adder": (
        "Kogge-Stone adder",
        kogge_stone,
        "prefix adder of the least depth and of small fan-out; most nodes and wires",
    ),
    "brent-kung-adder": (
        "Brent-Kung adder",
        brent_kung,
        "prefix adder of few nodes and small fan-out, at about twice the least depth",
    ),
    "han-carlson-adder": (
        "Han-Carlson adder",
        han_carlson,
        "prefix adder between Kogge-Stone and Brent-Kung: half the nodes, one level more",
    ),
    "ladner-fischer-adder": (
        "Ladner-Fischer adder",
        ladner_fischer,
        "prefix adder with up to k levels more than the least, for fewer nodes",
    ),
}
"""By catalogue name: title, network, and one line about it."""

LADNER_FISCHER: Final = "ladner-fischer-adder"


def blueprint(name: str) -> Blueprint:
    """The blueprint of one of the `NETWORKS`.

    Examples
    --------
    >>> blueprint("brent-kung-adder").design({"n": 16}).circuit.parts[16].name
    'N1(1)'
    """
    title, _, about = NETWORKS[name]
    levels = (Parameter("k", Number(1), Number(0), Number(8)),) * (name == LADNER_FISCHER)
    return Blueprint(
        name,
        title,
        (Parameter("n", Number(8), Number(1), Number(256)), *levels, CARRY_IN),
        partial(_design, name),
        about,
        "Parhami, Computer Arithmetic, sec. 6.4 and 6.5 (prefix networks; from memory)",
    )


def _design(name: str, numbers: Mapping[str, int]) -> Design:
    network = NETWORKS[name][1]
    if name == LADNER_FISCHER:
        network = partial(ladner_fischer, k=numbers["k"])
    circuit = adder(NETWORKS[name][0], numbers["n"], network, carry_in=bool(numbers["c"]))
    return of_sum(name, circuit, numbers)


def adder(
    title: str, n: int, network: Callable[[int], list[Level]], *, carry_in: bool = False
) -> Circuit:
    """A prefix adder of `n` bits over a network.

    Half adders give g and p of each place; the network gives the carries; an XOR gate of p and
    the carry from below gives each bit of the sum.

    Examples
    --------
    >>> [part.name for part in adder("Sklansky adder", 3, sklansky).parts]
    ['HA(0)', 'HA(1)', 'HA(2)', 'N1(1)', 'N2(2)', 'XOR(1)', 'XOR(2)']
    """
    b = Builder(title)
    one, other = b.input("a", n), b.input("b", n)
    comes_in = [b.input("carry_in")] if carry_in else []
    halves = [b.part(f"HA({i})", "half-adder", {"a": one[i], "b": other[i]}) for i in range(n)]
    p = [half["sum"] for half in halves]
    carries = _carries(b, comes_in, [half["carry-out"] for half in halves], p, network)
    below: list[Signal] = [*carries[: n - 1 + carry_in]]
    bits = [*p[0]] if not carry_in else []
    for i, carry in enumerate(below, 1 - carry_in):
        bits += b.part(f"XOR({i})", "xor", {"in": (*carry, *p[i])})["out"]
    b.output("sum", tuple(bits))
    b.output("carry", carries[-1])
    return b.circuit()


def _carries(
    b: Builder,
    comes_in: list[Signal],
    generated: list[Signal],
    passed: list[Signal],
    network: Callable[[int], list[Level]],
) -> list[Signal]:
    """The carry out of each column, the carry-in first if there is one."""
    shift = len(comes_in)
    g, p = [*comes_in, *generated], [*comes_in, *passed]  # nothing asks for p of column 0
    low = list(range(len(g)))  # how far down each column's span reaches
    for number, level in enumerate(network(len(g)), 1):
        before_g, before_p = list(g), list(p)
        reach = list(low)
        for i, j in level:
            last = reach[j] == 0
            ports = {"g": before_g[i], "p": before_p[i], "g-below": before_g[j]}
            if not last:
                ports["p-below"] = before_p[j]
            placed = b.part(f"N{number}({i - shift})", node(last=last), ports)
            g[i], low[i] = placed["generate"], reach[j]
            if not last:
                p[i] = placed["propagate"]
    return g


@lru_cache(maxsize=2)
def node(*, last: bool) -> Kind:
    """A node of a prefix network; the last of a column gives no propagate.

    Ports g, p (its own span), g-below and, unless `last`, p-below; generate and, unless `last`,
    propagate of both spans together.
    """
    b = Builder("prefix node")
    g, p, g_below = b.input("g"), b.input("p"), b.input("g-below")
    p_below = b.input("p-below") if not last else ()
    passed = b.part("G1", "and", {"in": (*g_below, *p)})["out"]
    b.output("generate", b.part("OR", "or", {"in": (*g, *passed)})["out"])
    if not last:
        b.output("propagate", b.part("G2", "and", {"in": (*p_below, *p)})["out"])
    extra = ["p-below"] * (not last)
    ports = (
        *one_bit("in", "g", "p", "g-below", *extra),
        *one_bit("out", "generate", *(["propagate"] * (not last))),
    )
    return Kind("carry-node" if last else "prefix-node", ports, (), b.circuit())
