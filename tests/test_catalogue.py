"""The ready designs: each builds, does what it says, and says where it comes from."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.bits import X
from edgewise.circuit.builder import Builder, wires
from edgewise.design import Design, Operand, Phase, Purpose, feed
from edgewise.engines.reference import run
from edgewise.errors import DesignError
from edgewise.formula import Number, parse
from edgewise.trace import Trace

Golden = Callable[[str, str], None]
Numbers = dict[str, int]

SMALL: dict[str, tuple[Numbers, ...]] = {
    "serial-adder": ({"n": 1}, {"n": 2}, {"n": 4}),
    "serial-adder-parallel-load": ({"n": 1}, {"n": 2}, {"n": 4}),
    "serial-adder-gated-clock": ({"n": 1}, {"n": 2}, {"n": 4}),
    "digit-serial-adder": (
        {"n": 1},
        {"n": 4},
        {"n": 4, "d": 1},
        {"n": 4, "d": 4},
        {"n": 3, "d": 3},
    ),
    "serial-subtractor": ({"n": 1}, {"n": 2}, {"n": 4}),
    "serial-adder-subtractor": ({"n": 1}, {"n": 2}, {"n": 3}),
    "serial-accumulator": ({"n": 3, "x": 1}, {"n": 3, "x": 2}, {"n": 4, "x": 3, "m": 2}),
    "serial-accumulator-cleared": ({"n": 3, "x": 1}, {"n": 2, "x": 4}, {"n": 3, "x": 3, "m": 2}),
    "carry-save-accumulator": (
        {"n": 1, "x": 2},
        {"n": 3, "x": 1},
        {"n": 2, "x": 4},
        {"n": 3, "x": 3},
    ),
    "ripple-carry-adder": ({"n": 1}, {"n": 2}, {"n": 3}),
    "ripple-carry-adder-without-carry-in": ({"n": 1}, {"n": 2}, {"n": 4}),
    "carry-lookahead-adder": ({"n": 1}, {"n": 3}, {"n": 4}),
    "carry-lookahead-adder-without-carry-in": ({"n": 1}, {"n": 3}, {"n": 5}),
    "carry-skip-adder": ({"n": 1}, {"n": 4, "m": 2}, {"n": 5, "m": 2}, {"n": 4, "m": 2, "c": 1}),
    "carry-select-adder": ({"n": 1}, {"n": 5}, {"n": 4, "m": 2}, {"n": 4, "c": 1}),
    "carry-increment-adder": ({"n": 1}, {"n": 5}, {"n": 4, "m": 2}, {"n": 4, "c": 1}),
    "sklansky-adder": ({"n": 1}, {"n": 3}, {"n": 5}, {"n": 4, "c": 1}),
    "kogge-stone-adder": ({"n": 1}, {"n": 3}, {"n": 5}, {"n": 4, "c": 1}),
    "brent-kung-adder": ({"n": 1}, {"n": 3}, {"n": 5}, {"n": 4, "c": 1}),
    "han-carlson-adder": ({"n": 1}, {"n": 3}, {"n": 5}, {"n": 4, "c": 1}),
    "ladner-fischer-adder": ({"n": 1}, {"n": 5, "k": 0}, {"n": 5, "k": 2}, {"n": 4, "c": 1}),
    "ripple-carry-adder-subtractor": ({"n": 1}, {"n": 2}, {"n": 3}),
    "twos-complement-adder-subtractor": ({"n": 2}, {"n": 3}, {"n": 4}),
    "shift-add-multiplier": ({"n": 1}, {"n": 2}, {"n": 3}, {"n": 4}),
    "bit-serial-multiplier": ({"n": 1}, {"n": 2}, {"n": 3}, {"n": 4}),
    "serial-in-serial-out": ({"n": 1}, {"n": 5}),
    "serial-in-parallel-out": ({"n": 1}, {"n": 5}),
    "parallel-in-serial-out": ({"n": 1}, {"n": 5}),
    "universal-shift-register": (
        {"n": 1, "k": 0},
        {"n": 1, "k": 1},
        {"n": 5, "k": 2},
        {"n": 3, "k": 4},
    ),
    "ring-counter": ({"n": 2, "k": 3}, {"n": 5, "k": 0}, {"n": 5, "k": 17}),
    "johnson-counter": ({"n": 1, "k": 3}, *({"n": 3, "k": k} for k in range(8))),
    "binary-counter": ({"n": 1, "k": 1}, {"n": 3, "k": 7}, {"n": 3, "k": 21}),
    "modulo-counter": ({"m": 2, "k": 3}, {"m": 8, "k": 7}, {"m": 11, "k": 10}, {"m": 11, "k": 30}),
    "lfsr": ({"n": 2, "k": 3}, {"n": 4, "k": 17}, {"n": 4, "taps": 0b1001, "start": 6, "k": 9}),
    "crc-register": (
        {"n": 3},
        {"n": 2, "poly": 1, "init": 2},
        {"n": 5, "poly": 21, "init": 9, "reflect_in": 1, "reflect_out": 1, "xor_out": 31},
    ),
}
"""Parameters at which all operands are run."""

LARGE: dict[str, Numbers] = {
    "serial-adder": {"n": 64},
    "serial-adder-parallel-load": {"n": 64},
    "serial-adder-gated-clock": {"n": 64},
    "digit-serial-adder": {"n": 64, "d": 4},
    "serial-subtractor": {"n": 64},
    "serial-adder-subtractor": {"n": 64},
    "serial-accumulator": {"n": 40, "x": 5, "m": 37},
    "serial-accumulator-cleared": {"n": 32, "x": 5},
    "carry-save-accumulator": {"n": 64, "x": 9},
    "ripple-carry-adder": {"n": 256},
    "ripple-carry-adder-without-carry-in": {"n": 256},
    "carry-lookahead-adder": {"n": 256},
    "carry-lookahead-adder-without-carry-in": {"n": 255},
    "carry-skip-adder": {"n": 256, "m": 11},
    "carry-select-adder": {"n": 256},
    "carry-increment-adder": {"n": 255},
    "sklansky-adder": {"n": 256},
    "kogge-stone-adder": {"n": 200},
    "brent-kung-adder": {"n": 255},
    "han-carlson-adder": {"n": 256, "c": 1},
    "ladner-fischer-adder": {"n": 255, "k": 0},
    "ripple-carry-adder-subtractor": {"n": 256},
    "twos-complement-adder-subtractor": {"n": 256},
    "shift-add-multiplier": {"n": 32},
    "bit-serial-multiplier": {"n": 32},
    "serial-in-serial-out": {"n": 64},
    "serial-in-parallel-out": {"n": 64},
    "parallel-in-serial-out": {"n": 64},
    "universal-shift-register": {"n": 64, "k": 40},
    "ring-counter": {"n": 64, "k": 200},
    "johnson-counter": {"n": 64, "k": 200},
    "binary-counter": {"n": 64, "k": 100},
    "modulo-counter": {"m": 2**32, "k": 50},
    "lfsr": {"n": 64, "k": 200},
    "crc-register": {"n": 32, "poly": 0x04C11DB7, "x": 4},
}
"""Parameters at which operands are sampled."""


def wrong(trace: Trace) -> Iterator[str]:
    """Each purpose that the run does not fulfil."""
    expected = trace.design.expected(trace.operands)
    for purpose in trace.design.computes:
        row = trace.edges if purpose.after is None else purpose.after
        found = trace.word(purpose.output, row)
        if trace.design.read(purpose.output, found) != expected[purpose.output]:
            yield f"{purpose.output} is {found}, expected {expected[purpose.output]}"


@lru_cache(maxsize=8)
def large(name: str) -> Design:
    return catalogue.design(name, **LARGE[name])


def all_operands(design: Design) -> Iterator[Numbers]:
    names = [operand.name for operand in design.operands]
    for values in product(*(operand.numbers for operand in design.operands)):
        yield dict(zip(names, values, strict=True))


def test_the_grids_hold_every_design() -> None:
    assert tuple(SMALL) == tuple(LARGE) == catalogue.ORDER


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_defaults_build_and_run(name: str) -> None:
    design = catalogue.design(name)
    trace = run(design, {operand.name: 1 for operand in design.operands})
    assert list(wrong(trace)) == []
    assert trace.edges == design.edges
    assert design.computes


@pytest.mark.parametrize(
    ("name", "numbers"), [(name, numbers) for name in SMALL for numbers in SMALL[name]]
)
def test_purposes_hold_for_all_operands(name: str, numbers: Numbers) -> None:
    design = catalogue.design(name, **numbers)
    for operands in all_operands(design):
        assert list(wrong(run(design, operands))) == [], operands


@pytest.mark.parametrize("name", LARGE)
@settings(max_examples=8)
@given(data=st.data())
def test_purposes_hold_for_sampled_operands(name: str, data: st.DataObject) -> None:
    design = large(name)
    operands = {
        o.name: data.draw(st.integers(o.numbers[0], o.numbers[-1])) for o in design.operands
    }
    assert list(wrong(run(design, operands))) == []


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_ends_of_the_parameters(name: str) -> None:
    blueprint = catalogue.find(name)
    first = blueprint.parameters[0]
    assert isinstance(first.low, Number)
    assert isinstance(first.high, Number)
    for bound, beyond in ((first.low.value, -1), (first.high.value, 1)):
        if bound <= 64:  # 256 bits are built above
            blueprint.design({first.name: bound})
        with pytest.raises(DesignError) as caught:
            blueprint.numbers({first.name: bound + beyond})
        assert str(caught.value) == (
            f"parameter {first.name} is {bound + beyond};"
            f" the range is {first.low.value}..{first.high.value}"
        )


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_descriptions(name: str) -> None:
    blueprint = catalogue.find(name)
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", name)
    assert blueprint.name == name
    assert blueprint.title
    assert blueprint.about
    assert "\n" not in blueprint.about
    assert not blueprint.about.endswith(".")
    assert "from memory" in blueprint.source
    assert re.search(r"sec\. \d+\.\d", blueprint.source)
    assert all(p.low is not None and p.high is not None for p in blueprint.parameters)


def test_an_unknown_name() -> None:
    with pytest.raises(DesignError) as caught:
        catalogue.find("serial-ader")
    assert str(caught.value) == (
        "the catalogue has no design serial-ader; did you mean serial-adder?"
    )


def test_finding_one_design_reads_only_that_one() -> None:
    script = (
        "import sys; from edgewise import catalogue; catalogue.find('serial-adder');"
        "print('edgewise.catalogue.lookahead' in sys.modules, catalogue.find.cache_info().misses)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout == "False 1\n"


# ---------------------------------------------------------------------- where the answer ends


@pytest.mark.parametrize(("n", "x"), [(1, 3), (2, 3), (2, 4), (3, 3)])
def test_where_the_accumulator_ends(n: int, x: int) -> None:
    """A carry out of a word before the last enters the next word; then the sum is wrong.

    It is right exactly where the number of such carries is 0 modulo 2**n.
    """
    design = catalogue.design("serial-accumulator", n=n, x=x)
    failing = 0
    for operands in all_operands(design):
        held = carry = leaked = 0
        for word in operands.values():
            leaked += carry
            carry, held = divmod(held + word + carry, 1 << n)
        trace = run(design, operands)
        assert trace.word("sum", trace.edges).value == held
        assert trace.word("carry", trace.edges).value == carry
        assert bool(list(wrong(trace))) == (leaked % 2**n != 0), operands
        failing += leaked % 2**n != 0
    assert failing > 0


def test_the_accumulator_is_wrong_by_the_leaked_carry() -> None:
    trace = run(catalogue.design("serial-accumulator", n=4), {"w(1)": 9, "w(2)": 8, "w(3)": 2})
    assert list(wrong(trace)) == ["sum is 0100, expected 3"]


def test_a_wider_register_keeps_the_accumulator_right() -> None:
    """Three words of 2 bits make 9 at most, which 4 bits hold; 3 bits don't."""
    wide = catalogue.design("serial-accumulator", n=4, x=3, m=2)
    assert all(not list(wrong(run(wide, operands))) for operands in all_operands(wide))
    cleared = catalogue.design("serial-accumulator-cleared", n=2, x=3)
    last = run(cleared, {"w(1)": 3, "w(2)": 3, "w(3)": 3})
    assert (last.word("sum", 8).value, last.word("carry", 8).value) == (1, 1)


