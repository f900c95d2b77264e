"""The preview, driven in a real browser: edits, mistakes, many saves, and who is refused."""

from __future__ import annotations

import http.client
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import serve
from edgewise.errors import EdgewiseError
from edgewise.publish.preview.preview import Preview
from tests.web.watched import Running, end, opened, started, watched

if TYPE_CHECKING:
    from playwright.sync_api import Page

FILL: Final = "".join(f"Paragraph {i} is here to be scrolled past.\n\n" for i in range(40))
LESSON: Final = f"""\
---
title: Two tide gauges
design: serial-adder
with: {{n: 6}}
operands: {{a: 22, b: 43}}
---
The first gauge told `? a` and the second `? b`.

```stage
columns: [A, B, C, S]
```
```say
rows: 7..8
Watch the carry.
```
```say
Ask before you step.
```

{FILL}
## The sum

S holds `? S after end`, with the carry `? value(S after end) + 64 * value(C after end)`.

```claim
S after 12 == (a + b) mod 64    for all a, b
```

The last words.
"""


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    yield from watched(tmp_path, LESSON)


# ---------------------------------------------------------------- in the browser


@pytest.mark.browser
def test_an_edit_shows_and_row_and_scroll_stay(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    page.locator(".ruler .mark").nth(8).click()
    page.wait_for_url("**#row=8")
    page.evaluate("document.querySelector('edgewise-stage').own = 'the same element'")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    before = page.evaluate("scrollY")
    assert before > 500
    running.save("The last words.", "The last words, mended.")
    page.wait_for_selector("text=The last words, mended.")
    assert abs(page.evaluate("scrollY") - before) < 60
    # The stage is untouched: not even made anew.
    assert page.evaluate("document.querySelector('edgewise-stage').own") == "the same element"
    running.save("operands: {a: 22, b: 43}", "operands: {a: 21, b: 43}")
    page.wait_for_selector("main p:has-text('The first gauge told 21')")
    assert page.evaluate("document.querySelector('edgewise-stage').own") is None
    assert page.evaluate("document.querySelector('edgewise-stage').stage.row") == 8
    assert page.locator(".ruler .now b").inner_text() == "8"
    assert "a = 21" in page.locator(".facts").inner_text().replace("\u00a0", " ")
    assert page.locator("text=S holds 000000, with the carry 64").count() == 1
    # What lies above the reader grew; the reader stays where she was.
    seen = "document.querySelector('main > p:last-of-type').getBoundingClientRect().top"
    top = page.evaluate(seen)
    running.save("The first gauge told", "At the pier.\n\nOnce more.\n\nThe first gauge told")
    page.wait_for_selector("text=Once more.")
    assert abs(page.evaluate(seen) - top) < 3
    assert complaints == []


@pytest.mark.browser
def test_an_error_stands_at_its_line_and_goes_when_mended(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    running.save("S after 12 == (a", "S after 11 == (a")
    page.wait_for_selector(".fault")
    fault = page.locator(".fault [role=alert]")
    line = LESSON.splitlines().index("S after 12 == (a + b) mod 64    for all a, b") + 1
    assert fault.inner_text() == (
        f'Line {line}, column 1: the claim "S after 11 == (a + b) mod 64" is false for a=0, b=1:'
        " S after 11 is 000010 (2), expected 1. It holds from edge 12 on."
    )
    # It stands before the claim to which it belongs, and the last good page is all there.
    following = "document.querySelector('.fault').nextElementSibling.className"
    assert page.evaluate(following) == "claims"
    assert page.locator("text=checked on all 4,096 operand pairs").count() == 1
    assert (
        page.locator(".standing")
        .inner_text()
        .startswith("An error; the page shows the last version that was right.")
    )
    # Lines above it move it; it still stands at its claim.
    running.save("The first gauge told", "A new line.\n\nThe first gauge told")
    page.wait_for_selector(f".fault:has-text('Line {line + 2},')")
    assert page.evaluate(following) == "claims"
    running.save("operands: {a: 22", "operands: {a: 99")
    page.wait_for_selector(".fault:has-text('operand a is 99')")
    running.save("operands: {a: 99", "operands: {a: 22")
    running.save("S after 11 == (a", "S after 12 == (a")
    page.wait_for_selector("text=A new line.")
    page.wait_for_function("!document.querySelector('.fault')")
    assert page.locator(".standing").is_hidden()
    assert complaints == []


@pytest.mark.browser
def test_twenty_edits_five_of_them_mistakes(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    page.keyboard.press("Tab")
    page.locator(".ruler").focus()
    page.keyboard.press("End")
    for number in range(20):
        wrong = number % 4 == 3
        value = 100 + number if wrong else 20 + number
        text = re.sub(r"a: \d+", f"a: {value}", running.path.read_text("utf-8"))
        running.path.write_text(text, "utf-8")
        if wrong:
            page.wait_for_selector(f".fault:has-text('operand a is {value}')")
        else:
            page.wait_for_selector(f"main p:has-text('The first gauge told {value} ')")
            assert page.locator(".fault").count() == 0
        assert page.locator(".ruler .now b").inner_text() == "12"
    assert complaints == []


@pytest.mark.browser
def test_many_quick_saves_leave_the_last_state(page: Page, running: Running) -> None:
    opened(page, running)
    for number in range(200):
        text = LESSON.replace("The last words.", f"Save number {number + 1}.")
        if number % 3:  # as editors save: a new file put in the place of the old one
            beside = running.path.with_suffix(".part")
            beside.write_text(text, "utf-8")
            beside.replace(running.path)
        else:
            running.path.write_text(text, "utf-8")
    page.wait_for_selector("text=Save number 200.", timeout=20_000)
    assert page.locator("text=/^Save number/").count() == 1
    assert page.locator("main > p").count() == 1 + 40 + 2
    assert running.path.read_text("utf-8").endswith("Save number 200.\n")


@pytest.mark.browser
def test_a_lesson_broken_from_the_start_shows_why(page: Page, tmp_path: Path) -> None:
    path = tmp_path / "tide.md"
    path.write_text("---\ntitle: Tide\ndesign: serial-ader\n---\n`? a`\n", "utf-8")
    run = started(path)
    page.goto(run.address)
    page.wait_for_selector(".fault")
    assert page.locator(".fault").inner_text() == (
        "Line 3, column 9: the catalogue has no design serial-ader; did you mean serial-adder?"
    )
    run.save("design: serial-ader", "design: serial-adder\noperands: {a: 3, b: 4}")
    page.wait_for_selector(".stage .ruler")
    assert page.locator(".fault").count() == 0
    end(run)


@pytest.mark.browser
def test_a_deleted_lesson_says_so_and_comes_back(page: Page, running: Running) -> None:
    opened(page, running)
    running.path.unlink()
    page.wait_for_selector(".fault")
    assert page.locator(".fault").inner_text() == "can't be read: No such file or directory"
    assert page.locator("text=The last words.").count() == 1
    running.path.write_text(LESSON.replace("The last words.", "Back again."), "utf-8")
    page.wait_for_selector("text=Back again.")
    assert page.locator(".fault").count() == 0


@pytest.mark.browser
def test_markup_in_a_lesson_is_no_markup_here_either(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    evil = "<img src=x onerror='document.title=1'><!--part--> `? nothing<b>`"
    running.save("The last words.", evil)
    page.wait_for_selector(".fault")
    assert "<b>" in page.locator(".fault").inner_text()
    running.save("`? nothing<b>`", "&lt;!--part--> all")
    page.wait_for_selector("text=/all$/")
    assert page.locator("main img").count() == 0
    assert page.title() == "Two tide gauges"
    page.reload()
    page.wait_for_selector("html[data-version]")
    assert page.locator("main img").count() == 0
    assert complaints == []


@pytest.mark.browser
def test_projecting_keys_and_notes(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    page.locator(".to-project").click()
    page.wait_for_selector(".stage.projected")
    assert page.evaluate(
        "!document.fullscreenElement || document.fullscreenElement.matches('.stage.projected')"
    )
    for _ in range(7):
        page.keyboard.press("ArrowRight")
    assert (
        page.locator(".projected .when").inner_text()
        == "After edge 7, with the inputs of phase add"
    )
    page.keyboard.press("b")
    assert page.locator(".stage.projected.dark").count() == 1
    page.keyboard.press("v")
    assert page.locator(".projected .timing").is_visible()
    assert not page.locator(".projected .picture").is_visible()
    page.keyboard.press("v")
    page.keyboard.press("v")
    assert page.locator(".projected .picture").is_visible()
    with page.expect_popup() as popup:
        page.keyboard.press("n")
    notes = popup.value
    notes.wait_for_selector(".when")
    assert notes.locator(".when").inner_text() == "After edge 7, with the inputs of phase add"
    assert notes.locator(".note").all_inner_texts() == ["Watch the carry.", "Ask before you step."]
    page.keyboard.press("End")
    notes.wait_for_selector(".when:has-text('edge 12')")
    assert notes.locator(".note").all_inner_texts() == ["Ask before you step."]
    notes.keyboard.press("Home")
    page.wait_for_selector(".projected .when:has-text('At the start')")
    page.bring_to_front()
    page.keyboard.press("Escape")
    page.wait_for_selector(".stage:not(.projected)")
    assert complaints == []


# ---------------------------------------------------------------- who is answered


def test_only_this_page_itself_is_answered(running: Running) -> None:
    port = running.port
    assert running.get()[0] == 200
    assert running.get(Host=f"localhost:{port}")[0] == 200
    for host in ("evil.example", f"evil.example:{port}", "127.0.0.1", f"127.0.0.1.evil:{port}", ""):
        status, text = running.get(Host=host)
        assert (status, text) == (
            403,
            "refused: the preview answers only to its own address on this machine\n",
        ), host
    origins = ("http://evil.example", "null", f"https://127.0.0.1:{port}", "http://127.0.0.1:1")
    for origin in origins:
        assert running.get(Origin=origin) == (403, "refused: a request from another site\n")
        assert running.get("events", Origin=origin)[0] == 403
    assert running.get(Origin=f"http://127.0.0.1:{port}")[0] == 200
    for site in ("cross-site", "same-site"):
        assert running.get(Sec_Fetch_Site=site)[0] == 403
    assert running.get(Sec_Fetch_Site="same-origin")[0] == 200
    for method in ("POST", "PUT", "OPTIONS", "DELETE"):
        assert running.ask(method, running.root) == (
            403,
            "refused: the preview is only to be looked at\n",
        )
    for name in ("tide.md", "../tide.md", "%2e%2e/tide.md", "preview.js/../tide.md", "/"):
        assert running.get(name)[0] == 404


def test_it_listens_on_this_machine_only(running: Running) -> None:
    listening = Path("/proc/net/tcp").read_text("utf-8")
    state = [line.split() for line in listening.splitlines()[1:]]
    own = [s[1] for s in state if s[1].endswith(f":{running.port:04X}") and s[3] == "0A"]
    assert own == [f"0100007F:{running.port:04X}"]  # 127.0.0.1, in the byte order of the machine


def test_another_sites_page_can_read_nothing(page: Page, running: Running, tmp_path: Path) -> None:
    other = tmp_path / "other.html"
    other.write_text("<p>other</p>", "utf-8")
    page.goto(other.as_uri())
    asked = f"""async () => {{
      const tried = async (how) => {{
        try {{ return (await fetch('{running.address}', how)).type; }} catch {{ return 'refused'; }}
      }};
      return [await tried({{}}), await tried({{mode: 'no-cors'}})];
    }}"""
    assert page.evaluate(asked) == ["refused", "refused"]


# ---------------------------------------------------------------- messages


def told(*arguments: str) -> tuple[int, str]:
    command = [sys.executable, "-m", "edgewise", *arguments]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    return done.returncode, done.stderr


def test_a_port_in_use_is_one_clear_message(tmp_path: Path) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        code, text = told("watch", str(path), "--no-open", "--port", str(port))
    assert code == 2
    assert text == (
        f"port {port} is in use by another program; choose another with --port, or leave it out\n"
    )


def test_a_missing_lesson_is_one_clear_message(tmp_path: Path) -> None:
    path = tmp_path / "none.md"
    code, text = told("watch", str(path), "--no-open")
    assert (code, text) == (2, f"{path}: can't be read: No such file or directory\n")


def test_a_port_that_is_not_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(socket.socket, "bind", refused, raising=False)
    with pytest.raises(EdgewiseError) as wrong:
        serve.listen(80)
    assert str(wrong.value) == "port 80 can't be used: Permission denied"


def test_a_folder_that_is_not_writable_does_not_matter(tmp_path: Path) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    before = sorted(tmp_path.iterdir())
    run = started(path)
    run.get()
    end(run)
    assert sorted(tmp_path.iterdir()) == before  # nothing was written beside the lesson


def test_ctrl_c_ends_it_at_once(running: Running) -> None:
    link = http.client.HTTPConnection("127.0.0.1", running.port, timeout=20)
    link.request("GET", f"{running.root}events")
    link.getresponse().readline()
    start = time.perf_counter()
    running.process.send_signal(signal.SIGINT)
    assert running.process.wait(timeout=10) == 0
    assert time.perf_counter() - start < 4
    link.close()


# ---------------------------------------------------------------- quickly


def test_a_rebuild_takes_less_than_three_tenths_of_a_second(tmp_path: Path) -> None:
    demo = Path(__file__).parents[1] / "examples" / "rain-gauges.md"
    text = demo.read_text("utf-8")
    path = tmp_path / "rain-gauges.md"
    path.write_text(text, "utf-8")
    preview = Preview(path)
    assert preview.build().faults == ()
    taken = []
    for number in range(8):  # prose, then operands, and so on
        text = re.sub(r"b: \d+", f"b: {43 - number // 2}", text) + f"\nMore: {number}.\n"
        path.write_text(text, "utf-8")
        state = preview.build()
        taken.append(state.seconds)
    assert sorted(taken)[len(taken) // 2] < 0.3
