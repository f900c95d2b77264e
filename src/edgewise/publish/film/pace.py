"""The pace: how long each scene takes, from what is said in it and what moves."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.publish.film.script import Scene

RATE: Final = 140
"""Words a minute unless said."""
SLOWEST, FASTEST = 60, 300
READ: Final = 20.0
"""Characters of captions a second, at most; common practice, no source."""
TITLE: Final = 3.0
"""Seconds that a title stands in silence."""
THINKING: Final = 4.0
"""Seconds for a question to be thought about."""
LAST: Final = 1.5
"""Seconds that the last picture stands longer."""
_SPOKEN: Final = re.compile(r"[01X]{2,}|[^\W_]+|[=+×−÷]")


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast it is spoken, and how long it is silent behind each scene.

    Raises
    ------
    EdgewiseError
        Nobody speaks so.

    Examples
    --------
    >>> Pace().spoken("A holds 0110.")
    2.5714285714285716
    """

    words: int = RATE
    pause: float = 0.7

    def __post_init__(self) -> None:
        """Refuse what nobody speaks."""
        if not SLOWEST <= self.words <= FASTEST:
            raise EdgewiseError(
                f"{self.words} words a minute is no pace; expected {SLOWEST} to {FASTEST}"
            )
        if not 0 <= self.pause <= 30:
            raise EdgewiseError(f"a pause is {self.pause:g} seconds; expected 0 to 30")

    def spoken(self, text: str) -> float:
        """Seconds that a text takes to be spoken, and at least to be read."""
        return max(words(text) * 60 / self.words, len(text) / READ)

    def scenes(self, scenes: Sequence[Scene], moving: Sequence[float]) -> list[float]:
        """Seconds of each scene; `moving` is how long something moves in it.

        What is said goes on through the scenes behind it that say nothing of their own.
        """
        voiced = [self._voiced(scene) for scene in scenes]
        times = []
        for number, scene in enumerate(scenes):
            first = number
            while first and not scenes[first].said and scenes[first].kind != "title":
                first -= 1
            last = first + 1
            while last < len(scenes) and not scenes[last].said:
                last += 1
            share = voiced[first] / (last - first)
            least = TITLE if scene.kind == "title" else moving[number] + SEEN
            times.append(max(share, least))
        times[-1] += LAST
        return times

    def _voiced(self, scene: Scene) -> float:
        thinking = THINKING if scene.kind == "ask" else 0.0
        return (self.spoken(scene.said) + self.pause if scene.said else 0.0) + thinking


SEEN: Final = 1.5
"""Seconds that the picture stands after a change, at least."""


def words(text: str) -> int:
    """How many words are spoken: of a word of bits, each bit.

    Examples
    --------
    >>> words("S(0) holds 1."), words("A = 0110")
    (4, 6)
    """
    return sum(len(found) if set(found) <= set("01X") else 1 for found in _SPOKEN.findall(text))
