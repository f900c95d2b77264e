"""The adder of the EPFL combinational benchmark suite, read and held against integer arithmetic."""

from __future__ import annotations

import random
from pathlib import Path

from edgewise.engines import reference
from edgewise.hdl.reading import read

FILE = Path(__file__).parents[1] / "outside" / "data" / "epfl" / "adder.v"


def test_the_adder_of_128_bits_adds() -> None:
    design = read(FILE.read_text("utf-8"), str(FILE)).design("adder").check()
    chosen = random.Random(18)  # noqa: S311  # always the same
    for _ in range(3):
        words = {name: chosen.getrandbits(128) for name in "ab"}
        bits = {f"{name}_{i}_": words[name] >> i & 1 for name in "ab" for i in range(128)}
        run = reference.run(design, bits)
        total = sum(int(run.word(f"f_{i}_", 0).value) << i for i in range(128))
        assert total + (int(run.word("cOut", 0).value) << 128) == words["a"] + words["b"]
