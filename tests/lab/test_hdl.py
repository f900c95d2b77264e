"""Circuits in both languages, judged by independent implementations of the standards.

Outside: Debian's iverilog (IEEE 1800) and ghdl (IEEE 1076) compile with all warnings, of which
there may be none, and run the bench; pyslang, another front end of IEEE 1800, elaborates the
SystemVerilog and has nothing to say.
"""

from __future__ import annotations

import itertools
import re
from pathlib import Path
from typing import Final

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import Phase as Stage
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.blueprint import Blueprint
from edgewise.circuit import parts
from edgewise.circuit.builder import Builder
from edgewise.circuit.gates import gate
from edgewise.circuit.truth import Truth
from edgewise.design import Design, Feed, Phase
from edgewise.engines import gating, reference
from edgewise.lab import export, stimulus
from edgewise.trace import Trace
from tests import strategies
from tests.circuit.and_or_invert import AND_OR_INVERT
from tests.circuit.jk_flip_flop import JK_FLIP_FLOP
from tests.circuit.majority import MAJORITY
from tests.circuit.toggle_flip_flop import TOGGLE_FLIP_FLOP
from tests.conftest import Golden
from tests.lab import judges
from tests.lab.judges import PASSED
from tests.lab.runs import sizes, some_run

LANGUAGES: Final = tuple(judges.JUDGES)
UNSHRUNK: Final = (Stage.explicit, Stage.generate)  # each try is a compilation


def judged(language: str, run: Trace, folder: Path) -> judges.Verdict:
    """What the judges say of a run's design and its bench."""
    told = Blueprint(run.design.name, "a circuit", (), lambda _: run.design)
    text, bench = export.description(told, run.design, language, run)
    assert language != "systemverilog" or judges.diagnostics(text, bench) == []
    return judges.JUDGES[language](folder, text, bench)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_catalogue_does_what_its_runs_say(name: str, language: str, tmp_path: Path) -> None:
    one = catalogue.find(name)
    for numbers in sizes(one):
        assert judged(language, some_run(one.design(numbers)), tmp_path) == PASSED, numbers


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_fault_fails_on_the_bench(name: str, language: str, tmp_path: Path) -> None:
    """One output inverted, or cut off: the bench ends with an error and names that output."""
    one = catalogue.find(name)
    run = some_run(one.design())
    text, bench = export.description(one, run.design, language, run)
    output = next(iter(run.design.netlist.outputs))
    faulty = seeded(text, output, language)
    verdict = judges.JUDGES[language](tmp_path, faulty, bench, strict=False)
    assert verdict.status != 0
    assert re.search(rf"FAIL: row \d+: {output} is [01xzUX]+, expected [01x-]+", verdict.said)
    assert "PASS" not in verdict.said


SAMPLED: Final = ("serial-adder", "shift-add-multiplier", "universal-shift-register", "lfsr")
"""Designs of several kinds; scripts/judge_hdl.py has all of them."""


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", [*SAMPLED, "serial-adder-gated-clock", "carry-skip-adder"])
def test_random_rows_and_laws_hold(name: str, language: str, tmp_path: Path) -> None:
    one = catalogue.find(name)
    design = one.design()
    text, bench = export.description(one, design, language, some_run(design), with_laws=True)
    drawn = export.random_bench(design, language, stimulus.random_run(design, 60, 5), 5)
    for each in (bench, drawn):
        assert language != "systemverilog" or judges.diagnostics(text, each) == []
        assert judges.JUDGES[language](tmp_path, text, each) == PASSED


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_law_that_does_not_hold_fails(language: str, tmp_path: Path) -> None:
    one = catalogue.find("serial-adder")
    run = reference.run(one.design({"n": 4}), {"a": 5, "b": 14})
    text, bench = export.description(one, run.design, language, run, with_laws=True)
    broken = bench.replace("(5 + 14)", "(5 + 13)", 1)
    assert broken != bench
    verdict = judges.JUDGES[language](tmp_path, text, broken)
    assert verdict.status != 0
    assert "FAIL: row 8: sum is " in verdict.said


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_third_reader_of_systemverilog_has_nothing_to_say(name: str, tmp_path: Path) -> None:
    one = catalogue.find(name)
    run = some_run(one.design())
    text, bench = export.description(one, run.design, "systemverilog", run, with_laws=True)
    assert judges.lint(tmp_path, text, bench) == judges.Verdict(0, "")


