"""The standard streams, as they are: closed, full, or of an encoding that lacks our signs.

A message that can't be shown ends no command, and an answer that can't be written is told.
"""

from __future__ import annotations

import codecs
import contextlib
import io
import os
import sys
from typing import Any, Final

from edgewise.errors import EdgewiseError, Message

_ERRORS: Final = "edgewise"
"""Our name for what is done about letters that an encoding lacks."""
_SIGNS: Final = {
    "…": "...",
    "─": "-",
    "—": "-",
    "–": "-",
    "−": "-",
    "×": "x",
    "·": "*",
    "→": "->",
    "≤": "<=",
    "≥": ">=",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    "\u00a0": " ",
}
"""The signs that our own texts use, and what stands for them."""


class OutputError(EdgewiseError):
    """The answer can't be written."""


class Out(io.TextIOWrapper):
    """The standard output: what goes wrong with it is one of our errors."""

    def write(self, text: str, /) -> int:
        """Write, or say why not."""
        try:
            return super().write(text)
        except BrokenPipeError:
            raise
        except OSError as wrong:
            raise _refused(wrong) from None

    def flush(self) -> None:
        """Write what waits, or say why not."""
        try:
            super().flush()
        except BrokenPipeError:
            raise
        except OSError as wrong:
            raise _refused(wrong) from None


class Err(io.TextIOWrapper):
    """The standard error: what it does not take is lost, and that is no error."""

    def write(self, text: str, /) -> int:
        """Write, if that is possible."""
        try:
            return super().write(text)
        except OSError:
            self.give_up()
            return len(text)

    def flush(self) -> None:
        """Write what waits, if that is possible."""
        try:
            super().flush()
        except OSError:
            self.give_up()

    def give_up(self) -> None:
        """From now on nobody is told."""
        with contextlib.suppress(OSError):
            _take(2, os.O_WRONLY)


def _refused(wrong: OSError) -> OutputError:
    closed = Message("output-closed") if sys.__stdout__ is None else None
    return OutputError(Message("answer-unwritten", why=closed or wrong.strerror or str(wrong)))


def prepare() -> None:
    """Make the standard streams of this process ones that can be relied on."""
    codecs.register_error(_ERRORS, _replaced)
    # A number that is free would be given to the next file that is opened.
    if sys.stdin is None:
        _take(0, os.O_RDONLY)
    if sys.stdout is None:
        _take(1, os.O_RDONLY)  # so that nothing can be written there
        sys.stdout = Out(_opened(1), "utf-8")
    elif sys.stdout is sys.__stdout__ and isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout = Out(sys.stdout.buffer, **_manner(sys.stdout))
    if sys.stderr is None:
        _take(2, os.O_WRONLY)
        sys.stderr = Err(_opened(2), "utf-8")
    elif sys.stderr is sys.__stderr__ and isinstance(sys.stderr, io.TextIOWrapper):
        sys.stderr = Err(sys.stderr.buffer, **_manner(sys.stderr) | {"line_buffering": True})


def _opened(number: int) -> io.BufferedWriter:
    """A writer to a file number, whatever can be done with that number."""
    return io.BufferedWriter(_Number(number))


class _Number(io.RawIOBase):
    """A file number, taken as it is."""

    def __init__(self, number: int) -> None:
        self.number = number

    def writable(self) -> bool:
        """Yes: a writer asks before it is made."""
        return True

    def fileno(self) -> int:
        """The number."""
        return self.number

    def write(self, data: Any, /) -> int:
        """Write to it."""
        return os.write(self.number, data)


def _manner(stream: io.TextIOWrapper) -> dict[str, Any]:
    """How a stream is written; letters that its encoding lacks don't end the program."""
    strict = stream.errors in ("strict", "surrogateescape", "backslashreplace")
    return {
        "encoding": stream.encoding,
        "errors": _ERRORS if strict else stream.errors,
        "line_buffering": stream.line_buffering,
        "write_through": stream.write_through,
    }


def _replaced(wrong: UnicodeError) -> tuple[str, int]:
    """What stands for letters that an encoding lacks, those of a name that is no text included."""
    if not isinstance(wrong, UnicodeEncodeError):
        raise wrong
    letters = wrong.object[wrong.start : wrong.end]
    return "".join(_SIGNS.get(letter) or _code(letter) for letter in letters), wrong.end


def _code(letter: str) -> str:
    if "\udc80" <= letter <= "\udcff":  # a byte that is no text (PEP 383)
        return f"\\x{ord(letter) - 0xDC00:02x}"
    return ascii(letter)[1:-1]


def _take(number: int, how: int) -> None:
    """Let a number of a standard stream lead nowhere."""
    nowhere = os.open(os.devnull, how)
    if nowhere != number:
        os.dup2(nowhere, number)
        os.close(nowhere)


def no_more_output() -> None:
    """Throw away what is still to be printed."""
    with contextlib.suppress(OSError, ValueError):
        _take(sys.stdout.fileno(), os.O_WRONLY)


def exactly(text: str, what: Message) -> None:
    """Print what a program is to read: as it stands, or not at all.

    Raises
    ------
    TextError
        The output's encoding lacks a letter of it.
    """
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError as wrong:
        from edgewise.cli.options import refused

        letter = text[wrong.start]
        raise refused(
            "print-letter",
            what=what,
            letter=ascii(letter),
            code=f"{ord(letter):04X}",
            encoding=encoding,
        ) from None
    sys.stdout.write(text)
