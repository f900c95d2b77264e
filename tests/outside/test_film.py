"""The film read back by programs that nobody here wrote, and held against the run.

Sources: FFmpeg's ffprobe (Debian) and its decoders through PyAV; ISO/IEC 14496-12 for what they
read; resvg for the figures; W3C WebVTT (Candidate Recommendation, 4 April 2019, section 4) and
webvtt-py; W3C WCAG 2.1, 2.3.1; Chromium.
"""

from __future__ import annotations

import io
import json
import random
import re
import subprocess
import wave
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeAlias

import av
import numpy as np
import pytest
import webvtt
from numpy.typing import NDArray
from PIL import Image
from scipy.ndimage import gaussian_filter

from edgewise import lesson
from edgewise.bits import X
from edgewise.publish.film import voice
from edgewise.publish.film.build import Manner, build
from edgewise.publish.film.pace import Pace
from edgewise.publish.film.take import board_of, paced, scenes_of
from edgewise.views.drawing import theme
from edgewise.views.drawing.export import png
from edgewise.views.drawing.shapes import Group
from edgewise.views.drawing.svg import Drawing, mark, svg
from tests.publish.film.lessons import TIDE

if TYPE_CHECKING:
    from playwright.sync_api import Page

Grey: TypeAlias = NDArray[np.float64]
WIDE, HIGH = 1280, 720
RATE: Final = 30
ROWS: Final = 60
"""Rows whose bits are read from the picture."""


@dataclass(frozen=True)
class Filmed:
    folder: Path
    seconds: float

    @property
    def path(self) -> Path:
        return self.folder / "film.mp4"

    def times(self) -> list[tuple[str, float]]:
        """Of each scene its label and its seconds, from the file that a teacher edits."""
        lines = (self.folder / "film.times").read_text("utf-8").splitlines()
        parts = [line.split() for line in lines if not line.startswith("#")]
        return [(part[2], float(part[0])) for part in parts]


@pytest.fixture(scope="module")
def filmed(tmp_path_factory: pytest.TempPathFactory) -> Filmed:
    folder = tmp_path_factory.mktemp("film")
    (folder / "tide.md").write_text(TIDE, "utf-8")
    manner = Manner("720p", RATE, Pace(words=200, pause=0.3))
    made = build(folder / "tide.md", folder / "film.mp4", manner)
    return Filmed(folder, made.seconds)


def probed(path: Path, *shown: str) -> Any:
    """What ffprobe reads."""
    words = ["ffprobe", "-v", "error", "-of", "json", *shown, str(path)]
    return json.loads(subprocess.run(words, capture_output=True, check=True).stdout)


# ---------------------------------------------------------------- the container


def test_the_film_lasts_as_long_as_its_script(filmed: Filmed) -> None:
    script = sum(seconds for _, seconds in filmed.times())
    found = probed(filmed.path, "-show_format", "-show_streams")
    lengths = [float(one["duration"]) for one in found["streams"][:3]]
    for length in [float(found["format"]["duration"]), *lengths]:
        assert length == pytest.approx(script, abs=1 / RATE)


def test_the_streams_are_those_that_play_everywhere(filmed: Filmed) -> None:
    video, audio, captions = probed(filmed.path, "-show_streams")["streams"][:3]
    assert [one["codec_name"] for one in (video, audio, captions)] == ["h264", "aac", "mov_text"]
    assert (video["width"], video["height"], video["pix_fmt"]) == (WIDE, HIGH, "yuv420p")
    assert (video["avg_frame_rate"], video["color_space"], video["color_range"]) == (
        "30/1",
        "bt709",
        "tv",
    )
    assert audio["profile"] == "LC"
    assert captions["tags"]["language"] == "eng"


def test_the_index_stands_before_the_pictures(filmed: Filmed) -> None:
    # ISO/IEC 14496-12, 4.2: a file is boxes, each its length and its kind.
    content, at, kinds = filmed.path.read_bytes(), 0, []
    while at < len(content):
        kinds.append(content[at + 4 : at + 8])
        at += int.from_bytes(content[at : at + 4], "big")
    assert kinds.index(b"moov") < kinds.index(b"mdat")


def test_chapters_begin_where_their_scenes_do_and_a_player_can_begin_there(filmed: Filmed) -> None:
    found = probed(filmed.path, "-show_chapters")["chapters"]
    titles = [one["tags"]["title"] for one in found]
    assert titles == [
        "Two tide gauges <north & south>",
        "Load · start",
        "Load · load",
        "Add {of} them · add",
    ]
    starts = [0.0]
    for _, seconds in filmed.times():
        starts.append(starts[-1] + seconds)
    begun = [float(one["start_time"]) for one in found]
    assert begun == pytest.approx([starts[n] for n in (0, 1, 2, 3)], abs=1 / RATE)
    packets = probed(filmed.path, "-select_streams", "v", "-show_packets")["packets"]
    keys = [float(one["pts_time"]) for one in packets if "K" in one["flags"]]
    assert all(min(abs(key - start) for key in keys) <= 1 / RATE for start in begun)
    assert float(found[-1]["end_time"]) == pytest.approx(starts[-1], abs=1 / RATE)


