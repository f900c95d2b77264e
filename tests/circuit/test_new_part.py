"""A new gate and a new storage element are one file each; everything else works with them.

Held against characteristic equations that no one here wrote: Q+ = J Q' + K' Q and Q+ = T XOR Q
(Mano and Ciletti, *Digital Design*, sec. 5.4, from memory); the majority of three bits is the carry
of their sum (arithmetic).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import blueprint as blueprints
from edgewise import catalogue, designtext
from edgewise.bits import X
from edgewise.circuit import parts
from edgewise.circuit.truth import KLEENE
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.exhaustive import check
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat import bounded
from edgewise.formula import parse
from edgewise.publish.html import page as pages
from edgewise.study.claims.carry_leak import leak
from edgewise.study.cost import measure, models
from edgewise.study.cost.models.hc74 import packages
from edgewise.study.cost.switching import operands as random_operands
from edgewise.study.cost.switching import toggles
from edgewise.study.coverage import measured
from edgewise.study.misconceptions import registry
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.svg import svg
from tests.circuit.and_or_invert import AND_OR_INVERT
from tests.circuit.jk_flip_flop import JK_FLIP_FLOP
from tests.circuit.majority import MAJORITY
from tests.circuit.toggle_flip_flop import TOGGLE_FLIP_FLOP
from tests.circuit.weigher import WEIGHER
from tests.engines import test_conformance as conformance
from tests.web.telling import told

if TYPE_CHECKING:
    from playwright.sync_api import Page

NEW: Final = (MAJORITY, AND_OR_INVERT, JK_FLIP_FLOP, TOGGLE_FLIP_FLOP, WEIGHER)
TEXT: Final = """\
circuit: three tide gauges vote
inputs: {go: 1, a_in: 1, b_in: 1, c_in: 1}
parts:
  VOTE:  {part: majority, a: a_in, b: b_in, c: c_in}
  CALM:  {part: and-or-invert, a: a_in, b: b_in, c: b_in, d: c_in}
  ODD:   {part: toggle-flip-flop, t: VOTE.out, enable: go}
  ALARM: {part: sluice-flip-flop, j: VOTE.out, k: CALM.out}
  S:     {part: shift-register, width: 2, in: VOTE.out, start: X}
outputs: {votes: S, odd: ODD.q, alarm: ALARM.q}
operands: {a: 2, b: 2, c: 2}
procedure:
  - {phase: vote, edges: 2, go: 1, a_in: a lsb-first, b_in: b lsb-first, c_in: c lsb-first}
computes:
  votes: >-
    (a mod 2 + b mod 2 + c mod 2) div 2 + 2 * ((a div 2 + b div 2 + c div 2) div 2)
  odd: >-
    ((a mod 2 + b mod 2 + c mod 2) div 2 + (a div 2 + b div 2 + c div 2) div 2) mod 2
