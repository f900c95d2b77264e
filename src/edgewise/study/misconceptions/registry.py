"""Misconceptions: wrong ideas that can be run, as designs of their own.

A misconception turns a design into the one that its believer has in mind. Run on any engine, it
gives the answer that the idea leads to; where that differs from the truth, an example or an
exercise can tell the idea from the truth. Wrong answers are mostly right executions of a
wrong procedure (J. S. Brown and R. R. Burton, "Diagnostic Models for Procedural Bugs in
Basic Mathematical Skills", Cognitive Science 2(2), 1978, 155-192).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from edgewise.bits import Word
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, nearest
from edgewise.study.misconceptions import carry, procedure, register
from edgewise.words.messages import ENGLISH, Words

NEVER_CLEARED: Final = (
    "Brown and Burton, Cognitive Science 2(2), 1978: the carry that is never cleared"
)
COMMON: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Misconception:
    """A wrong idea.

    Parameters
    ----------
    name : str
        Ours, in words with hyphens.
    thought : str
        The idea as a learner would say it, one sentence; empty where a message has it (`said`).
    needs : str
        What a design must have for the idea to have a meaning.
    source : str
        Where it is described, or ``common practice, no source``.
    change : function
        The design of one who thinks so; None where the idea has no meaning.
    """

    name: str
    thought: str
    needs: str
    source: str
    change: Callable[[Design], Design | None]

    def said(self, words: Words = ENGLISH) -> str:
        """The thought in a language.

        Examples
        --------
        >>> find("unknown-as-0").said()
        'What is not known is 0.'
        """
        message = f"misconception-{self.name}"
        return words(message) if message in words else self.thought

    def of(self, design: Design) -> Design | None:
        """The design that the believer has in mind, or None where the misconception doesn't apply.

        It applies where it changes the design at all; whether it changes the answer depends
        on the operands.
        """
        changed = self.change(design)
        if changed is None or changed == design:
            return None
        return replace(changed, name=f"{design.name} ({self.name})")

    def why_not(self, design: Design) -> str | None:
        """Why it does not apply to a design; None where it does.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> print(find("msb-first").why_not(catalogue.design("ring-counter")))
        msb-first needs an operand that is fed bit by bit; ring-counter has none
        """
        if self.of(design) is not None:
            return None
        return f"{self.name} needs {self.needs}; {design.name} has none"


def _known(
    name: str, needs: str, source: str, change: Callable[[Design], Design | None]
) -> Misconception:
    """One of ours, whose thought is the message ``misconception-NAME``."""
    return Misconception(name, "", needs, source, change)


MISCONCEPTIONS: Final = (
    _known(
        "one-after-another",
        "a flip-flop that feeds another one",
        "IEEE 1800, clause 10.4, has it as blocking assignments in a clocked block (from memory)",
        register.in_turn,
    ),
    _known(
        "wrong-end",
        "a shift register of two bits or more that shifts one way only",
        COMMON,
        register.wrong_end,
    ),
    _known(
        "re-enters",
        "a shift register that is fed from elsewhere",
        COMMON,
        register.re_enters,
    ),
    _known(
        "carry-dropped",
        "a full adder",
        COMMON,
        carry.dropped,
    ),
    _known(
        "carry-stays-set",
        "a flip-flop that stores the carry of a full adder",
        NEVER_CLEARED,
        carry.stays_set,
    ),
    _known(
        "carry-kept-between-words",
        "a carry flip-flop with a clear",
        NEVER_CLEARED,
        carry.kept_between_words,
    ),
    _known(
        "carry-too-far",
        "a carry flip-flop, or a chain of full adders",
        COMMON,
        carry.too_far,
    ),
    _known(
        "or-for-sum",
        "a full adder",
        COMMON,
        carry.or_sum,
    ),
    _known(
        "carry-of-two",
        "a full adder",
        COMMON,
        carry.carry_of_two,
    ),
    _known(
        "msb-first",
        "an operand that is fed bit by bit",
        COMMON,
        procedure.msb_first,
    ),
    _known(
        "one-edge-early",
        "a procedure with clock edges",
        COMMON,
        procedure.early,
    ),
    _known(
        "one-edge-late",
        "a procedure with clock edges",
        COMMON,
        procedure.late,
    ),
    _known(
        "loading-not-counted",
        "a procedure of two phases or more",
        COMMON,
        procedure.loading_not_counted,
    ),
    _known(
        "enable-ignored",
        "a storage element with an enable or a gated clock",
        COMMON,
        procedure.enable_ignored,
    ),
    _known(
        "unknown-as-0",
        "an unknown initial state or an input fed X",
        COMMON,
        procedure.unknown_as(0),
    ),
    _known(
        "unknown-as-1",
        "an unknown initial state or an input fed X",
        COMMON,
        procedure.unknown_as(1),
    ),
    _known(
        "read-backwards",
        "an answer of two bits or more",
        COMMON,
        procedure.read_backwards,
    ),
)
"""Every misconception, in the order in which a list shows them."""


def find(name: str) -> Misconception:
    """The misconception of this name; the error for an unknown one suggests the nearest."""
    for misconception in MISCONCEPTIONS:
        if misconception.name == name:
            return misconception
    close = nearest(name, (misconception.name for misconception in MISCONCEPTIONS))
    raise EdgewiseError(f"there is no misconception {name}{close}")


def applicable(design: Design) -> tuple[tuple[Misconception, Design], ...]:
    """Each misconception that has a meaning for a design, with the design it leads to.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ripple = catalogue.design("ripple-carry-adder", n=4)
    >>> [misconception.name for misconception, _ in applicable(ripple)][:3]
    ['carry-dropped', 'carry-too-far', 'or-for-sum']
    """
    found = ((misconception, misconception.of(design)) for misconception in MISCONCEPTIONS)
    return tuple((idea, changed) for idea, changed in found if changed is not None)


def answers(design: Design, operands: Mapping[str, int]) -> dict[str, Word]:
    """The words at a design's outputs, where and when its answer is read.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> dropped = find("carry-dropped").of(design)
    >>> [str(answers(one, {"a": 6, "b": 3})["sum"]) for one in (design, dropped)]
    ['1001', '0101']
    """
    trace = reference.run(design, operands)
    return {
        p.output: trace.bits(
            design.netlist.outputs[p.output], trace.edges if p.after is None else p.after
        )
        for p in design.computes
    }
