"""The functions of the packages that a board is made of, held against test vectors of real parts.

Outside: `data/chip_vectors.json`, the vectors of a hardware chip tester (MIT, origin and licence in
`data/README.md`), pin by pin: 0 and 1 are driven, H, L and Z expected, C is a pulse 0-1-0 that
comes when all other pins stand, X is not looked at. Pin names are compared too, so that a pin in
the wrong place fails.

* 74283: pin C4 is coded as driven; it is an output, and its value agrees.
* 74595: rows before the first clock of the storage register expect 0 of it, so it starts there.
* 74165: two rows expect a bit one clock late; the data mark them as suspect.
"""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from edgewise.lab.wiring import hc74
from edgewise.lab.wiring.powered import PoweredChip

DATA = Path(__file__).parent / "data" / "chip_vectors.json"
ABSENT = ("74HC273",)
"""In none of the vectors: pins and function from memory (docs/bench.md says so)."""
LEVELS: dict[str, int | None] = {"L": 0, "H": 1, "Z": None}


@lru_cache(maxsize=1)
def data() -> dict[str, Any]:
    return json.loads(DATA.read_text("utf-8"))  # type: ignore[no-any-return]


def in_the_data() -> list[str]:
    return [name for name in hc74.CHIPS if name not in ABSENT]


def differences(name: str, chip: PoweredChip | None = None) -> list[str]:
    """Where a chip shows something else than its vectors say."""
    of = data()[name.replace("HC", "")]
    chip = chip or PoweredChip(hc74.chip(name))
    if name == "74HC595":
        chip.held |= {bit: 0 for bit in chip.held if bit.startswith("r")}
    found = []
    for row, vector in enumerate(of["vectors"]):
        pairs = [
            (p, m) for p, m in zip(of["pins"], vector, strict=True) if p not in ("VCC", "GND", "NC")
        ]
        ins = [(pin, mark) for pin, mark in pairs if pin in chip.chip.inputs]
        chip.apply({pin: int(mark == "1") for pin, mark in ins})
        pulsed = [pin for pin, mark in ins if mark == "C"]
        for level in (1, 0):
            chip.apply(dict.fromkeys(pulsed, level))
        if row in of["suspect_rows"] and name == "74HC165":
            continue
        for pin, mark in pairs:
            expected = {"0": 0, "1": 1}.get(mark, LEVELS.get(mark, 2))
            if pin in chip.chip.outputs and mark != "X" and chip.level(pin) != expected:
                found.append(f"row {row}, {pin}: {chip.level(pin)}, expected {mark}")
    return found


@pytest.mark.parametrize("name", in_the_data())
def test_a_package_is_as_its_vectors_say(name: str) -> None:
    assert list(hc74.chip(name).pins) == data()[name.replace("HC", "")]["pins"]
    assert differences(name) == []


def test_most_packages_are_tested() -> None:
    assert len(in_the_data()) == 26
    assert sum(len(data()[name.replace("HC", "")]["vectors"]) for name in in_the_data()) > 200


def test_the_vectors_would_find_a_wrong_package() -> None:
    """A 74HC161 is no 74HC163: it is cleared without an edge."""
    assert differences("74HC163", PoweredChip(hc74.chip("74HC161"))) != []
    assert differences("74HC00", PoweredChip(hc74.chip("74HC08"))) != []
