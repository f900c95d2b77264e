"""The commands. No logic: each reads its arguments, calls one room, prints the answer."""

from __future__ import annotations

import os
import sys

import typer

from edgewise.cli import designs, lessons, questions
from edgewise.cli.options import app
from edgewise.errors import EdgewiseError

__all__ = ["designs", "lessons", "main", "questions"]


def main() -> None:
    """Run the command line: exit code 0, 1 (a claim is false) or 2 (bad input)."""
    try:
        code = app(standalone_mode=False)
    except EdgewiseError as wrong:
        for single in wrong.parts():
            print(single, file=sys.stderr)
        code = wrong.exit_code
    except (KeyboardInterrupt, typer.Abort):
        code = 130
    except BrokenPipeError:  # the reader, such as head, has gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    except Exception as wrong:
        if not hasattr(wrong, "exit_code") or not hasattr(wrong, "show"):
            raise
        wrong.show()  # a usage error of the command line itself
        code = wrong.exit_code
    sys.exit(code)
