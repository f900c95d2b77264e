"""JK and T flip-flops row by row: traced by every engine, proved, measured, drawn, spoken of.

Outside: the characteristic equations Q+ = J Q' + K' Q and Q+ = T XOR Q (M. Mano and M. Ciletti,
*Digital Design*, sec. 5.4, from memory), and a JK flip-flop that keeps the carry of a serial adder,
J = x y, K = (x + y)' (the same, sec. 6.2, from memory).
"""

from __future__ import annotations

from itertools import product
from typing import Final

import pytest

from edgewise import blueprint
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.exhaustive import check
from edgewise.engines.sat import bounded
from edgewise.study.cost import measure, models
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.drawing.svg import svg
from tests.engines import test_conformance as conformance
from tests.web.telling import told

TEXT: Final = """\
circuit: sacks of two mills
inputs: {x: 1, y: 1}
parts:
  BOTH: {part: and, in: [x, y]}
  NONE: {part: nor, in: [x, y]}
  C:    {part: jk-flip-flop, j: BOTH.out, k: NONE.out}
  SUM:  {part: xor, in: [x, y, C.q]}
  S:    {part: shift-register, width: 3, in: SUM.out}
  ODD:  {part: t-flip-flop, t: SUM.out}
outputs: {sum: S, carry: C, odd: ODD}
operands: {a: 3, b: 3}
procedure: [{phase: add, edges: 3, x: a lsb-first, y: b lsb-first}]
computes: {sum: (a + b) mod 8, carry: (a + b) div 8}
"""


def mills() -> Design:
    return blueprint.from_text(TEXT, "mills.yaml").design()


@pytest.mark.parametrize("engine", conformance.ENGINES.values(), ids=conformance.ENGINES)
def test_every_engine_agrees(engine: conformance.Engine) -> None:
    conformance.agree(engine, mills(), [{"a": a, "b": b} for a, b in product(range(8), repeat=2)])


def test_a_jk_flip_flop_keeps_a_carry() -> None:
    assert check.check(mills()).holds
    assert bounded.computes(mills()).outcome == "proved"


def test_the_characteristic_equations() -> None:
    for a, b in product(range(8), repeat=2):
        trace = reference.run(mills(), {"a": a, "b": b})
        carry = odd = 0
        for row in range(3):
            x, y = a >> row & 1, b >> row & 1
            j, k, t = x & y, 1 - (x | y), x ^ y ^ carry
            carry, odd = (j & (1 - carry)) | ((1 - k) & carry), t ^ odd
            assert trace.word("C", row + 1).value == carry
            assert trace.word("ODD", row + 1).value == odd


def test_measured_drawn_and_spoken_of() -> None:
    cost = measure.of(mills(), models.technology("gate-count"))
    assert cost.flip_flops == 5
    trace = reference.run(mills(), {"a": 3, "b": 1})
    drawn = svg(diagram(trace, 1, symbols="rectangular"))
    assert all(label in drawn for label in (">1J<", ">1K<", ">1T<"))
    assert "C took 1" in told(trace, 1)
