"""The painter: pictures of the film as the encoder takes them, drawn only where they change.

A picture stands as planes of luma and chroma. What moves is drawn small, over what stands still
there, and only that small piece is converted and put into the planes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING, Any, Final, Literal, TypeAlias

from edgewise.publish.film import encoder
from edgewise.publish.film.board import HEIGHT, Box, Panel
from edgewise.views.drawing import raster, theme
from edgewise.views.drawing.shapes import Item

if TYPE_CHECKING:
    import av


@dataclass(frozen=True, slots=True)
class Overlay:
    """What lies over the still picture for a while: a panel, or a part of another picture."""

    box: Box
    """All of it that shows, in units."""
    drawn: Panel | raster.Image


_GRAIN: Final = 16
"""Pieces begin and end at multiples of this many pixels: chroma has half of luma's."""
_BYTES: Final = {"yuv420p": 1, "bgra": 4}
"""Bytes of a pixel in a plane."""
Pixels: TypeAlias = Literal["yuv420p", "bgra"]
_MOST_KEPT: Final = 512
"""Things that move, kept drawn."""


class Painter:
    """One picture of the film, changed from frame to frame.

    Parameters
    ----------
    size : (int, int)
        Pixels.
    pixels : {"yuv420p", "bgra"}
        Luma and chroma, or what they were drawn as.
    """

    def __init__(self, size: tuple[int, int], pixels: Pixels = "yuv420p") -> None:
        self.size, self.pixels = size, pixels
        self.scale = size[1] / HEIGHT
        self.still: raster.Image = None
        self.planes: Any = encoder.library().VideoFrame(*size, pixels)
        self._whole = _Sheet(size)
        self._sheets: dict[tuple[int, int], _Sheet] = {}
        self._over: tuple[Overlay, ...] = ()
        self._records: dict[tuple[Item, ...], Any] = {}

    def image(self, panels: Iterable[Panel]) -> raster.Image:
        """Panels as pixels, not shown yet."""
        canvas = self._whole.canvas
        canvas.clear(raster.colour(theme.PAPER))
        for panel in panels:
            self.draw(canvas, panel)
        return self._whole.surface.makeImageSnapshot()

    def draw(self, canvas: raster.Canvas, panel: Panel) -> None:
        """Draw a panel in its place."""
        canvas.save()
        canvas.scale(self.scale, self.scale)
        canvas.translate(panel.x, panel.y)
        canvas.scale(panel.scale, panel.scale)
        if panel.clip is not None:
            canvas.clipRect(raster.library().Rect.MakeXYWH(*panel.clip))
        raster.draw(canvas, panel.items)
        canvas.restore()

    def show(self, still: raster.Image) -> None:
        """Let the whole picture be this one."""
        self.still = still
        self._whole.canvas.drawImage(still, 0, 0)
        self.planes = self._whole.converted(self.pixels)
        self._over = ()

    def overlay(self, overlays: Sequence[Overlay]) -> None:
        """Show these over what stands still, and no longer those that lay there before."""
        for box in {one.box for one in (*self._over, *overlays)}:
            self._patch(box, overlays)
        self._over = tuple(overlays)

    def _patch(self, box: Box, overlays: Sequence[Overlay]) -> None:
        """Draw a part of the picture anew."""
        left, top, right, bottom = self._grains(box)
        if right <= left or bottom <= top:
            return
        size = right - left, bottom - top
        if size not in self._sheets:
            self._sheets[size] = _Sheet(size)
        sheet = self._sheets[size]
        canvas = sheet.canvas
        canvas.save()
        canvas.translate(-left, -top)
        canvas.drawImage(self.still, 0, 0)
        for one in overlays:
            x1, y1, x2, y2 = self._grains(one.box)
            if x1 < right and left < x2 and y1 < bottom and top < y2:
                self._lay(canvas, one)
        canvas.restore()
        _put(sheet.converted(self.pixels), self.planes, left, top)

    def _lay(self, canvas: raster.Canvas, one: Overlay) -> None:
        if isinstance(one.drawn, Panel):
            self._recorded(one.drawn, canvas)
            return
        canvas.save()
        canvas.clipRect(raster.library().Rect.MakeXYWH(*(v * self.scale for v in one.box)))
        canvas.drawImage(one.drawn, 0, 0)
        canvas.restore()

    def _recorded(self, panel: Panel, canvas: raster.Canvas) -> None:
        """Draw a panel whose items were drawn before, somewhere else."""
        skia = raster.library()
        if panel.items not in self._records:
            if len(self._records) >= _MOST_KEPT:
                self._records.clear()
            recorder = skia.PictureRecorder()
            raster.draw(
                recorder.beginRecording(skia.Rect.MakeLTRB(-1e4, -1e4, 1e4, 1e4)), panel.items
            )
            self._records[panel.items] = recorder.finishRecordingAsPicture()
        canvas.save()
        canvas.scale(self.scale, self.scale)
        canvas.translate(panel.x, panel.y)
        canvas.scale(panel.scale, panel.scale)
        canvas.drawPicture(self._records[panel.items])
        canvas.restore()

    def _grains(self, box: Box) -> tuple[int, int, int, int]:
        """The pixels of a box, and a few around it, in whole grains."""
        x, y, wide, high = (length * self.scale for length in box)
        most_x, most_y = self.size
        return (
            max(0, floor((x - 4) / _GRAIN) * _GRAIN),
            max(0, floor((y - 4) / _GRAIN) * _GRAIN),
            min(most_x, ceil((x + wide + 4) / _GRAIN) * _GRAIN),
            min(most_y, ceil((y + high + 4) / _GRAIN) * _GRAIN),
        )


class _Sheet:
    """Pixels that Skia draws on and PyAV converts, in one place of the memory."""

    def __init__(self, size: tuple[int, int]) -> None:
        skia = raster.library()
        self.frame: Any = encoder.library().VideoFrame(*size, "bgra")
        plane = self.frame.planes[0]
        info = skia.ImageInfo.Make(*size, skia.kBGRA_8888_ColorType, skia.kPremul_AlphaType)
        self.pixels = memoryview(plane)
        self.surface: raster.Surface = skia.Surface.MakeRasterDirect(
            info, self.pixels, plane.line_size
        )
        self.canvas: raster.Canvas = self.surface.getCanvas()

    def converted(self, pixels: Pixels) -> av.VideoFrame:
        """The pixels as luma and chroma, or a copy of them as they are."""
        self.surface.flushAndSubmit()
        if pixels == "bgra":
            copy: av.VideoFrame = encoder.library().VideoFrame(
                self.frame.width, self.frame.height, pixels
            )
            copy.planes[0].update(bytes(self.pixels))  # of the same line size
            return copy
        frame: av.VideoFrame = self.frame.reformat(
            format="yuv420p", dst_colorspace="ITU709", dst_color_range="MPEG", threads=1
        )
        return frame


def _put(piece: Any, whole: Any, left: int, top: int) -> None:
    """Copy a piece into a picture, row by row."""
    for number, (small, large) in enumerate(zip(piece.planes, whole.planes, strict=True)):
        half, deep = (1 if number else 0), _BYTES[piece.format.name]
        wide, x, y = small.width * deep, (left >> half) * deep, top >> half
        source, goal = memoryview(small), memoryview(large)
        step, stride = small.line_size, large.line_size
        for row in range(small.height):
            start = (y + row) * stride + x
            goal[start : start + wide] = source[row * step : row * step + wide]
