"""A law: the formula that was found for a count, how far it was checked, or why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from edgewise.columns import aligned
from edgewise.formula import Node, parse
from edgewise.study.laws.formula_families import Counted, Point
from edgewise.study.laws.hint import Hint
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Law:
    """What was found.

    Parameters
    ----------
    design, quantity : str
    ranges : tuple of (str, int, int)
        Each parameter of the grid with its first and last number.
    text : str
        The formula, in the formula language; empty where none of the family fits.
    counts : tuple of (Point, int)
        The count of each design on the grid.
    solved : int
        Number of designs that determined the formula; all others checked it.
    fixed : tuple of (str, int)
        Other parameters that have one number in all of them, given or by default.
    hint : Hint, optional
        Where no formula is found: what stands in the way, if that is known.
    beyond : tuple of (Point, int)
        The count of designs with larger parameters than asked for; a formula gives these too.
    """

    design: str
    quantity: str
    ranges: tuple[tuple[str, int, int], ...]
    text: str
    counts: tuple[Counted, ...]
    solved: int = 0
    fixed: tuple[tuple[str, int], ...] = ()
    hint: Hint | None = None
    beyond: tuple[Counted, ...] = ()

    @property
    def formula(self) -> Node | None:
        """The formula as a tree, or nothing."""
        node: Node | None = parse(self.text) if self.text else None
        return node

    @property
    def checked(self) -> str:
        """How far it was checked: ``checked on 12 designs, n = 1 to 12; beyond, on 6, up to …``."""
        return self.how()

    def how(self, words: Words = ENGLISH) -> str:
        """How far it was checked, as a part of a sentence."""
        if not self.beyond:
            return words("law-checked-all", asked=self.asked(words))
        ends = [max(point[i] for point, _ in self.beyond) for i in range(len(self.ranges))]
        further = ", ".join(
            words("law-up-to", name=name, last=end)
            for (name, _, high), end in zip(self.ranges, ends, strict=True)
            if end > high
        )
        asked, count = self.asked(words), len(self.beyond)
        return words("law-checked-beyond", asked=asked, count=count, further=further)

    def asked(self, words: Words = ENGLISH) -> str:
        """The designs asked for: ``480 designs, n = 1 to 32, x = 2 to 16``."""
        over = [
            words("law-range", name=name, first=low, last=high) for name, low, high in self.ranges
        ]
        over += [f"{name} = {value}" for name, value in self.fixed]
        return words("law-designs", count=len(self.counts), over=", ".join(over))

    def sentences(self, words: Words = ENGLISH) -> tuple[str, str, str]:
        """The law, how far it was checked, on how many designs; or why there is none."""
        if self.text:
            rest = len(self.counts) + len(self.beyond) - self.solved
            formula = f"{self.quantity} = {self.text}"
            agree = words("law-agree", solved=self.solved, rest=rest)
            return formula, self.how(words), agree
        why = self.hint.told(words) if self.hint else words("law-family")
        return *self.none(words), why

    def none(self, words: Words = ENGLISH) -> tuple[str, str]:
        """That there is no law, and on how many designs was counted."""
        found = "hinted" if self.hint else "none"
        told = words("law-none", found=found, quantity=self.quantity, design=self.design)
        return told, words("law-counted", asked=self.asked(words))

    def __str__(self) -> str:
        return "\n".join(self.sentences())

    def text_table(self) -> str:
        """The counts: one parameter down, and of two or more the last across.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> from edgewise.study.laws.fit import find
        >>> grid = {"n": (1, 3), "x": (2, 4)}
        >>> print(find(catalogue.find("serial-accumulator"), "edges", grid).text_table())
        n  x=2  x=3  x=4
        1    3    4    5
        2    6    8   10
        3    9   12   15
        """
        *down, across = [name for name, _, _ in self.ranges]
        if not down:
            pairs = [(str(point[0]), str(count)) for point, count in self.counts]
            return "\n".join(aligned([(across, self.quantity), *pairs]))
        tops = list(dict.fromkeys(point[-1] for point, _ in self.counts))
        rows: dict[Point, list[str]] = {}
        for point, count in self.counts:
            rows.setdefault(point[:-1], []).append(str(count))
        heading = [*down, *(f"{across}={top}" for top in tops)]
        lines = [heading, *([*map(str, p), *counts] for p, counts in rows.items())]
        return "\n".join(aligned(lines))

    def data(self) -> dict[str, Any]:
        """The law as plain dictionaries and lists."""
        names = [name for name, _, _ in self.ranges]
        return {
            "design": self.design,
            "quantity": self.quantity,
            "over": {name: [low, high] for name, low, high in self.ranges},
            "with": dict(self.fixed),
            "formula": self.text or None,
            "hint": self.hint.told() if self.hint else None,
            "checked": self.checked,
            "designs": len(self.counts),
            "determined by": self.solved,
            "counts": _listed(names, self.quantity, self.counts),
            "beyond": _listed(names, self.quantity, self.beyond),
        }


def _listed(names: Sequence[str], quantity: str, counts: Sequence[Counted]) -> list[dict[str, int]]:
    return [{**dict(zip(names, point, strict=True)), quantity: count} for point, count in counts]
