"""A lesson hour in front of a class: forty saves, and all that can go wrong meanwhile.

At no moment may the page be older than the last good save without saying so. A recorder in the
page notes whatever it shows and says, at every change; afterwards each note is held against the
saves.
"""

from __future__ import annotations

import os
import signal
import struct
import time
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

from tests.web.watched import Running, end, opened, started

if TYPE_CHECKING:
    from playwright.sync_api import Page

GRACE: Final = 3.0
"""Seconds in which a save must be noticed; a busy machine needs more than the usual tenth."""
LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 4}
operands: {a: 9, b: 6}
---
Save number NUMBER.

![the pier](pier.png)

The first gauge told `? a`.

```stage
columns: [A, B, C, S]
```
```claim
S after 8 == (a + b) mod 16    for all a, b
```
"""
BROKEN: Final[tuple[tuple[str, str, str], ...]] = (
    ("title: Two tide gauges", 'title: "Two tide gauges', "Line 2"),
    ("title: Two tide gauges", 'title: "Two \\q gauges"', "Line 2"),
    ("design: serial-adder", "design: serial-ader", "did you mean serial-adder?"),
    ("a: 9", "a: 99", "operand a is 99"),
    ("S after 8", "S after 7", "is false for a="),
    ("`? a`", "`? nothing`", "nothing"),
    ("columns: [A, B, C, S]", "columns: [A, Q]", "Q"),
    ("(pier.png)", f"({'p' * 300}.png)", "can't be read: File name too long"),
    ("for all a, b", "for all a, b in ((((((", "found 'in'; expected , or for or the end"),
    (LESSON, "", "the lesson has no front matter; begin it with a line ---"),
)
"""What is replaced, by what, and what the page must then say."""
RECORDER: Final = """() => {
  window.noted = [];
  const note = () => {
    const shown = /Save number (\\d+)/.exec(document.querySelector("main").textContent);
    const standing = document.querySelector(".standing");
    const said = standing.hidden ? "" : standing.textContent;
    const last = noted[noted.length - 1];
    const now = [shown ? Number(shown[1]) : -1, said];
    if (!last || last[1] !== now[0] || last[2] !== now[1]) noted.push([Date.now() / 1000, ...now]);
  };
  new MutationObserver(note).observe(document.body, {subtree: true, childList: true,
    attributes: true, characterData: true});
  note();
}"""


def picture() -> bytes:
    """A PNG of one grey pixel (ISO/IEC 15948)."""
    chunks = (
        (b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)),
        (b"IDAT", zlib.compress(b"\0\x80")),
        (b"IEND", b""),
    )
    made = b"\x89PNG\r\n\x1a\n"
    for name, body in chunks:
        made += (
            struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        )
    return made


@dataclass
class Hour:
    """The teacher, the page, and when which save was made."""

    run: Running
    page: Page
    number: int = 0
    saves: list[tuple[float, int, bool]] = field(default_factory=list)
    """Time, number, and whether it is right."""

    def save(self, old: str = "", new: str = "", *, good: bool = True) -> None:
        self.number += 1
        text = LESSON.replace(old, new) if old else LESSON
        self.saved(good=good)
        self.run.path.write_text(text.replace("NUMBER", str(self.number)), "utf-8")

    def saved(self, *, good: bool) -> None:
        self.saves.append((time.time(), self.number, good))

    def shows(self) -> None:
        """Wait until the page shows the last save, and says nothing else."""
        self.page.wait_for_selector(f"text=Save number {self.number}.", timeout=60_000)
        self.page.wait_for_selector(".standing[hidden]", state="attached", timeout=60_000)
        assert self.page.locator(".fault").count() == 0

    def says(self, words: str) -> None:
        """Wait until the page says this, above the last good save."""
        faults = self.page.locator(".fault", has_text=words)
        faults.first.wait_for(timeout=60_000)
        told = self.page.locator(".standing").inner_text()
        assert "the page shows the last version that was right." in told
        good = max(number for _, number, right in self.saves if right)
        assert self.page.locator(f"text=Save number {good}.").count() == 1
        assert self.page.locator(".stage .ruler").count() == 1


@pytest.fixture
def hour(tmp_path: Path, page: Page) -> Iterator[Hour]:
    folder = tmp_path / "lesson"
    folder.mkdir()
    (folder / "pier.png").write_bytes(picture())
    path = folder / "tide.md"
    path.write_text(LESSON.replace("NUMBER", "0"), "utf-8")
    run = started(path)
    opened(page, run)
    page.evaluate(RECORDER)
    hour = Hour(run, page)
    hour.saved(good=True)
    yield hour
    end(run)


def silent_and_old(noted: list[list[Any]], saves: list[tuple[float, int, bool]]) -> list[str]:
    """Each moment at which the page was older than the last good save, or wrong, and silent.

    Examples
    --------
    >>> saves = [(0.0, 0, True), (10.0, 1, True)]
    >>> silent_and_old([[1.0, 0, ""], [10.2, 0, "Building"], [10.5, 1, ""]], saves)
    []
    >>> silent_and_old([[1.0, 0, ""], [20.0, 1, ""]], saves)
    ['save 1 was not noticed for 10.0 s']
    """
    found = []
    ends = [at for at, *_ in noted[1:]] + [time.time() if len(saves) > 2 else noted[-1][0]]
    for (start, shown, said), stop in zip(noted, ends, strict=True):
        if said:
            continue
        for at, number, good in saves:
            late = stop - max(at, start)
            newer = (good and number > shown) or (not good and number >= shown and number > 0)
            later = any(n > number and t <= start for t, n, g in saves if g and n <= shown)
            if at < stop and newer and not later and late > GRACE:
                found.append(f"save {number} was not noticed for {late:.1f} s")
    return found


@pytest.mark.browser
@pytest.mark.slow
@pytest.mark.timeout(600)
def test_a_lesson_hour(hour: Hour) -> None:
    breakages = iter(BROKEN)
    happenings: dict[int, Callable[[Hour], None]] = {
        7: stdout_closed,
        15: picture_deleted,
        23: folder_renamed,
        31: worker_killed,
    }
    for number in range(1, 41):
        if number % 4 == 0:
            old, new, words = next(breakages)
            hour.save(old, new, good=False)
            hour.says(words)
            continue
        hour.save()
        if number % 4 != 1:  # now and then the next save comes before the page is there
            hour.shows()
        if number in happenings:
            happenings[number](hour)
    hour.save()
    hour.shows()
    assert len([1 for *_, good in hour.saves if not good]) >= 10
    noted = hour.page.evaluate("noted")
    assert len(noted) > 60
    assert silent_and_old(noted, hour.saves) == []


def stdout_closed(hour: Hour) -> None:
    """The cable is pulled: nobody reads what `watch` prints any more."""
    assert hour.run.process.stdout is not None
    hour.run.process.stdout.close()
    hour.save()
    hour.shows()
    told = "Note: the terminal takes no more lines (Broken pipe); all that is said stands here"
    hour.page.wait_for_selector(f"text={told}")


def picture_deleted(hour: Hour) -> None:
    file = hour.run.path.with_name("pier.png")
    hour.saved(good=False)
    file.unlink()
    hour.says("there is no picture pier.png beside the lesson")
    file.write_bytes(picture()[:40])
    hour.says("the picture pier.png is damaged: the file stops in the middle;")
    file.write_bytes(picture())
    hour.saved(good=True)
    hour.shows()


def folder_renamed(hour: Hour) -> None:
    folder = hour.run.path.parent
    hour.saved(good=False)
    folder.rename(folder.with_name("elsewhere"))
    hour.says("can't be read: No such file or directory")
    folder.with_name("elsewhere").rename(folder)
    hour.saved(good=True)
    hour.shows()
    hour.save()
    hour.shows()


def worker_killed(hour: Hour) -> None:
    """The process that builds is gone, as under a memory limit."""
    listed = Path(f"/proc/{hour.run.process.pid}/task/{hour.run.process.pid}/children")
    for pid in map(int, listed.read_text("ascii").split()):
        if b"edgewise.publish.preview.worker" in Path(f"/proc/{pid}/cmdline").read_bytes():
            os.kill(pid, signal.SIGKILL)
    hour.save(good=False)
    hour.says("the build ended without an answer (SIGKILL)")
    hour.save()
    hour.shows()


@pytest.mark.browser
def test_a_server_that_stops_answering_is_told(hour: Hour) -> None:
    """Stopped, not ended: the connection stays, and nothing comes any more."""
    os.kill(hour.run.process.pid, signal.SIGSTOP)
    try:
        hour.page.wait_for_selector("text=The preview does not answer: this page may be old.")
    finally:
        os.kill(hour.run.process.pid, signal.SIGCONT)
    hour.save()
    hour.shows()


@pytest.mark.browser
def test_a_server_that_is_gone_is_told(tmp_path: Path, page: Page) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON.replace("![the pier](pier.png)", ""), "utf-8")
    run = started(path)
    opened(page, run)
    run.process.kill()
    run.process.communicate()
    page.wait_for_selector("text=The preview has ended, or lost its server")


@pytest.mark.browser
def test_what_a_page_cannot_take_in_is_told(hour: Hour) -> None:
    hour.page.evaluate(
        "() => { Element.prototype.insertBefore = () => { throw new Error('tide'); }; }"
    )
    hour.save()
    hour.page.wait_for_selector(
        "text=This page could not take in the last save (Error: tide); reload it."
    )
