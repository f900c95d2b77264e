"""A take: the scenes of a film in their frames, its sound, and the drawing of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol

from edgewise import files
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson.picking import Note
from edgewise.lesson.pieces import Stage
from edgewise.publish.film import encoder, script, stills, times, transcript
from edgewise.publish.film.animation import Animation, Shown
from edgewise.publish.film.board import Board
from edgewise.publish.film.captions import vtt
from edgewise.publish.film.encoder import SIZES, About
from edgewise.publish.film.pace import Pace
from edgewise.publish.film.painter import Painter, Pixels
from edgewise.publish.film.plan import Plan
from edgewise.publish.film.script import Scene
from edgewise.views.diagram.options import manner as drawn_as
from edgewise.views.diagram.picture import Picture
from edgewise.views.text import alt_text
from edgewise.words.lists import equations

if TYPE_CHECKING:
    import av

    from edgewise.lesson import Report
    from edgewise.study.cost.sweep import Progress

BESIDE: Final = (".vtt", ".chapters.vtt", ".descriptions.vtt", ".html")
"""What is written beside a film, by its suffix; and its times, where no recording says them."""
MOST_STEPS: Final = 1000
_LANGUAGES: Final = {
    "cs": "ces",
    "da": "dan",
    "de": "deu",
    "en": "eng",
    "es": "spa",
    "fi": "fin",
    "fr": "fra",
    "it": "ita",
    "nl": "nld",
    "pl": "pol",
    "pt": "por",
    "sv": "swe",
}
"""ISO 639-2 of ISO 639-1."""


class Sink(Protocol):
    """What takes the frames."""

    def write(self, picture: av.VideoFrame, count: int = 1, *, key: bool = False) -> None:
        """Take a picture that stands for some frames."""


@dataclass(frozen=True)
class Take:
    """A film about to be drawn: its scenes in their frames, and the sound."""

    report: Report
    size: str
    """One of `encoder.SIZES`."""
    animation: Animation
    plan: Plan
    seconds: tuple[float, ...]
    """Of each scene."""
    computed: tuple[float, ...]
    """The same, before anybody has written others; none where a recording says them."""
    kept: Path | None = None
    """The file of times; beside the film if left out."""
    sound: Callable[[], Iterable[bytes]] = tuple
    notes: tuple[Note, ...] = ()

    def render(self, out: Path, progress: Progress | None = None) -> None:
        """Write the film; whole, or not at all."""
        size = SIZES[self.size] if out.suffix == ".mp4" else stills.GIF_SIZE
        with ExitStack() as stack:
            beside = stack.enter_context(files.replacing(out))
            if out.suffix == ".gif":
                self.into(stack.enter_context(stills.gif(beside, size)), "bgra", progress)
                return
            rate = round(self.plan.rate)
            reel = encoder.reel(beside, size, rate, self._about(), self.sound())
            self.into(stack.enter_context(reel), "yuv420p", progress)

    def _about(self) -> About:
        front = self.report.lesson.front
        language = _LANGUAGES.get(front.language.partition("-")[0].lower(), "und")
        plan = self.plan
        return About(front.title, language, tuple(plan.chapters()), tuple(plan.captions()))

    def into(self, sink: Sink, pixels: Pixels, progress: Progress | None = None) -> None:
        """Draw every frame."""
        size = stills.GIF_SIZE if isinstance(sink, stills.Gif) else SIZES[self.size]
        painter = Painter(size, pixels)
        before: Shown | None = None
        done = 0
        for shot in self.plan.shots:
            begun = done
            for count in self._frames(painter, before, shot.scene, shot.count):
                sink.write(painter.planes, count, key=done == begun)
                done += count
                if progress is not None:
                    progress(done, self.plan.frames)
            before = shot.scene.shown

    def _frames(
        self, painter: Painter, before: Shown | None, scene: Scene, count: int
    ) -> Iterator[int]:
        if scene.shown is not None:
            yield from self.animation.frames(painter, before, scene.shown, count)
            return
        painter.show(painter.image((self.animation.board.title(_facts(self.report)),)))
        yield count

    def beside(self, out: Path) -> Iterator[tuple[Path, str]]:
        """What stands beside the film."""
        plan = self.plan
        made = (
            vtt(plan.captions()),
            vtt(plan.chapters()),
            vtt(plan.descriptions()),
            transcript.page(self.report, plan, out.name),
        )
        for suffix, text in zip(BESIDE, made, strict=True):
            yield out.with_suffix(suffix), text
        if self.computed:
            scenes = [shot.scene for shot in plan.shots]
            text = times.written(scenes, self.seconds, self.computed, out.name)
            yield self.kept or out.with_suffix(times.SUFFIX), text


def _facts(report: Report) -> tuple[str, ...]:
    """What stands under the title."""
    trace, words = report.trace, report.words
    about = alt_text.title(trace.design, words)
    numbers = equations({**trace.design.parameters, **trace.operands}.items(), " = ")
    edges = words("clock-edges", count=trace.edges) if trace.edges else ""
    return tuple(filter(None, (about[:1].upper() + about[1:], numbers, edges)))


def board_of(report: Report) -> Board:
    """What stands where, drawn as the lesson's stage is."""
    wish = next((p for p in report.pieces.values() if isinstance(p, Stage)), Stage())
    trace = report.trace
    way = drawn_as(trace.design.circuit, wish.opened, wish.clock, wish.symbols)
    picture = Picture(trace, way, words=report.words)
    return Board(picture, wish.columns or trace.columns, report.lesson.front.title, report.words)


def scenes_of(report: Report) -> tuple[Scene, ...]:
    """The scenes of a lesson, if there are not too many."""
    made = script.scenes(report)
    if len(made) > MOST_STEPS:
        raise EdgewiseError(
            Message("film-steps-many", count=len(made), most=MOST_STEPS), Place(report.lesson.file)
        )
    return made


def paced(
    report: Report, pace: Pace, kept: Path
) -> tuple[tuple[Scene, ...], list[float], list[Note]]:
    """The scenes of a lesson, the seconds of each, and the times in a file that belong to none."""
    scenes = scenes_of(report)
    computed = pace.scenes(scenes, moving(Animation(board_of(report), 30), scenes))
    seconds, idle = times.chosen(scenes, computed, times.read(kept))
    return scenes, seconds, [left_out(one) for one in idle]


def left_out(one: times.Kept) -> Note:
    """That a time in a file belongs to no scene."""
    return Note(
        "warning",
        f"there is no step {one.label} any more; its time of {one.seconds:g} s is left out",
        one.place,
    )


def spoken_of(scenes: Sequence[Scene]) -> tuple[Scene, ...]:
    """The scenes that have a voice: all, but a title to which nothing is said."""
    return tuple(scenes[0 if scenes[0].said else 1 :])


def moving(animation: Animation, scenes: Sequence[Scene]) -> list[float]:
    """Seconds in which something moves, scene by scene."""
    before: Shown | None = None
    lengths = []
    for scene in scenes:
        lengths.append(animation.moving(before, scene.shown) if scene.shown else 0.0)
        before = scene.shown
    return lengths
