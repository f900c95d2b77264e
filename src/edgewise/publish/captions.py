"""Captions: what a table, a figure or a chart without a caption of its own shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from edgewise.lesson.compared import Compared
from edgewise.trace import Trace
from edgewise.views.text import alt_text
from edgewise.words.lists import equations
from edgewise.words.messages import Words

if TYPE_CHECKING:
    from edgewise.lesson.pieces import Figure
    from edgewise.study.faults.fault import Fault


def given(trace: Trace, rows: tuple[int, ...], words: Words) -> str:
    r"""What a table without a caption of its own shows.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.words import messages
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> given(trace, (5,), messages.of("de")).replace("\u00a0", " ")
    'Die Wörter nach Flanke 5, MSB links (n = 4, a = 6, b = 3)'
    """
    numbers = {**trace.design.parameters, **trace.operands}
    values = equations(numbers.items(), "\u00a0=\u00a0")
    if not trace.edges:
        name = "caption-words"
    elif len(rows) > 1:
        name = "caption-words-each"
    else:
        name = "caption-words-after" if rows[0] else "caption-words-start"
    facts: dict[str, int | str] = {"edge": rows[0]} if name == "caption-words-after" else {}
    return words(f"{name}-of", given=values, **facts) if values else words(name, **facts)


def moment(trace: Trace, rows: tuple[int, ...], words: Words) -> str:
    """What a figure without a caption of its own shows."""
    if not trace.edges:
        title = alt_text.title(trace.design, words)
        return title[:1].upper() + title[1:]
    if len(rows) > 1:
        return words("caption-edges", first=rows[0], last=rows[-1])
    phase = trace.phase(rows[0])
    facts: dict[str, int | str] = {"edge": rows[0]} if rows[0] else {}
    name = "caption-after" if rows[0] else "caption-start"
    return words(f"{name}-with", phase=phase.name, **facts) if phase else words(name, **facts)


def told(figure: Figure, words: Words) -> str:
    """What a figure shows: its own caption, or the moment; of a state diagram, its title."""
    if figure.caption:
        return figure.caption
    if figure.kind == "states":
        from edgewise.views.states import state_diagram  # few lessons have one

        return state_diagram.title(figure.trace, figure.wish.after, words)
    return moment(figure.trace, figure.rows, words)


def broken(fault: Fault, row: int, words: Words) -> str:
    """What a figure of a broken circuit shows in an answer sheet."""
    where = "marked" if fault.where else "unmarked"
    return words("handout-broken", edge=row, fault=where)


def unbroken(text: str) -> str:
    r"""A sentence in which no line ends between a name and its number.

    Examples
    --------
    >>> unbroken("best at n = 4 to 16")
    'best at n\xa0=\xa04 to 16'
    """
    return text.replace(" = ", "\u00a0=\u00a0")


def charted(shown: Compared, words: Words) -> str:
    """What the chart shows."""
    found = shown.comparison
    return words("caption-chart", designs=", ".join(found.designs), model=found.model.name)
