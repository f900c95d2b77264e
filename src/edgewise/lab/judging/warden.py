"""Each submission judged in a process of its own, with limits of time and memory.

One process is started for several submissions: it has a single thread and all that is needed, and
forks for each of them, which takes a hundredth of what a new start would. What goes between these
processes, all of them our own, is written as `multiprocessing` writes it; nothing of it is kept.
"""

from __future__ import annotations

import json
import os
import resource
import select
import signal
import struct
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.reduction import ForkingPickler
from pathlib import Path
from typing import IO, Final

from edgewise.design import Design
from edgewise.errors import Message
from edgewise.lab.judging import submission
from edgewise.lab.judging.explanation import Rivals
from edgewise.lab.judging.submission import SECONDS
from edgewise.lab.judging.verdict import Verdict
from edgewise.study.cost import sweep
from edgewise.study.cost.sweep import Workplace

MEMORY: Final = 4_000_000_000
"""Bytes of the process of one submission."""
_PIECE: Final = 10
"""Submissions that are judged by one process and its forks."""
GRACE: Final = 15.0
"""Seconds on top, for reading the description and for what is under way when time is up."""
_SIZE: Final = struct.Struct(">Q")
_START: Final = (
    f"import json, sys; sys.path[:] = json.loads(sys.argv[1]); from {__name__} import main; main()"
)


@dataclass(frozen=True)
class Piece:
    """Some submissions of one design.

    Parameters
    ----------
    paths : tuple of Path
    design : Design
    ports : mapping of str to str
        A map of ports.
    seconds : float
        For each submission.
    grace : float
        After so many more its process is ended.
    """

    paths: tuple[Path, ...]
    design: Design
    ports: Mapping[str, str]
    seconds: float = SECONDS
    grace: float = GRACE


def judged(
    paths: Sequence[Path],
    design: Design,
    place: Workplace = sweep.Here,
    *,
    ports: Mapping[str, str] | None = None,
    seconds: float = SECONDS,
    progress: sweep.Progress | None = None,
) -> list[Verdict]:
    """Judge several submissions; the verdicts in the order in which they are given.

    Parameters
    ----------
    paths : sequence of Path
    design : Design
    place : Workplace
        Where: ``sweep.workplace(2)`` are two processes.
    ports : mapping of str to str, optional
        A map of ports.
    seconds : float
        For each submission.
    progress : function, optional
        Is told (pieces done, pieces in all).
    """
    pieces = [
        Piece(tuple(paths[at : at + _PIECE]), design, dict(ports or {}), seconds)
        for at in range(0, len(paths), _PIECE)
    ]
    found = sweep.hand_out(of_piece, pieces, place, progress)
    return [verdict for verdicts in found for verdict in verdicts]


def of_piece(piece: Piece) -> list[Verdict]:
    """The verdicts on some submissions."""
    command = [sys.executable, "-I", "-c", _START, json.dumps(sys.path)]
    with subprocess.Popen(  # noqa: S603  # this module
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, start_new_session=True
    ) as process:
        try:
            assert process.stdin
            assert process.stdout
            with suppress(BrokenPipeError):
                process.stdin.write(ForkingPickler.dumps(piece))
                process.stdin.close()
            told = list(_messages(process.stdout))
        finally:
            if process.poll() is None and sys.exc_info()[0] is not None:
                os.killpg(process.pid, signal.SIGKILL)
    lost = str(Message("submission-lost"))
    return [
        told[i] if i < len(told) else Verdict(str(path), "refused", lost)
        for i, path in enumerate(piece.paths)
    ]


def _messages(pipe: IO[bytes]) -> Iterator[Verdict]:
    while len(head := pipe.read(_SIZE.size)) == _SIZE.size:
        body = pipe.read(_SIZE.unpack(head)[0])
        verdict: Verdict = ForkingPickler.loads(body)
        yield verdict


# ---------------------------------------------------------------- in that process


def main() -> None:
    """Judge the piece that comes in; verdicts go out one by one."""
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    piece: Piece = ForkingPickler.loads(sys.stdin.buffer.read())
    rivals = Rivals(piece.design).prepared()
    for path in piece.paths:
        verdict = _forked(path, piece, rivals)
        out.write(_SIZE.pack(len(verdict)) + verdict)
        out.flush()


def _forked(path: Path, piece: Piece, rivals: Rivals) -> bytes:
    """One verdict, from a fork of this process that has limits."""
    end, start = os.pipe()
    child = os.fork()
    if not child:
        os.close(end)
        _judge(path, piece, rivals, start)
    os.close(start)
    said = _read(end, time.monotonic() + piece.seconds + piece.grace)
    os.close(end)
    with suppress(ProcessLookupError):
        os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    if said:
        return said
    told = Message("submission-slow", seconds=f"{piece.seconds:g}", memory=MEMORY // 10**9)
    return bytes(ForkingPickler.dumps(Verdict(str(path), "refused", f"{path}: {told}")))


def _read(end: int, deadline: float) -> bytes:
    """What a process writes until it ends; nothing if that takes too long or is cut off."""
    said = bytearray()
    while (left := deadline - time.monotonic()) > 0 and select.select([end], [], [], left)[0]:
        some = os.read(end, 1 << 16)
        if not some:
            whole = len(said) >= _SIZE.size and _SIZE.unpack(said[: _SIZE.size])[0]
            return bytes(said[_SIZE.size :]) if whole == len(said) - _SIZE.size else b""
        said += some
    return b""


def _judge(path: Path, piece: Piece, rivals: Rivals, start: int) -> None:
    """Judge in the fork, and end it."""
    try:
        most = int(piece.seconds + piece.grace)
        resource.setrlimit(resource.RLIMIT_CPU, (most, most))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        verdict = submission.judge(
            path, piece.design, rivals, ports=piece.ports, seconds=piece.seconds
        )
        said = bytes(ForkingPickler.dumps(verdict))
        with os.fdopen(start, "wb") as pipe:
            pipe.write(_SIZE.pack(len(said)) + said)
    finally:
        os._exit(0)
