"""The progress bar of work that takes over a second."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING, Self

from edgewise.errors import Message

if TYPE_CHECKING:
    from rich.progress import Progress as Bar


class Progress:
    """A bar with speed and time left, on stderr.

    It is called with (done, total) and shows on a terminal only, and only once the work has
    taken over a second.

    Parameters
    ----------
    what : str
        What is counted: ``operand-sets``, of the messages that begin with ``progress-``.

    Examples
    --------
    >>> with Progress("designs") as progress:
    ...     progress(1, 2)
    """

    def __init__(self, what: str) -> None:
        self.what, self.began = what, time.monotonic()
        self.since, self.done = self.began, 0
        self.bar: Bar | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self.bar is not None:
            self.bar.stop()

    def __call__(self, done: int, total: int) -> None:
        """Take note of how much is done; less than before is the beginning of another count."""
        now = time.monotonic()
        if done < self.done:
            self.since = now
        self.done = done
        if self.bar is None and sys.stderr.isatty() and now > self.began + 1:
            self.bar = self._bar()
            self.bar.add_task("", total=total, completed=done, speed=self._speed(now))
            self.bar.start()
        elif self.bar is not None:
            task = self.bar.task_ids[0]
            self.bar.update(task, completed=done, total=total, speed=self._speed(now))

    def _speed(self, now: float) -> str:
        return f"{self.done / max(now - self.since, 1e-9):,.0f}"

    def _bar(self) -> Bar:
        from rich.console import Console
        from rich.progress import BarColumn, TextColumn, TimeRemainingColumn
        from rich.progress import Progress as Bar

        told = Message(
            "progress",
            percent="{task.percentage:>3.0f}",
            speed="{task.fields[speed]}",
            what=Message(f"progress-{self.what}"),
        )
        return Bar(
            BarColumn(),
            TextColumn(str(told)),
            TimeRemainingColumn(),
            TextColumn(str(Message("progress-left"))),
            console=Console(stderr=True),
            transient=True,
        )
