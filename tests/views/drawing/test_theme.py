"""The look: one place for it, fonts that are there, drawings that are well-formed."""

from __future__ import annotations

import ast
import re
from pathlib import Path as File

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from edgewise.bits import Word
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import Placed, cells, cells_height, cells_width, sheet, value
from edgewise.views.drawing.legend import Key
from edgewise.views.drawing.shapes import Group, Item, Letters, Path, Text, number
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.drawing.text_metrics import box, fitted, font_file, width, wrapped
from tests.conftest import Golden
from tests.views.measures import faults, texts

SOURCE = File(theme.__file__).parents[2]
NAMESPACE = "{http://www.w3.org/2000/svg}"


def drawing(*items: Item) -> Drawing:
    return Drawing(600, 200, "cells", "Cells.", items)


def test_no_other_file_has_a_colour() -> None:
    found = {
        (file.name, node.value)
        for file in SOURCE.rglob("*.py")
        if file.name != "theme.py"
        for node in ast.walk(ast.parse(file.read_text()))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and re.fullmatch("#[0-9a-fA-F]{3,8}", node.value)
    }
    assert not found


@pytest.mark.parametrize(("face", "file"), theme.FONT_FILES.items())
def test_a_figure_names_the_family_that_the_file_holds(
    face: tuple[theme.Family, int], file: str
) -> None:
    # Name 16, else name 1, is the family; OS/2 has the weight (ISO/IEC 14496-22).
    family, weight = face
    font = TTFont(font_file(family, weight))
    name = font["name"].getDebugName(16) or font["name"].getDebugName(1)
    assert theme.FAMILIES[family].startswith(f"'{name}',"), file
    assert font["OS/2"].usWeightClass == weight


def test_width_is_the_sum_of_the_advances_in_the_file() -> None:
    # IBM Plex Mono has no kerning: every advance is the one of its hmtx table.
    font = TTFont(font_file("bits", 400))
    advance = font["hmtx"][font.getBestCmap()[ord("0")]][0] / font["head"].unitsPerEm
    assert width("010110", 20, "bits") == pytest.approx(6 * 20 * advance)


def test_a_text_is_shortened_to_its_room() -> None:
    short = fitted("initialise", 40)
    assert short.endswith("…")
    assert width(short) <= 40
    assert all(width(line) <= 80 for line in wrapped("tide table of two harbours", 80))


def test_legend_and_cells(golden: Golden) -> None:
    word, marks = Word.parse("XX0111"), Word.parse("011010")
    items = [
        Key().drawn(16, 16),
        cells(word, 16, 60, marks, name="A"),
        cells(word, 200, 60, marks, theme.TABLE_CELL),
        cells(Word.of(45123, 16), 16, 110, Word.of(0x0FF1, 16)),
    ]
    figure = drawing(*items)
    assert not faults(figure)
    golden("figure-cells.svg", svg(figure))


@given(
    st.text("01X", min_size=1, max_size=40),
    st.integers(0),
    st.sampled_from([theme.DIAGRAM_CELL, theme.TABLE_CELL]),
)
def test_cells_show_every_bit_or_fold(digits: str, marks: int, size: theme.CellSize) -> None:
    word = Word.parse(digits)
    changed = Word(word.width, marks % 2**word.width)
    group = cells(word, 20, 20, changed, size)
    shown = [item.text for item in group.items if isinstance(item, Letters)]
    if word.width <= theme.FOLD:
        assert shown == [digits]
        bands = changed.ones.bit_count()
    else:
        left = theme.FOLD - 1 - theme.FOLD_LOW
        assert shown == [digits[:left], digits[-theme.FOLD_LOW :]]
        assert value(word) in [item.text for item in group.items if isinstance(item, Text)]
        seen = str(changed)
        hidden = "1" in seen[left : -theme.FOLD_LOW]
        bands = seen[:left].count("1") + hidden + seen[-theme.FOLD_LOW :].count("1")
    drawn = [i.data for i in group.items if isinstance(i, Path) and i.fill == theme.AMBER]
    assert sum(data.count("M") for data in drawn) == bands
    right, bottom = 20 + cells_width(word.width, size), 20 + cells_height(word.width, size)
    for text in texts(drawing(group)):
        assert text.box[2] <= max(right, 20 + width(value(word), theme.SIZE_SMALL))
        assert text.box[3] <= bottom
    assert not faults(drawing(group))


