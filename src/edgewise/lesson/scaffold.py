"""A first lesson about a design: it builds as it stands, and shows its format by example."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import files, importers
from edgewise.bits import Word
from edgewise.design import Design, Operand, Phase, Purpose
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Place
from edgewise.formula import Binary, Claim, Unary, parse, show
from edgewise.study.claims.verdict import settle
from edgewise.study.coverage import measured
from edgewise.study.coverage.report import PARTS

if TYPE_CHECKING:
    from edgewise.blueprint import Blueprint
    from edgewise.trace import Trace

MOST_BITS: Final = 12
"""Operands of so many bits in all are claimed for all values; of more, for the lesson's run."""
_VALUES: Final = (45, 27, 38, 51, 14, 57, 19, 34)
"""Operands of a first lesson, cut to their widths: their carries rise and fall."""
_LOGICAL: Final = ("==", "!=", "<=", ">=", "<", ">", "and", "or", "not")
"""Operators that give a truth value."""
_MOST_COLUMNS: Final = 6
_MOST_COLUMN_BITS: Final = 32
_MOST_ROWS: Final = 9
_SPECIAL: Final = re.compile(r"([\\`*_\[\]<>#])")
_SUFFIX: Final = ".md"

_HEAD: Final = """\
---
title: {title}
design: {design}
{given}---
Down at the pier stands a tide hut, and in it works a {title_of_design}. *Put a scene of your own
here: who needs the answer, and what happens if it is wrong?*

{about}

## What it is given

{operands}

"""
_CIRCUIT: Final = """\
## The circuit

```diagram
after: 0
caption: {caption}
```

"""
_RUN: Final = """\
## Edge by edge

{phases}

```edge-table
rows: {rows}
columns: [{columns}]
caption: Phase {phase}, edge by edge.
```

```timing
rows: {rows}
columns: [{nets}]
caption: The same edges as signals.
```

"""
_VALUES_NOW: Final = """\
## The values

```edge-table
columns: [{columns}]
caption: All of it stands at once; there is no clock.
```

"""
_ANSWER: Final = """\
## The answer

{answers}

A number typed by hand can be wrong. Those above are not typed, and these statements are checked
every time the lesson is built:

```claim
{claims}
```

"""
_HOW: Final = """\
## How this file works

*For you, not for your readers: delete this section when you know it.*

- The lines between the two `---` say what runs. Change an operand, save, and every value, table
  and figure follows.
- Inline code that begins with a question mark is computed:

  ```text
  {value}
  ```

{blocks}
- A block `say` holds what you want to say while you project the lesson; readers don't see it.

```say
Ask first: what do you expect to see at the end? Then step.
```
"""


