"""What a rebuild may meet: every exception there is, a lost worker, a long proof."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import socket
import subprocess
import time
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, Final, TypeVar

import pytest

from edgewise import lesson, serve
from edgewise.errors import unforeseen
from edgewise.publish.preview.preview import Preview
from edgewise.watching.opening import opened
from edgewise.watching.rebuilding import Rebuilder
from tests.web.watched import started

T = TypeVar("T")
LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 4}
operands: {a: 9, b: 6}
---
The first gauge told `? a`.
"""
PROOF: Final = """
```prove
design: bit-serial-multiplier
with: {n: 24}
```
"""
"""2^48 products, which takes all of the time that a proof has."""
REPORT: Final = "this is a mistake in edgewise: please report it with the file and what edgewise"


class Panic(BaseException):
    """As those of compiled libraries are: no `Exception`."""


EVERYTHING: Final = (
    TypeError("Problems.__init__() missing 1 required positional argument"),
    re.error("bad escape \\q at position 4"),
    OSError(36, "File name too long", "p" * 300),
    PermissionError(13, "Permission denied"),
    BrokenPipeError(32, "Broken pipe"),
    OverflowError("int too large to convert to float"),
    RecursionError("maximum recursion depth exceeded"),
    UnicodeEncodeError("ascii", "…", 0, 1, "ordinal not in range(128)"),
    KeyError("tide"),
    ValueError("I/O operation on closed file"),
    AssertionError(),
    SystemExit(1),
    MemoryError(),
    Panic("index out of bounds"),
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    return path


@pytest.mark.parametrize("wrong", EVERYTHING, ids=lambda wrong: type(wrong).__name__)
@pytest.mark.parametrize("where", ["lesson.check_text", "render.made", "page.frame", "read_file"])
def test_any_exception_is_shown_above_the_last_good_page(
    path: Path, monkeypatch: pytest.MonkeyPatch, wrong: BaseException, where: str
) -> None:
    preview = Preview(path)
    good = preview.build()
    assert good.faults == ()

    def raising(*_: object) -> None:
        raise wrong

    with monkeypatch.context() as patch:
        patch.setattr(f"edgewise.publish.preview.preview.{where}", raising)
        state = preview.build()
    assert [str(fault) for fault in state.faults] == [unforeseen(wrong)]
    assert (state.parts, state.frame) == (good.parts, good.frame)
    path.write_text(LESSON.replace("The first", "One"), "utf-8")
    assert preview.build().faults == ()


def test_the_words_for_it() -> None:
    assert unforeseen(KeyError("tide")) == (
        f"unforeseen error: KeyError: 'tide'; {REPORT} --debug prints"
    )
    assert unforeseen(AssertionError()) == (
        f"unforeseen error: AssertionError; {REPORT} --debug prints"
    )


def test_what_is_shown_can_be_sent(path: Path) -> None:
    """An error holds whatever the lesson does, also what is no text."""
    path.write_bytes(LESSON.encode().replace(b"design: serial-adder", b"design: \xff"))
    told = Preview(path).build().data(set())
    assert told.isascii()
    assert "\n" not in told


# ---------------------------------------------------------------- the worker


def test_a_lost_worker_is_told_and_replaced(path: Path) -> None:
    async def lived() -> list[str]:
        rebuilder = Rebuilder(path)
        told = []
        for number in (None, signal.SIGKILL, signal.SIGABRT, None):
            if number is not None and rebuilder.worker is not None:
                os.kill(rebuilder.worker.process.pid, number)
            built = await rebuilder.build()
            told.append(" ".join(map(str, built.faults)))
            if number is not None:
                await rebuilder.build()
        rebuilder.stop()
        return told

    lost = (
        "the build ended without an answer ({}); it may have asked for more memory than there is:"
        " mend or undo the last change, and save"
    )
    assert looped(lived) == ["", lost.format("SIGKILL"), lost.format("SIGABRT"), ""]


def test_no_process_at_all_is_told(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object, **__: object) -> None:
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(subprocess, "Popen", none)
    (fault,) = looped(Rebuilder(path).build).faults
    assert str(fault) == (
        "the lesson can't be built: Resource temporarily unavailable; save it to try again"
    )


# ---------------------------------------------------------------- the loop


def looped(run: Callable[[], Coroutine[Any, Any, T]]) -> T:
    """Run it in a thread of its own: a browser test before may have left a loop in this one."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(lambda: asyncio.run(run())).result()


def followed(path: Path, act: Callable[[serve.Server, Any], Any]) -> serve.Server:
    """Run the loop of a server without its network while something is done to it."""

    async def run() -> serve.Server:
        with socket.socket() as unused:
            server = serve.Server(Preview(path), unused, "key", serve.Terminal(lambda _: None))
            rebuilder = Rebuilder(path)
            task = asyncio.create_task(server.follow(rebuilder))
            try:
                await act(server, rebuilder)
            finally:
                server.ended.set()
                rebuilder.stop()
                task.cancel()
                await asyncio.gather(task, return_exceptions=True)
        return server

    return looped(run)


def save(path: Path, text: str) -> None:
    path.write_text(text, "utf-8")


async def until(reached: Callable[[], bool]) -> None:
    for _ in range(1200):
        if reached():
            return
        await asyncio.sleep(0.05)
    raise AssertionError("it did not come to that")


@pytest.mark.parametrize("name", ["seen", "take"])
def test_nothing_ends_the_loop(path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    async def act(server: serve.Server, _: Rebuilder) -> None:
        await until(lambda: server.preview.state.version == 1)
        good = getattr(Preview, name)
        calls = []

        def sometimes(self: Preview, *given: Any) -> Any:
            calls.append(name)
            if len(calls) == 1:
                raise OverflowError("tide too high")
            return good(self, *given)

        monkeypatch.setattr(Preview, name, sometimes)
        save(path, LESSON + "\nMore.\n")
        wrong = [unforeseen(OverflowError("tide too high"))]
        await until(lambda: [fault.message for fault in server.preview.state.faults] == wrong)
        save(path, LESSON + "\nMore and more.\n")
        await until(lambda: not server.preview.state.faults)

    followed(path, act)


def test_a_long_build_gives_way_to_a_newer_save(path: Path) -> None:
    async def act(server: serve.Server, _: Rebuilder) -> None:
        await until(lambda: server.preview.state.version == 1)
        save(path, LESSON + PROOF)
        await until(lambda: (server.building() or 0) > 1)
        began = time.monotonic()
        save(path, LESSON + "\nWithout it.\n")
        await until(lambda: server.preview.state.version == 2 and not server.preview.state.faults)
        assert server.building() is None
        assert time.monotonic() - began < 30

    followed(path, act)


def test_ctrl_c_ends_it_in_the_middle_of_a_proof(path: Path) -> None:
    run = started(path)
    while not run.state()["parts"]:
        time.sleep(0.05)
    path.write_text(LESSON + PROOF, "utf-8")
    while run.building() < 1.5:
        time.sleep(0.05)
    worker = [
        int(pid)
        for pid in Path(f"/proc/{run.process.pid}/task/{run.process.pid}/children")
        .read_text("ascii")
        .split()
    ]
    began = time.monotonic()
    run.process.send_signal(signal.SIGINT)
    out, _ = run.process.communicate(timeout=20)
    assert time.monotonic() - began < 4  # 0.4 s on a quiet machine
    assert run.process.returncode == 0
    assert out.splitlines()[-1] == "the preview has ended"
    assert "Traceback" not in out
    assert not [pid for pid in worker if Path(f"/proc/{pid}").exists()]


def test_sigterm_ends_it_too(path: Path) -> None:
    run = started(path)
    run.process.terminate()
    out, _ = run.process.communicate(timeout=20)
    assert run.process.returncode == 143
    assert out.splitlines()[-1] == "ended by SIGTERM"


# ---------------------------------------------------------------- the terminal, the browser


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (BrokenPipeError(32, "Broken pipe"), "Broken pipe"),
        (ValueError("I/O operation on closed file."), "I/O operation on closed file."),
        (OSError(28, "No space left on device"), "No space left on device"),
    ],
)
def test_a_terminal_that_goes_away_is_told_on_the_page(wrong: Exception, told: str) -> None:
    def gone(_: str) -> None:
        raise wrong

    terminal = serve.Terminal(gone)
    assert terminal.remarks() == ()
    terminal.say("built")
    (remark,) = terminal.remarks()
    assert remark.message == (
        f"the terminal takes no more lines ({told}); all that is said stands here"
    )


def test_a_terminal_without_our_signs_is_told_all_the_same() -> None:
    lines = []

    def ascii_only(line: str) -> None:
        line.encode("ascii")
        lines.append(line)

    terminal = serve.Terminal(ascii_only)
    terminal.say("built … in 3 ms")
    assert (lines, terminal.remarks()) == (["built \\u2026 in 3 ms"], ())


def test_the_browser_is_led_through_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    monkeypatch.setattr("webbrowser.open", asked.append)
    with opened("http://127.0.0.1:8123/secret/") as file:
        time.sleep(1)
        assert asked == [file.as_uri()]


def test_a_link_that_leads_nowhere_hides_no_other_file(path: Path) -> None:
    (path.parent / "a.png").symlink_to("nowhere")
    assert [name for name, *_ in Preview(path).seen()] == ["tide.md"]
    assert lesson.check(path).notes is not None