def test_the_caption_track_says_what_the_file_beside_says(filmed: Filmed, tmp_path: Path) -> None:
    track = tmp_path / "track.srt"
    words = ["ffmpeg", "-v", "error", "-i", str(filmed.path), "-map", "0:s:0", "-f", "webvtt"]
    subprocess.run([*words, str(track)], check=True)
    inside = webvtt.from_string(track.read_text("utf-8"))
    beside = webvtt.read(str(filmed.folder / "film.vtt"))
    # Braces are commands to the encoder of the track, and stand there as parentheses.
    plain = [unescaped(one.text).replace("{", "(").replace("}", ")") for one in beside.captions]
    assert [one.text for one in inside.captions] == plain
    for here, there in zip(inside.captions, beside.captions, strict=True):
        assert here.start_in_seconds == pytest.approx(there.start_in_seconds, abs=0.002)


# ---------------------------------------------------------------- captions


@pytest.mark.parametrize("name", ["film.vtt", "film.chapters.vtt", "film.descriptions.vtt"])
def test_tracks_keep_to_the_grammar(filmed: Filmed, name: str) -> None:
    text = (filmed.folder / name).read_bytes().decode("utf-8")
    head, *blocks = text.rstrip("\n").split("\n\n")
    assert head == "WEBVTT"  # 4.1: the signature, then a blank line
    time = r"(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}"  # 4.1: WebVTT timestamp
    ended = "00:00:00.000"
    for block in blocks:
        timing, *lines = block.split("\n")
        found = re.fullmatch(f"({time}) --> ({time})", timing)
        assert found, timing
        assert ended <= found[1] < found[2]
        ended = found[1]
        assert lines
        for line in lines:  # 4.2.2: cue text; & and < only as the beginning of an escape
            assert "-->" not in line
            assert re.fullmatch(r"(?:[^&<\r\n]|&(?:amp|lt|gt|lrm|rlm|nbsp);)+", line), line


def test_webvtt_py_reads_every_word(filmed: Filmed) -> None:
    read = webvtt.read(str(filmed.folder / "film.vtt"))
    said = " ".join(one.text.replace("\n", " ") for one in read.captions)
    scenes = scenes_of(lesson.check(filmed.folder / "tide.md"))
    assert unescaped(said) == " ".join(scene.said for scene in scenes if scene.said)


def unescaped(text: str) -> str:
    """What a player shows: webvtt-py leaves escapes as they are."""
    return text.replace("&gt;", ">").replace("&lt;", "<").replace("&amp;", "&")


def test_captions_can_be_read(filmed: Filmed) -> None:
    # At most 20 characters a second, lines of at most 42, two of them: common practice, no source.
    for one in webvtt.read(str(filmed.folder / "film.vtt")).captions:
        length = one.end_in_seconds - one.start_in_seconds
        assert len(unescaped(one.text)) / length <= 20.5, one.text
        assert len(one.lines) <= 2
        assert max(map(len, one.lines)) <= 42


# ---------------------------------------------------------------- pictures


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


def figure(board: Any, row: int) -> Grey:
    """The block diagram of a row in its place in the picture, from its SVG, by resvg."""
    (x, y), scale = board.diagram_place, board.diagram_scale
    items = tuple(board.picture.items(row))
    inner = svg(Drawing(1152, 648, "row", "row", (Group(items, name="inner"),)), prefix="f")
    moved = f'<g data-name="inner" transform="translate({x} {y}) scale({scale})">'
    assert mark(Group((), name="inner"))[:-4] in inner
    return grey(png(inner.replace('<g data-name="inner">', moved), WIDE / 1152))


def last_frames(filmed: Filmed) -> dict[int, str]:
    """The number of the last frame of each scene, and the scene's label."""
    ends, total = {}, 0.0
    for label, seconds in filmed.times():
        total += seconds
        ends[round(total * RATE) - 1] = label
    return ends


def test_a_frame_looks_like_the_figure_of_its_row(filmed: Filmed) -> None:
    board, ends = board_of(lesson.check(filmed.folder / "tide.md")), last_frames(filmed)
    x, y = (round(length * HIGH / 648) for length in board.diagram_place)
    w, h = (round(side * board.diagram_scale * HIGH / 648) for side in board.picture.size)
    seen = {}
    for number, shown in frames(filmed.path):
        label = ends.get(number, "")
        if label in ("0", "5", "6"):  # nothing is pointed at there
            wanted = figure(board, int(label))
            seen[label] = similarity(shown[y : y + h, x : x + w], wanted[y : y + h, x : x + w])
    assert set(seen) == {"0", "5", "6"}
    assert min(seen.values()) > 0.98, seen
    wrong = figure(board, 1)[y : y + h, x : x + w]
    assert similarity(figure(board, 6)[y : y + h, x : x + w], wrong) < 0.98


