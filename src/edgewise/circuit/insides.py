"""What is worked out for the inside of a kind of part: once, for all parts of that kind."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import finalize

from edgewise.circuit.model import Kind

Result = TypeVar("Result")


def once_a_kind(work: Callable[[Kind], Result]) -> Callable[[Kind], Result]:
    """`work`, whose result is kept as long as the kind itself: designs share ready kinds.

    Kinds are told apart as objects, since comparing all that is inside would take too long.

    Examples
    --------
    >>> from edgewise.circuit import parts
    >>> adder = parts.kind("full-adder", {}, {"a": 1, "b": 1, "carry-in": 1})
    >>> @once_a_kind
    ... def parts_inside(kind):
    ...     print("counting")
    ...     return len(kind.inside.parts)
    >>> parts_inside(adder), parts_inside(adder)
    counting
    (5, 5)
    """
    results: dict[int, Result] = {}

    @wraps(work)
    def recalled(kind: Kind) -> Result:
        key = id(kind)
        if key not in results:
            results[key] = work(kind)
            finalize(kind, results.pop, key, None).atexit = False
        return results[key]

    return recalled
