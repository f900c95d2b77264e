"""Delays worked out in textbooks and data sheets, by their own rules, over our netlists.

Outside: Harris and Harris, *Digital Design and Computer Architecture*, sec. 5.2, examples 5.1 and
5.2 (from memory, high confidence); W. Stallings, *Computer Organization and Architecture*, adder
problem (text seen, answers from memory); Philips and NXP data sheets of the 74HC283 (seen); R.
Zimmermann's table of adder architectures, PhD thesis ETH Zurich 12480 (from memory, medium
confidence; orders of magnitude only); Mano and Ciletti, sec. 5.4, for the flip-flop of six NAND
gates (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise, product
from math import log2, sqrt

import pytest

from edgewise import catalogue
from edgewise.catalogue import lookahead
from edgewise.circuit.builder import Builder
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Signal
from edgewise.circuit.netlist import Netlist
from edgewise.study.cost import arrival, critical_path, gate_counts
from edgewise.study.cost.critical_path import longest
from edgewise.study.cost.models import gates as models
from edgewise.study.cost.models import hc74
from edgewise.study.cost.technology import Technology, Timing


def by_rule(delay: Callable[[str, str], int]) -> Technology:
    """A technology in which a gate takes what a book says of a gate with this name and kind."""

    def timing(netlist: Netlist) -> Timing:
        gates = tuple(delay(gate.name, gate.operator) for gate in netlist.gates)
        return Timing(gates, (), (), (0, 0))

    return replace(models.GATE_COUNT, timing=timing)


def full_adders(carry: int, total: int) -> Callable[[str, str], int]:
    """A full adder takes `carry` to its carry-out and `total` to its sum, from any input."""

    def delay(name: str, _operator: str) -> int:
        place = name.rpartition(".")[2]
        return {"OR": carry, "X2": total}.get(place, 0)

    return delay


def test_ripple_of_harris_and_harris() -> None:
    """32 full adders of 300 ps: 9.6 ns."""
    design = catalogue.design("ripple-carry-adder", n=32)
    assert longest(design.netlist, by_rule(full_adders(300, 300))).length == 9600


def test_lookahead_of_harris_and_harris() -> None:
    """Blocks of 4 bits, gates of 100 ps: 100 + 600 + 7 * 200 + 4 * 300 ps = 3.3 ns.

    The rule counts AND and OR in each of seven blocks. In the lowest the carry is generated, and
    goes into its OR gate straight: the exact path is one gate shorter.
    """
    b = Builder("lookahead adder whose blocks pass the carry on")
    one, other, carry = b.input("a", 32), b.input("b", 32), b.input("carry_in")
    total: list[Signal] = []
    for block in range(8):
        g, p = [], []
        ripple = carry
        for i in range(4 * block, 4 * block + 4):
            both = (one[i], other[i])
            g.append(b.part(f"G({i})", "and", {"in": both})["out"])
            p.append(b.part(f"P({i})", "or", {"in": both})["out"])
            ports = {"a": one[i], "b": other[i], "carry-in": ripple}
            full = b.part(f"FA({i})", "full-adder", ports)
            ripple = full["carry-out"]
            total.append(full["sum"])
        # G3 + P3 (G2 + P2 (G1 + P1 G0)): six gates one behind the other
        generate = g[0]
        for i in (1, 2, 3):
            passed = b.part(f"A{i}({block})", "and", {"in": (*p[i], *generate)})["out"]
            generate = b.part(f"O{i}({block})", "or", {"in": (*g[i], *passed)})["out"]
        propagate = b.part(f"PP({block})", "and", {"in": tuple(bit for s in p for bit in s)})
        passed = b.part(f"AC({block})", "and", {"in": (*propagate["out"], *carry)})["out"]
        carry = b.part(f"OC({block})", "or", {"in": (*generate, *passed)})["out"]
    b.output("sum", tuple(bit for signal in total for bit in signal))
    in_full_adder = full_adders(300, 300)
    rule = by_rule(lambda name, op: in_full_adder(name, op) if "FA(" in name else 100)
    assert 100 + 600 + 7 * 200 + 4 * 300 == 3300
    assert longest(flatten(b.circuit()), rule).length == 3300 - 100


def test_prefix_of_harris_and_harris() -> None:
    """All gates 100 ps: 100 + 5 * 200 + 100 ps = 1.2 ns."""
    rule = by_rule(lambda *_: 100)
    assert longest(catalogue.design("sklansky-adder", n=32).netlist, rule).length == 1200
    # In Kogge-Stone only the carry-out waits for ten gates of the network; no sum bit does.
    assert longest(catalogue.design("kogge-stone-adder", n=32).netlist, rule).length == 1100


def test_ripple_of_stallings() -> None:
    """Sum after 30 ns, carry after 20 ns: 31 * 20 + 30 = 650 ns."""
    design = catalogue.design("ripple-carry-adder", n=32)
    assert longest(design.netlist, by_rule(full_adders(20, 30))).length == 650


def test_lookahead_of_stallings() -> None:
    """Four 8-bit lookahead adders, carry after 20 ns, sum after 30 ns: 3 * 20 + 30 = 90 ns."""
    b = Builder("four lookahead adders")
    one, other, carry = b.input("a", 32), b.input("b", 32), b.input("carry_in")
    total: list[Signal] = []
    for block in range(4):
        ports: dict[str, Signal] = {"carry-in": carry}
        for i in range(8):
            at = 8 * block + i
            half = b.part(f"HA({at})", "half-adder", {"a": one[at], "b": other[at]})
            ports |= {f"g{i}": half["carry-out"], f"p{i}": half["sum"]}
        unit = b.part(f"LA({block})", lookahead.unit(8, carry_in=True, last=True), ports)
        for i in range(8):
            comes_in = unit[f"c{i}"] if i else carry
            at = 8 * block + i
            total.append(b.part(f"XOR({at})", "xor", {"in": (*comes_in, *ports[f"p{i}"])})["out"])
        carry = unit["c8"]
    b.output("sum", tuple(bit for signal in total for bit in signal))
    rule = by_rule(lambda name, _: 0 if name.startswith("HA") else 10)
    assert longest(flatten(b.circuit()), rule).length == 90


def test_stage_delays_of_the_74hc283() -> None:
    """C_in to S1 … S4 in 16, 18, 20, 23 ns typ; a chain adds 20 ns for each package more."""
    stages = [hc74.ADDER_DELAYS["carry-in", f"sum({i})"] for i in range(4)]
    assert stages == [16, 18, 20, 23]
    assert [hc74.adder_chain(k) for k in (1, 2, 3, 4)] == [21, 43, 63, 83]
    # Even a lookahead adder is slower at its high bits; ours, of single gates, too.
    netlist = catalogue.design("carry-lookahead-adder", n=4).netlist
    arrivals = arrival.arrivals(netlist, hc74.TYPICAL.timing(netlist))
    sums = [arrivals.at[net] for net in netlist.outputs["sum"]]
    assert all(low <= high for low, high in pairwise(sums))
    assert sums[0] < sums[3]


READ = {"74HC00": 7, "74HC74": 14}
"""Typical ns, read in makers' sheets: Philips 74HC/HCT00, Dec 1990; 74HC/HCT74, 23 Feb 1998."""
RECALLED = {
    "74HC02": 7,
    "74HC04": 7,
    "74HC08": 7,
    "74HC10": 9,
    "74HC11": 10,
    "74HC20": 8,
    "74HC21": 10,
    "74HC27": 8,
    "74HC32": 6,
    "74HC86": 11,
    "74HC157": 11,
}
"""Typical ns at 5 V and 15 pF, from memory."""
LIMITS = {"74HC00": 18, "74HC74": 35}
"""Limits in ns at 4.5 V and 50 pF, from memory; of the 74HC74 also: set-up 12 ns."""


