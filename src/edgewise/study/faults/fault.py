"""A fault: what is wrong, where, and how it is told."""

from __future__ import annotations

from dataclasses import dataclass

from edgewise.design import Design
from edgewise.words.messages import ENGLISH, Fact, Words


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong.

    Parameters
    ----------
    kind : str
        ``stuck``, ``swapped``, ``clear``, ``clock``, ``edges``, ``start`` or ``late enable``.
    name : str
        ``FA.sum stuck at 0``: by this it is asked for, in any language.
    where : tuple of str
        Nets, ports and parts to mark in a diagram; empty for a fault of the procedure.
    form : str
        What is wrong, as messages name it: ``stuck``, ``branch-stuck``, ``swapped-at``, …
    facts : tuple of (str, str or int)
        Where, and to what.
    design : Design
        The design with this fault.
    warned : tuple of str
        Names of cautions.
    """

    kind: str
    name: str
    where: tuple[str, ...]
    form: str
    facts: tuple[tuple[str, Fact], ...]
    design: Design
    warned: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """What is wrong."""
        return self.told()

    @property
    def cautions(self) -> tuple[str, ...]:
        """What is to be minded."""
        return self.warnings()

    def called(self, words: Words) -> str:
        """The name in a language."""
        return words(f"fault-name-{self.form}", **dict(self.facts))

    def told(self, words: Words = ENGLISH) -> str:
        """What is wrong, as a sentence."""
        return words(f"fault-{self.form}", **dict(self.facts))

    def warnings(self, words: Words = ENGLISH) -> tuple[str, ...]:
        """What is to be minded."""
        return tuple(words(f"fault-caution-{caution}") for caution in self.warned)