def test_the_load_edge_counts() -> None:
    design = catalogue.design("serial-adder-parallel-load", n=5)
    assert [(p.name, p.edges) for p in design.procedure] == [("load", 1), ("add", 5)]
    assert "n + 1 in all" in catalogue.find(design.name).about


def test_gating_the_clock_changes_no_row() -> None:
    enabled, gated = (
        run(catalogue.design(name, n=4), {"a": 11, "b": 7})
        for name in ("serial-adder", "serial-adder-gated-clock")
    )
    columns = ["A", "B", "FA.sum", "C", "S"]
    assert enabled.table(columns) == gated.table(columns)
    (carry,) = [f for f in gated.design.netlist.flip_flops if f.name == "C"]
    assert carry.gate is not None
    assert carry.enable is None


# ---------------------------------------------------------------------- text and builder


def serial_adder(n: int) -> Design:
    """The serial adder once more, part by part in Python."""
    b = Builder("bit-serial adder")
    shift, a_in, b_in = b.input("shift"), b.input("a_in"), b.input("b_in")
    width = {"width": n}
    a = b.part("A", "shift-register", {"in": a_in, "enable": shift}, width)
    other = b.part("B", "shift-register", {"in": b_in, "enable": shift}, width)
    carry = wires("C.q", 1)  # what C will drive once it is placed
    full = b.part("FA", "full-adder", {"a": a["out"], "b": other["out"], "carry-in": carry})
    b.part("C", "flip-flop", {"d": full["carry-out"], "enable": shift})
    total = b.part("S", "shift-register", {"in": full["sum"], "enable": shift}, width)
    b.output("sum", total.word)
    b.output("carry", carry)
    widths = {"a": n, "b": n}

    def phase(name: str, **fed: str) -> Phase:
        feeds = tuple(feed(port, what, {"n": n}, widths) for port, what in fed.items())
        return Phase(name, n, feeds)

    return Design(
        "serial-adder",
        b.circuit(),
        {"n": n},
        (Operand("a", n), Operand("b", n)),
        (
            phase("load", shift="1", a_in="a lsb-first", b_in="b lsb-first"),
            phase("add", shift="1", a_in="X", b_in="X"),
        ),
        (
            Purpose("sum", parse("(a + b) mod 2**n")),
            Purpose("carry", parse("(a + b) div 2**n")),
        ),
    ).check()


