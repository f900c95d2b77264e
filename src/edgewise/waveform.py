"""Waveforms: what an input is fed in time, where no procedure of clock edges says so."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.errors import DesignError, Place, TextError
from edgewise.formula import parse
from edgewise.yamltext import Scalar, Sequence, Tree, kind_of, shortened

MOST_STEPS: Final = 10_000
"""Steps of one waveform, at most."""
_TIME: Final = re.compile(r"\d{1,9}(\.\d{1,2})?", re.ASCII)
_STEP: Final = re.compile(r"(?P<value>.+?)(\s+after\s+(?P<time>\S.*))?", re.DOTALL)
_CLOCK: Final = ("period", "first", "high", "pulses")
"""The words of a clock's waveform, in the order of a sentence."""
EXAMPLE: Final = "1, 0 after 10, 1 after 20"


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
            raise TextError(f"waveform of {name}: expected {EXAMPLE}", tree.place)
        texts = [one.text.strip() for one in items]
    elif isinstance(tree, Scalar):
        texts = [piece.strip() for piece in tree.text.split(",")]
    else:
        raise TextError(
            f"waveform of {name}: found {kind_of(tree)}, expected {EXAMPLE}", tree.place
        )
    reading = _Reading(name, tree.place, Numbers(values))
    clock = texts[0].partition(" ")[0] == "period"
    steps = tuple((reading.clock if clock else reading.steps)(texts))
    if len(steps) > MOST_STEPS:
        raise TextError(
            f"waveform of {name}: {len(steps):,} steps are too many; the limit is {MOST_STEPS:,}",
            tree.place,
        )
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
                raise TextError(
                    f"waveform of {self.name}: {_plain(time)} comes after {_plain(before)};"
                    " expected times that rise",
                    self.place,
                )
            before = time
            yield time, None if step["value"] == "X" else self.number(step["value"])

    def clock(self, texts: list[str]) -> Iterator[tuple[Fraction, int | None]]:
        """Pulses at equal distances, half of a period high unless told otherwise."""
        example = "period 20, first 10, pulses 8"
        given: dict[str, str] = {}
        for text in texts:
            word, _, told = text.partition(" ")
            if word not in _CLOCK or word in given or not told.strip():
                raise self.error(text, example)
            given[word] = told.strip()
        if "pulses" not in given:
            raise TextError(f"waveform of {self.name}: say how many pulses, {example}", self.place)
        period, pulses = self.time(given["period"]), self.number(given["pulses"])
        first = self.time(given["first"]) if "first" in given else period / 2
        high = self.time(given["high"]) if "high" in given else period / 2
        if not (0 < high < period and first > 0 and 0 <= pulses <= MOST_STEPS // 2):
            raise TextError(
                f"waveform of {self.name}: expected a first pulse after 0, one that is high for"
                f" less than the period, and 0..{MOST_STEPS // 2:,} of them",
                self.place,
            )
        yield Fraction(0), 0
        for at in range(pulses):
            yield first + at * period, 1
            yield first + at * period + high, 0

    def time(self, text: str) -> Fraction:
        """A time, with two decimals at most, or a formula for a whole one."""
        if _TIME.fullmatch(text):
            return Fraction(text)
        time = self.number(text)
        if time < 0:
            raise TextError(
                f"waveform of {self.name}: the time {time} is negative; expected 0 or more",
                self.place,
            )
        return Fraction(time)

    def number(self, text: str) -> int:
        """A number, or a formula in the parameters."""
        formula = parse(text, place=self.place)
        return number(evaluate_at(formula, self.numbers, self.place))

    def error(self, text: str, example: str) -> TextError:
        """For what is no step of a waveform."""
        return TextError(
            f"waveform of {self.name}: found {shortened(text) or 'nothing'}, expected {example}",
            self.place,
        )


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
                f"{option}: found {shortened(item)}, expected NAME: {EXAMPLE}; others after a"
                " semicolon"
            )
        if name in found:
            raise DesignError(f"{option}: {name} is given twice")
        found[name] = read(name, Scalar(told, Place(option)), {})
    return tuple(found.values())
