"""Description: what a figure shows and its values, in plain sentences of bounded length.

For those who can't see the figure, and for machines. The same figure gives the same words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Final

from edgewise.bits import Word
from edgewise.circuit.parts import noun
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.design import Design
    from edgewise.trace import Trace

MOST: Final = 2000
"""No description has more characters than this."""
_MOST_CHANGES: Final = 8


def subject(trace: Trace, words: Words = ENGLISH) -> str:
    """What ran, with its numbers.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> subject(run(catalogue.design("serial-adder", n=4), a=6, b=3))
    'bit-serial adder, n = 4, a = 6, b = 3'
    """
    numbers = [*trace.design.parameters.items(), *trace.operands.items()]
    return ", ".join([title(trace.design, words), *(f"{name} = {n}" for name, n in numbers)])


def title(design: Design, words: Words = ENGLISH) -> str:
    """What a design is called: one of the catalogue as readers call it, another as it is named.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> title(catalogue.design("ring-counter", n=4), Words("de"))
    'Ringzähler'
    """
    own, message = design.circuit.name, f"design-{design.base or design.name}"
    ours = message in words and ENGLISH(message) == own
    return words(message) if ours else own


def kind(name: str, width: int = 0, words: Words = ENGLISH) -> str:
    """A part by its kind and, where it has one, its width.

    Examples
    --------
    >>> kind("full-adder"), kind("register", 4, Words("de")), kind("pulse-shaper")
    ('a full adder', 'ein Register mit 4 Bits', 'a pulse shaper')
    """
    message = f"kind-{name}"
    told = words(message) if message in words else words("about-kind-guest", kind=noun(name))
    return words("about-kind-wide", kind=told, width=width) if width else told


def spell(word: Word, words: Words = ENGLISH) -> str:
    """A word as digits, with its value where it has one.

    Examples
    --------
    >>> [spell(Word.parse(digits)) for digits in ("1", "X", "0110", "X1", "XXX")]
    ['1', 'unknown', '0110 (6)', 'X1', 'unknown']
    """
    if word.unknown.bit_count() == word.width:
        return words("figure-unknown")
    return f"{word} ({word.value})" if word.readable and word.width > 1 else str(word)


def moment(trace: Trace, row: int, words: Words = ENGLISH) -> str:
    """When a row stands, and whose inputs it has.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> moment(trace, 0), moment(trace, 7, Words("de"))
    ('at the start, inputs of phase load', 'nach Flanke 7, Eingänge der Phase add')
    """
    phase = trace.phase(row)
    name = "figure-heading-after" if row else "figure-heading-start"
    facts = {"edge": row} if row else {}
    return words(f"{name}-with", phase=phase.name, **facts) if phase else words(name, **facts)


def state(
    names: Sequence[str],
    values: Sequence[Word],
    row: int | None = None,
    phase: str = "",
    words: Words = ENGLISH,
) -> str:
    """What each name holds in one row; without a row, of a circuit that has no edges.

    Examples
    --------
    >>> state(["A", "C"], [Word.of(5, 4), Word.of(0, 1)], 3)
    'After edge 3: A is 0101 (5), C is 0.'
    >>> state(["C"], [Word.of(0, 1)], 3, "add", Words("de"))
    'Nach Flanke 3, mit den Eingängen der Phase add: C ist 0.'
    """
    pairs = zip(names, values, strict=True)
    held = ", ".join(words("about-holds", name=n, value=spell(w, words)) for n, w in pairs)
    if row is None:
        return words("about-state", held=held)
    name = "about-state-after" if row else "about-state-start"
    facts: dict[str, int | str] = {"held": held, **({"edge": row} if row else {})}
    return words(f"{name}-with", phase=phase, **facts) if phase else words(name, **facts)


def history(name: str, values: Sequence[Word], rows: Sequence[int], words: Words = ENGLISH) -> str:
    """What a name holds from row to row, said where it changes.

    Examples
    --------
    >>> history("C", [Word.parse(b) for b in "X001"], range(4))
    'C is unknown at the start, 0 after edge 1, 1 after edge 3.'
    """
    pairs = zip(values, rows, strict=True)
    runs = [(word, next(run)[1]) for word, run in groupby(pairs, key=lambda pair: pair[0])]
    if len(runs) == 1 and len(rows) > 1:
        return words("about-throughout", name=name, value=spell(values[0], words))
    said = [
        words("about-from-edge", value=spell(word, words), edge=row)
        if row
        else words("about-from-start", value=spell(word, words))
        for word, row in runs
    ]
    left = len(said) - _MOST_CHANGES
    if left <= 0:
        return words("about-history", name=name, values=", ".join(said))
    told = ", ".join(said[: _MOST_CHANGES - 1])
    return words("about-history-cut", name=name, values=told, left=left, last=said[-1])


def phases(trace: Trace, rows: Sequence[int], words: Words = ENGLISH) -> str:
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
        if first < last:
            said.append(words("about-phase-edges", phase=phase.name, first=first, last=last))
        elif first == last:
            said.append(words("about-phase-edge", phase=phase.name, edge=first))
    return words("about-phases", phases=", ".join(said)) if said else ""


def bounded(sentences: Iterable[str], most: int = MOST, words: Words = ENGLISH) -> str:
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
    room = most - len(words("about-more", count=9999)) - 1
    for sentence in given:
        room -= len(sentence) + 1
        if room < 0:
            break
        kept.append(sentence)
    return " ".join([*kept, words("about-more", count=len(given) - len(kept))])
