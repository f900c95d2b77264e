"""Importers: circuit files of other formats, read into designs by the suffix of their names.

A file in this folder is an importer of our own: called after the suffix, it has the importer under
`IMPORTER`. Other packages bring theirs.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Final

from edgewise.design import Design
from edgewise.guests import Group, Guest, modules

CIRCUIT_TEXT: Final = ("yaml", "yml")
"""Suffixes of circuit texts, which need no importer."""
TAKEN: Final = (*CIRCUIT_TEXT, "md")
"""Suffixes that mean something else."""


@dataclass(frozen=True, slots=True)
class Importer:
    """Reads one format.

    Parameters
    ----------
    name : str
        The suffix of its files, without the dot: ``csv``.
    about : str
        One line for people.
    read : function
        The design in a text; the second argument is the file's name, for places. It raises
        `EdgewiseError` with a `Place` for a text that it can't read.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> def wire(text, file):
    ...     b = Builder(text.strip())
    ...     b.output("y", b.input("x"))
    ...     return Design("wire", b.circuit())
    >>> Importer("wire", "a wire with a name", wire).read("channel", "sea.wire").circuit.name
    'channel'
    """

    name: str
    about: str
    read: Callable[[str, str], Design]


def _guarded(guest: Guest, importer: Importer) -> Importer:
    return replace(importer, read=guest.guarded(importer.read, Design))


GUESTS: Final = Group(
    "edgewise.importers", "importer", Importer, lambda: (*TAKEN, *modules(__name__)), _guarded
)
"""Importers that other packages bring."""


def find(name: str) -> Importer | None:
    """The importer for a file of this name; nothing for a circuit text and for any other file.

    Raises
    ------
    GuestError
        Another package brings it, but it can't be used.

    Examples
    --------
    >>> find("serial-adder"), find("sub.yaml")
    (None, None)
    """
    suffix = Path(name).suffix.removeprefix(".")
    if not suffix or suffix in TAKEN:
        return None
    if suffix in modules(__name__):
        own: Importer = import_module(f"{__name__}.{suffix}").IMPORTER
        return own
    return GUESTS.find(suffix)


def suffixes() -> tuple[str, ...]:
    """The suffixes of circuit files.

    Examples
    --------
    >>> suffixes()[:2]
    ('.yaml', '.yml')
    """
    return tuple(f".{one}" for one in (*CIRCUIT_TEXT, *modules(__name__), *GUESTS.names()))


def is_circuit_file(name: str) -> bool:
    """Whether a name is that of a circuit file.

    Examples
    --------
    >>> is_circuit_file("sub.yaml"), is_circuit_file("rain.md"), is_circuit_file("lfsr")
    (True, False, False)
    """
    suffix = Path(name).suffix
    return suffix in (".yaml", ".yml") or (bool(suffix) and suffix in suffixes())


def files_in(folder: Path) -> list[Path]:
    """The circuit files in a folder, in the order of their names."""
    known = suffixes()
    return sorted(path for path in folder.iterdir() if path.suffix in known)
