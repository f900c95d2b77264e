"""The command for films of lessons."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.options import app, examples, refuse_idle, refused, terminal_width

if TYPE_CHECKING:
    from edgewise.lesson.picking import Note
    from edgewise.publish.film.build import Made
    from edgewise.publish.film.pace import Pace

_FILMING = ("--size", "--rate", "--voice", "--cues", "--voice-command", "--frames")


@app.command(
    epilog=examples(
        "film examples/rain-gauges.md -o serial.mp4",
        "film examples/rain-gauges.md -o serial.mp4 --voice talk.wav",
        "film examples/rain-gauges.md -o serial.mp4 --voice-command espeak-ng",
        "film examples/rain-gauges.md --script",
        "film examples/rain-gauges.md --script -o script.pdf",
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
    script: Annotated[
        bool, typer.Option("--script", help="Print what is said and when; with -o as PDF.")
    ] = False,
) -> None:
    """Make a film of a lesson: its steps drawn, timed, captioned, with a voice or without."""
    from edgewise.publish.film.pace import Pace

    pace = Pace(words, pause)
    if script:
        refuse_idle(context, "with --script", *_FILMING)
        _script(lesson, out, pace)
        return
    from edgewise.progress import Progress
    from edgewise.publish.film import build
    from edgewise.publish.film.encoder import RATES, SIZES

    _known("--size", size, tuple(SIZES))
    _known("--rate", str(rate), tuple(map(str, RATES)))
    if voice is None:
        refuse_idle(context, "without --voice", "--cues")
    else:
        refuse_idle(context, "with --voice, which says the time itself", "--voice-command")
    if frames is not None:
        refuse_idle(context, "with --frames", "-o", "--out", "--voice", "--cues", "--voice-command")
    out = out or Path(f"{lesson.stem}.mp4")
    if out.suffix.lower() == ".gif":
        refuse_idle(
            context,
            "in a GIF, which has no sound and a size of its own",
            *_FILMING[:-1],
        )
    manner = build.Manner(size, rate, pace, voice, cues, voice_command)
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
    more = f"; beside it {', '.join(path.name for path in beside)}" if beside else ""
    print(f"{lesson} -> {first}, {minutes(made.seconds)} long{more}")


def _known(option: str, found: str, allowed: tuple[str, ...]) -> None:
    if found not in allowed:
        expected = f"{', '.join(allowed[:-1])} or {allowed[-1]}"
        raise refused("option-word", option=option, found=found, allowed=expected)


def _script(path: Path, out: Path | None, pace: Pace) -> None:
    from edgewise import files, lesson
    from edgewise.publish import output
    from edgewise.publish.film import reading_copy
    from edgewise.publish.film.take import paced

    if out is not None:
        files.check_suffix(out, (".pdf",), "a script is written as .pdf")
    report = lesson.check(path)
    scenes, seconds = paced(report, pace)
    if out is None:
        print("\n".join(reading_copy.lines(scenes, seconds, terminal_width())))
        return
    print(f"{path} -> {output.write(out, reading_copy.printed(report, scenes, seconds))}")
