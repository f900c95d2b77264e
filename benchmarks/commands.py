"""How long the commands take that a teacher waits for, each in a process of its own."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Final

from benchmarks.timing import command

LESSON: Final = Path(__file__).parents[1] / "examples" / "rain-gauges.md"
ROUNDS: Final = 10
"""Runs of each command; the fastest counts, since other work can only make one slower."""
SLOWEST: Final = ("carry-save-accumulator", "ripple-carry-adder-subtractor", "crc-register")
"""Designs whose first page takes longest."""
LAW: Final = ("law", "serial-accumulator", "gates", "--over", "n=1..32,x=2..16")


def main() -> None:
    """Print the figures, and the budget beside each."""
    print(f"commands, cold process: best of {ROUNDS}, seconds of processor time\n")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        build = ("build", str(LESSON), "-o", str(folder / "pages"))
        for what, budget, words, shared in (
            ("trace", 0.3, ("trace", "serial-adder", "--operands", "a=22,b=43"), True),
            ("build, layout cached", 0.8, build, True),
            ("build, layout made", 1.5, build, False),
            ("law of 480 designs", 5.0, LAW, True),
        ):
            command(*words, cache=folder / "cache")
            best = min(
                command(*words, cache=folder / ("cache" if shared else f"{what}-{i}")).processor
                for i in range(ROUNDS)
            )
            print(f"{what:22}{best:6.2f}  budget {budget}", flush=True)
        for design in SLOWEST:
            lesson = str(folder / f"{design}.md")
            command("new", lesson, "--design", design, cache=folder / "cache")
            best = min(
                command(
                    "build", lesson, "-o", str(folder), cache=folder / f"{design}-{i}"
                ).processor
                for i in range(3)
            )
            print(f"first page of {design}  {best:.2f}  budget 3", flush=True)


if __name__ == "__main__":
    main()
