from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.exhaustive.bigint import Slices
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.errors import EdgewiseError
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.registry import SLIPS, Slip
from tests.conftest import Golden
from tests.engines.test_conformance import agree, by_kernels, by_solver, small, spread

MAIN = ("serial-adder-gated-clock", "serial-accumulator-cleared", "ripple-carry-adder")


def applied(name: str) -> list[tuple[Slip, Design]]:
    return list(registry.applicable(small(name)))


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_slip_makes_a_sound_design(name: str) -> None:
    for slip, changed in applied(name):
        assert changed.check().name == f"{name} ({slip.name})"
        assert [p.output for p in changed.computes] == [p.output for p in small(name).computes]


@pytest.mark.parametrize("engine", [by_kernels(Slices(4)), by_solver], ids=["native", "proof"])
@pytest.mark.parametrize("name", MAIN)
def test_a_slip_runs_on_all_engines(name: str, engine: Callable[..., object]) -> None:
    for _, changed in applied(name):
        agree(engine, changed, spread(Space.of(changed), 3))  # type: ignore[arg-type]


def test_where_each_slip_applies(golden: Golden) -> None:
    lines = []
    for slip in SLIPS:
        where = [name for name in catalogue.ORDER if slip.of(small(name)) is not None]
        lines += [f"{slip.name}: {slip.thought}", f"  source: {slip.source}"]
        lines += [f"  needs {slip.needs}", *(f"    {name}" for name in where)]
    golden("study-slips.txt", "\n".join(lines) + "\n")


def test_why_a_slip_does_not_apply() -> None:
    ripple = catalogue.design("ripple-carry-adder")
    assert registry.find("carry-stays-set").why_not(ripple) == (
        "carry-stays-set needs a flip-flop that stores the carry of a full adder;"
        " ripple-carry-adder has none"
    )
    assert registry.find("carry-dropped").why_not(ripple) is None


def test_an_unknown_slip_is_answered_with_the_nearest() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        registry.find("carry-droped")
    assert str(wrong.value) == "there is no slip carry-droped; did you mean carry-dropped?"


def test_names_and_thoughts() -> None:
    assert len({slip.name for slip in SLIPS}) == len(SLIPS) == 17
    for slip in SLIPS:
        assert slip.thought.endswith(".")
        assert not slip.needs.endswith(".")


def test_changing_from_the_far_end_changes_nothing() -> None:
    """In a chain where each stage changes after the one it feeds, the order does not show."""
    design = catalogue.design("serial-in-parallel-out", n=4)
    netlist = design.netlist
    labels = [netlist.labels[f.q] for f in netlist.flip_flops]
    far_first = tuple(labels.index(f"R({i})") for i in range(4))
    assert circuit_edits.one_after_another(netlist, far_first) == netlist


def test_a_slip_of_an_answer_of_one_bit() -> None:
    design = catalogue.design("serial-in-serial-out")
    assert registry.find("read-backwards").of(design) is None


def test_the_documentation_lists_every_slip() -> None:
    page = (Path(__file__).parents[3] / "docs" / "slips.md").read_text("utf-8")
    for slip in SLIPS:
        assert f"| `{slip.name}` | {slip.thought} | {slip.needs} | {slip.source} |" in page