"""
LESSON: Final = """\
---
title: Three tide gauges vote
design: gauges.yaml
operands: {a: 3, b: 2, c: 0}
---
The gauges.
"""


@pytest.fixture(autouse=True)
def known() -> Iterator[None]:
    """The new parts, made known by one call, and forgotten after."""
    parts.register(*NEW)
    yield
    for new in NEW:
        del parts._REGISTRY[new.name]  # nobody else forgets a part


def gauges() -> Design:
    return blueprints.from_text(TEXT, "gauges.yaml").design()


def sets() -> list[Mapping[str, int]]:
    return [dict(zip("abc", one, strict=True)) for one in itertools.product(range(4), repeat=3)]


def test_they_trace() -> None:
    design = gauges()
    for operands in sets():
        trace = reference.run(design, operands)
        odd = alarm = 0
        for row in range(2):
            a, b, c = (operands[name] >> row & 1 for name in "abc")
            vote, calm = (a + b + c) // 2, 1 - (a & b | b & c)
            assert [str(trace.word(name, row)) for name in ("VOTE.out", "CALM.out")] == [
                str(vote),
                str(calm),
            ]
            odd, alarm = odd ^ vote, vote & ~alarm & 1 | (1 - calm) & alarm
            assert trace.word("ODD", row + 1).value == odd
            assert trace.word("ALARM", row + 1).value == alarm


GATES: Final = [name for name, known in parts.registry().items() if known.function]


@pytest.mark.parametrize("name", [*GATES, MAJORITY.name, AND_OR_INVERT.name])
def test_a_gate_is_known_where_all_completions_agree(name: str) -> None:
    """Kleene, *Introduction to Metamathematics*, sec. 64: known where the known bits decide."""
    function = parts.function(name)
    many = len(function.reads) if len(function.reads) > 1 else 1 if not function.operation else 3
    machine = Machine(KLEENE)
    for bits in itertools.product((0, 1, X), repeat=many):
        free = [(0, 1) if bit == X else (bit,) for bit in bits]
        agreed = {machine.gate(name, whole) for whole in itertools.product(*free)}
        assert machine.gate(name, bits) == (agreed.pop() if len(agreed) == 1 else X), bits


@pytest.mark.parametrize("engine", conformance.ENGINES.values(), ids=conformance.ENGINES)
def test_every_engine_agrees(engine: conformance.Engine) -> None:
    conformance.agree(engine, gauges(), sets())


def test_they_are_proved_and_checked() -> None:
    settled = check.check(gauges())
    assert (settled.holds, settled.checked) == (True, 64)
    assert bounded.computes(gauges()).outcome == "proved"
    wrong = blueprints.from_text(TEXT.replace("(a mod 2 + b", "(b + b", 1), "gauges.yaml").design()
    assert not check.check(wrong).holds
    assert bounded.computes(wrong).outcome == "refuted"


COSTS: Final[Mapping[str, tuple[int, int]]] = {
    # Area and time of one majority and one and-or-invert beside one another, by hand: 2 AND + 2 OR,
    # of which an OR, an AND and an OR are on the slowest way; 2 AND + 1 NOR.
    "gate-count": (2, 1),
    "unit-gate": (7, 3),
    # 4 x 6 and 2 x 6 + 4 transistors; 74HC08, 74HC32, 74HC02: 4 AND, 2 OR, 1 NOR; 6 + 7 + 6 ns.
    "cmos": (40, 0),
    "74hc": (3, 19),
    "74hc-worst": (3, 54),
}


@pytest.mark.parametrize("model", models.names())
def test_they_cost(model: str) -> None:
    text = """\
circuit: two gates
inputs: {x: 4}
parts:
  VOTE: {part: majority, a: x(0), b: x(1), c: x(2)}
  CALM: {part: and-or-invert, a: x(0), b: x(1), c: x(2), d: x(3)}
outputs: {y: VOTE.out, z: CALM.out}
operands: {x: 4}
"""
    cost = measure.of(blueprints.from_text(text, "two.yaml").design(), models.technology(model))
    area, time = COSTS[model]
    assert cost.gates == 2
    assert cost.area == area
    # CMOS: an OR (p 12) that feeds an AND (g 4, p 12) that feeds an OR (g 5, p 12) and an output
    # (3), in thirds of tau: Sutherland, Sproull and Harris, Logical Effort, ch. 1 (from memory).
    assert cost.time == (time or Fraction(12 + 4 + 12 + 5 + 12 + 3, 3))
    assert measure.of(gauges(), models.technology(model)).flip_flops == 4


def test_their_packages() -> None:
    assert packages(gauges().netlist)["74HC02"] == 1


@pytest.mark.parametrize("style", ["distinctive", "rectangular"])
def test_they_are_drawn(style: Style) -> None:
    drawn = svg(diagram(reference.run(gauges(), {"a": 3, "b": 2, "c": 0}), 1, symbols=style))
    for said in (">n/2".replace(">", "&gt;"), "&amp;≥1", "VOTE", "ALARM", "ODD"):
        assert said in drawn, said
    assert ("1J" in drawn, "1,2T" in drawn) == (style == "rectangular",) * 2


def test_they_are_spoken_of() -> None:
    trace = reference.run(gauges(), {"a": 3, "b": 2, "c": 0})
    assert told(trace, 0) == "At the start: ODD = 0, ALARM = 0, S = XX."
    assert told(trace, 2) == (
        "Edge 2, phase vote: S shifted right (1 in, X out). ODD took 1 and ALARM took 1."
        " votes reads 10, which is 2, as expected. odd reads 1, as expected."
    )


def test_they_are_counted() -> None:
    design = gauges()
    seen = {bit.name: bit.both for bit in measured.coverage(design, {"a": 3, "b": 2, "c": 0}).gates}
    assert seen["VOTE"]
    assert {"CALM", "ODD.next", "ALARM.next"} <= seen.keys()
    known = random_operands(design, 5, 7)
    runs = [
        reference.run(design, {name: values[i] for name, values in known.items()}) for i in range(5)
    ]
    nets = [gate.output for gate in design.netlist.gates] + [f.q for f in design.netlist.flip_flops]
    changes = sum(
        (one[net] & 1) != (other[net] & 1)
        for run in runs
        for one, other in itertools.pairwise(run.rows)
        for net in nets
    )
    assert toggles(design, 5, 7).total == changes


def test_they_run_in_the_browser(page: Page, tmp_path: Path) -> None:
    (tmp_path / "gauges.yaml").write_text(TEXT, encoding="utf-8")
    lesson = tmp_path / "lesson.md"
    lesson.write_text(LESSON, encoding="utf-8")
    page.goto(pages.build(lesson, tmp_path / "out").as_uri())
    design = gauges()
    for operands in sets():
        trace = reference.run(design, operands)
        rows, said = page.evaluate(
            """(operands) => {
              const { stage } = document.querySelector("edgewise-stage");
              stage.play(0, Object.fromEntries(
                Object.entries(operands).map(([name, value]) => [name, BigInt(value)])));
              return [stage.run.map((row) => [...row]),
                stage.run.map((_, row) => stage.sentence(stage.run, row).trim())];
            }""",
            operands,
        )
        assert tuple(map(bytes, rows)) == trace.rows
        for row, sentence in enumerate(said):
            assert told(trace, row) in sentence


def serial(cell: str, x: str, y: str, c: str, weight: str, over: str) -> Design:
    """A serial accumulator of two words of two bits with a cell, whose carry is not cleared."""
    text = f"""\
