"""Laws: formulas found on a grid, checked on designs that did not determine them."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.arithmetic import Numbers, evaluate
from edgewise.blueprint import Blueprint, from_text
from edgewise.errors import DesignError
from edgewise.study.laws.fit import QUANTITIES, find
from edgewise.study.laws.law import Law

# Edges of the serial schemes: common practice, no source; as in tests/outside/test_edge_laws.py.
# Gates and depth of the ripple-carry adder: five gates a full adder, the carry two levels a
# place (Mano and Ciletti, Digital Design, ch. 4; from memory). Cells of the Kogge-Stone
# network, n log2 n - n + 1 for a power of two (Parhami, Computer Arithmetic, ch. 6; from
# memory), are three gates each here but one a column, which has no propagate to combine.


@pytest.mark.parametrize(
    ("name", "quantity", "over", "formula"),
    [
        ("serial-adder", "edges", {"n": (1, 16)}, "2*n"),
        ("serial-adder-parallel-load", "edges", {"n": (1, 16)}, "n + 1"),
        ("serial-accumulator", "edges", {"n": (1, 8), "x": (2, 5)}, "n*(x + 1)"),
        ("serial-accumulator", "gates", {"n": (1, 8), "x": (2, 5)}, "5"),
        ("serial-accumulator", "flip-flops", {"n": (1, 8), "x": (2, 5)}, "2*n + 1"),
        ("ripple-carry-adder", "gates", {"n": (1, 16)}, "5*n"),
        ("ripple-carry-adder", "depth", {"n": (1, 16)}, "2*n + 1"),
        ("ripple-carry-adder", "edges", {"n": (1, 16)}, "0"),
        ("modulo-counter", "flip-flops", {"m": (2, 40)}, "ceil_log2(m)"),
    ],
)
def test_laws_of_the_catalogue(
    name: str, quantity: str, over: dict[str, tuple[int, int]], formula: str
) -> None:
    law = find(catalogue.find(name), quantity, over)
    assert law.text == formula


@pytest.mark.parametrize(
    ("quantity", "low", "formula"),
    [
        ("gates", 1, "3*n*ceil_log2(n) + 2*n - 3*2**ceil_log2(n) + 3"),
        ("depth", 3, "ceil_log2(n) + ceil_log2(n - 1) + 1"),
    ],
)
def test_laws_with_logarithms(quantity: str, low: int, formula: str) -> None:
    assert find(catalogue.find("kogge-stone-adder"), quantity, {"n": (low, 40)}).text == formula


def test_a_law_says_how_far_it_was_checked() -> None:
    law = find(catalogue.find("serial-accumulator"), "edges", {"n": (1, 32), "x": (2, 16)})
    assert str(law) == (
        "edges = n*(x + 1)\n"
        "checked on 480 designs, n = 1 to 32, x = 2 to 16; on 18 beyond, with n up to 64,"
        " x up to 64\n"
        "6 of them determined the formula, the other 492 agree with it"
    )
    assert "proved" not in str(law)


def test_fixed_parameters_are_told() -> None:
    law = find(catalogue.find("serial-accumulator"), "edges", {"n": (4, 19)}, {"x": 3, "m": 4})
    assert (law.text, law.checked) == (
        "4*n",
        "checked on 16 designs, n = 4 to 19, x = 3, m = 4; on 8 beyond, with n up to 64",
    )
    assert law.data()["with"] == {"x": 3, "m": 4}


def test_where_no_formula_fits_the_counts_are_shown() -> None:
    law = find(catalogue.find("carry-lookahead-adder"), "depth", {"n": (1, 12)})
    assert law.formula is None
    assert str(law) == (
        "no formula of the family fits the depth of carry-lookahead-adder\n"
        "counted on 12 designs, n = 1 to 12\n"
        "tried: polynomials in the parameters up to degree 3, and up to degree 2 with floor_log2,\n"
        "ceil_log2, 2**ceil_log2, 2**n, groups of four (div 4, mod 4) or levels of four"
    )
    assert law.text_table().splitlines()[:4] == [" n  depth", " 1      3", " 2      4", " 3      4"]
    assert law.data()["formula"] is None


def test_parameters_that_were_not_given_are_told_too() -> None:
    law = find(catalogue.find("serial-accumulator"), "edges", {"n": (2, 9)})
    told = "checked on 8 designs, n = 2 to 9, x = 3; on 9 beyond, with n up to 33"
    assert (law.text, law.checked) == ("4*n", told)


def bells(edges: str, most: int = 40) -> Blueprint:
    """A design whose procedure is as long as a formula in n and x says."""
    return from_text(
        f"circuit: tide bell\nparameters: {{n: 1 in 1..{most}, x: 1 in 1..{most}}}\n"
        "inputs: {d: 1}\nparts: {Q: {part: flip-flop, d: d}}\noutputs: {q: Q}\n"
        f"procedure: [{{phase: ring, edges: '{edges}', d: 1}}]\n",
        "bell.yaml",
    )


def test_too_few_designs_are_told() -> None:
    """Beyond the last number of a parameter there is nothing that could check a formula."""
    law = find(bells("2*n", most=4), "edges", {"n": (1, 4)})
    assert law.hint is not None
    assert (law.formula, law.data()["hint"]) == (None, law.hint.told())
    assert str(law) == (
        "no formula found for the edges of tide-bell\n"
        "counted on 4 designs, n = 1 to 4, x = 1\n"
        "too few to tell: 2*n agrees with all 4, but 2 of them determined it; a law like this"
        " needs 6 designs or more"
    )


def test_where_nothing_lies_beyond_that_is_told() -> None:
    law = find(catalogue.find("serial-adder"), "edges", {"n": (1, 64)})
    assert law.checked == "checked on 64 designs, n = 1 to 64; none lies beyond"


def test_a_formula_that_holds_on_the_asked_range_only_is_no_law() -> None:
    law = find(bells("max(2*n, 12)"), "edges", {"n": (1, 6)})
    assert str(law) == (
        "no formula found for the edges of tide-bell\n"
        "counted on 6 designs, n = 1 to 6, x = 1\n"
        "12 agrees with all 6, but not beyond: for n = 7 it gives 12, and 14 is counted"
    )


def test_a_small_grid_invents_no_law() -> None:
    """(n + 3) div 4 is 1 on this grid and looked like a law; four words of five bits take 25."""
    law = find(catalogue.find("serial-accumulator"), "edges", {"n": (1, 4), "x": (1, 4)})
    assert str(law) == (
        "edges = n*(x + 1)\n"
        "checked on 16 designs, n = 1 to 4, x = 1 to 4; on 24 beyond, with n up to 17, x up to 17\n"
        "6 of them determined the formula, the other 34 agree with it"
    )


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(-3, 5), min_size=6, max_size=6),
    st.integers(1, 5),
    st.integers(3, 7),
    st.integers(1, 3),
    st.integers(1, 3),
)
@example([0, 1, 0, 1, 0, 0], 1, 3, 1, 3)
def test_a_law_of_a_small_grid_holds_far_beyond_it(
    c: list[int], low: int, wide: int, lowest: int, deep: int
) -> None:
    """Whatever is found for quadratic counts is the count itself, also where nobody looked."""

    def count(n: int, x: int) -> int:
        return 60 + c[0] * n * n + c[1] * n * x + c[2] * x * x + c[3] * n + c[4] * x + c[5]

    edges = f"max(0, 60 + {c[0]}*n**2 + {c[1]}*n*x + {c[2]}*x**2 + {c[3]}*n + {c[4]}*x + {c[5]})"
    over = {"n": (low, low + wide), "x": (lowest, lowest + deep)}
    law = find(bells(edges), "edges", over)
    if law.formula is None:
        return
    for n, x in itertools.product((1, 2, 11, 17), repeat=2):
        if count(n, x) >= 0:
            assert evaluate(law.formula, Numbers({"n": n, "x": x})) == count(n, x)


def test_a_formula_that_fits_later_is_hinted_at() -> None:
    law = find(catalogue.find("kogge-stone-adder"), "depth", {"n": (1, 40)})
    assert str(law) == (
        "no formula found for the depth of kogge-stone-adder\n"
        "counted on 40 designs, n = 1 to 40, c = 0\n"
        "from n = 3 on, depth = ceil_log2(n) + ceil_log2(n - 1) + 1 fits, so let n begin there"
    )


def test_a_range_and_a_number_do_not_go_together() -> None:
    with pytest.raises(DesignError) as caught:
        find(catalogue.find("serial-adder"), "edges", {"n": (1, 9)}, {"n": 3})
    assert str(caught.value) == "n has a range and a number as well; leave one out"


def test_few_designs_determine_no_law() -> None:
    """Three points lie on some parabola; that is no law of anything."""
    for high in (4, 5):
        law = find(catalogue.find("carry-lookahead-adder"), "depth", {"n": (1, high)})
        assert not law.text
    with pytest.raises(DesignError, match="this grid has 3 designs; a law needs 4 to 5,000"):
        find(catalogue.find("serial-adder"), "edges", {"n": (1, 3)})


@settings(max_examples=25, deadline=None)
@given(st.lists(st.integers(0, 5), min_size=6, max_size=6).filter(any))
def test_any_polynomial_of_degree_2_is_found(c: list[int]) -> None:
    """Phases of made-up lengths: the law found has their sum as its value everywhere."""
    edges = f"{c[0]}*n**2 + {c[1]}*n*x + {c[2]}*x**2 + {c[3]}*n + {c[4]}*x + {c[5]}"
    law = find(bells(edges), "edges", {"n": (1, 6), "x": (1, 6)})
    assert law.formula is not None
    for (n, x), count in law.counts:
        assert evaluate(law.formula, Numbers({"n": n, "x": x})) == count
    for n, x in ((17, 23), (40, 1), (31, 40)):
        wanted = c[0] * n * n + c[1] * n * x + c[2] * x * x + c[3] * n + c[4] * x + c[5]
        assert evaluate(law.formula, Numbers({"n": n, "x": x})) == wanted


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_the_formula_gives_every_count(quantity: str) -> None:
    for name, low in (("sklansky-adder", 2), ("binary-counter", 2), ("shift-add-multiplier", 1)):
        law = find(catalogue.find(name), quantity, {"n": (low, 14)})
        for (n,), count in law.counts if law.formula else ():
            assert law.formula
            assert evaluate(law.formula, Numbers({"n": n})) == count


def test_progress_is_told() -> None:
    told: list[tuple[int, int]] = []
    find(
        catalogue.find("serial-adder"),
        "edges",
        {"n": (1, 5)},
        progress=lambda done, total: told.append((done, total)),
    )
    assert told == [(1, 5), (2, 5), (3, 5), (4, 5), (5, 5)]


def test_a_table_of_two_parameters() -> None:
    law = Law(
        "d",
        "edges",
        (("n", 1, 2), ("x", 9, 10)),
        "",
        (((1, 9), 3), ((1, 10), 14), ((2, 9), 5), ((2, 10), 6)),
    )
    assert law.text_table() == "n  x=9  x=10\n1    3    14\n2    5     6"


@pytest.mark.parametrize(
    ("quantity", "over", "message"),
    [
        ("edge", {"n": (1, 9)}, "there is no count edge; did you mean edges?"),
        ("edges", {}, "say over which parameters, for example n=1..16; serial-adder has n"),
        ("edges", {"m": (1, 9)}, "serial-adder has no parameter m; there is: n"),
        ("edges", {"n": (9, 1)}, "n = 9..1 is empty; write low..high"),
        ("edges", {"n": (1, 9999)}, "this grid has 9,999 designs; a law needs 4 to 5,000 of them"),
        (
            "edges",
            {"n": (1, 2**63)},
            "this grid has 9,223,372,036,854,775,808 designs; a law needs 4 to 5,000 of them",
        ),
        ("edges", {"n": (60, 70)}, "n=65: parameter n is 65; the range is 1..64"),
    ],
)
def test_what_is_wrong_is_said(
    quantity: str, over: dict[str, tuple[int, int]], message: str
) -> None:
    with pytest.raises(DesignError) as caught:
        find(catalogue.find("serial-adder"), quantity, over)
    assert str(caught.value) == message


def test_a_design_without_parameters_has_no_law() -> None:
    text = "{circuit: tide mark, inputs: {a: 2}, outputs: {b: a}, operands: {a: 2}}"
    with pytest.raises(DesignError) as caught:
        find(from_text(text, "mark.yaml"), "depth", {})
    assert str(caught.value) == (
        "tide-mark has no parameters, so there is no law to find; depth: 0"
    )
