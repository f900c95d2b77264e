"""Values stay apart in grey and for the common colour-vision deficiencies.

Outside: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for
Simulation of Color Vision Deficiency", IEEE Trans. Visualization and Computer Graphics 15(6),
2009, 1291-1298: matrices for severity 1.0, applied to linear RGB. Grey is the relative
luminance of IEC 61966-2-1 (sRGB).
"""

from __future__ import annotations

import io
from typing import Final

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from edgewise.bits import Word
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.export import png
from edgewise.views.drawing.svg import Drawing, svg

Picture = NDArray[np.float64]

MATRICES: Final = {
    "full colour vision": np.eye(3),
    "protanopia": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "deuteranopia": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "tritanopia": np.array(
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ]
    ),
    "no colour at all": np.tile([0.2126, 0.7152, 0.0722], (3, 1)),
}
SCALE: Final = 4
CELL: Final = theme.DIAGRAM_CELL


def seen(matrix: Picture) -> Picture:
    """Relative luminance of the cells 1, 0, X, all changed, as someone sees them."""
    figure = Drawing(90, 60, "cells", "Cells.", (cells(Word.parse("10X"), 8, 8, Word.of(7, 3)),))
    picture = Image.open(io.BytesIO(png(svg(figure), SCALE))).convert("RGB")
    coded = np.asarray(picture, dtype=float) / 255
    linear = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)
    simulated = np.clip(linear @ matrix.T, 0, 1)
    luminance: Picture = simulated @ np.array([0.2126, 0.7152, 0.0722])
    return luminance


def cell(picture: Picture, index: int) -> Picture:
    """The left strip of a cell, inside its outline and beside its digit."""
    left = 8 + index * CELL.width + 2
    return picture[
        int((8 + 2) * SCALE) : int((8 + CELL.height - 2) * SCALE),
        int(left * SCALE) : int((left + 5) * SCALE),
    ]


def ratio(one: float, other: float) -> float:
    darker, lighter = sorted((one, other))
    return (lighter + 0.05) / (darker + 0.05)


def test_a_matrix_leaves_grey_as_it_is() -> None:
    # A property of the model: whoever lacks a cone type sees greys as before. Rows add up to 1.
    for matrix in MATRICES.values():
        assert matrix.sum(axis=1) == pytest.approx([1, 1, 1], abs=2e-6)


@pytest.mark.parametrize("who", MATRICES)
def test_one_zero_and_unknown_are_told_apart(who: str) -> None:
    picture = seen(MATRICES[who])
    one, zero, unknown = (cell(picture, i) for i in range(3))
    # By weight: solid and empty differ as text from its ground (WCAG 2.2, 1.4.6: 7:1) …
    assert ratio(float(one.mean()), float(zero.mean())) > 7
    assert ratio(float(one.mean()), float(unknown.mean())) > 7
    # … and by texture: only the hatch is uneven, with strokes that stand out from its ground.
    assert one.std() < 0.01
    assert zero.std() < 0.01
    assert unknown.std() > 0.15
    assert ratio(float(np.quantile(unknown, 0.05)), float(unknown.max())) > 1.8


@pytest.mark.parametrize("who", MATRICES)
def test_the_band_stands_out_from_the_paper(who: str) -> None:
    picture = seen(MATRICES[who])
    top = int((8 + CELL.height + CELL.gap) * SCALE)
    band = picture[top - 2 : top + int(CELL.band * SCALE) + 2, 20 * SCALE]
    amber = float(band[len(band) // 2])
    assert amber < 0.75
    assert ratio(float(band.min()), 1.0) > 3  # its outline
