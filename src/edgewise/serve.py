"""The local preview server: one lesson, on this machine only. No logic."""

from __future__ import annotations

import asyncio
import contextlib
import errno
import json
import socket
import time
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise.errors import EdgewiseError, Message, unforeseen
from edgewise.publish.preview.preview import Preview, notes_page, sources
from edgewise.publish.preview.state import Built, Fault, Remark
from edgewise.shelf import read_file
from edgewise.watching import serving
from edgewise.watching.guard import HERE, secret
from edgewise.watching.opening import opened as opened_in_browser
from edgewise.watching.rebuilding import Rebuilder

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.requests import Request
    from starlette.responses import Response

_LOOK: Final = 0.4
"""Seconds: a look at the files at least so often, should the system miss telling of a change."""
_LONG: Final = 3.0
"""Seconds after which a build gives way to that of a newer save."""
_TICK: Final = 0.05
_ALIVE: Final = 2.0
"""Seconds after which a page is told that the server still lives."""


def watch(path: Path, port: int, *, opened: bool, tell: Callable[[str], None]) -> None:
    """Serve the preview of a lesson until Ctrl-C.

    Parameters
    ----------
    path : Path
        The lesson.
    port : int
        0: any that is free.
    opened : bool
        Open the page in the browser.
    tell : function
        Called with each line for the terminal.

    Raises
    ------
    EdgewiseError
        There is no such lesson, or the port is in use.
    """
    read_file(path, str(path))
    listening = listen(port)
    key = secret()
    address = f"http://{HERE}:{listening.getsockname()[1]}/{key}/"
    server = Server(Preview(path), listening, key, Terminal(tell))
    with contextlib.ExitStack() as stack:
        stack.enter_context(contextlib.suppress(KeyboardInterrupt))
        if opened:
            stack.enter_context(opened_in_browser(address))
        running = stack.enter_context(contextlib.closing(server.run(f"{address} shows {path}")))
        asyncio.run(running)
    server.terminal.say(str(Message("preview-ended")))


@dataclass
class Terminal:
    """Where `watch` was started; it may go away while the preview goes on.

    Examples
    --------
    >>> def gone(line):
    ...     raise BrokenPipeError(32, "Broken pipe")
    >>> terminal = Terminal(gone)
    >>> terminal.say("built")
    >>> terminal.remarks()[0].message
    'the terminal takes no more lines (Broken pipe); all that is said stands here'
    """

    tell: Callable[[str], None]
    gone: str = ""
    """Why nothing can be said there any more."""

    def say(self, line: str) -> None:
        """Say a line, if it can be said."""
        if self.gone:
            return
        try:
            self.tell(line)
        except UnicodeError:
            self.say(ascii(line)[1:-1])
        except (OSError, ValueError, EdgewiseError) as wrong:
            self.gone = (isinstance(wrong, OSError) and wrong.strerror) or str(wrong)

    def remarks(self) -> tuple[Remark, ...]:
        """What the page says of it."""
        if not self.gone:
            return ()
        told = str(Message("terminal-gone", why=self.gone))
        return (Remark(0, "note", "", told),)


