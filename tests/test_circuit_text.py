"""docs/circuit-text.md is complete and every circuit in it builds."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from edgewise import blueprint, run
from edgewise.circuit import parts
from edgewise.formula import RESERVED
from edgewise.shelf import ENTRIES
from edgewise.study.inside import follow

TEXT = (Path(__file__).parents[1] / "docs" / "circuit-text.md").read_text("utf-8")
CIRCUITS = re.findall(r"^```yaml\n(.*?)^```", TEXT, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("text", CIRCUITS, ids=lambda text: str(text).splitlines()[0])
def test_every_circuit_runs_and_computes_what_it_says(text: str) -> None:
    made = blueprint.from_text(text, "circuit-text.md")
    if made.made().waveforms:
        response = follow(made.made())
        assert response.quiet
        assert response.stimuli
        return
    design = made.design()
    for value in (0, 1):
        operands = {operand.name: value for operand in design.operands}
        trace = run(design, **operands)
        for purpose in design.computes:
            row = trace.edges if purpose.after is None else purpose.after
            assert (
                trace.word(purpose.output, row).value == design.expected(operands)[purpose.output]
            )


def test_every_part_with_all_its_ports_and_settings_is_in_the_table() -> None:
    table = TEXT.split("<!-- parts -->")[1].split("\n\n")[1]
    for kind in parts.registry().values():
        (line,) = [line for line in table.splitlines() if f"`{kind.name}`" in line.split("|")[1]]
        given = {setting.name: setting.default or 4 for setting in kind.settings}
        everything = {"left": 1, "d0": 1, "d1": 1}
        for port in kind.ports(given, everything):
            assert f"`{port.name}`" in line
        for setting in kind.settings:
            assert f"`{setting.name}`" in line


def test_every_entry_and_every_word_of_the_notation_is_told() -> None:
    for entry in ENTRIES:
        assert re.search(rf"^\|.*`{entry}`.*\|", TEXT, re.MULTILINE)
    for word in RESERVED:
        assert f"`{word}`" in TEXT
