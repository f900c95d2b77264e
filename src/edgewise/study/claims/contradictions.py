"""Answers of a run that are not those which the design itself promises."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.bits import Word
from edgewise.errors import Message
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Contradiction:
    """An output that is not what the design's own ``computes`` says.

    Parameters
    ----------
    output : str
    row : int
        After which edge; 0 without edges.
    word : Word
        What stands there.
    expected : int
    """

    output: str
    row: int
    word: Word
    expected: int

    def __str__(self) -> str:
        told = Message(
            "contradiction",
            output=self.output,
            row=self.row,
            word=str(self.word),
            known="yes" if self.word.readable else "no",
            value=self.word.value if self.word.readable else "",
            expected=self.expected,
        )
        return str(told)


def contradictions(trace: Trace) -> Iterator[Contradiction]:
    """The outputs of a run that are not what its design is said to compute.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-accumulator", n=4), w=[12, 12, 1])
    >>> [str(one) for one in contradictions(trace)]
    ["sum after edge 16 is 1010 (10), but the design's own computes says 9"]
    """
    expected = trace.design.expected(trace.operands)
    for purpose in trace.design.computes:
        row = trace.edges if purpose.after is None else purpose.after
        word = trace.word(purpose.output, row)
        if trace.design.read(purpose.output, word) != expected[purpose.output]:
            yield Contradiction(purpose.output, row, word, expected[purpose.output])
