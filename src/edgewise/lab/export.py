"""A design in a hardware description language, and the bench that holds it against a run."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Final

from edgewise import files
from edgewise.blueprint import Blueprint
from edgewise.circuit.parts import count
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message
from edgewise.lab import language
from edgewise.lab.bench import bench
from edgewise.lab.description import Module
from edgewise.lab.identifier import identifier
from edgewise.lab.law import laws
from edgewise.lab.module import Library
from edgewise.lab.sizes import Sizes, library_of
from edgewise.trace import Trace
from edgewise.words.lists import equations

_UNKNOWN: Final = "bits that are unknown there are not compared."


def description(
    blueprint: Blueprint,
    design: Design,
    name: str,
    run: Trace | None = None,
    *,
    with_laws: bool = False,
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
    with_laws : bool
        Whether the bench asserts what the design is to compute, too.

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
    library = library_of(design, used)
    modules = (*library.modules[:-1], _outermost(blueprint, design, library, used))
    text = used.text(modules)
    if run is None:
        return text, ""
    told = _numbers({**design.parameters, **run.operands})
    about = (
        f"A bench for {library.modules[-1].name}: its rows as computed"
        + (f" for {told}" if told else "")
        + f"; {_UNKNOWN}",
    )
    asserted = tuple(laws(run)) if with_laws else ()
    return text, used.bench_text(bench(library, run, about, asserted))


def random_bench(design: Design, name: str, run: Trace, seed: int) -> str:
    """A bench for a run with random inputs; see `edgewise.lab.stimulus.random_run`.

    Raises
    ------
    TextError
        There is no such language.
    """
    used = language.find(name)
    library = library_of(design, used)
    told = _numbers(design.parameters)
    about = (
        f"A bench for {library.modules[-1].name}: {count(run.edges, 'row')} of random inputs, seed"
        f" {seed}{f', for {told}' if told else ''}; {_UNKNOWN}",
    )
    made = bench(library, run, about, name=library.random)
    rows = tuple(replace(row, phase="") for row in made.rows)
    return used.bench_text(replace(made, rows=rows))


def _outermost(
    blueprint: Blueprint, design: Design, library: Library, used: language.Language
) -> Module:
    """The outermost module, with the parameters that can stay ones, and with its comment."""
    modules = Sizes(blueprint, design, used)
    module = modules.kept(library.modules[-1])
    matter = [name for name in design.parameters if modules.matters(name)]
    about = _about(blueprint, design.parameters, module, matter, used)
    return replace(module, about=tuple(about))


def _about(
    blueprint: Blueprint,
    numbers: Mapping[str, int],
    module: Module,
    matter: Sequence[str],
    used: language.Language,
) -> Iterator[str]:
    """What stands above the outermost module."""
    yield blueprint.title
    if blueprint.about:
        yield blueprint.about
    if blueprint.source:
        yield f"Source: {blueprint.source}"
    if spans := [f"{one.name} can be {one.low} to {one.high}" for one in module.parameters]:
        yield f"{', and '.join(spans)}."
    kept = [one.name for one in module.parameters]
    fixed = {name: numbers[name] for name in matter if identifier(name) not in kept}
    if fixed:
        yield f"Written out for {_numbers(fixed)}."
    yield (
        f"Names are the circuit's; where {used.title} ({used.standard}) has no such name, the"
        " circuit's stands in a comment."
    )


def _numbers(numbers: Mapping[str, int]) -> str:
    return equations(numbers.items())


def write(texts: Mapping[Path, str]) -> Iterator[Path]:
    """Write files; none, where one of them has the name of a folder.

    Raises
    ------
    EdgewiseError
        One can't be written.
    """
    for path in texts:
        if path.is_dir():
            raise EdgewiseError(Message("unwritten", path=str(path), why=Message("is-folder")))
    for path, text in texts.items():
        files.save(path, text.encode())
        yield path
