"""Voice: a recording that the film follows, by its pauses or by a file of cues.

The script says about how long each scene is; of the pauses in the recording those are taken whose
distances fit it best, long ones before short ones. A scene without a pause of its own is given its
part of the time between two that have one, and that is told.
"""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import log
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place, TextError, raise_all
from edgewise.publish.film import sound
from edgewise.publish.film.sound import Pause
from edgewise.shelf import read_file
from edgewise.yamltext import shortened

_SILENT: Final = -50.0
"""DB below full scale: the noise of a room, and nobody speaks."""
_SKIPPED: Final = 2.0
"""The price of a scene without a pause of its own."""
_LONG: Final = 1.2
"""What a pause of a second is worth."""
_LONGEST: Final = 1.5
_NEAREST: Final = 40
"""Pauses that are looked at for the beginning of one scene."""
_GROUP: Final = 6
"""Scenes in a row that may share one stretch between two pauses."""
_CUE: Final = re.compile(r"(\+?)(?:(?:(\d{1,2}):)?([0-5]?\d):)?(\d{1,5}(?:\.\d{1,3})?)(?:\s.*)?")


@dataclass(frozen=True, slots=True)
class Followed:
    """When each scene begins in a recording, and which of them have no pause of their own."""

    starts: tuple[float, ...]
    length: float
    lost: tuple[int, ...] = ()

    @property
    def seconds(self) -> list[float]:
        """How long each scene is."""
        return [end - start for start, end in pairwise((*self.starts, self.length))]


def follow(path: Path, expected: Sequence[float]) -> Followed:
    """Find the scenes of a script in a recording; `expected` are their seconds.

    Raises
    ------
    EdgewiseError
        It can't be read, or it is silent.
    """
    heights = list(sound.levels(sound.samples(path)))
    if not heights or max(heights) < _SILENT:
        raise EdgewiseError(Message("recording-silent", path=str(path)))
    length = len(heights) / 100
    found = [one for one in sound.pauses(heights) if one.start > 0 and one.end < length]
    return fitted(found, length, expected)


def fitted(pauses: Sequence[Pause], length: float, expected: Sequence[float]) -> Followed:
    """The pauses between scenes, chosen to fit the seconds that were expected.

    Examples
    --------
    >>> quiet = [Pause(3.8, 4.2), Pause(6.0, 6.9)]
    >>> fitted(quiet, 10.0, [6.0, 3.0]).starts
    (0.0, 6.9)
    """
    ends = list(accumulate(expected))
    scale = length / ends[-1]
    marks = [0.0, *(one.end for one in pauses), length]
    middle = [one.start for one in pauses]
    # The cheapest way to each pause as the end of each scene, and whence it came.
    best: dict[tuple[int, int], tuple[float, tuple[int, int]]] = {(0, 0): (0.0, (0, 0))}
    count = len(expected)
    for scene in range(1, count + 1):
        for at in _near(scene, count, ends, scale, middle, len(marks)):
            ways = [
                (best[key][0] + _price(key, (scene, at), marks, pauses, ends, scale), key)
                for key in list(best)
                if scene - _GROUP <= key[0] < scene and key[1] < at
            ]
            if ways:
                best[scene, at] = min(ways)
    last = len(marks) - 1
    if (count, last) not in best:
        starts = (0.0, *(scale * end for end in ends[:-1]))
        return Followed(starts, length, tuple(range(1, count)))
    return _traced(best, (count, last), marks, ends)


