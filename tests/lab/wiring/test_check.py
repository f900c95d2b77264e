"""Boards of the catalogue, proved equal to their designs; and boards with one wire wrong, refuted.

A refutation by the solver is compared with the board under power, which knows nothing of terms.
"""

from __future__ import annotations

import random
from dataclasses import replace
from functools import lru_cache

import pytest

from edgewise import catalogue
from edgewise.bits import X
from edgewise.circuit import parts
from edgewise.circuit.builder import Builder
from edgewise.circuit.gates import gate
from edgewise.design import Design
from edgewise.lab.wiring import check, continuity, hc74, placement, sections
from edgewise.lab.wiring.board import Board, Pin, Wire
from edgewise.lab.wiring.powered import PoweredBoard
from edgewise.lab.wiring.sheet import Sheet
from edgewise.study.cost.models import hc74 as hc74_costs
from tests.lab.runs import some_run


@lru_cache(maxsize=64)
def board_of(name: str, **chosen: int) -> Board:
    blueprint = catalogue.find(name)
    fitting = {p: v for p, v in chosen.items() if p in blueprint.numbers({})}
    return placement.wired(blueprint.design(fitting))


def run_at_the_bench(board: Board, design: Design, *, bounces: int = 3) -> list[str]:
    """Where a board under power shows something else than the run, the sheet being followed."""
    sheet = Sheet(board, some_run(design))
    powered = PoweredBoard(board)
    powered.clear()
    switches = {net: one.net for one in board.of("switch") for net in [one.name]}
    found = []
    for push in sheet.pushes:
        if push.row:
            powered.press(bounces)
        for column, word in zip(sheet.columns, push.words, strict=True):
            if column.shown == "set":
                for place, digit in zip(column.places, word, strict=True):
                    powered.set({switches[place]: "01X".index(digit)})
        for column, word in zip(sheet.columns, push.words, strict=True):
            if column.shown == "set":
                continue
            for place, digit in zip(column.places, word, strict=True):
                package, _, number = place.partition("-")
                pin = Pin(package, int(number or 1))
                shown = powered.at(pin)
                if digit != "X" and shown != int(digit):
                    found.append(f"row {push.row}, {column.name} at {place}: {shown}, not {digit}")
    return found


@pytest.mark.parametrize("name", catalogue.names())
def test_every_design_wires_and_is_proved(name: str) -> None:
    board = board_of(name, n=4)
    checked = check.check(board)
    assert checked.findings == ()
    stored = {kept for package in board.packages for kept in package.keeps.values()}
    shown = sum(map(len, board.design.netlist.outputs.values()))
    assert checked.compared == len(stored) + shown
    assert run_at_the_bench(board, board.design) == []


@pytest.mark.parametrize("name", ["serial-adder", "modulo-counter", "shift-add-multiplier"])
def test_a_wire_in_the_wrong_place_is_found(name: str) -> None:
    """Ends of wires swapped, twelve times: what the board under power shows, the proof finds."""
    board = board_of(name, n=3)
    chance = random.Random(name)  # noqa: S311  # always the same
    ends = [wire for wire in board.wires if wire.stage in ("signals", "inputs", "clear")]
    for wire in chance.sample(ends, min(12, len(ends))):
        other = chance.choice([one for one in ends if one.end != wire.end])
        wires = tuple(_swapped(one, wire, other) for one in board.wires)
        wrong = replace(board, wires=wires)
        findings = check.check(wrong).findings
        differs = bool(run_at_the_bench(wrong, board.design, bounces=0))
        assert findings or not differs, (wire, other)
        if wire.net != other.net:
            assert findings, (wire, other)


def _swapped(one: Wire, wire: Wire, other: Wire) -> Wire:
    if one is wire:
        return replace(one, end=other.end)
    return replace(one, end=wire.end) if one is other else one


