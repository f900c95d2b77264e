"""The rehearsal's local server: one projected stage, on this machine only. No logic."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from edgewise import lesson, serve
from edgewise.errors import EdgewiseError, Message
from edgewise.publish import output
from edgewise.publish.film import rehearsal
from edgewise.publish.film.pace import Pace
from edgewise.publish.film.take import paced, spoken_of
from edgewise.publish.film.transcript import minutes
from edgewise.watching import serving
from edgewise.watching.guard import HERE, secret
from edgewise.watching.opening import opened as opened_in_browser

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.requests import Request
    from starlette.responses import Response


def rehearse(  # what is rehearsed, and who is told
    path: Path, out: Path, pace: Pace, times: Path, *, opened: bool, tell: Callable[[str], None]
) -> None:
    """Serve the rehearsal of a lesson until Ctrl-C; each one that is done writes its cues.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        The file of cues.
    pace : Pace
    times : Path
        The file of times, if there is one.
    opened : bool
        Open the page in the browser.
    tell : function
        Called with each line for the terminal.

    Raises
    ------
    EdgewiseError or Problems
        What is wrong with the lesson or its times.
    """
    report = lesson.check(path)
    scenes, seconds, notes = paced(report, pace, times)
    for note in notes:
        tell(str(note))
    scenes = spoken_of(scenes)
    seconds = seconds[-len(scenes) :]
    made, policy = rehearsal.page(report, scenes, seconds)

    def taken(sent: bytes) -> str:
        text, took = rehearsal.cues(scenes, sent, path.name)
        output.write(out, text)
        told = Message(
            "rehearsal-kept",
            lesson=str(path),
            cues=str(out),
            took=minutes(took),
            planned=minutes(sum(seconds)),
        )
        tell(str(told))
        return report.words("film-rehearse-saved", count=len(scenes), file=str(out))

    listening, key = serve.listen(0), secret()
    address = f"http://{HERE}:{listening.getsockname()[1]}/{key}/"
    with contextlib.ExitStack() as stack:
        stack.enter_context(contextlib.suppress(KeyboardInterrupt))
        if opened:
            stack.enter_context(opened_in_browser(address))
        tell(str(Message("rehearsal-address", address=address, lesson=str(path))))
        routes = _Routes(made, str(policy), taken)
        asyncio.run(serving.server(routes.app(key), listening, key, ("cues",)).serve([listening]))
    tell(str(Message("rehearsal-ended")))


class _Routes:
    """The page, and where it sends its cues."""

    def __init__(self, page: str, policy: str, taken: Callable[[bytes], str]) -> None:
        self._page, self._policy, self._taken = page.encode(), policy, taken

    def app(self, key: str) -> Starlette:
        from starlette.applications import Starlette
        from starlette.routing import Route

        return Starlette(
            routes=[
                Route(f"/{key}/", self.page),
                Route(f"/{key}/cues", self.cues, methods=["POST"]),
            ]
        )

    async def page(self, _: Request) -> Response:
        from starlette.responses import HTMLResponse

        return HTMLResponse(self._page, headers={"Content-Security-Policy": self._policy})

    async def cues(self, request: Request) -> Response:
        from starlette.responses import PlainTextResponse

        sent = b""
        async for piece in request.stream():
            sent += piece
            if len(sent) > rehearsal.LARGEST:
                return PlainTextResponse(f"{Message('cues-long')}\n", 413)
        try:
            return PlainTextResponse(self._taken(sent))
        except EdgewiseError as wrong:
            return PlainTextResponse(f"{wrong}\n", 400)
