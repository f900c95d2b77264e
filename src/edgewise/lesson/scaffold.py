"""A first lesson about a design: it builds as it stands, and shows its format by example."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import files, importers, yamltext
from edgewise.design import Design, Phase
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson import first_claims, first_example
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.blueprint import Blueprint
    from edgewise.trace import Trace

_MOST_COLUMNS: Final = 6
_MOST_COLUMN_BITS: Final = 32
_MOST_ROWS: Final = 9
_SPECIAL: Final = re.compile(r"([\\`*_\[\]<>#])")
_SUFFIX: Final = ".md"

_WIDE: Final = 98

_HEAD: Final = """\
---
title: {title}
design: {design}
{given}---
{scene}

{what}

## {heading}

{operands}

"""
_CIRCUIT: Final = """\
## {heading}

```diagram
after: 0
caption: {caption}
```

"""
_RUN: Final = """\
## {heading}

{run}

```edge-table
rows: {rows}
columns: [{columns}]
caption: {caption}
```

```timing
rows: {rows}
columns: [{few}]
caption: {signals}
```

"""
_VALUES_NOW: Final = """\
## {heading}

```edge-table
columns: [{columns}]
caption: {caption}
```

"""
_ANSWER: Final = """\
## {heading}

{answers}

{checked}

```claim
{claims}
```

"""
_HOW: Final = """\
## {heading}

{delete}

{front}
{inline}

  ```text
  {value}
  ```

{blocks}
{say}

```say
{ask}
```
"""


def write(
    path: Path,
    blueprint: Blueprint,
    design: str,
    parameters: Mapping[str, int] | None = None,
    operands: Mapping[str, int | list[int]] | None = None,
    words: Words = ENGLISH,
) -> Path:
    """Write a first lesson about a design; an existing file is never touched.

    Parameters
    ----------
    path : Path
        Where; ``.md`` is added if it is missing.
    blueprint : Blueprint
    design : str
        A catalogue name, or the path of a circuit file beside the lesson.
    parameters, operands : mapping, optional
        Numbers to start from.
    words : Words
        The lesson's language.

    Returns
    -------
    Path

    Raises
    ------
    EdgewiseError
        The file exists, or can't be written; bad numbers.
    """
    path = _named(path)
    file = Path(design)
    if importers.is_circuit_file(file.name):
        if file.resolve().parent != path.resolve().parent:
            raise EdgewiseError(Message("circuit-beside-lesson", file=file.name), Place(str(path)))
        design = file.name
    told = text(path.stem, blueprint, design, parameters or {}, operands or {}, words)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as wrong:
        raise EdgewiseError(
            Message("unwritable", why=wrong.strerror or str(wrong)), Place(str(path))
        ) from None
    try:
        files.create(path, told.encode())
    except FileExistsError:
        raise EdgewiseError(Message("file-there"), Place(str(path))) from None
    except OSError as wrong:
        raise EdgewiseError(
            Message("unwritable", why=wrong.strerror or str(wrong)), Place(str(path))
        ) from None
    return path


def _named(path: Path) -> Path:
    """The lesson's file; its name must be one, and text."""
    if path.name in ("", ".."):
        raise EdgewiseError(Message("lesson-nameless", found=repr(str(path))))
    try:
        path.name.encode()
    except UnicodeEncodeError:
        raise EdgewiseError(Message("lesson-not-utf8", found=ascii(str(path)))) from None
    suffix = path.suffix.lower()
    if suffix in files.SUFFIXES - {_SUFFIX}:
        raise EdgewiseError(
            Message(
                "lesson-other-kind",
                path=str(path),
                suffix=_SUFFIX,
                meant=str(path.with_suffix(_SUFFIX)),
            )
        )
    return path if suffix == _SUFFIX else path.with_name(f"{path.name}{_SUFFIX}")


def text(  # a lesson's name, its design, its numbers, its language
    name: str,
    blueprint: Blueprint,
    design: str,
    parameters: Mapping[str, int],
    operands: Mapping[str, int | list[int]],
    words: Words = ENGLISH,
) -> str:
    """The lesson's text.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.words import messages
    >>> adder, german = catalogue.find("serial-adder"), messages.of("de")
    >>> told = text("tide-hut", adder, "serial-adder", {"n": 4}, {}, german)
    >>> print(told.split("---")[1].strip())
    title: Tide hut
    design: serial-adder
    with: {n: 4}
    operands: {a: 13, b: 11}
    language: de
    """
    built = blueprint.design(parameters)
    values = built.values(operands or first_example.values(built))
    trace = reference.run(built, values)
    shown = dict(list(built.parameters.items())[:1]) | dict(parameters)
    given = _braced("with", shown) + _braced("operands", _grouped(built, values))
    given += "" if words == ENGLISH else f"language: {words.language}\n"
    title = " ".join(re.split(r"[-_\s]+", name)).strip() or words("scaffold-title")
    head = _HEAD.format(
        title=_quoted(title[:1].upper() + title[1:]),
        design=design,
        given=given,
        scene=_filled(words("scaffold-scene", design=_called(blueprint, built, words))),
        what=_filled(_what(blueprint, built, words)),
        heading=words("scaffold-given"),
        operands=_operands(built, words),
    )
    return "".join([head, *_shown(trace, words), *_told(blueprint, trace, words)])


