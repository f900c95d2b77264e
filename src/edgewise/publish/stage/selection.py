"""Selection: the multiplexers through which storage elements take what they store.

``web/selection.js`` follows them in a row to where a stored bit comes from.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.publish.stage.word_names import WordNames


@dataclass(frozen=True, slots=True)
class Selector:
    """One multiplexer of two.

    Parameters
    ----------
    output, select, when_0, when_1 : int
        Net numbers.
    control : str
        What the select bit is called: ``mode(1)``.
    word : str
        The stored word or input that it is a bit of; empty: none.
    index, width : int
        Which bit of the word, and how many that has.
    """

    output: int
    select: int
    when_0: int
    when_1: int
    control: str
    word: str
    index: int
    width: int

    def data(self) -> list[Any]:
        """As plain lists."""
        return [
            self.output,
            self.select,
            self.when_0,
            self.when_1,
            self.control,
            self.word,
            self.index,
            self.width,
        ]


def selectors(design: Design, words: WordNames | None = None) -> tuple[Selector, ...]:
    """The multiplexers in front of storage elements; `words` are the design's own, if at hand.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [s.control for s in selectors(catalogue.design("universal-shift-register", n=1))]
    ['mode(1)', 'mode(0)', 'mode(0)']
    >>> [s.control for s in selectors(catalogue.design("serial-adder-subtractor"))]
    ['load']
    """
    words = words or WordNames(design)
    return tuple(_met(words))


def _met(words: WordNames) -> Iterator[Selector]:
    ahead = [net for store in words.stores for net in (*store.takes, *store.loads, *store.left_in)]
    ahead.reverse()
    met: set[int] = set()
    while ahead:
        net = ahead.pop()
        gate = words.drivers.get(net)
        if gate is None or net in met or function(gate.operator).plain != "choose":
            continue
        met.add(net)
        select, when_0, when_1 = gate.inputs
        ahead += (when_1, when_0)
        word, _, index = words.places.get(select, ("", "", 0))
        control = words.bit(select) or words.netlist.labels[select]
        yield Selector(net, select, when_0, when_1, control, word, index, words.widths[word])
