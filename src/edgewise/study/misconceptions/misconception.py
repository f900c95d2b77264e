"""What a misconception is: a wrong idea that can be run, as a design of its own.

It turns a design into the one that its believer has in mind. Run on any engine, that gives the
answer to which the idea leads; where it differs from the truth, an example or an exercise can tell
the two apart. Wrong answers are mostly right executions of a wrong procedure (J. S. Brown and R. R.
Burton, "Diagnostic Models for Procedural Bugs in Basic Mathematical Skills", Cognitive Science
2(2), 1978, 155-192).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from edgewise.design import Design
from edgewise.errors import Message
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
        The idea as a learner would say it, one sentence; empty where a message,
        ``misconception-NAME``, says it in every language.
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
        >>> from edgewise.study.misconceptions.registry import find
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
        base = design.base or design.name
        return replace(changed, name=f"{design.name} ({self.name})", base=base)

    def why_not(self, design: Design) -> Message | None:
        """Why it does not apply to a design; None where it does.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> from edgewise.study.misconceptions.registry import find
        >>> print(find("msb-first").why_not(catalogue.design("ring-counter")))
        msb-first needs an operand that is fed bit by bit; ring-counter has none
        """
        if self.of(design) is not None:
            return None
        return Message("misconception-needs", name=self.name, needs=self.needs, design=design.name)
