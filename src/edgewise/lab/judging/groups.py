"""Submissions that have the same error."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.lab.judging.comparison import compared
from edgewise.lab.judging.explanation import answers
from edgewise.lab.judging.verdict import Verdict, named

ORDER: Final = ("wrong", "undecided", "refused", "right")
_SECONDS: Final = 5.0
"""For the proof that two unexplained ones are alike."""
_MOST: Final = 40
"""Unexplained errors that a further one is held against."""


@dataclass(frozen=True)
class Group:
    """Verdicts that say the same.

    Parameters
    ----------
    outcome : str
        ``wrong``, ``undecided``, ``refused`` or ``right``.
    verdicts : tuple of Verdict
        Of wrong ones without an explanation: they give the same answers for all operands, which
        was proved.
    """

    outcome: str
    verdicts: tuple[Verdict, ...]

    @property
    def name(self) -> str:
        """For programs: what explains it, or the outcome."""
        return named(self.verdicts[0].explanations) or self.outcome


def groups(verdicts: Sequence[Verdict]) -> tuple[Group, ...]:
    """Verdicts by what they say: wrong ones first, and of those the largest group."""
    found: dict[tuple[str, str], list[Verdict]] = {}
    unexplained: list[list[Verdict]] = []
    for verdict in verdicts:
        if verdict.outcome == "wrong" and not verdict.explanations:
            same = (one for one in unexplained[:_MOST] if _alike(one[0], verdict))
            if (group := next(same, None)) is None:
                unexplained.append([verdict])
            else:
                group.append(verdict)
        else:
            found.setdefault((verdict.outcome, named(verdict.explanations)), []).append(verdict)
    made = [Group(outcome, tuple(them)) for (outcome, _), them in found.items()]
    made += [Group("wrong", tuple(them)) for them in unexplained]
    return tuple(sorted(made, key=lambda one: (ORDER.index(one.outcome), -len(one.verdicts))))


def _alike(one: Verdict, other: Verdict) -> bool:
    """Whether two wrong submissions are proved to give the same answers for all operands."""
    assert one.refuted is not None
    assert other.refuted is not None
    designs = [verdict.refuted.runs[1].design for verdict in (one, other) if verdict.refuted]
    for operands in (one.refuted.operands, other.refuted.operands):
        if answers(designs[0], operands) != answers(designs[1], operands):
            return False
    try:
        return compared(designs[0], designs[1], _SECONDS, exact=True).outcome == "proved"
    except EdgewiseError:
        return False
