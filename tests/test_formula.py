"""Formulas: reading, showing, and what is said of those that can't be read."""

from __future__ import annotations

import dataclasses
import time
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from edgewise import formula
from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.formula import Binary, Claim, Default, Drive, Name, Node, Number, Range, Target, Unary
from tests.strategies import numbers_of, timed_of, truths_of

NAMES = ("a", "b", "n", "w_1")
HERE = Place("tide.md", 3, 11)


def bare(node: Any) -> Any:
    """The tree without the places in it."""
    if isinstance(node, tuple):
        return tuple(map(bare, node))
    if dataclasses.is_dataclass(node) and not isinstance(node, type):
        values = {f.name: bare(getattr(node, f.name)) for f in dataclasses.fields(node)}
        if "at" in values:
            values["at"] = 0
        return dataclasses.replace(node, **values)
    return node


@given(st.one_of(numbers_of(NAMES), truths_of(NAMES), timed_of(NAMES)))
@example(Binary("**", Binary("**", Name("a"), Number(2)), Number(3)))
@example(Binary("**", Unary("-", Name("a")), Number(2)))
@example(Binary("-", Name("a"), Binary("-", Name("b"), Name("n"))))
@example(Binary("==", Unary("not", Name("a")), Name("b")))
def test_what_is_shown_reads_back_the_same(node: Node) -> None:
    text = formula.show(node)
    if len(text) <= formula.LONGEST and text.count("(") <= formula.DEEPEST:
        assert bare(formula.parse(text)) == bare(node)
        assert formula.show(formula.parse(text)) == text


@pytest.mark.parametrize(
    ("text", "grouped"),
    [
        # Each line sets the operator against the next tighter one.
        ("p or q and r", "p or (q and r)"),
        ("p and not q", "p and (not q)"),
        ("not a == b", "not (a == b)"),
        ("a == b after 3", "a == (b after 3)"),
        ("a after n + 1", "a after (n + 1)"),
        ("a + b before n - 1", "(a + b) before (n - 1)"),
        ("a + b * c", "a + (b * c)"),
        ("a - b mod c", "a - (b mod c)"),
        ("a div b * c", "(a div b) * c"),
        ("-a * b", "(-a) * b"),
        ("-a ** b", "-(a ** b)"),
        ("a ** -b", "a ** (-b)"),
        ("a ** b ** c", "a ** (b ** c)"),
        ("a - b - c", "(a - b) - c"),
        ("p or q or r", "(p or q) or r"),
    ],
)
def test_precedence(text: str, grouped: str) -> None:
    assert bare(formula.parse(text)) == bare(formula.parse(grouped))


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("((a+b)) mod (2**n)", "(a + b) mod 2**n"),
        ("0b1100", "12"),
        ("a − 1", "a - 1"),
        ("FA(i+1).carry-out", "FA(i + 1).carry-out"),
        ("S(n-1..0) after 2*n", "S(n - 1..0) after 2 * n"),
        ("FA.sum - n", "FA.sum - n"),
        ("X", "X"),
        ("min(a,b)", "min(a, b)"),
        ("a\n  + b", "a + b"),
    ],
)
def test_show(text: str, shown: str) -> None:
    assert formula.show(formula.parse(text)) == shown


def test_a_hyphen_between_letters_after_a_dot_is_part_of_the_port() -> None:
    assert formula.parse("FA.carry-out") == Name("FA", (formula.Dot("carry-out"),))
    assert formula.parse("FA.sum - n") == Binary(
        "-", Name("FA", (formula.Dot("sum"),)), Name("n", at=9)
    )
    assert formula.parse("FA.q-1").operator == "-"


def test_claims() -> None:
    claim = formula.parse("S after 2*n == a for all a, b for n in 1..64, k in 0..n", "claim")
    assert claim.for_all == ("a", "b")
    assert bare(claim.ranges) == (
        Range("n", Number(1), Number(64)),
        Range("k", Number(0), Name("n")),
    )
    assert formula.parse("a == b", "claim") == Claim(formula.parse("a == b"))


def test_drives_defaults_and_targets() -> None:
    assert formula.parse("a lsb-first", "drive") == Drive(Name("a"), "lsb-first")
    assert formula.parse("w(2) msb-first", "drive").order == "msb-first"
    assert formula.parse("1", "drive") == Drive(Number(1))
    assert formula.parse("6 in 1..64", "default") == Default(Number(6), Number(1, 5), Number(64, 8))
    assert formula.parse("2*n", "default").low is None
    assert formula.parse("FA(i = 0..n-1)", "target").family.name == "i"
    assert formula.parse("c(0)", "target") == Target(Name("c", (formula.Select((Number(0, 2),)),)))


def test_names_in_a_formula_from_left_to_right() -> None:
    node = formula.parse("A(i).q + not_ * S(n..k) after m == -z")
    assert [name.base for name in formula.names_in(node)] == [
        "A", "i", "not_", "S", "n", "k", "m", "z",
    ]  # fmt: skip


AN_OPERATOR = "expected an operator or the end"
A_VALUE = "expected a name or a number"