def listen(port: int) -> socket.socket:
    """A socket that listens on this machine only.

    Raises
    ------
    EdgewiseError
        The port is in use, or not ours to use.
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HERE, port))
        listening.listen(64)
    except OSError as wrong:
        listening.close()
        if wrong.errno == errno.EADDRINUSE:
            raise EdgewiseError(Message("port-in-use", port=port)) from None
        raise EdgewiseError(
            Message("port-unusable", port=port, why=wrong.strerror or str(wrong))
        ) from None
    return listening


@dataclass
class Server:
    """One preview, whoever looks at it, and the files that it is made of."""

    preview: Preview
    listening: socket.socket
    key: str
    terminal: Terminal
    looking: set[asyncio.Event] = field(default_factory=set)
    """One for each page that looks: set when there is something new."""
    ended: asyncio.Event = field(default_factory=asyncio.Event)
    changed: asyncio.Event = field(default_factory=asyncio.Event)
    """The system says that something in the folder is another than it was."""
    since: float | None = None
    """When the build began that goes on now."""

    async def run(self, address: str) -> None:
        """Serve and rebuild until the server is told to end; says first where it is."""
        server = serving.server(self.app(), self.listening, self.key)
        rebuilder = Rebuilder(self.preview.path)
        tasks = [
            asyncio.create_task(self.follow(rebuilder)),
            asyncio.create_task(self.hear()),
            asyncio.create_task(self.end_with(lambda: server.should_exit)),
        ]
        # Said here, for whoever reads it may end the loop: it must have been made.
        self.terminal.say(str(Message("preview-address", address=address)))
        try:
            await server.serve(sockets=[self.listening])
        finally:
            self.ended.set()
            rebuilder.stop()
            for task in tasks:
                task.cancel()
            await asyncio.gather(*tasks, return_exceptions=True)
            rebuilder.stop()

    async def end_with(self, over: Callable[[], bool]) -> None:
        """Once the server is to end, let those go who look."""
        while not over():  # noqa: ASYNC110  # uvicorn has a flag, no event
            await asyncio.sleep(_TICK)
        self.ended.set()
        self.news()

    async def hear(self) -> None:
        """Hear from the system of changes; what it does not tell, a look finds."""
        from watchfiles import awatch

        folder = self.preview.path.absolute().parent
        with contextlib.suppress(Exception):  # the folder goes away, or there are no watches left
            async for _ in awatch(
                folder, recursive=False, step=10, debounce=60, stop_event=self.ended
            ):
                self.changed.set()

    async def follow(self, rebuilder: Rebuilder) -> None:
        """Build now, and again whenever a file is another than it was when last built.

        Nothing ends this: what goes wrong is shown on the page, and the next save is tried.
        """
        built: object = None
        while not self.ended.is_set():
            self.changed.clear()
            try:
                now = self.preview.seen()
                if now != built:
                    built = now
                    await self.build(rebuilder, now)
                    continue  # what is saved during a build is built next
            except Exception as wrong:  # noqa: BLE001  # see above
                self.fail(unforeseen(wrong))
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self.changed.wait(), _LOOK)

    async def build(self, rebuilder: Rebuilder, seen: object) -> None:
        """Build what was seen; a long build gives way to that of a newer save."""
        self.since = time.monotonic()
        self.news()
        task = asyncio.create_task(rebuilder.build())
        try:
            while not (await asyncio.wait({task}, timeout=_LOOK))[0]:
                if time.monotonic() - self.since > _LONG and self.preview.seen() != seen:
                    rebuilder.stop()
                    await task
                    return  # the page still says that a build goes on: the next one
        finally:
            task.cancel()
        self.since = None
        self.show(task.result())

    def show(self, built: Built) -> None:
        """Tell everyone who looks, and the terminal."""
        path, state = self.preview.path, self.preview.take(built)
        for fault in state.faults:
            self.terminal.say(f"{path}: {fault}")
        for remark in state.remarks:
            self.terminal.say(f"{path}: {remark}")
        if not state.faults:
            told = Message("preview-built", ms=round(1000 * state.seconds))
            self.terminal.say(f"{path}: {told}")
        self.news()

    def fail(self, message: str) -> None:
        """Show an error of the preview itself, once."""
        self.since = None
        if [fault.message for fault in self.preview.state.faults] != [message]:
            self.show(Built("", faults=(Fault(0, message),)))

    def news(self) -> None:
        """Wake everyone who looks."""
        for ear in self.looking:
            ear.set()

    def app(self) -> Starlette:
        """The routes."""
        from starlette.applications import Starlette
        from starlette.routing import Route

        root = f"/{self.key}/"
        files = [Route(f"{root}{name}", self.file) for name in sources()]
        pages = [Route(root, self.page), Route(f"{root}notes", self.notes)]
        return Starlette(routes=[*pages, Route(f"{root}events", self.events), *files])

    async def page(self, _: Request) -> Response:
        """The page as it stands."""
        made, policy = self.preview.page()
        return _answer(made, str(policy))

    async def notes(self, _: Request) -> Response:
        """The teacher's notes, which follow what is projected."""
        made, policy = notes_page()
        return _answer(made, str(policy))

    async def file(self, request: Request) -> Response:
        """A script or style file of the page."""
        from starlette.responses import Response

        kind, text = sources()[request.url.path.rpartition("/")[2]]
        return Response(text, media_type=kind)

    async def events(self, _: Request) -> Response:
        """Each state as it comes, as server-sent events (WHATWG HTML, sec. 9.2)."""
        from starlette.responses import StreamingResponse

        return StreamingResponse(self.stream(), media_type="text/event-stream")

    async def stream(self) -> AsyncIterator[str]:
        """The state now, then every later one; of several at once only the last.

        In between, and at least every two seconds, how long a build has been going on.
        """
        ear = asyncio.Event()
        self.looking.add(ear)
        known: set[str] = set()
        told: tuple[int, bool] | None = None
        try:
            while not self.ended.is_set():
                ear.clear()
                now = (self.preview.state.version, bool(self.terminal.gone))
                if now != told:
                    told = now
                    yield f"data: {self.preview.state.data(known, self.terminal.remarks())}\n\n"
                yield f"event: alive\ndata: {json.dumps(self.building())}\n\n"
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(ear.wait(), _ALIVE)
        finally:
            self.looking.discard(ear)

    def building(self) -> float | None:
        """Seconds that a build has been going on; nothing if what is shown is up to date."""
        return None if self.since is None else round(time.monotonic() - self.since, 1)


def _answer(made: str, policy: str) -> Response:
    from starlette.responses import HTMLResponse

    # A name of a file may hold what is no text; it is shown, not refused.
    told = made.encode("utf-8", "replace")
    return HTMLResponse(told, headers={"Content-Security-Policy": policy})
