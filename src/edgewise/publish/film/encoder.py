"""The encoder: frames, sound and captions into one MP4 that plays everywhere.

H.264 (x264, 8 bit, 4:2:0, BT.709) and AAC in MP4, its index in front so that it plays while it is
still loading. The number of the encoder's threads is fixed, not that of the machine, so that the
same lesson gives the same bytes with the same release of the libraries.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from edgewise.errors import EdgewiseError
from edgewise.publish.film.captions import Cue
from edgewise.views.drawing.raster import NEEDED

if TYPE_CHECKING:
    import av
    from av.container import OutputContainer
    from av.packet import Packet

SIZES: Final = {"720p": (1280, 720), "1080p": (1920, 1080), "2160p": (3840, 2160)}
RATES: Final = (30, 60)
SOUND: Final = 48_000
"""Samples a second."""
_THREADS: Final = 3
_QUALITY: Final = "20"
"""x264's constant rate factor: flat colours and sharp edges show no trace of it."""
_SEARCH: Final = (
    "subme=0:me=dia:scenecut=0:weightp=0:bframes=0:rc-lookahead=0:sync-lookahead=0:mbtree=0"
)
"""Flat figures that stand still or move by little need no fine search, and no look ahead, which
also keeps few frames in memory: half the processor time for a fifth more bytes. Where keyframes
are is known, and need not be found."""
_SECONDS_TO_KEY: Final = 10
"""A keyframe at least so often, besides one at the start of every step."""
_BLOCK: Final = 16 * 1024
"""Samples that are handed over at once: 16 AAC frames (ISO/IEC 14496-3)."""
_BT709: Final = 1
_LIMITED: Final = 1


def library() -> Any:
    """PyAV.

    Raises
    ------
    EdgewiseError
        It is not installed.
    """
    try:
        import av
    except ImportError:
        raise EdgewiseError(NEEDED) from None
    return av


@dataclass(frozen=True, slots=True)
class About:
    """What stands in the file besides pictures and sound."""

    title: str
    language: str
    """ISO 639-2, as MP4 wants it: ``eng``."""
    chapters: tuple[Cue, ...]
    """One line each: its title."""
    captions: tuple[Cue, ...]