@pytest.mark.slow
def test_where_no_bit_is_unknown_the_bench_passes_and_a_fault_fails(tmp_path: Path) -> None:
    """A program of 0s and 1s, by verilator: what is unknown in the run is not compared."""
    one = catalogue.find("serial-in-parallel-out")
    run = some_run(one.design())
    text, bench = export.description(one, run.design, "systemverilog", run, with_laws=True)
    assert "PASS\n" in judges.two_state(tmp_path, text, bench).said
    verdict = judges.two_state(tmp_path, seeded(text, "word", "systemverilog"), bench)
    assert verdict.status != 0
    assert "FAIL: row 0: word is" in verdict.said or "FAIL: row 1: word is" in verdict.said


def seeded(text: str, output: str, language: str) -> str:
    """A fault at the output of the outermost module."""
    start, inverted, cut = {
        "systemverilog": (
            "\nmodule ",
            (rf"(assign {output}(?:\[.*\])? = )(.*);", r"\1~(\2);"),
            (rf"\.sum\({output}(\[[^]]*\])?\)", ".sum()"),
        ),
        "vhdl": (
            "\nentity ",
            (rf"(\n +{output}(?:\(.*\))? <= )(.*);", r"\1not (\2);"),
            (rf"sum => {output}(\([^)]*\))?", "sum => open"),
        ),
    }[language]
    top = text.rindex(start)
    for pattern, instead in (inverted, cut):
        changed = re.sub(pattern, instead, text[top:], count=1)
        if changed != text[top:]:
            return text[:top] + changed
    raise AssertionError(f"nothing drives {output}")


# The bits that are known in a run are known in all that a language makes of its X, too.
@pytest.mark.parametrize("language", LANGUAGES)
@settings(max_examples=20, suppress_health_check=[HealthCheck.too_slow], phases=UNSHRUNK)
@given(data=st.data())
def test_any_circuit_does_what_its_run_says(
    tmp_path_factory: pytest.TempPathFactory, language: str, data: st.DataObject
) -> None:
    design = data.draw(strategies.designs())
    run = reference.run(design, design.values(data.draw(strategies.operands_of(design))))
    assume(not list(gating.disturbed(run)))
    assert judged(language, run, tmp_path_factory.mktemp("grown")) == PASSED


NAMES: Final = """
circuit: signal box
inputs: {Drop: 1, wire(i = 0..1): 2}
nets: {drop: 1, begin: 1, process: 2}
join: {process: wire(1), begin: Drop}
parts:
  Q: {part: flip-flop, d: begin, q: drop}
  q: {part: register, width: 2, d: process}
  or_2(i = 0..3): {part: or, in: [q(0), drop]}
  or_2_0: {part: nand, in: [or_2(0).out, or_2(3).out, wire(0)]}
outputs: {select: q, out: or_2_0.out, end: drop, write: Drop, failure: Drop, row_number: Drop}
operands: {a: 1, b: 2}
procedure:
  - {phase: gather, edges: 3, Drop: a, wire(0): b, wire(1): 2}
"""


@pytest.mark.parametrize("language", LANGUAGES)
def test_names_that_a_language_has_no_place_for(language: str, tmp_path: Path) -> None:
    """Reserved words, indices, and pairs that differ in the size of a letter only."""
    design = blueprint.from_text(NAMES, "box.yaml").design()
    run = reference.run(design, design.values({"a": 1, "b": 3}))
    assert judged(language, run, tmp_path) == PASSED


# Made for n = 6, run at the smallest value of the parameter that stays one, and at another.
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    ("name", "low"),
    [("serial-adder", 3), ("ripple-carry-adder", 3), ("bit-serial-multiplier", 4)],
)
def test_a_parameter_stays_one(name: str, low: int, language: str, tmp_path: Path) -> None:
    one = catalogue.find(name)
    text, _ = export.description(one, one.design({"n": 6}), language)
    assert f"n can be {low} to 64." in text
    usual = {"systemverilog": "parameter int n = 6)", "vhdl": f"range {low} to 64 := 6)"}[language]
    assert usual in text
    for n in (low, 19):
        run = some_run(one.design({"n": n}))
        _, bench = export.description(one, run.design, language, run)
        given = text.replace(usual, usual.replace("6)", f"{n})"))
        assert judges.JUDGES[language](tmp_path, given, bench) == PASSED, n


