"""The page: self-contained, byte-identical, written whole or not at all, only our markup."""

from __future__ import annotations

import html
import os
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from lxml import etree
from lxml import html as lxml_html

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.publish.html import page

if TYPE_CHECKING:
    from playwright.sync_api import Page

LESSON = """\
---
title: Two rain gauges
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
Gauge "one" counted `? a` tips, A holds `? A after 8`, true is `? a < b`.

## A table

| after | S |
|------:|:--|
| 9     | `? S after 9` |

```edge-table
rows: 6..12
columns: [A, FA.carry-out, C, S]
```
```timing
columns: [A, C, S]
rows: 6..12
```
```claim
S after 12 == (a + b) mod 64   for all a, b
edges == 2*n                   for n in 1..64
```
```python
print("<b>")
```
"""


def write(folder: Path, text: str = LESSON, name: str = "rain.md") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def built(folder: Path, text: str = LESSON) -> str:
    return page.build(write(folder, text), folder / "out").read_text("utf-8")


def test_the_page_has_the_computed_values(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(built(tmp_path))
    (paragraph,) = tree.xpath("//main/p[1]")
    assert paragraph.text_content() == "Gauge “one” counted 22 tips, A holds XX0101, true is true."
    assert tree.xpath("string(//table[contains(@class,'plain')]//td[2])") == "001000"
    assert tree.xpath("string(//h1)") == "Two rain gauges"
    assert tree.xpath("string(//ul[@class='facts'])").replace("\xa0", " ") == (
        "bit-serial addern = 6a = 22b = 4312 clock edges"
    )
    assert tree.xpath("//html/@lang") == ["en"]


def test_the_edge_table_is_a_table(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(built(tmp_path))
    table = tree.xpath("//table[@class='edge-table']")[0]
    assert table.xpath("string(caption)").replace("\u00a0", " ") == (
        "The words after each edge, with the inputs that the next one samples; MSB left"
        " (n = 6, a = 22, b = 43)"
    )
    heads = table.xpath("thead/tr/th[@scope='col']")
    assert [h.text_content() for h in heads] == [
        "phase",
        "after edge",
        "A",
        "FA.carry-out",
        "C",
        "S",
    ]
    # Row 6 holds the inputs of edge 7, the first of add.
    assert table.xpath("tbody/tr/th[@scope='rowgroup']/text()") == ["add"]
    assert table.xpath("tbody/tr/th[@scope='row']/text()") == list(map(str, range(6, 13)))
    trace = lesson.check(tmp_path / "rain.md").trace
    for row in range(6, 13):
        (line,) = table.xpath(f"tbody/tr[th[@scope='row']='{row}']")
        words = [str(trace.word(name, row)) for name in ("A", "FA.carry-out", "C", "S")]
        assert [cell.text_content() for cell in line.xpath("td")] == words


def test_claims_say_how_they_were_checked(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(built(tmp_path))
    items = tree.xpath("//ul[@class='claims']/li")
    assert [(i.xpath("string(code)"), i.xpath("string(span)")) for i in items] == [
        ("S after 12 == (a + b) mod 64 for all a, b", "checked on all 4,096 operand pairs"),
        ("edges == 2*n for n in 1..64", "checked for n = 1 to 64"),
    ]


def test_the_same_lesson_gives_the_same_bytes(tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    for folder in (one, two):
        folder.mkdir()
        page.build(write(folder), folder)
    assert (one / "rain.html").read_bytes() == (two / "rain.html").read_bytes()


def test_nothing_in_the_page_points_outside(tmp_path: Path) -> None:
    text = re.sub(r"xmlns(:\w+)?=([\"'])[^\"']*\2", "", built(tmp_path))
    text = text.replace('"http://www.w3.org/2000/svg"', "")  # a name, in the script
    assert "http:" not in text
    assert "https:" not in text
    assert re.findall("<script[^>]*>", text) == [
        '<script type="application/json">',
        '<script type="module">',
    ]
    assert " style=" not in text
    assert re.findall(r"url\((?!data:font/woff2|\"data:image/svg|#)", text) == []


def test_the_same_figure_twice_has_different_ids(tmp_path: Path) -> None:
    block = "\n```diagram\nafter: 9\n```\n"
    tree: Any = lxml_html.fromstring(built(tmp_path, LESSON + block + block))
    ids = tree.xpath("//@id")
    assert len(ids) == len(set(ids)) >= 6
    labels = " ".join(tree.xpath("//@aria-labelledby")).split()
    assert set(labels) <= set(ids)


def test_the_page_is_small(tmp_path: Path) -> None:
    import gzip

    assert len(gzip.compress(built(tmp_path).encode())) < 250_000


@pytest.mark.parametrize(("language", "ours"), [("en", 0), ("en-GB", 0), ("de-AT", 0), ("fr", 6)])
def test_our_own_words_are_marked_as_english_where_the_lesson_is_not(
    tmp_path: Path, language: str, ours: int
) -> None:
    text = built(tmp_path, LESSON.replace("title:", f"language: {language}\ntitle:"))
    assert f'<html lang="{language}">' in text
    assert text.count(' lang="en"') - (language == "en") == ours


HOSTILE = "<script>alert(1)</script>"


@pytest.mark.parametrize(
    "spot",
    [
        "title",
        "text",
        "heading",
        "code",
        "fence",
        "info",
        "caption",
        "table",
        "link",
        "comment",
        "image",
        "entity",
        "circuit",
    ],
)
def test_markup_in_any_text_shows_as_text(tmp_path: Path, spot: str) -> None:
    """No element and no attribute comes from a lesson's or a circuit's text."""
    (tmp_path / "dot.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    (tmp_path / "sum.yaml").write_text(
        f"circuit: '{HOSTILE}'\ninputs: {{a: 1}}\noutputs: {{s: a}}\noperands: {{a: 1}}\n"
    )
    front = "---\ntitle: T\ndesign: serial-adder\noperands: {a: 1, b: 2}\n---\n"
    hostile = {
        "title": front.replace("title: T", f"title: '{HOSTILE}\" onload=\"x'"),
        "text": front + HOSTILE + " <img src=x onerror=alert(1)> <style>*{}</style>",
        "heading": front + f"# {HOSTILE}\n\nSet {HOSTILE}\n===",
        "code": front + f"`{HOSTILE}` and `{HOSTILE}\" x='`",
        "fence": front + f"```\n</code></pre>{HOSTILE}\n```\n\n    {HOSTILE}\n",
        "info": front + f'```{HOSTILE}" onload=x\ncode\n```\n',
        "caption": front + f"```edge-table\ncolumns: [A]\ncaption: '{HOSTILE}\" onload=\"x'\n```\n"
        f"```timing\ncaption: '{HOSTILE}\" onload=\"x'\ncolumns: [A]\n```\n",
        "table": front + f"| a | {HOSTILE} |\n|---|---|\n| {HOSTILE} | b |\n",
        "link": front + '[x](<javascript:alert(1)>) [y](/a "\\" onload=x") [z](<a"onload=x>)',
        "comment": front + f"<!-- --> {HOSTILE} <!-- <?php x ?> <![CDATA[ {HOSTILE} ]]>",
        "image": front + f'![{HOSTILE}" onload="x](dot.svg "{HOSTILE}")',
        "entity": front + "&lt;script&gt;alert(1)&lt;/script&gt; &#60;script&#62;",
        "circuit": front.replace("serial-adder", "sum.yaml").replace(", b: 2", "")
        + "```edge-table\n```\n",
    }[spot]
    text = built(tmp_path, hostile)
    tree: Any = lxml_html.fromstring(text)
    assert tree.xpath("//main//style | //iframe | //object | //embed | //base") == []
    scripts = [element.get("type") for element in tree.xpath("//script")]
    assert scripts == ["application/json", "module"]
    for element in tree.iter(etree.Element):
        for name, value in element.attrib.items():
            assert not name.startswith("on"), (element.tag, name)
            assert not value.strip().lower().startswith("javascript:"), value
    if spot != "link":
        assert "alert(1)" in tree.text_content() or spot in ("info", "image")


def test_a_picture_beside_the_lesson_is_taken_in(tmp_path: Path) -> None:
    (tmp_path / "hut.gif").write_bytes(b"GIF89a" + bytes(7) + b";")
    tree: Any = lxml_html.fromstring(built(tmp_path, LESSON + "\n![the hut](hut.gif)\n"))
    (picture,) = tree.xpath("//main//img")
    assert picture.attrib == {"src": "data:image/gif;base64,R0lGODlhAAAAAAAAADs=", "alt": "the hut"}


def test_a_wrong_lesson_writes_nothing_and_keeps_the_old_page(tmp_path: Path) -> None:
    old = built(tmp_path)
    with pytest.raises(EdgewiseError):
        built(tmp_path, LESSON.replace("S after 12 ==", "S after 11 =="))
    assert (tmp_path / "out" / "rain.html").read_text("utf-8") == old


@pytest.mark.parametrize("broken", ["fsync", "replace"])
def test_a_crash_while_writing_leaves_the_old_page_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    old = built(tmp_path)

    def crash(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os if broken == "fsync" else Path, broken, crash)
    with pytest.raises(KeyboardInterrupt):
        built(tmp_path, LESSON.replace("b: 43", "b: 41"))
    assert [p.name for p in (tmp_path / "out").iterdir()] == ["rain.html"]
    assert (tmp_path / "out" / "rain.html").read_text("utf-8") == old


def test_a_folder_that_cannot_be_made(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(EdgewiseError) as caught:
        page.build(write(tmp_path), tmp_path / "out")
    assert str(caught.value) == f"{tmp_path}/out/rain.html: can't be written: File exists"


def test_a_page_never_overwrites_its_lesson(tmp_path: Path) -> None:
    path = write(tmp_path, name="rain.html")
    with pytest.raises(EdgewiseError) as caught:
        page.build(path, tmp_path)
    assert str(caught.value) == (
        f"{path}: the page would overwrite the lesson; choose another folder"
    )
    assert path.read_text("utf-8") == LESSON


@pytest.mark.browser
def test_in_a_browser_no_request_leaves_and_the_policy_holds(tmp_path: Path, page: Page) -> None:
    built(tmp_path)
    said: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))
    address = (tmp_path / "out" / "rain.html").as_uri()
    page.goto(address)
    assert [url for url in asked if not url.startswith("data:")] == [address]
    assert said == []
    # The style sheet is in force, the shipped typefaces are used, and a foreign script is not.
    assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith('"Source Sans 3"')
    assert page.evaluate("[...document.fonts].filter(f => f.status === 'loaded').length") >= 3
    page.evaluate(
        "() => { const s = document.createElement('script'); s.textContent = 'window.ran = 1';"
        " document.body.append(s); }"
    )
    assert page.evaluate("window.ran") is None
    assert any("Content Security Policy" in text for text in said)


@pytest.mark.browser
@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_in_a_browser_nothing_is_wider_than_the_window(
    tmp_path: Path, page: Page, width: int
) -> None:
    built(tmp_path, LESSON + "\n```\n" + "x" * 300 + "\n```\n\n" + "y" * 200 + "\n")
    page.set_viewport_size({"width": width, "height": 700})
    page.goto((tmp_path / "out" / "rain.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.evaluate(
        "[...document.querySelectorAll('main p, main td, main li')]"
        ".filter(e => parseFloat(getComputedStyle(e).fontSize) < 12).length"
    )
    assert small == 0


@pytest.mark.browser
def test_in_a_browser_the_print_is_small(tmp_path: Path, page: Page) -> None:
    """Unknown bits are hatched with lines; as images they would make it a hundred times larger."""
    built(tmp_path)
    page.goto((tmp_path / "out" / "rain.html").as_uri())
    assert len(page.pdf()) < 1_000_000


@pytest.mark.browser
def test_in_a_browser_tables_scroll_by_keyboard(tmp_path: Path, page: Page) -> None:
    built(tmp_path)
    page.set_viewport_size({"width": 320, "height": 700})
    page.goto((tmp_path / "out" / "rain.html").as_uri())
    box = page.locator(".box:has(.edge-table)").first
    box.focus()
    assert box.evaluate("e => e.scrollWidth > e.clientWidth && e === document.activeElement")
    page.keyboard.press("ArrowRight")
    for _ in range(50):  # scrolling is smooth
        if page.evaluate("document.activeElement.scrollLeft") > 0:
            return
        page.wait_for_timeout(20)
    pytest.fail("the right arrow did not scroll the table")


def test_escaping_is_that_of_the_standard_library(tmp_path: Path) -> None:
    text = built(tmp_path, LESSON.replace("Two rain gauges", "'a < b & c > \"d\"'"))
    assert f"<title>{html.escape('a < b & c > ' + chr(34) + 'd' + chr(34))}</title>" in text


def test_a_build_tells_how_far_it_is(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    path = write(tmp_path)
    with_bar = page.build(
        path, tmp_path / "bar", progress=lambda done, total: told.append((done, total))
    )
    assert told == [(done, len(told)) for done in range(1, len(told) + 1)] != []
    assert with_bar.read_bytes() == page.build(path, tmp_path / "none").read_bytes()
