"""Two's-complement overflow: its two textbook definitions, and the integers of NumPy."""

from __future__ import annotations

import numpy as np
import pytest

from edgewise import catalogue, run
from edgewise.engines.sat.bounded import computes
from edgewise.formula import parse
from edgewise.study.claims.decision import settle
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope

BY_SIGNS = (
    "(overflow == 1) == (value(a({0})) == (value(b({0})) + subtract) mod 2"
    " and value(result({0})) != value(a({0})))"
)
"""Overflow where both that are added have one sign and the result has the other."""


@pytest.mark.parametrize("n", [2, 8, 24])
def test_both_definitions_are_one(n: int) -> None:
    """Mano and Ciletti, Digital Design, sec. 4.5: carries into and out of the sign (from memory).

    Wakerly, sec. 2.6.3: the signs of the addends and of the sum (from memory).
    """
    design = catalogue.design("twos-complement-adder-subtractor", n=n)
    assert computes(design).outcome == "proved"
    # b is complemented where it is subtracted: what is added then is ~b, of the other sign.
    scope = Scope(Run(design, {"a": 0, "b": 0, "subtract": 0}))
    truth = parse(BY_SIGNS.format(n - 1), "claim").truth
    settled = settle(design, ground(truth, scope, ("a", "b", "subtract")))
    assert settled.outcome == "proved"


def test_the_result_is_that_of_int8() -> None:
    """NumPy's int8 wraps as the circuit does; its wider sum tells where it had to."""
    design = catalogue.design("twos-complement-adder-subtractor", n=8)
    chance = np.random.default_rng(3)
    for a, b, subtract in chance.integers((-128, -128, 0), (128, 128, 2), (150, 3)).tolist():
        wide = a - b if subtract else a + b
        trace = run(design, a=a, b=b, subtract=subtract)
        assert trace.word("result", 0).value == int(np.array(wide).astype(np.int8))
        assert trace.word("overflow", 0).value == (not -128 <= wide < 128)
