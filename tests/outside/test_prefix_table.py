"""Prefix adders of the catalogue: nodes, depth, area, fan-out; and every adder proved.

Outside: `data/prefix_table.json`, computed from the networks' definitions by a script of its
own; the formulas of Sklansky 1960, Kogge and Stone 1973, Brent and Kung 1982 (from memory, high
confidence) and of Ladner and Fischer, J. ACM 27(4), 1980 (from memory, medium confidence); M.
Snir's bound, 1986 (from memory); a published count of 57, 120, 247 Brent-Kung cells for 32, 64,
128 bits (README of the repository EsaLongs/EESM6000C_CL, Lab_3/Brent_Kung_Adder).
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from edgewise import catalogue
from edgewise.catalogue import prefix
from edgewise.catalogue.prefix import Level
from edgewise.engines.sat import bounded, equivalence
from edgewise.study.cost import gate_counts

TABLE: dict[str, dict[str, dict[str, Any]]] = json.loads(
    (Path(__file__).parent / "data" / "prefix_table.json").read_text("utf-8")
)
ROWS = {
    "serial": prefix.serial,
    "sklansky": prefix.sklansky,
    "kogge": prefix.kogge_stone,
    "brent": prefix.brent_kung,
    "hancarlson": prefix.han_carlson,
}
NAMES = {
    "sklansky": "sklansky-adder",
    "kogge": "kogge-stone-adder",
    "brent": "brent-kung-adder",
    "hancarlson": "han-carlson-adder",
}
ADDERS = [
    "ripple-carry-adder-without-carry-in",
    "carry-lookahead-adder-without-carry-in",
    "carry-skip-adder",
    "carry-select-adder",
    "carry-increment-adder",
    *prefix.NETWORKS,
]


def shape(levels: list[Level]) -> tuple[int, int, int, int]:
    """Nodes, critical path, nodes that reach column 0, and the largest number of nodes fed."""
    at: Counter[int] = Counter()
    low: dict[int, int] = {}
    last = 0
    fed: Counter[tuple[int, int]] = Counter()
    times: Counter[int] = Counter()  # how often a column was written: which of its values is read
    for level in levels:
        before, reach, written = Counter(at), dict(low), Counter(times)
        for i, j in level:
            at[i] = 1 + max(before[i], before[j])
            low[i] = reach.get(j, j)
            last += low[i] == 0
            times[i] += 1
            # A column's own next node is read along the column, not fed to the side.
            fed[j, written[j]] += 1
    return sum(map(len, levels)), max(at.values()), last, max(fed.values())


@pytest.mark.parametrize("network", ROWS)
@pytest.mark.parametrize("n", [8, 16, 32, 64, 128])
def test_nodes_and_depth_of_the_table(network: str, n: int) -> None:
    row = TABLE[network][str(n)]
    nodes, depth, last, _ = shape(ROWS[network](n))
    assert (nodes, depth, nodes - last, last) == tuple(
        row[key] for key in ("nodes", "depth", "black", "gray")
    )


@pytest.mark.parametrize("network", NAMES)
@pytest.mark.parametrize("n", [8, 16, 32, 64, 128])
def test_unit_gate_area_and_delay_of_the_table(network: str, n: int) -> None:
    """Area as tabulated; delay 2 + 2 depth + 2: half adder, nodes, XOR of the sum."""
    row = TABLE[network][str(n)]
    netlist = catalogue.design(NAMES[network], n=n).netlist
    assert gate_counts.unit_area(netlist) == row["unit_gate_area_no_cin"]
    delay = 2 + 2 * row["depth"] + 2
    if network == "sklansky":
        assert gate_counts.unit_delay(netlist) == delay
    else:
        # The exact path is a little shorter than the rule: the deepest carry is the carry-out,
        # behind which no XOR gate stands, or has g of place 0 at its root, which comes at 1.
        assert delay - 2 <= gate_counts.unit_delay(netlist) <= delay


@pytest.mark.parametrize(("n", "cells"), [(32, 57), (64, 120), (128, 247)])
def test_brent_kung_cells_as_published(n: int, cells: int) -> None:
    assert shape(prefix.brent_kung(n))[0] == cells


@pytest.mark.parametrize("log", range(2, 9))
def test_brent_kung_rows_and_path(log: int) -> None:
    """Rows drawn 2 log2 n - 1 (Harris), critical path 2 log2 n - 2 (Parhami): both from memory."""
    levels = prefix.brent_kung(1 << log)
    assert len(levels) == 2 * log - 1
    assert shape(levels)[1] == 2 * log - 2


@pytest.mark.parametrize("log", range(1, 9))
@pytest.mark.parametrize("k", [0, 1, 2, 3])
def test_ladner_fischer(log: int, k: int) -> None:
    """Size 2(1 + 2**-k) n - F(5 + m - k) + 1 - k, depth m + k at most, for n = 2**m, k <= m."""
    if k > log:
        return
    n = 1 << log
    nodes, depth, *_ = shape(prefix.ladner_fischer(n, k))
    assert nodes == 2 * n + (2 * n >> k) - fibonacci(5 + log - k) + 1 - k
    assert depth <= log + k
    assert depth == log or k


def fibonacci(number: int) -> int:
    a, b = 0, 1
    for _ in range(number):
        a, b = b, a + b
    return a


@pytest.mark.parametrize("network", [*ROWS.values(), prefix.ladner_fischer])
@pytest.mark.parametrize("n", [2, 3, 5, 6, 11, 16, 23, 33, 100])
def test_snirs_bound_and_the_least_depth(network: Callable[[int], list[Level]], n: int) -> None:
    """Size + depth >= 2n - 2 for any prefix circuit (Snir); depth >= log2 n."""
    nodes, depth, last, _ = shape(network(n))
    assert nodes + depth >= 2 * n - 2
    assert 2**depth >= n
    assert last == n - 1  # every column reaches down to the first


@pytest.mark.parametrize("network", ROWS)
@pytest.mark.parametrize("n", [8, 16, 32, 64, 128])
def test_fan_out_of_the_table(network: str, n: int) -> None:
    """Sklansky n/2; log2 n where the first column feeds a node of every level."""
    assert shape(ROWS[network](n))[3] == TABLE[network][str(n)]["max_internal_fanout"]


@pytest.mark.parametrize("name", ADDERS)
def test_sums_are_proved_at_64_bits(name: str) -> None:
    design = catalogue.design(name, n=64)
    assert bounded.computes(design).outcome == "proved"
    ripple = catalogue.design("ripple-carry-adder-without-carry-in", n=64)
    assert equivalence.same(design, ripple).outcome == "proved"


@pytest.mark.parametrize("name", ADDERS[2:])
def test_sums_with_a_carry_in_are_proved_at_64_bits(name: str) -> None:
    design = catalogue.design(name, n=64, c=1)
    assert bounded.computes(design).outcome == "proved"
    ripple = catalogue.design("ripple-carry-adder", n=64)
    assert equivalence.same(design, ripple).outcome == "proved"


@pytest.mark.parametrize(
    "name",
    ["serial-adder", "serial-adder-parallel-load", "serial-subtractor", "serial-adder-subtractor"],
)
def test_serial_sums_are_proved_at_64_bits(name: str) -> None:
    assert bounded.computes(catalogue.design(name, n=64)).outcome == "proved"


@pytest.mark.parametrize("d", [1, 2, 8, 64])
def test_digit_serial_sums_are_proved_at_64_bits(d: int) -> None:
    assert bounded.computes(catalogue.design("digit-serial-adder", n=64, d=d)).outcome == "proved"


@pytest.mark.parametrize("n", [1, 2, 6, 7, 19, 24, 48])
@pytest.mark.parametrize("name", ADDERS[2:])
def test_any_width_is_proved(name: str, n: int) -> None:
    assert bounded.computes(catalogue.design(name, n=n)).outcome == "proved"
