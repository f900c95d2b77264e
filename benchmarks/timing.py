"""How the figures are taken: the best of several rounds, all rivals in each round."""

from __future__ import annotations

import os
import platform
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.parallel import cores


@dataclass(frozen=True, slots=True)
class Rival:
    """One way to do a job.

    Parameters
    ----------
    name : str
    run : function
        Does the job, or a part of it, and gives the seconds that the whole job takes.
    rounds : int
        How often it is asked, at most.
    """

    name: str
    run: Callable[[], float]
    rounds: int = 5


def timed(work: Callable[[], object]) -> Callable[[], float]:
    """The seconds that some work takes."""

    def run() -> float:
        began = time.perf_counter()
        work()
        return time.perf_counter() - began

    return run


@dataclass(frozen=True, slots=True, order=True)
class Spent:
    """What a run of a command took, in seconds.

    Parameters
    ----------
    wall : float
        On the clock.
    processor : float
        Of all its processes together.
    """

    wall: float
    processor: float


def command(*words: str, cache: Path) -> Spent:
    """What one run of a command takes, in a process of its own."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    # Bytecode is kept, as in a process that a teacher starts.
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    began = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "edgewise", *words],
        stdout=subprocess.DEVNULL,
        env={**kept, "EDGEWISE_CACHE": str(cache)},
        check=True,
    )
    wall = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Spent(wall, used)


def best_of(rivals: list[Rival]) -> dict[str, float]:
    """Seconds of each rival: the best round, since others on the machine only slow it down."""
    best: dict[str, float] = {}
    for round_ in range(max(rival.rounds for rival in rivals)):
        for rival in rivals:
            if round_ < rival.rounds:
                seconds = rival.run()
                best[rival.name] = min(seconds, best.get(rival.name, seconds))
    return best


def table(best: Mapping[str, float], against: str) -> str:
    """One line a rival: seconds, and how many times as long as `against` it takes."""
    width = max(map(len, best))
    lines = [f"{'':{width}}  {'seconds':>12}  {'ratio':>10}"]
    lines += [
        f"{name:{width}}  {seconds:12.4f}  {seconds / best[against]:10,.2f}"
        for name, seconds in best.items()
    ]
    return "\n".join(lines)


def machine() -> str:
    """What the figures depend on, without naming the machine."""
    maker = compiler.best()
    return (
        f"{platform.machine()}, {cores()} cores, {maker.name}, Python {platform.python_version()}"
    )
