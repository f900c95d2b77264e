"""Formulas that need no grammar: a name, one bit of it, a port, a number.

Nearly all of a large circuit text is made of these.
"""

from __future__ import annotations

import re
from typing import Final

from edgewise.nodes import Dot, Drive, Name, Number, Select, Step, Target

WORDS: Final = frozenset(
    {"X", "and", "or", "not", "div", "mod", "after", "before", "for", "all", "in", "lsb", "msb"}
)
"""Words of the language: what they mean depends on where they stand, which the grammar knows."""

_PORT: Final = r"\.([A-Za-z][A-Za-z0-9_]*(?:-[A-Za-z][A-Za-z0-9_]*)*)"
_PLAIN: Final = re.compile(
    rf"(?P<base>[A-Za-z_][A-Za-z0-9_]*)(?:\((?P<member>[0-9]{{1,9}})\))?"
    rf"(?:{_PORT}(?:\((?P<bit>[0-9]{{1,9}})\))?)?|(?P<number>[0-9]{{1,9}})",
    re.ASCII,
)


def plain(text: str, start: str) -> Name | Number | Drive | Target | None:
    """What a formula of this kind means where `start` is expected; None for all others.

    Examples
    --------
    >>> plain("FA(2).carry-out", "expression")
    Name(base='FA', steps=(Select(items=(Number(value=2, at=3),)), Dot(name='carry-out')), at=0)
    >>> plain("n + 1", "expression") is None
    True
    """
    if start not in ("expression", "drive", "target"):
        return None
    found = _PLAIN.fullmatch(text)
    if found is None or found["base"] in WORDS:
        return None
    node: Name | Number
    if found["number"]:
        if start == "target":
            return None
        node = Number(int(found["number"]))
    else:
        node = _name(found)
        if start == "target":
            return Target(node)
    return Drive(node) if start == "drive" else node


def _name(found: re.Match[str]) -> Name:
    steps: list[Step] = []
    if found["member"]:
        steps.append(_index(found, "member"))
    if found[3]:
        steps.append(Dot(found[3]))
    if found["bit"]:
        steps.append(_index(found, "bit"))
    return Name(found["base"], tuple(steps))


def _index(found: re.Match[str], group: str) -> Select:
    return Select((Number(int(found[group]), found.start(group)),))
