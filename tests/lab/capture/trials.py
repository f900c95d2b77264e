"""Recordings of circuits with one known fault, with noise and bounce, always the same for a seed.

Rows come from the reference engine for faults of the circuit, and from chips under power, wired as
the bench sheet says, for what happens at the bench: a double edge, a lost one, no power-up clear, a
switch in the wrong place. Neither is the code that explains recordings. The file is written by
pyvcd (outside): each period of a thousand microseconds has bounces of the clock, short pulses on
channels, and edges that are not on time; now and then a whole sample is wrong.
"""

from __future__ import annotations

import io
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from edgewise import catalogue
from edgewise.bits import Bit, X
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.lab.wiring import placement
from edgewise.lab.wiring.board import Board, Pin
from edgewise.lab.wiring.powered import PoweredBoard
from edgewise.study.faults import models

PERIOD = 1_000_000
DESIGNS: Sequence[tuple[str, dict[str, int]]] = (
    ("serial-adder", {"n": 4}),
    ("serial-adder-parallel-load", {"n": 4}),
    ("serial-adder-subtractor", {"n": 4}),
    ("serial-accumulator-cleared", {"n": 3, "x": 3}),
    ("binary-counter", {"n": 4}),
    ("modulo-counter", {"m": 10}),
    ("shift-add-multiplier", {"n": 3}),
    ("universal-shift-register", {"n": 4, "k": 1}),
    ("johnson-counter", {"n": 4}),
    ("serial-in-parallel-out", {"n": 4}),
)
KINDS = (
    *("fault", "fault", "fault", "double", "missed"),
    *("uncleared", "nothing-cleared", "switch", "right"),
)
WRONG_SAMPLES = 0.001


@dataclass(frozen=True)
class Trial:
    """A recording, and what was wrong."""

    design: Design
    operands: dict[str, int]
    truth: str
    file: str
    named: bool


Table = dict[str, list[Bit]]
"""For each net that is recorded its bit in each row."""


def trial(seed: int) -> Trial:
    """The recording of a seed."""
    chance = random.Random(seed)  # noqa: S311  # always the same
    while True:
        name, chosen = chance.choice(DESIGNS)
        design = catalogue.design(name, **chosen)
        drawn = without_unknowns(design, chance)
        operands = {o.name: o.number(chance.randrange(1 << o.width)) for o in design.operands}
        truth, table = made(drawn, operands, chance.choice(KINDS), chance)
        right = circuit(drawn, operands)
        if truth == "right" or differs(table, right):
            break
    named = chance.random() < 0.7
    return Trial(design, operands, truth, written(table, chance, named=named), named)


@lru_cache(maxsize=16)
def board_of(name: str, *chosen: tuple[str, int]) -> Board:
    """A design wired, once."""
    return placement.wired(catalogue.design(name, **dict(chosen)))


def without_unknowns(design: Design, chance: random.Random) -> Design:
    """The design with drawn bits where its procedure says X: a switch stands somewhere."""
    widths = {name: len(bits) for name, bits in design.netlist.inputs.items()}
    phases = []
    for phase in design.procedure:
        feeds = tuple(
            feed
            if feed.what is not None
            else replace(feed, what=chance.randrange(1 << max(phase.edges, 1)), order="lsb-first")
            if widths[feed.input] == 1
            else replace(feed, what=chance.randrange(1 << widths[feed.input]))
            for feed in phase.feeds
        )
        phases.append(replace(phase, feeds=feeds))
    return replace(design, procedure=tuple(phases))


def differs(table: Table, right: Table) -> bool:
    """Whether anything shows: rows that are there, and bits that were known."""
    return any(
        len(bits) != len(right[net])
        or any(X not in (a, b) and a != b for a, b in zip(bits, right[net], strict=True))
        for net, bits in table.items()
    )


def watched(design: Design) -> list[str]:
    """What is recorded: inputs and outputs."""
    netlist = design.netlist
    nets = [n for bits in (*netlist.inputs.values(), *netlist.outputs.values()) for n in bits]
    return list(dict.fromkeys(netlist.labels[n] for n in nets))


def made(
    design: Design, operands: dict[str, int], kind: str, chance: random.Random
) -> tuple[str, Table]:
    """What is wrong, and what is then to be seen."""
    if kind == "fault":
        known = [f for f in models.faults(design, inside=True) if f.form != "unknown-start"]
        fault = chance.choice(known)
        return fault.name, circuit(fault.design, operands, design)
    return bench(
        replace(board_of(design.name, *design.chosen.items()), design=design),
        operands,
        kind,
        chance,
    )


def circuit(design: Design, operands: dict[str, int], named: Design | None = None) -> Table:
    """The rows of a design."""
    trace = reference.run(design, design.values(operands))
    return {
        net: [bits[trace.design.netlist.find(net)[0]] for bits in trace.rows]
        for net in watched(named or design)
    }


