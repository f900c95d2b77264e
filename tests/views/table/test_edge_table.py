"""Edge tables, as SVG and as HTML."""

from __future__ import annotations

import pytest
from lxml import etree, html

from edgewise import catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Letters
from edgewise.views.drawing.svg import svg
from edgewise.views.table.edge_table import edge_table, edge_table_html
from edgewise.views.text.alt_text import MOST
from tests.conftest import Golden
from tests.views.measures import faults, texts

COLUMNS = ["A", "B", "FA.sum", "FA.carry-out", "C", "S"]


def trace(n: int = 6) -> Trace:
    most = 2**n - 1
    return run(catalogue.design("serial-adder", n=n), a=22 % most, b=43 % most)


def test_serial_adder(golden: Golden) -> None:
    golden("figure-table-serial-adder.svg", svg(edge_table(trace(), COLUMNS, legend=True)))


def test_serial_adder_as_html(golden: Golden) -> None:
    golden("figure-table-serial-adder.html", edge_table_html(trace(), COLUMNS, range(5, 9)))


@pytest.mark.parametrize("n", [1, 2, 4, 8, 16, 32])
def test_no_text_meets_another_or_leaves_the_picture(n: int) -> None:
    drawing = edge_table(trace(n), legend=True)
    assert not faults(drawing)
    etree.fromstring(svg(drawing).encode())


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_design_has_one(name: str) -> None:
    design = catalogue.design(name)
    drawing = edge_table(run(design, **{operand.name: 1 for operand in design.operands}))
    assert not faults(drawing)
    assert drawing.description


def test_every_word_stands_msb_left_in_its_row() -> None:
    run_ = trace()
    for row in [i for i in edge_table(run_, COLUMNS).items if isinstance(i, Group)]:
        shown = [item.text for item in row.items if isinstance(item, Letters)]
        assert shown == [str(run_.word(name, int(row.name))) for name in COLUMNS]


def test_the_html_has_the_same_words_and_marks() -> None:
    run_ = trace()
    root = html.fromstring(edge_table_html(run_, COLUMNS))
    for row in root.iterfind(".//tr[@data-row]"):
        number = int(row.get("data-row", ""))
        cells = row.findall("td")[-len(COLUMNS) :]
        assert ["".join(map(str, cell.itertext())) for cell in cells] == [
            str(run_.word(name, number)) for name in COLUMNS
        ]
        marked = [
            "".join("1" if "changed" in (bit.get("class") or "") else "0" for bit in cell)
            for cell in cells
        ]
        assert marked == [str(run_.changed(name, number)) for name in COLUMNS]


def test_the_html_has_real_headers() -> None:
    # HTML Living Standard, 4.9.10: scope is col, row, rowgroup or colgroup.
    root = html.fromstring(edge_table_html(trace(), COLUMNS))
    heads = root.findall("thead/tr/th")
    assert [head.text for head in heads] == ["phase", "after edge", *COLUMNS]
    assert {head.get("scope") for head in heads} == {"col"}
    groups = root.findall(".//th[@scope='rowgroup']")
    assert [(group.text, group.get("rowspan")) for group in groups] == [("load", "6"), ("add", "7")]
    rows = root.findall(".//th[@scope='row']")
    assert [row.text for row in rows] == ["start", *map(str, range(1, 13))]
    assert root.findtext("caption") == (
        "bit-serial adder, n = 6, a = 22, b = 43. Each line: after that clock edge, with the"
        " inputs of its phase, which the next edge samples. Words in bits, MSB left."
    )


def test_rows_come_in_the_order_given() -> None:
    said = [text.text for text in texts(edge_table(trace(), ["C"], [8, 2], caption=""))]
    assert said == ["phase", "after edge", "C", "add", "8", "1", "load", "2", "0"]


def test_a_circuit_without_edges_has_a_table_of_values() -> None:
    adder = run(catalogue.design("ripple-carry-adder", n=4), a=9, b=6, carry_in=1)
    drawing = edge_table(adder, ["a", "b", "sum"])
    assert drawing.title == "Table of values: ripple-carry adder, n = 4, a = 9, b = 6, carry_in = 1"
    assert drawing.description == "a is 1001 (9), b is 0110 (6), sum is 0000 (0)."
    root = html.fromstring(edge_table_html(adder, ["a", "b"], caption=""))
    assert [head.text for head in root.findall("thead/tr/th")] == ["a", "b"]


def test_the_description_says_the_values() -> None:
    drawing = edge_table(trace(), ["C", "S"], [0, 8])
    assert drawing.title == "Edge table, edges 0 to 8: bit-serial adder, n = 6, a = 22, b = 43"
    assert drawing.description == (
        "Phase load is edges 1 to 6, add is edges 7 to 8."
        " At the start: C is 0, S is 000000 (0). After edge 8: C is 1, S is 010000 (16)."
    )
    assert len(edge_table(trace(32)).description) <= MOST


def test_it_stays_small() -> None:
    assert len(svg(edge_table(trace(), legend=True)).encode()) < 60_000


@pytest.mark.parametrize(
    ("columns", "rows", "message"),
    [
        (["FA.summ"], None, "there is no FA.summ here; did you mean FA.sum?"),
        (["A(9)"], None, "A has no bit 9; its bits are 5..0, MSB first"),
        (["A"], [13], "there is no row 13: the rows are 0..12"),
        (["A"], [], "no row was chosen; the rows are 0..12"),
    ],
)
def test_bad_choices_are_said_whole(columns: list[str], rows: list[int], message: str) -> None:
    for view in (edge_table, edge_table_html):
        with pytest.raises(EdgewiseError) as caught:
            view(trace(), columns, rows)
        assert str(caught.value) == message


def test_an_open_word_is_neither_drawn_nor_told_nor_hinted_at() -> None:
    """The row after it has no mark of a change there: it would tell what was left open."""
    run_ = trace()
    blank = frozenset({(7, "S")})
    whole = svg(edge_table(run_, ["S"], [6, 7, 8]))
    drawing = edge_table(run_, ["S"], [6, 7, 8], blank=blank)
    assert "Left open in row 7: S." in drawing.description
    assert "After edge 7" not in drawing.description
    assert svg(drawing).count(theme.AMBER) < whole.count(theme.AMBER)
    words = [str(run_.word("S", row)) for row in (6, 8)]
    rows = [g for g in drawing.items if isinstance(g, Group) and g.kind == "row"]
    shown = ["".join(item.text for item in row.items if isinstance(item, Letters)) for row in rows]
    assert shown == [words[0], "", words[1]]


def test_a_table_that_grows_keeps_its_columns_in_place() -> None:
    whole = edge_table(trace(), COLUMNS, range(9), steady=True)
    widths = {edge_table(trace(), COLUMNS, [row], steady=True).width for row in range(9)}
    assert widths == {whole.width}
