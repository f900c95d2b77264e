"""Circuits of the EPFL combinational benchmarks, read and held against integer arithmetic."""

from __future__ import annotations

import random
from pathlib import Path

from edgewise.design import Design
from edgewise.engines import reference
from edgewise.hdl.reading import read

FOLDER = Path(__file__).parents[1] / "outside" / "data" / "epfl"


def design_of(name: str) -> Design:
    path = FOLDER / f"{name}.v"
    return read(path.read_text("utf-8"), str(path)).design(name).check()


def test_the_adder_of_128_bits_adds() -> None:
    design = design_of("adder")
    chosen = random.Random(18)  # noqa: S311  # always the same
    for _ in range(3):
        words = {name: chosen.getrandbits(128) for name in "ab"}
        bits = {f"{name}_{i}_": words[name] >> i & 1 for name in "ab" for i in range(128)}
        run = reference.run(design, bits)
        total = sum(int(run.word(f"f_{i}_", 0).value) << i for i in range(128))
        assert total + (int(run.word("cOut", 0).value) << 128) == words["a"] + words["b"]


def test_the_decoder_has_one_output_at_1() -> None:
    design = design_of("dec")
    for number in (0, 1, 77, 255):
        bits = {f"count_{i}_": number >> i & 1 for i in range(8)}
        run = reference.run(design, bits)
        high = [name for name in design.netlist.outputs if run.word(name, 0).value]
        assert high == [f"selectp{2 - number // 128}_{number % 128}_"]
