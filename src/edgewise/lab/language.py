"""The hardware description languages that a circuit can be written in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise import files
from edgewise.errors import Message, TextError, nearest
from edgewise.lab import systemverilog, vhdl, vhdl_bench
from edgewise.lab.bench import Bench
from edgewise.lab.description import Module
from edgewise.listing import either


@dataclass(frozen=True, slots=True)
class Language:
    """A language.

    Parameters
    ----------
    title, standard : str
    suffixes : tuple of str
        How its files end, the usual one first.
    folds_case : bool
        Whether it takes ``A`` and ``a`` for the same name.
    text : function
        Modules as a file.
    bench_text : function
        A bench as a file.
    """

    title: str
    standard: str
    suffixes: tuple[str, ...]
    folds_case: bool
    text: Callable[[Sequence[Module]], str]
    bench_text: Callable[[Bench], str]

    def check(self, path: Path) -> None:
        """See that a file of this language can have this name.

        Raises
        ------
        EdgewiseError
            It ends otherwise.
        """
        written = Message("written-as", kind=self.title, suffixes=either(self.suffixes))
        files.check_suffix(path, self.suffixes, written)


LANGUAGES: Final = {
    "systemverilog": Language(
        "SystemVerilog",
        "IEEE 1800-2017",
        (".sv",),
        folds_case=False,
        text=systemverilog.text,
        bench_text=systemverilog.bench_text,
    ),
    "vhdl": Language(
        "VHDL",
        "IEEE 1076-2008",
        (".vhd", ".vhdl"),
        folds_case=True,
        text=vhdl.text,
        bench_text=vhdl_bench.bench_text,
    ),
}


def find(name: str) -> Language:
    """The language of this name.

    Raises
    ------
    TextError
        There is none.

    Examples
    --------
    >>> find("systemverilog").suffixes
    ('.sv',)
    """
    if name not in LANGUAGES:
        raise TextError(Message("hdl-unknown", name=name, suggestion=nearest(name, LANGUAGES)))
    return LANGUAGES[name]
