"""Conditions on the costs of a design, as a need has them: read, and seen to hold.

They are comparisons of the formula language, as `edgewise.study.compare.needs` tells.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Final

from edgewise.arithmetic import (
    FUNCTIONS,
    Numbers,
    Value,
    call,
    evaluate,
    evaluate_at,
    number,
    truth,
)
from edgewise.errors import Message, Place, TextError, nearest
from edgewise.formula import Binary, Name, Node, Number, Select, Timed, names_in, parse
from edgewise.listing import either
from edgewise.study.cost.measure import QUANTITIES, SURE, Cost
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology

MOST_DIGITS: Final = 18
"""Digits of a number in a need, at most."""
_COMPARED: Final = ("==", "!=", "<=", ">=", "<", ">")
_UNIT: Final = re.compile(r"(?P<formula>.*[\d)])\s*(?P<unit>[A-Za-z][A-Za-z -]*)", re.DOTALL)
_PRODUCT: Final = re.compile(r"\barea-delay( product)?\b")
_DECIMAL: Final = re.compile(r"([0-9]+)\.[0-9]+")
_LONG: Final = re.compile(rf"[0-9]{{{MOST_DIGITS + 1},}}")
_SINGLE: Final = re.compile(r"(?<![=<>!])=(?!=)")
KNOWN: Final = tuple(name for name in QUANTITIES if name != "throughput")
"""Quantities that a condition may name."""
_OF_AREA: Final = ("area", "logic", "storage")
_OF_TIME: Final = ("time", "period")
_COUNTS: Final[Mapping[str, tuple[str, ...]]] = {
    "gates": ("gates",),
    "flip_flops": ("flip-flops",),
    "edges": ("edges", "clock edges"),
    "toggles": ("toggles",),
}


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition, as it was written and as a tree."""

    text: str
    truth: Node


@dataclass(frozen=True, slots=True)
class Need:
    """Conditions that hold together.

    Parameters
    ----------
    text : str
    conditions : tuple of Condition
    fixed : tuple of (str, int)
        Parameters that are to equal a number.
    """

    text: str
    conditions: tuple[Condition, ...]
    fixed: tuple[tuple[str, int], ...]


def read(
    text: str, parameters: Sequence[str], model: Technology = UNIT_GATE, place: Place | None = None
) -> Need:
    """Read a need.

    Parameters
    ----------
    text : str
    parameters : sequence of str
        Names that designs have as parameters.
    model : Technology
        Whose units may stand behind a number.

    Raises
    ------
    TextError
        If it can't be read: an unknown name or unit, or something that is no comparison.

    Examples
    --------
    >>> need = read("time <= 40 gate delays, n = 32", ["n"])
    >>> [condition.text for condition in need.conditions], need.fixed
    (['time <= 40 gate delays', 'n = 32'], (('n', 32),))
    """
    conditions: list[Condition] = []
    fixed: list[tuple[str, int]] = []
    for part in _split(text):
        node = _condition(part, parameters, model, place)
        conditions.append(Condition(part, node))
        match node:
            case Binary("==", Name(base=name, steps=()), Number(value=value)) if name in parameters:
                fixed.append((name, value))
    if not conditions:
        raise TextError(Message("need-empty"), place)
    return Need(text, tuple(conditions), tuple(fixed))


def _split(text: str) -> Iterator[str]:
    """The conditions: commas between parentheses don't count."""
    depth, part = 0, ""
    for character in [*text, ","]:
        depth += (character == "(") - (character == ")")
        if character == "," and depth <= 0:
            if part.strip():
                yield part.strip()
            part = ""
        else:
            part += character


