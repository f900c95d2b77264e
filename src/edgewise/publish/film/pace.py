"""The pace: how long each scene takes, from what is said in it and what moves."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError, Message
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
                Message("pace-words", words=self.words, least=SLOWEST, most=FASTEST)
            )
        if not 0 <= self.pause <= 30:
            raise EdgewiseError(Message("pace-pause", seconds=f"{self.pause:g}"))

    def spoken(self, text: str) -> float:
        """Seconds that a text takes to be spoken, and at least to be read."""
        return max(words(text) * 60 / self.words, len(text) / READ)

    def scenes(
        self,
        scenes: Sequence[Scene],
        moving: Sequence[float],
        voiced: Sequence[float] | None = None,
    ) -> list[float]:
        """Seconds of each scene.

        What is said goes on through the scenes behind it that say nothing of their own.

        Parameters
        ----------
        scenes : sequence of Scene
        moving : sequence of float
            How long something moves in each.
        voiced : sequence of float, optional
            How long is spoken in each; as its words say, if left out.
        """
        if voiced is None:
            voiced = [self.spoken(scene.said) for scene in scenes]
        times = [0.0] * len(scenes)
        for first, end in speeches(scenes):
            speech = voiced[first] + self.pause if scenes[first].said else 0.0
            speech += THINKING if scenes[first].kind == "ask" else 0.0
            for number in range(first, end):
                titled = scenes[number].kind == "title"
                least = TITLE if titled else moving[number] + SEEN
                times[number] = max(speech / (end - first), least)
        times[-1] += LAST
        return times


def speeches(scenes: Sequence[Scene]) -> Iterator[tuple[int, int]]:
    """The scenes through which one speech goes: the number of the first, and of the next one.

    Examples
    --------
    >>> title = Scene("title", None, "", "Rain", "Rain", "")
    >>> step, more = (Scene("step", None, said, "", "", "") for said in ("Look.", ""))
    >>> list(speeches([title, step, more, step]))
    [(0, 1), (1, 3), (3, 4)]
    """
    first = 0
    for number, scene in enumerate(scenes):
        if number and (scene.said or scenes[first].kind == "title"):
            yield first, number
            first = number
    yield first, len(scenes)


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
