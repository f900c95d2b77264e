"""The commands. No logic: each reads its arguments, calls one room, prints the answer."""

from __future__ import annotations

import os
import sys
import textwrap
from importlib import import_module
from typing import Final

import typer

from edgewise import cache
from edgewise.cli.options import app
from edgewise.errors import EdgewiseError

DESIGNS: Final = ("list", "show", "trace", "draw")
"""Commands whose start-up is kept short: the other rooms are not even read for them."""


def register(command: str) -> None:
    """Make the commands known: those beside `command` if it is one of `DESIGNS`, else all."""
    import_module("edgewise.cli.designs")
    if command not in DESIGNS:
        for room in ("lessons", "questions", "comparison"):
            import_module(f"edgewise.cli.{room}")


def main() -> None:
    """Run the command line: exit code 0, 1 (a claim is false) or 2 (bad input)."""
    register(sys.argv[1] if len(sys.argv) > 1 else "")
    print(end=cache.caution(), file=sys.stderr)
    try:
        code = app(standalone_mode=False)
        sys.stdout.flush()  # here, where what goes wrong can be told
    except EdgewiseError as wrong:
        for single in wrong.parts():
            print(single, file=sys.stderr)
            if single.details:
                print(textwrap.indent(single.details, "  "), file=sys.stderr)
        code = wrong.exit_code
    except (KeyboardInterrupt, typer.Abort):
        code = 130
    except BrokenPipeError:  # the reader, such as head, has gone
        code = _no_more_output(0)
    except SystemExit as left:  # typer ends so, with 1, when the reader has gone
        gone = isinstance(left.__context__, BrokenPipeError)
        code = _no_more_output(0) if gone else left.code
    except OSError as wrong:  # such as a full disk behind the standard output
        where = f"{wrong.filename}: " if wrong.filename else "the answer can't be written: "
        print(f"{where}{wrong.strerror}", file=sys.stderr)
        code = _no_more_output(2)
    except Exception as wrong:
        if not hasattr(wrong, "exit_code") or not hasattr(wrong, "show"):
            raise
        wrong.show()  # a usage error of the command line itself
        code = wrong.exit_code
    sys.exit(code)


def _no_more_output(code: int) -> int:
    """The exit code, with what is still to be printed thrown away."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return code
