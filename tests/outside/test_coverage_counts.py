"""What operands show, counted by brute force in plain Python, column by column.

Outside: when a carry is generated, propagated and killed is as B. Parhami, *Computer Arithmetic*,
sec. 5.6, has it (from memory); the columns of a sum are written addition's.
"""

from __future__ import annotations

import math
from collections import Counter
from itertools import product

import pytest

from edgewise import catalogue
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.terms import Terms
from edgewise.engines.symbolic.unrolling import unroll
from edgewise.study.coverage.adder_usage import additions, longest_runs
from edgewise.study.coverage.measured import coverage
from edgewise.study.operands.criteria import criteria


def columns(a: int, b: int, n: int) -> tuple[list[tuple[int, int, int]], int]:
    """The columns (a, b, carry-in) of a sum, LSB first, and the longest carry chain.

    A run begins where 1 and 1 meet and grows by one with each column of one 1 that follows.
    """
    found, carry, run, longest = [], 0, 0, 0
    for place in range(n):
        x, y = a >> place & 1, b >> place & 1
        found.append((x, y, carry))
        run = 1 if x and y else run + 1 if x != y and carry else 0
        longest = max(longest, run)
        carry = int(x + y + carry > 1)
    return found, longest


@pytest.mark.parametrize("name", ["serial-adder", "serial-adder-parallel-load"])
@pytest.mark.parametrize("n", range(1, 7))
def test_rows_and_carries_of_all_pairs(name: str, n: int) -> None:
    """How many pairs meet each row, show each thing of a carry, reach each run."""
    wanted: Counter[object] = Counter()
    for a, b in product(range(1 << n), repeat=2):
        met, longest = columns(a, b, n)
        wanted.update({f"{x}{y}{c}" for x, y, c in met})
        wanted["generated"] += any(x and y for x, y, _ in met)
        wanted["propagated"] += any(x != y and c for x, y, c in met)
        wanted["killed"] += any(c and not x and not y for x, y, c in met)
        wanted.update(range(1, longest + 1))
    design = catalogue.design(name, n=n)
    asked = criteria(design)
    labels = [f"{row:03b}" for row in range(8)] + ["generated", "propagated", "killed"]
    labels += list(range(1, len(asked.runs) + 1))  # type: ignore[arg-type]
    counted = compiler.count_each(
        asked.terms, [*asked.rows, *asked.carries, *asked.runs], Space.of(design)
    )
    found = Counter(dict(zip(labels, counted, strict=True)))
    assert +found == +wanted


@pytest.mark.parametrize("name", ["serial-adder", "ripple-carry-adder-without-carry-in"])
def test_one_example_at_a_time(name: str) -> None:
    design = catalogue.design(name, n=5)
    for a, b in product(range(0, 32, 5), range(0, 32, 3)):
        shown = coverage(design, {"a": a, "b": b})
        met, longest = columns(a, b, 5)
        full = met[1:] if name.startswith("ripple") else met  # a half adder at the LSB
        assert shown.rows == tuple(sorted({f"{x}{y}{c}" for x, y, c in full})), (a, b)
        assert shown.carries is not None
        assert shown.carries.generated == sum(x & y for x, y, _ in met), (a, b)
        assert shown.carries.propagated == sum((x ^ y) & c for x, y, c in met), (a, b)
        assert shown.carries.killed == sum(c and not x and not y for x, y, c in met), (a, b)
        assert shown.carries.longest == longest, (a, b)


@pytest.mark.parametrize("n", [2, 4, 8])
def test_the_mean_longest_carry_chain(n: int) -> None:
    """At most log2 n.

    A. W. Burks, H. H. Goldstine and J. von Neumann, Preliminary Discussion of the Logical
    Design of an Electronic Computing Instrument, 1946, sec. 5.6 (from memory).
    """
    design, terms = catalogue.design("ripple-carry-adder-without-carry-in", n=n), Terms()
    runs = longest_runs(terms, additions(design, terms, unroll(design, terms)))
    space = Space.of(design)
    mean = sum(compiler.count_each(terms, runs, space)) / space.size
    assert 0 < mean <= math.log2(n)
