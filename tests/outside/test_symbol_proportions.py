"""Proportions of the distinctive shapes, against IEEE Std 91-1984 with 91a-1991.

Seen second-hand in sources that cite the figures of the standard's Appendix A: the body of an
AND is 32 wide where it is 26 high; the arcs of an OR have the radius 26, and they begin 10
behind the rear; the second rear arc of an XOR lies 5 behind the first. The shapes are measured
in the outlines that are drawn, not in the constants that they are made from.
"""

from __future__ import annotations

import re

import pytest

from edgewise.views.drawing import gate_symbols
from edgewise.views.drawing.shapes import Path

_ARC = re.compile(r"A([\d.]+) ([\d.]+) 0 0 [01] ([\d.]+) ([\d.]+)")


def outline(kind: str) -> Path:
    return next(i for i in gate_symbols.gate(kind, 2).items if isinstance(i, Path) and i.box)


def high(path: Path) -> float:
    assert path.box is not None
    return path.box[3] - path.box[1]


def test_an_and_is_32_to_26() -> None:
    path = outline("and")
    assert path.box is not None
    assert (path.box[2] - path.box[0]) / high(path) == pytest.approx(32 / 26, abs=0.002)


@pytest.mark.parametrize("kind", ["or", "xor"])
def test_the_arcs_of_an_or_have_the_radius_of_its_height(kind: str) -> None:
    path = outline(kind)
    radii = {float(found) for arc in _ARC.findall(path.data) for found in arc[:2]}
    assert [radius / high(path) for radius in radii] == pytest.approx([26 / 26], abs=0.002)


@pytest.mark.parametrize("kind", ["or", "xor"])
def test_the_front_arcs_of_an_or_begin_10_behind_its_rear(kind: str) -> None:
    path = outline(kind)
    assert path.box is not None
    shoulder = float(re.search(r"H([\d.]+)", path.data)[1])  # type: ignore[index]
    assert (shoulder - path.box[0]) / high(path) == pytest.approx(10 / 26, abs=0.002)


def test_the_second_arc_of_an_xor_lies_5_behind() -> None:
    rear, body = (i for i in gate_symbols.gate("xor", 2).items if isinstance(i, Path))
    start = float(re.match(r"M([\d.]+)", rear.data)[1])  # type: ignore[index]
    assert body.box is not None
    assert (body.box[0] - start) / high(body) == pytest.approx(5 / 26, abs=0.002)
