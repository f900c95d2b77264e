"""Formulas and claims on the page mean what they mean in a lesson."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from edgewise import catalogue, formula
from edgewise.arithmetic import evaluate
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.formula import Node
from edgewise.lesson.expression import Run, Scope, shown
from edgewise.publish.stage import design_data
from tests.strategies import numbers_of, timed_of, truths_of
from tests.web.telling import of_stage
from tests.web.workshop import load

if TYPE_CHECKING:
    from playwright.sync_api import Page

RUN: Final = Run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
NAMES: Final = ("a", "b", "n", "edges", "end", "A", "C", "S", "load", "none")
WORDED: Final = (
    "S after end",
    "S(5..3) after 9",
    "S(n-1) after 12",
    "FA.carry-out before 8",
    "FA.X1.out after 7",
    "A after load",
    "A after load + 2",
    "value(A after load)",
    "signed(B after 6)",
    "known(A after 7)",
    "known(A after 6) and not known(A after 12)",
    "A after 12 == 3",
    "edges(load) + edges(add)",
    "edges(rinse)",
    "a(2)",
    "a(5..3)",
    "a(9)",
    "A(9) after 2",
    "B after 13",
    "B before 0",
    "total(a)",
    "ceil_log2(n) + floor_log2(n)",
    "ceil_log2(0)",
    "min(a, b) - max(a, b)",
    "-7 div 2",
    "-7 mod 3",
    "7 mod -3",
    "7 div 0",
    "2**70 + 1",
    "2**9000",
    "2**-1",
    "1 == (1 == 1)",
    "S",
    "X",
    "S == 1",
    "(64 * (C after end) + (S after end)) == a + b",
)

EVALUATE: Final = """\
([design, operands, trees]) => {
  const values = Object.fromEntries(
    Object.entries(operands).map(([name, value]) => [name, BigInt(value)]));
  const played = { design, operands: values, rows: simulator.run(design, values) };
  return trees.map((tree) => {
    try {
      return formulas.shown(formulas.evaluate(tree, played));
    } catch (wrong) {
      if (wrong instanceof formulas.Meaningless) return "none";
      return `${wrong}`;
    }
  });
}
"""


def in_python(node: Node, run: Run = RUN) -> str:
    """The value as a lesson prints it, or ``none``."""
    try:
        return shown(evaluate(node, Scope(run)))
    except EdgewiseError:
        return "none"


def in_browser(page: Page, nodes: list[Node], run: Run = RUN) -> list[str]:
    made: Any = design_data.design(run.design)
    made["names"] = {name: list(bits) for name, bits in run.design.netlist.names.items()}
    operands = {name: str(value) for name, value in run.operands.items()}
    trees = [design_data.tree(node) for node in nodes]
    return list(page.evaluate(EVALUATE, [made, operands, trees]))


def test_formulas_of_every_kind_have_the_same_value(page: Page) -> None:
    load(page, "formulas")
    nodes = [formula.parse(text) for text in WORDED]
    found = dict(zip(WORDED, in_browser(page, nodes), strict=True))
    assert found == {text: in_python(node) for text, node in zip(WORDED, nodes, strict=True)}


def test_families_and_phases_have_the_same_value(page: Page) -> None:
    load(page, "formulas")
    run = Run(catalogue.design("serial-accumulator", n=5, x=3), {"w(1)": 3, "w(2)": 9, "w(3)": 7})
    texts = (
        "total(w)",
        "w(2)",
        "w(2)(3..1)",
        "w(4)",
        "w",
        "C after add(1)",
        "C after add",
        "edges(add)",
        "edges(add(2))",
        "A after end == total(w) mod 2**n",
    )
    nodes = [formula.parse(text) for text in texts]
    assert in_browser(page, nodes, run) == [in_python(node, run) for node in nodes]


def test_grown_formulas_have_the_same_value(page: Page) -> None:
    load(page, "formulas")
    grown: list[Node] = []

    @settings(
        max_examples=400,
        database=None,
        derandomize=True,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(st.one_of(numbers_of(NAMES), truths_of(NAMES), timed_of(NAMES)))
    def gather(node: Node) -> None:
        grown.append(node)

    gather()
    assert in_browser(page, grown) == [in_python(node) for node in grown]


CHECK: Final = """\
([design, operands, claim, told]) => {
  const values = Object.fromEntries(
    Object.entries(operands).map(([name, value]) => [name, BigInt(value)]));
  const { state, why } = formulas.check(new words.Words(told),
    claim, { design, operands: values, rows: simulator.run(design, values) });
  return [state, why];
}
"""


@pytest.mark.parametrize(
    ("text", "state", "why"),
    [
        ("S after 12 == (a + b) mod 64 for all a, b", "holds", ""),
        ("edges == 2*n for n in 1..64", "holds", ""),
        ("edges == 2*n for n in 8..64", "silent", "it speaks of n in 8..64 only"),
        ("S after 12 == 7", "fails", "S after 12 is 000001 (1); expected 7"),
        ("S after 14 == 1", "silent", "there is no edge 14; the edges are 0..12"),
        ("A after 12 == 0", "fails", "A after 12 is XXXXXX, which has no value"),
        ("known(A after 12)", "fails", ""),
    ],
)
def test_a_claim_holds_fails_or_says_nothing(page: Page, text: str, state: str, why: str) -> None:
    load(page, "formulas", "words")
    claim = design_data.claim(text, formula.parse(text, "claim"))
    wanted = [design_data.design(RUN.design), {"a": "22", "b": "43"}, claim, of_stage()]
    assert page.evaluate(CHECK, wanted) == [state, why]


def test_the_trace_of_this_file_is_the_reference_engines() -> None:
    assert RUN.trace.rows == reference.run(RUN.design, RUN.given).rows