def test_what_is_wrong_is_named() -> None:
    board = board_of("serial-adder", n=4)
    cut = next(i for i, wire in enumerate(board.wires) if wire.net == "FA.sum")
    floating = replace(board, wires=(*board.wires[:cut], *board.wires[cut + 1 :]))
    end = str(board.wires[cut].end)
    assert check.check(floating).findings == (continuity.Finding("floating", end),)
    joined = replace(
        board,
        wires=(*board.wires, Wire(Pin("U2", 15), Pin("U2", 14), "A", "signals")),
    )
    (found,) = check.check(joined).findings
    assert found.fault == "shorted"
    dark = replace(board, wires=tuple(w for w in board.wires if w.end != Pin("U1", 16)))
    assert check.check(dark).findings == (continuity.Finding("no-supply", "U1-16"),)


def test_a_design_that_is_too_large_is_refused() -> None:
    design = catalogue.design("serial-adder", n=64)
    with pytest.raises(Exception, match="takes 51 packages; a bench sheet holds up to 32"):
        placement.wired(design)
    large = catalogue.design("kogge-stone-adder", n=64)
    with pytest.raises(
        Exception, match="gates and flip-flops; a bench sheet is made for up to 400"
    ):
        placement.wired(large)


def test_the_power_up_clear_is_needed() -> None:
    """Without it the lights of a counter stay unknown; with it row 0 stands."""
    powered = PoweredBoard(board_of("binary-counter", n=4))
    assert powered.light("D1") == X
    powered.clear()
    assert [powered.light(f"D{i}") for i in range(1, 5)] == [0, 0, 0, 0]
    powered.press(bounces=5)
    assert [powered.light(f"D{i}") for i in range(1, 5)] == [1, 0, 0, 0]


def test_fewest_packages_by_hand() -> None:
    """Counted by hand: 13 bits with one enable take four 74HC194, the adder half a 74HC283."""
    board = board_of("serial-adder", n=4)
    assert {name: len(packages) for name, packages in board.parts.items()} == {
        "74HC194": 4,
        "74HC283": 1,
        "74HC00": 1,
    }
    assert board.proved


NEW = (
    gate("inhibit", "a, unless b", ("a", "b"), ("and", "a", ("not", "b")), "&"),
    gate(
        "sheffer-or",
        "a NAND b, or c",
        ("a", "b", "c"),
        ("or", ("not", ("and", "a", "b")), "c"),
        "?",
    ),
    gate("pass", "a", ("a", "b"), "a", "1"),
    gate("pick", "b or 1", ("a", "b"), ("choose", "a", 1, "b"), "?"),
)


@pytest.mark.parametrize("new", NEW, ids=lambda new: new.name)
def test_a_gate_of_another_package_is_made_of_packages(
    new: parts.PartType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(parts._REGISTRY, new.name, new)
    b = Builder("new")
    assert new.function is not None
    fed = {port: b.input(f"in_{port}") for port in new.function.reads}
    b.output("y", b.part("G", new.name, fed)["out"])
    checked = check.check(placement.wired(Design("new", b.circuit())))
    assert (checked.findings, checked.compared) == ((), 1)


@pytest.mark.parametrize("kind", ["flip-flop", "register", "shift-register", "counter"])
@pytest.mark.parametrize("start", [0, 1, "X"])
def test_every_storage_part_is_made_of_packages(kind: str, start: int | str) -> None:
    """With all of its controls, none of them, and each alone; 270 of them were tried once."""
    controls = {
        "shift-register": ("load", "enable", "clear"),
        "counter": ("enable", "clear", "load"),
    }
    names = controls.get(kind, ("enable", "clear"))
    for used in ((), names, *((name,) for name in names)):
        b = Builder("new")
        fed = {name: b.input(name) for name in used}
        settings: dict[str, int | str] = {"start": start}
        if kind != "flip-flop":
            settings["width"] = 3
        if kind in ("flip-flop", "register") or "load" in used:
            fed["d"] = b.input("d", int(settings.get("width", 1)))
        if kind == "shift-register":
            fed["in"] = b.input("serial")
        b.output("q", b.part("P", kind, fed, settings)["q"])
        checked = check.check(placement.wired(Design("new", b.circuit())))
        assert checked.findings == (), used


def test_costs_and_the_bench_know_the_same_packages() -> None:
    """A package holds as many gates on the bench as the cost model says."""
    for part in hc74_costs.ALL:
        assert sections.SECTIONS[part.name].holds == part.holds, part.name
        assert sections.SECTIONS[part.name].chip is hc74.chip(part.name)