@pytest.mark.parametrize(
    ("start", "text", "column", "message"),
    [
        ("expression", "n +", 14, f"the formula ends too early; {A_VALUE}"),
        ("expression", "n n", 13, f"found 'n'; {AN_OPERATOR}"),
        ("expression", "3 x", 13, "found 'x'; for a product write 3*x"),
        ("expression", "(n", 13, "the formula ends too early; expected an operator or )"),
        ("expression", "n)", 12, f"found ')'; {AN_OPERATOR}"),
        ("expression", "a()", 13, f"found ')'; {A_VALUE}"),
        ("expression", "a(3..0", 17, "the formula ends too early; expected an operator or )"),
        ("expression", "a = b", 13, "found '=': a comparison is written =="),
        (
            "expression",
            "a == b == c",
            18,
            "found a second comparison, '==': compare two at a time, as in a < b and b < c",
        ),
        ("expression", "a ? b", 13, "'?' has no meaning in a formula"),
        ("expression", "FA.", 13, "'.' needs a name behind it"),
        ("expression", "+1", 11, f"found '+'; {A_VALUE}"),
        ("expression", "0b12", 14, f"found '2'; {AN_OPERATOR}"),
        (
            "expression",
            "S after 2 after 3",
            21,
            (
                "found a second 'after': put parentheses around each “NAME after k”, as in"
                " (S after 2) + (C after 2)"
            ),
        ),
        (
            "target",
            "carry-in",
            16,
            (
                "found '-'; a name is made of letters, digits and _ (hyphens are for the ports of"
                " ready parts): carry_in"
            ),
        ),
        ("expression", "2n", 12, "found 'n'; for a product write 2*n"),
        ("expression", "a + 12 n", 18, "found 'n'; for a product write 12*n"),
        ("claim", "edges == 3(n + 1)", 21, "found '('; for a product write 3*(…)"),
        ("claim", "edges == 3 for n", 27, "the formula ends too early; expected in"),
        ("expression", "2 X", 13, "found 'X'; expected an operator or the end"),
        (
            "expression",
            "2^n",
            12,
            "'^' has no meaning in a formula; for a power write **, as in 2**n",
        ),
        (
            "expression",
            "a%4",
            12,
            "'%' has no meaning in a formula; for the remainder write mod, as in a mod 4",
        ),
        (
            "expression",
            "a/4",
            12,
            "'/' has no meaning in a formula; for the quotient write div, as in a div 4",
        ),
        ("expression", "a && b", 13, "'&' has no meaning in a formula; write and"),
        ("expression", "a || b", 13, "'|' has no meaning in a formula; write or"),
        ("expression", "!a", 11, "'!' has no meaning in a formula; write not"),
        ("expression", "~a", 11, "'~' has no meaning in a formula; write not"),
        ("expression", "2 × a", 13, "'×' has no meaning in a formula; write *"),
        ("expression", "2 · a", 13, "'·' has no meaning in a formula; write *"),
        ("expression", "a ÷ 2", 13, "'÷' has no meaning in a formula; write div"),
        ("expression", "a ≤ 2", 13, "'≤' has no meaning in a formula; write <="),
        ("expression", "a ≥ 2", 13, "'≥' has no meaning in a formula; write >="),
        ("expression", "a ≠ 2", 13, "'≠' has no meaning in a formula; write !="),
        (
            "expression",
            "a < b < 3",
            17,
            "found a second comparison, '<': compare two at a time, as in a < b and b < c",
        ),
        ("target", "9", 11, "found '9'; expected a name"),
        ("target", "a b", 13, "found 'b'; expected the end"),
        (
            "target",
            "FA(i = 0..n-1",
            24,
            "the formula ends too early; expected an operator or )",
        ),
        (
            "drive",
            "a lsbfirst",
            13,
            "found 'lsbfirst'; expected an operator or lsb-first or msb-first or the end",
        ),
        ("default", "6 in 1", 17, "the formula ends too early; expected an operator or .."),
        ("claim", "a == 1 for", 21, "the formula ends too early; expected a name or all"),
        ("claim", "a == 1 for all a b", 28, "found 'b'; expected , or for or the end"),
    ],
)
def test_messages(start: str, text: str, column: int, message: str) -> None:
    with pytest.raises(TextError) as wrong:
        formula.parse(text, start, HERE)
    assert str(wrong.value) == f"tide.md:3:{column}: can't read {text!r}: {message}"


def test_nothing_is_no_formula() -> None:
    with pytest.raises(TextError) as wrong:
        formula.parse("  ", place=HERE)
    assert str(wrong.value) == "tide.md:3:11: found nothing where a formula was expected"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "1" * 2001,
            (
                "the formula is too long: 2001 characters, 0 levels of parentheses; the limits are"
                " 2000 and 60"
            ),
        ),
        (
            "(" * 61 + "1" + ")" * 61,
            (
                "the formula is too long: 123 characters, 61 levels of parentheses; the limits are"
                " 2000 and 60"
            ),
        ),
        (
            "-" * 1999 + "1",
            "the formula has more than 150 operators one inside another; split it",
        ),
        (
            "+".join("a" * 900),
            "the formula has more than 150 operators one inside another; split it",
        ),
        (
            "2" + "**2" * 500,
            "the formula has more than 150 operators one inside another; split it",
        ),
    ],
)
def test_bounds_are_answered_quickly_with_one_clear_error(text: str, message: str) -> None:
    begin = time.perf_counter()
    with pytest.raises(EdgewiseError) as wrong:
        formula.parse(text, place=HERE)
    assert str(wrong.value) == f"tide.md:3:11: {message}"
    assert time.perf_counter() - begin < 5


@given(st.text("ab(0..1)+-*/=X, notdivmorfale", max_size=30), st.sampled_from(formula.STARTS))
def test_any_text_is_read_or_refused_with_an_edgewise_error(text: str, start: str) -> None:
    try:
        formula.parse(text, start, HERE)
    except TextError as wrong:
        found = wrong.place
    else:
        return
    assert found is not None
    assert found.line == 3
