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
from edgewise.study.misconceptions.misconception import Misconception
from edgewise.study.misconceptions.registry import MISCONCEPTIONS
from tests.conftest import Golden
from tests.engines.test_conformance import agree, by_kernels, by_solver, small, spread

MAIN = ("serial-adder-gated-clock", "serial-accumulator-cleared", "ripple-carry-adder")


def applied(name: str) -> list[tuple[Misconception, Design]]:
    return list(registry.applicable(small(name)))


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_misconception_makes_a_sound_design(name: str) -> None:
    for misconception, changed in applied(name):
        assert changed.check().name == f"{name} ({misconception.name})"
        assert [p.output for p in changed.computes] == [p.output for p in small(name).computes]


@pytest.mark.parametrize("engine", [by_kernels(Slices(4)), by_solver], ids=["native", "proof"])
@pytest.mark.parametrize("name", MAIN)
def test_a_misconception_runs_on_all_engines(name: str, engine: Callable[..., object]) -> None:
    for _, changed in applied(name):
        agree(engine, changed, spread(Space.of(changed), 3))  # type: ignore[arg-type]


def test_where_each_misconception_applies(golden: Golden) -> None:
    lines = []
    for misconception in MISCONCEPTIONS:
        where = [name for name in catalogue.ORDER if misconception.of(small(name)) is not None]
        lines.append(f"{misconception.name}: {misconception.said()}")
        lines.append(f"  source: {misconception.source}")
        lines += [f"  needs {misconception.needs}", *(f"    {name}" for name in where)]
    golden("study-misconceptions.txt", "\n".join(lines) + "\n")


def test_why_a_misconception_does_not_apply() -> None:
    ripple = catalogue.design("ripple-carry-adder")
    assert str(registry.find("carry-stays-set").why_not(ripple)) == (
        "carry-stays-set needs a flip-flop that stores the carry of a full adder;"
        " ripple-carry-adder has none"
    )
    assert registry.find("carry-dropped").why_not(ripple) is None


def test_an_unknown_misconception_is_answered_with_the_nearest() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        registry.find("carry-droped")
    assert str(wrong.value) == "there is no misconception carry-droped; did you mean carry-dropped?"


def test_names_and_thoughts() -> None:
    assert len({one.name for one in MISCONCEPTIONS}) == len(MISCONCEPTIONS) == 17
    for misconception in MISCONCEPTIONS:
        assert misconception.said().endswith(".")
        assert not misconception.needs.endswith(".")


def test_changing_from_the_far_end_changes_nothing() -> None:
    """In a chain where each stage changes after the one it feeds, the order does not show."""
    design = catalogue.design("serial-in-parallel-out", n=4)
    netlist = design.netlist
    labels = [netlist.labels[f.q] for f in netlist.flip_flops]
    far_first = tuple(labels.index(f"R({i})") for i in range(4))
    assert circuit_edits.one_after_another(netlist, far_first) == netlist


def test_a_misconception_of_an_answer_of_one_bit() -> None:
    design = catalogue.design("serial-in-serial-out")
    assert registry.find("read-backwards").of(design) is None


def test_the_documentation_lists_every_misconception() -> None:
    page = (Path(__file__).parents[3] / "docs" / "misconceptions.md").read_text("utf-8")
    for one in MISCONCEPTIONS:
        assert f"| `{one.name}` | {one.said()} | {one.needs} | {one.source} |" in page
