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
from types import NoneType
from typing import Final

from edgewise.bits import Word
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, nearest
from edgewise.guests import Group, Guest, GuestError, warn
from edgewise.study.misconceptions import carry, procedure, register

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
        The idea as a learner would say it, one sentence.
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


MISCONCEPTIONS: Final = (
    Misconception(
        "one-after-another",
        "The stages change one after another from the input side, so each sees what the one"
        " before it has just become.",
        "a flip-flop that feeds another one",
        "IEEE 1800, clause 10.4, has it as blocking assignments in a clocked block (from memory)",
        register.in_turn,
    ),
    Misconception(
        "wrong-end",
        "The new bit enters at the other end of the register.",
        "a shift register of two bits or more that shifts one way only",
        COMMON,
        register.wrong_end,
    ),
    Misconception(
        "re-enters",
        "The bit that leaves the register comes in again at its other end.",
        "a shift register that is fed from elsewhere",
        COMMON,
        register.re_enters,
    ),
    Misconception(
        "carry-dropped",
        "Each place is added by itself; the carry is left out.",
        "a full adder",
        COMMON,
        carry.dropped,
    ),
    Misconception(
        "carry-stays-set",
        "Once there is a carry, it is added in every place that follows.",
        "a flip-flop that stores the carry of a full adder",
        NEVER_CLEARED,
        carry.stays_set,
    ),
    Misconception(
        "carry-kept-between-words",
        "The carry that is left from one word is added to the next.",
        "a carry flip-flop with a clear",
        NEVER_CLEARED,
        carry.kept_between_words,
    ),
    Misconception(
        "carry-too-far",
        "The carry goes one place further left than it should.",
        "a carry flip-flop, or a chain of full adders",
        COMMON,
        carry.too_far,
    ),
    Misconception(
        "or-for-sum",
        "One and one make one: the sum bit is 1 if any input is 1.",
        "a full adder",
        COMMON,
        carry.or_sum,
    ),
    Misconception(
        "carry-of-two",
        "There is a carry only if both operand bits are 1; the carry coming in does not matter.",
        "a full adder",
        COMMON,
        carry.carry_of_two,
    ),
    Misconception(
        "msb-first",
        "The words are fed from the left end, as one reads them.",
        "an operand that is fed bit by bit",
        COMMON,
        procedure.msb_first,
    ),
    Misconception(
        "one-edge-early",
        "The start counts as edge 1, so the answer stands one edge sooner.",
        "a procedure with clock edges",
        COMMON,
        procedure.early,
    ),
    Misconception(
        "one-edge-late",
        "One more edge is needed to bring the answer out.",
        "a procedure with clock edges",
        COMMON,
        procedure.late,
    ),
    Misconception(
        "loading-not-counted",
        "Only the edges after loading count.",
        "a procedure of two phases or more",
        COMMON,
        procedure.loading_not_counted,
    ),
    Misconception(
        "enable-ignored",
        "A register takes its input at every edge, enabled or not.",
        "a storage element with an enable or a gated clock",
        COMMON,
        procedure.enable_ignored,
    ),
    Misconception(
        "unknown-as-0",
        "What is not known is 0.",
        "an unknown initial state or an input fed X",
        COMMON,
        procedure.unknown_as(0),
    ),
    Misconception(
        "unknown-as-1",
        "What is not known is 1.",
        "an unknown initial state or an input fed X",
        COMMON,
        procedure.unknown_as(1),
    ),
    Misconception(
        "read-backwards",
        "The answer is read with its LSB on the left.",
        "an answer of two bits or more",
        COMMON,
        procedure.read_backwards,
    ),
)
"""Every misconception, in the order in which a list shows them."""


def _guarded(guest: Guest, misconception: Misconception) -> Misconception:
    """One of another package: what goes wrong in it, or in what it makes, is told as its own."""
    change_of = guest.guarded(misconception.change, Design, NoneType)

    def change(design: Design) -> Design | None:
        changed = change_of(design)
        if changed is None or changed == design:
            return None
        try:
            changed.check()
        except EdgewiseError as wrong:
            raise guest.error(f"it makes a wrong design of {design.name}: {wrong}") from None
        if [p.output for p in changed.computes] != [p.output for p in design.computes]:
            raise guest.error(f"it changes which outputs of {design.name} are the answer")
        return changed

    return replace(misconception, change=change)


GUESTS: Final = Group(
    "edgewise.misconceptions",
    "misconception",
    Misconception,
    lambda: [misconception.name for misconception in MISCONCEPTIONS],
    _guarded,
)
"""Those that other packages bring."""


def find(name: str) -> Misconception:
    """The misconception of this name; the error for an unknown one suggests the nearest."""
    found = next((one for one in MISCONCEPTIONS if one.name == name), None) or GUESTS.find(name)
    if found is None:
        known = [*(one.name for one in MISCONCEPTIONS), *GUESTS.names()]
        raise EdgewiseError(f"there is no misconception {name}{nearest(name, known)}")
    return found


def applicable(design: Design) -> tuple[tuple[Misconception, Design], ...]:
    """Each misconception that has a meaning for a design, with the design it leads to.

    What is wrong with one of another package is a warning.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ripple = catalogue.design("ripple-carry-adder", n=4)
    >>> [misconception.name for misconception, _ in applicable(ripple)][:3]
    ['carry-dropped', 'carry-too-far', 'or-for-sum']
    """
    found: list[tuple[Misconception, Design]] = []
    for misconception in (*MISCONCEPTIONS, *GUESTS.all()):
        try:
            changed = misconception.of(design)
        except GuestError as wrong:
            warn(wrong)
        else:
            found += [] if changed is None else [(misconception, changed)]
    return tuple(found)


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
