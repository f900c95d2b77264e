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

    @property
    def patterns(self) -> dict[str, int]:
        """The bits of each, bit 0 the LSB.

        Examples
        --------
        >>> from edgewise.codes import Code
        >>> checked((Operand("a", 4, code=Code("gray")),), {"a": 5}).patterns
        {'a': 7}
        """
        return {one.name: one.pattern(self.numbers[one.name]) for one in self.of}


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
    known = {operand.name: operand for operand in of}
    for name, value in flat.items():
        if name not in known:
            some = families(of).get(name)
            there = Message("operand-as-list", name=name) if some else nearest(name, known)
            told = Message("operand-unknown", name=name, suggestion=there)
            errors.append(DesignError(told, place))
        elif value not in known[name].numbers:
            errors.append(DesignError(out_of_range(known[name], value), place))
    errors += [
        DesignError(
            Message("operand-missing", name=name, least=one.numbers[0], most=one.numbers[-1]), place
        )
        for name, one in known.items()
        if name not in flat
    ]
    raise_all(errors)
    return Operands(of, {name: flat[name] for name in known})


def out_of_range(operand: Operand, value: int) -> Message:
    """What is wrong with a number that an operand can't be.

    Examples
    --------
    >>> from edgewise.codes import Code
    >>> print(out_of_range(Operand("a", 4, code=Code("twos-complement")), 9))
    operand a is 9, which is too large; the range is -8..7 in 4 bits of two's complement
    """
    least, most = operand.numbers[0], operand.numbers[-1]
    low = "small" if operand.code.signed else "negative"
    return Message(
        "operand-range",
        name=operand.name,
        value=value,
        why="large" if value > most else low,
        least=least,
        most=most,
        width=operand.width,
        code=operand.code.name,
    )


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
