"""Connections: how many at a time, and how long one may keep silent before it has asked."""

from __future__ import annotations

import asyncio
from typing import Any, Final

from uvicorn.protocols.http.h11_impl import H11Protocol, RequestResponseCycle

MOST: Final = 64
"""Connections at a time; a page has one or two."""
PATIENCE: Final = 5.0
"""Seconds from its beginning, or from the last answer, in which a connection must have asked."""


class Connection(H11Protocol):
    """HTTP/1.1 with limits: strangers can't crowd out the page.

    One that does not finish its request in time is closed, however slowly it goes on sending
    (the keep-alive time of the server counts silence only). When there are too many, the oldest
    goes that waits for no answer.
    """

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        self.late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        """Take it, and make room for it."""
        super().connection_made(transport)  # type: ignore[arg-type]
        self.wait()
        if len(self.connections) > MOST:
            idle = [c for c in self.connections if isinstance(c, Connection) and not c.answering]
            min(idle, key=lambda one: one.late.when() if one.late else 0.0).drop()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget it."""
        self.waited()
        super().connection_lost(exc)

    @property
    def answering(self) -> bool:
        """Whether a request has come whose answer is not complete."""
        cycle: RequestResponseCycle | None = self.cycle  # none before the first request
        return cycle is not None and not cycle.response_complete

    def handle_events(self) -> None:
        """Stop the clock once a request is there."""
        super().handle_events()
        if self.answering:
            self.waited()

    def on_response_complete(self) -> None:
        """Start the clock for the next request."""
        self.waited()
        self.wait()
        super().on_response_complete()
        if self.transport.is_closing():
            self.waited()

    def wait(self) -> None:
        """Start the clock."""
        self.late = self.loop.call_later(PATIENCE, self.drop)

    def waited(self) -> None:
        """Stop the clock."""
        if self.late is not None:
            self.late.cancel()
            self.late = None

    def drop(self) -> None:
        """Close it without another word."""
        self.waited()
        self.connections.discard(self)  # at once: many may come before it is told that it is lost
        self.transport.abort()
