"""The local preview server: one lesson, on this machine only. No logic."""

from __future__ import annotations

import asyncio
import contextlib
import errno
import socket
import threading
import webbrowser
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise.errors import EdgewiseError
from edgewise.publish.preview import Preview, State, notes_page, sources
from edgewise.shelf import read_file

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import ASGIApp, Receive, Scope, Send

HERE: Final = "127.0.0.1"
"""The only address that the preview listens at."""
_LOOK_MS: Final = 400
"""A look at the files at least so often, should the system miss telling of a change."""
_TICK: Final = 0.1
_ALIVE: Final = 15.0
"""Seconds after which a silent connection is told that it still lives."""
_HEADERS: Final = {
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}


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
    address = f"http://{HERE}:{listening.getsockname()[1]}/"
    server = Server(Preview(path), listening, tell)
    tell(f"{address} shows {path}; Ctrl-C ends it")
    if opened:
        threading.Timer(0.3, webbrowser.open, (address,)).start()
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(server.run())


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
            raise EdgewiseError(
                f"port {port} is in use by another program; choose another with --port, or"
                " leave it out"
            ) from None
        raise EdgewiseError(f"port {port} can't be used: {wrong.strerror}") from None
    return listening


@dataclass
class Server:
    """One preview, whoever looks at it, and the files that it is made of."""

    preview: Preview
    listening: socket.socket
    tell: Callable[[str], None]
    looking: set[asyncio.Queue[State | None]] = field(default_factory=set)
    ended: asyncio.Event = field(default_factory=asyncio.Event)

    async def run(self) -> None:
        """Serve and rebuild until the server is told to end."""
        import uvicorn

        config = uvicorn.Config(
            _Guard(self.app(), self.listening.getsockname()[1]),
            log_level="error",
            access_log=False,
            lifespan="off",
            timeout_graceful_shutdown=1,
        )
        server = uvicorn.Server(config)
        following = asyncio.create_task(self.follow())
        ending = asyncio.create_task(self.end_with(lambda: server.should_exit))
        try:
            await server.serve(sockets=[self.listening])
        finally:
            self.ended.set()
            for task in (following, ending):
                task.cancel()
                with contextlib.suppress(asyncio.CancelledError):
                    await task

    async def end_with(self, over: Callable[[], bool]) -> None:
        """Once the server is to end, let those go who look."""
        while not over():  # noqa: ASYNC110  # uvicorn has a flag, no event
            await asyncio.sleep(_TICK)
        self.ended.set()
        for queue in self.looking:
            queue.put_nowait(None)

    async def follow(self) -> None:
        """Build now, and again whenever a file is another than it was when last built."""
        from watchfiles import awatch

        seen: object = None
        folder = self.preview.path.absolute().parent

        async def look() -> None:
            nonlocal seen
            # What is saved during a build is built next; only the last state has to be shown.
            while (now := self.preview.seen()) != seen:
                seen = now
                await self.build()

        await look()
        with contextlib.suppress(OSError):  # the folder went away
            async for _ in awatch(
                folder,
                recursive=False,
                step=10,
                debounce=60,
                rust_timeout=_LOOK_MS,
                yield_on_timeout=True,
                stop_event=self.ended,
            ):
                await look()
        while not self.ended.is_set():
            await asyncio.sleep(_LOOK_MS / 1000)
            await look()

    async def build(self) -> None:
        """Build once, and tell everyone who looks."""
        state = await asyncio.to_thread(self.preview.build)
        for queue in self.looking:
            queue.put_nowait(state)
        for fault in state.faults:
            self.tell(f"{self.preview.path}: {fault}")
        for remark in state.remarks:
            self.tell(f"{self.preview.path}: {remark}")
        if not state.faults:
            self.tell(f"{self.preview.path}: built in {1000 * state.seconds:.0f} ms")

    def app(self) -> Starlette:
        """The routes."""
        from starlette.applications import Starlette
        from starlette.routing import Route

        files = [Route(path, self.file) for path in sources()]
        routes = [Route("/", self.page), Route("/events", self.events), *files]
        return Starlette(routes=[*routes, Route("/notes", self.notes)])

    async def page(self, _: Request) -> Response:
        """The page as it stands."""
        from starlette.responses import HTMLResponse

        made, policy = await asyncio.to_thread(self.preview.page)
        return HTMLResponse(made, headers={"Content-Security-Policy": policy})

    async def notes(self, _: Request) -> Response:
        """The teacher's notes, which follow what is projected."""
        from starlette.responses import HTMLResponse

        made, policy = notes_page()
        return HTMLResponse(made, headers={"Content-Security-Policy": policy})

    async def file(self, request: Request) -> Response:
        """A script or style file of the page."""
        from starlette.responses import Response

        kind, text = sources()[request.url.path]
        return Response(text, media_type=kind)

    async def events(self, _: Request) -> Response:
        """Each state as it comes, as server-sent events (WHATWG HTML, sec. 9.2)."""
        from starlette.responses import StreamingResponse

        return StreamingResponse(self.stream(), media_type="text/event-stream")

    async def stream(self) -> AsyncIterator[str]:
        """The state now, then every later one; of several at once only the last."""
        queue: asyncio.Queue[State | None] = asyncio.Queue()
        self.looking.add(queue)
        known: set[str] = set()
        try:
            yield f"data: {self.preview.state.data(known)}\n\n"
            while not self.ended.is_set():
                try:
                    state = await asyncio.wait_for(queue.get(), _ALIVE)
                except TimeoutError:
                    yield ": still here\n\n"
                    continue
                while not queue.empty():
                    state = queue.get_nowait()
                if state:
                    yield f"data: {state.data(known)}\n\n"
        finally:
            self.looking.discard(queue)


class _Guard:
    """Refuses whatever does not come from this page itself."""

    def __init__(self, app: ASGIApp, port: int) -> None:
        self.app = app
        self.hosts = {f"{name}:{port}" for name in (HERE, "localhost")}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse with the reason."""
        if scope["type"] != "http":
            return
        wrong = self.fault(scope)
        if wrong:
            from starlette.responses import PlainTextResponse

            await PlainTextResponse(f"{wrong}\n", 403, headers=_HEADERS)(scope, receive, send)
            return

        async def with_headers(message: object) -> None:
            if isinstance(message, dict) and message["type"] == "http.response.start":
                added = [(k.lower().encode(), v.encode()) for k, v in _HEADERS.items()]
                message["headers"] = [*message["headers"], *added]
            await send(message)  # type: ignore[arg-type]

        await self.app(scope, receive, with_headers)

    def fault(self, scope: Scope) -> str:
        """Why a request is refused; empty for one that is not."""
        headers = [(k.decode("latin-1").lower(), v.decode("latin-1")) for k, v in scope["headers"]]
        hosts = [value for key, value in headers if key == "host"]
        if len(hosts) != 1 or hosts[0] not in self.hosts:
            return "refused: the preview answers only to its own address on this machine"
        given = dict(headers)
        origin, site = given.get("origin"), given.get("sec-fetch-site", "none")
        if origin is not None and origin not in {f"http://{host}" for host in self.hosts}:
            return "refused: a request from another site"
        if site not in ("none", "same-origin"):
            return "refused: a request from another site"
        if scope["method"] not in ("GET", "HEAD"):
            return "refused: the preview is only to be looked at"
        return ""
