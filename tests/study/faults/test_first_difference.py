"""Where the table of a broken run shows first that it is broken."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from edgewise import catalogue, run
from edgewise.study.faults.first_difference import Parting, parting
from edgewise.study.faults.models import faults

NOWHERE = (
    "The fault is not detected in this table: in these columns the words are as they should be."
    " Other"
    " operands, rows or columns may detect it."
)


def parted(name: str, columns: Sequence[str], rows: Sequence[int], **operands: int) -> Parting:
    adder = catalogue.design("serial-adder", n=4)
    (fault,) = (fault for fault in faults(adder, inside=True) if fault.name == name)
    given = {"a": 3, "b": 7, **operands}
    return parting(run(adder, **given), run(fault.design, **given), columns, rows)


@pytest.mark.parametrize(
    ("name", "columns", "rows", "row", "sentence"),
    [
        # 0011 + 0111: the first place carries, and the carry is to stand in C after edge 5.
        (
            "FA.carry-out stuck at 0",
            ("C", "S"),
            range(9),
            5,
            "The fault is first detected in the row of edge 5: C is 0 and should be 1.",
        ),
        # In a table without C it takes one more edge, until the carry lacks in the sum.
        (
            "FA.carry-out stuck at 0",
            ("FA.sum", "S"),
            (8, 7, 6, 5),
            5,
            "The fault is first detected in the row of edge 5: FA.sum is 0 and should be 1.",
        ),
        (
            "FA.carry-out stuck at 0",
            ("S",),
            range(9),
            6,
            "The fault is first detected in the row of edge 6: S is 0000 and should be 1000.",
        ),
        (
            "C starts at 1",
            ("C", "FA.sum"),
            range(9),
            0,
            "The fault is first detected at the start: C is 1 and should be 0, FA.sum is 1 and"
            " should be 0.",
        ),
        ("C stuck at 0", ("A", "B"), range(9), None, NOWHERE),
        ("C stuck at 0", ("C", "S"), range(5), None, NOWHERE),
        (
            "one edge more in add",
            ("S",),
            range(10),
            9,
            "The fault is first detected in the row of edge 9: the right run ends with edge 8,"
            " this is one more in"
            " phase add.",
        ),
        (
            "one edge fewer in add",
            ("S",),
            range(8),
            7,
            "The fault is detected at the end: every row is as it should be, but the run stops at"
            " edge 7, 1 edge"
            " before its time.",
        ),
        ("one edge fewer in add", ("S",), range(6), None, NOWHERE),
        (
            "one edge fewer in load",
            ("S",),
            range(8),
            3,
            "The fault is first detected in the row of edge 3: its phase is add and should be"
            " load.",
        ),
    ],
)
def test_the_first_row_that_tells(
    name: str, columns: Sequence[str], rows: Sequence[int], row: int | None, sentence: str
) -> None:
    found = parted(name, columns, rows)
    assert (found.row, found.sentence) == (row, sentence)


def test_without_edges_it_is_the_table_that_shows_it() -> None:
    row = catalogue.design("ripple-carry-adder", n=2)
    (fault,) = (fault for fault in faults(row) if fault.name == "c(1) stuck at 0")
    given = {"a": 1, "b": 1, "carry_in": 0}
    found = parting(run(row, **given), run(fault.design, **given), ("a", "sum"), (0,))
    assert (found.row, found.sentence) == (
        0,
        "The fault is detected in the table: sum is 00 and should be 10.",
    )
