"""The plan: which scene stands from which frame to which, and the captions and chapters of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from edgewise.publish.film.captions import Cue, timed
from edgewise.publish.film.pace import speeches
from edgewise.publish.film.script import Scene


@dataclass(frozen=True, slots=True)
class Shot:
    """A scene in its frames: from `first` up to the one before `end`."""

    scene: Scene
    first: int
    end: int

    @property
    def count(self) -> int:
        """How many frames it stands."""
        return self.end - self.first


@dataclass(frozen=True, slots=True)
class Plan:
    r"""All scenes in their frames.

    Examples
    --------
    >>> scene = Scene("title", None, "Good morning.", "Rain", "Rain", "Rain.")
    >>> plan = Plan.of([scene, scene], [1.5, 2.0], 30)
    >>> plan.frames, [str(cue) for cue in plan.captions()][-1]
    (105, '00:00:01.500 --> 00:00:03.500\nGood morning.')
    """

    shots: tuple[Shot, ...]
    rate: float

    @classmethod
    def of(cls, scenes: Sequence[Scene], seconds: Sequence[float], rate: float) -> Plan:
        """Each scene for its seconds; what a frame cuts off one, the next has."""
        ends, total = [0], 0.0
        for length in seconds:
            total += length
            ends.append(max(round(total * rate), ends[-1] + 1))
        pairs = zip(scenes, pairwise(ends), strict=True)
        return cls(tuple(Shot(scene, *both) for scene, both in pairs), rate)

    @property
    def frames(self) -> int:
        """Of the whole film."""
        return self.shots[-1].end

    @property
    def seconds(self) -> float:
        """Of the whole film."""
        return self.frames / self.rate

    def clock(self, frame: int) -> int:
        """When a frame is shown, in milliseconds."""
        return round(frame * 1000 / self.rate)

    def captions(self) -> Iterator[Cue]:
        """What is said; a scene that says nothing leaves the words of the one before."""
        for first, end in speeches([shot.scene for shot in self.shots]):
            begun, ended = self.shots[first].first, self.shots[end - 1].end
            yield from timed(self.shots[first].scene.said, self.clock(begun), self.clock(ended))

    def chapters(self) -> Iterator[Cue]:
        """Sections and phases."""
        for title, group in groupby(self.shots, key=lambda shot: shot.scene.chapter):
            shots = list(group)
            yield Cue(self.clock(shots[0].first), self.clock(shots[-1].end), (title,))

    def descriptions(self) -> Iterator[Cue]:
        """What is to be seen, scene by scene."""
        for shot in self.shots:
            yield Cue(self.clock(shot.first), self.clock(shot.end), (shot.scene.described,))