def _shown(trace: Trace, words: Words) -> Iterator[str]:
    """The circuit, and its run or its values."""
    yield _CIRCUIT.format(
        heading=words("scaffold-circuit"),
        caption=words("scaffold-before" if trace.edges else "scaffold-all"),
    )
    yield from _moving(trace, words)


def _told(blueprint: Blueprint, trace: Trace, words: Words) -> Iterator[str]:
    """The answer, as far as the design says what it computes, and how the file works."""
    if trace.design.computes:
        yield _ANSWER.format(
            heading=words("scaffold-answer"),
            answers=first_claims.answers(trace, words),
            checked=_filled(words("scaffold-checked")),
            claims="\n".join(first_claims.claims(blueprint, trace)),
        )
    yield _HOW.format(
        heading=words("scaffold-how"),
        delete=_filled(words("scaffold-how-delete")),
        front=_item(words("scaffold-how-front")),
        inline=_item(words("scaffold-how-value")),
        value=_example(trace.design),
        blocks=_item(words("scaffold-how-blocks", kinds=_kinds(trace.design))),
        say=_item(words("scaffold-how-say")),
        ask=words("scaffold-say"),
    )


def _grouped(design: Design, values: Mapping[str, int]) -> dict[str, int | list[int]]:
    """Operands as a lesson gives them: a family as a list."""
    members = {m for family in design.families.values() for m in family}
    single: dict[str, int | list[int]] = {k: v for k, v in values.items() if k not in members}
    lists = {f: [values[m] for m in all_] for f, all_ in design.families.items()}
    return single | lists


def _braced(key: str, values: Mapping[str, int | list[int]]) -> str:
    told = ", ".join(f"{name}: {value}" for name, value in values.items())
    return f"{key}: {{{told}}}\n" if told else ""


def _quoted(title: str) -> str:
    return title if re.fullmatch(r"[A-Za-z][\w ]*", title) else yamltext.quoted(title)


def _plain(told: str) -> str:
    """A text in which nothing is Markdown."""
    return _SPECIAL.sub(r"\\\1", " ".join(told.split()))


def _called(blueprint: Blueprint, design: Design, words: Words) -> str:
    return _plain(blueprint.title if words == ENGLISH else alt_text.title(design, words))


def _what(blueprint: Blueprint, design: Design, words: Words) -> str:
    """What the design is and how it works."""
    title = _called(blueprint, design, words)
    about, message = blueprint.about.rstrip("."), f"design-about-{design.name}"
    if message in words and ENGLISH(message) == about:
        about = words(message)
    return words(
        "scaffold-what",
        design=title[:1].upper() + title[1:],
        about="told" if about else "none",
        text=_plain(about),
    )


def _operands(design: Design, words: Words) -> str:
    if not design.operands:
        return words("scaffold-given-none")
    heading = (words(f"scaffold-{column}") for column in ("operand", "number", "bits"))
    lines = [f"| {' | '.join(heading)} |", "|---|--:|--:|"]
    lines += [f"| {_plain(o.name)} | `? {o.name}` | {o.width} |" for o in design.operands]
    return "\n".join(lines)


def _moving(trace: Trace, words: Words) -> Iterator[str]:
    columns = _columns(trace)
    phase = _phase(trace.design)
    if phase is None:
        yield _VALUES_NOW.format(
            heading=words("scaffold-values"),
            columns=", ".join(columns),
            caption=words("scaffold-no-clock"),
        )
        return
    named, first, last = phase
    rows = named.name
    if last - first + 2 > _MOST_ROWS:
        rows = f"{first - 1}..{first + _MOST_ROWS - 2}"
    counts = [
        words("scaffold-in-phase", phase=p.name, name=_plain(p.name))
        for p in trace.design.procedure
        if p.edges
    ]
    yield _RUN.format(
        heading=words("scaffold-edges"),
        run=_filled(words("scaffold-run", phases=", ".join(counts))),
        rows=rows,
        columns=", ".join(columns),
        caption=words("scaffold-phase", phase=named.name),
        few=", ".join(columns[-3:]),
        signals=words("scaffold-signals"),
    )


def _phase(design: Design) -> tuple[Phase, int, int] | None:
    """The last phase that has edges."""
    return next((span for span in reversed(design.spans) if span[0].edges), None)


def _columns(trace: Trace) -> list[str]:
    """Some columns that fit side by side, those of the answer among them."""
    find = trace.design.netlist.find
    chosen: list[str] = []
    bits = 0
    inputs = {net.name for net in trace.design.circuit.inputs} if trace.edges else set()
    for name in [n for n in trace.columns if n not in inputs] or list(trace.columns):
        bits += len(find(name))
        if len(chosen) == _MOST_COLUMNS or (chosen and bits > _MOST_COLUMN_BITS):
            break
        chosen.append(name)
    return chosen


def _example(design: Design) -> str:
    if not design.computes:
        return "`? edges`"
    return f"`? {first_claims.when(design, design.computes[0])}`"


def _kinds(design: Design) -> str:
    kinds = ["diagram", "edge-table", *(["timing"] if design.edges else [])]
    kinds += ["claim"] if design.computes else []
    return ", ".join(f"`{kind}`" for kind in kinds)


def _item(told: str) -> str:
    """A point of a list."""
    return _filled(f"- {told}", "  ")


def _filled(told: str, further: str = "") -> str:
    return textwrap.fill(
        told, _WIDE, subsequent_indent=further, break_long_words=False, break_on_hyphens=False
    )
