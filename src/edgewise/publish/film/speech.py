"""Speech: a draft voice by a program on this machine: text goes in, a WAV comes out."""

from __future__ import annotations

import shlex
import shutil
import subprocess
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message
from edgewise.publish.film import sound
from edgewise.publish.film.encoder import SOUND
from edgewise.yamltext import shortened

_KNOWN: Final = {"espeak-ng": ("--stdin", "--stdout", "-s", "{words}", "-v", "{language}")}
"""What is added to a program that is given by its name alone."""
_PATIENCE: Final = 60.0
"""Seconds that it may take for one scene."""
_LARGEST: Final = 200_000_000
"""Bytes of one scene's voice, at most."""


def command(given: str, words: int, language: str) -> tuple[str, ...]:
    """The words of a command line.

    Raises
    ------
    EdgewiseError
        It can't be understood, or there is no such program.

    Examples
    --------
    >>> command("cat 'two words'", 140, "en")
    ('cat', 'two words')
    """
    try:
        parts = shlex.split(given)
    except ValueError as wrong:
        told = str(wrong).lower()
        raise EdgewiseError(
            Message("voice-command-unread", found=shortened(given), why=told)
        ) from None
    if not parts:
        raise EdgewiseError(Message("voice-command-empty"))
    if shutil.which(parts[0]) is None:
        raise EdgewiseError(Message("voice-command-unknown", name=shortened(parts[0])))
    if len(parts) == 1:
        more = _KNOWN.get(parts[0], ())
        parts += [part.format(words=words, language=language) for part in more]
    return tuple(parts)


def spoken(
    parts: Sequence[str],
    texts: Sequence[str],
    folder: Path,
    told: Callable[[int, int], None] | None = None,
) -> tuple[tuple[Path, float] | None, ...]:
    """Each text as a file of samples and its seconds; nothing for an empty text.

    Parameters
    ----------
    parts : sequence of str
        The command; it gets the text on its standard input.
    texts : sequence of str
    folder : Path
        Where the files are put.
    told : function, optional
        Is told how many are done, and how many there are.

    Raises
    ------
    EdgewiseError
        The program fails, takes too long, or writes no sound.
    """
    made: list[tuple[Path, float] | None] = []
    for number, text in enumerate(texts):
        made.append(_one(parts, text, folder / f"{number}.pcm") if text else None)
        if told is not None:
            told(number + 1, len(texts))
    return tuple(made)


def _one(parts: Sequence[str], text: str, file: Path) -> tuple[Path, float]:
    wave = file.with_suffix(".wav")
    with wave.open("wb") as out:
        try:
            ended = subprocess.run(  # noqa: S603  # the user's own command, without a shell
                parts,
                input=text.encode(),
                stdout=out,
                stderr=subprocess.PIPE,
                timeout=_PATIENCE,
                check=False,
            )
        except subprocess.TimeoutExpired:
            raise EdgewiseError(
                Message("voice-slow", name=parts[0], seconds=f"{_PATIENCE:.0f}")
            ) from None
        except OSError as wrong:
            raise EdgewiseError(
                Message("voice-unrunnable", name=parts[0], why=wrong.strerror or str(wrong))
            ) from None
    if ended.returncode:
        reason = ended.stderr.decode(errors="replace").strip().splitlines()
        told = Message(
            "voice-failed",
            name=parts[0],
            code=ended.returncode,
            lines=len(reason),
            why=shortened(reason[-1]) if reason else "",
        )
        raise EdgewiseError(told)
    if not 0 < wave.stat().st_size <= _LARGEST:
        raise EdgewiseError(Message("voice-silent", name=parts[0]))
    voice = sound.matched(b"".join(sound.samples(wave)))
    wave.unlink()
    file.write_bytes(voice)
    return file, len(voice) / 2 / SOUND


def laid(clips: Sequence[tuple[Path, float] | None], starts: Sequence[float]) -> Iterator[bytes]:
    """The whole sound: each clip where its scene begins."""
    at = 0.0
    for clip, start in zip(clips, starts, strict=True):
        if clip is None:
            continue
        file, seconds = clip
        yield from sound.silence(start - at)
        yield file.read_bytes()
        at = max(start, at) + seconds
