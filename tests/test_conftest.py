"""The shared test tools: golden files tell the first difference, the browser stays offline."""

from __future__ import annotations

import itertools
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.conftest import compare, first_difference, processor_limit

if TYPE_CHECKING:
    from playwright.sync_api import Page


def test_equal_texts_do_not_differ() -> None:
    assert first_difference("a\nb\n", "a\nb\n") is None


@pytest.mark.parametrize(
    ("expected", "found", "message"),
    [
        ("a\nb\n", "a\nc\n", "line 2\n  golden: 'b\\n'\n  now:    'c\\n'"),
        ("a\n", "a\nb\n", "line 2\n  golden: (end of text)\n  now:    'b\\n'"),
        ("a\n", "a", "line 1\n  golden: 'a\\n'\n  now:    'a'"),
        ("a\r\n", "a\n", "line 1\n  golden: 'a\\r\\n'\n  now:    'a\\n'"),
        ("", "a", "line 1\n  golden: (end of text)\n  now:    'a'"),
    ],
)
def test_the_first_different_line_is_shown(expected: str, found: str, message: str) -> None:
    assert first_difference(expected, found) == message


def test_a_golden_file_is_written_on_request_and_held_to(tmp_path: Path) -> None:
    path = tmp_path / "counter" / "rows.txt"
    compare(path, "0 1\n1 0\n", update=True)
    compare(path, "0 1\n1 0\n", update=False)
    with pytest.raises(pytest.fail.Exception, match=r"rows\.txt, line 2\n"):
        compare(path, "0 1\n1 1\n", update=False)


def test_a_figure_is_held_to_element_by_element(tmp_path: Path) -> None:
    path = tmp_path / "figure.svg"
    figure = '<svg><g class="word"><rect/><text>1<tspan>0</tspan></text></g></svg>\n'
    compare(path, figure, update=True)
    assert path.read_text("utf-8").splitlines() == [
        "<svg>",
        '  <g class="word">',
        "  <rect/>",
        "  <text>1<tspan>0</tspan></text>",
        "  </g></svg>",
    ]
    compare(path, figure, update=False)
    with pytest.raises(pytest.fail.Exception, match=r"figure\.svg, line 3\n"):
        compare(path, figure.replace("<rect/>", "<path/>"), update=False)
    # A line that the figure itself begins is another than one begun for the review.
    with pytest.raises(pytest.fail.Exception, match=r"figure\.svg, line 3\n"):
        compare(path, figure.replace("<rect/>", "\n<rect/>"), update=False)


def test_a_missing_golden_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(pytest.fail.Exception, match=r"no golden file rows\.txt; make golden"):
        compare(tmp_path / "rows.txt", "", update=False)


@pytest.mark.browser
def test_a_page_runs_scripts(page: Page) -> None:
    page.set_content(
        "<output></output><script>document.querySelector('output').textContent = 6 * 7</script>"
    )
    assert page.locator("output").text_content() == "42"


@pytest.mark.browser
def test_a_page_cannot_reach_the_network(page: Page) -> None:
    failed: list[str] = []
    page.on("requestfailed", lambda request: failed.append(request.url))
    # A name reserved for documentation (RFC 2606): nothing is asked for outside all the same.
    page.set_content("<img src='https://example.com/tide.png' onerror='this.title = \"blocked\"'>")
    page.wait_for_selector("img[title=blocked]", state="attached")
    assert failed == ["https://example.com/tide.png"]


def test_processor_time_is_limited_and_sleep_is_not() -> None:
    with processor_limit("a busy test", 0.2):
        time.sleep(0.5)
    message = r"a busy test took more than 0\.2 s of processor time"
    with pytest.raises(pytest.fail.Exception, match=message), processor_limit("a busy test", 0.2):
        any(time.process_time() < 0 for _ in itertools.count())  # never


def test_processor_time_of_children_is_limited() -> None:
    busy = "import time\nwhile time.process_time() < 0.5: pass"
    with pytest.raises(pytest.fail.Exception, match="a test of a command took more than"):  # noqa: SIM117
        with processor_limit("a test of a command", 0.3):
            subprocess.run([sys.executable, "-c", busy], check=True)