def write(
    path: Path,
    blueprint: Blueprint,
    design: str,
    parameters: Mapping[str, int] | None = None,
    operands: Mapping[str, int | list[int]] | None = None,
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
            raise EdgewiseError(
                f"a lesson finds {file.name} only beside itself; put the two into one folder",
                Place(str(path)),
            )
        design = file.name
    told = text(path.stem, blueprint, design, parameters or {}, operands or {})
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as wrong:
        raise EdgewiseError(f"can't be written: {wrong.strerror}", Place(str(path))) from None
    try:
        files.create(path, told.encode())
    except FileExistsError:
        raise EdgewiseError(
            "there is a file of this name already; choose another name", Place(str(path))
        ) from None
    except OSError as wrong:
        raise EdgewiseError(f"can't be written: {wrong.strerror}", Place(str(path))) from None
    return path


def _named(path: Path) -> Path:
    """The lesson's file; its name must be one, and text."""
    if path.name in ("", ".."):
        raise EdgewiseError(
            f"{str(path)!r} names no file; give the lesson a name, as in edgewise new tide-hut"
        )
    try:
        path.name.encode()
    except UnicodeEncodeError:
        raise EdgewiseError(
            f"{str(path)!a} is not a name in UTF-8; give the lesson another"
        ) from None
    suffix = path.suffix.lower()
    if suffix in files.SUFFIXES - {_SUFFIX}:
        raise EdgewiseError(
            f"{path} has the name of another kind of file; a lesson ends in {_SUFFIX}: edgewise new"
            f" {path.with_suffix(_SUFFIX)}"
        )
    return path if suffix == _SUFFIX else path.with_name(f"{path.name}{_SUFFIX}")


def text(
    name: str,
    blueprint: Blueprint,
    design: str,
    parameters: Mapping[str, int],
    operands: Mapping[str, int | list[int]],
) -> str:
    """The lesson's text.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> told = text("tide-hut", catalogue.find("serial-adder"), "serial-adder", {"n": 4}, {})
    >>> print(told.split("---")[1].strip())
    title: Tide hut
    design: serial-adder
    with: {n: 4}
    operands: {a: 13, b: 11}
    """
    built = blueprint.design(parameters)
    values = built.values(operands or _values(built))
    trace = reference.run(built, values)
    shown = dict(list(built.parameters.items())[:1]) | dict(parameters)
    given = _braced("with", shown) + _braced("operands", _grouped(built, values))
    title = " ".join(re.split(r"[-_\s]+", name)).strip() or "First lesson"
    title = title[:1].upper() + title[1:]
    pieces = [
        _HEAD.format(
            title=_quoted(title),
            design=design,
            given=given,
            title_of_design=_plain(blueprint.title),
            about=_filled(f"**What it is.** {_sentence(blueprint)}."),
            operands=_operands(built),
        ),
        _CIRCUIT.format(caption="Before the first edge." if built.edges else "All values."),
        *_moving(trace),
        _ANSWER.format(answers=_answers(trace), claims="\n".join(_claims(blueprint, trace)))
        if built.computes
        else "",
        _HOW.format(value=_example(built), blocks=_blocks(built)),
    ]
    return "".join(pieces)


def _values(design: Design) -> dict[str, int]:
    """Operands with which the design computes what it says, and leaves little idle."""

    def fitting(number: int, operand: Operand) -> int:
        value = _VALUES[number % len(_VALUES)] % (1 << operand.width)
        return value or (1 << operand.width) - 1

    def computing(first: int) -> dict[str, int]:
        values = {o.name: fitting(i, o) for i, o in enumerate(design.operands, first)}
        while any(values.values()) and not _holds(design, values):
            values = {name: value // 2 for name, value in values.items()}
        return values

    large = {o.name: max(0, (1 << o.width) - 1 - i) for i, o in enumerate(design.operands)}
    tried = [computing(first) for first in range(len(_VALUES) if large else 1)]
    best, fewest = tried[0], -1
    for values in [*tried, *([large] if large and _holds(design, large) else [])]:
        idle = len(measured.of(reference.run(design, values)).warnings(PARTS))
        if fewest < 0 or idle < fewest:
            best, fewest = values, idle
        if not idle:
            break
    return best


def _holds(design: Design, values: Mapping[str, int]) -> bool:
    trace = reference.run(design, values)
    return all(_right(trace, purpose) for purpose in design.computes)


def _answer(trace: Trace, purpose: Purpose) -> Word:
    """The word in which an answer stands at the end."""
    return trace.word(purpose.output, trace.edges if purpose.after is None else purpose.after)


def _right(trace: Trace, purpose: Purpose) -> bool:
    word = _answer(trace, purpose)
    return word.known and word.value == trace.design.expected(trace.operands)[purpose.output]


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
    escaped = title.replace("\\", "\\\\").replace('"', '\\"')
    return title if re.fullmatch(r"[A-Za-z][\w ]*", title) else f'"{escaped}"'


def _plain(told: str) -> str:
    """A text in which nothing is Markdown."""
    return _SPECIAL.sub(r"\\\1", " ".join(told.split()))


def _sentence(blueprint: Blueprint) -> str:
    title = blueprint.title[:1].upper() + blueprint.title[1:]
    about = blueprint.about.rstrip(".")
    return _plain(f"{title}: {about}" if about else title)


def _operands(design: Design) -> str:
    if not design.operands:
        return "It is given no numbers: all it needs is the clock."
    lines = ["| operand | number | bits |", "|---|--:|--:|"]
    lines += [f"| {_plain(o.name)} | `? {o.name}` | {o.width} |" for o in design.operands]
    return "\n".join(lines)


def _moving(trace: Trace) -> Iterator[str]:
    columns = _columns(trace)
    phase = _phase(trace.design)
    if phase is None:
        yield _VALUES_NOW.format(columns=", ".join(columns))
        return
    named, first, last = phase
    rows = named.name
    if last - first + 2 > _MOST_ROWS:
        rows = f"{first - 1}..{first + _MOST_ROWS - 2}"
    counts = [
        f"`? edges({p.name})` in phase {_plain(p.name)}" for p in trace.design.procedure if p.edges
    ]
    yield _RUN.format(
        phases=_filled(
            f"A run takes `? edges` clock edges: {', '.join(counts)}. Row *k* of the table shows"
            " what stands after edge *k*, with the inputs that edge *k* + 1 samples; so the first"
            " row is what the first edge of the phase finds."
        ),
        rows=rows,
        columns=", ".join(columns),
        phase=named.name,
        nets=", ".join(columns[-3:]),
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


def _when(design: Design, purpose: Purpose) -> str:
    if not design.edges:
        return purpose.output
    return f"{purpose.output} after {'end' if purpose.after is None else purpose.after}"


def _answers(trace: Trace) -> str:
    lines = []
    design = trace.design
    for purpose in design.computes:
        at = "edges" if purpose.after is None else str(purpose.after)
        when = f"After edge `? {at}` " if design.edges else ""
        told = _when(design, purpose)
        line = f"- {when}`{purpose.output}` is `? {told}`"
        if _answer(trace, purpose).known:
            line += f", as a number `? value({told})`"
        if not _right(trace, purpose):
            line += f"; that is **not** `{show(purpose.formula)}`: here the circuit goes wrong"
        lines.append(f"{line}.")
    return "\n".join(lines)


def _claims(blueprint: Blueprint, trace: Trace) -> Iterator[str]:
    """What the design says it computes: for all operands, if they are few and it is true."""
    design, values = trace.design, trace.operands
    names = [*(o.name for o in design.operands if "(" not in o.name), *design.families]
    bits = sum(operand.width for operand in design.operands)
    for purpose in design.computes:
        told = _claim(design, purpose)
        if not _right(trace, purpose):
            if _answer(trace, purpose).known:
                yield f"not ({told})"
            continue
        for_all = f"{told}     for all {', '.join(names)}"
        if names and bits <= MOST_BITS:
            claim: Claim = parse(for_all, "claim")
            if settle(claim, blueprint, design.chosen, values).holds:
                told = for_all
        yield told
    yield f"edges == {design.edges}"


def _claim(design: Design, purpose: Purpose) -> str:
    """That an answer is what it should be; a comparison is a truth value, which is no number."""
    what, formula = _when(design, purpose), show(purpose.formula)
    if isinstance(purpose.formula, Binary | Unary) and purpose.formula.operator in _LOGICAL:
        return f"({what} == 1 and ({formula})) or ({what} == 0 and not ({formula}))"
    return f"{what} == {formula}"


def _example(design: Design) -> str:
    if not design.computes:
        return "`? edges`"
    return f"`? {_when(design, design.computes[0])}`"


def _blocks(design: Design) -> str:
    kinds = ["diagram", "edge-table", *(["timing"] if design.edges else [])]
    kinds += ["claim"] if design.computes else []
    return _filled(
        f"- The blocks above ({', '.join(f'`{kind}`' for kind in kinds)}) are figures, tables and"
        " claims. A claim that is false stops the build and says what is true instead.",
        "  ",
    )


def _filled(told: str, further: str = "") -> str:
    return textwrap.fill(
        told, 98, subsequent_indent=further, break_long_words=False, break_on_hyphens=False
    )
