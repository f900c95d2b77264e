"""The frames of a film as pixels, and the bits of a run read from them.

Sources: the decoders of FFmpeg through PyAV; ITU-R BT.709-6; the paper named at `similarity`.
"""

from __future__ import annotations

import io
import random
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any, Final, TypeAlias

import av
import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy.ndimage import gaussian_filter

from edgewise import lesson
from edgewise.bits import X
from edgewise.publish.film.build import Manner, build
from edgewise.publish.film.take import board_of, scenes_of
from edgewise.views.drawing import theme

Grey: TypeAlias = NDArray[np.float64]
HIGH: Final = 720


def frames(path: Path) -> Iterator[tuple[int, Grey]]:
    """Each frame's number and its luma."""
    with av.open(str(path), "r") as film:
        film.streams.video[0].thread_type = "AUTO"
        for number, frame in enumerate(film.decode(video=0)):
            plane = frame.planes[0]
            rows = np.frombuffer(memoryview(plane), np.uint8).reshape(-1, plane.line_size)
            yield number, rows[:, : plane.width].astype(np.float64)


def grey(picture: bytes) -> Grey:
    """Luma of a PNG: BT.709, 16 to 235 (ITU-R BT.709-6, 3.3 and 3.4)."""
    with Image.open(io.BytesIO(picture)) as shown:
        rgb = np.asarray(shown.convert("RGB"), np.float64)
    light: Grey = rgb @ np.array([0.2126, 0.7152, 0.0722])
    return 16 + light * 219 / 255


def similarity(a: Grey, b: Grey) -> float:
    """Mean structural similarity.

    Wang, Bovik, Sheikh, Simoncelli: Image quality assessment, IEEE Transactions on Image
    Processing 13 (4), 2004, eq. 13, with its constants and its window of 11 x 11.
    """

    def mean(values: Grey) -> Grey:
        smooth: Grey = gaussian_filter(values, 1.5, truncate=3.5)
        return smooth

    c1, c2 = (0.01 * 255) ** 2, (0.03 * 255) ** 2
    ma, mb = mean(a), mean(b)
    va, vb = mean(a * a) - ma * ma, mean(b * b) - mb * mb
    both = mean(a * b) - ma * mb
    top = (2 * ma * mb + c1) * (2 * both + c2)
    return float((top / ((ma * ma + mb * mb + c1) * (va + vb + c2))).mean())


def read_back(folder: Path, count: int) -> int:
    """Read the bits of random rows from a film: how many of them were cells.

    Fill and weight say it: solid, empty, hatched cells and thick, thin, dashed wires. What is read
    is held against the run. ``scripts/read_film.py`` does so with 500 rows.
    """
    rng = random.Random(7)  # noqa: S311  # which rows are looked at
    rows = [rng.randrange(25) for _ in range(count)]
    path = folder / "tide.md"
    steps = "\n".join(f'- {{rows: {row}, say: "{n}"}}' for n, row in enumerate(rows))
    path.write_text(
        "---\ntitle: T\ndesign: serial-accumulator\nwith: {n: 6, x: 3, m: 6}\n"
        f"operands: {{w: [51, 38, 29]}}\n---\n```steps\n{steps}\n```\n"
    )
    report = lesson.check(path)
    labels = [scene.label for scene in scenes_of(report)]
    lines = "".join(f"0.2 1 {label}\n" for label in labels)
    (folder / "film.times").write_text(lines)
    build(path, folder / "film.mp4", Manner("720p"))
    board, trace = board_of(report), report.trace
    cells, wires = [*cell_places(board)], [*wire_places(board)]
    assert len(wires) >= 5
    read = 0
    for number, shown in frames(folder / "film.mp4"):
        scene, left = divmod(number + 1, 6)
        if left or not 2 <= scene <= len(labels):
            continue
        row = rows[scene - 2]
        for net, across, colour in wires:
            assert weight_of(shown, across, colour) == trace.rows[row][net], (row, net)
        for net, (x, y, w, h) in cells:
            # In a small cell the digit leaves only one column of pixels free on each side.
            free = 2 if w > 16 else 1
            cell = shown[y : y + h, x : x + w]
            edge = np.concatenate([cell[:, :free], cell[:, w - free :]])
            found = bit_of(edge)
            assert found == trace.rows[row][net], (row, net, edge.mean(), edge.std())
            read += 1
    return read


def cell_places(board: Any) -> Iterator[tuple[int, tuple[int, int, int, int]]]:
    """The net and the pixels inside each bit cell of the diagram."""
    places = {placed.id: placed for placed in board.picture.layout.boxes}
    scale = board.diagram_scale * HIGH / 648
    left, top = (length * HIGH / 648 for length in board.diagram_place)
    for element in board.picture.scene.walk():
        for place, net in enumerate(reversed(element.word)):
            x = places[element.id].x + element.cells[0] + place * element.cell.width
            y = places[element.id].y + element.cells[1]
            inner = (left + (x + 2) * scale, top + (y + 4) * scale)
            size = ((element.cell.width - 4) * scale, (element.cell.height - 8) * scale)
            yield net, (round(inner[0]), round(inner[1]), round(size[0]), round(size[1]))


Across: TypeAlias = list[tuple[slice, slice]]


def wire_places(board: Any) -> Iterator[tuple[int, Across, float]]:
    """The net, some cuts across its longest straight piece, and the luma of its ink."""
    pins, scale = board.picture.scene.pins, board.diagram_scale * HIGH / 648
    left, top = (length * HIGH / 648 for length in board.diagram_place)
    for wire in board.picture.layout.wires:
        nets, lines = pins[wire.source].nets, [p for one in wire.lines for p in pairwise(one)]
        (x1, y1), (x2, y2) = max(lines, key=lambda p: abs(p[0][0] - p[1][0] + p[0][1] - p[1][1]))
        long = abs(x1 - x2 + y1 - y2)
        if len(nets) != 1 or wire.kind not in ("", "carry") or long < 34:
            continue
        colour = luma(theme.VIOLET if wire.kind == "carry" else theme.INK)
        low = min((x1, y1), (x2, y2))
        places = [low[x1 == x2] + 8 + n * (long - 16) / 24 for n in range(25)]
        if x1 == x2:
            x, ys = round(left + x1 * scale), [round(top + y * scale) for y in places]
            yield nets[0], [(slice(y, y + 1), slice(x - 6, x + 7)) for y in ys], colour
        else:
            y, xs = round(top + y1 * scale), [round(left + x * scale) for x in places]
            yield nets[0], [(slice(y - 6, y + 7), slice(x, x + 1)) for x in xs], colour


def luma(colour: str) -> float:
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return 16 + (0.2126 * red + 0.7152 * green + 0.0722 * blue) * 219 / 255


def weight_of(shown: Grey, across: Across, colour: float) -> int:
    """What a wire holds: how many pixels of ink there are in each cut."""
    ink = [float((235 - shown[cut]).clip(0).sum() / (235 - colour)) for cut in across]
    if sum(one < 0.4 for one in ink) >= 4:
        return X
    return int(sorted(ink)[len(ink) // 2] > 2.5)


def bit_of(edge: Grey) -> int:
    """What a cell holds, by its two sides."""
    if edge.mean() < 90:
        return 1
    return 0 if edge.mean() > 228 and edge.std() < 8 else X
