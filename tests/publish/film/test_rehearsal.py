"""The rehearsal in a real browser: what is shown, which keys are pressed, the cues of them."""

from __future__ import annotations

import http.client
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import urlsplit

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.publish.film import rehearsal, voice
from edgewise.publish.film.pace import Pace
from edgewise.publish.film.take import paced, spoken_of
from tests.publish.film.lessons import TIDE

if TYPE_CHECKING:
    from playwright.sync_api import Page

PAUSES: Final = (0.4, 0.7, 0.5, 0.4, 0.6, 0.3)
"""Seconds between the presses."""


@dataclass(frozen=True)
class Rehearsed:
    """A rehearsal that is served."""

    process: subprocess.Popen[str]
    folder: Path
    address: str

    @property
    def cues(self) -> Path:
        return self.folder / "tide.cues"

    def send(self, body: bytes, method: str = "POST", **headers: str) -> tuple[int, str]:
        """What is answered to somebody who is not the page."""
        where = urlsplit(self.address)
        link = http.client.HTTPConnection(where.netloc, timeout=20)
        link.request(
            method, f"{where.path}cues", body, {"Origin": f"http://{where.netloc}", **headers}
        )
        answer = link.getresponse()
        told = answer.status, answer.read().decode().strip()
        link.close()
        return told


@pytest.fixture
def rehearsed(tmp_path: Path) -> Iterator[Rehearsed]:
    (tmp_path / "tide.md").write_text(TIDE, "utf-8")
    words = [sys.executable, "-u", "-m", "edgewise", "film", "tide.md", "--rehearse", "--no-open"]
    process = subprocess.Popen(words, cwd=tmp_path, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    line = process.stdout.readline()
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/\S+/ rehearses tide\.md; Ctrl-C ends it\n", line)
    yield Rehearsed(process, tmp_path, line.split()[0])
    if process.poll() is None:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=30)


@pytest.mark.browser
def test_presses_become_the_cues_that_the_film_follows(page: Page, rehearsed: Rehearsed) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(
        "window.pressed = [];"
        " addEventListener('keydown', e => e.isTrusted && pressed.push(e.timeStamp), true)"
    )
    page.goto(rehearsed.address)
    page.wait_for_selector("text=Start your recorder")
    assert not page.locator(".stage").is_visible()
    seen = []
    for pause in PAUSES:
        page.keyboard.press("Space")
        seen.append((page.inner_text(".script .said"), page.inner_text(".ruler .now b")))
        time.sleep(pause)
    page.keyboard.press("Space")
    page.wait_for_selector("text=6 cues are in tide.cues.")
    asked = "What will C hold after edge 4?"
    last = "The next two columns follow {each with the carry of the one before}."
    assert seen == [
        ("At the start all registers are empty, and the carry is 0.", "0"),
        ("After three edges both words are in.", "3"),
        (asked, "3"),
        ("1 + 1: the sum bit is 0, the carry > 0.", "4"),
        (last, "5"),
        (last, "6"),
    ]
    found = voice.read_cues(rehearsed.cues.read_text("utf-8"), "tide.cues", 60.0, 6)
    moments = page.evaluate("pressed")
    pressed = [(moment - moments[0]) / 1000 for moment in moments[:-1]]
    assert found.starts == pytest.approx(pressed, abs=0.002)
    rehearsed.process.send_signal(signal.SIGINT)
    told, _ = rehearsed.process.communicate(timeout=30)
    lines = told.splitlines()
    assert re.fullmatch(r"tide\.md -> tide\.cues, 0:\d\d long; planned 0:\d\d", lines[0])
    assert (lines[1], errors) == ("the rehearsal has ended", [])


@pytest.mark.browser
def test_a_press_that_came_too_early_is_taken_back(page: Page, rehearsed: Rehearsed) -> None:
    page.goto(rehearsed.address)
    page.wait_for_selector("text=Start your recorder")
    for key in ("Space", "Space", "ArrowLeft"):
        page.keyboard.press(key)
        time.sleep(0.3)
    assert page.inner_text(".script .times").startswith("1/6 · you 0:0")
    assert page.inner_text(".ruler .now b") == "0"
    page.keyboard.press("Escape")
    page.wait_for_selector("text=Start your recorder")
    assert not rehearsed.cues.exists()


def test_only_the_page_itself_can_write_cues(rehearsed: Rehearsed) -> None:
    whole = b'{"starts": [0, 1, 2, 3, 4, 5], "end": 9}'
    looked = (403, "refused: the preview is only to be looked at")
    assert rehearsed.send(whole, Origin="http://evil.example")[0] == 403
    assert rehearsed.send(whole, Origin="null") == (403, "refused: a request from another site")
    assert rehearsed.send(whole, "PUT") == looked
    assert rehearsed.send(b"x" * (rehearsal.LARGEST + 1)) == (413, "no cues: too long")
    assert rehearsed.send(b"[]") == (400, "no cues: the page sent something else")
    assert not rehearsed.cues.exists()
    assert rehearsed.send(whole)[0] == 200
    assert rehearsed.cues.exists()


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        (b"{", "no cues: the page sent something else"),
        (b"[" * 50_000, "no cues: the page sent something else"),
        (b'{"starts": [0, 1], "end": 2}', "no cues: expected 6 times and an end"),
        (b'{"starts": [1, 2, 3, 4, 5, 6], "end": 9}', "no cues: expected 6 times and an end"),
        (b'{"starts": [0, 2, 3, 4, 5, 1e9], "end": 9}', "no cues: expected 6 times and an end"),
        (
            b'{"starts": [0, 2, 2, 4, 5, 6], "end": 9}',
            "no cues: a time is not behind the one before",
        ),
    ],
)
def test_what_is_no_rehearsal_is_refused(tmp_path: Path, sent: bytes, told: str) -> None:
    path = tmp_path / "tide.md"
    path.write_text(TIDE, "utf-8")
    scenes, _, _ = paced(lesson.check(path), Pace(), tmp_path / "none.times")
    with pytest.raises(EdgewiseError) as wrong:
        rehearsal.cues(spoken_of(scenes), sent, "tide.md")
    assert str(wrong.value) == told
