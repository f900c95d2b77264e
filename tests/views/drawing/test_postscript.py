"""EPS of figures, as another program reads it.

Outside: Ghostscript, an interpreter of the PostScript language, and Adobe's Encapsulated PostScript
File Format Specification 3.0 (1992) for what a file must have and must not do.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from edgewise.views.drawing.export import png, write
from edgewise.views.drawing.postscript import eps
from edgewise.views.drawing.shapes import Circle, Group, Line, Rectangle, Text
from edgewise.views.drawing.shapes import Path as Outline
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.drawing.theme import VIOLET
from edgewise.views.registry import Wish, figure
from tests.conftest import Edgewise
from tests.views.runs import traced

# Sec. 2.4 of the specification: not to be used, or only with care.
FORBIDDEN = {
    *("banddevice", "clear", "cleardictstack", "copypage", "erasepage", "exitserver"),
    *("framedevice", "grestoreall", "initclip", "initgraphics", "initmatrix", "quit"),
    *("renderbands", "setglobal", "setpagedevice", "setshared", "startjob"),
}


def ghostscript(*words: str) -> subprocess.CompletedProcess[bytes]:
    if shutil.which("gs") is None:
        pytest.fail("this test needs gs: apt-get install ghostscript", pytrace=False)
    options = ("-q", "-dSAFER", "-dBATCH", "-dNOPAUSE")
    return subprocess.run(("gs", *options, *words), capture_output=True, timeout=60, check=False)


def rendered(content: bytes, folder: Path) -> Image.Image:
    """What Ghostscript makes of it, two pixels to a px of the figure."""
    source, target = folder / "figure.eps", folder / "figure.png"
    source.write_bytes(content)
    smooth = ("-dTextAlphaBits=4", "-dGraphicsAlphaBits=4")
    done = ghostscript(
        "-dEPSCrop", "-sDEVICE=png16m", "-r192", *smooth, f"-sOutputFile={target}", str(source)
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    return Image.open(io.BytesIO(target.read_bytes()))


def far_apart(one: Image.Image, other: Image.Image) -> tuple[float, float]:
    """Mean difference of grey levels, and the share of pixels far apart, at half the size."""
    size = min(one.width, other.width), min(one.height, other.height)
    a, b = (
        np.asarray(each.convert("L").crop((0, 0, *size)).reduce(2), dtype=float)
        for each in (one, other)
    )
    return float(np.abs(a - b).mean()), float((np.abs(a - b) > 96).mean())


@pytest.mark.parametrize("name", ["diagram", "timing", "table"])
def test_ghostscript_draws_the_same_picture(name: str, tmp_path: Path) -> None:
    drawing = figure(traced("serial-adder", 4), name, Wish(legend=True))
    mean, far = far_apart(
        rendered(eps(drawing), tmp_path), Image.open(io.BytesIO(png(svg(drawing), 2)))
    )
    assert mean < 2.5
    assert far < 0.004


def test_every_shape_is_drawn(tmp_path: Path) -> None:
    items = (
        Rectangle(8, 8, 60, 30, fill="hatch", stroke="#1b2430", radius=6),
        Circle(100, 24, 14, "#f2a900", "#1b2430", 3),
        Line(((8, 60), (60, 60), (60, 80)), weight=6, dash=(9, 4)),
        Line(((80, 60), (120, 60), (120, 80)), weight=6, round=True),
        Group((Outline("M0 0A20 20 0 0 1 40 0Q50 20 30 24C20 30 10 20 0 0Z", VIOLET),), x=8, y=110),
        Text(70, 120, "FA", 30),
    )
    drawing = Drawing(140, 150, "shapes", "Shapes.", items)
    found = rendered(eps(drawing), tmp_path)
    mean, far = far_apart(found, Image.open(io.BytesIO(png(svg(drawing), 2))))
    assert mean < 3
    assert far < 0.004


def test_the_bounding_box_holds_what_is_drawn(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "column.eps"
    words = ("draw", "serial-adder", "--with", "n=6", "--operands", "a=22,b=43")
    assert edgewise(*words, "--width", "85mm", "-o", str(path)).code == 0
    said = re.search(r"%%HiResBoundingBox: 0 0 ([\d.]+) ([\d.]+)", path.read_text("ascii"))
    assert said
    wide, high = map(float, said.groups())
    assert wide <= 85 / 25.4 * 72 + 0.01
    done = ghostscript("-sDEVICE=bbox", str(path))
    box = [float(one) for one in done.stderr.decode().split("%%HiResBoundingBox:")[1].split()]
    assert box[0] >= 0
    assert box[1] >= 0
    assert box[2] <= wide + 0.5
    assert box[3] <= high + 0.5


def test_it_asks_for_no_typeface_and_does_nothing_forbidden(tmp_path: Path) -> None:
    path = tmp_path / "figure.eps"
    write(figure(traced("serial-adder", 4), "diagram", Wish()), path)
    text = path.read_text("ascii")
    program = [line for line in text.splitlines() if not line.startswith("%")]
    words = set(" ".join(program).split())
    assert not words & {*FORBIDDEN, "findfont", "selectfont", "show", "image"}
    assert max(map(len, text.splitlines())) <= 255
    assert text.startswith("%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 ")


def test_a_title_can_do_nothing() -> None:
    content = eps(Drawing(8, 8, "a) quit (\n%%EOF ü \\", "A.", ()))
    assert b"%%Title: (a\\) quit \\(?%%EOF ? \\\\)\n" in content
