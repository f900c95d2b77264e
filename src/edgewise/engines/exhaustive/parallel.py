"""A long count cut into chunks for the cores of the machine."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, Executor, Future, ThreadPoolExecutor, wait
from contextlib import ExitStack
from dataclasses import dataclass
from typing import Final, TypeAlias

from edgewise.engines.exhaustive.kernel import Kernel

Progress: TypeAlias = Callable[[int, int], None]
"""Is told how many operand sets are done, and of how many."""

_CHUNK: Final = 0.1
"""Seconds that a chunk should take: so long an interrupt waits, and a progress bar stands."""


@dataclass(frozen=True, slots=True)
class Chunk:
    """What a kernel gave for the steps start … stop - 1."""

    start: int
    stop: int
    result: tuple[int, ...]
    seconds: float


def cores() -> int:
    """Processor cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def sweep(
    kernel: Kernel,
    start: int,
    stop: int,
    executor: Executor | None = None,
    progress: Progress | None = None,
    step_size: int = 1,
) -> Iterator[Chunk]:
    """Run a kernel over steps, chunk by chunk; chunks come as they are done.

    A caller that has seen enough just stops iterating: chunks not begun are dropped.

    Parameters
    ----------
    kernel : Kernel
    start, stop : int
        Steps of the kernel's outermost loop.
    executor : Executor, optional
        Where chunks run: threads of its own on all cores, unless given.
    progress : function, optional
    step_size : int
        Operand sets in a step, for `progress`.
    """
    at, size, total = start, 1, (stop - start) * step_size
    done = 0
    waiting: set[Future[Chunk]] = set()
    with ExitStack() as stack:
        if executor is None:
            executor = ThreadPoolExecutor(cores())
            stack.callback(executor.shutdown, wait=True, cancel_futures=True)
        stack.callback(lambda: [future.cancel() for future in waiting])
        while at < stop or waiting:
            while at < stop and len(waiting) < 2 * cores():
                until = min(stop, at + size)
                waiting.add(executor.submit(_run, kernel, at, until))
                at = until
            ready, waiting = wait(waiting, return_when=FIRST_COMPLETED)
            for chunk in sorted((future.result() for future in ready), key=lambda c: c.start):
                width = chunk.stop - chunk.start
                wanted = width * _CHUNK / max(chunk.seconds, 1e-6)
                size = max(1, int(min(wanted, 8 * max(width, size))))
                done += width * step_size
                if progress is not None:
                    progress(done, total)
                yield chunk


def _run(kernel: Kernel, start: int, stop: int) -> Chunk:
    began = time.perf_counter()
    result = kernel.run(start, stop)
    return Chunk(start, stop, result, time.perf_counter() - began)
