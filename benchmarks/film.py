"""How fast a film is made: against real time, and against the encoder alone on the same frames.

The clock tells it on a machine that does nothing else; processor time, as real time on two cores
that are both busy, also on one that does.
"""

from __future__ import annotations

import resource
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, Self

from edgewise.publish.film import build, encoder
from edgewise.publish.film.build import Manner
from edgewise.publish.film.encoder import SIZES, About
from edgewise.publish.film.plan import Plan
from edgewise.publish.film.take import Take

TYPICAL: Final = ("serial-adder", "{n: 6}", "{a: 22, b: 43}", "6..8")
WORST: Final = (
    "digit-serial-adder",
    "{n: 16, d: 4}",
    "{a: 51966, b: 4660}",
    "{rows: 0..5, say: Look.}",
)
"""Of the catalogue: a large diagram, in which most bits are on their way at once, and so little is
said that something moves in two frames of three."""
BUDGETS: Final = {"typical": 7.0, "worst": 4.0}
CORES: Final = 2
DRAWING: Final = 0.15
SIZE: Final = "1080p"


@dataclass
class Spent:
    """Seconds on the clock and of the processor, from its making to `end`."""

    clock: float
    processor: float

    @classmethod
    def begin(cls) -> Self:
        """Now."""
        return cls(time.perf_counter(), time.process_time())

    def end(self) -> Self:
        """What has gone since."""
        now = self.begin()
        return type(self)(now.clock - self.clock, now.processor - self.processor)

    def told(self, length: float) -> str:
        """As parts of real time."""
        return (
            f"{self.clock:6.1f} s on the clock, {length / self.clock:.1f}x;"
            f" {self.processor:.1f} s of the processor, {length * CORES / self.processor:.1f}x"
            f" on {CORES} cores"
        )


def main() -> None:
    """Print real-time factors and the share of drawing."""
    print(f"film of a lesson, {SIZE}, 30 frames a second")
    for name, lesson in (("typical", TYPICAL), ("worst", WORST)):
        with tempfile.TemporaryDirectory() as folder:
            _measure(name, lesson, Path(folder))
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"  at most {most:.0f} MB of memory, with a copy of every frame that differs")


def _measure(name: str, lesson: tuple[str, str, str, str], folder: Path) -> None:
    path = folder / "lesson.md"
    design, parameters, operands, rows = lesson
    path.write_text(
        f"---\ntitle: Tide tables\ndesign: {design}\nwith: {parameters}\noperands: {operands}\n"
        f"---\n```steps\n- {rows}\n```\n"
    )
    began = Spent.begin()
    build.build(path, folder / "film.mp4", Manner(SIZE))
    whole = began.end()
    take = build.take_of(path, folder / "film.mp4", Manner(SIZE), folder)
    kept, drawing = _drawn(take)
    raw = _encoded(kept, take.plan, folder / "raw.mp4")
    length = take.plan.seconds
    print(f"  {name}: {design}, {rows}, {length:.0f} s; at least {BUDGETS[name]:g}x")
    print(f"    lesson to film     {whole.told(length)}")
    print(f"    encoder by itself  {raw.told(length)}")
    print(
        f"    drawing by itself  {drawing:6.1f} s of the processor, {drawing / whole.processor:.0%}"
        f" of the film's; at most {DRAWING:.0%}"
    )


class _Keeper:
    """Keeps a copy of every frame."""

    def __init__(self) -> None:
        self.kept: list[tuple[Any, int, bool]] = []
        self.copying = 0.0

    def write(self, picture: Any, count: int = 1, *, key: bool = False) -> None:
        """Keep a copy."""
        began = time.process_time()
        copy = encoder.library().VideoFrame(picture.width, picture.height, "yuv420p")
        for there, here in zip(copy.planes, picture.planes, strict=True):
            there.update(bytes(here))
        self.kept.append((copy, count, key))
        self.copying += time.process_time() - began


def _drawn(take: Take) -> tuple[list[tuple[Any, int, bool]], float]:
    keeper = _Keeper()
    began = time.process_time()
    take.into(keeper, "yuv420p")
    return keeper.kept, time.process_time() - began - keeper.copying


def _encoded(kept: list[tuple[Any, int, bool]], plan: Plan, path: Path) -> Spent:
    began = Spent.begin()
    about = About("Tide tables", "eng", (), ())
    with encoder.reel(path, SIZES[SIZE], round(plan.rate), about) as reel:
        for picture, count, key in kept:
            reel.write(picture, count, key=key)
    return began.end()


if __name__ == "__main__":
    main()
