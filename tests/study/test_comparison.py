"""Comparisons: crossovers, ranks, frontiers, needs, and their words."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, EdgewiseError
from edgewise.study import comparison, cost, needs, wording
from edgewise.study.comparison import Comparison, compare
from edgewise.study.cost import Cost
from edgewise.study.technology import UNIT_GATE

Golden = Callable[[str, str], None]


def designs(*names: str) -> list[Blueprint]:
    return [catalogue.find(name) for name in names]


ADDERS = designs(
    "serial-adder",
    "ripple-carry-adder-without-carry-in",
    "carry-lookahead-adder-without-carry-in",
    "sklansky-adder",
    "kogge-stone-adder",
    "brent-kung-adder",
)


def made(one: Sequence[int], other: Sequence[int], first: int = 4) -> Comparison:
    """A comparison of two designs with these times, over n = first, first + 1, …."""
    some = cost.of(catalogue.design("ripple-carry-adder", n=4))
    costs = [
        replace(some, design=name, parameters=(("n", n),), time=Fraction(time))
        for name, times in (("one", one), ("other", other))
        for n, time in enumerate(times, first)
    ]
    values = tuple(range(first, first + len(one)))
    return Comparison(UNIT_GATE, "n", values, ("one", "other"), tuple(costs))


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (
            (1, 2, 3),
            (2, 3, 4),
            "one is faster than other at every n = 4 to 6: 1 against 2 gate delays at n = 4; 3"
            " against 4 gate delays at n = 6.",
        ),
        (
            (1, 2, 9),
            (2, 3, 4),
            "other is faster than one from n = 6 on: 3 against 2 gate delays at n = 5; 4 against 9"
            " gate delays at n = 6.",
        ),
        (
            (2, 2, 9),
            (2, 3, 4),
            "other is faster than one from n = 6 on: 3 against 2 gate delays at n = 5; 4 against 9"
            " gate delays at n = 6; one is faster at n = 5, equal at n = 4.",
        ),
        (
            (1, 5, 1, 5),
            (2, 2, 2, 2),
            "other is faster than one from n = 7 on: 2 against 1 gate delays at n = 6; 2 against 5"
            " gate delays at n = 7; one is faster at n = 4, 6, other is faster at n = 5.",
        ),
        (
            (3, 1, 2),
            (2, 2, 2),
            "one is faster than other from n = 5 to 5: 3 against 2 gate delays at n = 4; 1 against"
            " 2 gate delays at n = 5; other is faster at n = 4, equal at n = 6.",
        ),
        ((2, 2), (2, 2), "one and other are equal in time at every n = 4, 5."),
        ((2,), (3,), "one is faster than other at every n = 4: 2 against 3 gate delays at n = 4."),
    ],
)
def test_sentences(one: Sequence[int], other: Sequence[int], expected: str) -> None:
    assert made(one, other).sentence("one", "other", "time") == expected


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=9))
def test_a_crossover_has_both_sides(times: list[tuple[int, int]]) -> None:
    """Where a sentence says "from n on", the design is better at n and not better just before."""
    one, other = zip(*times, strict=True)
    sentence = made(one, other).sentence("one", "other", "time")
    if " from n = " in sentence:
        winner, loser = (one, other) if sentence.startswith("one") else (other, one)
        start = int(sentence.split(" from n = ")[1].split()[0]) - 4
        assert winner[start] < loser[start]
        assert winner[start - 1] >= loser[start - 1]
    elif " at every " in sentence and "equal" not in sentence:
        winner, loser = (one, other) if sentence.startswith("one") else (other, one)
        assert all(a < b for a, b in zip(winner, loser, strict=True))


def test_from_how_many_bits_on_lookahead_pays() -> None:
    """Held against the costs themselves, one by one."""
    pair = designs("ripple-carry-adder", "carry-lookahead-adder")
    found = compare(pair, {"n": (2, 40)})
    assert found.sentences()[2] == (
        "carry-lookahead-adder is better in area x time than ripple-carry-adder from n = 14 on:"
        " 2685 against 2548 at n = 13; 2835 against 2940 at n = 14."
    )
    better = {
        n: cost.of(b.design({"n": n})).area_time < cost.of(a.design({"n": n})).area_time
        for a, b in [pair]
        for n in range(2, 41)
    }
    assert [n for n, holds in better.items() if holds] == list(range(14, 41))


def test_whole_text(golden: Golden) -> None:
    trio = designs("serial-adder", "ripple-carry-adder", "carry-lookahead-adder")
    golden("compare-three-adders.txt", compare(trio, {"n": (4, 64)}).text() + "\n")


def test_whole_text_of_many(golden: Golden) -> None:
    found = compare(ADDERS, {"n": (4, 16)}, "74hc", activity=True)
    golden("compare-many-adders.txt", found.text() + "\n")
    json.dumps(found.data())


def test_what_can_not_be_built_is_told() -> None:
    pair = designs("digit-serial-adder", "ripple-carry-adder")
    found = compare(pair, {"n": (4, 16)}, fixed={"d": 4})
    assert list(found.of("digit-serial-adder")) == [4, 8, 12, 16]
    assert found.notes()[-1] == (
        "digit-serial-adder is not there at n = 5 to 7, 9 to 11, 13 to 15: digits of 4 bits don't"
        " fill a word of 5; d can be 1, 5."
    )


def test_ranks_share_a_place() -> None:
    found = compare(ADDERS, {"n": (8, 8)})
    ranks = found.ranks(8, "time")
    by_time = sorted(found.at(8), key=lambda c: c.time)
    assert ranks[by_time[0].design] == 1
    for a, b in pairwise(by_time):
        assert (ranks[a.design] == ranks[b.design]) == (a.time == b.time)


def test_the_frontier() -> None:
    """Nothing on it is beaten in both; everything off it is."""
    found = compare(ADDERS, {"n": (8, 33)})
    for n in found.values:
        on = set(found.frontier(n))
        for each in found.at(n):
            beaten = any(
                o.area <= each.area
                and o.time <= each.time
                and (o.area, o.time) != (each.area, each.time)
                for o in found.at(n)
            )
            assert (each.design in on) == (not beaten)


def test_a_blueprint_of_ones_own() -> None:
    text = (
        "{circuit: wire, parameters: {n: 4 in 1..64}, inputs: {x: n}, outputs: {y: x},"
        " operands: {x: n}}"
    )
    own = blueprint.from_text(text, "wire.yaml")
    found = compare([own, catalogue.find("ripple-carry-adder")], {"n": (4, 5)})
    assert [(c.design, int(c.area)) for c in found.at(5)] == [
        ("wire", 0),
        ("ripple-carry-adder", 35),
    ]


@pytest.mark.parametrize(
    ("names", "over", "fixed", "message"),
    [
        ([], {"n": (4, 8)}, {}, "name the designs"),
        (
            ["lfsr", "lfsr"],
            {"n": (4, 8)},
            {},
            "lfsr is named twice; name each design once",
        ),
        (["lfsr"], {}, {}, "say over which parameter to compare, for example n=4..64"),
        (["lfsr"], {"n": (8, 4)}, {}, "n = 8..4 is empty; write low..high"),
        (
            ["lfsr"],
            {"n": (4, 8), "k": (1, 2)},
            {},
            "found ranges for n and k; compare over one of them and give the others one number",
        ),
        (
            ["modulo-counter"],
            {"n": (4, 8)},
            {},
            "modulo-counter has no parameter n; there is: k, m",
        ),
        (
            ["lfsr"],
            {"n": (4, 8)},
            {"d": 2},
            "none of these designs has a parameter d; there is: k, n, start, taps",
        ),
        (
            ["ripple-carry-adder"],
            {"n": (1, 30000)},
            {},
            "these are 30,000 designs; the limit is 20,000",
        ),
        (
            ["lfsr"],
            {"n": (65, 66)},
            {},
            "none of the designs can be built: lfsr, n=65: parameter n is 65; the range is 2..64",
        ),
    ],
)
def test_what_can_not_be_compared(
    names: list[str], over: dict[str, tuple[int, int]], fixed: dict[str, int], message: str
) -> None:
    with pytest.raises(DesignError) as caught:
        compare(designs(*names), over, fixed=fixed)
    assert str(caught.value) == message


def test_comparable_designs() -> None:
    names = [b.name for b in comparison.comparable()]
    assert names == [name for name in catalogue.ORDER if name != "modulo-counter"]


@pytest.mark.parametrize(
    ("values", "text"),
    [
        ([4], "4"),
        ([4, 5], "4, 5"),
        ([4, 5, 6, 9], "4 to 6, 9"),
        ([4, 8, 12, 16], "4, 8, …, 16"),
        ([4, 6, 9, 11, 14, 16, 19], "4, 6, 9, 11, 14, …, 19"),
    ],
)
def test_spans(values: list[int], text: str) -> None:
    assert wording.spans(values, range(4, 20)) == text


# ---------------------------------------------------------------------- needs


def satisfied(text: str, model: str = "unit-gate") -> list[Cost]:
    return list(needs.need(ADDERS, text, model=model).found)


def test_which_adder_for_a_class() -> None:
    """32 bits, 200 gates, and time for 100 gate delays."""
    found = satisfied("n = 32, area <= 200 gates, time <= 100 gates", "gate-count")
    assert [c.design for c in found] == ["ripple-carry-adder-without-carry-in"]
    assert found[0].area == 5 * 32 - 3


def test_the_cheapest_comes_first() -> None:
    found = satisfied("time <= 40 gates, n = 32")
    assert [c.area for c in found] == sorted(c.area for c in found)
    assert {c.design for c in found} == {b.name for b in ADDERS[2:]}
    assert all(c.time <= 40 for c in found)


def test_conditions_are_formulas() -> None:
    found = satisfied("n = 16, area * time <= max(2000, 1900), flip-flops == 0, 2 * time < n + 10")
    for each in found:
        assert each.area_time <= 2000
        assert 2 * each.time < 26
    assert found


def test_a_range_of_sizes() -> None:
    answer = needs.need(ADDERS, "area <= 100, time <= 9", {"n": (4, 12)})
    assert answer.found
    assert all(c.area <= 100 and c.time <= 9 for c in answer.found)
    assert len(answer.found) == sum(c.area <= 100 and c.time <= 9 for c in answer.comparison.costs)


def test_whole_answers(golden: Golden) -> None:
    golden("need-adder.txt", needs.need(ADDERS, "n = 32, time <= 40 gates").text() + "\n")
    golden("need-nothing.txt", needs.need(ADDERS, "n = 32, time <= 4, area <= 900").text() + "\n")
    json.dumps(needs.need(ADDERS, "n = 32, time <= 4").data())


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "a need has no condition; write, for example, n = 32, time <= 40"),
        ("time", "time is no condition; write a comparison, for example time <= 40"),
        ("tim <= 3, n = 4", "there is no quantity tim; did you mean time?"),
        (
            "time <= 40 ns, n = 32",
            "time <= 40 ns: found the unit ns; expected gate delays in the model unit-gate",
        ),
        (
            "n <= 3 gates",
            "n <= 3 gates: found the unit gates; expected no unit in the model unit-gate",
        ),
        ("time <= 40", "the need does not say for which size; add, for example, n = 32"),
        (
            "n = 32, area <= ",
            "can't read 'area <=': the formula ends too early; expected a name or a number",
        ),
        (
            "n = 2 and area < 4",
            "n = 2 and area < 4 is no condition; write a comparison, for example time <= 40",
        ),
    ],
)
def test_needs_that_can_not_be_read(text: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        needs.need(ADDERS, text)
    assert str(caught.value) == message
