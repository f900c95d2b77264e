"""What every command shares: the application, its options, and how they are read."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from edgewise.errors import Fact, Message, TextError
from edgewise.files import SUFFIXES
from edgewise.listing import both, either
from edgewise.numerals import meant_range, whole
from edgewise.yamltext import shortened

if TYPE_CHECKING:
    from edgewise.blueprint import Blueprint
    from edgewise.trace import Trace

MOST_ROWS: Final = 1000
"""Rows in one figure, at most."""

app = typer.Typer(
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    epilog="edgewise COMMAND --help shows the options and examples of a command.",
)


def _tell_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        print("edgewise", version("edgewise"))
        raise typer.Exit


@app.callback()
def every(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_tell_version, is_eager=True, help="Print the version."),
    ] = False,
    debug: Annotated[  # read before the command is
        bool, typer.Option("--debug", help="Show the traceback of an error too.")
    ] = False,
) -> None:
    """Clocked arithmetic circuits, computed edge by edge, made into checked lessons."""


Name = Annotated[
    str, typer.Argument(metavar="DESIGN", help="A catalogue name, or the path of a circuit file.")
]
With = Annotated[
    str, typer.Option("--with", metavar="n=6,…", help="Parameters; defaults for the rest.")
]
Operands = Annotated[
    str,
    typer.Option(
        "--operands", metavar="a=22,b=43", help="The run's numbers; a family as w=[5,9,3]."
    ),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")]


def examples(*lines: str) -> str:
    """The examples under a command's help, one a line."""
    return "\b\nExamples:\n" + "\n".join(f"  edgewise {line}" for line in lines)


def refused(message: str, /, **facts: Fact) -> TextError:
    """Why a command does not do what it was asked for, as a message of the commands.

    Examples
    --------
    >>> print(refused("option-twice", option="--with", name="n"))
    --with: n is given twice
    """
    return TextError(Message(message, **facts))


def language_of(text: str) -> str:
    """A language that there are words in, as ``--language`` names it.

    Examples
    --------
    >>> language_of("de")
    'de'
    """
    from edgewise.words.messages import LANGUAGES

    if text not in LANGUAGES:
        raise refused("new-language", found=repr(shortened(text)), known=either(LANGUAGES))
    return text


def refuse_file(out: Path, message: str, instead: str) -> None:
    """Refuse the name of a file where ``-o`` names a folder; `instead` is a folder to offer.

    Examples
    --------
    >>> refuse_file(Path("x.pdf"), "build-file", "pages")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    edgewise.errors.TextError: x.pdf is the name of a file; -o names a folder, ...: -o pages
    """
    if out.exists() and not out.is_dir():
        raise refused("build-no-folder", out=str(out))
    if out.suffix.lower() in SUFFIXES and not out.is_dir():
        folder = out.parent if out.parent.name else instead
        raise refused(message, out=str(out), folder=str(folder))


def refuse_idle(context: typer.Context, because: Message, *options: str) -> None:
    """Refuse those of these options that were given, since they have no effect.

    Parameters
    ----------
    context : typer.Context
        Of the command.
    because : Message
        What ends the sentence "--rows has no effect …".
    options : str
        As on the command line: ``--rows``.

    Raises
    ------
    TextError
        Naming all that were given.
    """
    idle = [
        parameter.opts[-1]
        for parameter in context.command.params
        if parameter.name is not None
        and parameter.opts[-1] in options
        and (source := context.get_parameter_source(parameter.name)) is not None
        and source.name == "COMMANDLINE"
    ]
    if idle:
        raise refused("option-idle", options=both(idle), count=len(idle), because=because)


def blueprint_of(name: str) -> Blueprint:
    """The design a command was given: a circuit file, or a name of the catalogue."""
    from edgewise import importers

    if importers.is_circuit_file(name) or (os.sep in name and not name.endswith(".md")):
        from edgewise import blueprint

        return blueprint.from_file(Path(name))
    if name.endswith(".md"):
        raise refused("option-lesson", name=name)
    from edgewise import catalogue

    return catalogue.find(name)


def numbers(text: str, option: str) -> dict[str, int]:
    """Read ``n=6,x=2``."""
    found: dict[str, int] = {}
    for name, value in assignments(text, option).items():
        if not isinstance(value, int):
            raise refused("option-list", option=option, name=name)
        found[name] = value
    return found


