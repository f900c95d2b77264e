"""A lesson as a film: checked, timed, drawn, encoded, and what stands beside it."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import accumulate
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import files, lesson
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson.picking import Note
from edgewise.publish import output
from edgewise.publish.film import encoder, speech, stills, times, voice
from edgewise.publish.film import sound as recorded
from edgewise.publish.film.animation import Animation
from edgewise.publish.film.encoder import SIZES
from edgewise.publish.film.pace import READ, Pace, speeches
from edgewise.publish.film.plan import Plan
from edgewise.publish.film.script import Scene
from edgewise.publish.film.take import (
    Take,
    board_of,
    left_out,
    moving,
    scenes_of,
    spoken_of,
)
from edgewise.views.drawing import raster

if TYPE_CHECKING:
    from edgewise.lesson import Report
    from edgewise.study.cost.sweep import Progress

SUFFIXES: Final = (".mp4", ".gif")


@dataclass(frozen=True, slots=True)
class Manner:
    """How a film is made.

    Parameters
    ----------
    size : str
        One of `encoder.SIZES`.
    rate : int
        Frames a second: 30 or 60.
    pace : Pace
    voice : Path, optional
        A recording that it follows.
    cues : Path, optional
        Where the steps begin in it.
    command : str
        A program that speaks; empty for none.
    times : Path, optional
        The file of times; beside the film if left out.
    """

    size: str = "1080p"
    rate: int = 30
    pace: Pace = field(default_factory=Pace)
    voice: Path | None = None
    cues: Path | None = None
    command: str = ""
    times: Path | None = None


@dataclass(frozen=True, slots=True)
class Made:
    """What was written, and how long the film is."""

    written: tuple[Path, ...]
    seconds: float
    scenes: int


def build(
    path: Path,
    out: Path,
    manner: Manner | None = None,
    tell: Callable[[Note], None] | None = None,
    progress: Progress | None = None,
) -> Made:
    """Check a lesson and make its film.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        An MP4 or a GIF.
    manner : Manner, optional
    tell : function, optional
        Is given each note on the lesson's example and on what the film could not follow.
    progress : function, optional
        Is told how many frames are done, and how many there are.

    Raises
    ------
    EdgewiseError or Problems
        Everything that is wrong with the lesson, the times, the recording or the place; nothing is
        written then.
    """
    manner = manner or Manner()
    _able(out)
    with tempfile.TemporaryDirectory(prefix="edgewise-film-") as folder:
        take = take_of(path, out, manner, Path(folder), progress)
        with _guarded(out):
            take.render(out, progress)
            beside = out.suffix == ".mp4"
            more = [output.write(*pair) for pair in take.beside(out)] if beside else []
    for note in (*take.report.notes, *take.notes):
        if tell is not None:
            tell(note)
    return Made((out, *more), take.plan.seconds, len(take.plan.shots))


def frames(
    path: Path, folder: Path, manner: Manner | None = None, progress: Progress | None = None
) -> Made:
    """Check a lesson and write the frames of its film as numbered PNG files into a new folder.

    Raises
    ------
    EdgewiseError or Problems
        As of `build`; the folder is there and has something in it.
    """
    manner = manner or Manner()
    encoder.library()
    raster.library()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise EdgewiseError(Message("frames-folder", folder=str(folder)))
    with tempfile.TemporaryDirectory(prefix="edgewise-film-") as temporary:
        take = take_of(path, folder, manner, Path(temporary), progress)
        with _guarded(folder):
            folder.parent.mkdir(parents=True, exist_ok=True)
            beside = tempfile.TemporaryDirectory(dir=folder.parent, prefix=f".{folder.name}-")
            with beside as half:
                whole = Path(half) / "frames"
                whole.mkdir()
                take.into(stills.Sequence(whole, SIZES[manner.size]), "bgra", progress)
                whole.replace(folder)
    return Made((folder,), take.plan.seconds, len(take.plan.shots))


@contextmanager
def _guarded(out: Path) -> Iterator[None]:
    """A full disk or a folder that can't be written to, told plainly."""
    try:
        yield
    except (OSError, encoder.library().FFmpegError) as wrong:
        reason = (wrong.strerror or str(wrong)).lower()
        raise EdgewiseError(Message("unwritable", why=reason), Place(str(out))) from None