def _condition(
    part: str, parameters: Sequence[str], model: Technology, place: Place | None
) -> Node:
    text = part.replace("flip-flops", "flip_flops")
    text = _PRODUCT.sub("area_delay", text)
    long = _LONG.search(text)
    if long:
        raise TextError(
            Message("need-digits", need=part[:40], count=len(long[0]), most=MOST_DIGITS), place
        )
    decimal = _DECIMAL.search(text)
    if decimal:
        raise TextError(
            Message("need-decimal", need=part, found=decimal[0], whole=int(decimal[1]) + 1), place
        )
    unit = ""
    found = _UNIT.fullmatch(text)
    if found:
        text, unit = found["formula"], found["unit"].strip()
    node: Node = parse(_SINGLE.sub("==", text), place=place)
    if not (isinstance(node, Binary) and node.operator in _COMPARED):
        raise TextError(Message("need-no-condition", need=part), place)
    known = [*KNOWN, *parameters]
    used = [name.base for name in names_in(node)]
    for name in used:
        if name not in known and name not in FUNCTIONS:
            raise TextError(
                Message("quantity-unknown", name=name, suggestion=nearest(name, known)), place
            )
    if unit:
        _check_unit(part, unit.replace("flip_flops", "flip-flops"), used, model, place)
    _check_bounds(part, node, place)
    return node


def _check_bounds(part: str, node: Binary, place: Place | None) -> None:
    """A bound that can't be computed is told before anything is measured for it."""
    for side in (node.left, node.right):
        if not list(names_in(side)):
            try:
                number(evaluate_at(side, Numbers({}), place))
            except TextError as wrong:
                raise TextError(Message("within", what=part, told=wrong.told), place) from None


def _check_unit(
    part: str, unit: str, used: Sequence[str], model: Technology, place: Place | None
) -> None:
    """A unit must be that of a quantity in the condition."""
    fitting: list[str] = []
    for name in used:
        if name in _OF_AREA:
            fitting.append(model.area_unit)
        elif name in _OF_TIME:
            fitting.append(model.time_unit)
        fitting += _COUNTS.get(name, ())
    # "40 gates" is how a class says 40 gate delays, or 40 gate units.
    loose = ["gates"] if any(one.startswith("gate") for one in fitting) else []
    singular = [one.removesuffix("s") for one in fitting if one != "ns"]
    if fitting and unit in (*fitting, *singular, *loose):
        return
    told = Message(
        "need-unit",
        need=part,
        found=unit,
        count=len(fitting),
        units=either(dict.fromkeys(fitting)),
        model=model.name,
    )
    raise TextError(told, place)


class _Absent(TextError):
    """A design has no parameter of that name."""


@dataclass(frozen=True, slots=True)
class _Figures:
    """The scope of a condition: a cost's quantities and parameters."""

    cost: Cost

    def look_up(self, name: Name) -> Value:
        match name.steps:
            case ():
                parameter = self.cost.parameter(name.base)
                if parameter is not None:
                    return parameter
                if name.base in KNOWN:
                    return ceil(self.cost.figure(name.base))
            case (Select(items=items),) if name.base in FUNCTIONS:
                return call(name.base, [number(evaluate(item, self)) for item in items])
        raise _Absent(Message("figure-missing", design=self.cost.design, name=name.base))

    def at_time(self, _timed: Timed) -> Value:
        raise TextError(Message("need-timed"))


def holds(condition: Condition, cost: Cost) -> bool:
    """Whether a design satisfies a condition; one without a parameter named in it does not.

    Raises
    ------
    TextError
        If that can't be computed: a number too large, a division by zero.
    """
    try:
        return truth(evaluate(condition.truth, _Figures(cost)))
    except _Absent:
        return False
    except TextError as wrong:
        raise TextError(Message("within", what=condition.text, told=wrong.told)) from None


def unsure(condition: Condition, cost: Cost) -> bool:
    """Whether the error of a sample could turn a condition.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.cost.measure import measure
    >>> found = measure(catalogue.find("ripple-carry-adder"), {"n": 8}, activity=True)
    >>> [unsure(read(f"toggles <= {most}", ["n"]).conditions[0], found) for most in (12, 18, 24)]
    [False, True, False]
    """
    if cost.toggles is None or "toggles" not in named(condition):
        return False
    error = Fraction(SURE * cost.toggles_error)
    ends = (replace(cost, toggles=cost.toggles + way * error) for way in (-1, 1))
    return len({holds(condition, end) for end in ends}) > 1


def named(condition: Condition) -> set[str]:
    """The names in a condition."""
    return {name.base for name in names_in(condition.truth)}
