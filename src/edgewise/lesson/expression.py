"""The computed values of a lesson."""

from __future__ import annotations

from edgewise import formula
from edgewise.arithmetic import Value, evaluate_at
from edgewise.errors import Place
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope, shown

__all__ = ["Run", "Scope", "compute", "shown"]


def compute(text: str, run: Run | None, place: Place | None = None) -> Value | None:
    """The value of a formula written in a lesson.

    Without a run (the design could not be built) the text is read only, to find its errors.

    Raises
    ------
    EdgewiseError
        With the place inside the formula.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> run = Run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
    >>> shown(compute("S after end", run)), shown(compute("(a + b) div 2**n", run))
    ('000001', '1')
    """
    node = formula.parse(text, place=place)
    return None if run is None else evaluate_at(node, Scope(run, place=place), place)
