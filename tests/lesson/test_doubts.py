"""What is doubtful in a design is said where its lesson is checked."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import catalogue, lesson
from edgewise.circuit.check import unread
from edgewise.errors import EdgewiseError

OVEN = """\
---
title: The bakery's counter
design: here
operands: {a: %d, b: 1}
---
```circuit
circuit: both ovens
inputs: {a: 1, b: 1}
parts:
  G: {part: and, in: [a, b]}
  IDLE: {part: not, in: a}
  SELF: {part: flip-flop, d: SELF.q}
outputs: {y: G.out}
operands: {a: 1, b: 1}
computes: {y: a + b - a}
```
"""


def notes(text: str) -> list[str]:
    """The notes of a lesson, as they are printed."""
    return [str(note) for note in lesson.check_text(text, "oven.md", Path()).notes]


def test_a_circuit_that_contradicts_itself_is_told_of() -> None:
    assert notes(OVEN % 0)[-1] == (
        "oven.md:4:11: warning: y is 0 (0), but the design's own computes says 1"
    )
    assert not any("computes" in note for note in notes(OVEN % 1))


def test_a_part_that_nothing_reads_is_told_of() -> None:
    found = [note for note in notes(OVEN % 1) if "reads" in note]
    assert found == [
        "oven.md:11:3: warning: nothing reads IDLE: connect what it gives, or leave it out",
        "oven.md:12:3: warning: nothing reads SELF: connect what it gives, or leave it out",
    ]


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_catalogue_has_no_idle_part(name: str) -> None:
    assert list(unread(catalogue.design(name).circuit)) == []


WRONG = """\
circuit: pairs
parameters: {n: 4}
inputs: {a: n, b: n}
parts:
  R: {part: shift-register, width: 4, in: 0}
  N: {part: not, in: R}
  M: {part: not, in: a}
  FA(i = 0..n-1): {part: full-adder, a: a(i), b: bb(i), carry-in: 0}
  HA(i = 0..n-1): {part: half-adder, a: a(i), b: b}
  S: {part: full-subtractor, a: a(0)}
outputs: {z: N.out}
---
circuit: full subtractor
inputs: {a: 1}
outputs: {y: a}
"""


def test_each_mistake_is_told_once_with_what_may_be_meant(tmp_path: Path) -> None:
    from edgewise import blueprint

    path = tmp_path / "pairs.yaml"
    path.write_text(WRONG, "utf-8")
    with pytest.raises(EdgewiseError) as raised:
        blueprint.from_file(path).design()
    assert [str(one).replace(str(path), "pairs.yaml") for one in raised.value.parts()] == [
        "pairs.yaml:6:22: part N: port in of not is 1 bit wide, but R.q(3..0) has 4 bits; for one"
        " bit write R.out or R(0)",
        "pairs.yaml:7:22: part M: port in of not is 1 bit wide, but a(3..0) has 4 bits; for one"
        " bit write a(0)",
        "pairs.yaml:8:50: there is no net or part named bb(0); did you mean b?",
        "pairs.yaml:9:50: part HA(0): port b of half-adder is 1 bit wide, but b(3..0) has 4 bits;"
        " for one bit write b(0)",
        "pairs.yaml:10:13: part S: there is no part full-subtractor; did you mean full subtractor?",
    ]