def test_a_value_is_told_by_fill_and_weight() -> None:
    assert len({theme.fill(bit) for bit in (0, 1, 2)}) == 3
    assert len({theme.wire(bit) for bit in (0, 1, 2)}) == 3


def test_legend_is_as_wide_as_it_says() -> None:
    for wires in (True, False):
        for banded in (True, False):
            key = Key(wires=wires, banded=banded)
            wide, group = key.size[0], key.drawn()
            ends = [box(item)[2] for item in group.items if isinstance(item, Text)]
            assert max(ends) < wide


# ---------------------------------------------------------------- the SVG writer


@given(st.text(), st.text(), st.text(min_size=1))
def test_any_text_makes_well_formed_xml(title: str, about: str, text: str) -> None:
    figure = Drawing(9, 9, title, about, (Group((Text(1, 1, text),), text, text),))
    root = etree.fromstring(svg(figure).encode())
    allowed = re.sub("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "\ufffd", text)
    found = root.findtext(f".//{NAMESPACE}text") or ""
    assert found == allowed.replace("\r\n", "\n").replace("\r", "\n")


def test_an_svg_is_an_image_with_title_and_description() -> None:
    root = etree.fromstring(svg(drawing(Text(1, 1, "A"))).encode())
    names = root.get("aria-labelledby", "").split()
    said = [root.find(f".//*[@id='{name}']") for name in names]
    assert root.get("role") == "img"
    assert [element.text for element in said if element is not None] == ["cells", "Cells."]


def test_figures_on_one_page_share_no_id() -> None:
    word = Word.parse("X")
    one = svg(Drawing(40, 40, "A", "A.", (cells(word, 2, 2),)))
    other = svg(Drawing(40, 40, "B", "B.", (cells(word, 2, 2),)))
    ids = re.findall(r' id="([^"]*)"', one + other)
    assert len(ids) == len(set(ids)) == 6
    for figure in (one, other):
        assert set(re.findall(r"url\(#([^)]*)\)", figure)) <= set(
            re.findall(r' id="([^"]*)"', figure)
        )


def test_a_prefix_is_made_safe() -> None:
    assert 'id="a-b-title"' in svg(drawing(), prefix="a b")


def test_nothing_runs_or_is_fetched() -> None:
    text = svg(drawing(Key().drawn(10, 10)))
    addresses = set(re.findall(r"[a-z]+://[^\"' ]*", text))
    assert addresses == {"http://www.w3.org/2000/svg"}
    assert "script" not in text


def test_path_data_holds_nothing_else() -> None:
    with pytest.raises(ValueError, match="not path data: 'M0 0\"/>'"):
        Path('M0 0"/>')


@given(st.floats(-1e6, 1e6))
def test_a_number_keeps_a_hundredth(length: float) -> None:
    assert float(number(length)) == pytest.approx(length, abs=0.0051)
    assert "e" not in number(length)


def test_outlines_leave_no_text() -> None:
    figure = drawing(Key().drawn(10, 10), cells(Word.parse("01X"), 10, 60))
    outlined = svg(figure, outlined=True)
    assert "<text" not in outlined
    assert outlined.count("font-family") == 1


def test_a_sheet_has_few_elements() -> None:
    words = [Placed(Word.of(i, 6), 0, 40.0 * i) for i in range(20)]
    assert len(sheet(words).items) == 3 + 20