def test_delays_that_were_read_in_a_sheet() -> None:
    """Of 74HC00 and 74HC74. All others carry the mark MEMORY, and the words say the same."""
    typical = {part.name: part.typical for part in hc74.ALL}
    assert typical == READ | RECALLED
    assert {part.name for part in hc74.ALL if part.mark == "SEEN"} == set(READ)
    assert all(bool(part.source) == (part.mark == "SEEN") for part in hc74.ALL)
    assert " the delays of 74HC00 and 74HC74 were read, all other" in hc74.TYPICAL.source
    assert "read" not in hc74.WORST.source


def test_columns_are_never_mixed() -> None:
    """Every time in a model stands in its column; typical is nowhere worse than worst."""
    worst = {part.name: part.worst for part in hc74.ALL}
    assert LIMITS.items() <= worst.items()
    assert hc74.SETUPS["worst"] == 12
    for part in hc74.ALL:
        assert 2 <= part.worst / part.typical <= 3, part.name  # as the limits say in words
    design = catalogue.design("serial-adder-parallel-load", n=4)
    path = critical_path.longest(design.netlist, hc74.TYPICAL)
    slow = critical_path.longest(design.netlist, hc74.WORST)
    for found, column in ((path, "typical"), (slow, "worst")):
        # A: 74HC74; XOR, AND, OR; then 74HC08 (clear), 74HC157 (enable) and the set-up.
        names = ("74HC74", "74HC86", "74HC08", "74HC32", "74HC08", "74HC157")
        times = {
            part.name: part.typical if column == "typical" else part.worst for part in hc74.ALL
        }
        setup = 2 if column == "typical" else 12
        assert found.length == sum(times[name] for name in names) + setup


