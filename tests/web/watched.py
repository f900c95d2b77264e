"""A preview in a process of its own, for tests: started, asked, saved into, ended."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page


@dataclass
class Running:
    """A preview in a process of its own."""

    path: Path
    address: str
    process: subprocess.Popen[str]

    @property
    def port(self) -> int:
        return int(self.address.rsplit(":", 1)[1].split("/")[0])

    @property
    def root(self) -> str:
        """The path of the page: the secret of this run."""
        return f"/{self.address.split('/', 3)[3]}"

    def save(self, old: str, new: str) -> None:
        text = self.path.read_text("utf-8")
        assert old in text
        self.path.write_text(text.replace(old, new), "utf-8")

    def get(self, name: str = "", **headers: str) -> tuple[int, str]:
        return self.ask("GET", f"{self.root}{name}", **headers)

    def ask(self, method: str, path: str, **headers: str) -> tuple[int, str]:
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        told = {key.replace("_", "-"): value for key, value in headers.items()}
        link.putrequest(method, path, skip_host="Host" in told)
        for key, value in told.items():
            link.putheader(key, value)
        link.endheaders()
        answer = link.getresponse()
        text = answer.read().decode()
        link.close()
        return answer.status, text

    def building(self) -> float:
        """Seconds that a build has been going on, as a page that joins now is told; or 0."""
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        link.request("GET", f"{self.root}events")
        stream = link.getresponse()
        lines = [stream.readline().decode() for _ in range(4)]
        link.close()
        assert lines[2] == "event: alive\n"
        return float(json.loads(lines[3].removeprefix("data: ")) or 0)

    def state(self) -> dict[str, Any]:
        """What a page that joins now is told first."""
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        link.request("GET", f"{self.root}events")
        line = link.getresponse().readline().decode()
        link.close()
        told: dict[str, Any] = json.loads(line.removeprefix("data: "))
        return told


def started(path: Path, *options: str) -> Running:
    command = [sys.executable, "-m", "edgewise", "watch", str(path), "--no-open", *options]
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )  # fmt: skip
    assert process.stdout is not None
    first = process.stdout.readline()
    found = re.match(r"(http://127\.0\.0\.1:\d+/[\w-]{22}/) shows ", first)
    assert found, first + process.stdout.read()
    return Running(path, found[1], process)


def end(run: Running) -> None:
    run.process.send_signal(signal.SIGINT)
    try:
        run.process.communicate(timeout=10)
    except subprocess.TimeoutExpired:  # pragma: no cover
        run.process.kill()
        run.process.communicate()
        raise


def watched(folder: Path, text: str) -> Iterator[Running]:
    """A preview of a lesson with this text; ended when the test is."""
    path = folder / "tide.md"
    path.write_text(text, "utf-8")
    run = started(path)
    yield run
    end(run)


def opened(page: Page, run: Running) -> list[str]:
    """The page, ready; what the browser complains about is collected."""
    complaints: list[str] = []
    page.on("console", lambda m: complaints.append(m.text) if m.type == "error" else None)
    page.on("pageerror", lambda wrong: complaints.append(str(wrong)))
    page.goto(run.address)
    page.wait_for_selector("html[data-version]")
    page.wait_for_selector(".stage .ruler")
    return complaints