def assignments(text: str, option: str) -> dict[str, int | list[int]]:
    """Read ``a=22,b=43`` or ``w=[5,9,3]``; numbers may be written 0b1101.

    Examples
    --------
    >>> assignments("a=22,w=[5,0b11]", "--operands")
    {'a': 22, 'w': [5, 3]}
    """
    found: dict[str, int | list[int]] = {}
    for item in re.split(r",(?![^\[]*\])", text) if text.strip() else ():
        name, equals, value = (piece.strip() for piece in item.partition("="))
        listed = value.startswith("[") and value.endswith("]")
        read = [
            whole(v, Message("within", what=option, told=shortened(name)))
            for v in (value[1:-1].split(",") if listed else [value])
        ]
        values = [number for number in read if number is not None]
        if len(values) < len(read):
            equals = ""
        if not equals or not name:
            raise refused("option-number", option=option, found=repr(shortened(item)))
        if name in found:
            raise refused("option-twice", option=option, name=name)
        found[name] = values if listed else values[0]
    return found


def run_of(name: str, with_: str, operands: str) -> Trace:
    """The run that a command was asked for."""
    from edgewise.engines import reference

    design = blueprint_of(name).design(numbers(with_, "--with"))
    return reference.run(design, design.values(assignments(operands, "--operands")))


def terminal_width() -> int:
    """Columns to write in."""
    return max(60, min(shutil.get_terminal_size().columns, 110))


def names_of(text: str) -> list[str] | None:
    """Read ``A,C,S``; nothing for an empty text."""
    return [name.strip() for name in text.split(",")] if text.strip() else None


def rows_of(text: str) -> list[int] | None:
    """Read ``6..12`` or ``0,6,12``; nothing for an empty text.

    Examples
    --------
    >>> rows_of("2..4"), rows_of("0,6")
    ([2, 3, 4], [0, 6])
    """
    if not text.strip():
        return None
    rows: list[int] = []
    for piece in text.split(","):
        first, dots, last = piece.strip().partition("..")
        low, high = whole(first, "--rows"), whole(last if dots else first, "--rows")
        if low is None or high is None or min(low, high) < 0:
            raise _no_range("rows-form", "--rows", piece, meant_range(piece))
        if high < low:
            raise refused("rows-empty", low=low, high=high)
        if len(rows) + high - low >= MOST_ROWS:
            raise refused("rows-many", count=len(rows) + high - low + 1, most=MOST_ROWS)
        rows += range(low, high + 1)
    return rows


def _no_range(message: str, option: str, text: str, meant: Message | None) -> TextError:
    """What was found in place of a range, and what was meant, or how one is written."""
    found = repr(shortened(text))
    if meant is not None:
        return refused("range-unread", name=option, found=found, hint=meant)
    return refused(message, option=option, found=found)


def spans(text: str, option: str) -> dict[str, tuple[int, int]]:
    """Read ``n=1..32,x=2..16``.

    Examples
    --------
    >>> spans("n=1..32, x=2..16", "--over")
    {'n': (1, 32), 'x': (2, 16)}
    """
    found: dict[str, tuple[int, int]] = {}
    for item in text.split(",") if text.strip() else ():
        name, _, range_ = (piece.strip() for piece in item.partition("="))
        ends = _ends(range_, option)
        if not name.isidentifier() or not ends:
            hint = meant_range(range_, name) if name.isidentifier() else None
            raise _no_range("option-range-named", option, item, hint)
        if name in found:
            raise refused("option-twice", option=option, name=name)
        found[name] = ends
    return found


_RANGE = re.compile(r"\s*(\d+)\s*\.\.\s*(\d+)\s*", re.ASCII)


def _ends(text: str, option: str) -> tuple[int, int] | None:
    """The two numbers of ``2..16``; nothing if it is no range."""
    read = _RANGE.fullmatch(text)
    if read is None:
        return None
    low, high = whole(read[1], option), whole(read[2], option)
    return None if low is None or high is None else (low, high)


def span(text: str, option: str) -> tuple[int, int]:
    """Read ``2..16``.

    Examples
    --------
    >>> span("2..16", "--between")
    (2, 16)
    """
    ends = _ends(text, option)
    if ends is None:
        raise _no_range("option-range", option, text, meant_range(text))
    return ends


def print_table(lines: Sequence[Sequence[str]]) -> None:
    """Print a table, its heading first; long cells are wrapped to the width of the terminal."""
    from rich import box
    from rich.console import Console
    from rich.table import Table

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, header_style="bold")
    heading, *rows = lines
    for name in heading:
        table.add_column(name, overflow="fold")
    for row in rows:
        table.add_row(*row)
    Console(width=terminal_width(), highlight=False, markup=False, emoji=False).print(table)


def print_sentences(sentences: Iterable[str]) -> None:
    """Print sentences, one a paragraph, wrapped to the width of the terminal."""
    import textwrap

    for sentence in sentences:
        print(textwrap.fill(sentence, terminal_width(), break_on_hyphens=False))
