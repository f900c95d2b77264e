"""Description: what a figure shows and its values, in plain sentences of bounded length.

For those who can't see the figure, and for machines. The same figure gives the same words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Final

from edgewise.bits import Word

if TYPE_CHECKING:
    from edgewise.trace import Trace

MOST: Final = 2000
"""No description has more characters than this."""
_MOST_CHANGES: Final = 8


def subject(trace: Trace) -> str:
    """What ran, with its numbers.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> subject(run(catalogue.design("serial-adder", n=4), a=6, b=3))
    'bit-serial adder, n = 4, a = 6, b = 3'
    """
    numbers = [*trace.design.parameters.items(), *trace.operands.items()]
    return ", ".join([trace.design.circuit.name, *(f"{name} = {n}" for name, n in numbers)])


def spell(word: Word) -> str:
    """A word as digits, with its unsigned value where it has one.

    Examples
    --------
    >>> [spell(Word.parse(digits)) for digits in ("1", "X", "0110", "X1", "XXX")]
    ['1', 'unknown', '0110 (6)', 'X1', 'unknown']
    """
    if word.unknown.bit_count() == word.width:
        return "unknown"
    return f"{word} ({word.value})" if word.known and word.width > 1 else str(word)


def moment(row: int) -> str:
    """When a row stands.

    Examples
    --------
    >>> moment(0), moment(7)
    ('at the start', 'after edge 7')
    """
    return f"after edge {row}" if row else "at the start"


def state(names: Sequence[str], words: Sequence[Word], row: int | None = None) -> str:
    """What each name holds in one row; without a row, of a circuit that has no edges.

    Examples
    --------
    >>> state(["A", "C"], [Word.of(5, 4), Word.of(0, 1)], 3)
    'After edge 3: A is 0101 (5), C is 0.'
    """
    held = ", ".join(f"{n} is {spell(w)}" for n, w in zip(names, words, strict=True))
    if row is None:
        return f"{held}."
    when = moment(row)
    return f"{when[0].upper()}{when[1:]}: {held}."


def history(name: str, words: Sequence[Word], rows: Sequence[int]) -> str:
    """What a name holds from row to row, said where it changes.

    Examples
    --------
    >>> history("C", [Word.parse(b) for b in "X001"], range(4))
    'C is unknown at the start, 0 after edge 1, 1 after edge 3.'
    """
    pairs = zip(words, rows, strict=True)
    runs = [(word, next(run)[1]) for word, run in groupby(pairs, key=lambda pair: pair[0])]
    said = [f"{spell(word)} {moment(row)}" for word, row in runs]
    if len(said) == 1 and len(rows) > 1:
        return f"{name} is {spell(words[0])} throughout."
    if len(said) > _MOST_CHANGES:
        left = len(said) - _MOST_CHANGES
        said = [*said[: _MOST_CHANGES - 1], f"{left} more values, and at last {said[-1]}"]
    return f"{name} is {', '.join(said)}."


def phases(trace: Trace, rows: Sequence[int]) -> str:
    """Which edges belong to which phase, as far as the rows go; empty without phases.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> phases(run(catalogue.design("serial-adder", n=4), a=6, b=3), range(9))
    'Phase load is edges 1 to 4, add is edges 5 to 8.'
    """
    said = []
    for phase, opening, closing in trace.design.spans:
        first, last = max(opening, rows[0]), min(closing, rows[-1])
        if first <= last:
            edges = f"edges {first} to {last}" if first < last else f"edge {first}"
            said.append(f"{phase.name} is {edges}")
    return f"Phase {', '.join(said)}." if said else ""


def bounded(sentences: Iterable[str], most: int = MOST) -> str:
    """As many whole sentences as fit; the rest is counted.

    Examples
    --------
    >>> bounded(["A is 1, later 0.", "", "B is 0, later 1.", "C is 1."], most=40)
    '3 more are in the figure.'
    >>> bounded(["A is 1.", "", "B is 0."], most=40)
    'A is 1. B is 0.'
    """
    given = [sentence for sentence in sentences if sentence]
    text = " ".join(given)
    if len(text) <= most:
        return text
    kept: list[str] = []
    room = most - len(" 9999 more are in the figure.")
    for sentence in given:
        room -= len(sentence) + 1
        if room < 0:
            break
        kept.append(sentence)
    return " ".join([*kept, f"{len(given) - len(kept)} more are in the figure."])
