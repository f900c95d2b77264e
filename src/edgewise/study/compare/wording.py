"""Wording of comparisons: names and numbers in a sentence, columns of a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from edgewise.words.messages import ENGLISH, Words

SPANS: Final = 6
"""Spans of numbers told in one sentence, at most."""


def heading(parameter: str, columns: Sequence[str], words: Words) -> list[str]:
    """Over the columns of a table: the parameter, then what each is called.

    Examples
    --------
    >>> from edgewise.words.messages import ENGLISH
    >>> heading("n", ("design", "area_delay"), ENGLISH)
    ['n', 'design', 'area-delay']
    """
    return [parameter, *(words(f"compare-column-{c.replace('_', '-')}") for c in columns)]


def spans(values: Sequence[int], among: Sequence[int], words: Words = ENGLISH) -> str:
    """Numbers in a sentence: ``4 to 9, 12``; neighbours, or even steps, are told as a span."""
    steps = {b - a for a, b in pairwise(values)}
    if len(values) > 3 and len(steps) == 1 and steps != {among[1] - among[0]}:
        return f"{values[0]}, {values[1]}, …, {values[-1]}"
    index = {value: i for i, value in enumerate(among)}
    runs: list[list[int]] = []
    for value in values:
        if runs and index[value] == index[runs[-1][-1]] + 1:
            runs[-1].append(value)
        else:
            runs.append([value])
    texts: list[str] = []
    for first, *between, last in ([run[0], *run] if len(run) == 1 else run for run in runs):
        if first == last:
            texts.append(str(first))
        elif between:
            texts.append(words("compare-span", first=first, last=last))
        else:
            texts.append(f"{first}, {last}")
    if len(texts) > SPANS:
        texts[SPANS - 1 : -1] = ["…"]
    return ", ".join(texts)


def last_run(less: Sequence[int], both: Sequence[int]) -> int:
    """The first number of the last run of neighbours."""
    start = len(less) - 1
    while start and both.index(less[start]) == both.index(less[start - 1]) + 1:
        start -= 1
    return less[start]


def others(
    signs: Mapping[int, int], both: Sequence[int], start: int, end: int, winner: int
) -> list[tuple[int, list[int]]]:
    """What holds outside of the last run, unless it is plainly the other design all the way."""
    rest = [value for value in both if not start <= value <= end]
    kinds = {signs[value] for value in rest}
    if kinds == {-winner}:
        return []
    told = {sign: [v for v in rest if signs[v] == sign] for sign in (-winner, 0, winner)}
    return [(sign, values) for sign, values in told.items() if values]
