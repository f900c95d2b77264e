"""How fast a film is made: against real time, and against the encoder alone on the same frames."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from typing import Any, Final

from edgewise.publish.film import build, encoder
from edgewise.publish.film.build import Manner
from edgewise.publish.film.encoder import SIZES, About
from edgewise.publish.film.plan import Plan
from edgewise.publish.film.take import Take

TYPICAL: Final = ("serial-adder", "{n: 6}", "{a: 22, b: 43}", "6..8")
WORST: Final = ("digit-serial-adder", "{n: 16, d: 4}", "{a: 51966, b: 4660}", "0..2")
"""Of the catalogue: a large diagram, in which most bits are on their way at once."""
BUDGETS: Final = {"typical": 7.0, "worst": 4.0}
DRAWING: Final = 0.15
SIZE: Final = "1080p"


def main() -> None:
    """Print real-time factors and the share of drawing."""
    print(f"film of a lesson, {SIZE}, 30 frames a second")
    for name, lesson in (("typical", TYPICAL), ("worst", WORST)):
        print(f"  {name}: {lesson[0]}, rows {lesson[3]}")
        with tempfile.TemporaryDirectory() as folder:
            _measure(name, lesson, Path(folder))


def _measure(name: str, lesson: tuple[str, str, str, str], folder: Path) -> None:
    path = folder / "lesson.md"
    design, parameters, operands, rows = lesson
    path.write_text(
        f"---\ntitle: Tide tables\ndesign: {design}\nwith: {parameters}\noperands: {operands}\n"
        f"---\n```steps\n- {rows}\n```\n"
    )
    began = time.perf_counter()
    build.build(path, folder / "film.mp4", Manner(SIZE))
    whole = time.perf_counter() - began
    take = build.take_of(path, folder / "film.mp4", Manner(SIZE), folder)
    kept, drawing = _drawn(take)
    raw = _encoded(kept, take.plan, folder / "raw.mp4")
    length = take.plan.seconds
    print(f"    {length:.0f} s of film in {whole:.2f} s: {length / whole:.1f}x real time")
    print(f"    the encoder alone on the same frames: {length / raw:.1f}x, {raw:.2f} s")
    print(
        f"    drawing alone: {drawing:.2f} s, {drawing / (drawing + raw):.0%} of both"
        f" (budget {DRAWING:.0%}); film at least {BUDGETS[name]:g}x"
    )


class _Keeper:
    """Keeps a copy of every frame."""

    def __init__(self) -> None:
        self.kept: list[tuple[Any, int, bool]] = []
        self.copying = 0.0

    def write(self, picture: Any, count: int = 1, *, key: bool = False) -> None:
        """Keep a copy."""
        began = time.perf_counter()
        copy = encoder.library().VideoFrame(picture.width, picture.height, "yuv420p")
        for there, here in zip(copy.planes, picture.planes, strict=True):
            there.update(bytes(here))
        self.kept.append((copy, count, key))
        self.copying += time.perf_counter() - began


def _drawn(take: Take) -> tuple[list[tuple[Any, int, bool]], float]:
    keeper = _Keeper()
    began = time.perf_counter()
    take.into(keeper, "yuv420p")
    return keeper.kept, time.perf_counter() - began - keeper.copying


def _encoded(kept: list[tuple[Any, int, bool]], plan: Plan, path: Path) -> float:
    began = time.perf_counter()
    about = About("Tide tables", "eng", (), ())
    with encoder.reel(path, SIZES[SIZE], round(plan.rate), about) as reel:
        for picture, count, key in kept:
            reel.write(picture, count, key=key)
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
