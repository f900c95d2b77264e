"""How long large circuits take, in a process of its own: read, check, flatten, run, print."""

from __future__ import annotations

import random
import tempfile
from pathlib import Path
from typing import Final

from benchmarks.timing import command

_GATES: Final = ("and", "or", "xor", "nand", "nor", "xnor")


def gates(count: int) -> str:
    """A circuit text of so many gates, a tenth as many flip-flops, and 20 edges."""
    chance = random.Random(1)  # noqa: S311  the same text at each run
    stored = count // 10
    nets = [f"rain({i})" for i in range(8)] + [f"F{i}.q" for i in range(stored)]
    lines = ["circuit: tide logic", "inputs: {rain: 8}", "parts:"]
    for i in range(count):
        one, other = (chance.choice(nets[-chance.choice((200, len(nets))) :]) for _ in "ab")
        lines.append(f"  G{i}: {{part: {chance.choice(_GATES)}, in: [{one}, {other}]}}")
        nets.append(f"G{i}.out")
    lines += [f"  F{i}: {{part: flip-flop, d: G{count - 1 - i}.out}}" for i in range(stored)]
    lines += [f"outputs: {{warn: G{count - 1}.out}}", "operands: {rain: 8}"]
    return "\n".join([*lines, "procedure:", "  - {phase: watch, edges: 20}", ""])


def flip_flops(count: int, edges: int) -> str:
    """A circuit text of so many flip-flops in a row."""
    lines = ["circuit: long row", "inputs: {x: 1}", "parts:", "  F0: {part: flip-flop, d: x}"]
    lines += [f"  F{i}: {{part: flip-flop, d: F{i - 1}.q}}" for i in range(1, count)]
    lines += [f"outputs: {{y: F{count - 1}.q}}", "operands: {x: 1}", "procedure:"]
    return "\n".join([*lines, f"  - {{phase: go, edges: {edges}, x: x}}", ""])


def main() -> None:
    """Print the figures, and the budget beside each."""
    print("large circuit texts, cold process: seconds of processor time, without cache, with it\n")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for what, budget, text, given in (
            ("3,000 gates", 2.0, gates(3000), "rain=93"),
            ("10,000 gates", 6.0, gates(10_000), "rain=93"),
            ("4,000 flip-flops x 1,000", 3.0, flip_flops(4000, 1000), "x=1"),
        ):
            path = folder / "circuit.yaml"
            path.write_text(text, encoding="utf-8")
            words = ("trace", str(path), "--operands", given)
            cold, warm = (command(*words, cache=folder / what).processor for _ in "12")
            print(f"{what:26}{cold:6.2f}{warm:6.2f}  budget {budget}", flush=True)


if __name__ == "__main__":
    main()
