"""Edges at which a false claim would be true."""

from __future__ import annotations

import random
import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import reduce
from itertools import islice
from typing import Final

from edgewise.arithmetic import evaluate, truth
from edgewise.engines.purpose import Unsupported
from edgewise.errors import EdgewiseError, Place, UnknownBit
from edgewise.formula import Binary, Node
from edgewise.study import settling
from edgewise.study.grounding import ground
from edgewise.study.readings import Run
from edgewise.study.scope import Scope, times
from edgewise.study.stepping import Steps

FEW: Final = 10
"""Operand bits up to which every combination is run on the reference engine."""
_SAMPLES: Final = 24
"""Runs that sort out most edges before an engine is asked about the others."""
_SECONDS: Final = 5.0
"""How long that may take in all; beyond, nothing is said."""


def instead(
    claimed: Node,
    failing: Run,
    steps: Steps,
    names: Sequence[str],
    place: Place | None = None,
) -> str:
    """The edges at which a claim holds instead, if all its times are one and there are any.

    Parameters
    ----------
    claimed : Node
        The claim, false as it stands.
    failing : Run
        A run in which it is.
    steps : Steps
        Of the design.
    names : sequence of str
        Operands that the claim is about all values of.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> steps = Steps(catalogue.design("serial-adder", n=6))
    >>> run = steps.of({"a": 0, "b": 1})
    >>> instead(parse("S after 11 == (a + b) mod 64"), run, steps, ("a", "b"))
    'It holds from edge 12 on.'
    """
    scope = Scope(failing, place=place)
    rows = {scope.row_of(timed) for timed in times(claimed)}
    if len(rows) != 1:
        return ""
    (row,) = rows
    held = _held(claimed, failing, steps, names, row)
    return _told(held, row, failing.design.edges) if held else ""


def _held(claimed: Node, failing: Run, steps: Steps, names: Sequence[str], row: int) -> set[int]:
    """The rows at which it holds for all operands, or those of the stretch nearest to `row`."""
    widths = {operand.name: operand.width for operand in steps.design.operands}
    others = {name: value for name, value in failing.operands.items() if name not in names}
    everything = sum(widths[name] for name in names) <= FEW
    runs = steps.runs(names, others) if everything else _sampled(steps, widths, names, others)
    held = set(range(steps.design.edges + 1))
    for run in _chained([failing], runs):
        held = {k for k in held if true(claimed, Scope(run, instead=k))}
        if not held:
            return held
    return held if everything else _settled(claimed, failing, others, held, row)


def _chained(first: Iterable[Run], then: Iterable[Run]) -> Iterator[Run]:
    yield from first
    yield from then


def _sampled(
    steps: Steps, widths: Mapping[str, int], names: Sequence[str], others: Mapping[str, int]
) -> Iterator[Run]:
    chance = random.Random(0)  # noqa: S311  # always the same
    for top in islice((0, 1, None, *[None] * _SAMPLES), _SAMPLES):
        given = {
            name: chance.getrandbits(widths[name])
            if top is None
            else top * ((1 << widths[name]) - 1)
            for name in names
        }
        yield steps.of({**others, **given})


def _settled(
    claimed: Node, failing: Run, others: Mapping[str, int], held: set[int], row: int
) -> set[int]:
    """Of some rows those, around the nearest, at which an engine finds it true for all."""
    until = time.monotonic() + _SECONDS
    names = [name for name in failing.operands if name not in others]

    def holds(rows: Sequence[int]) -> bool:
        left = until - time.monotonic()
        if left <= 0:
            return False
        asked = [ground(claimed, Scope(failing, instead=k), names) for k in rows]
        whole = reduce(lambda a, b: Binary("and", a, b), asked)
        try:
            settled = settling.settle(failing.design, whole, others, limit=left)
        except (Unsupported, EdgewiseError):
            return False
        return settled.outcome == "proved"

    if len(held) <= 64 and holds(sorted(held)):  # one question for all
        return held
    near = next((k for k in sorted(held, key=lambda k: (abs(k - row), -k)) if holds([k])), None)
    if near is None:
        return set()
    found = {near}
    for way in (-1, 1):
        k = near + way
        while k in held and holds([k]):
            found.add(k)
            k += way
    return found


def _told(held: set[int], row: int, last: int) -> str:
    """The stretch nearest to `row`, in words."""
    near = min(held, key=lambda k: (abs(k - row), -k))
    first = final = near
    while first - 1 in held:
        first -= 1
    while final + 1 in held:
        final += 1
    if final == last:
        return f"It holds from edge {first} on."
    if first == final:
        return f"It holds after edge {first} only." if first else "It holds at the start only."
    return f"It holds after edges {first} to {final} only."


def true(node: Node, scope: Scope) -> bool:
    """Whether a truth is true in a run; with an unknown bit in it, it is not."""
    try:
        return truth(evaluate(node, scope))
    except UnknownBit:
        return False
    except EdgewiseError as wrong:
        if wrong.place is None:
            raise type(wrong)(wrong.message, scope.place) from None
        raise