def _near(
    scene: int, count: int, ends: list[float], scale: float, middle: list[float], marks: int
) -> list[int]:
    """Which marks may be the end of a scene: those near its time."""
    if scene == count:
        return [marks - 1]
    at = bisect(middle, ends[scene - 1] * scale)
    low, high = max(0, at - _NEAREST // 2), min(len(middle), at + _NEAREST // 2)
    return [number + 1 for number in range(low, high)]


def _price(
    before: tuple[int, int],
    now: tuple[int, int],
    marks: list[float],
    pauses: Sequence[Pause],
    ends: list[float],
    scale: float,
) -> float:
    (first, start), (last, end) = before, now
    wanted = scale * (ends[last - 1] - (ends[first - 1] if first else 0.0))
    actual = marks[end] - marks[start]
    if actual <= 0 or wanted <= 0:
        return 1e6
    price = (last - first) * log(actual / wanted) ** 2 * 4 + _SKIPPED * (last - first - 1)
    if end <= len(pauses):
        price -= _LONG * min(pauses[end - 1].length, _LONGEST)
    return price


def _traced(
    best: dict[tuple[int, int], tuple[float, tuple[int, int]]],
    key: tuple[int, int],
    marks: list[float],
    ends: list[float],
) -> Followed:
    """The way back from the end, scenes without a pause put between those that have one."""
    starts: dict[int, float] = {}
    lost: list[int] = []
    length = marks[-1]
    while key != (0, 0):
        _, before = best[key]
        (first, at), (last, end) = before, key
        begun = ends[first - 1] if first else 0.0
        for scene in range(first, last):
            done = (ends[scene - 1] if scene else 0.0) - begun
            part = done / (ends[last - 1] - begun)
            starts[scene] = marks[at] + part * (marks[end] - marks[at])
            if scene > first:
                lost.append(scene)
        key = before
    return Followed(tuple(starts[n] for n in sorted(starts)), length, tuple(sorted(lost)))


def cues(path: Path, recording: Path, scenes: int) -> Followed:
    """The starts that a file gives: a time a line, in seconds or as 1:02.5.

    With a plus before them, as a rehearsal writes them, they count from the first word of the
    recording on, else from its beginning.

    Raises
    ------
    EdgewiseError or Problems
        What is no time, times that go back, or not as many as there are scenes.
    """
    text = read_file(path, str(path))
    heights = list(sound.levels(sound.samples(recording)))
    return read_cues(text, str(path), len(heights) / 100, scenes, sound.begun(heights))


def read_cues(text: str, file: str, length: float, scenes: int, begun: float = 0.0) -> Followed:
    r"""As `cues`, for a text and a recording in which the first word is said at `begun`.

    Examples
    --------
    >>> read_cues("# rain\n0\n1:02.5  step 1\n", "rain.cues", 70.0, 2).starts
    (0.0, 62.5)
    >>> read_cues("+0\n+4.25\n", "rain.cues", 70.0, 2, begun=1.5).starts
    (0.0, 5.75)
    """
    starts: list[float] = []
    errors: list[EdgewiseError] = []
    counted: set[str] = set()
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        place = Place(file, number)
        try:
            time, plus = _time(line.strip(), place)
        except TextError as wrong:
            errors.append(wrong)
            continue
        counted.add(plus)
        starts.append(time + begun if plus else time)
        if len(counted) > 1:
            told = Message("cues-plus")
            raise TextError(told, place)
        errors += _out_of_order(starts, line.split()[0], place, length)
    if not errors and len(starts) != scenes:
        told = Message("cues-count", count=len(starts), steps=scenes)
        errors.append(TextError(told, Place(file)))
    raise_all(errors)
    return Followed((0.0, *starts[1:]), length)


def _time(line: str, place: Place) -> tuple[float, str]:
    found = _CUE.fullmatch(line)
    if found is None:
        told = Message("cue-expected", found=shortened(line))
        raise TextError(told, place)
    plus, hours, minutes, seconds = found.groups()
    return int(hours or 0) * 3600 + int(minutes or 0) * 60 + float(seconds), plus


def _out_of_order(
    starts: Sequence[float], written: str, place: Place, length: float
) -> list[EdgewiseError]:
    """What is wrong with the last of the times."""
    if len(starts) > 1 and starts[-1] <= starts[-2]:
        return [TextError(Message("cue-back", found=written), place)]
    if starts[-1] >= length:
        told = Message("cue-late", found=written, length=f"{length:.1f}")
        return [TextError(told, place)]
    return []
