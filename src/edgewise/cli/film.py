"""The command for films of lessons."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.options import app, examples, refuse_idle, refused, terminal_width
from edgewise.errors import Message
from edgewise.listing import choice

if TYPE_CHECKING:
    from edgewise.lesson.picking import Note
    from edgewise.publish.film.build import Made, Manner
    from edgewise.publish.film.pace import Pace

_FILMING = ("--size", "--rate", "--voice", "--cues", "--voice-command", "--frames")


@app.command(
    epilog=examples(
        "film examples/rain-gauges.md -o serial.mp4",
        "film examples/rain-gauges.md -o serial.mp4 --voice talk.wav",
        "film examples/rain-gauges.md -o serial.mp4 --voice-command espeak-ng",
        "film examples/rain-gauges.md --script",
        "film examples/rain-gauges.md --script -o script.pdf",
        "film examples/rain-gauges.md --rehearse",
    )
)
def film(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    lesson: Annotated[Path, typer.Argument(metavar="LESSON", help="The lesson file.")],
    out: Annotated[
        Path | None,
        typer.Option(
            "-o", "--out", metavar="FILE", help="Where to: .mp4 or .gif; else LESSON.mp4."
        ),
    ] = None,
    size: Annotated[str, typer.Option(help="720p, 1080p or 2160p.")] = "1080p",
    rate: Annotated[int, typer.Option(help="Frames a second: 30 or 60.")] = 30,
    words: Annotated[int, typer.Option(metavar="N", help="Words a minute.")] = 140,
    pause: Annotated[
        float, typer.Option(metavar="SECONDS", help="Silence behind what is said in a step.")
    ] = 0.7,
    voice: Annotated[
        Path | None, typer.Option(metavar="RECORDING", help="A recording that the film follows.")
    ] = None,
    cues: Annotated[
        Path | None, typer.Option(metavar="FILE", help="When the steps begin in the recording.")
    ] = None,
    voice_command: Annotated[
        str,
        typer.Option(metavar="COMMAND", help="A draft voice: text in, WAV out; such as espeak-ng."),
    ] = "",
    frames: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Write numbered PNG files into a new folder instead."),
    ] = None,
    times: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="The times of the steps; else beside the film."),
    ] = None,
    script: Annotated[
        bool, typer.Option("--script", help="Print what is said and when; with -o as PDF.")
    ] = False,
    rehearse: Annotated[
        bool,
        typer.Option("--rehearse", help="Project the stage and its script; keys write the cues."),
    ] = False,
    opened: Annotated[
        bool, typer.Option("--open/--no-open", help="With --rehearse: open it in the browser.")
    ] = True,
) -> None:
    """Make a film of a lesson: its steps drawn, timed, captioned, with a voice or without."""
    from edgewise.publish.film.pace import Pace

    pace, kept = Pace(words, pause), times or Path(f"{lesson.stem}.times")
    if script:
        refuse_idle(
            context, Message("idle-with", option="--script"), *_FILMING, "--rehearse", "--open"
        )
        _script(lesson, out, pace, kept)
        return
    if rehearse:
        refuse_idle(context, Message("idle-with", option="--rehearse"), *_FILMING)
        _rehearse(lesson, out, pace, kept, opened=opened)
        return
    from edgewise.publish.film import build

    out = out or Path(f"{lesson.stem}.mp4")
    _refuse_idle(context, out, size, rate, voice, frames)
    manner = build.Manner(size, rate, pace, voice, cues, voice_command, times)
    _film(lesson, out, frames, manner)


def _refuse_idle(  # what decides which options have an effect
    context: typer.Context,
    out: Path,
    size: str,
    rate: int,
    voice: Path | None,
    frames: Path | None,
) -> None:
    """Refuse a size or rate that there is not, and what has no effect beside something else."""
    from edgewise.publish.film.encoder import RATES, SIZES

    refuse_idle(context, Message("idle-without", option="--rehearse"), "--open")
    _known("--size", size, tuple(SIZES))
    _known("--rate", str(rate), tuple(map(str, RATES)))
    if voice is None:
        refuse_idle(context, Message("idle-without", option="--voice"), "--cues")
    else:
        refuse_idle(context, Message("idle-voice-time"), "--voice-command", "--times")
    if frames is not None:
        refuse_idle(
            context,
            Message("idle-with", option="--frames"),
            "-o",
            "--out",
            "--voice",
            "--cues",
            "--voice-command",
        )
    if out.suffix.lower() == ".gif":
        refuse_idle(context, Message("idle-gif"), *_FILMING[:-1])


def _film(lesson: Path, out: Path, frames: Path | None, manner: Manner) -> None:
    from edgewise.progress import Progress
    from edgewise.publish.film import build

    notes: list[Note] = []  # told when the bar has gone
    with Progress("frames") as progress:
        if frames is not None:
            made = build.frames(lesson, frames, manner, progress)
        else:
            made = build.build(lesson, out, manner, notes.append, progress)
    for note in notes:
        print(note, file=sys.stderr)
    _told(lesson, made)


def _told(lesson: Path, made: Made) -> None:
    from edgewise.publish.film.transcript import minutes

    first, *beside = made.written
    told = Message(
        "film-made",
        lesson=str(lesson),
        film=str(first),
        length=minutes(made.seconds),
        count=len(beside),
        beside=", ".join(path.name for path in beside),
    )
    print(told)


def _known(option: str, found: str, allowed: tuple[str, ...]) -> None:
    if found not in allowed:
        raise refused("value-expected", name=option, found=found, expected=choice(allowed))


def _rehearse(lesson: Path, out: Path | None, pace: Pace, kept: Path, *, opened: bool) -> None:
    from edgewise import files
    from edgewise.rehearse import rehearse

    out = out or Path(f"{lesson.stem}.cues")
    files.check_suffix(out, (".cues",), Message("written-cues"))
    rehearse(lesson, out, pace, kept, opened=opened, tell=print)


def _script(path: Path, out: Path | None, pace: Pace, kept: Path) -> None:
    from edgewise import files, lesson
    from edgewise.publish import output
    from edgewise.publish.film import reading_copy
    from edgewise.publish.film.take import paced

    if out is not None:
        files.check_suffix(out, (".pdf",), Message("written-script"))
    report = lesson.check(path)
    scenes, seconds, notes = paced(report, pace, kept)
    for note in notes:
        print(note, file=sys.stderr)
    if out is None:
        print("\n".join(reading_copy.lines(scenes, seconds, terminal_width())))
        return
    print(f"{path} -> {output.write(out, reading_copy.printed(report, scenes, seconds))}")
