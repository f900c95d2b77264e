"""Waveforms: what an input is fed in time, where no procedure of clock edges says so."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.errors import DesignError, Fact, Message, Place, TextError
from edgewise.formula import parse
from edgewise.yamltext import Scalar, Sequence, Tree, kind_of, shortened

MOST_STEPS: Final = 10_000
"""Steps of one waveform, at most."""
TIME: Final = re.compile(r"\d{1,9}(\.\d{1,2})?", re.ASCII)
"""A time in units of a model."""
_STEP: Final = re.compile(r"(?P<value>.+?)(\s+after\s+(?P<time>\S.*))?", re.DOTALL)
_CLOCK: Final = ("period", "first", "high", "pulses")
"""The words of a clock's waveform, in the order of a sentence."""
EXAMPLE: Final = "1, 0 after 10, 1 after 20"
PULSES: Final = "period 20, pulses 8"
_CLOCKED: Final = "period 20, first 10, pulses 8"


@dataclass(frozen=True, slots=True)
class Waveform:
    """What one input is fed from which time on.

    Parameters
    ----------
    input : str
    steps : tuple of (Fraction, int or None)
        Time, in units of a model that is chosen later, and word; None is X. The first at time 0.
    """

    input: str
    steps: tuple[tuple[Fraction, int | None], ...]
    place: Place | None = field(default=None, compare=False)

    @property
    def text(self) -> str:
        """The same as it stands in a circuit text.

        Examples
        --------
        >>> Waveform("x", ((Fraction(0), 1), (Fraction(25, 2), None))).text
        '[1, X after 12.5]'
        """
        told = []
        for time, word in self.steps:
            at = f"{float(time):.2f}".rstrip("0").rstrip(".")
            told.append(("X" if word is None else str(word)) + (f" after {at}" if time else ""))
        return f"[{', '.join(told)}]"


def read(name: str, tree: Tree, values: Mapping[str, int]) -> Waveform:
    """The waveform of an input, from a list of words and times, or as a clock.

    Raises
    ------
    TextError
        It is neither; times don't rise.

    Examples
    --------
    >>> def told(text):
    ...     steps = read("x", Scalar(text, Place("")), {"n": 2}).steps
    ...     return [(float(time), word) for time, word in steps]
    >>> told("1, 0 after 10, X after 12.5")
    [(0.0, 1), (10.0, 0), (12.5, None)]
    >>> told("period 20, pulses n")
    [(0.0, 0), (10.0, 1), (20.0, 0), (30.0, 1), (40.0, 0)]
    """
    if isinstance(tree, Sequence):
        items = [one for one in tree.items if isinstance(one, Scalar)]
        if len(items) < len(tree.items):
            raise TextError(Message("waveform-expected", name=name, example=EXAMPLE), tree.place)
        texts = [one.text.strip() for one in items]
    elif isinstance(tree, Scalar):
        texts = [piece.strip() for piece in tree.text.split(",")]
    else:
        raise TextError(
            Message("waveform-found", name=name, found=kind_of(tree), example=EXAMPLE), tree.place
        )
    reading = _Reading(name, tree.place, Numbers(values))
    clock = texts[0].partition(" ")[0] == "period"
    steps = tuple((reading.clock if clock else reading.steps)(texts))
    if len(steps) > MOST_STEPS:
        told = Message("waveform-steps-many", name=name, count=len(steps), most=MOST_STEPS)
        raise TextError(told, tree.place)
    return Waveform(name, steps, tree.place)


@dataclass(frozen=True, slots=True)
class _Reading:
    """What is known while a waveform is read."""

    name: str
    place: Place
    numbers: Numbers

    def steps(self, texts: list[str]) -> Iterator[tuple[Fraction, int | None]]:
        """A word, and others each after a time."""
        before = Fraction(-1)
        for text in texts:
            step = _STEP.fullmatch(text)
            if not step or (step["time"] is None) != (before < 0):
                raise self.error(text, EXAMPLE)
            time = self.time(step["time"]) if step["time"] else Fraction(0)
            if time <= before:
                raise self.wrong("waveform-back", time=_plain(time), before=_plain(before))
            before = time
            yield time, None if step["value"] == "X" else self.number(step["value"])

    def clock(self, texts: list[str]) -> Iterator[tuple[Fraction, int | None]]:
        """Pulses at equal distances, half of a period high unless told otherwise."""
        given: dict[str, str] = {}
        for text in texts:
            word, _, told = text.partition(" ")
            if word not in _CLOCK or word in given or not told.strip():
                raise self.error(text, _CLOCKED)
            given[word] = told.strip()
        if "pulses" not in given:
            raise self.wrong("waveform-pulses", example=_CLOCKED)
        period, pulses = self.time(given["period"]), self.number(given["pulses"])
        first = self.time(given["first"]) if "first" in given else period / 2
        high = self.time(given["high"]) if "high" in given else period / 2
        if not (0 < high < period and first > 0 and 0 <= pulses <= MOST_STEPS // 2):
            raise self.wrong("waveform-clock", most=MOST_STEPS // 2)
        yield Fraction(0), 0
        for at in range(pulses):
            yield first + at * period, 1
            yield first + at * period + high, 0

    def time(self, text: str) -> Fraction:
        """A time, with two decimals at most, or a formula for a whole one."""
        if TIME.fullmatch(text):
            return Fraction(text)
        time = self.number(text)
        if time < 0:
            raise self.wrong("waveform-time", time=time)
        return Fraction(time)

    def number(self, text: str) -> int:
        """A number, or a formula in the parameters."""
        formula = parse(text, place=self.place)
        return number(evaluate_at(formula, self.numbers, self.place))

    def wrong(self, message: str, /, **facts: Fact) -> TextError:
        """What is wrong with it, as a message of the commands."""
        return TextError(Message(message, name=self.name, **facts), self.place)

    def error(self, text: str, example: str) -> TextError:
        """For what is no step of a waveform."""
        found = shortened(text) or Message("nothing-found")
        return self.wrong("waveform-found", found=found, example=example)


def _plain(time: Fraction) -> str:
    return f"{float(time):g}"


def given(text: str, option: str) -> tuple[Waveform, ...]:
    """Waveforms as a command is given them: ``set: 1, 0 after 10; clk: period 20, pulses 8``.

    Raises
    ------
    DesignError
        No name, or one given twice; else as `read`.

    Examples
    --------
    >>> [one.input for one in given("set: 1, 0 after 10; clk: period 20, pulses 8", "")]
    ['set', 'clk']
    """
    found: dict[str, Waveform] = {}
    for item in filter(None, map(str.strip, text.split(";"))):
        name, colon, told = (piece.strip() for piece in item.partition(":"))
        if not name or not colon:
            raise DesignError(
                Message("waveform-option", option=option, found=shortened(item), example=EXAMPLE)
            )
        if name in found:
            raise DesignError(Message("option-twice", option=option, name=name))
        found[name] = read(name, Scalar(told, Place(option)), {})
    return tuple(found.values())
