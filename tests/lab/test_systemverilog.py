"""SystemVerilog from circuits, judged by two independent implementations of IEEE 1800.

Outside: Debian's iverilog compiles it with all warnings and runs the bench; pyslang, another front
end of the standard, elaborates it and finds nothing to say.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.blueprint import Blueprint
from edgewise.engines import gating, reference
from edgewise.lab import export
from tests import strategies
from tests.conftest import Golden
from tests.lab import judges
from tests.lab.runs import sizes, some_run

PASSED = judges.Verdict(0, "PASS\n")


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_catalogue_does_what_its_runs_say(name: str, tmp_path: Path) -> None:
    blueprint = catalogue.find(name)
    for numbers in sizes(blueprint):
        run = some_run(blueprint.design(numbers))
        text, bench = export.description(blueprint, run.design, "systemverilog", run)
        assert judges.systemverilog(tmp_path, text, bench) == PASSED, numbers
        assert judges.diagnostics(text, bench) == [], numbers


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_fault_fails_on_the_bench(name: str, tmp_path: Path) -> None:
    """One output inverted: the bench ends with an error and names that output."""
    blueprint = catalogue.find(name)
    run = some_run(blueprint.design())
    text, bench = export.description(blueprint, run.design, "systemverilog", run)
    top, output = text.rindex("\nmodule "), next(iter(run.design.netlist.outputs))
    seeded = re.sub(rf"(assign {output}(?:\[.*\])? = )(.*);", r"\1~(\2);", text[top:], count=1)
    if seeded == text[top:]:  # an adder drives the output itself
        seeded = re.sub(rf"\.(sum)\({output}(\[[^]]*\])?\)", r".\1()", text[top:], count=1)
    assert seeded != text[top:]
    verdict = judges.systemverilog(tmp_path, text[:top] + seeded, bench, warnings=False)
    assert verdict.status == 1
    assert re.search(
        rf"^FAIL: row \d+: {output} is [01xz]+, expected [01x]+$", verdict.said, re.MULTILINE
    )


# The bits that are known in a run are known in all that HDL makes of its X, too.
@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_any_circuit_does_what_its_run_says(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    design = data.draw(strategies.designs())
    run = reference.run(design, design.values(data.draw(strategies.operands_of(design))))
    assume(not list(gating.disturbed(run)))
    blueprint = Blueprint("grown", "grown circuit", (), lambda _: design)
    text, bench = export.description(blueprint, design, "systemverilog", run)
    folder = tmp_path_factory.mktemp("grown")
    assert judges.systemverilog(folder, text, bench) == PASSED
    assert judges.diagnostics(text, bench) == []


@pytest.mark.parametrize("name", ["serial-adder", "bit-serial-multiplier"])
def test_golden(name: str, golden: Golden) -> None:
    blueprint = catalogue.find(name)
    run = some_run(blueprint.design({"n": 4}))
    text, bench = export.description(blueprint, run.design, "systemverilog", run)
    golden(f"hdl-{name}.sv.txt", text + bench)
