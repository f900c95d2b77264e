"""The sheet of a design: what it says of a family is true of each member."""

from __future__ import annotations

import re

import pytest

from edgewise import catalogue, sheet
from edgewise.circuit.model import Part, Tie
from edgewise.design import Design
from edgewise.errors import DesignError

SIZES = (1, 2, 3, 4, 7, 8, 13, 16)


def told_of_each(text: str) -> dict[str, str]:
    """What the sheet's list of parts says of each single part, with i put in."""
    body = text.partition("\nparts\n")[2].partition("\n\n")[0]
    said = {}
    for line in body.splitlines():
        name, _, told = line.strip().partition("  ")
        family = re.fullmatch(r"(.+)\(i = (\d+)\.\.(\d+)\)", name)
        if not family:
            said[name] = told.strip()
            continue
        for i in range(int(family[2]), int(family[3]) + 1):
            pieces = re.split(r"\b(i(?:[+-]\d+)?)(?=[).])", told.strip())
            pieces[1::2] = [str(i + int(piece[1:] or 0)) for piece in pieces[1::2]]
            said[f"{family[1]}({i})"] = "".join(pieces)
    return said


def fed(part: Part, widths: dict[str, int]) -> list[list[str]]:
    """For each input port, the bits that feed it, MSB first, from the model."""
    return [
        [
            "01X"[bit.bit]
            if isinstance(bit, Tie)
            else bit.net
            if widths[bit.net] == 1
            else f"{bit.net}({bit.index})"
            for bit in reversed(part.signal(port.name))
        ]
        for port in part.kind.ports
        if port.direction == "in"
    ]


def bits_in(told: str) -> list[list[str]]:
    """The same, read from what the sheet says."""
    ports = []
    for feed in re.findall(r"[\w-]+ = (\[[^]]*\]|[^,\[]+)", told.partition("; ")[2]):
        bits = []
        for piece in feed.strip("[]").split(", "):
            sliced = re.fullmatch(r"(.+)\((\d+)\.\.(\d+)\)", piece)
            bits += (
                [f"{sliced[1]}({i})" for i in range(int(sliced[2]), int(sliced[3]) - 1, -1)]
                if sliced
                else [piece]
            )
        ports.append(bits)
    return ports


def designs(name: str) -> list[Design]:
    """A catalogue design at the sizes that it has."""
    blueprint, found = catalogue.find(name), []
    for size in SIZES:
        try:
            found.append(blueprint.design({blueprint.parameters[0].name: size}))
        except DesignError:
            continue
    return found


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_what_is_said_of_a_family_is_true_of_each_member(name: str) -> None:
    for design in designs(name):
        said = told_of_each(sheet.text(catalogue.find(name), design, 10_000))
        assert set(said) == {part.name for part in design.circuit.parts}
        for part in design.circuit.parts:
            told = said[part.name]
            assert told.partition(";")[0].split()[0] == part.kind.name
            assert bits_in(told) == fed(part, dict(design.circuit.widths)), (part.name, told)
            settings = told.partition(";")[0].split()[1:]
            given = dict(zip(settings[::2], settings[1::2], strict=True))
            for setting, value in part.kind.settings:
                if (
                    setting in ("width", "start", "modulo", "direction", "value")
                    and setting in given
                ):
                    assert given[setting] == str(value)
            start = part.kind.setting("start")
            assert given.get("start", "0") == str(start or 0)


def test_the_initial_state_is_shown() -> None:
    """The serial subtractor's trick is the 1 that its carry starts with."""
    blueprint = catalogue.find("serial-subtractor")
    design = blueprint.design({})
    assert "flip-flop start 1; d = FA.carry-out" in sheet.text(blueprint, design)
    assert sheet.data(blueprint, design)["settings"]["C"] == {"start": 1}
