"""How the figures are taken: the best of several rounds, all rivals in each round."""

from __future__ import annotations

import platform
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from edgewise.engines import native
from edgewise.engines.chunks import cores


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
    maker = native.best()
    return (
        f"{platform.machine()}, {cores()} cores, {maker.name}, Python {platform.python_version()}"
    )
