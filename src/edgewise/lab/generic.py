"""A module whose parameter stays one, from modules in which it is a number.

The module is made for three values of the parameter that follow one another. Where all that differs
is numbers that grow evenly, each becomes a formula. Then it is made for the values below and above,
one by one, and held against those formulas: the range of the module is that in which every
single one agrees.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import Any, Final, TypeAlias

from edgewise.errors import EdgewiseError
from edgewise.lab.description import (
    Assign,
    Connection,
    Constant,
    Filled,
    Group,
    Linear,
    Module,
    Parameter,
    Signal,
    Store,
)
from edgewise.lab.identifier import identifier

Make: TypeAlias = Callable[[int], tuple[Module, ...]]
"""From a value of the parameter to the modules of a design, the outermost last."""
MOST_TRIED: Final = 72
"""Values of a parameter that a module is made for, at most."""
MOST_MADE: Final = 40_000
"""Parts of the outermost module, in all values that are tried, at most."""
MOST_GROUPS: Final = 200
"""Statements of it and loops, at most: what has more grows by more than its loops."""
LARGEST: Final = 64
"""Value that is tried, if a larger one is not asked for."""
_WINDOW: Final = 3


class Unfit(Exception):
    """Two modules differ in more than numbers that grow evenly."""


def kept(name: str, value: int, make: Make, *, folds_case: bool) -> Module | None:
    """The outermost module with its parameter; None where it must be written out.

    Parameters
    ----------
    name : str
        Of the parameter.
    value : int
        Its usual value.
    make : function
    folds_case : bool
        Whether the language takes ``N`` and ``n`` for the same name.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab.module import Library
    >>> def made(n):
    ...     library = Library("VHDL", folds_case=True)
    ...     library.top("gauge", catalogue.design("serial-in-parallel-out", n=n).circuit, ())
    ...     return tuple(library.modules)
    >>> found = kept("n", 8, made, folds_case=True)
    >>> found.parameter, str(found.signals[0].high)
    (Parameter(name='n', value=8, low=3, high=64), 'n - 1')
    """
    tries = _Tries(make, max(LARGEST, value))
    if (usual := tries.at(value)) is None or len(usual[-1].groups) > MOST_GROUPS:
        return None
    for first in range(value, value - _WINDOW, -1):
        window = range(first, first + _WINDOW)
        if all(tries.at(one) is not None for one in window):
            break
    else:
        return None
    letter = identifier(name)
    general = _fitted(letter, tries.pairs(*window))
    if general is None or _taken(general, letter, folds_case=folds_case):
        return None

    def reach(end: int, step: int) -> int:
        """The last value from `end` on that agrees."""
        while _fitted(letter, tries.pairs(*window[:2], end + step)) == general:
            end += step
        return end

    low, high = reach(window[0], -1), reach(window[-1], 1)
    return replace(general, parameter=Parameter(letter, value, low, high))


@dataclass
class _Tries:
    """The modules for each value, made once."""

    make: Make
    largest: int
    left: int = MOST_MADE
    made: dict[int, tuple[Module, ...] | None] = field(default_factory=dict)

    def at(self, one: int) -> tuple[Module, ...] | None:
        """The modules for a value; None if it is out of range or reach."""
        if one not in self.made:
            in_reach = 0 <= one <= self.largest and len(self.made) < MOST_TRIED and self.left > 0
            try:
                found = self.make(one) if in_reach else None
            except EdgewiseError:  # out of its range
                found = None
            self.left -= sum(map(_size, found[-1].groups)) if found else 0
            self.made[one] = found
        return self.made[one]

    def pairs(self, *values: int) -> list[tuple[int, tuple[Module, ...] | None]]:
        """Values with their modules."""
        return [(value, self.at(value)) for value in values]


def _size(group: Group) -> int:
    return group.loop[2] - group.loop[1] + 1 if group.loop else 1


def _fitted(letter: str, made: Sequence[tuple[int, tuple[Module, ...] | None]]) -> Module | None:
    """The outermost module of all these, in formulas; those inside must be the same."""
    values = [value for value, _ in made]
    libraries = [modules for _, modules in made if modules is not None]
    if len(libraries) < len(made):
        return None
    inner = libraries[0][:-1]
    if any(modules[:-1] != inner for modules in libraries):
        return None
    tops = [modules[-1] for modules in libraries]
    if all(top == tops[0] for top in tops):
        return None  # the parameter has no part in it
    try:
        found: Module = _general(letter, values, tops)
    except Unfit:
        return None
    return found


def _general(letter: str, values: Sequence[int], things: Sequence[Any]) -> Any:
    """What stands for all of these things, of which each belongs to one value."""
    first = things[0]
    if all(thing == first for thing in things):
        return first
    if any(type(thing) is not type(first) for thing in things) or isinstance(first, Linear):
        raise Unfit
    match first:
        case int():
            return _line(letter, values, things)
        case tuple():
            if any(len(thing) != len(first) for thing in things):
                raise Unfit
            return tuple(_general(letter, values, part) for part in zip(*things, strict=True))
        case Constant():
            return _filled(letter, values, [thing.bits for thing in things])
        case Signal(start=str()):
            start = _filled(letter, values, [thing.start for thing in things])
            bare = [replace(thing, start=None) for thing in things]
            return replace(_general(letter, values, bare), start=start)
        case Connection() if len(first.pieces) > 1:
            raise Unfit  # where a piece stands would be a formula, too
        case _ if is_dataclass(first):
            found = {
                one.name: _general(letter, values, [getattr(thing, one.name) for thing in things])
                for one in fields(first)
            }
            made: Any = type(first)
            return _sound(made(**found))
    raise Unfit


def _sound(thing: Any) -> Any:
    """Refuse bits that are filled anywhere but where a whole target takes them."""
    if isinstance(thing, Assign | Store):
        return thing
    if any(isinstance(one, Filled) for one in getattr(thing, "of", ())):
        raise Unfit
    if any(isinstance(one, Filled) for one in getattr(thing, "pieces", ())):
        raise Unfit
    return thing


def _line(letter: str, values: Sequence[int], numbers: Sequence[int]) -> Linear:
    (x0, x1), (y0, y1) = values[:2], numbers[:2]
    step = (y1 - y0) // (x1 - x0)
    found = Linear(letter, step, y0 - step * x0)
    if not step or any(y != step * x + found.offset for x, y in zip(values, numbers, strict=True)):
        raise Unfit
    return found


def _filled(letter: str, values: Sequence[int], bits: Sequence[str]) -> Filled:
    digits = set("".join(bits))
    if len(digits) > 1:
        raise Unfit
    return Filled(digits.pop(), _line(letter, values, [len(one) for one in bits]))


def _taken(module: Module, name: str, *, folds_case: bool) -> bool:
    """Whether something in the module is called as the parameter."""
    names = {port.signal.name for port in module.ports}
    names |= {signal.name for signal in module.signals} | {module.name}
    for group in module.groups:
        names |= {group.label, *(group.loop or ())[:1]}
        names |= {getattr(one, "label", "") for one in group.statements}
    return name in names or (folds_case and name.lower() in {one.lower() for one in names})
