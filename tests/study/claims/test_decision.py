"""Truths about runs, settled for all operands: every way comes to the same."""

from __future__ import annotations

import itertools
from collections.abc import Mapping

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.exhaustive import compiler
from edgewise.engines.symbolic.specification import Unsupported
from edgewise.errors import EdgewiseError
from edgewise.formula import parse
from edgewise.study.claims import decision
from edgewise.study.claims.decision import Settled, settle
from edgewise.study.claims.holding_edges import true
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.claims.shared_runs import Steps
from edgewise.study.claims.verdict import Verdict
from edgewise.study.claims.verdict import settle as settle_claim

SERIAL = catalogue.design("serial-adder", n=3)
ACCUMULATOR = catalogue.design("serial-accumulator", n=3, x=3)


def settled(text: str, design: Design, fixed: Mapping[str, int] | None = None) -> Settled:
    zeros = {operand.name: 0 for operand in design.operands} | dict(fixed or {})
    free = [operand.name for operand in design.operands if operand.name not in (fixed or {})]
    truth = ground(parse(text), Scope(Run(design, zeros)), free)
    return settle(design, truth, fixed)


def by_running(
    text: str, design: Design, fixed: Mapping[str, int] | None = None
) -> dict[str, int] | None:
    """The smallest operands for which it is false, found one run after the other."""
    values = [
        [(fixed or {})[o.name]] if o.name in (fixed or {}) else o.numbers for o in design.operands
    ]
    sets = sorted(itertools.product(*values), key=lambda s: (sum(v.bit_count() for v in s), s))
    for one in sets:
        operands = dict(zip((o.name for o in design.operands), one, strict=True))
        if not true(parse(text), Scope(Run(design, operands))):
            return operands
    return None


TRUTHS = (
    "S after end == (a + b) mod 2**n",
    "S after end - 1 == (a + b) mod 2**n",
    "S after end <= a + b",
    "S after end < a + b",
    "value(S after end) + 8 * (C after end) == a + b",
    "signed(A after load) == a - 8 * a(2) and signed(B(1..0) after load) <= 1",
    "known(A after load + 1) or b >= 0",
    "known(A after load) and not known(A after end)",
    "A(0) after 4 == 0",
    "C after end == 0 or max(a, b) >= 2**(n - 1)",
    "C before end <= 1 and min(a, 3) <= 3",
    "(C after 4) + (C after 5) < 2",
    "a != 5 or b != 2",
    "S(2..1) after end == ((a + b) mod 8) div 2",
    "a(2..1) >= a(0)",
    "edges(load) == n",
)


@pytest.mark.parametrize("text", TRUTHS)
@pytest.mark.parametrize("way", ["native", "proof"])
def test_every_way_agrees_with_running_all_operands(
    text: str, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    if way == "proof":
        monkeypatch.setattr(decision, "PATIENCE", -1.0)
    found, expected = settled(text, SERIAL), by_running(text, SERIAL)
    assert found.counterexample == expected
    assert found.outcome == ("proved" if expected is None else "refuted")
    assert found.engine in (way, "structure")
    assert found.smallest


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 12), st.integers(0, 7), st.sampled_from(("==", "<=", "<", "!=")))
@example(12, 0, "==")
def test_sums_of_a_family_agree_with_running(row: int, third: int, compare: str) -> None:
    text = f"A after {row} {compare} total(w) mod 2**n"
    fixed = {"w(3)": third}
    assert settled(text, ACCUMULATOR, fixed).counterexample == by_running(text, ACCUMULATOR, fixed)


