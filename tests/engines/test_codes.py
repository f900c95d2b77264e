"""Every engine reads operands and outputs in their codes as the reference engine does."""

from __future__ import annotations

from itertools import product

import pytest

from edgewise import blueprint, run
from edgewise.arithmetic import evaluate
from edgewise.codes import NAMES
from edgewise.design import Design
from edgewise.engines.exhaustive.check import check
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.sat.bounded import computes
from edgewise.errors import DesignError, UnknownBit
from edgewise.formula import parse
from edgewise.study.claims.decision import settle
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope

WIRE = """
circuit: wire
inputs: {{a: 4, b: 4}}
outputs: {{y: a {0}, plain: a, z: b}}
operands: {{a: 4 {0}, b: 4}}
computes: {{y: "{1}", z: b}}
"""


def wire(code: str, says: str = "a") -> Design:
    return blueprint.from_text(WIRE.format(code, says), "wire.yaml").design().check()


@pytest.mark.parametrize("code", NAMES)
def test_what_a_wire_computes(code: str) -> None:
    design = wire(code)
    numbers = [*design.operands[0].numbers]
    for a in numbers:
        trace = run(design, a=a, b=5)
        assert trace.word("y", 0).value == a
        assert design.read("y", trace.word("y", 0)) == a == design.expected(trace.operands)["y"]
    settled = check(design)
    assert (settled.holds, settled.checked) == (True, len(numbers) * 16)
    assert computes(design).outcome == "proved"


@pytest.mark.parametrize("code", NAMES)
def test_what_it_does_not_compute(code: str) -> None:
    """The engines find the same numbers of the same operands wrong."""
    design = wire(code, "max(a - 1, 0 - 6)")
    wrong = [a for a in design.operands[0].numbers if max(a - 1, -6) != a]
    settled = check(design)
    assert settled.failures == 16 * len(wrong)
    assert settled.counterexample is not None
    assert settled.counterexample["a"] in wrong
    proof = computes(design)
    assert proof.counterexample is not None
    assert proof.counterexample.operands["a"] in wrong


@pytest.mark.parametrize("code", NAMES)
@pytest.mark.parametrize(
    "claim",
    [
        "y == a",
        "plain == a",
        "signed(plain) == a",
        "ones_complement(plain) <= a",
        "sign_magnitude(a(3..0)) == a",
        "gray(plain) == a or b > 3",
        "bcd(plain) == a or b > 3",
        "known(y) and value(y) >= 0",
    ],
)
def test_claims_come_out_as_in_every_single_run(code: str, claim: str) -> None:
    design, truth = wire(code), parse(claim, "claim").truth

    def holds(a: int, b: int) -> bool:
        try:
            return evaluate(truth, Scope(Run(design, {"a": a, "b": b}))) is True
        except UnknownBit:
            return False

    sets = product(design.operands[0].numbers, range(16))
    false = [{"a": a, "b": b} for a, b in sets if not holds(a, b)]
    scope = Scope(Run(design, {"a": 0, "b": 0}))
    settled = settle(design, ground(truth, scope, ("a", "b")))
    assert (settled.outcome == "proved") == (not false)
    if false:
        assert settled.counterexample in false


def test_a_space_has_the_sets_of_its_codes() -> None:
    design = wire("bcd")
    space = Space.of(design)
    assert (space.size, space.sets) == (256, 160)
    assert space.decode(space.number({"a": 7, "b": 12})) == {"a": 7, "b": 12}


def test_one_word_has_one_code() -> None:
    text = WIRE.format("gray", "a").replace("plain: a", "plain: a bcd")
    with pytest.raises(DesignError) as caught:
        blueprint.from_text(text, "wire.yaml").design().check()
    assert str(caught.value) == (
        "wire.yaml:2:1: a and plain are one word, declared as gray and as bcd; give it one code"
    )
