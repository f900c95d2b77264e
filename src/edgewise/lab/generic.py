"""A module whose parameter stays one, from modules in which it is a number.

The module is made for three values of the parameter that follow one another. Where all that differs
is numbers that grow evenly, each becomes a formula. Then it is made for the values below and above,
one by one, and held against those formulas: the range of the module is that in which every
single one agrees.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass, replace
from itertools import product
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

MakePair: TypeAlias = Callable[[int, int], Module | None]
"""From values of two parameters to the outermost module; nothing where they don't go together."""
_PAIRS: Final = 12
"""Pairs of two parameters that are tried beside the corners."""
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
    >>> found.parameters, str(found.signals[0].high)
    ((Parameter(name='n', value=8, low=3, high=64),), 'n - 1')
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
    return replace(general, parameters=(Parameter(letter, value, low, high),))


def both(plain: Module, one: Module, other: Module, make: MakePair) -> Module | None:
    """The module with two parameters, from the ones in which each of them is kept alone.

    Each number may follow one of the two. At the corners of both ranges, and at some pairs between,
    the module is held against the one that is made for that pair; None if any differs.

    Parameters
    ----------
    plain : Module
        With numbers for both.
    one, other : Module
        Each with one parameter.
    make : function
        From a value of each to the module, with its numbers.
    """
    try:
        found: Module = _merged(plain, replace(one, parameters=()), replace(other, parameters=()))
    except Unfit:
        return None
    (first,), (second,) = one.parameters, other.parameters
    ranges = [(each.low, each.high) for each in (first, second)]
    draw = random.Random(18)  # noqa: S311  # no secret
    between = [tuple(draw.randint(*span) for span in ranges) for _ in range(_PAIRS)]
    for pair in [*product(*ranges), *between]:
        values = dict(zip((first.name, second.name), pair, strict=True))
        if _with_numbers(found, values) != make(*pair):
            return None
    return replace(found, parameters=(first, second))


def _merged(plain: Any, one: Any, other: Any) -> Any:
    """What differs from the plain thing in one of two."""
    if one == plain:
        return other
    if other == plain:
        return one
    kinds = {type(plain), type(one), type(other)}
    if isinstance(plain, tuple) and len(kinds) == 1 and len(plain) == len(one) == len(other):
        return tuple(_merged(*three) for three in zip(plain, one, other, strict=True))
    if not is_dataclass(plain) or len(kinds) > 1 or isinstance(plain, Linear):
        raise Unfit
    made: Any = type(plain)
    return made(
        **{
            one_.name: _merged(*(getattr(each, one_.name) for each in (plain, one, other)))
            for one_ in fields(plain)
        }
    )


def _with_numbers(thing: Any, values: Mapping[str, int]) -> Any:
    """A module with numbers in place of its parameters."""
    match thing:
        case Linear() if thing.letter in values:
            return thing.step * values[thing.letter] + thing.offset
        case Filled():
            width = _with_numbers(thing.width, values)
            return Constant(thing.digit * width) if isinstance(width, int) else thing
        case Signal(start=Filled()):
            start = _with_numbers(thing.start, values)
            bits = start.bits if isinstance(start, Constant) else start
            return replace(_with_numbers(replace(thing, start=None), values), start=bits)
        case tuple():
            return tuple(_with_numbers(one, values) for one in thing)
        case _ if is_dataclass(thing) and not isinstance(thing, type):
            made: Any = type(thing)
            return made(
                **{
                    one.name: _with_numbers(getattr(thing, one.name), values)
                    for one in fields(thing)
                }
            )
    return thing


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