def _able(out: Path) -> None:
    encoder.library()
    raster.library()
    files.check_suffix(out, SUFFIXES, Message("written-film"))
    if not out.parent.is_dir():
        raise EdgewiseError(Message("folder-missing", path=str(out), folder=str(out.parent)))


def take_of(
    path: Path, out: Path, manner: Manner, folder: Path, progress: Progress | None = None
) -> Take:
    """A lesson checked and timed; a draft voice is spoken into files of `folder`."""
    report = lesson.check(path)
    scenes = scenes_of(report)
    rate = stills.GIF_RATE if out.suffix == ".gif" else manner.rate
    animation = Animation(board_of(report), rate)
    movements = moving(animation, scenes)
    computed = manner.pace.scenes(scenes, movements)
    if manner.voice is not None:
        return _voiced(report, manner, animation, scenes, computed)
    clips: Sequence[tuple[Path, float] | None] = ()
    if manner.command:
        language = report.lesson.front.language.partition("-")[0].lower()
        parts = speech.command(manner.command, manner.pace.words, language)
        clips = speech.spoken(parts, [scene.said for scene in scenes], folder, progress)
        voiced = [clip[1] if clip else 0.0 for clip in clips]
        computed = manner.pace.scenes(scenes, movements, voiced)
    kept = times.read(manner.times or out.with_suffix(times.SUFFIX))
    seconds, idle = times.chosen(scenes, computed, kept)
    notes = [left_out(one) for one in idle]
    plan = Plan.of(scenes, seconds, rate)
    starts = [shot.first / rate for shot in plan.shots]

    def sound() -> Iterable[bytes]:
        return speech.laid(clips, starts) if clips else ()

    notes += _hurried(report, plan)
    both = tuple(seconds), tuple(computed)
    return Take(report, manner.size, animation, plan, *both, manner.times, sound, tuple(notes))


def _voiced(
    report: Report,
    manner: Manner,
    animation: Animation,
    scenes: Sequence[Scene],
    computed: Sequence[float],
) -> Take:
    """A film that follows a recording; a title that says nothing stands before it, in silence."""
    assert manner.voice is not None
    lead = len(scenes) - len(spoken_of(scenes))
    recording, pace = manner.voice, manner.pace
    spoken = [(first, end) for first, end in speeches(scenes) if end > lead]
    if manner.cues is not None:
        followed = voice.cues(manner.cues, recording, len(scenes) - lead)
        seconds = [*computed[:lead], *followed.seconds]
    else:
        expected = [pace.spoken(scenes[first].said) + pace.pause for first, _ in spoken]
        followed = voice.follow(recording, expected)
        seconds = list(computed[:lead])
        for (first, end), length in zip(spoken, followed.seconds, strict=True):
            seconds += [length / (end - first)] * (end - first)
    plan = Plan.of(scenes, seconds, manner.rate)
    silent = sum(seconds[:lead])

    def sound() -> Iterator[bytes]:
        yield from recorded.silence(silent)
        yield from recorded.samples(recording)

    starts = list(accumulate(seconds, initial=0.0))
    begun = [spoken[lost][0] for lost in followed.lost]
    notes = [
        Note("warning", _lost(scenes[at], starts[at] - silent), Place(str(recording)))
        for at in begun
    ]
    notes += _hurried(report, plan)
    return Take(report, manner.size, animation, plan, tuple(seconds), (), None, sound, tuple(notes))


def _lost(scene: Scene, start: float) -> str:
    return (
        f"no pause was found before step {scene.label}; it begins at {start:.1f} s, as far into the"
        " time between two pauses as the script says: pause before each step, or give --cues"
    )


def _hurried(report: Report, plan: Plan) -> list[Note]:
    """That captions go by faster than they can be read."""
    fast = [cue for cue in plan.captions() if cue.speed > READ + 0.5]
    if not fast:
        return []
    worst = max(fast, key=lambda cue: cue.speed)
    return [
        Note(
            "warning",
            f"{len(fast)} captions go by faster than {READ:.0f} characters a second, the one at"
            f" {worst.start / 1000:.1f} s with {worst.speed:.0f}: give their steps more time, or"
            " let less be said",
            Place(report.lesson.file),
        )
    ]
