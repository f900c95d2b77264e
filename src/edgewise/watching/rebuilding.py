"""Rebuilding: one worker process, asked for a build, replaced when it is lost or too slow."""

from __future__ import annotations

import asyncio
import contextlib
import json
import signal
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import Fact, Message
from edgewise.publish.preview.state import Built, Fault

_WORKER: Final = "edgewise.publish.preview.worker"
_TRIES: Final = 40
_PAUSE: Final = 0.05
"""Seconds between two looks whether a process has ended."""


@dataclass
class Worker:
    """A process that builds; it imports nothing from the current folder, and hears no Ctrl-C."""

    process: subprocess.Popen[bytes]
    answers: asyncio.StreamReader
    transport: asyncio.ReadTransport

    @classmethod
    async def started(cls, path: Path) -> Worker:
        """A new one.

        Raises
        ------
        OSError
            No process can be started.
        """
        process = subprocess.Popen(  # noqa: ASYNC220, S603  # our own module, a moment's work
            [sys.executable, "-P", "-m", _WORKER, str(path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,
        )
        answers = asyncio.StreamReader()
        try:
            transport, _ = await asyncio.get_running_loop().connect_read_pipe(
                lambda: asyncio.StreamReaderProtocol(answers), process.stdout
            )
        except BaseException:
            process.kill()
            process.wait()
            raise
        return cls(process, answers, transport)

    async def build(self) -> Built | None:
        """One build; nothing if the process has ended."""
        asked = self.process.stdin
        assert asked is not None
        try:
            asked.write(b"build\n")
            asked.flush()
            length = int(await self.answers.readline())
            return Built.of(json.loads(await self.answers.readexactly(length)))
        except (ValueError, asyncio.IncompleteReadError, ConnectionError):
            return None

    async def ending(self) -> int:
        """The exit code of a process that ends just now."""
        for _ in range(_TRIES):
            code = self.process.poll()
            if code is not None:
                return code
            await asyncio.sleep(_PAUSE)
        self.close()
        return self.process.returncode

    def close(self) -> None:
        """End it at once, whatever it is doing."""
        self.process.kill()
        self.process.wait()
        self.transport.close()
        if self.process.stdin is not None:
            with contextlib.suppress(OSError):
                self.process.stdin.close()


@dataclass
class Rebuilder:
    """Builds a lesson in another process, whatever becomes of that process.

    Parameters
    ----------
    path : Path
        The lesson.
    """

    path: Path
    worker: Worker | None = None

    async def build(self) -> Built:
        """One build; a worker that ends without an answer is an error of the lesson."""
        try:
            worker = self.worker = self.worker or await Worker.started(self.path)
        except OSError as wrong:
            return _failed("build-impossible", why=wrong.strerror or str(wrong))
        built = await worker.build()
        if built is not None:
            return built
        if self.worker is not worker:
            return _failed("build-stopped")
        code = await worker.ending()
        self.stop()
        how: Fact = Message("exit-code", code=code)
        if code < 0:
            with contextlib.suppress(ValueError):
                how = signal.Signals(-code).name
        return _failed("build-unanswered", how=how)

    def stop(self) -> None:
        """End the worker at once; the next build starts another."""
        worker, self.worker = self.worker, None
        if worker is not None:
            worker.close()


def _failed(message: str, /, **facts: Fact) -> Built:
    return Built("", faults=(Fault(0, str(Message(message, **facts))),))