@pytest.mark.slow
def test_bits_read_from_the_picture_are_those_of_the_run(tmp_path: Path) -> None:
    assert read_back(tmp_path, ROWS) == ROWS * 17  # cells of the diagram


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


def test_nothing_flashes_above_three_times_a_second(filmed: Filmed) -> None:
    """WCAG 2.1, 2.3.1: pairs of opposing changes of 10 % or more where the darker is below 0.8.

    Its area is a quarter of any 341 x 256 px of a 1024 x 768 display; here already a hundredth of
    the picture counts.
    """
    before: Grey | None = None
    falls: list[int] = []
    rises: list[int] = []
    for number, shown in frames(filmed.path):
        small = shown.reshape(HIGH // 8, 8, WIDE // 8, 8).mean((1, 3))
        # Relative luminance by the transfer curve of sRGB, as WCAG defines it.
        light = (np.clip((small - 16) / 219, 0, 1) + 0.055) / 1.055
        light = light**2.4
        if before is not None:
            dark = np.minimum(light, before) < 0.8
            for side, kept in ((light - before, rises), (before - light, falls)):
                if ((side >= 0.1) & dark).mean() > 0.01:
                    kept.append(number)
        before = light
    for start in range(max([*falls, *rises], default=0) + 1):
        pairs = min(
            sum(start <= one < start + RATE for one in falls),
            sum(start <= one < start + RATE for one in rises),
        )
        assert pairs <= 3, start


# ---------------------------------------------------------------- a voice


@pytest.mark.parametrize(("speed", "pause"), [("110", 0.8), ("210", 0.4)])
def test_the_film_follows_a_voice_at_its_own_speed(
    tmp_path: Path, speed: str, pause: float
) -> None:
    """By espeak-ng (Debian), each step by itself, so that it is known when it begins."""
    (tmp_path / "tide.md").write_text(TIDE, "utf-8")
    scenes, _, _ = paced(lesson.check(tmp_path / "tide.md"), Pace(), tmp_path / "none.times")
    said = [scene.said for scene in scenes if scene.said]
    spoken, starts, rate = b"", [], 1
    for text in said:
        starts.append(len(spoken) / 2 / rate)
        words = ["espeak-ng", "--stdin", "--stdout", "-s", speed]
        done = subprocess.run(words, input=text.encode(), capture_output=True, check=True)
        with wave.open(io.BytesIO(done.stdout)) as one:
            rate = one.getframerate()
            spoken += one.readframes(10**9) + bytes(2 * round(rate * pause))
    with wave.open(str(tmp_path / "talk.wav"), "wb") as talk:
        talk.setnchannels(1)
        talk.setsampwidth(2)
        talk.setframerate(rate)
        talk.writeframes(spoken)
    found = voice.follow(tmp_path / "talk.wav", [Pace().spoken(text) + 0.7 for text in said])
    assert found.lost == ()
    assert found.starts == pytest.approx(starts, abs=1 / RATE)


# ---------------------------------------------------------------- a real player


@pytest.mark.browser
def test_chromium_plays_it_and_shows_the_captions_of_a_chapter(filmed: Filmed, page: Page) -> None:
    page.goto((filmed.folder / "film.html").as_uri())
    video = page.locator("video")
    video.evaluate("v => v.readyState > 0 || new Promise(done => v.onloadedmetadata = done)")
    assert video.evaluate("v => [v.videoWidth, v.videoHeight]") == [WIDE, HIGH]
    assert video.evaluate("v => v.duration") == pytest.approx(filmed.seconds, abs=1 / RATE)
    page.wait_for_function(
        "() => [...document.querySelector('video').textTracks].every(t => (t.mode = t.kind =="
        " 'captions' ? 'showing' : 'hidden') && t.cues && t.cues.length)"
    )
    chapter = video.evaluate(
        "v => { const [cue] = [...v.textTracks].find(t => t.kind == 'chapters').cues; return"
        " [...v.textTracks].find(t => t.kind == 'chapters').cues[3].startTime }"
    )
    video.evaluate(
        "(v, time) => new Promise(done => { v.onseeked = done; v.currentTime = time + 0.1 })",
        chapter,
    )
    page.wait_for_function(
        "() => [...document.querySelector('video').textTracks].find(t => t.kind == 'captions')"
        ".activeCues?.length"
    )
    shown = video.evaluate(
        "v => [...[...v.textTracks].find(t => t.kind == 'captions').activeCues].map(c => c.text)"
    )
    assert shown == ["What will C hold after edge 4?"]
    assert video.evaluate("v => v.readyState") >= 2
    assert video.evaluate("v => v.error") is None
