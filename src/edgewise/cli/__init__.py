"""The commands. No logic: each reads its arguments, calls one room, prints the answer."""

from __future__ import annotations

import atexit
import contextlib
import signal
import sys
import textwrap
from collections.abc import Iterator
from importlib import import_module
from types import FrameType
from typing import TYPE_CHECKING, Any, Final, NoReturn

if TYPE_CHECKING:
    from edgewise.errors import EdgewiseError

DESIGNS: Final = ("list", "show", "trace", "draw")
"""Commands whose start-up is kept short: the other rooms are not even read for them."""
BAD_INPUT: Final = 2
UNFORESEEN: Final = 3
_SIGNAL: Final = 128
"""Added to the number of a signal, as shells do (POSIX.1-2017, Shell, sec. 2.8.2)."""
_DEBUG: Final = "--debug"


class Ended(BaseException):
    """The process was told to end; on its way out it removes what is half made."""

    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(signal.Signals(number).name)


def register(command: str) -> None:
    """Make the commands known: those beside `command` if it is one of `DESIGNS`, else all."""
    import_module("edgewise.cli.designs")
    if command not in DESIGNS:
        for room in (
            "lessons",
            "marking",
            "papers",
            "questions",
            "comparison",
            "states",
            "hazards",
            "synchroniser",
            "lab",
            "bench",
            "intake",
            "film",
            "guests",
        ):
            import_module(f"edgewise.cli.{room}")


def main() -> None:
    """Run the command line; docs/commands.md lists the exit codes."""
    # Ctrl-C while the interpreter shuts down would make a whole answer look like a broken one.
    atexit.register(signal.signal, signal.SIGINT, signal.SIG_IGN)
    words, debug = _words(sys.argv[1:])
    code: int | str | None
    try:
        with _told_to_end():
            code = _run(words)
    except KeyboardInterrupt:
        code = _ended("stopped", signal.SIGINT)
    except Ended as ended:
        code = _ended("ended-by", ended.number, signal=str(ended))
    except BrokenPipeError:  # the reader, such as head, has gone
        code = _no_more_output(0)
    except SystemExit as left:  # typer ends so, with 1, when the reader has gone
        gone = isinstance(left.__context__, BrokenPipeError)
        code = _no_more_output(0) if gone else left.code
    except BaseException as wrong:  # noqa: BLE001  # a library's panic is no Exception
        code = _failed(wrong, debug=debug)
    sys.exit(code)


def _words(given: list[str]) -> tuple[list[str], bool]:
    """The command line without the option that may stand anywhere, and whether it was there."""
    most = given.index("--") if "--" in given else len(given)
    words = [word for word in given[:most] if word != _DEBUG]
    return words + given[most:], len(words) < most


@contextlib.contextmanager
def _told_to_end() -> Iterator[None]:
    """Meanwhile a signal to end is an exception, so that what is half made is removed."""
    before = {}
    for number in (signal.SIGTERM, signal.SIGHUP):
        if signal.getsignal(number) is signal.SIG_DFL:  # nohup ignores one of them
            with contextlib.suppress(ValueError):  # not in the main thread
                before[number] = signal.signal(number, _end)
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _end(number: int, _: FrameType | None) -> NoReturn:
    raise Ended(number)


def _run(words: list[str]) -> int | None:
    """Do what the command line says; the exit code."""
    from edgewise.cli import streams

    streams.prepare()
    from edgewise import cache, guests
    from edgewise.cli.options import app

    guests.warn_plainly()
    print(end=cache.caution(), file=sys.stderr)
    register(words[0] if words else "")
    code: int | None = app(words, standalone_mode=False)
    if code == _SIGNAL + signal.SIGINT:  # what typer makes of Ctrl-C
        raise KeyboardInterrupt
    sys.stdout.flush()  # here, where what goes wrong can be told
    return code


def _failed(wrong: BaseException, *, debug: bool) -> int:
    """Say what went wrong; the exit code."""
    from edgewise.cli import streams
    from edgewise.errors import EdgewiseError, Message, bounded, unforeseen

    if debug:
        import traceback

        traceback.print_exception(wrong)
    if isinstance(wrong, EdgewiseError):
        if isinstance(wrong, streams.OutputError):
            streams.no_more_output()
        return _listed(wrong)
    if hasattr(wrong, "exit_code") and hasattr(wrong, "show"):
        usage: Any = wrong  # an error of the command line itself
        if isinstance(said := getattr(usage, "message", None), str):
            usage.message = bounded(said)
        usage.show()
        return int(usage.exit_code)
    if type(wrong).__name__ == "Abort":  # typer's word for Ctrl-C
        return _ended("stopped", signal.SIGINT)
    if isinstance(wrong, OSError) and wrong.filename:
        why = wrong.strerror or str(wrong)
        return _told(str(Message("within", what=str(wrong.filename), told=why)), BAD_INPUT)
    if isinstance(wrong, MemoryError):
        return _told(unforeseen(wrong), BAD_INPUT)
    return _told(unforeseen(wrong), UNFORESEEN)


def _listed(wrong: EdgewiseError) -> int:
    for single in wrong.parts():
        print(single, file=sys.stderr)
        if single.details:
            print(textwrap.indent(single.details, "  "), file=sys.stderr)
    return wrong.exit_code


def _ended(message: str, number: int, **facts: str) -> int:
    """Say what ended the command, a signal; the exit code."""
    from edgewise.errors import Message

    return _told(str(Message(message, **facts)), _SIGNAL + number)


def _told(line: str, code: int) -> int:
    from edgewise.errors import bounded

    print(bounded(line), file=sys.stderr)
    return code


def _no_more_output(code: int) -> int:
    from edgewise.cli import streams

    streams.no_more_output()
    return code
