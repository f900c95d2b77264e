"""Stills: the frames of a film for other programs, as a GIF or as numbered PNG files."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from edgewise.publish.film.encoder import library
from edgewise.views.drawing import raster, theme

if TYPE_CHECKING:
    import av

GIF_RATE: Final = 12.5
"""Frames a second of a GIF, whose clock has hundredths: eight to a frame."""
GIF_SIZE: Final = (960, 540)
_HUNDREDTHS: Final = 8
_RAMPS: Final = (
    theme.SLATE,
    theme.VIOLET,
    theme.AMBER,
    theme.RULE,
    theme.HATCH_LINE,
    theme.PANEL,
    theme.BRICK,
)
"""Colours that stand against paper, and their edges between the two."""


class Gif:
    """A GIF while it is written; a picture that stands is one frame of that length."""

    def __init__(self, container: Any, size: tuple[int, int]) -> None:
        self._container = container
        self._stream = container.add_stream("gif", rate=100)
        self._stream.width, self._stream.height = size
        self._stream.pix_fmt = "pal8"
        # The graph itself is kept, for its ends don't keep it.
        self._graph, self._source, self._sink = _graph(size)
        self._at = 0
        self.frames = 0

    def write(self, picture: av.VideoFrame, count: int = 1, *, key: bool = False) -> None:
        """Show a picture for some frames."""
        del key
        picture.pts, picture.time_base = self._at, Fraction(1, 100)
        self._source.push(picture)
        shown = self._sink.pull()
        shown.pts, shown.time_base = self._at, Fraction(1, 100)
        for packet in self._stream.encode(shown):
            packet.duration = _HUNDREDTHS * count
            self._container.mux(packet)
        self._at += _HUNDREDTHS * count
        self.frames += count

    def close(self) -> None:
        """Write what is still on its way."""
        self._container.mux(self._stream.encode(None))


@contextmanager
def gif(path: Path, size: tuple[int, int]) -> Iterator[Gif]:
    """A GIF to be written to a file, of whatever name."""
    with library().open(str(path), "w", format="gif", options={"fflags": "+bitexact"}) as container:
        made = Gif(container, size)
        yield made
        made.close()


def _graph(size: tuple[int, int]) -> tuple[Any, Any, Any]:
    """The graph, where pictures go in, and where they come out in the palette's colours."""
    av = library()
    graph = av.filter.Graph()
    shown = graph.add_buffer(
        width=size[0], height=size[1], format="bgra", time_base=Fraction(1, 100)
    )
    colours = graph.add_buffer(width=16, height=16, format="bgra", time_base=Fraction(1, 100))
    mapped = graph.add("paletteuse", "dither=none:diff_mode=rectangle")
    shown.link_to(mapped, 0, 0)
    colours.link_to(mapped, 0, 1)
    sink = graph.add("buffersink")
    mapped.link_to(sink)
    graph.configure()
    frame = av.VideoFrame(16, 16, "bgra")
    frame.planes[0].update(_palette(frame.planes[0].line_size))
    frame.pts, frame.time_base = 0, Fraction(1, 100)
    colours.push(frame)
    colours.push(None)
    return graph, shown, sink


def _palette(stride: int) -> bytes:
    """The theme's colours and the steps between them, 16 in a row, as BGRA."""
    paper, ink = raster.colour(theme.PAPER), raster.colour(theme.INK)
    found = [*_steps(paper, ink, 64)]
    for colour in map(raster.colour, _RAMPS):
        found += [*_steps(paper, colour, 16), *_steps(ink, colour, 10)]
    found = list(dict.fromkeys(found))[:256]
    found += [paper] * (256 - len(found))
    rows = (found[at : at + 16] for at in range(0, 256, 16))
    return b"".join(
        b"".join(colour.to_bytes(4, "little") for colour in row).ljust(stride, b"\0")
        for row in rows
    )


def _steps(start: int, end: int, count: int) -> Iterator[int]:
    for number in range(count):
        share = number / (count - 1)
        mixed = 0xFF
        for shift in (16, 8, 0):
            a, b = (colour >> shift & 0xFF for colour in (start, end))
            mixed = mixed << 8 | round(a + share * (b - a))
        yield mixed


class Sequence:
    """Numbered PNG files while they are written, one a frame."""

    def __init__(self, folder: Path, size: tuple[int, int]) -> None:
        self._folder, self._size = folder, size
        self.frames = 0

    def write(self, picture: av.VideoFrame, count: int = 1, *, key: bool = False) -> None:
        """Write a picture, as often as it stands."""
        del key
        skia = raster.library()
        plane = picture.planes[0]
        info = skia.ImageInfo.Make(*self._size, skia.kBGRA_8888_ColorType, skia.kOpaque_AlphaType)
        pixmap = skia.Pixmap(info, memoryview(plane), plane.line_size)
        content = bytes(skia.Image.MakeFromRaster(pixmap).encodeToData(skia.kPNG, 100))
        for _ in range(count):
            (self._folder / f"{self.frames:06}.png").write_bytes(content)
            self.frames += 1
