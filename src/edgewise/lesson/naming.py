"""The design that a lesson names: one of the catalogue, or a circuit file beside the lesson."""

from __future__ import annotations

from pathlib import Path

from edgewise import blueprint as blueprints
from edgewise import catalogue, importers
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message, Place, TextError, nearest
from edgewise.yamltext import Scalar


def named_design(named: Scalar, folder: Path, own: Blueprint | None = None) -> Blueprint:
    """The design of a name; every block and the front matter read names alike.

    Parameters
    ----------
    named : Scalar
        ``serial-adder``, ``sub.yaml``, or the lesson's own by its name.
    folder : Path
        Of the lesson.
    own : Blueprint, optional
        The lesson's, which its name means before any other.

    Raises
    ------
    EdgewiseError
        There is none of that name, or its file can't be read.

    Examples
    --------
    >>> named_design(Scalar("serial-adder", Place("rain.md", 3, 9)), Path()).name
    'serial-adder'
    """
    if own is not None and own.name == named.text:
        return own
    try:
        if importers.is_circuit_file(named.text):
            return _beside(named.text, named.place, folder)
        return catalogue.find(named.text)
    except EdgewiseError as wrong:
        raise wrong.placed(named.place) from None


def _beside(name: str, place: Place, folder: Path) -> Blueprint:
    if Path(name).name != name:
        raise TextError(Message("circuit-file-elsewhere", name=name), place)
    path = folder / name
    try:
        found = path.is_file() and not path.is_symlink()
        there = [p.name for p in importers.files_in(folder) if not p.is_symlink()]
    except OSError as wrong:  # such as a name that is too long
        raise TextError(
            Message("unreadable", name=name[:80], why=wrong.strerror or str(wrong)), place
        ) from None
    if not found:
        raise TextError(
            Message("circuit-file-unknown", name=name, suggestion=nearest(name, there)), place
        )
    return blueprints.from_file(path)
