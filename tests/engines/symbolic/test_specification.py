"""Formulas lowered to terms: held to the formula's own arithmetic, and to NumPy."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.arithmetic import Numbers, evaluate
from edgewise.design import Given
from edgewise.engines.replay import bits_of, truths
from edgewise.engines.symbolic import specification
from edgewise.engines.symbolic.arithmetic import Truth, Whole, Words
from edgewise.engines.symbolic.specification import Lowered, Named, Unsupported, lower
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import ONE, UNKNOWN, ZERO, unroll
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import EdgewiseError, TextError
from edgewise.formula import Name, parse

WIDTHS = {"a": 4, "b": 3}


def operands(terms: Terms) -> Named:
    """Make a scope in which a has 4 bits and b has 3."""
    words = Words(terms)
    return Named(
        terms,
        {
            name: words.unsigned(terms.variable(Variable(name, i)) for i in range(width))
            for name, width in WIDTHS.items()
        },
    )


def value_of(terms: Terms, lowered: Lowered, values: Mapping[str, int]) -> int | bool:
    """The value of a lowered formula for two operands."""
    bits = {Variable(n, i): v >> i & 1 for n, v in values.items() for i in range(WIDTHS[n])}
    if isinstance(lowered, Truth):
        return truths(terms, [lowered.one], bits)[0]
    *low, sign = truths(terms, lowered.bits, bits)
    return sum(bit << i for i, bit in enumerate(low)) - (sign << len(low))


DIVISORS = st.sampled_from(("1", "2", "8", "3", "10", "(-1)", "(-4)", "(-7)"))
NUMBERS = st.recursive(
    st.sampled_from(("a", "b", "0", "1", "5", "12")),
    lambda inner: st.one_of(
        st.builds("({} {} {})".format, inner, st.sampled_from("+-*"), inner),
        st.builds("(-{})".format, inner),
        st.builds("({} {} {})".format, inner, st.sampled_from(("div", "mod")), DIVISORS),
        st.builds("({})**{}".format, inner, st.integers(0, 2)),
        st.builds("{}({}, {})".format, st.sampled_from(("min", "max")), inner, inner),
        st.builds("{}**{}".format, st.integers(0, 3), st.sampled_from(("a", "b"))),
    ),
    max_leaves=4,
)
TRUTHS = st.recursive(
    st.builds(
        "({} {} {})".format, NUMBERS, st.sampled_from(("==", "!=", "<", "<=", ">", ">=")), NUMBERS
    ),
    lambda inner: st.one_of(
        st.builds("({} {} {})".format, inner, st.sampled_from(("and", "or", "==", "!=")), inner),
        st.builds("(not {})".format, inner),
    ),
    max_leaves=3,
)


@given(st.one_of(NUMBERS, TRUTHS), st.integers(0, 15), st.integers(0, 7))
@example("((a - b) * (b - 12)) div (-7)", 3, 7)
@example("(-a) mod 10", 0, 0)
def test_a_lowered_formula_has_the_value_of_the_formula(text: str, a: int, b: int) -> None:
    """Agree with `arithmetic.evaluate`, sign and truth included."""
    terms, values = Terms(), {"a": a, "b": b}
    tree = parse(text)
    lowered = lower(tree, terms, operands(terms))
    assert lowered.unknown == FALSE
    assert value_of(terms, lowered, values) == evaluate(tree, Numbers(values))


@pytest.mark.parametrize("divisor", [-9, -8, -1, 1, 2, 3, 5, 6, 7, 10, 16])
def test_division_is_numpy_s_floor_division(divisor: int) -> None:
    """Agree with NumPy's ``divmod``, which rounds down too, for all of -15 … 15."""
    terms = Terms()
    scope = operands(terms)
    quotient, rest = Words(terms).divide(
        Words(terms).subtract(scope.numbers["a"], Words(terms).number(15)), divisor
    )
    dividends = np.arange(-15, 1)
    expected = np.divmod(dividends, divisor)
    for a, wanted, left in zip(range(16), *map(np.ndarray.tolist, expected), strict=True):
        assert value_of(terms, quotient, {"a": a, "b": 0}) == wanted
        assert value_of(terms, rest, {"a": a, "b": 0}) == left


def test_widths_grow_no_further_than_they_must() -> None:
    """Keep no more bits than the largest value needs, the sign included."""
    terms = Terms()
    scope = operands(terms)
    sizes = {"a + b": 6, "a * b": 8, "(a + b) mod 4": 3, "a div 8": 2, "a - a": 1, "2**b": 9}
    for text, bits in sizes.items():
        lowered = lower(parse(text), terms, scope)
        assert isinstance(lowered, Whole)
        assert len(lowered.bits) == bits, text


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_purposes_of_the_catalogue_are_lowered(name: str) -> None:
    """Agree with `Design.expected` for some operands."""
    known = {parameter.name for parameter in catalogue.find(name).parameters}
    design = catalogue.design(name, **{k: v for k, v in (("n", 3), ("x", 2)) if k in known})
    terms = Terms()
    scope = specification.given(design, terms)
    for number in (0, 1, 5):
        values = {o.name: o.number(number * 7 % (1 << o.width)) for o in design.operands}
        bits = bits_of(values, design.operands)
        for each in design.computes:
            lowered = lower(each.formula, terms, scope)
            whole = lowered.bits if isinstance(lowered, Whole) else (lowered.one, FALSE)
            *low, sign = truths(terms, whole, bits)
            found = sum(bit << i for i, bit in enumerate(low)) - (sign << len(low))
            assert found == evaluate(each.formula, Given(design, values))


