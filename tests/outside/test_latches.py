"""Latches and flip-flops, in time, against tables that no one here wrote.

Outside: function tables of latches (M. Mano and M. Ciletti, *Digital Design*, sec. 5.3, from
memory); characteristic equations of flip-flops (the same, sec. 5.4, from memory); and
`data/chip_vectors.json`, the vectors of a hardware chip tester for the parts 7474, 74107, 74109 and
74112 (MIT, origin and licence in `data/README.md`), which clear, preset and clock them.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Final

import pytest

from edgewise import blueprint
from edgewise.design import Design
from edgewise.response import Response
from edgewise.study.cost import models
from edgewise.study.inside import Manner, follow
from edgewise.waveform import Waveform

DATA: Final = Path(__file__).parent / "data" / "chip_vectors.json"
LONG: Final = 1000
"""Units between two changes, in which all comes to rest in every model."""
MODELS: Final = ("unit-gate", "cmos", "74hc-worst")


def circuit(parts: str, inputs: Sequence[str], outputs: Mapping[str, str]) -> Design:
    text = f"""\
circuit: on the bench
inputs: {{{", ".join(f"{name}: 1" for name in inputs)}}}
parts:
{parts}
outputs: {{{", ".join(f"{name}: {shown}" for name, shown in outputs.items())}}}
"""
    return blueprint.from_text(text, "bench.yaml").made()


def driven(design: Design, rows: Sequence[Mapping[str, int]], model: str = "unit-gate") -> Response:
    """Each row of input bits for a long time."""
    waves = []
    for name in rows[0]:
        steps = tuple((Fraction(LONG * at), row[name]) for at, row in enumerate(rows))
        waves.append(Waveform(name, steps))
    return follow(design, Manner(models.technology(model), spread=20), waves)


def shown(response: Response, row: int, *names: str) -> str:
    at = (row + 1) * LONG * response.ticks - 1
    return "".join(str(response.word(name, at)) for name in names)


Table = Mapping[tuple[int, ...], str]
"""From the bits of the inputs to q and q-bar; ``hold`` keeps what stood there."""
LATCHES: Final[Mapping[str, tuple[tuple[str, ...], Table]]] = {
    "sr-latch": (("s", "r"), {(0, 0): "hold", (0, 1): "01", (1, 0): "10", (1, 1): "00"}),
    "sr-latch-nand": (
        ("s-bar", "r-bar"),
        {(1, 1): "hold", (1, 0): "01", (0, 1): "10", (0, 0): "11"},
    ),
    "gated-sr-latch": (
        ("enable", "s", "r"),
        {
            **dict.fromkeys(((0, *sr) for sr in product((0, 1), repeat=2)), "hold"),
            (1, 0, 0): "hold",
            (1, 0, 1): "01",
            (1, 1, 0): "10",
            (1, 1, 1): "11",
        },
    ),
    "d-latch": (("enable", "d"), {(0, 0): "hold", (0, 1): "hold", (1, 0): "01", (1, 1): "10"}),
}


@pytest.mark.parametrize("model", MODELS)
@pytest.mark.parametrize("part", LATCHES)
def test_the_function_table_of_a_latch(part: str, model: str) -> None:
    """Every row of the table after a set and after a reset; one input changes at a time."""
    ports, table = LATCHES[part]
    names = [f"x{at}" for at in range(len(ports))]
    fed = ", ".join(f"{port}: {name}" for port, name in zip(ports, names, strict=True))
    design = circuit(f"  L: {{part: {part}, {fed}}}", names, {"q": "L.q", "q_bar": "L.q-bar"})
    for before in ("10", "01"):
        first = next(bits for bits, ends in table.items() if ends == before)
        for bits, ends in table.items():
            if ends not in ("hold", "10", "01", first):
                continue  # both outputs alike: no state to hold is left by it
            rows = [first, *_way(first, bits)]
            if any(table[one] in {"00", "11"} for one in rows[:-1]):
                continue  # which of the two would then win is a race
            response = driven(design, [dict(zip(names, row, strict=True)) for row in rows], model)
            states = [before]
            for row in rows[1:]:
                states.append(states[-1] if table[row] == "hold" else table[row])
            seen = [shown(response, at, "q", "q_bar") for at in range(len(rows))]
            assert seen == states, (before, rows)


def _way(first: tuple[int, ...], last: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """From some bits to others, the last of them first, one at a time."""
    now = list(first)
    for at in reversed(range(len(now))):
        if now[at] != last[at]:
            now[at] = last[at]
            yield tuple(now)


FLIP_FLOPS: Final = ("flip-flop", "master-slave-flip-flop", "six-nand-flip-flop")


@pytest.mark.parametrize("part", FLIP_FLOPS)
def test_a_d_flip_flop_takes_d_at_the_rising_edge_alone(part: str) -> None:
    """Q+ = D at the edge; d moves at will between edges, which a latch would let through."""
    draw = random.Random(7)  # noqa: S311  # cases, no secrets
    design = circuit(f"  F: {{part: {part}, d: d, clock: clk}}", ["d", "clk"], {"q": "F.q"})
    rows, states, held, clk, d = [], [], "X" if part != "flip-flop" else "0", 0, 0
    for _ in range(60):
        if draw.random() < 0.5:
            d = 1 - d
        else:
            clk = 1 - clk
            held = str(d) if clk else held
        rows.append({"d": d, "clk": clk})
        states.append(held)
    rows[0], states[0] = {"d": 0, "clk": 0}, "X" if part != "flip-flop" else "0"
    response = driven(design, rows)
    seen = [shown(response, at, "q") for at in range(len(rows))]
    known = next(at for at, state in enumerate(states) if state != "X")
    assert seen[known:] == states[known:]
    assert response.violations == ()


def test_a_jk_master_slave_catches_a_one() -> None:
    """J that is 1 for a moment while the clock is high is kept: the 7476 of old did so, too."""
    design = circuit(
        "  F: {part: jk-master-slave, j: j, k: k, clock: clk, clear-bar: run}",
        names := ["run", "j", "k", "clk"],
        {"q": "F.q"},
    )
    steps = ["0000", "1000", "1001", "1101", "1001", "1000", "1010", "1011", "1010", "1110"]
    steps += ["1111", "1110", "1111", "1110"]
    response = driven(design, [dict(zip(names, map(int, step), strict=True)) for step in steps])
    # Cleared; j for a moment while the clock is high: set when it falls; reset; toggled twice.
    seen = "".join(shown(response, at, "q") for at in range(len(steps)))
    assert seen == "00000111000110"


CHIPS: Final[Mapping[str, str]] = {
    "7474": """\
  P: {part: not, in: x1PRE}
  R: {part: not, in: x1CLR}
  F: {part: flip-flop, d: x1D, clock: x1CLK, async-preset: P.out, async-clear: R.out, start: X}
  N: {part: not, in: F.q}""",
    "7474 of six NAND gates": """\
  F: {part: six-nand-flip-flop, d: x1D, clock: x1CLK, preset-bar: x1PRE, clear-bar: x1CLR}
  N: {part: not, in: F.q}""",
    "74107": """\
  E: {part: not, in: x1CLK}
  R: {part: not, in: x1CLR}
  F: {part: jk-flip-flop, j: x1J, k: x1K, clock: E.out, async-clear: R.out, start: X}
  N: {part: not, in: F.q}""",
    "74112": """\
  E: {part: not, in: x1CLK}
  P: {part: not, in: x1PRE}
  R: {part: not, in: x1CLR}
  F: {part: jk-flip-flop, j: x1J, k: x1K, clock: E.out, start: X,
      async-preset: P.out, async-clear: R.out}
  N: {part: not, in: F.q}""",
    "74109": """\
  K: {part: not, in: x1KN}
  P: {part: not, in: x1PRE}
  R: {part: not, in: x1CLR}
  F: {part: jk-flip-flop, j: x1J, k: K.out, clock: x1CLK, start: X,
      async-preset: P.out, async-clear: R.out}
  N: {part: not, in: F.q}""",
}


@pytest.mark.parametrize("half", ["1", "2"])
@pytest.mark.parametrize("chip", CHIPS)
def test_the_vectors_of_a_chip_tester(chip: str, half: str) -> None:
    """Both halves of the package, each as a circuit of its own; C is a pulse 0 1 0."""
    told = json.loads(DATA.read_text("utf-8"))[chip.split(maxsplit=1)[0]]
    pins = [pin for pin in told["pins"] if pin.startswith(half)]
    inputs = [pin for pin in pins if pin.removeprefix(half) not in ("Q", "QN")]
    names = {pin: f"x{pin.replace(half, '1', 1)}" for pin in inputs}
    rows, checks = [], list[tuple[int, str]]()
    for vector in told["vectors"]:
        at = dict(zip(told["pins"], vector, strict=True))
        pulses = (0, 1, 0) if "C" in (at[pin] for pin in inputs) else (0,)
        rows += [
            {names[pin]: level if at[pin] == "C" else int(at[pin]) for pin in inputs}
            for level in pulses
        ]
        checks.append((len(rows) - 1, at[f"{half}Q"] + at[f"{half}QN"]))
    design = circuit(CHIPS[chip], list(names.values()), {"q": "F.q", "q_n": "N.out"})
    response = driven(design, rows)
    assert len(checks) >= 6
    for row, expected in checks:
        assert shown(response, row, "q", "q_n") == expected.translate({72: "1", 76: "0"})
