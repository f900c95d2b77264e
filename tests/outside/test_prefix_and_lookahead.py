"""Fast adders of the literature, each proved equal to the ripple-carry adder.

Outside: J. Sklansky, IRE Trans. EC-9, 1960; P. Kogge, H. Stone, IEEE Trans. Computers
C-22(8), 1973; R. Brent, H. T. Kung, IEEE Trans. Computers C-31(3), 1982 (networks, nodes
and depth; from memory, high confidence). The networks are built here from their
definitions; nodes and the critical path are the published formulas.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, TypeAlias

import pytest

from edgewise import catalogue
from edgewise.circuit.builder import Builder
from edgewise.design import Design, Operand
from edgewise.engines.sat import bounded, equivalence

Level: TypeAlias = list[tuple[int, int]]
"""Nodes that work side by side: the column of each, and the column that it takes in."""


def sklansky(n: int) -> Iterator[Level]:
    for d in powers(n):
        yield [(i, i // d * d - 1) for i in range(n) if i & d]


def kogge_stone(n: int) -> Iterator[Level]:
    for d in powers(n):
        yield [(i, i - d) for i in range(d, n)]


def brent_kung(n: int) -> Iterator[Level]:
    for d in powers(n):
        yield [(i, i - d) for i in range(2 * d - 1, n, 2 * d)]
    for d in reversed(powers(n // 2)):
        yield [(i, i - d) for i in range(3 * d - 1, n, 2 * d)]


def powers(n: int) -> list[int]:
    """1, 2, 4, … below n, a power of 2."""
    return [1 << level for level in range(n.bit_length() - 1)]


NETWORKS: Final[dict[str, Callable[[int], Iterator[Level]]]] = {
    "Sklansky": sklansky,
    "Kogge-Stone": kogge_stone,
    "Brent-Kung": brent_kung,
}


def adder(n: int, network: Callable[[int], Iterator[Level]]) -> Design:
    """Half adders give g and p of each column; a node makes (g, p) of two neighbouring spans."""
    b = Builder("prefix adder")
    one, other = b.input("a", n), b.input("b", n)
    halves = [b.part(f"HA({i})", "half-adder", {"a": one[i], "b": other[i]}) for i in range(n)]
    g = [half["carry-out"] for half in halves]
    p = [half["sum"] for half in halves]
    for number, level in enumerate(network(n)):
        before_g, before_p = list(g), list(p)
        for i, j in level:
            name = f"{number},{i}"
            passed = b.part(f"pass {name}", "and", {"in": (*before_p[i], *before_g[j])})["out"]
            g[i] = b.part(f"g {name}", "or", {"in": (*before_g[i], *passed)})["out"]
            p[i] = b.part(f"p {name}", "and", {"in": (*before_p[i], *before_p[j])})["out"]
    bits = list(halves[0]["sum"])
    for i in range(1, n):
        bits += b.part(f"S({i})", "xor", {"in": (*halves[i]["sum"], *g[i - 1])})["out"]
    b.output("sum", tuple(bits))
    b.output("carry", g[n - 1])
    return Design("prefix-adder", b.circuit(), {}, (Operand("a", n), Operand("b", n))).check()


@pytest.mark.parametrize("n", [4, 8, 16, 32, 64])
@pytest.mark.parametrize(
    ("name", "nodes", "path"),
    [
        ("Sklansky", lambda n, log: n * log // 2, lambda log: log),
        ("Kogge-Stone", lambda n, log: n * log - n + 1, lambda log: log),
        ("Brent-Kung", lambda n, log: 2 * n - 2 - log, lambda log: 2 * log - 2),
    ],
)
def test_nodes_and_depth(
    name: str, n: int, nodes: Callable[[int, int], int], path: Callable[[int], int]
) -> None:
    levels = list(NETWORKS[name](n))
    log = n.bit_length() - 1
    assert sum(map(len, levels)) == nodes(n, log)
    depth = [0] * n
    for level in levels:
        before = list(depth)
        for i, j in level:
            depth[i] = 1 + max(before[i], before[j])
    assert max(depth) == path(log)


@pytest.mark.parametrize("n", [4, 16, 64])
@pytest.mark.parametrize("name", NETWORKS)
def test_prefix_adder_equals_ripple(name: str, n: int) -> None:
    ripple = catalogue.design("ripple-carry-adder-without-carry-in", n=n)
    found = equivalence.same(adder(n, NETWORKS[name]), ripple)
    assert found.outcome == "proved"
    assert found.seconds < 5  # 0.1 s on a quiet machine


def test_a_network_with_one_wrong_node() -> None:
    """Column 3 takes in column 0 where it should take in column 1: place 2 is passed over."""

    def wrong(n: int) -> Iterator[Level]:
        for level in sklansky(n):
            yield [(i, 0 if (i, j) == (3, 1) else j) for i, j in level]

    ripple = catalogue.design("ripple-carry-adder-without-carry-in", n=8)
    shown = equivalence.same(adder(8, wrong), ripple).counterexample
    assert shown is not None
    assert shown.other is not None
    assert shown.smallest
    sums = [trace.word("sum", 0).value for trace in (shown.trace, shown.other)]
    assert sums[1] == shown.operands["a"] + shown.operands["b"] != sums[0]


@pytest.mark.parametrize("n", [4, 8, 16, 32, 64])
@pytest.mark.parametrize("tail", ["", "-without-carry-in"])
def test_lookahead_adder_equals_ripple(n: int, tail: str) -> None:
    lookahead = catalogue.design(f"carry-lookahead-adder{tail}", n=n)
    assert bounded.computes(lookahead).outcome == "proved"
    ripple = catalogue.design(f"ripple-carry-adder{tail}", n=n)
    assert equivalence.same(lookahead, ripple).outcome == "proved"
