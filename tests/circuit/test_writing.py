"""Circuit text written from circuits: reading it again gives them back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from edgewise import blueprint, catalogue, designtext
from edgewise.bits import X
from edgewise.circuit import writing
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Tie
from edgewise.design import Design, Operand
from edgewise.engines import reference
from edgewise.errors import DesignError

# Ports of circuits that they use as parts have hyphens in their names, which a text can't say.
RENAMED: Final = frozenset(
    {n for n in catalogue.ORDER if "lookahead" in n}
    | {n for n in catalogue.ORDER if n.startswith("carry-s") and n != "carry-save-accumulator"}
    | {n for n in catalogue.ORDER if n.startswith("carry-i")}
    | {"sklansky-adder", "kogge-stone-adder", "brent-kung-adder", "han-carlson-adder"}
    | {"ladner-fischer-adder"}
)  # fmt: skip


def again(design: Design) -> Design:
    text = designtext.text(design)
    return blueprint.from_text(text, "again.yaml", name=design.name).design()


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_catalogue_design_comes_back(name: str) -> None:
    design = catalogue.design(name)
    read = again(design)
    assert read.circuit == design.circuit or name in RENAMED
    assert read.netlist.inputs == design.netlist.inputs
    assert read.netlist.flip_flops == design.netlist.flip_flops
    gates = [(g.operator, g.inputs, g.output) for g in design.netlist.gates]
    assert [(g.operator, g.inputs, g.output) for g in read.netlist.gates] == gates
    assert (read.operands, read.procedure) == (design.operands, design.procedure)
    assert dict(read.parameters) == dict(design.parameters)
    assert designtext.text(read) == designtext.text(design)  # formulas too, position apart


@pytest.mark.parametrize(
    ("name", "parameters"),
    [
        ("serial-adder", {"n": 64}),
        ("serial-accumulator", {"n": 5, "x": 4}),
        ("carry-lookahead-adder", {"n": 13}),
        ("carry-select-adder", {"n": 20, "c": 1}),
        ("kogge-stone-adder", {"n": 16, "c": 1}),
        ("crc-register", {"n": 8, "poly": 7, "x": 2}),
    ],
)
def test_other_parameters_come_back_and_run_alike(name: str, parameters: dict[str, int]) -> None:
    design = catalogue.design(name, **parameters)
    operands = {
        o.name: o.number((37 * i + 11) % (1 << o.width)) for i, o in enumerate(design.operands, 1)
    }
    one, other = (reference.run(d, operands) for d in (design, again(design)))
    assert one.edges == other.edges
    for output in design.circuit.outputs:
        for row in range(one.edges + 1):
            assert one.word(output.name, row) == other.word(output.name, row)


def part_names(circuit: Circuit, around: str = "") -> Iterator[str]:
    """The names of all parts, those of circuits used as parts too, with what they are in."""
    for part in circuit.parts:
        yield around + part.name
        if part.kind.inside is not None:
            yield from part_names(part.kind.inside, f"{around}{part.name}.")


@pytest.mark.parametrize(
    ("name", "parameters"),
    [(name, {}) for name in catalogue.ORDER]
    + [
        ("crc-register", {"n": 16, "poly": 0xA001, "x": 1, "xor_out": 0xFFFF}),
        ("ring-counter", {"n": 9}),
        ("carry-skip-adder", {"n": 13, "m": 3, "c": 1}),
        ("carry-lookahead-adder", {"n": 64}),
        ("han-carlson-adder", {"n": 23}),
    ],
)
def test_every_part_name_of_the_catalogue_can_be_written(
    name: str, parameters: dict[str, int]
) -> None:
    design = catalogue.design(name, **parameters)
    names = list(part_names(design.circuit))
    assert names
    own = [one.rpartition(".")[2] for one in names]
    assert [one for one in own if writing.plain(one) != one] == []
    assert list(part_names(again(design).circuit)) == names


def test_a_part_name_that_can_not_be_written_is_found() -> None:
    b = Builder("odd")
    b.output("y", b.part("X(1)", "not", {"in": b.input("x")})["out"])
    design = Design("odd", b.circuit(), operands=(Operand("x", 1),))
    assert list(part_names(again(design).circuit)) == ["X_(1)"] != list(part_names(b.circuit()))


def test_a_text_circuit_with_parts_of_its_own_comes_back() -> None:
    text = """\
