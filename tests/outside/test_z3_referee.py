"""Claims settled by the proof engine, settled again by z3.

Outside: z3, an independent solver with bit vectors of its own. It is given the meaning of
the claim (whole-number arithmetic on operands) and sees neither our circuit nor our terms.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

import pytest

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.sat import bounded
from edgewise.engines.sat.outcome import Proof
from edgewise.engines.symbolic import specification
from edgewise.engines.symbolic.arithmetic import Truth, Words
from edgewise.engines.symbolic.specification import Named, given
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import Row
from edgewise.formula import parse

N: Final = 8
WIDE: Final = 40
"""Bits in which z3 counts: nothing below overflows."""

Meaning = Callable[[Any, Any, Any, Any], Any]
"""The claim for z3: of a, b, sum and carry."""


def if_(condition: Any, yes: Any, no: Any) -> Any:
    import z3

    return z3.If(condition, yes, no)


def any_of(*conditions: Any) -> Any:
    import z3

    return z3.Or(*conditions)


CLAIMS: Final[Mapping[str, tuple[bool, Meaning]]] = {
    "sum + 2**n * carry == a + b": (True, lambda a, b, s, c: s + (c << N) == a + b),
    "carry == 0 or sum < a": (True, lambda a, _, s, c: any_of(c == 0, s < a)),
    "carry == 0 or sum < min(a, b)": (
        True,
        lambda a, b, s, c: any_of(c == 0, s < if_(a < b, a, b)),
    ),
    "carry == 0 or sum <= a - 2": (False, lambda a, _, s, c: any_of(c == 0, s <= a - 2)),
    "sum != a or b == 0": (True, lambda a, b, s, _: any_of(s != a, b == 0)),
    "sum >= a": (False, lambda a, _b, s, _c: s >= a),
    "sum > a or b == 0": (False, lambda a, b, s, _: any_of(s > a, b == 0)),
    "sum <= 2**n - 2": (False, lambda _a, _b, s, _c: s <= 2**N - 2),
    "sum + 2**n * carry <= 2**(n + 1) - 2": (True, lambda _a, _b, s, c: s + (c << N) <= 2**9 - 2),
    "sum mod 3 == (a + b) mod 3": (False, lambda a, b, s, _: s % 3 == (a + b) % 3),
    "(sum + 256 * carry) mod 5 == (a mod 5 + b mod 5) mod 5": (
        True,
        lambda a, b, s, c: (s + (c << N)) % 5 == (a % 5 + b % 5) % 5,
    ),
    "sum div 2 + 128 * carry == (a + b) div 2": (
        True,
        lambda a, b, s, c: s / 2 + 128 * c == (a + b) / 2,
    ),
    "sum div 7 == a div 7 + b div 7": (False, lambda a, b, s, _: s / 7 == a / 7 + b / 7),
    "a * a != 2 * b * b or a == 0": (
        True,  # the square root of 2 is no fraction
        lambda a, b, _s, _c: any_of(a * a != 2 * b * b, a == 0),
    ),
    "a * b != 221 or carry == 0": (True, lambda a, b, _, c: any_of(a * b != 221, c == 0)),
    "a * b != 143 or a > b": (False, lambda a, b, _s, _c: any_of(a * b != 143, a > b)),
}
"""In our words and in z3's: whether it is true, and its meaning."""


def settled(text: str) -> Proof:
    design: Design = catalogue.design("serial-adder", n=N)

    def claim(terms: Terms, rows: Sequence[Row]) -> Term:
        words, known = Words(terms), given(design, terms)
        answers = {
            name: words.reading(rows[-1][net] for net in nets)
            for name, nets in design.netlist.outputs.items()
        }
        scope = Named(terms, {**known.numbers, **answers})
        lowered = specification.lower(parse(text), terms, scope)
        assert isinstance(lowered, Truth)
        return terms.both(lowered.one, lowered.unknown ^ 1)

    return bounded.prove(design, claim, seconds=60)


@pytest.mark.parametrize("text", CLAIMS)
def test_z3_agrees(text: str) -> None:
    import z3

    true, meaning = CLAIMS[text]
    a, b = z3.BitVec("a", N), z3.BitVec("b", N)
    wide_a, wide_b = (z3.ZeroExt(WIDE - N, x) for x in (a, b))
    total = wide_a + wide_b
    holds = meaning(wide_a, wide_b, total & (2**N - 1), z3.LShR(total, N))

    def found(*more: Any) -> bool:
        solver = z3.Solver()
        solver.add(z3.Not(holds), *more)
        answer = solver.check()
        assert answer != z3.unknown
        return bool(answer == z3.sat)

    ours = settled(text)
    assert (ours.outcome == "proved") is true
    assert found() is not true
    if ours.counterexample:
        x, y = (ours.counterexample.operands[name] for name in "ab")
        assert ours.counterexample.smallest
        assert found(a == x, b == y)
        ones = z3.Sum([z3.BV2Int(z3.Extract(i, i, word)) for word in (a, b) for i in range(N)])
        count = x.bit_count() + y.bit_count()
        assert not found(ones < count)
        lower = z3.Or(z3.ULT(a, x), z3.And(a == x, z3.ULT(b, y)))
        assert not found(ones == count, lower)
