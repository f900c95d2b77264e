"""How long the claims and proofs of a lesson may take together."""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from typing import Final

from edgewise.errors import Message

LIMIT: Final = 60.0
"""Seconds for all claims and proofs of a lesson."""


@dataclass(frozen=True, slots=True)
class Patience:
    """The time that a lesson's claims and proofs have, from now on.

    Parameters
    ----------
    seconds : float
        In all.

    Examples
    --------
    >>> Patience(0).out, Patience(60).left > 59
    (True, True)
    """

    seconds: float = LIMIT
    _began: float = field(default_factory=time.monotonic)

    @property
    def left(self) -> float:
        """Seconds that are left."""
        return max(0.0, self._began + self.seconds - time.monotonic())

    @property
    def out(self) -> bool:
        """Whether none is left."""
        return not self.left

    @property
    def told(self) -> Message:
        """What to say of a claim that was not tried."""
        return Message("patience-out", seconds=f"{self.seconds:g}")