GAUGES: Final = """
circuit: rain and tide
parameters: {n: 5 in 1..40, m: 4 in 1..40}
inputs: {drop: 1, tide: 1}
parts:
  RAIN: {part: counter, width: n, enable: drop}
  TIDE: {part: shift-register, width: m, in: tide}
  HIGH: {part: and, in: [TIDE.out, RAIN(n - 1)]}
outputs: {rain: RAIN, tides: TIDE, alarm: HIGH.out}
operands: {drop: 1, tide: 1}
procedure: [{phase: fall, edges: 8}]
"""
BOTH: Final = GAUGES.replace("width: m", "width: n + m")


@pytest.mark.parametrize("language", LANGUAGES)
def test_two_parameters_stay_two(language: str, tmp_path: Path) -> None:
    one = blueprint.from_text(GAUGES, "gauges.yaml")
    text, _ = export.description(one, one.design(), language)
    assert "n can be 2 to 40, and m can be 3 to 40." in text
    usual = {
        "systemverilog": "parameter int n = 5, parameter int m = 4)",
        "vhdl": "n : natural range 2 to 40 := 5; m : natural range 3 to 40 := 4)",
    }[language]
    assert usual in text
    for n, m in ((2, 17), (11, 3)):
        design = one.design({"n": n, "m": m})
        given = text.replace(usual, usual.replace("= 5", f"= {n}").replace("= 4)", f"= {m})"))
        bench = export.random_bench(design, language, stimulus.random_run(design, 20, 1), 1)
        assert judges.JUDGES[language](tmp_path, given, bench) == PASSED, (n, m)


def test_where_a_number_follows_two_parameters_one_of_them_is_written_out() -> None:
    one = blueprint.from_text(BOTH, "gauges.yaml")
    text, _ = export.description(one, one.design(), "systemverilog")
    assert "#(parameter int n = 5) (" in text
    assert "// Written out for m = 4." in text


def test_a_parameter_of_the_procedure_alone_is_not_told() -> None:
    one = catalogue.find("binary-counter")
    text, _ = export.description(one, one.design(), "systemverilog")
    assert "#(parameter int n = 4) (" in text
    assert "Written out" not in text


def test_what_cannot_follow_a_parameter_is_written_out() -> None:
    """A lookahead adder has other parts for each n; one of two bits is no vector of n bits."""
    for name, n in (("carry-lookahead-adder", 4), ("serial-adder", 1)):
        one = catalogue.find(name)
        text, _ = export.description(one, one.design({"n": n}), "systemverilog")
        assert f"// Written out for n = {n}.\n" in text
        assert "parameter" not in text


VOTE: Final = """
circuit: three tide gauges vote
inputs: {go: 1, a_in: 1, b_in: 1, c_in: 1}
parts:
  VOTE:  {part: majority, a: a_in, b: b_in, c: c_in}
  CALM:  {part: and-or-invert, a: a_in, b: b_in, c: b_in, d: c_in}
  ODD:   {part: toggle-flip-flop, t: VOTE.out, enable: go}
  ALARM: {part: sluice-flip-flop, j: VOTE.out, k: CALM.out}
outputs: {odd: ODD.q, alarm: ALARM.q}
operands: {a: 4, b: 4, c: 4}
procedure:
  - {phase: vote, edges: 4, go: 1, a_in: a lsb-first, b_in: b lsb-first, c_in: c lsb-first}
"""


