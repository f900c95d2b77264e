from __future__ import annotations

import json
from collections.abc import Sequence

import pytest

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.study.faults import detection as study
from edgewise.study.faults.detection import breakage
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import BENCH_CAUTION, faults, share
from edgewise.study.operands.choose import told
from edgewise.words.messages import ENGLISH
from tests.conftest import Golden
from tests.engines.test_conformance import small

OPEN_INPUT = ENGLISH("fault-caution-open-input")


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("inside", [False, True])
def test_every_fault_makes_a_sound_design(name: str, *, inside: bool) -> None:
    design = small(name)
    known = {part.name for part in design.circuit.parts}
    known |= {gate.name for gate in design.netlist.gates}
    for fault in faults(design, inside=inside):
        assert fault.design.check().name == f"{name} ({fault.name})"
        assert fault.sentence.endswith(".")
        for where in fault.where:
            assert where in known or where in design.netlist.labels or design.netlist.find(where)
    names = [fault.name for fault in faults(design, inside=inside)]
    assert len(set(names)) == len(names)


def by_runs(design: Design, tried: Sequence[Fault]) -> list[list[int]]:
    """For each fault the sets that show it: every set run on the reference engine."""
    space = Space.of(design)
    sets = [space.decode(number) for number in range(space.size)]
    truth = [told(design, operands) for operands in sets]
    return [
        [i for i, operands in enumerate(sets) if told(fault.design, operands) != truth[i]]
        for fault in tried
    ]


@pytest.mark.parametrize("name", ["serial-adder-gated-clock", "serial-accumulator-cleared"])
def test_what_shows_a_fault_run_by_run(name: str) -> None:
    design = catalogue.design(name, n=2, **({"x": 2} if "accumulator" in name else {}))
    tried = faults(design)
    space = Space.of(design)
    first = space.decode(0)
    broken = breakage(design, first, tried)
    for line, shows in zip(broken.lines, by_runs(design, tried), strict=True):
        least = min(shows, key=lambda i: (sum(space.decode(i).values()), i), default=None)
        assert line.sets == len(shows), line.fault.name
        assert line.smallest == (None if least is None else space.decode(least))
        assert line.detected == (0 in shows)


def test_the_table_of_faults(golden: Golden) -> None:
    lines = []
    for name, operands in (
        ("serial-adder-gated-clock", {"a": 2, "b": 1}),
        ("serial-accumulator-cleared", {"w": [3, 1]}),
        ("johnson-counter", {}),
    ):
        broken = breakage(small(name), operands)
        lines += [name, *broken.sentences()]
        lines += [
            f"  {line.fault.sentence} [{', '.join(line.fault.where)}]" for line in broken.lines
        ]
        lines += [f"| {' | '.join(line)}" for line in broken.table()]
        assert json.loads(json.dumps(broken.data()))["design"] == name
    golden("study-breakage.txt", "\n".join(lines) + "\n")


def test_cautions() -> None:
    gated = breakage(small("serial-adder-gated-clock"), {"a": 1, "b": 1})
    assert gated.cautions == (BENCH_CAUTION, OPEN_INPUT, GATED_CLOCK_CAUTION)
    assert breakage(small("serial-adder"), {"a": 1, "b": 1}).cautions == (
        BENCH_CAUTION,
        OPEN_INPUT,
    )


def test_the_late_enable_shows_where_the_enable_falls() -> None:
    """With a hold phase after the addition, the false edge spoils the carry."""
    from dataclasses import replace

    from edgewise.design import Feed, Phase

    design = catalogue.design("serial-adder-gated-clock", n=2)
    rest = (Feed("shift", 0), Feed("a_in", 0), Feed("b_in", 0))
    held = replace(design, procedure=(*design.procedure, Phase("hold", 2, rest))).check()
    (late,) = (f for f in faults(held) if f.kind == "late enable")
    assert late.cautions == (GATED_CLOCK_CAUTION,)
    assert told(held, {"a": 3, "b": 3}) == "sum 10, carry 1"
    assert told(late.design, {"a": 3, "b": 3}) == "sum 10, carry X"


@pytest.mark.parametrize("tiny", [0, 1, 4])
def test_the_solver_finds_what_looking_at_all_finds(
    monkeypatch: pytest.MonkeyPatch, tiny: int
) -> None:
    monkeypatch.setattr(study, "_TINY", tiny)
    design = catalogue.design("serial-adder", n=3)
    looked = breakage(design, {"a": 3, "b": 1})
    monkeypatch.setattr(study, "EXHAUSTIVE", 0)
    solved = breakage(design, {"a": 3, "b": 1})
    assert not solved.exhaustive
    for one, other in zip(looked.lines, solved.lines, strict=True):
        assert (one.smallest is None) == (other.smallest is None), one.fault.name
        if one.smallest and other.smallest:
            assert sum(one.smallest.values()) == sum(other.smallest.values()), one.fault.name
        if tiny == 4:
            assert one.smallest == other.smallest
        assert one.never == other.never


def test_what_is_not_known_for_want_of_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(study, "EXHAUSTIVE", 0)
    monkeypatch.setattr(study, "_SECONDS", 0.0)
    monkeypatch.setattr(study, "_TINY", 0)
    design = catalogue.design("serial-adder", n=3)
    tried = [fault for fault in faults(design) if fault.name in ("C stuck at 0", "no clock at S")]
    broken = breakage(design, {"a": 1, "b": 2}, tried)
    assert [line.detected_by for line in broken.lines] == ["not known", "not known"]
    assert broken.sentences()[:2] == (
        "The example a = 1, b = 2 detects 1 of 2 single faults: fault coverage 50.0 %.",
        "Whether any operands detect C stuck at 0 and no clock at S is not known: time was up.",
    )


def test_of_a_large_design_places_are_drawn_and_told() -> None:
    design = catalogue.design("serial-adder", n=64)
    for inside in (False, True):
        tried, places = share(design, inside=inside)
        assert tried < places
        told = breakage(design, {"a": 1, "b": 1}, faults(design)[:1], inside=inside).sentences()
        assert told[1] == (
            f"Only {tried} of the {places} places at which a wire can be broken were tried, drawn"
            " at random: it is too large to try them all."
        )
        stuck = [fault for fault in faults(design, inside=inside) if fault.kind == "stuck"]
        assert len(stuck) <= 2 * tried
