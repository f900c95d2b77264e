"""The verdict on a submission: facts, and how they are said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewise.hdl.clocking import Note
from edgewise.hdl.elaboration import Remark
from edgewise.lab.judging.explanation import Explanation
from edgewise.lab.judging.ports import Match
from edgewise.lab.judging.refutation import Refutation
from edgewise.lab.judging.reset import Reset
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True)
class Verdict:
    """What is to be said of a submission.

    Parameters
    ----------
    file : str
    outcome : str
        ``right``, ``wrong``, ``undecided``, or ``refused``: it can't be read or compared.
    reason : str
        Why it was refused.
    refuted : Refutation, optional
        Of a wrong one.
    explanations : tuple of Explanation
        What explains a wrong one for all operands.
    whole : bool
        Whether there was time to try every explanation.
    taken : tuple of Note, Match or Reset
        What was understood in a way that is to be told.
    remarks : tuple of Remark
        What an examiner looks for.
    """

    file: str
    outcome: str
    reason: str = ""
    refuted: Refutation | None = None
    explanations: tuple[Explanation, ...] = ()
    whole: bool = True
    taken: tuple[Note | Match | Reset, ...] = ()
    remarks: tuple[Remark, ...] = ()

    def sentences(self, words: Words = ENGLISH) -> Iterator[str]:
        """In words, the verdict first; what follows stands under it."""
        yield f"{self.file}: {self.told(words)}"
        yield from (f"  {one}" for one in self.details(words))

    def told(self, words: Words = ENGLISH) -> str:
        """The verdict."""
        if self.refuted is not None:
            return words("judged-wrong", **self.refuted.facts())
        if self.outcome == "refused":
            return words("judged-refused", reason=self.reason)
        return words(f"judged-{self.outcome}")

    def details(self, words: Words = ENGLISH) -> Iterator[str]:
        """What explains it, what was understood how, and what an examiner looks for."""
        yield from self.explained(words)
        for one in self.taken:
            place = one.place if isinstance(one, Note) else None
            yield f"{place or self.file}: {one.said(words)}"
        yield from (f"{one.place}: {one.said(words)}" for one in self.remarks)

    def explained(self, words: Words = ENGLISH) -> Iterator[str]:
        """What explains a wrong one."""
        yield from (one.said(words) for one in self.explanations)
        if self.outcome == "wrong" and not self.whole:
            yield words("judged-unfinished")
        elif self.outcome == "wrong" and not self.explanations:
            yield words("judged-unexplained")


def named(explanations: Sequence[Explanation]) -> str:
    """Explanations for programs: ``reversed sum; read-backwards``."""
    return "; ".join(one.name for one in explanations)