def ripple_carry_adder(n: int) -> Design:
    """The ripple-carry adder once more, part by part in Python."""
    b = Builder("ripple-carry adder")
    one, other, carry_in = b.input("a", n), b.input("b", n), b.input("carry_in")
    c, total = b.net("c", n + 1), b.net("sum", n)
    for i in range(n):
        ports = {"a": one[i], "b": other[i], "carry-in": c[i]}
        b.part(f"FA({i})", "full-adder", ports | {"sum": total[i], "carry-out": c[i + 1]})
    b.join(c[0], carry_in)
    b.output("sum", total)
    b.output("carry", c[n])
    return Design(
        "ripple-carry-adder",
        b.circuit(),
        {"n": n},
        (Operand("a", n), Operand("b", n), Operand("carry_in", 1)),
        (),
        (
            Purpose("sum", parse("(a + b + carry_in) mod 2**n")),
            Purpose("carry", parse("(a + b + carry_in) div 2**n")),
        ),
    ).check()


@pytest.mark.parametrize("n", [1, 6])
@pytest.mark.parametrize("built", [serial_adder, ripple_carry_adder])
def test_text_and_builder_give_equal_models(built: Callable[[int], Design], n: int) -> None:
    by_hand = built(n)
    assert catalogue.design(by_hand.name, n=n) == by_hand
    assert catalogue.design(by_hand.name, n=n + 1) != by_hand