@pytest.mark.parametrize("language", LANGUAGES)
def test_parts_that_are_new(language: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Gates by their truth, storage elements by the gates and the flip-flop inside."""
    for new in (MAJORITY, AND_OR_INVERT, JK_FLIP_FLOP, TOGGLE_FLIP_FLOP):
        monkeypatch.setitem(parts._REGISTRY, new.name, new)
        monkeypatch.setattr(parts, "_BROUGHT", parts._BROUGHT | {new.name})
    design = blueprint.from_text(VOTE, "vote.yaml").design()
    run = reference.run(design, design.values({"a": 13, "b": 7, "c": 9}))
    assert judged(language, run, tmp_path) == PASSED


ALONE: Final = """
circuit: a lamp that nobody sees
parts:
  WARM: {part: shade}
---
circuit: shade
parts:
  K: {part: constant, width: 3, value: 5}
"""


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_circuit_without_ports(language: str, tmp_path: Path) -> None:
    """IEEE 1076-2008, 6.5.6.1: an interface list is not empty; the whole clause is left out."""
    design = blueprint.from_text(ALONE, "lamp.yaml").design()
    assert judged(language, reference.run(design, {}), tmp_path) == PASSED


TIDE_HOURS: Final = """
circuit: tide hours
inputs: {set: 1, known: 3, unknown: 1, go: 1}
parts:
  H: {part: counter, width: 4, modulo: 10, load: set, d: [known, unknown], enable: go}
outputs: {hour: H.q, last: H.terminal-count}
operands: {k: 3}
procedure:
  - {phase: set, edges: 1, set: 1, known: k, unknown: X, go: 0}
  - {phase: go, edges: 4, set: 0, known: X, unknown: X, go: 1}
"""


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_counter_that_is_known_in_part(language: str, tmp_path: Path) -> None:
    """After 100X comes X00X, not XXXX: 8 or 9 is followed by 9 or 0."""
    design = blueprint.from_text(TIDE_HOURS, "hours.yaml").design()
    run = reference.run(design, design.values({"k": 4}))
    assert str(run.word("H", 2)) == "X00X"
    for known in range(8):
        run = reference.run(design, design.values({"k": known}))
        assert judged(language, run, tmp_path) == PASSED, known


UNUSED: Final = itertools.count()  # kinds of parts are kept by name


def truths() -> st.SearchStrategy[Truth]:
    """Truths of the ports a, b and c, with operations inside operations."""
    leaves: st.SearchStrategy[Truth] = st.sampled_from(("a", "b", "c", 0, 1))

    def grown(inner: st.SearchStrategy[Truth]) -> st.SearchStrategy[Truth]:
        many = st.sampled_from(("and", "or", "xor"))
        return st.one_of(
            st.tuples(many, inner, inner),
            st.tuples(many, inner, inner, inner),
            st.tuples(st.just("not"), inner),
            st.tuples(st.just("choose"), inner, inner, inner),
        )

    return st.recursive(leaves, grown, max_leaves=8)


@pytest.mark.parametrize("language", LANGUAGES)
@settings(max_examples=5, suppress_health_check=[HealthCheck.too_slow], phases=UNSHRUNK)
@given(some=st.lists(truths(), min_size=20, max_size=20))
def test_operations_inside_operations(
    tmp_path_factory: pytest.TempPathFactory, language: str, some: list[Truth]
) -> None:
    """Gates with any truth, in all rows of their truth tables: parentheses where they must be."""
    with pytest.MonkeyPatch.context() as patch:
        b = Builder("float switches")
        fed = {port: b.input(f"{port}_in") for port in "abc"}
        for number, truth in enumerate(some):
            one = gate(f"drawn-{next(UNUSED)}", "drawn", ("a", "b", "c"), truth, "&")
            patch.setitem(parts._REGISTRY, one.name, one)
            b.output(f"y{number}", b.part(f"G{number}", one.name, fed)["out"])
        feeds = [
            tuple(Feed(f"{port}_in", row >> i & 1) for i, port in enumerate("abc"))
            for row in range(8)
        ]
        phases = tuple(Phase(f"row{row}", 1, feed) for row, feed in enumerate(feeds))
        design = Design("switches", b.circuit(), {}, (), phases).check()
        run = reference.run(design, design.values({}))
        assert judged(language, run, tmp_path_factory.mktemp("drawn")) == PASSED


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("places", [4, 16])
def test_a_large_multiplexer(language: str, places: int, tmp_path: Path) -> None:
    b = Builder("tide gauge dial")
    data = {f"d{i}": b.input(f"gauge{i}", 3) for i in range(places)}
    select = b.input("dial", (places - 1).bit_length())
    dial = b.part("DIAL", "multiplexer", {**data, "select": select}, {"width": 3})
    b.output("shown", dial["out"])
    feeds = tuple(Feed(f"gauge{i}", (5 * i + 3) % 8) for i in range(places))
    phases = tuple(Phase(f"gauge{i}", 1, (*feeds, Feed("dial", i or None))) for i in range(places))
    design = Design("dial", b.circuit(), {}, (), phases).check()
    assert judged(language, reference.run(design, design.values({})), tmp_path) == PASSED


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", ["serial-adder-gated-clock", "universal-shift-register"])
def test_golden(name: str, language: str, golden: Golden) -> None:
    one = catalogue.find(name)
    run = some_run(one.design({"n": 4}))
    text, bench = export.description(one, run.design, language, run)
    golden(f"hdl-{name}-{language}.txt", text + bench)