circuit: two-gauge minimum
inputs: {a: 4, b: 4, a_less: 1}
parts:
  pick: {part: chooser, width: 4, when_0: b, when_1: a, which: a_less}
  low: {part: chooser, width: 2, when_0: "b(1..0)", when_1: [0, X], which: "a(3)"}
outputs: {least: pick, few: low}
---
circuit: chooser
parameters: {width: 1 in 1..64}
inputs: {when_0: width, when_1: width, which: 1}
parts:
  M: {part: multiplexer, width: width, d0: when_0, d1: when_1, select: which}
outputs: {chosen: M}
"""
    circuit = blueprint.from_text(text, "minimum.yaml").make({}).circuit
    assert (
        writing.text(circuit)
        == """\
circuit: two-gauge minimum
inputs: {a: 4, b: 4, a_less: 1}
parts:
  pick: {part: chooser, width: 4, when_0: b, when_1: a, which: a_less}
  low: {part: chooser 2, width: 2, when_0: b(1..0), when_1: [0, X], which: a(3)}
outputs: {least: pick, few: low}
---
circuit: chooser
parameters: {width: 4}
inputs: {when_0: 4, when_1: 4, which: 1}
parts:
  M: {part: multiplexer, width: 4, d0: when_0, d1: when_1, select: which}
outputs: {chosen: M}
---
circuit: chooser 2
parameters: {width: 2}
inputs: {when_0: 2, when_1: 2, which: 1}
parts:
  M: {part: multiplexer, width: 2, d0: when_0, d1: when_1, select: which}
outputs: {chosen: M}
"""
    )
    read = blueprint.from_text(writing.text(circuit), "again.yaml").make({}).circuit
    assert read.part("pick") == circuit.part("pick")


def test_joins_constants_and_families_are_written() -> None:
    b = Builder("row: of [odd] names")
    x = b.input("x", 6)
    held = b.net("held", 6)
    b.join(held, (*x[3:], Tie(X), Tie(1), Tie(0)))
    for i in range(4):
        b.part(f"G({i})", "and", {"in": (x[i], held[5 - i])})
    b.output("last", b.part("E", "buffer", {"in": x[5]})["out"])
    assert (
        writing.text(b.circuit())
        == """\
circuit: "row: of [odd] names"
inputs: {x: 6}
nets: {held: 6}
join: {held: [0, 1, X, x(5..3)]}
parts:
  G(i = 0..3): {part: and, in: [held(5 - i), x(i)]}
  E: {part: buffer, in: x(5)}
outputs: {last: E.out}
"""
    )
    assert blueprint.from_text(writing.text(b.circuit()), "x.yaml").make({}).circuit == b.circuit()


def test_an_altered_circuit_has_no_text() -> None:
    design = catalogue.design("serial-adder")
    altered = Design(design.name, design.circuit, altered=design.netlist)
    with pytest.raises(DesignError) as wrong:
        designtext.text(altered)
    assert str(wrong.value) == "serial-adder runs an altered circuit, which has no text"


def test_a_written_catalogue_file_is_given_as_it_stands() -> None:
    text = catalogue.text("serial-adder")
    assert text is not None
    assert text.startswith("circuit: bit-serial adder\nabout: >-\n")
    assert catalogue.text("carry-lookahead-adder") is None
    assert (Path(catalogue.__file__).parent / "serial-adder.yaml").read_text("utf-8") == text