# ---------------------------------------------------------------------- whole tables

RUNS: tuple[tuple[str, Numbers, Numbers], ...] = (
    ("serial-adder", {"n": 4}, {"a": 11, "b": 7}),
    ("serial-adder-parallel-load", {"n": 4}, {"a": 11, "b": 7}),
    ("serial-accumulator", {"n": 4, "x": 3}, {"w(1)": 9, "w(2)": 8, "w(3)": 2}),
    ("serial-accumulator-cleared", {"n": 4, "x": 3}, {"w(1)": 9, "w(2)": 8, "w(3)": 2}),
    ("carry-lookahead-adder", {"n": 6}, {"a": 45, "b": 18, "carry_in": 1}),
    ("digit-serial-adder", {"n": 6, "d": 2}, {"a": 45, "b": 23}),
    ("serial-subtractor", {"n": 4}, {"a": 5, "b": 12}),
    ("serial-adder-subtractor", {"n": 4}, {"a": 12, "b": 5, "subtract": 1}),
    ("carry-save-accumulator", {"n": 4, "x": 3}, {"w(1)": 7, "w(2)": 5, "w(3)": 3}),
    ("shift-add-multiplier", {"n": 4}, {"a": 13, "b": 11}),
    ("bit-serial-multiplier", {"n": 3}, {"a": 5, "b": 6}),
    ("lfsr", {"n": 4, "k": 15}, {}),
    ("crc-register", {"n": 4}, {"byte(1)": 0b10110001}),
    ("serial-in-serial-out", {"n": 4}, {"w": 0b1011}),
    ("universal-shift-register", {"n": 5, "k": 2}, {"w": 0b10111}),
    ("johnson-counter", {"n": 3}, {}),
    ("modulo-counter", {"m": 6, "k": 7}, {}),
)


@pytest.mark.parametrize(("name", "numbers", "operands"), RUNS, ids=[name for name, *_ in RUNS])
def test_edge_tables(name: str, numbers: Numbers, operands: Numbers, golden: Golden) -> None:
    golden(f"catalogue-{name}.txt", run(catalogue.design(name, **numbers), operands).text() + "\n")


def test_what_does_not_matter_is_fed_as_unknown() -> None:
    """While a serial adder adds, X enters A and B, and none of it reaches the answer."""
    trace = run(catalogue.design("serial-adder", n=3), {"a": 5, "b": 6})
    assert [str(trace.word("A", row)) for row in range(3, 7)] == ["101", "X10", "XX1", "XXX"]
    assert trace.word("a_in", 4).bit(0) == X
    assert str(trace.word("S", 6)) == "011"
