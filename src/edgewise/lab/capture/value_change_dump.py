"""A value change dump read (IEEE 1364-2005, clause 18): bounded, and never believed.

The four-state form is read: ``$var`` of any type, scalars and vectors, real numbers passed over.
Several variables may have one identifier; a variable of several bits is as many channels.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from edgewise.bits import Bit, X
from edgewise.errors import Fact, Message, Place, TextError
from edgewise.lab.capture.recording import (
    LONGEST_NAME,
    MOST_CHANGES,
    MOST_CHANNELS,
    Recording,
    recording,
)

_BITS: Final = {"0": 0, "1": 1, "x": X, "X": X, "z": X, "Z": X}
_TOKEN: Final = re.compile(r"\S+")
_RANGE: Final = re.compile(r"(?P<name>.*?)\s*\[(?P<high>\d{1,6})(:(?P<low>\d{1,6}))?\]")
_NUMBER: Final = re.compile(r"[0-9]{1,18}")
_SCALE: Final = re.compile(r"(1|10|100)\s*(s|ms|us|ns|ps|fs)")
_SKIPPED: Final = ("$comment", "$date", "$version")


def read(text: str, path: Path) -> Recording:
    """Read a dump.

    Raises
    ------
    TextError
        What is no dump, and one that is too large, with the line.

    Examples
    --------
    >>> head = "$timescale 1 ns $end $var wire 2 ! S [1:0] $end $enddefinitions $end"
    >>> found = read(head + " #0 b01 ! #10 b1x !", Path("tide.vcd"))
    >>> [(one.name, one.times, one.bits) for one in found.channels]
    [('S(1)', (0, 10), (0, 1)), ('S(0)', (0, 10), (1, 2))]
    """
    return _Reader(text, path).recording()


class _Reader:
    """Token by token; a token's line is counted only where it is needed."""

    def __init__(self, text: str, path: Path) -> None:
        self.text, self.path = text, path
        self.at = 0
        self.tokens = _TOKEN.finditer(text)
        self.unit = ""
        self.codes: dict[str, list[tuple[str, ...]]] = {}
        self.changes: dict[str, list[tuple[int, Bit]]] = {}
        self.count = 0

    def wrong(self, message: str, /, **facts: Fact) -> TextError:
        """An error at the token read last, as a message of the commands."""
        line = self.text.count("\n", 0, self.at) + 1
        return TextError(Message(message, **facts), Place(str(self.path), line))

    def token(self) -> str | None:
        """The next token."""
        found = next(self.tokens, None)
        if found is None:
            return None
        self.at = found.start()
        return found[0]

    def until_end(self, section: str) -> list[str]:
        """The tokens up to ``$end``."""
        found: list[str] = []
        while (token := self.token()) != "$end":
            if token is None:
                raise self.wrong("vcd-open", section=section)
            if section not in _SKIPPED:
                found.append(token)
                if len(found) > 64:
                    raise self.wrong("vcd-words-many", section=section, most=64)
        return found

    def recording(self) -> Recording:
        """The whole file."""
        self._header()
        time, end = 0, 0
        while (token := self.token()) is not None:
            if token[0] == "#":
                time = self._time(token, time)
                end = max(end, time)
            elif token in _SKIPPED:
                self.until_end(token)
            elif token[0] != "$":
                self._change(token, time)
        return recording(self.changes, end, self.unit)

    def _header(self) -> None:
        while (token := self.token()) != "$enddefinitions":
            if token is None:
                raise self.wrong("vcd-no-dump")
            if token in ("$scope", "$upscope"):
                self.until_end(token)
            elif token == "$timescale":  # noqa: S105
                scale = " ".join(self.until_end(token))
                if not _SCALE.fullmatch(scale):
                    raise self.wrong("vcd-timescale", found=repr(scale[:40]))
                self.unit = scale
            elif token == "$var":  # noqa: S105
                self._variable(self.until_end(token))
            elif token[0] == "$":
                self.until_end(token)
            else:
                raise self.wrong("vcd-section", found=repr(token[:40]))
        self.until_end("$enddefinitions")
        if not self.codes:
            raise self.wrong("vcd-no-variable")

    def _variable(self, words: list[str]) -> None:
        if len(words) < 4 or not _NUMBER.fullmatch(words[1]):
            raise self.wrong("vcd-variable", found=repr(" ".join(words)[:60]))
        kind, size, code = words[0], int(words[1]), words[2]
        name = " ".join(words[3:])[:LONGEST_NAME]
        if kind == "real":
            self.codes.setdefault(code, [])
            return
        if not 0 < size <= MOST_CHANNELS - len(self.changes):
            raise self.wrong("vcd-bits-many", name=name, count=size, most=MOST_CHANNELS)
        bits = tuple(dict.fromkeys(_bits_of(name, size)))
        if any(bit in self.changes for bit in bits):
            bits = tuple(f"{bit} #{len(self.changes)}" for bit in bits)
        self.codes.setdefault(code, []).append(bits)
        for bit in bits:
            self.changes[bit] = []

    def _time(self, token: str, before: int) -> int:
        if not _NUMBER.fullmatch(token[1:]):
            raise self.wrong("vcd-time", found=repr(token[:40]))
        time = int(token[1:])
        if time < before:
            raise self.wrong("vcd-time-back", before=before, time=time)
        return time

    def _change(self, token: str, time: int) -> None:
        first = token[0]
        if first in "bBrR":
            code = self.token() or ""
            value = token[1:]
        else:
            code, value = token[1:], first
        if code not in self.codes:
            raise self.wrong("vcd-undeclared", found=repr(token[:40]), code=repr(code[:20]))
        if first in "rR":
            return
        if not value or any(digit not in _BITS for digit in value):
            raise self.wrong("vcd-digits", found=repr(token[:40]))
        for bits in self.codes[code]:
            self.count += len(bits)
            if self.count > MOST_CHANGES:
                raise self.wrong("vcd-changes-many", most=MOST_CHANGES)
            for bit, digit in zip(bits, _extended(value, len(bits)), strict=True):
                self.changes[bit].append((time, _BITS[digit]))


def _extended(value: str, size: int) -> str:
    """All bits of a value, whose left ones may be left out (clause 18.2.2): 0, or x and z again."""
    if len(value) >= size:
        return value[-size:]
    filler = value[0] if value[0] in "xXzZ" else "0"
    return filler * (size - len(value)) + value


def _bits_of(name: str, size: int) -> Iterator[str]:
    """The names of a variable's bits, MSB first."""
    found = _RANGE.fullmatch(name)
    base = found["name"] if found else name
    if size == 1:
        yield f"{base}({found['high']})" if found and not found["low"] else base
        return
    high = int(found["high"]) if found else size - 1
    low = int(found["low"] or high) if found else 0
    step = -1 if high >= low else 1
    for place in range(size):
        yield f"{base}({high + step * place})"
