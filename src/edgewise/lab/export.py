"""A design in a hardware description language, and the bench that holds it against a run."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from edgewise import files
from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.lab import language
from edgewise.lab.bench import bench
from edgewise.lab.module import Library
from edgewise.trace import Trace


def description(
    blueprint: Blueprint, design: Design, name: str, run: Trace | None = None
) -> tuple[str, str]:
    """The text of a design's modules, and of a bench for a run of it (empty without one).

    Parameters
    ----------
    blueprint : Blueprint
        For what people are told.
    design : Design
    name : str
        Of the language: ``systemverilog``.
    run : Trace, optional

    Raises
    ------
    TextError
        There is no such language.
    DesignError
        Two ports would have the same name.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> blueprint = catalogue.find("ring-counter")
    >>> text, no_bench = description(blueprint, blueprint.design(), "systemverilog")
    >>> [line for line in text.splitlines() if line.startswith("module")], no_bench
    (['module ring_counter ('], '')
    """
    used = language.find(name)
    library = Library(used.title, used.folds_case)
    library.top(design.name, design.circuit, tuple(_about(blueprint, design, used)))
    text = used.text(library.modules)
    if run is None:
        return text, ""
    told = _numbers(run.operands)
    about = (
        f"A bench for {library.modules[-1].name}: its rows as computed"
        + (f" for {told}" if told else "")
        + "; bits that are unknown there, x, are not compared.",
    )
    return text, used.bench_text(bench(library, run, about))


def _about(blueprint: Blueprint, design: Design, used: language.Language) -> list[str]:
    """What stands above the outermost module."""
    about = [blueprint.title]
    if blueprint.about:
        about.append(blueprint.about)
    if blueprint.source:
        about.append(f"Source: {blueprint.source}")
    numbers = _numbers(design.parameters)
    if numbers:
        about.append(f"Written out for {numbers}: the widths below are numbers.")
    about.append(
        f"Names are the circuit's; where {used.title} ({used.standard}) has no such name, the"
        " circuit's stands in a comment."
    )
    return about


def _numbers(numbers: Mapping[str, int]) -> str:
    return ", ".join(f"{name} = {value}" for name, value in numbers.items())


def write(path: Path, text: str) -> None:
    """Write a file.

    Raises
    ------
    EdgewiseError
        It can't be written.
    """
    try:
        files.write(path, text.encode())
    except OSError as wrong:
        reason = (wrong.strerror or str(wrong)).lower()
        raise EdgewiseError(f"can't write {path}: {reason}") from None
