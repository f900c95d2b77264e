"""Hazards of designs: what was played is a pulse, what is added takes it away, what is said."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from edgewise import blueprint, catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.study.cost import models
from edgewise.study.inside import Manner, hazards, inside
from edgewise.words import messages

DESIGNS: tuple[tuple[str, Mapping[str, int]], ...] = (
    ("ripple-carry-adder", {"n": 2}),
    ("carry-skip-adder", {"n": 4, "m": 2}),
    ("carry-lookahead-adder", {"n": 3}),
    ("sklansky-adder", {"n": 4}),
)


@pytest.mark.parametrize(("name", "numbers"), DESIGNS)
def test_the_solver_finds_what_all_inputs_show(name: str, numbers: Mapping[str, int]) -> None:
    design = catalogue.design(name, **numbers)
    every, solved = hazards.of(design), hazards.of(design, few=0)
    assert every.complete
    assert solved.complete
    seen = [(one.output, one.kind, one.changed, one.operands) for one in every.found]
    assert seen == [(one.output, one.kind, one.changed, one.operands) for one in solved.found]
    assert all(one.pairs for one in every.found)


@pytest.mark.parametrize(("name", "numbers"), DESIGNS)
def test_a_pulse_is_seen_inside(name: str, numbers: Mapping[str, int]) -> None:
    """By `trace --inside 0 --before`, with the seed that is told."""
    design = catalogue.design(name, **numbers)
    found = hazards.of(design)
    assert found.found
    for one in found.found:
        assert one.pulse is not None
        after = one.operands[one.pulse.rises]
        spread, seed = (90, one.pulse.seed) if one.pulse.seed else (0, 1)
        moment = inside(
            run(design, **after),
            0,
            manner=Manner(spread=spread, seed=seed),
            before=run(design, **one.before),
        )
        (net,) = design.netlist.find(one.output)
        bits = [moment.start[net], *(change.after for change in moment.of([net]))]
        assert tuple(bits) == one.pulse.bits
        assert len(one.pulse.bits) >= (4 if one.kind == "dynamic" else 3)


LAMPS = """
circuit: lamps of a lock
inputs: {a: 1, b: 1, c: 1}
parts:
  N: {part: not, in: a}
  P: {part: and, in: [a, b]}
  Q: {part: and, in: [N.out, c]}
  F: {part: or, in: [P.out, Q.out]}
  G: {part: and, in: [F.out, N.out]}
  H: {part: or, in: [b, c]}
outputs: {open: F.out, shut: G.out, any: H.out}
operands: {a: 1, b: 1, c: 1}
"""


def lamps() -> hazards.Hazards:
    return hazards.of(blueprint.from_text(LAMPS, "lamps.yaml").design())


def test_what_is_said() -> None:
    assert lamps().text().splitlines() == [
        "output  hazard    before         changes  seen              added gates",
        "open    static 1  a=1, b=1, c=1  a ↓      1 0 1 (seed 1)    AND(b, c)",
        "shut    static 0  a=1, b=1, c=0  a ↓      0 1 0             OR(c)",
        "shut    dynamic   a=1, b=1, c=1  a ↓      0 1 0 1 (seed 1)  –",
        "",
        "2 outputs of 3 have a hazard while one input changes: gates and wires may take so long"
        " that they change more often than they have to",
        "without a hazard: any",
        "with its added gates each output computes the same and has no hazard of this kind any"
        " more: proved; an AND goes into an OR behind the output, an OR into an AND",
        "a seed stands where the delays of the model show no pulse: they are moved by up to 90 %",
    ]


def test_what_is_said_in_german() -> None:
    assert lamps().text(messages.of("de")).splitlines() == [
        "Ausgang  Hazard      vorher         Änderung  gesehen                zusätzliche Gatter",
        "open     statisch 1  a=1, b=1, c=1  a ↓       1 0 1 (Startwert 1)    AND(b, c)",
        "shut     statisch 0  a=1, b=1, c=0  a ↓       0 1 0                  OR(c)",
        "shut     dynamisch   a=1, b=1, c=1  a ↓       0 1 0 1 (Startwert 1)  –",
        "",
        "2 Ausgänge von 3 haben einen Hazard, während ein Eingang sich ändert: Gatter und Leitungen"
        " können so lange brauchen, dass sie sich öfter ändern als nötig",
        "ohne Hazard: any",
        "mit seinen zusätzlichen Gattern berechnet jeder Ausgang dasselbe und hat keinen Hazard"
        " dieser Art mehr: bewiesen; ein UND kommt in ein ODER hinter dem Ausgang, ein ODER in ein"
        " UND",
        "ein Startwert steht, wo die Verzögerungen des Modells keinen Impuls zeigen: sie sind um"
        " bis zu 90 % verschoben",
    ]


def test_too_many_gates_are_told() -> None:
    found = hazards.of(catalogue.design("sklansky-adder", n=4), output="sum(3)")
    assert [(str(*one.added), one.whole) for one in found.found] == [
        ("OR(a(3), ¬a(1), ¬b(3), ¬b(2), ¬b(1))", False),
        ("AND(¬a(3), a(1), ¬b(3), b(2), b(1))", False),
    ]
    assert list(found.sentences())[1:] == [
        "where … stands it takes more than 8 gates; the one that is named takes the hazard away for"
        " these operands"
    ]


def test_no_hazard_is_said() -> None:
    found = hazards.of(catalogue.design("ripple-carry-adder-without-carry-in", n=1))
    assert found.text() == (
        "no output has a hazard while one input changes, however long each gate and each wire takes"
    )


def test_data() -> None:
    assert lamps().data()["hazards"][0] == {
        "output": "open",
        "kind": "static-1",
        "changed": "a",
        "operands": [{"a": 0, "b": 1, "c": 1}, {"a": 1, "b": 1, "c": 1}],
        "pairs": 1,
        "seen": {"bits": ["1", "0", "1"], "rises": False, "seed": 1},
        "added": ["AND(b, c)"],
        "whole": True,
    }


def test_one_output() -> None:
    design = catalogue.design("ripple-carry-adder", n=2)
    found = hazards.of(design, models.technology("74hc"), "sum(0)")
    assert (found.model, found.outputs, found.found) == ("74hc", ("sum(0)",), ())
    assert {one.output for one in hazards.of(design, output="sum").found} == {"sum(1)"}


@pytest.mark.parametrize(
    ("name", "output", "message"),
    [
        (
            "serial-adder",
            "",
            "serial-adder has flip-flops; hazards are looked for in circuits without",
        ),
        ("ripple-carry-adder", "a", "a is not an output; the outputs are sum, carry"),
        ("ripple-carry-adder", "summ", "there is no summ here; did you mean sum?"),
    ],
)
def test_what_is_refused(name: str, output: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        hazards.of(catalogue.design(name), output=output)
    assert str(caught.value) == message


def test_operands_with_a_sign_are_told_as_their_numbers() -> None:
    design = catalogue.design("twos-complement-adder-subtractor", n=2)
    shown = [given for one in hazards.of(design).found for given in one.operands]
    assert all(design.values(given) == given for given in shown)
    assert min(number for given in shown for number in given.values()) == -2
