"""The times file: how long each scene of a film stands, to be edited and kept.

A line a scene: the seconds that it is shown, those that were computed, its label, what is said::

      6.40   6.40  7   Edge 7 stores …

Where the first two numbers differ, somebody has written the first: it is kept when the film is
made again, also where the second has changed.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place, TextError, raise_all
from edgewise.publish.film.script import Scene
from edgewise.shelf import read_file
from edgewise.yamltext import shortened

SUFFIX: Final = ".times"
SHORTEST, LONGEST = 0.2, 3600.0
_HEADING: Final = """\
# How long each step of {film} is shown, in seconds. Write another number into the first
# column and make the film again: it is kept. The second column is what was computed.
# shown computed step what is said
"""
_LINE: Final = re.compile(r"\s*(\S+)\s+(\S+)\s+(\S+)(?:\s.*)?")
_NUMBER: Final = re.compile(r"\d{1,4}(?:\.\d{1,3})?")
_SAID: Final = 60
"""Characters of what is said that stand in a line."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A time that somebody has written: of the scene of this label, counted among its like."""

    label: str
    which: int
    seconds: float
    place: Place


def read(path: Path) -> tuple[Kept, ...]:
    """The times that were written into a file; none if there is no file.

    Raises
    ------
    EdgewiseError or Problems
        Lines that are none, each at its place.
    """
    if not path.exists():
        return ()
    return tuple(parsed(read_file(path, str(path)), str(path)))


def parsed(text: str, file: str) -> list[Kept]:
    r"""The times that were written into a text.

    Examples
    --------
    >>> [(one.label, one.seconds) for one in parsed("6.4 6.4 7 a\n9 4.1 8 b\n", "x.times")]
    [('8', 9.0)]
    """
    kept: list[Kept] = []
    seen: Counter[str] = Counter()
    errors: list[EdgewiseError] = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        place = Place(file, number)
        found = _LINE.fullmatch(line)
        try:
            if found is None:
                raise _no_line(line, place)
            shown, computed = (_seconds(found[at], place) for at in (1, 2))
        except TextError as wrong:
            errors.append(wrong)
            continue
        which = seen[found[3]]
        seen[found[3]] += 1
        if shown != computed:
            kept.append(Kept(found[3], which, shown, place))
    raise_all(errors)
    return kept


def _no_line(line: str, place: Place) -> TextError:
    return TextError(Message("times-line", found=shortened(line.strip())), place)


def _seconds(written: str, place: Place) -> float:
    if not _NUMBER.fullmatch(written) or not SHORTEST <= float(written) <= LONGEST:
        raise TextError(
            Message(
                "times-seconds",
                found=shortened(written),
                least=f"{SHORTEST:g}",
                most=f"{LONGEST:g}",
            ),
            place,
        )
    return float(written)


def chosen(
    scenes: Sequence[Scene], computed: Sequence[float], kept: Iterable[Kept]
) -> tuple[list[float], list[Kept]]:
    """The seconds of each scene, and the times that belong to none any more."""
    waiting = {(one.label, one.which): one for one in kept}
    times = []
    for key, seconds in zip(_keys(scenes), computed, strict=True):
        own = waiting.pop(key, None)
        times.append(seconds if own is None else own.seconds)
    return times, list(waiting.values())


def written(
    scenes: Sequence[Scene], times: Sequence[float], computed: Sequence[float], film: str
) -> str:
    """The file."""
    lines = [_HEADING.format(film=film)]
    for scene, shown, own in zip(scenes, times, computed, strict=True):
        said = shortened_speech(scene.said)
        lines.append(f"{shown:8.2f} {own:8.2f} {scene.label:>5}  {said}".rstrip() + "\n")
    return "".join(lines)


def shortened_speech(said: str) -> str:
    """What is said in a scene, as far as a line of a file tells it.

    Examples
    --------
    >>> shortened_speech("Look at C.")
    'Look at C.'
    """
    return said if len(said) <= _SAID else f"{said[:_SAID].rstrip()}…"


def _keys(scenes: Iterable[Scene]) -> Iterator[tuple[str, int]]:
    seen: Counter[str] = Counter()
    for scene in scenes:
        yield scene.label, seen[scene.label]
        seen[scene.label] += 1
