"""A whole design as circuit text, to start one's own from."""

from __future__ import annotations

from collections.abc import Iterator

from edgewise.circuit import writing
from edgewise.circuit.writing import braces, coded, folded, quoted
from edgewise.design import Design, Feed, Phase, Purpose
from edgewise.errors import DesignError, Message
from edgewise.formula import show


def text(design: Design, about: str = "", source: str = "") -> str:
    r"""The circuit text of a design; reading it again gives a design that runs alike.

    Parameters
    ----------
    design : Design
        Its parameters have numbers: they become the defaults, but only ``computes`` still
        depends on them.
    about, source : str
        Lines for people.

    Raises
    ------
    DesignError
        If it runs something that no wiring of its parts shows.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> told = text(catalogue.design("modulo-counter", m=6, k=7))
    >>> print("\n".join(told.splitlines()[-6:]))
    outputs: {count: CNT, terminal_count: CNT.terminal-count}
    procedure:
      - {phase: count, edges: 7}
    computes:
      count: k mod m
      terminal_count: k mod m div (m - 1)
    """
    if design.altered is not None:
        raise DesignError(Message("altered-without-text", design=design.name))
    own, *others = writing.documents(design.circuit)
    head = [own[0]]
    told = (("about", about), ("source", source))
    head += [f"{key}: {_line(words)}" for key, words in told if words]
    if design.parameters:
        given = [(name, str(value)) for name, value in design.parameters.items()]
        head.append(f"parameters: {braces(given)}")
    lines = [*head, *own[1:], *_behaviour(design)]
    return "---\n".join("\n".join(part) + "\n" for part in (lines, *others))


def _line(told: str) -> str:
    return quoted(" ".join(told.split()))


def _behaviour(design: Design) -> Iterator[str]:
    """Operands, procedure, and what is computed."""
    taken = frozenset({*design.parameters, *(o.name for o in design.operands)})
    if design.operands:
        widths = [(one.name, coded(str(one.width), one.code)) for one in design.operands]
        yield f"operands: {braces(list(folded(widths, taken)))}"
    if design.procedure:
        yield "procedure:"
        for phase in design.procedure:
            yield f"  - {_phase(phase)}"
    if design.waveforms:
        yield "waveforms:"
        for wave in design.waveforms:
            yield f"  {quoted(wave.input)}: {wave.text}"
    if design.computes:
        yield "computes:"
        for purpose in design.computes:
            yield f"  {quoted(purpose.output)}: {_purpose(purpose)}"


def _phase(phase: Phase) -> str:
    feeds = [(given.input, _feed(given)) for given in phase.feeds]
    return braces([("phase", phase.name), ("edges", str(phase.edges)), *feeds])


def _feed(given: Feed) -> str:
    what = "X" if given.what is None else str(given.what)
    return what if given.order == "held" else f"{what} {given.order}"


def _purpose(purpose: Purpose) -> str:
    told = show(purpose.formula)
    if purpose.after is None:
        return quoted(told)
    return braces([("value", told), ("after", str(purpose.after))])
