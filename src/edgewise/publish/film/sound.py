"""Sound: recordings read and resampled, their level, and the pauses in them.

A recording is read in pieces, so that an hour of it takes no more memory than a minute.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import log10
from operator import mul
from pathlib import Path
from typing import Any, Final

from edgewise.errors import EdgewiseError, Message
from edgewise.publish.film.encoder import SOUND, library

_WINDOW: Final = SOUND // 100
"""Samples whose level is taken together: 10 ms."""
_FULL: Final = 32768
SHORTEST_PAUSE: Final = 0.3
"""Seconds; shorter ones are those between words."""
_QUIET, _LOUD = 0.1, 0.9
"""The levels that stand for silence and for speech, in parts of all windows."""
_PART: Final = 0.3
"""Below this part of the way from silence to speech, in dB, it is a pause."""
_SPEECH: Final = -20.0
"""The level of a draft voice, dB below full scale; common practice, no source."""
_PEAK: Final = -1.0
_SPARSE: Final = 4
"""For its level, every so many samples of a voice are looked at."""


@dataclass(frozen=True, slots=True)
class Pause:
    """Silence from one second to another."""

    start: float
    end: float

    @property
    def length(self) -> float:
        """Seconds."""
        return self.end - self.start


def samples(path: Path) -> Iterator[bytes]:
    """A recording as 16-bit samples, mono, `SOUND` a second, piece by piece.

    Raises
    ------
    EdgewiseError
        It can't be read, or it has no sound.
    """
    av = library()
    try:
        with av.open(str(path)) as container:
            if not container.streams.audio:
                raise EdgewiseError(Message("sound-none", path=str(path)))
            change = av.AudioResampler(format="s16", layout="mono", rate=SOUND)
            for frame in container.decode(container.streams.audio[0]):
                yield from map(_bytes, change.resample(frame))
            yield from map(_bytes, change.resample(None))
    except av.FFmpegError as wrong:
        reason = (wrong.strerror or str(wrong)).lower()
        raise EdgewiseError(Message("recording-unreadable", path=str(path), why=reason)) from None


def _bytes(frame: Any) -> bytes:
    return bytes(frame.planes[0])[: 2 * frame.samples]


def levels(sound: Iterable[bytes]) -> Iterator[float]:
    r"""The level of each 10 ms, in dB below full scale, by its largest sample.

    Examples
    --------
    >>> [round(level) for level in levels([bytes(960), b"\x00\x40" * 480])]
    [-96, -6]
    """
    held = b""
    for piece in sound:
        held += piece
        count = len(held) // (2 * _WINDOW)
        values = memoryview(held[: count * 2 * _WINDOW]).cast("h")
        for number in range(count):
            window = values[number * _WINDOW : (number + 1) * _WINDOW]
            yield _decibels(_peak(window))
        held = held[count * 2 * _WINDOW :]


def _peak(values: Sequence[int]) -> int:
    high, low = max(values), min(values)
    return max(high, -low)


def _decibels(value: float) -> float:
    return 20 * log10(max(value, 0.5) / _FULL)


def pauses(levels: Sequence[float]) -> tuple[Pause, ...]:
    """Where a voice is silent, told from its own loud and quiet parts.

    Examples
    --------
    >>> pauses([-20.0] * 100 + [-70.0] * 50 + [-22.0] * 100)
    (Pause(start=1.0, end=1.5),)
    """
    ordered = sorted(levels)
    if not ordered:
        return ()
    quiet, loud = (ordered[int(part * (len(ordered) - 1))] for part in (_QUIET, _LOUD))
    border = quiet + _PART * (loud - quiet)
    found, at = [], 0
    for silent, run in groupby(level <= border for level in levels):
        end = at + sum(1 for _ in run)
        pause = Pause(at / 100, end / 100)
        if silent and pause.length >= SHORTEST_PAUSE:
            found.append(pause)
        at = end
    return tuple(found)


def begun(levels: Sequence[float]) -> float:
    """When the first word is said, in seconds.

    Examples
    --------
    >>> begun([-70.0] * 50 + [-20.0] * 100), begun([-20.0] * 100 + [-70.0] * 50)
    (0.5, 0.0)
    """
    return next((one.end for one in pauses(levels) if not one.start), 0.0)


def matched(voice: bytes) -> bytes:
    r"""A voice at the level of every other: by its mean power, but without clipping.

    Examples
    --------
    >>> loud, quiet = (matched(half * 4800) for half in (b"\x00\x40\x00\xc0", b"\x00\x04\x00\xfc"))
    >>> loud == quiet
    True
    """
    values = memoryview(voice).cast("h")
    some = values[::_SPARSE] if len(values) > SOUND else values
    most = _peak(values)
    spoken = [value for value in some if abs(value) > most // 32]
    if not spoken:
        return voice
    power = _decibels((sum(map(mul, spoken, spoken)) / len(spoken)) ** 0.5)
    gain = 10 ** (min(_SPEECH - power, _PEAK - _decibels(most)) / 20)
    return array("h", [round(value * gain) for value in values]).tobytes()


def silence(seconds: float) -> Iterator[bytes]:
    """Nothing, for some seconds, in pieces of at most one."""
    left = round(seconds * SOUND)
    while left > 0:
        piece = min(left, SOUND)
        yield bytes(2 * piece)
        left -= piece
