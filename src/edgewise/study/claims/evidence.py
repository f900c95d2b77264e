"""Evidence: how a question about all operands came out, the same on any machine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from edgewise.words.messages import ENGLISH, Fact, Words

Way: TypeAlias = Literal[
    "run",
    "each",
    "sets",
    "structure",
    "sat",
    "induction",
    "refuted",
    "falsified",
    "undecided",
    "not-inductive",
]
"""On one run; on one for each design; on all operand sets; by proof; false; not known."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """How a question came out.

    Parameters
    ----------
    way : Way
    sets : int
        Operand sets gone through, of all designs together.
    operands : tuple of str
        Those that took all their values.
    over : tuple of (str, str, str)
        Parameters of a claim about many designs, with the ends of their ranges as written.
    proofs, designs : int
        Of many designs: how many a proof settled where the others were gone through; and
        how many there are.
    seconds : float
        Of an undecided one: the time there was.
    excess : str
        Of an undecided one: what was too large, where it was not the time.

    Examples
    --------
    >>> from edgewise.words import messages
    >>> found = Evidence("sets", 4096, ("a", "b"), (("n", "1", "6"),))
    >>> print(found)
    checked on all 4,096 operand pairs for n = 1 to 6
    >>> found.told(messages.of("de"))
    'geprüft mit allen 4.096 Operandenpaaren für n = 1 bis 6'
    """

    way: Way
    sets: int = 0
    operands: tuple[str, ...] = ()
    over: tuple[tuple[str, str, str], ...] = ()
    proofs: int = 0
    designs: int = 0
    seconds: float = 0.0
    excess: str = ""

    def __str__(self) -> str:
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """How it came out, as a part of a sentence."""
        if self.way in ("undecided", "not-inductive"):
            return words("claim-undecided", why=self.open(words))
        facts: dict[str, Fact] = {}
        if self.sets:
            facts |= {"sets": self.sets, "operands": len(self.operands)}
            facts["name"] = self.operands[0] if self.operands else ""
        over = _ranges(self.over, words)
        if self.proofs and self.sets:
            proof = words(f"claim-{self.way}")
            facts |= {"proofs": self.proofs, "designs": self.designs}
            return words("claim-mixed", proof=proof, over=over, **facts)
        told = words(f"claim-{self.way}", **facts)
        return words("claim-over", how=told, over=over) if over else told

    def open(self, words: Words = ENGLISH) -> str:
        """Of an undecided one: why it is not known."""
        if self.way == "not-inductive":
            return words("claim-not-inductive")
        return self.excess or words("claim-time-up", seconds=f"{self.seconds:g}")


def _ranges(over: tuple[tuple[str, str, str], ...], words: Words) -> str:
    return ", ".join(
        f"{name} = {low}" if low == high else words("claim-range", name=name, first=low, last=high)
        for name, low, high in over
    )