ORDERS: Mapping[str, tuple[Callable[[int], float], Callable[[int], float] | None]] = {
    "ripple-carry-adder": (lambda n: 7 * n, lambda n: 2 * n),
    # Its 4 sqrt(n) leaves out the false path through the groups, which we leave in.
    "carry-skip-adder": (lambda n: 8 * n, None),
    "carry-select-adder": (lambda n: 14 * n, lambda n: 2.8 * sqrt(n)),
    "carry-increment-adder": (lambda n: 10 * n, lambda n: 2.8 * sqrt(n)),
    "carry-lookahead-adder": (lambda n: 14 * n, lambda n: 4 * log2(n)),
    "sklansky-adder": (lambda n: 1.5 * n * log2(n), lambda n: 2 * log2(n)),
    "brent-kung-adder": (lambda n: 10 * n, lambda n: 4 * log2(n)),
    "kogge-stone-adder": (lambda n: 3 * n * log2(n), lambda n: 2 * log2(n)),
}


@pytest.mark.parametrize("name", ORDERS)
def test_orders_of_magnitude(name: str) -> None:
    """Zimmermann's asymptotic area and delay in unit gates, within a factor of 1.6 at 256 bits."""
    area, delay = ORDERS[name]
    netlist = catalogue.design(name, n=256).netlist
    assert 1 / 1.6 < gate_counts.unit_area(netlist) / area(256) < 1.6
    if delay:
        assert 1 / 1.6 < gate_counts.unit_delay(netlist) / delay(256) < 1.6


# ---------------------------------------------------------------------- six NAND gates

NANDS = {
    "n1": ("n4", "n2"),
    "n2": ("n1", "clock"),
    "n3": ("n2", "clock", "n4"),
    "n4": ("n3", "d"),
    "q": ("n2", "nq"),
    "nq": ("q", "n3"),
}


def simulate(delays: Mapping[str, int], before: int, d: int, old: int) -> list[int]:
    """Q from the edge on; d takes its new value `before` time steps ahead of the edge.

    Every gate shows after its delay what its inputs say; the flip-flop starts settled with the
    clock at 0, d and q at the old value.
    """
    row = {"clock": 0, "d": old, "n1": 1 - old, "n2": 1, "n3": 1, "n4": 1 - old, "q": old}
    row["n1"] = 1 - (row["n4"] & row["n2"])
    row["nq"] = 1 - old
    history = [dict(row) for _ in range(4)]
    edge = len(history) + before
    for now in range(len(history), edge + 12):
        new = {"clock": int(now >= edge), "d": d}
        for gate, inputs in NANDS.items():
            seen = history[now - delays[gate]]
            new[gate] = 1 - int(all(seen[name] for name in inputs))
        history.append(new)
    return [row["q"] for row in history[edge:]]


@pytest.mark.parametrize(
    ("wide", "clock_to_q"),
    [(1, models.CLOCK_TO_Q_GATES), (2, models.CLOCK_TO_Q_UNITS)],
)
def test_flip_flop_of_six_nand_gates(wide: int, clock_to_q: int) -> None:
    """Clock-to-Q and set-up time of the two gate models, from the flip-flop itself."""
    delays = dict.fromkeys(NANDS, 1) | {"n3": wide}
    for d, old in product((0, 1), repeat=2):
        found = simulate(delays, models.SETUP_GATES, d, old)
        assert found[clock_to_q:] == [d] * len(found[clock_to_q:])
    changes = [simulate(delays, 6, d, 1 - d) for d in (0, 1)]
    assert max(q.index(d) for q, d in zip(changes, (0, 1), strict=True)) == clock_to_q
    # One step less of setup, and a 0 is not stored: q keeps its 1, or swings for ever.
    late = simulate(delays, models.SETUP_GATES - 1, 0, 1)[clock_to_q:]
    assert late != [0] * len(late)
    assert sum(len(inputs) - 1 for inputs in NANDS.values()) == models.FLIP_FLOP_UNITS
    assert len(NANDS) == models.FLIP_FLOP_GATES
