"""The survey of a circuit's states: courses, loops, periods, and how they are told."""

from __future__ import annotations

import pytest

from edgewise import blueprint, catalogue
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.study.states import survey
from edgewise.words.messages import Words


@pytest.mark.parametrize(
    ("name", "numbers", "period"),
    [
        *(("ring-counter", {"n": n}, n) for n in (2, 5)),
        *(("johnson-counter", {"n": n}, 2 * n) for n in (1, 3, 4)),
        *(("binary-counter", {"n": n}, 2**n) for n in (1, 4)),
        *(("modulo-counter", {"m": m}, m) for m in (2, 6, 10)),
        ("lfsr", {"n": 4}, 15),
        ("lfsr", {"n": 7}, 127),
    ],
)
def test_periods_of_counters(name: str, numbers: dict[str, int], period: int) -> None:
    """Mano and Ciletti, Digital Design, sec. 6.5 (from memory); Golomb for the longest sequence."""
    found = survey(catalogue.design(name, **numbers))
    assert found.period == period
    assert len(found.graph.reached) == period


@pytest.mark.parametrize("name", ["johnson-counter", "modulo-counter", "lfsr", "ring-counter"])
def test_the_reference_engine_is_back_then_and_not_before(name: str) -> None:
    design = catalogue.design(name)
    found = survey(design)
    assert found.period is not None
    step = reference.edge(design.netlist)
    start = reference.at_rest(design).rows[0]
    held = [[start[one.q] for one in design.netlist.flip_flops]]
    for _ in range(found.period):
        row = reference.settle(design.netlist, held[-1], {})
        held.append(step(row))
    assert held.index(held[-1]) == 0
    assert held[0] not in held[1:-1]


def filling(start: str) -> Design:
    """Ones move into a register of two bits, and none ever leaves it."""
    text = "{circuit: filling, parts: {S: {part: shift-register, width: 2, in: 1, start: 0b%s}},"
    return blueprint.from_text(f"{text % start} outputs: {{s: S}}}}", "filling.yaml").design()


@pytest.mark.parametrize(
    ("start", "told"),
    [
        (
            "00",
            "3 of 4 states are reached from the start.\n"
            "The circuit passes 2 states once: 00, 10.\n"
            "Then it stays in one: 11.\n"
            "One state is not reached; a way leads back from there to those that are used.",
        ),
        (
            "10",
            "2 of 4 states are reached from the start.\n"
            "The circuit leaves its start, 10, for good.\n"
            "Then it stays in one: 11.\n"
            "2 states are not reached; a way leads back from there to those that are used.",
        ),
        (
            "11",
            "1 of 4 states are reached from the start.\n"
            "Every edge leaves the circuit at its start: 11.\n"
            "3 states are not reached; a way leads back from there to those that are used.",
        ),
    ],
)
def test_a_start_that_never_comes_again(start: str, told: str) -> None:
    found = survey(filling(start))
    assert "\n".join(found.sentences()) == told
    assert found.period == (1 if start == "11" else None)


def test_where_inputs_matter_no_course_is_told() -> None:
    found = survey(catalogue.design("serial-in-serial-out", n=2))
    assert (found.course, found.period, found.unused_loops) == (None, None, ())
    assert [*found.sentences()] == ["4 of 4 states are reached from the start."]


def test_in_german() -> None:
    found = survey(catalogue.design("ring-counter", n=3))
    assert [*found.sentences(Words("de"))] == [
        "3 von 8 Zuständen werden vom Start aus erreicht.",
        "Nach je 3 Flanken ist die Schaltung wieder im Startzustand: 100, 010, 001.",
        "5 Zustände werden nicht erreicht; kein Weg führt zurück zu den benutzten.",
        "3 von ihnen bilden eine Schleife: 011, 101, 110.",
        "Einem von ihnen folgt er selbst: 000.",
        "Einem von ihnen folgt er selbst: 111.",
    ]


def test_a_long_loop_is_told_by_its_ends() -> None:
    found = survey(catalogue.design("binary-counter", n=5))
    assert [*found.sentences()][1] == (
        "After every 32 edges the circuit is at its start again:"
        " 00000, 00001, 00010, 00011, 00100, 00101, …, 11111."
    )


def test_a_start_that_is_not_known() -> None:
    text = (
        "{circuit: odd, parts: {Q: {part: flip-flop, d: Q.inverted, start: X}}, outputs: {q: Q.q}}"
    )
    with_not = text.replace("d: Q.inverted", "d: N.out").replace(
        "parts: {", "parts: {N: {part: not, in: Q.q}, "
    )
    found = survey(blueprint.from_text(with_not, "odd.yaml").design())
    assert found.course is None
    assert sorted(found.graph.starts) == [0, 1]
