"""Families of parts as loops: members of which each says the same, one place further."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from edgewise.lab.description import (
    Assign,
    Bits,
    Connection,
    Constant,
    Filled,
    Group,
    Index,
    Instance,
    Linear,
    Operation,
    Statement,
    Store,
    Term,
)

FEWEST: Final = 3
"""Members from which a family is a loop."""
MEMBER: Final = "member"
"""What a module used in a loop is called there."""
_Change: TypeAlias = Callable[[Bits], Bits]


def folded(groups: Sequence[Group], label: Callable[..., str]) -> tuple[Group, ...]:
    """Groups with runs of alike members as loops.

    Parameters
    ----------
    groups : sequence of Group
    label : function
        Gives a new identifier, the first of what is wished that is free.

    Examples
    --------
    >>> def inverter(i):
    ...     return Assign(Bits("y", (i,)), Operation("not", (Bits("x", (i + 1,)),)))
    >>> (loop,) = folded([Group("N", i, "N", (inverter(i),)) for i in range(4)], min)
    >>> loop.loop, str(loop.statements[0].source.of[0].span[0])
    (('i', 0, 3), 'i + 1')
    """
    found: list[Group] = []
    letter = ""
    at = 0
    while at < len(groups):
        size = _run(groups, at)
        if size < FEWEST:
            found.append(groups[at])
            at += 1
            continue
        letter = letter or label("i")
        found.append(_loop(groups[at : at + size], letter, label))
        at += size
    return tuple(found)


def _run(groups: Sequence[Group], at: int) -> int:
    """How many groups from `at` on are members of one family, each like the one before."""
    first = groups[at]
    if first.index is None or not first.statements:
        return 1
    size, steps = 1, None
    form, before = _form(first), _indices(first)
    while at + size < len(groups):
        one = groups[at + size]
        if (one.base, one.index) != (first.base, first.index + size) or _form(one) != form:
            break
        now = _indices(one)
        grown = [b - a for a, b in zip(before, now, strict=True)]
        if steps is not None and grown != steps:
            break
        before, steps = now, grown
        size += 1
    return size


def _loop(members: Sequence[Group], letter: str, label: Callable[..., str]) -> Group:
    first, second = members[0], members[1]
    assert first.index is not None
    start = _indices(first)
    steps = [b - a for a, b in zip(start, _indices(second), strict=True)]
    formulas = iter(
        Linear(letter, step, value - step * first.index) if step else value
        for value, step in zip(start, steps, strict=True)
    )

    def general(bits: Bits) -> Bits:
        return replace(bits, span=tuple(next(formulas) for _ in bits.span))

    statements = tuple(_alone(_changed(one, general)) for one in first.statements)
    last = first.index + len(members) - 1
    note = first.note.replace(f"({first.index})", f"({letter})", 1)
    name = label(first.base, f"each_{first.base}")
    return Group(first.base, None, name, statements, note, (letter, first.index, last))


def _alone(one: Statement) -> Statement:
    return replace(one, label=MEMBER) if isinstance(one, Instance) else one


def _form(group: Group) -> tuple[Statement, ...]:
    """The statements without indices."""
    return tuple(
        _alone(_changed(one, lambda bits: replace(bits, span=(0,) * len(bits.span))))
        for one in group.statements
    )


def _indices(group: Group) -> list[int]:
    found: list[Index] = []

    def noted(bits: Bits) -> Bits:
        found.extend(bits.span)
        return bits

    for one in group.statements:
        _changed(one, noted)
    return [index for index in found if isinstance(index, int)]


def _changed(one: Statement, change: _Change) -> Statement:
    """A statement with other bits, looked at in a fixed order."""
    match one:
        case Assign():
            return Assign(change(one.target), _term(one.source, change))
        case Store():
            ways = tuple(
                (None if when is None else _term(when, change), _term(value, change))
                for when, value in one.ways
            )
            return Store(change(one.target), change(one.clock), ways)
        case Instance():
            connections = tuple(
                Connection(
                    c.port,
                    tuple(p if isinstance(p, Constant) else change(p) for p in c.pieces),
                )
                for c in one.connections
            )
            return replace(one, connections=connections)


def _term(term: Term, change: _Change) -> Term:
    match term:
        case Bits():
            return change(term)
        case Constant() | Filled():
            return term
        case Operation():
            return replace(term, of=tuple(_term(one, change) for one in term.of))
