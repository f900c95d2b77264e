"""The value of formulas, against Python's own integers."""

from __future__ import annotations

import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import formula
from edgewise.arithmetic import (
    FUNCTIONS,
    WIDEST,
    Numbers,
    apply,
    call,
    evaluate,
    evaluate_at,
    number,
    truth,
)
from edgewise.bits import Word
from edgewise.errors import EdgewiseError, Place, TextError, UnknownBit
from edgewise.formula import Node
from tests.strategies import numbers_of, truths_of

NAMES = ("a", "b", "n")


def in_python(node: Node) -> str:
    """The formula in Python's own notation, every operator in parentheses."""
    match node:
        case formula.Number(value=value):
            return str(value)
        case formula.Name(base=base, steps=()):
            return base
        case formula.Name(base=base, steps=(formula.Select(items=items),)):
            return f"{base}({', '.join(map(in_python, items))})"
        case formula.Unary(operator=operator, operand=operand):
            return f"({operator} {in_python(operand)})"
        case formula.Binary(operator=operator, left=left, right=right):
            own = {"div": "//", "mod": "%"}.get(operator, operator)
            return f"({in_python(left)} {own} {in_python(right)})"
    raise AssertionError(node)


@given(
    st.one_of(numbers_of(NAMES), truths_of(NAMES)),
    st.fixed_dictionaries({name: st.integers(-5, 20) for name in NAMES}),
)
def test_against_the_integers_of_python(node: Node, values: dict[str, int]) -> None:
    try:
        expected: Any = eval(in_python(node), {"min": min, "max": max}, dict(values))  # noqa: S307
    except ZeroDivisionError:
        with pytest.raises(TextError, match="division by zero"):
            evaluate(node, Numbers(values))
        return
    found: Any
    try:
        found = evaluate(node, Numbers(values))
    except TextError as wrong:
        found = wrong.message
    if isinstance(found, str):  # powers of powers soon get too large
        assert found == "the number is too large: more than 8192 bits"
        return
    assert found == expected
    assert type(found) is type(expected)


@given(st.integers(-99, 99), st.integers(-99, 99).filter(bool))
def test_div_and_mod_go_together(a: int, b: int) -> None:
    quotient, rest = apply("div", a, b), apply("mod", a, b)
    assert a == b * number(quotient) + number(rest)
    assert 0 <= abs(number(rest)) < abs(b)


@given(st.integers(1, 10**9))
def test_logarithms_by_their_definition(a: int) -> None:
    ceiling, floor = call("ceil_log2", [a]), call("floor_log2", [a])
    assert 2**ceiling >= a > (2 ** (ceiling - 1) if ceiling else 0)
    assert 2**floor <= a < 2 ** (floor + 1)


def test_words_stand_for_their_unsigned_value() -> None:
    assert apply("+", Word.parse("110"), 1) == 7
    assert apply("==", Word.parse("0011"), Word.parse("11")) is True
    assert number(Word(0)) == 0


def test_and_or_look_no_further_than_they_must() -> None:
    scope = Numbers({"n": 0})
    assert evaluate(formula.parse("n == 0 or 1 div n == 1"), scope) is True
    assert evaluate(formula.parse("n != 0 and 1 div n == 1"), scope) is False


def test_powers_of_small_bases_have_no_bound() -> None:
    assert evaluate(formula.parse("1**99999 + 0**99999 + (-1)**99999"), Numbers({})) == 0


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("m + 1", "there is no number named m; there is: a, n"),
        ("nn", "there is no number named nn; did you mean n?"),
        ("mn(1, 2)", "there is no number named mn; did you mean min?"),
        ("n(1)", "n is a number; nothing can stand behind it"),
        ("n.q", "n is a number; nothing can stand behind it"),
        ("min(1)", "min takes 2 numbers, found 1"),
        ("ceil_log2(1, 2)", "ceil_log2 takes 1 number, found 2"),
        ("ceil_log2(0)", "ceil_log2(0) has no value; the number must be 1 or more"),
        ("1 div (n - 6)", "1 div 0: division by zero"),
        ("1 mod 0", "1 mod 0: division by zero"),
        ("2**(0 - 1)", "2**-1: the exponent must not be negative"),
        ("9**9**9", "the number is too large: more than 8192 bits"),
        ("2**8191 * 4", "the number is too large: more than 8192 bits"),
        ("1 + (a == 1)", "found a truth value where a number was expected"),
        ("not n", "found 6 where something true or false was expected"),
        ("n and a == 1", "found 6 where something true or false was expected"),
        (
            "n after 3",
            "n after 3: “after” has no meaning in a circuit text; time is the procedure's",
        ),
    ],
)
def test_messages(text: str, message: str) -> None:
    place = Place("rain.yaml", 4, 9)
    with pytest.raises(TextError) as wrong:
        evaluate_at(formula.parse(text), Numbers({"a": 1, "n": 6}), place)
    assert str(wrong.value) == f"rain.yaml:4:9: {message}"


def test_x_has_no_value() -> None:
    with pytest.raises(UnknownBit) as wrong:
        evaluate(formula.parse("X + 1"), Numbers({}))
    assert str(wrong.value) == "X has no value"
    with pytest.raises(UnknownBit, match="1X has no value"):
        apply("+", Word.parse("1X"), 1)


def test_truth_and_number_keep_apart() -> None:
    assert truth(value=True) is True
    with pytest.raises(TextError):
        truth(1)
    with pytest.raises(TextError):
        number(value=True)


def test_every_function_can_be_called() -> None:
    for name, (arguments, about) in FUNCTIONS.items():
        assert call(name, [4] * arguments) >= 0
        assert about


def test_huge_powers_are_refused_at_once() -> None:
    begin = time.perf_counter()
    for text in ("9**9**9", "2**99999999999", "(2**8000)**(2**8000)", "*".join(["2**8000"] * 30)):
        with pytest.raises(TextError, match=f"more than {WIDEST} bits"):
            evaluate(formula.parse(text), Numbers({}))
    assert time.perf_counter() - begin < 5


def test_a_place_already_there_is_kept() -> None:
    class Elsewhere(Numbers):
        def look_up(self, name: formula.Name) -> int:
            raise EdgewiseError(f"no {name.base}", Place("other.md", 1, 1))

    with pytest.raises(EdgewiseError) as wrong:
        evaluate_at(formula.parse("a"), Elsewhere({}), Place("rain.yaml", 4, 9))
    assert str(wrong.value) == "other.md:1:1: no a"
