"""Operands: the numbers that a run is made with, checked once against what a design takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from edgewise.errors import DesignError, EdgewiseError, Message, Place, nearest, raise_all
from edgewise.procedure import Operand


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Operands(Mapping[str, int]):
    """The operands of one run, all there and in range; made by `checked`, equal to any mapping.

    Parameters
    ----------
    of : tuple of Operand
        What they were checked against.
    numbers : mapping of str to int
        By name, in the order of `of`.

    Examples
    --------
    >>> two = (Operand("a", 4), Operand("b", 4))
    >>> operands = checked(two, {"b": 3, "a": 6})
    >>> operands, checked(two, operands) is operands
    ({'a': 6, 'b': 3}, True)
    """

    of: tuple[Operand, ...]
    numbers: Mapping[str, int]

    def __getitem__(self, name: str) -> int:
        return self.numbers[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.numbers)

    def __len__(self) -> int:
        return len(self.numbers)

    def __repr__(self) -> str:
        return repr(dict(self.numbers))


def families(of: Sequence[Operand]) -> Mapping[str, tuple[str, ...]]:
    """Operands that belong together: ``w`` stands for ``w(1)``, ``w(2)`` and so on."""
    found: dict[str, list[str]] = {}
    for operand in of:
        base, bracket, _ = operand.name.partition("(")
        if bracket:
            found.setdefault(base, []).append(operand.name)
    return {base: tuple(names) for base, names in found.items()}


def checked(
    of: tuple[Operand, ...],
    given: Mapping[str, int | Sequence[int]],
    place: Place | None = None,
) -> Operands:
    """Operands for what a design takes; those that are already are given back as they are.

    Raises
    ------
    DesignError or Problems
        Missing, unknown, negative, too large, or the wrong count; the message gives the range.
    """
    if isinstance(given, Operands) and given.of == of:
        return given
    errors: list[EdgewiseError] = []
    flat = _flat(of, given, place, errors)
    widths = {operand.name: operand.width for operand in of}
    for name, value in flat.items():
        if name not in widths:
            some = families(of).get(name)
            there = Message("operand-as-list", name=name) if some else nearest(name, widths)
            told = Message("operand-unknown", name=name, suggestion=there)
            errors.append(DesignError(told, place))
        elif value < 0 or value >> widths[name]:
            told = Message(
                "operand-outside",
                name=name,
                value=value,
                sign="negative" if value < 0 else "large",
                most=(1 << widths[name]) - 1,
                width=widths[name],
            )
            errors.append(DesignError(told, place))
    errors += [
        DesignError(Message("operand-missing", name=name, most=(1 << width) - 1), place)
        for name, width in widths.items()
        if name not in flat
    ]
    raise_all(errors)
    return Operands(of, {name: flat[name] for name in widths})


def _flat(
    of: tuple[Operand, ...],
    given: Mapping[str, int | Sequence[int]],
    place: Place | None,
    errors: list[EdgewiseError],
) -> dict[str, int]:
    """One number for each name; lists of families taken apart."""
    known = families(of)
    flat: dict[str, int] = {}
    for name, value in given.items():
        if isinstance(value, int):
            flat[name] = value
        elif name in known and len(value) == len(known[name]):
            flat.update(zip(known[name], value, strict=True))
        elif name in known:
            told = Message(
                "family-members-given",
                name=name,
                count=len(value),
                expected=len(known[name]),
                first=known[name][0],
                last=known[name][-1],
            )
            errors.append(DesignError(told, place))
            flat.update(dict.fromkeys(known[name], 0))
        elif name in {operand.name for operand in of}:
            errors.append(DesignError(Message("number-no-list", name=name), place))
            flat[name] = 0
        else:
            flat[name] = 0
    return flat