def test_the_smallest_is_found_without_sat(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where SAT takes too long to find the smallest, all sets are gone through for it."""
    monkeypatch.setattr(decision, "_SMALLEST_IN", 0.0)
    for text in TRUTHS:
        assert settled(text, SERIAL).counterexample == by_running(text, SERIAL)


def test_time_up_is_undecided_and_never_a_guess(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(decision, "PATIENCE", -1.0)
    truth = parse("S after 6 == (a + b) mod 8")
    found = settle(SERIAL, truth, limit=0.0)
    assert (found.outcome, found.how) == ("undecided", "undecided: no proof in 0 s")
    assert found.counterexample is None


@pytest.mark.parametrize(
    ("n", "how", "engine"),
    [
        (12, "checked on all 16,777,216 operand pairs", "native"),
        (16, "checked on all 4,294,967,296 operand pairs", "native"),
        (24, "proved by SAT", "proof"),
    ],
)
def test_the_cheapest_way_is_taken(n: int, how: str, engine: str) -> None:
    found = settled("S after end == (a + b) mod 2**n", catalogue.design("serial-adder", n=n))
    assert (found.outcome, found.how, found.engine) == ("proved", how, engine)


def test_the_way_does_not_depend_on_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """A page says the same wherever it is built."""
    design = catalogue.design("serial-adder", n=12)
    hows = []
    for bits in (128, 512):
        monkeypatch.setattr(compiler, "best", lambda bits=bits: compiler.Vectors(bits))
        hows.append(settled("S after end == (a + b) mod 2**n", design))
    assert hows[0] == hows[1]


@pytest.mark.parametrize(
    "text",
    [
        "A after a == 0",
        "a**b == 0",
        "S(a) after 3 == 0",
    ],
)
def test_what_has_no_form_as_terms_is_refused(text: str) -> None:
    with pytest.raises(Unsupported):
        settled(text, SERIAL)


def test_what_is_found_false_is_run_on_the_reference_engine(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """An engine that is wrong does not get past the arbiter."""
    monkeypatch.setattr(compiler, "some", lambda *_, **__: True)
    monkeypatch.setattr(decision, "_smallest", lambda *_: {"a": 1, "b": 1})
    with pytest.raises(AssertionError, match="the reference engine finds it true"):
        settled("S after end == (a + b) mod 2**n", SERIAL)


# ---------------------------------------------------------------------- claims


def verdict(text: str, name: str = "serial-adder", **numbers: int) -> Verdict:
    return settle_claim(parse(text, "claim"), catalogue.find(name), numbers, {})


def test_few_combinations_are_run_on_the_reference_engine() -> None:
    claim = "S after end == (a + b) mod 2**n for all a, b"
    assert verdict(claim, n=5).engine == "reference"
    assert verdict(claim, n=6).engine == "native"


def test_ways_may_differ_from_case_to_case() -> None:
    assert verdict("S after end == (a + b) mod 2**n for n in 1..18 for all a, b").how == (
        "checked on all 91,625,968,980 operand pairs for n = 1 to 18"
    )


@pytest.mark.parametrize(
    ("text", "n", "instead"),
    [
        ("S after end - 1 == (a + b) mod 2**n for all a, b", 16, "It holds from edge 32 on."),
        ("A after 3 == a for all a, b", 12, "It holds after edge 12 only."),
        ("C after 20 == 0 for all a, b", 12, "It holds after edges 0 to 12 only."),
        ("S after 30 == a + b for all a, b", 16, ""),
        ("S after 39 == (a + b) mod 2**n for all a, b", 40, "It holds from edge 80 on."),
    ],
)
def test_the_edges_at_which_it_holds_instead(text: str, n: int, instead: str) -> None:
    assert str(verdict(text, n=n).instead) == instead


def test_shared_steps_do_not_change_a_run() -> None:
    steps = Steps(SERIAL)
    for run in steps.runs(("a", "b"), {}):
        assert run.trace.rows == Run(SERIAL, run.operands).trace.rows


def test_errors_keep_their_words() -> None:
    for n in (3, 16):
        with pytest.raises(EdgewiseError) as caught:
            verdict("Z after 2 == 1 for all a, b", n=n)
        assert str(caught.value).startswith("there is no Z here; there is: A, B, C, S, a, a_in")
