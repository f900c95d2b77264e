"""Serving: the web server for whoever knows the secret, made in one way."""

from __future__ import annotations

import socket
from typing import TYPE_CHECKING

from edgewise.watching.guard import Guard

if TYPE_CHECKING:
    import uvicorn
    from starlette.applications import Starlette


def server(
    app: Starlette, listening: socket.socket, key: str, takes: tuple[str, ...] = ()
) -> uvicorn.Server:
    """A server of these routes behind a guard; `takes` as of `Guard`."""
    import uvicorn

    from edgewise.watching.connections import Connection

    return uvicorn.Server(
        uvicorn.Config(
            Guard(app, listening.getsockname()[1], key, takes),
            http=Connection,
            ws="none",
            log_config=None,
            log_level="critical",
            access_log=False,
            lifespan="off",
            proxy_headers=False,
            server_header=False,
            timeout_graceful_shutdown=0,
        )
    )
