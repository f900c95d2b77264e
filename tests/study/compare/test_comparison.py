"""Comparisons: crossovers, ranks, frontiers, needs, and their words."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.blueprint import Blueprint
from edgewise.engines.reference import run
from edgewise.errors import DesignError, EdgewiseError
from edgewise.study.compare import comparison, needs, wording
from edgewise.study.compare.comparison import Comparison, compare
from edgewise.study.cost import idle_hardware, measure
from edgewise.study.cost.measure import Cost
from edgewise.study.cost.models.gates import UNIT_GATE

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
    some = measure.of(catalogue.design("ripple-carry-adder", n=4))
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
            "other is faster than one at n = 6, the last compared: 3 against 2 gate delays at n ="
            " 5; 4 against 9 gate delays at n = 6.",
        ),
        (
            (2, 2, 9),
            (2, 3, 4),
            "other is faster than one at n = 6, the last compared: 3 against 2 gate delays at n ="
            " 5; 4 against 9 gate delays at n = 6; one is faster at n = 5, equal at n = 4.",
        ),
        (
            (1, 5, 5, 6),
            (2, 2, 3, 4),
            "other is faster than one from n = 5 to 7, the last compared: 2 against 1 gate delays"
            " at n = 4; 2 against 5 gate delays at n = 5.",
        ),
        (
            (1, 1, 2),
            (2, 2, 2),
            "one is faster than other from n = 4 to 5: 1 against 2 gate delays at n = 5; 2 against"
            " 2 gate delays at n = 6; equal at n = 6.",
        ),
        (
            (1, 5, 1, 5),
            (2, 2, 2, 2),
            "other is faster than one at n = 7, the last compared: 2 against 1 gate delays at n ="
            " 6; 2 against 5 gate delays at n = 7; one is faster at n = 4, 6, other is faster at"
            " n = 5.",
        ),
        (
            (3, 1, 2),
            (2, 2, 2),
            "one is faster than other at n = 5: 3 against 2 gate delays at n = 4; 1 against"
            " 2 gate delays at n = 5; other is faster at n = 4, equal at n = 6.",
        ),
        ((2, 2), (2, 2), "one and other are equal in time at every n = 4, 5."),
        ((2,), (3,), "one is faster than other at every n = 4: 2 against 3 gate delays at n = 4."),
    ],
)
def test_sentences(one: Sequence[int], other: Sequence[int], expected: str) -> None:
    assert made(one, other).sentence("one", "other", "time") == expected


TRIO = ("serial-adder", "ripple-carry-adder", "carry-lookahead-adder")
RUN = re.compile(
    r"(one|other) is faster than (?:one|other) (?:from n = (\d+) to (\d+)|at n = (\d+))"
)


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=9))
def test_a_crossover_has_both_sides(times: list[tuple[int, int]]) -> None:
    """Where a sentence names a run, the design is better all along it and not beside it.

    Nothing is said of numbers beyond the last.
    """
    one, other = zip(*times, strict=True)
    sentence = made(one, other).sentence("one", "other", "time")
    assert not re.search(r"\d on\b", sentence)
    last = 3 + len(times)
    told = RUN.match(sentence)
    if told:
        winner, loser = (one, other) if told[1] == "one" else (other, one)
        start, end = (int(told[2]), int(told[3])) if told[2] else (int(told[4]),) * 2
        better = [n for n in range(4, last + 1) if winner[n - 4] < loser[n - 4]]
        assert set(range(start, end + 1)) <= set(better)
        assert not {start - 1, end + 1} & set(better)
        assert (", the last compared" in sentence) == (end == last)
    elif "equal" not in sentence:
        assert f"at every n = {wording.spans(range(4, last + 1), range(4, last + 1))}" in sentence
        winner, loser = (one, other) if sentence.startswith("one") else (other, one)
        assert all(a < b for a, b in zip(winner, loser, strict=True))
    else:
        assert one == other


def test_what_is_said_of_a_range_holds_beyond_it_or_is_not_said() -> None:
    """Brent-Kung and carry-increment change places often: nothing says "on" from any end."""
    pair = designs("carry-increment-adder", "brent-kung-adder")
    long = compare(pair, {"n": (4, 40)})
    for last in range(5, 40):
        sentence = compare(pair, {"n": (4, last)}).sentence(pair[0].name, pair[1].name, "time")
        for told in re.finditer(r"(\S+) is faster than \S+ from n = (\d+) to (\d+)", sentence):
            assert int(told[3]) <= last
            ranks = [long.ranks(n, "time") for n in range(int(told[2]), int(told[3]) + 1)]
            assert {rank[told[1]] for rank in ranks} == {1}


def test_from_how_many_bits_on_lookahead_pays() -> None:
    """Held against the costs themselves, one by one."""
    pair = designs("ripple-carry-adder", "carry-lookahead-adder")
    found = compare(pair, {"n": (2, 40)})
    assert found.sentences()[2] == (
        "carry-lookahead-adder is better in area-delay product than ripple-carry-adder from n = 14"
        " to 40, the last compared: 2685 against 2548 at n = 13; 2835 against 2940 at n = 14."
    )
    better = {
        n: measure.of(b.design({"n": n})).area_delay < measure.of(a.design({"n": n})).area_delay
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


# ---------------------------------------------------------------------- like with like


def test_every_group_computes_the_same() -> None:
    """Of the whole catalogue: ranked together is only what gives equal answers, run by run.

    With small operands: the serial accumulator is right only while no sum overflows.
    """
    found = compare(comparison.comparable(), {"n": (4, 4)})
    assert sorted(name for group in found.groups for name in group) == sorted(found.designs)
    chance = random.Random(3)  # noqa: S311
    for group in found.groups:
        made_ = [catalogue.design(name, n=4) for name in group]
        for _ in range(8):
            operands = {o.name: chance.getrandbits(min(o.width, 2)) for o in made_[0].operands}
            answers = [run(design, design.values(operands)) for design in made_]
            ends = [
                {p.output: str(trace.word(p.output, trace.edges)) for p in trace.design.computes}
                for trace in answers
            ]
            assert all(end == ends[0] for end in ends), group


def test_ranks_stay_within_a_group() -> None:
    """No shift register is a small adder, and no carry-in is ranked with none."""
    found = compare(comparison.comparable(), {"n": (4, 8)}, activity=True)
    for value in found.values:
        for quantity in found.quantities:
            ranks = found.ranks(value, quantity)
            for group in found.groups:
                held = [ranks[name] for name in group if name in ranks]
                assert min(held, default=1) == 1
                assert bool(held) == (len(group) > 1)
    adders = {"ripple-carry-adder", "carry-lookahead-adder"}
    for sentence in found.sentences():
        told = {name for name in found.designs if re.search(rf"(?<!\S){name}(?![-\w])", sentence)}
        assert any(told <= set(group) for group in found.groups), sentence
        assert told <= adders or not told & adders


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (("carry-skip-adder", "ripple-carry-adder"), "; ripple-carry-adder takes carry_in too"),
        (("ripple-carry-adder", "carry-skip-adder"), "; ripple-carry-adder takes carry_in too"),
        (("carry-skip-adder", "sklansky-adder"), ""),
        (
            ("serial-adder", "serial-subtractor"),
            "; serial-adder and serial-subtractor don't compute the same",
        ),
        (
            ("ring-counter", "shift-add-multiplier"),
            "; ring-counter and shift-add-multiplier don't compute the same",
        ),
    ],
)
def test_a_sentence_says_what_differs(names: tuple[str, str], told: str) -> None:
    found = compare(designs(*names), {"n": (4, 4)})
    differs = [re.search(r"; [^;]*( too|the same)(?=[;.])", text) for text in found.sentences()]
    assert {match[0] if match else "" for match in differs} == {told}


def test_with_equal_ports_carry_skip_is_never_smaller() -> None:
    """With a carry-in on either side, as on neither, the ripple-carry adder is the smaller one."""
    without = designs("ripple-carry-adder-without-carry-in", "carry-skip-adder")
    with_ = designs("ripple-carry-adder", "carry-skip-adder")
    for pair, fixed in ((without, {}), (with_, {"c": 1})):
        found = compare(pair, {"n": (1, 40)}, fixed=fixed)
        assert len(found.groups) == 1
        for n in found.values:
            ripple, skip = found.at(n)
            assert skip.area >= ripple.area


def test_idle_hardware_is_left_out_and_told() -> None:
    """By hand: the serial adder has 3n + 1 flip-flops of 7 units and a full adder of 7."""
    found = compare(designs("serial-adder", "digit-serial-adder"), {"n": (4, 6)}, fixed={"d": 1})
    for n, one in found.of("serial-adder").items():
        assert one.area == 7 * (3 * n + 1) + 7
        assert one.period == 4 + 4 + 2
        assert one.built is not None
        assert one.built.area == one.area + 3 * (3 * n + 1)
        assert one.built.period == 12
        assert one.area < found.of("digit-serial-adder")[n].area
    assert (
        "serial-adder: shift stays the same at every edge, so the hardware that only waits for a"
        " change is left out: at n = 4 area 98 instead of 137 gate units, period 10 instead of 12."
    ) in found.notes()


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_no_design_is_priced_with_idle_hardware(name: str) -> None:
    """Whatever is left out never acts: the run without it is the run with it."""
    design = catalogue.design(name)
    lean, inputs = idle_hardware.lean(design)
    assert idle_hardware.lean(lean) == (lean, ())
    stuck = idle_hardware.held(lean)
    for flip_flop in lean.netlist.flip_flops:
        for net, bit in ((flip_flop.enable, 1), (flip_flop.clear, 0)):
            assert all(
                net != lean.netlist.inputs[one][0] for one, held in stuck.items() if held == bit
            )
    if inputs:
        operands = {operand.name: 5 % (1 << operand.width) for operand in design.operands}
        with_, without = (run(one, one.values(operands)) for one in (design, lean))
        outputs = design.netlist.outputs
        for row in range(design.edges + 1):
            for output in outputs:
                assert with_.word(output, row) == without.word(output, row)


@pytest.mark.parametrize(
    ("names", "over", "told"),
    [
        (("lfsr", "crc-register"), (65, 66), ""),  # of an LFSR that is not there nothing is said
        (("lfsr", "crc-register"), (4, 5), ""),
        (
            ("serial-adder", "sklansky-adder"),
            (4, 5),
            "Flip-flops count: serial-adder keeps words in registers, the other keeps none.",
        ),
        (
            ("serial-adder", "digit-serial-adder", "sklansky-adder", "brent-kung-adder"),
            (4, 4),
            "Flip-flops count: serial-adder and digit-serial-adder keep words in registers, the"
            " others keep none.",
        ),
    ],
)
def test_who_keeps_words_in_registers(
    names: tuple[str, ...], over: tuple[int, int], told: str
) -> None:
    notes = compare(designs(*names), {"n": over}).notes()
    assert [note for note in notes if note.startswith("Flip-flops")] == [told] * bool(told)


def test_designs_that_never_meet_are_told_once() -> None:
    found = compare(designs("lfsr", "crc-register"), {"n": (65, 66)})
    assert found.sentences() == ["lfsr and crc-register are never there at the same n."]


# ---------------------------------------------------------------------- false paths


def test_a_false_path_is_told_in_the_same_sentence() -> None:
    pair = designs("carry-skip-adder", "ripple-carry-adder-without-carry-in")
    found = compare(pair, {"n": (8, 16)})
    for text in found.sentences():
        timed = "faster" in text or "area-delay product" in text
        told = (
            "carry-skip-adder settles sooner than its critical path, which no operands take" in text
        )
        assert told == timed
    assert "ripple-carry-adder-without-carry-in settles" not in " ".join(found.sentences())


def test_a_false_path_among_many_is_told() -> None:
    names = ("carry-skip-adder", "sklansky-adder", "kogge-stone-adder", "brent-kung-adder")
    found = compare(designs(*names, "carry-select-adder"), {"n": (8, 9)})
    fastest = next(text for text in found.sentences() if text.startswith("Fastest: "))
    assert fastest.endswith(
        "; carry-skip-adder settles sooner than its critical path, which no operands take, at"
        " n = 8, 9."
    )


# ---------------------------------------------------------------------- samples


def test_what_a_sample_can_not_tell_is_a_tie() -> None:
    pair = designs("brent-kung-adder", "han-carlson-adder")
    found = compare(pair, {"n": (8, 8)}, activity=True)
    assert found.sentence(pair[0].name, pair[1].name, "toggles") == (
        "brent-kung-adder and han-carlson-adder can't be told apart in toggles at every n = 8:"
        " 19.1 ± 0.4 against 19.7 ± 0.4 at n = 8."
    )
    assert found.ranks(8, "toggles") == {"brent-kung-adder": 1, "han-carlson-adder": 1}


def test_figures_of_a_sample_have_their_error() -> None:
    found = compare(ADDERS, {"n": (8, 8)}, activity=True)
    toggles = [cell for row in found.cells()[1:] for cell in row[-2:]]
    quietest = next(text for text in found.sentences() if text.startswith("Quietest"))
    for text in (*toggles, *re.findall(r"\(([^)]*)\)", quietest)):
        assert re.fullmatch(r"\d+\.\d ± \d+\.\d( and \d+\.\d ± \d+\.\d)*", text), text
    notes = " ".join(found.notes())
    assert "± is the standard error" in notes
    assert "The clock's own toggles, 2 an edge at each flip-flop, are not in these figures" in notes
    assert "figures: 32 a flip-flop in one result at n = 8." in notes


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
        assert each.area_delay <= 2000
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
            f"n = 32, time <= 1{'0' * 400}",
            f"time <= 1{'0' * 31}…: found a number of 401 digits, expected up to 18",
        ),
        (
            f"n = 1{'0' * 400}, time <= 4",
            f"n = 1{'0' * 35}…: found a number of 401 digits, expected up to 18",
        ),
        (
            f"n = 4, time <= {'9' * 400}.5",
            f"time <= {'9' * 32}…: found a number of 400 digits, expected up to 18",
        ),
        (
            "n = 4, time <= 99.0000001",
            "time <= 99.0000001: found 99.0000001, expected a whole number, since figures are"
            " rounded up to one first; write 100",
        ),
        ("n = 4, time <= 2**9999", "time <= 2**9999: the number is too large: more than 8192 bits"),
        ("n = 4, time <= 5 div 0", "time <= 5 div 0: 5 div 0: division by zero"),
        ("n = 4, area div (n - 4) <= 4", "area div (n - 4) <= 4: 98 div 0: division by zero"),
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


def test_the_cheapest_of_each_group() -> None:
    """A carry-in is told, and what is too near for the sample to tell."""
    adders = designs("ripple-carry-adder", "carry-skip-adder", "sklansky-adder")
    answer = needs.need(adders, "n = 8, time <= 18, toggles <= 20")
    assert answer.sentences() == [
        "Cheapest by area of those with operands a, b and carry_in: ripple-carry-adder at n = 8, 56"
        " gate units, 18 gate delays.",
        "Cheapest by area of those with operands a and b: carry-skip-adder at n = 8, 58 gate units,"
        " 18 gate delays.",
        "carry-skip-adder settles sooner than its critical path, which no operands take, at n = 8.",
        "Too near to toggles <= 20 for the sample to tell: sklansky-adder at n = 8 (19.8 ± 0.4).",
    ]


@pytest.mark.parametrize("names", [("carry-skip-adder", "ripple-carry-adder"), TRIO])
def test_which_to_take_is_told_of_the_costs_themselves(names: tuple[str, ...]) -> None:
    """Run by run: the least of each quantity at every number, from the costs one by one."""
    found = compare(designs(*names), {"n": (4, 18)})
    (told,) = found.choice()
    for quantity, said in (
        ("area", "area"),
        ("time", "time"),
        ("area_delay", "area-delay product"),
    ):
        part = told.partition(f"for the least {said}, ")[2].partition("; ")[0]
        best: dict[int, set[str]] = {}
        for those, numbers in re.findall(r"([a-z, -]+?) at n = ([\d, to]+) \(", part):
            low, *rest = (int(one) for one in re.findall(r"\d+", numbers))
            for n in range(low, (rest or [low])[-1] + 1):
                best[n] = set(re.findall(r"[a-z-]+-adder", those))
        for n in range(4, 19):
            figures = {c.design: c.figure(quantity) for c in found.at(n)}
            assert best[n] == {d for d, f in figures.items() if f == min(figures.values())}