def test_agreement_of_a_right_design_is_not_found_by_structure_alone() -> None:
    """Compare two different things: the purpose's carry is not the full adder's."""
    terms = Terms()
    design = catalogue.design("serial-adder", n=6)
    claim = specification.agreement(design, terms, unroll(design, terms))
    assert claim.one not in (FALSE, TRUE)
    assert claim.unknown == FALSE


# ---------------------------------------------------------------------- claims about rows


class Shown:
    """A scope of one net, S, that is a word of 3 bits: 0 in row 0, X in row 1, then a(0)."""

    def __init__(self, terms: Terms) -> None:
        self.words = Words(terms)
        self.bit = terms.variable(Variable("a", 0))

    def look_up(self, name: Name, row: int | None) -> Whole:
        """S in a row."""
        assert name.base == "S"
        rails = {0: (ZERO, ZERO), 1: (ONE, UNKNOWN)}
        if row in rails:
            return self.words.reading(rails[row])
        return self.words.unsigned([self.bit])


def lowered_truth(text: str) -> Term | str:
    """Lower a claim in the scope above; "X" where it has no value."""
    terms = Terms()
    claim = lower(parse(text), terms, Shown(terms))
    assert isinstance(claim, Truth)
    return "X" if claim.unknown == TRUE else claim.one


def test_names_are_looked_up_in_rows() -> None:
    """Take `after k` as row k and `before k` as row k - 1."""
    assert lowered_truth("S after 0 == 0") == TRUE
    assert lowered_truth("S before 1 == 0") == TRUE
    assert lowered_truth("(S + 2*S) after 2 <= 3") == TRUE
    assert lowered_truth("S after 1 == 0") == "X"
    assert lowered_truth("S after 0 == 1 and S after 1 == 0") == FALSE
    assert lowered_truth("S after 0 == 0 or S after 1 == 0") == TRUE
    assert lowered_truth("S after 1 == 0 or S after 0 == 0") == "X"
    assert lowered_truth("max(S after 1, 2) == 2") == "X"


# ---------------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a**b", "a**b: neither side of ** is constant"),
        (
            "2**(a - b)",
            "2**(a - b): an exponent that is not constant must be 0 or more and have at most"
            " 10 bits",
        ),
        ("ceil_log2(a)", "ceil_log2(a): depends on operands where a constant is expected"),
    ],
)
def test_what_has_no_form_as_terms(text: str, message: str) -> None:
    """Raise one error that the caller can tell from a wrong formula."""
    terms = Terms()
    with pytest.raises(Unsupported) as refused:
        lower(parse(text), terms, operands(terms))
    assert str(refused.value) == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a mod 0", "a mod 0: division by zero"),
        ("a + (a == b)", "found a truth value where a number was expected"),
        ("a and a == b", "found a where something true or false was expected"),
        ("-(a == b)", "found a truth value where a number was expected"),
        ("a**(-1)", "a**-1: the exponent must not be negative"),
        ("a**4000", "the number is too large: more than 8192 bits"),
        ("(2**4000*a)*(2**8000*a)", "the number is too large: more than 8192 bits"),
        ("d + 1", "there is no operand or parameter d; there is: a, b"),
        ("total(a)", "a is not a family of operands"),
    ],
)
def test_what_is_wrong_in_itself(text: str, message: str) -> None:
    """Say the same as the formula's own arithmetic would."""
    terms = Terms()
    with pytest.raises(TextError) as refused:
        lower(parse(text), terms, operands(terms))
    assert refused.value.message == message
    assert isinstance(refused.value, EdgewiseError)
    assert not isinstance(refused.value, Unsupported)


@pytest.mark.parametrize("width", [1, 2, 3, 4])
def test_division_by_a_number_that_is_not_constant(width: int) -> None:
    """Held against Python's own integers: rounded down, the remainder with the divisor's sign."""
    span = 1 << width
    terms = Terms()
    words = Words(terms)
    bits = {n: [terms.variable(Variable(n, i)) for i in range(width + 1)] for n in "xy"}
    x, y = (Whole(tuple(bits[n])) for n in "xy")  # the last bit is the sign
    quotient, rest = words.divide_by(x, y)
    asked = [quotient.unknown, *quotient.bits, *rest.bits]
    for a in range(-span, span):
        for b in range(-span, span):
            given = {
                Variable(n, i): value >> i & 1
                for n, value in (("x", a), ("y", b))
                for i in range(width + 1)
            }
            unknown, *found = truths(terms, asked, given)
            assert unknown == (b == 0)
            if b:
                ends = len(quotient.bits)
                assert (_signed(found[:ends]), _signed(found[ends:])) == divmod(a, b), (a, b)


def _signed(bits: Sequence[int]) -> int:
    return sum(bit << i for i, bit in enumerate(bits)) - (bits[-1] << len(bits))


def test_division_by_a_power_of_an_operand_is_a_shift() -> None:
    terms = Terms()
    found = lower(parse("(a * 5 + 1) div 2**b"), terms, operands(terms))
    assert isinstance(found, Whole)
    for a in range(16):
        for b in range(8):
            values = {Variable("a", i): a >> i & 1 for i in range(4)}
            values |= {Variable("b", i): b >> i & 1 for i in range(3)}
            assert _signed(truths(terms, found.bits, values)) == (5 * a + 1) >> b