class Reel:
    """An MP4 while it is being written.

    Parameters
    ----------
    container : OutputContainer
    size : (int, int)
    rate : int
        Frames a second.
    about : About
    sound : iterable of bytes
        16-bit samples, mono, `SOUND` a second, in pieces of any length; silence behind its end.
    """

    def __init__(
        self,
        container: OutputContainer,
        size: tuple[int, int],
        rate: int,
        about: About,
        sound: Iterable[bytes] = (),
    ) -> None:
        self.container, self.rate = container, rate
        self.frames = 0
        self._video = _video(container, size, rate)
        self._audio: Any = container.add_stream("aac", rate=SOUND, layout="mono")
        self._audio.bit_rate = 96_000
        self._captions: Any = container.add_stream("mov_text")
        self._captions.codec_context.subtitle_header = _ASS_HEADER
        self._captions.time_base = Fraction(1, 1000)
        self._captions.metadata["language"] = about.language
        self._audio.metadata["language"] = about.language
        container.metadata["title"] = about.title
        container.set_chapters([_chapter(n, one) for n, one in enumerate(about.chapters)])
        self._waiting = list(reversed(about.captions))
        self._sound = _blocks(sound)
        self._samples = 0

    def write(self, picture: av.VideoFrame, count: int = 1, *, key: bool = False) -> None:
        """Show a picture for some frames; with `key`, a player can begin here."""
        for number in range(count):
            picture.pts = self.frames
            picture.time_base = Fraction(1, self.rate)
            picture.pict_type = 1 if key and not number else 0
            self._mux(self._video.encode(picture))
            self.frames += 1
            self._keep_up()

    def close(self) -> None:
        """Write what is still on its way, and the index."""
        self._mux(self._video.encode(None))
        self._keep_up()
        self._hear(self._due % _BLOCK)
        self._mux(self._audio.encode(None))

    @property
    def _due(self) -> int:
        """Samples up to the end of the last frame."""
        return self.frames * SOUND // self.rate

    def _keep_up(self) -> None:
        """Sound and captions up to the last frame."""
        while self._samples + _BLOCK <= self._due:
            self._hear(_BLOCK)
        while self._waiting and self._waiting[-1].start * self.rate < self.frames * 1000:
            self._caption(self._waiting.pop())

    def _hear(self, count: int) -> None:
        """The next samples of the sound."""
        if not count:
            return
        frame = library().AudioFrame("s16", "mono", count)
        plane = frame.planes[0]
        plane.update(next(self._sound)[: 2 * count].ljust(plane.buffer_size, b"\0"))
        frame.sample_rate, frame.pts = SOUND, self._samples
        frame.time_base = Fraction(1, SOUND)
        self._samples += count
        self._mux(self._audio.encode(frame))

    def _caption(self, cue: Cue) -> None:
        from av.subtitles.subtitle import SubtitleSet

        # Braces would be read as commands.
        text = "\\N".join(line.replace("{", "(").replace("}", ")") for line in cue.lines)
        ass = f"0,0,Default,,0,0,0,,{text}".encode()
        made = SubtitleSet.create(ass, 0, cue.end - cue.start, 0)
        packet = self._captions.codec_context.encode_subtitle(made)
        packet.stream = self._captions
        packet.pts = packet.dts = cue.start
        packet.duration = cue.end - cue.start
        packet.time_base = Fraction(1, 1000)
        self.container.mux(packet)

    def _mux(self, packets: list[Packet[Any]]) -> None:
        for packet in packets:
            self.container.mux(packet)


@contextmanager
def reel(
    path: Path,
    size: tuple[int, int],
    rate: int,
    about: About,
    sound: Iterable[bytes] = (),
) -> Iterator[Reel]:
    """An MP4 to be written to a file, of whatever name."""
    container = library().open(
        str(path), "w", format="mp4", options={"movflags": "+faststart", "fflags": "+bitexact"}
    )
    with container:
        made = Reel(container, size, rate, about, sound)
        yield made
        made.close()


def _video(container: OutputContainer, size: tuple[int, int], rate: int) -> Any:
    stream: Any = container.add_stream("libx264", rate=rate)
    stream.width, stream.height = size
    stream.pix_fmt = "yuv420p"
    stream.thread_type = "AUTO"
    context = stream.codec_context
    context.thread_count = _THREADS
    context.gop_size = _SECONDS_TO_KEY * rate
    context.color_range, context.colorspace = _LIMITED, _BT709
    context.color_primaries, context.color_trc = _BT709, _BT709
    stream.options = {"preset": "veryfast", "crf": _QUALITY, "x264-params": _SEARCH}
    return stream


def _chapter(number: int, one: Cue) -> Any:
    return {
        "id": number,
        "start": one.start,
        "end": one.end,
        "time_base": Fraction(1, 1000),
        "metadata": {"title": one.lines[0]},
    }


def _blocks(sound: Iterable[bytes]) -> Iterator[bytes]:
    """The sound in blocks of one length; silence without end behind it."""
    size, held = 2 * _BLOCK, b""
    for piece in sound:
        held += piece
        for at in range(0, len(held) - size + 1, size):
            yield held[at : at + size]
        held = held[len(held) - len(held) % size :]
    yield held.ljust(size, b"\0")
    while True:
        yield bytes(size)


_ASS_HEADER: Final = b"""\
[Script Info]
ScriptType: v4.00+
[V4+ Styles]
Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, \
Bold, Italic, Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, \
Alignment, MarginL, MarginR, MarginV, Encoding
Style: Default,Arial,16,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,0
[Events]
Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text
"""
"""What the encoder of captions is told first (the header of an ASS file; see libavcodec)."""
