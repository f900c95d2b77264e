"""The three-valued tables and gates, held against the four-valued ones of IEEE 1800.

Outside: IEEE Std 1800-2023 (SystemVerilog), 11.4.8 bitwise operators, 11.4.9 reduction
operators, 11.4.11 conditional operator, evaluated by the constant evaluator of pyslang, an
independent front end of that language.

Two differences, both wanted:

* There is no z here. IEEE 1800 lets a known conditional pass a z on; in all other operators
  a z counts as x, so z is read as X.
* IEEE 1800, 11.4.3, gives all x for a sum as soon as one operand bit is x or z. The adders
  here are made of gates, so that only those sum bits are X that the gates can't decide.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.bits import Word, X, bit_and, bit_mux, bit_not, bit_or, bit_xor
from edgewise.circuit.builder import Builder
from edgewise.circuit.flatten import flatten
from edgewise.engines.reference import settle

BITS = (0, 1, X)
FOUR = "01xz"


@lru_cache(maxsize=1)
def session() -> Any:
    import pyslang

    return pyslang.ast.ScriptSession()


def evaluated(expression: str, width: int = 1) -> Word:
    """What IEEE 1800 makes of an expression, z read as X."""
    value = session().eval(expression).value
    return Word.parse("".join(str(value[i]).replace("z", "X") for i in reversed(range(width))))


def literal(word: Word) -> str:
    return f"{word.width}'b{str(word).lower()}"


def three(digit: str) -> int:
    return X if digit in "xz" else int(digit)


@pytest.mark.parametrize("a", FOUR)
def test_not(a: str) -> None:
    assert evaluated(f"~1'b{a}").bit(0) == bit_not(three(a))


@pytest.mark.parametrize(("a", "b"), list(product(FOUR, FOUR)))
def test_and_or_xor(a: str, b: str) -> None:
    pair = three(a), three(b)
    assert evaluated(f"1'b{a} & 1'b{b}").bit(0) == bit_and(pair)
    assert evaluated(f"1'b{a} | 1'b{b}").bit(0) == bit_or(pair)
    assert evaluated(f"1'b{a} ^ 1'b{b}").bit(0) == bit_xor(pair)


@pytest.mark.parametrize(("select", "one", "zero"), list(product(FOUR, FOUR, FOUR)))
def test_conditional(select: str, one: str, zero: str) -> None:
    outside = evaluated(f"1'b{select} ? 1'b{one} : 1'b{zero}").bit(0)
    assert outside == bit_mux(three(select), three(zero), three(one))


def test_a_z_is_passed_on_there_but_not_known_here() -> None:
    assert str(session().eval("1'b1 ? 1'bz : 1'b0").value) == "1'bz"
    assert bit_mux(1, 0, three("z")) == X


def words(width: int) -> st.SearchStrategy[Word]:
    return st.lists(st.sampled_from(BITS), min_size=width, max_size=width).map(Word.from_bits)


@given(st.integers(1, 70).flatmap(lambda n: st.tuples(words(n), words(n))))
def test_words(pair: tuple[Word, Word]) -> None:
    a, b = pair
    one, other, n = literal(a), literal(b), a.width
    assert evaluated(f"{one} & {other}", n) == a & b
    assert evaluated(f"{one} | {other}", n) == a | b
    assert evaluated(f"{one} ^ {other}", n) == a ^ b
    assert evaluated(f"~{one}", n) == ~a


@given(st.sampled_from(BITS), st.integers(1, 70).flatmap(lambda n: st.tuples(words(n), words(n))))
def test_word_multiplexer(select: int, pair: tuple[Word, Word]) -> None:
    zero, one = pair
    b = Builder("choice")
    ports = {name: b.input(name, zero.width) for name in ("d0", "d1")}
    chosen = b.part("M", "multiplexer", ports | {"select": b.input("s")}, {"width": zero.width})
    b.output("y", chosen["out"])
    netlist = flatten(b.circuit())
    row = settle(netlist, (), {"d0": zero, "d1": one, "s": (select,)})
    outside = evaluated(f"1'b{'01x'[select]} ? {literal(one)} : {literal(zero)}", zero.width)
    assert Word.from_bits(row[net] for net in netlist.outputs["y"]) == outside


REDUCTIONS = {"and": "&", "or": "|", "xor": "^", "nand": "~&", "nor": "~|", "xnor": "~^"}


@pytest.mark.parametrize("gate", REDUCTIONS)
@pytest.mark.parametrize("inputs", [2, 3, 4])
def test_gates(gate: str, inputs: int) -> None:
    b = Builder(gate)
    b.output("y", b.part("G", gate, {"in": b.input("x", inputs)})["out"])
    netlist = flatten(b.circuit())
    for bits in product(BITS, repeat=inputs):
        row = settle(netlist, (), {"x": bits})
        outside = evaluated(f"{REDUCTIONS[gate]}{literal(Word.from_bits(bits))}")
        assert row[netlist.outputs["y"][0]] == outside.bit(0), bits


@pytest.mark.parametrize(
    "name",
    ["ripple-carry-adder-without-carry-in", "carry-lookahead-adder-without-carry-in"],
)
@given(pair=st.tuples(words(5), words(5)))
def test_sums_know_at_least_what_ieee_1800_knows(name: str, pair: tuple[Word, Word]) -> None:
    a, b = pair
    netlist = catalogue.design(name, n=5).netlist
    row = settle(netlist, (), {"a": a, "b": b})
    ours = Word.from_bits(row[net] for net in (*netlist.outputs["sum"], *netlist.outputs["carry"]))
    outside = evaluated(f"6'(5'({literal(a)})) + 6'(5'({literal(b)}))", 6)
    if a.known and b.known:
        assert ours == outside
        return
    assert str(outside) == "XXXXXX"
    # Whatever the gates decide in spite of an X holds for every value the X may have.
    for one, other in product(meanings(a), meanings(b)):
        exact = evaluated(f"6'd{one} + 6'd{other}", 6)
        assert all(mine in (X, bit) for mine, bit in zip(ours, exact, strict=True)), (one, other)


def meanings(word: Word) -> list[int]:
    """Every number that a word with X may stand for; two of each X at most are tried."""
    numbers = [word.ones]
    for i in range(word.width):
        if word.bit(i) == X:
            numbers += [number | 1 << i for number in numbers]
    return [numbers[0], numbers[-1], *numbers[1:-1][:6]]