circuit: flour sacks
inputs: {{sack: 1}}
parts:
  W: {{part: {cell}, {x}: A.out, {y}: sack, {c}: C.q}}
  C: {{part: flip-flop, d: W.{over}}}
  A: {{part: shift-register, width: 2, in: W.{weight}}}
outputs: {{weight: A}}
operands: {{a: 2, b: 2}}
procedure:
  - {{phase: first, edges: 2, sack: a lsb-first}}
  - {{phase: second, edges: 2, sack: b lsb-first}}
computes: {{weight: (a + b) mod 4}}
"""
    return blueprints.from_text(text, "sacks.yaml").design()


def test_a_new_adder_is_told_by_what_it_says_of_itself() -> None:
    """It counts as the full adder does: in coverage, in columns, and for misconceptions."""
    own = serial("weigher", "x", "y", "c", "weight", "over")
    known = serial("full-adder", "a", "b", "carry-in", "sum", "carry-out")
    for operands in ({"a": 3, "b": 1}, {"a": 1, "b": 3}, {"a": 2, "b": 3}):
        mine, theirs = (measured.coverage(one, operands) for one in (own, known))
        (adder,), (other,) = mine.adders, theirs.adders
        assert adder.full
        assert replace(adder, name=other.name, kind=other.kind) == other
        assert mine.carries == theirs.carries
    believed = [
        {idea.name: registry.answers(changed, {"a": 3, "b": 1}) for idea, changed in found}
        for found in map(registry.applicable, (own, known))
    ]
    assert believed[0] == believed[1]
    assert {"carry-dropped", "carry-stays-set", "or-for-sum", "carry-of-two"} <= set(believed[0])
    trace = reference.run(own, {"a": 3, "b": 1})
    assert {"W.weight", "W.over"} & set(trace.columns) == {"W.weight", "W.over"}


def test_a_carry_that_leaks_from_a_new_adder_is_found() -> None:
    own = serial("weigher", "x", "y", "c", "weight", "over").circuit
    assert {part.name for part in own.parts if part.kind.adds is not None} == {"W"}
    text = designtext.text(catalogue.design("serial-accumulator", n=4, x=3))
    ports = {"full-adder, a:": "weigher, x:", " b:": " y:", "carry-in:": "c:"}
    for old, new in {**ports, "FA.sum": "FA.weight", "FA.carry-out": "FA.over"}.items():
        text = text.replace(old, new)
    design = blueprints.from_text(text, "own.yaml").design()
    trace = reference.run(design, {"w": [8, 8, 0]})
    found = leak(trace, parse("A after end == total(w) mod 2**4"))
    assert found is not None
    assert (found.part, found.row) == ("C", 12)
