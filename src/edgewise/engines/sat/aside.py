"""Work of a library beside the main thread, so that Ctrl-C and a deadline come through."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

Result = TypeVar("Result")


@dataclass
class Aside(Generic[Result]):
    """A call into foreign code, begun at once in a thread that no one has to wait for.

    Python sees Ctrl-C only between two of its own steps. While the main thread waits here it
    takes such steps; the foreign code may run on, and ends with the process.

    Parameters
    ----------
    call : function

    Examples
    --------
    >>> Aside(lambda: 22 + 43).result()
    65
    """

    call: Callable[[], Result]
    _done: threading.Event = field(default_factory=threading.Event)
    _results: list[Result] = field(default_factory=list)
    _errors: list[BaseException] = field(default_factory=list)

    def __post_init__(self) -> None:
        threading.Thread(target=self._run, daemon=True, name="aside").start()

    def finished(self, seconds: float | None = None) -> bool:
        """Whether it is done, after waiting for it so long at most."""
        return self._done.wait(None if seconds is None else min(max(seconds, 0.0), 1e6))

    def result(self) -> Result:
        """What it gave, or raised, once it is done."""
        self._done.wait()
        if self._errors:
            raise self._errors[0]
        return self._results[0]

    def _run(self) -> None:
        try:
            self._results.append(self.call())
        except BaseException as wrong:  # noqa: BLE001  # told to who waits
            self._errors.append(wrong)
        finally:
            self._done.set()
