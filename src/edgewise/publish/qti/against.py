"""What has become of a paper's questions in a package that came back."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.practice.paper import Paper
from edgewise.publish.qti import item
from edgewise.publish.qti.item import Item

_IDENTIFIER: Final = re.compile(r"paper-([0-9A-Z]{1,20})-(q[0-9]{1,4})")


def named(identifier: str) -> tuple[str, str] | None:
    """The code of the paper and the name of the question that an item is of.

    Examples
    --------
    >>> named("paper-M00T7-q1"), named("something")
    (('M00T7', 'q1'), None)
    """
    found = _IDENTIFIER.fullmatch(identifier)
    return (found[1], found[2]) if found else None


def compared(items: Sequence[Item], paper: Paper) -> Iterator[str]:
    """A sentence for each item that is not as the paper makes it; nothing where all are."""
    made: dict[str, dict[str, Item]] = {}
    for one in items:
        of = named(one.identifier)
        if of is None:
            yield f"{one.identifier[:60]} is no question of a paper"
            continue
        code, _ = of
        try:
            if code not in made:
                found = item.items(paper.variant(code))[0]
                made[code] = {other.identifier: other for other in found}
        except EdgewiseError as wrong:
            made[code] = {}
            yield wrong.message
        same = made[code].get(one.identifier)
        if same != one and made[code]:
            yield f"{one.identifier} is not as the paper makes it"
