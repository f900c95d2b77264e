"""Reading a description in a process of its own, with limits; a description is data, never run."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Final

from edgewise.errors import (
    CircuitError,
    EdgewiseError,
    Message,
    Place,
    TextError,
    nearest,
    raise_all,
)
from edgewise.hdl import front
from edgewise.hdl.netlist import Module, module
from edgewise.hdl.sources import Sources
from edgewise.words.messages import ENGLISH, Words

SECONDS: Final = 10
"""Processor time for one description."""
MEMORY: Final = 2_000_000_000
"""Bytes of its process."""
FILE: Final = 50_000_000
"""Bytes of a file that it writes."""
_SAID: Final = re.compile(
    r"(?P<file>[^\s:]+):(?P<line>\d+): (?P<level>ERROR|Warning): (?P<text>.*)"
)
_GHDL: Final = re.compile(r"(?P<file>[^\s:]+):(?P<line>\d+):(?P<column>\d+): ?(?P<text>.*)")
_ADVICE: Final = re.compile(r" \(ignore with '[^']*'\)| \(use --\w+\)| \[-W[\w-]+\]")


@dataclass(frozen=True, slots=True)
class Remark:
    """Something about the text that does not hinder its being read.

    Parameters
    ----------
    what : str
        ``blocking``, ``sensitivity``, ``truncation``, ``unused``, ``gated``, ``undriven``.
    place : Place
    name : str
        Of what it is about; or the reader's own words.
    """

    what: str
    place: Place
    name: str

    def said(self, words: Words = ENGLISH) -> str:
        """In words."""
        return words(f"hdl-{self.what}", name=self.name)


@dataclass(frozen=True, slots=True)
class Elaborated:
    """A description that was read.

    Parameters
    ----------
    module : Module
    remarks : tuple of Remark
    """

    module: Module
    remarks: tuple[Remark, ...]


def elaborated(sources: Sources, top: str = "", near: str = "") -> Elaborated:
    """Read a description.

    Parameters
    ----------
    sources : Sources
    top : str
        The outermost module; else the only one with ports that no other uses.
    near : str
        That one is preferred if it is called so.

    Raises
    ------
    EdgewiseError or Problems
        What is wrong with it, each with its place; a limit; a reader that is not installed.
    """
    _refuse_missing(sources)
    with tempfile.TemporaryDirectory(prefix="edgewise-hdl-") as folder:
        return _Job(sources, Path(folder), top, near).done()


def _refuse_missing(sources: Sources) -> None:
    place = Place(sources.file)
    if find_spec("pyosys") is None or find_spec("pyslang") is None:
        raise EdgewiseError(Message("hdl-extra"), place)
    if sources.vhdl and shutil.which("ghdl") is None:
        raise EdgewiseError(Message("vhdl-program"), place)


class _Job:
    """One reading, in a folder of its own."""

    def __init__(self, sources: Sources, folder: Path, top: str, near: str) -> None:
        self.sources, self.folder, self.top = sources, folder, top
        # Names that a command line can't misunderstand; what is included keeps its own.
        self.names = {
            (name if number else f"main{Path(name).suffix.lower()}"): name
            for number, name in enumerate(sources.texts)
        }
        for name, own in self.names.items():
            (folder / name).write_text(sources.texts[own], "utf-8")
        job = {
            "files": list(self.names),
            "top": top.lower() if sources.vhdl else top,
            "near": near,
            "vhdl": sources.vhdl,
            "seconds": SECONDS,
            "memory": MEMORY,
            "file": FILE,
        }
        (folder / "job.json").write_text(json.dumps(job), "utf-8")

    def done(self) -> Elaborated:
        """What came of it."""
        code = self._run()
        self.found = self._read("found.json") or {}
        if not self.found.get("top") and "among" in self.found:
            raise_all(self._said("ERROR"))
            raise self._no_top()
        cells = self._read("cells.json") if code == 0 else None
        errors = list(self._said("ERROR"))
        if cells is None or errors:
            raise_all(errors)
            raise self._failed(code)
        names = self.found.get("names", {})
        ports = {
            names.get(name, name): Place(self.sources.file, *at)
            for name, at in self.found.get("ports", {}).items()
        }
        try:
            made = module(cells, self.found["top"], self._place, names, ports)
        except EdgewiseError as wrong:
            raise wrong.placed(Place(self.sources.file)) from None
        return Elaborated(made, tuple(self._remarks()))

    def _run(self) -> int:
        """Run the reader; its exit code, which is negative for a signal."""
        command = [sys.executable, "-I", str(Path(front.__file__))]
        keep = {"PATH": os.environ.get("PATH", os.defpath), "LC_ALL": "C.UTF-8"}
        with subprocess.Popen(  # noqa: S603  # our own script
            command,
            cwd=self.folder,
            env=keep,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        ) as process:
            try:
                return process.wait(6 * SECONDS)
            except subprocess.TimeoutExpired:
                return -signal.SIGXCPU
            finally:
                if process.poll() is None:
                    os.killpg(process.pid, signal.SIGKILL)

    def _read(self, name: str) -> dict[str, Any] | None:
        try:
            read: dict[str, Any] = json.loads((self.folder / name).read_text("utf-8"))
        except (OSError, ValueError, RecursionError):
            return None
        return read

    def _no_top(self) -> EdgewiseError:
        among: list[str] = self.found["among"]
        what = "entity" if self.sources.vhdl else "module"
        place = Place(self.sources.file)
        if not among:
            return TextError(Message("top-none", what=what), place)
        if self.top:
            return TextError(
                Message(
                    "top-unknown", what=what, name=self.top, suggestion=nearest(self.top, among)
                ),
                place,
            )
        return TextError(Message("top-which", what=what, names=", ".join(among[:8])), place)

    def _failed(self, code: int) -> EdgewiseError:
        place = Place(self.sources.file)
        if code in (-signal.SIGXCPU, -signal.SIGKILL):
            told = Message("description-slow", seconds=SECONDS)
        elif code == -signal.SIGXFSZ:
            told = Message("description-circuit-large")
        else:
            told = Message("description-unmade")
        return CircuitError(told, place)

    def _place(self, name: str, line: int, column: int = 0) -> Place:
        """A place as its author knows it."""
        places: list[list[int]] = self.found.get("places", [])
        if name == "made.v":
            line, column = places[line - 1] if 0 < line <= len(places) else (0, 0)
            return Place(self.sources.file, line, column)
        name = Path(name).name
        return self.sources.place(self.names.get(name, name), line, column)

    def _lines(self) -> Iterator[re.Match[str]]:
        try:
            log = (self.folder / "log.txt").read_text("utf-8", "replace")
        except OSError:
            return
        for line in log.splitlines():
            pattern = _GHDL if self.sources.vhdl and "ERROR:" not in line else _SAID
            if (one := pattern.match(line)) is not None:
                yield one

    def _said(self, level: str) -> Iterator[EdgewiseError]:
        """What the reader found wrong."""
        for one in self._lines():
            if one["text"].startswith("("):
                continue  # more on the line before
            text = _ADVICE.sub("", one["text"]).replace("infered", "inferred")
            if one.re is _GHDL and (self.folder / "made.v").exists():
                continue  # warnings on its way
            if one.re is _GHDL:
                yield TextError(
                    text, self._place(one["file"], int(one["line"]), int(one["column"]))
                )
            elif one["level"] == level:
                yield TextError(text, self._place(one["file"], int(one["line"])))

    def _remarks(self) -> Iterator[Remark]:
        main = next(iter(self.names))
        for one in self.found.get("remarks", []):
            yield Remark(one["what"], self._place(main, one["line"]), str(one["name"]))
        for said in self._lines():
            if said.re is _SAID and "truncates" in said["text"] and not self.sources.vhdl:
                text = _ADVICE.sub("", said["text"])
                yield Remark("truncation", self._place(said["file"], int(said["line"])), text)
