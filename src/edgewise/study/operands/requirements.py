"""What is asked of operands besides that they teach well: fixed ones, features, a range."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

from edgewise.design import Design, Operand
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.replay import bits_of, truths
from edgewise.engines.symbolic.arithmetic import Words
from edgewise.engines.symbolic.readings import of
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term
from edgewise.errors import (
    DesignError,
    EdgewiseError,
    Fact,
    Message,
    Suggestion,
    nearest,
    raise_all,
)
from edgewise.operands import out_of_range
from edgewise.spelling import close
from edgewise.study.operands.criteria import ROWS, Criteria, criteria
from edgewise.study.operands.legibility import total
from edgewise.words.lists import equations

_CHAIN: Final = "carry chain"
_NO_CARRY: Final = "no carry"
_ALL_ROWS: Final = "all rows"
_ROW: Final = "row "
_OF_MISCONCEPTION: Final = "misconception "
FEATURES: Final = (
    f"{_CHAIN} 4",
    _NO_CARRY,
    _ALL_ROWS,
    "row 011",
    "misconception carry-dropped",
)
"""One example of each kind of feature."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What operands must be like.

    Parameters
    ----------
    fixed : mapping of str to int
        Operands that have one value only.
    features : tuple of str
        ``carry chain 4`` (4 places or more), ``no carry``, ``all rows`` and ``row 011`` (of
        the full adder's truth table), ``misconception carry-dropped`` (it gives a wrong answer).
    sum : str, optional
        ``fits`` or ``overflows``: whether the sum of all operands fits the output ``sum``.
    low, high : int, optional
        Each operand that is not fixed, in decimal.

    Examples
    --------
    >>> str(Wish({"a": 9}, ("carry chain 4",), "fits", high=99))
    'a = 9, carry chain 4, a sum that fits, operands up to 99'
    """

    fixed: Mapping[str, int] = field(default_factory=dict)
    features: tuple[str, ...] = ()
    sum: Literal["fits", "overflows"] | None = None
    low: int | None = None
    high: int | None = None

    def __str__(self) -> str:
        said: list[Fact] = [equations(self.fixed.items())] if self.fixed else []
        said += self.features
        said += [Message("wish-sum", sum=self.sum)] if self.sum else []
        ends = {"low": self.low, "high": self.high}
        given: dict[str, Fact] = {name: end for name, end in ends.items() if end is not None}
        said += [Message(f"wish-{'-'.join(given)}", **given)] if given else []
        return ", ".join(map(str, said))


def wanted(design: Design, wish: Wish, asked: Criteria) -> Term:
    """Where a wish comes true.

    Raises
    ------
    DesignError or Problems
        An unknown operand or feature, a value out of range, a feature that the design lacks.
    """
    terms, parts, errors = asked.terms, [TRUE], []
    for found in _parts(design, wish, asked):
        if isinstance(found, EdgewiseError):
            errors.append(found)
        else:
            parts.append(found)
    raise_all(errors)
    return terms.all_of(parts)


def fulfilled(design: Design, wish: Wish, operands: Mapping[str, int]) -> bool:
    """Whether operands are such as a wish asks for, whoever says so.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adder = catalogue.design("serial-adder", n=4)
    >>> fulfilled(adder, Wish(features=("no carry",)), {"a": 5, "b": 2})
    True
    >>> fulfilled(adder, Wish(features=("no carry",)), {"a": 5, "b": 3})
    False
    """
    asked = criteria(design)
    bits = bits_of(design.values(operands), design.operands)
    (holds,) = truths(asked.terms, [wanted(design, wish, asked)], bits)
    return holds


def _parts(design: Design, wish: Wish, asked: Criteria) -> Iterator[Term | EdgewiseError]:
    for name, value in wish.fixed.items():
        yield _fixed(design, name, value, asked)
    for feature in wish.features:
        try:
            yield _feature(feature, asked)
        except EdgewiseError as wrong:
            yield wrong
    if wish.sum:
        yield _sum(design, wish.sum, asked)
    for operand in design.operands:
        if operand.name not in wish.fixed and operand.width > 1:  # a carry-in is no number
            yield _in_range(operand, wish, asked)


def _fixed(design: Design, name: str, value: int, asked: Criteria) -> Term | EdgewiseError:
    known = {operand.name: operand for operand in design.operands}
    if name not in known:
        return DesignError(Message("operand-unknown", name=name, suggestion=nearest(name, known)))
    if value not in known[name].numbers:
        return DesignError(out_of_range(known[name], value))
    bits = bits_of({name: value}, [known[name]])
    return asked.terms.all_of(asked.terms.variable(v) ^ 1 ^ bit for v, bit in bits.items())


def _sum(design: Design, how: str, asked: Criteria) -> Term | EdgewiseError:
    bits = design.netlist.outputs.get("sum")
    if bits is None:
        return DesignError(Message("sum-missing", design=design.name, how=how))
    terms, words = asked.terms, Words(asked.terms)
    number, room = total(terms, Space.of(design)), design.codes["sum"].numbers(len(bits))
    below = words.less(number, words.number(room[0])).one
    above = words.less(words.number(room[-1]), number).one
    return terms.either(below, above) ^ (how == "fits")


def _in_range(operand: Operand, wish: Wish, asked: Criteria) -> Term:
    terms, words = asked.terms, Words(asked.terms)
    number, inside = of(words, operand), TRUE
    if wish.low is not None:
        inside = terms.both(inside, words.less(number, words.number(wish.low)).one ^ 1)
    if wish.high is not None:
        inside = terms.both(inside, words.less(words.number(wish.high), number).one ^ 1)
    return inside


def _feature(text: str, asked: Criteria) -> Term:
    for pattern, make in _KINDS:
        match = re.fullmatch(pattern, " ".join(text.split()))
        if match:
            return make(asked, *match.groups())
    meant = close(text, FEATURES)
    known = Suggestion(meant) if meant else Message("features-there", names=", ".join(FEATURES))
    raise DesignError(Message("feature-unknown", feature=text, known=known))


def _runs(asked: Criteria, places: str) -> Term:
    if not asked.rows:
        raise _lacking(_CHAIN)
    m = int(places)
    if m == 0:
        return TRUE
    return asked.runs[m - 1] if m <= len(asked.runs) else FALSE


def _no_carry(asked: Criteria) -> Term:
    if not asked.rows:
        raise _lacking(_NO_CARRY)
    return asked.terms.any_of(asked.carries) ^ 1


def _all_rows(asked: Criteria) -> Term:
    if not asked.rows:
        raise _lacking(_ALL_ROWS)
    return asked.terms.all_of(asked.rows)


def _row(asked: Criteria, row: str) -> Term:
    if not asked.rows:
        raise _lacking(_ROW + row)
    return asked.rows[ROWS.index(row)]


def _misconception(asked: Criteria, name: str) -> Term:
    known = {misconception.name: term for misconception, term in asked.wrong}
    if name not in known:
        there = nearest(name, known)
        raise DesignError(
            Message(
                "misconception-inapplicable", feature=_OF_MISCONCEPTION + name, suggestion=there
            )
        )
    return known[name]


def _lacking(feature: str) -> DesignError:
    return DesignError(Message("feature-inapplicable", feature=feature))


_KINDS: Final[Sequence[tuple[str, Callable[..., Term]]]] = (
    (rf"{_CHAIN} (\d{{1,4}})(?: places?)?", _runs),
    (_NO_CARRY, _no_carry),
    (_ALL_ROWS, _all_rows),
    (rf"{_ROW}([01]{{3}})", _row),
    (rf"{_OF_MISCONCEPTION}(\S+)", _misconception),
)


def longest(asked: Criteria, possible: Callable[[Term], bool]) -> int:
    """The longest carry chain that is possible, in places."""
    places = 0
    while places < len(asked.runs) and possible(asked.runs[places]):
        places += 1
    return places
