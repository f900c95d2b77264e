"""Rebuilding: one worker process, asked for a build, replaced when it is lost or too slow."""

from __future__ import annotations

import asyncio
import contextlib
import json
import signal
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.publish.preview import Built, Fault

_WORKER: Final = "edgewise.publish.worker"


@dataclass
class Rebuilder:
    """Builds a lesson in another process, whatever becomes of that process.

    Parameters
    ----------
    path : Path
        The lesson.
    """

    path: Path
    process: asyncio.subprocess.Process | None = None

    async def build(self) -> Built:
        """One build; a worker that ends without an answer is an error of the lesson."""
        try:
            process = self.process or await self.start()
            assert process.stdin is not None
            assert process.stdout is not None
            process.stdin.write(b"build\n")
            await process.stdin.drain()
            length = int(await process.stdout.readline())
            told = await process.stdout.readexactly(length)
        except (ValueError, asyncio.IncompleteReadError, ConnectionError):
            return _failed(await self.lost())
        except OSError as wrong:  # no process can be started
            return _failed(f"the lesson can't be built: {wrong.strerror}; save it to try again")
        return Built.of(json.loads(told))

    async def start(self) -> asyncio.subprocess.Process:
        """A new worker: it imports nothing from the current folder, and hears no Ctrl-C."""
        self.process = await asyncio.create_subprocess_exec(
            sys.executable,
            "-P",
            "-m",
            _WORKER,
            str(self.path),
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            start_new_session=True,
        )
        return self.process

    async def lost(self) -> str:
        """How the worker ended."""
        process, self.process = self.process, None
        if process is None:
            return "the build was stopped; save the lesson to try again"
        code = await process.wait()
        how = f"exit code {code}"
        if code < 0:
            with contextlib.suppress(ValueError):
                how = signal.Signals(-code).name
        return (
            f"the build ended without an answer ({how}); it may have asked for more memory than"
            " there is: mend or undo the last change, and save"
        )

    def stop(self) -> None:
        """End the worker at once; the next build starts another."""
        process, self.process = self.process, None
        if process is not None:
            with contextlib.suppress(ProcessLookupError):
                process.kill()


def _failed(message: str) -> Built:
    return Built("", faults=(Fault(0, message),))
