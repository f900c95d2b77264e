"""Parameters: the numbers that a design is built with, their defaults and ranges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from edgewise.arithmetic import FUNCTIONS, Numbers, evaluate_at, number
from edgewise.errors import DesignError, Message, Place, TextError, nearest
from edgewise.formula import RESERVED, Default, Node, Target, parse
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import mapping, scalar


@dataclass(frozen=True, slots=True)
class Parameter:
    """A number that a design is built with; the default may use the parameters before it."""

    name: str
    default: Node
    low: Node | None = None
    high: Node | None = None
    place: Place | None = None


def read(text: Keys) -> Iterator[Parameter]:
    """The parameters of a circuit text.

    Raises
    ------
    TextError
        A name or a default that can't be read.
    """
    tree = text.get("parameters")
    for key, value in mapping(tree, "parameters", "{n: 6 in 1..64}").pairs if tree else ():
        given = scalar(value, key.text)
        default: Default = parse(given.text, "default", given.place)
        target: Target = parse(key.text, "target", key.place)
        if target.family or target.name.steps or key.text in (*RESERVED, *FUNCTIONS):
            raise TextError(Message("parameter-name", found=key.text), key.place)
        yield Parameter(key.text, default.value, default.low, default.high, given.place)


def numbers(
    owner: str,
    parameters: Sequence[Parameter],
    given: Mapping[str, int],
    place: Place | None = None,
) -> dict[str, int]:
    """All parameters: those given, defaults for the rest, each in its range.

    Parameters
    ----------
    owner : str
        Whose they are, for messages.
    parameters : sequence of Parameter
    given : mapping of str to int
    place : Place, optional
        Of what was given.

    Raises
    ------
    DesignError
        Unknown or out of range; the message shows the range.

    Examples
    --------
    >>> from edgewise.nodes import Number
    >>> numbers("gauge", [Parameter("n", Number(6))], {})
    {'n': 6}
    """
    known = [parameter.name for parameter in parameters]
    for name in given:
        if name not in known:
            raise DesignError(
                Message(
                    "parameter-unknown", owner=owner, name=name, suggestion=nearest(name, known)
                ),
                place,
            )
    found: dict[str, int] = {}
    for p in parameters:
        scope = Numbers(found)
        if p.name in given:
            found[p.name] = given[p.name]
        else:
            found[p.name] = number(evaluate_at(p.default, scope, p.place))
        if p.low is not None and p.high is not None:
            low = number(evaluate_at(p.low, scope, p.place))
            high = number(evaluate_at(p.high, scope, p.place))
            if not low <= found[p.name] <= high:
                raise DesignError(
                    Message(
                        "parameter-range", name=p.name, value=found[p.name], low=low, high=high
                    ),
                    place if p.name in given else p.place,
                )
    return found
