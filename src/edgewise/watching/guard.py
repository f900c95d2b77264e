"""The guard: answers whoever knows the secret of the address, and refuses everybody else."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Receive, Scope, Send

HERE: Final = "127.0.0.1"
"""The only address that the preview listens at."""
HEADERS: Final = {
    "Cache-Control": "no-store",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}
_ADDRESS: Final = "refused: the preview answers only to its own address on this machine"
_STRANGER: Final = "refused: open the whole address that edgewise shows in its terminal"
_SITE: Final = "refused: a request from another site"
_METHOD: Final = "refused: the preview is only to be looked at"
_TWICE: Final = "refused: a request that gives {} twice"
_ONCE: Final = ("host", "origin", "sec-fetch-site", "sec-fetch-mode", "sec-fetch-dest")


def secret() -> str:
    """A new secret of 128 bits, as a segment of an address."""
    return secrets.token_urlsafe(16)


class Guard:
    """Refuses whatever does not come from this page itself.

    Parameters
    ----------
    app : ASGI application
    port : int
    key : str
        The secret: the first segment of every path that is answered.
    takes : tuple of str
        Paths behind the secret to which the page itself may send something.
    """

    def __init__(self, app: ASGIApp, port: int, key: str, takes: tuple[str, ...] = ()) -> None:
        self.app = app
        self.hosts = {f"{name}:{port}" for name in (HERE, "localhost")}
        self.root = f"/{key}/"
        self.takes = {f"{self.root}{path}" for path in takes}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse with the reason."""
        if scope["type"] != "http":
            return
        wrong = self.fault(scope)
        if wrong:
            from starlette.responses import PlainTextResponse

            headers = {**HEADERS, "Connection": "close"}
            await PlainTextResponse(f"{wrong}\n", 403, headers=headers)(scope, receive, send)
            return

        async def with_headers(message: object) -> None:
            if isinstance(message, dict) and message["type"] == "http.response.start":
                added = [(k.lower().encode(), v.encode()) for k, v in HEADERS.items()]
                message["headers"] = [*message["headers"], *added]
            await send(message)  # type: ignore[arg-type]

        await self.app(scope, receive, with_headers)

    def fault(self, scope: Scope) -> str:
        """Why a request is refused; empty for one that is not."""
        headers = [(k.decode("latin-1").lower(), v.decode("latin-1")) for k, v in scope["headers"]]
        named = [key for key, _ in headers]
        for name in _ONCE:
            if named.count(name) > 1:
                return _TWICE.format(name.title())
        given = dict(headers)
        if given.get("host") not in self.hosts:
            return _ADDRESS
        origin = given.get("origin")
        if origin is not None and origin not in {f"http://{host}" for host in self.hosts}:
            return _SITE
        start = str(scope["path"])[: len(self.root)].encode()
        if not secrets.compare_digest(start, self.root.encode()):
            return _STRANGER
        if given.get("sec-fetch-site", "none") not in ("none", "same-origin") and not (
            scope["path"] == self.root and _followed(given)
        ):
            return _SITE
        # A page of another site could send a form; it would say whose it is.
        sent = scope["method"] == "POST" and scope["path"] in self.takes and origin is not None
        return "" if sent or scope["method"] in ("GET", "HEAD") else _METHOD


def _followed(given: dict[str, str]) -> bool:
    """Whether somebody who knew the secret followed a link to the page, in a window of its own."""
    wanted: Sequence[tuple[str, str]] = (("mode", "navigate"), ("dest", "document"))
    return all(given.get(f"sec-fetch-{name}") == value for name, value in wanted)