def bench(
    board: Board, operands: dict[str, int], kind: str, chance: random.Random
) -> tuple[str, Table]:
    """Chips under power, the sheet being followed but for one thing."""
    design = board.design
    trace = reference.run(design, design.values(operands))
    powered = PoweredBoard(board)
    powered.clear()
    truth = kind
    edge = chance.randrange(1, trace.edges + 1)
    row_wrong, wrong = chance.randrange(trace.edges), ""
    if kind in ("double", "missed"):
        truth = f"{kind} {edge}"
    if kind in ("uncleared", "nothing-cleared"):
        truth = uncleared(powered, kind, chance)
    inputs = [net for bits in design.netlist.inputs.values() for net in bits]
    labels = design.netlist.labels
    switched = {one.net for one in board.of("switch")}
    asked = reference.run(catalogue.design(design.name, **design.chosen), design.values(operands))
    known = [n for n in inputs if asked.rows[row_wrong][n] != X and labels[n] in switched]
    if kind == "switch":
        if not known:
            return bench(board, operands, "right", chance)
        net = chance.choice(known)
        wrong = labels[net]
        truth = f"switch {wrong} {row_wrong} {1 - trace.rows[row_wrong][net]}"
    table: Table = {net: [] for net in watched(design)}
    for row in range(trace.edges + 1):
        if row and not (kind == "missed" and row == edge):
            for _ in range(1 + (kind == "double" and row == edge)):
                powered.press(bounces=2)
        given = {}
        for net in inputs:
            bit = trace.rows[row][net]
            bit = chance.randrange(2) if bit == X else bit
            given[labels[net]] = 1 - bit if (labels[net], row) == (wrong, row_wrong) else bit
        powered.set({net: bit for net, bit in given.items() if net in switched})
        for name in table:
            pin = board.drivers.get(name)
            table[name].append(given[name] if name in given else powered.at(pin or Pin("GND")))
    return truth, table


def uncleared(powered: PoweredBoard, kind: str, chance: random.Random) -> str:
    """Bits of one part, or of all if there are several, as they happened to come up."""
    design = powered.board.design
    parts = [p.name for p in design.circuit.parts if any(True for _ in stored(design, p.name))]
    if kind == "nothing-cleared" and len(parts) > 1:
        for chip in powered.chips.values():
            chip.held |= {bit: chance.randrange(2) for bit in chip.held}
        powered.settle()
        return kind
    part = chance.choice(parts)
    names = list(stored(design, part))
    starts = {one.name: one.start for one in design.netlist.flip_flops}
    bits = [chance.randrange(2) for _ in names]
    if all(bit == starts[name] for bit, name in zip(bits, names, strict=True)):
        bits[0] = 1 - bits[0]
    for package in powered.board.packages:
        for bit, flip_flop in package.keeps.items():
            if flip_flop in names:
                powered.chips[package.name].held[bit] = bits[names.index(flip_flop)]
    powered.settle()
    return f"uncleared {part} {''.join(map(str, reversed(bits)))}"


def stored(design: Design, part: str) -> Iterator[str]:
    for one in design.netlist.flip_flops:
        if one.name == part or one.name.startswith(f"{part}."):
            yield one.name


# ---------------------------------------------------------------------- the file


def written(table: Table, chance: random.Random, *, named: bool) -> str:
    """A value change dump of it, by pyvcd."""
    from vcd import VCDWriter

    rows = len(next(iter(table.values())))
    changes: list[tuple[int, str, int]] = []
    starts = [0]
    for row in range(1, rows):
        at = row * PERIOD + chance.randrange(-PERIOD // 8, PERIOD // 8)
        starts.append(at)
        changes += pressed(at, chance)
    end = rows * PERIOD
    for net, bits in table.items():
        for row, bit in enumerate(bits):
            known = chance.randrange(2) if bit == X else bit
            if row and chance.random() < WRONG_SAMPLES:
                known = 1 - known
            begin = starts[row] + (chance.randrange(20, 400) if row else 0)
            changes.append((begin, net, known))
            until = starts[row + 1] if row + 1 < rows else end
            if chance.random() < 0.4:
                pulse = chance.randrange(begin + 500, until - 20_000)
                changes.append((pulse, net, 1 - known))
                changes.append((pulse + chance.randrange(50, 15_000), net, known))
    nets = list(table)
    if not named:
        chance.shuffle(nets)
    file = io.StringIO()
    with VCDWriter(file, timescale="1 ns", date="") as writer:
        called = {"clock": chance.choice(["CLK", "clock", "clk_in"]) if named else "D0"}
        called |= {net: spelt(net, chance) if named else f"D{i}" for i, net in enumerate(nets, 1)}
        order = ["clock", *nets]
        variables = {
            net: writer.register_var("analyser", called[net], "wire", size=1, init=0)
            for net in order
        }
        for time, net, bit in sorted(changes, key=lambda one: one[0]):
            writer.change(variables[net], max(time, 0), bit)
        writer.close(end)
    return file.getvalue()


def pressed(at: int, chance: random.Random) -> list[tuple[int, str, int]]:
    """A press of the button: up with bounces, down with bounces."""
    found = []
    for level, begun in ((1, at), (0, at + PERIOD // 2 - chance.randrange(PERIOD // 5))):
        when = begun
        for _ in range(chance.choice([0, 0, 0, 1, 2, 3])):
            found.append((when, "clock", level))
            when += chance.randrange(200, 3_000)
            found.append((when, "clock", 1 - level))
            when += chance.randrange(200, 3_000)
        found.append((when, "clock", level))
    return found


def spelt(net: str, chance: random.Random) -> str:
    """A net's name as people write it for an analyser."""
    ways = [net.replace("(", "[").replace(")", "]"), net.replace("(", "_").replace(")", "")]
    return chance.choice([*ways, ways[1].upper()])
