"""Inside clock periods: what happens between some edges of a run, as sentences and tables."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from edgewise import account
from edgewise.columns import aligned, ruled
from edgewise.periods import Change, Glitch, Periods, Violation
from edgewise.words.messages import ENGLISH, Words

__all__ = ["Change", "Glitch", "Inside", "Violation"]


@dataclass(frozen=True)
class Inside(Periods):
    """What every net does between two edges of a run: the facts of `Periods`, and their words."""

    def table(self, names: Sequence[str] | None = None) -> list[tuple[str, ...]]:
        """Each change, a heading before them: time after the edge, net, from, to."""
        labels = self.trace.design.netlist.labels
        chosen = None if names is None else {net for name in names for net in self.nets(name)}
        return [
            (str(self.edge_of(c.time)), self.figure(self._after(c)), labels[c.net], *_two(c))
            for c in self.changes
            if chosen is None or c.net in chosen
        ]

    def _after(self, change: Change) -> int:
        return change.time - (self.edge_of(change.time) - self.first) * self.period

    def text(self, names: Sequence[str] | None = None, words: Words = ENGLISH) -> str:
        """The changes as lines, and what is to be said of them."""
        head = tuple(words(f"inside-column-{one}") for one in ("edge", "time", "net", "from", "to"))
        rows = [head, *self.table(names)]
        rule, shown, before = ruled(rows), list[str](), ""
        for row, line in zip(rows, aligned(rows, left={2}), strict=True):
            shown += [rule, line] if before != row[0] and shown else [line]
            before = row[0]
        return "\n".join([*shown, "", *self.sentences(words)])

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """What is to be said: the period, when all was settled, glitches, times not kept.

        Each follows from a fact of this object (`edgewise.account`).
        """
        return account.sentences(self, words)

    def csv(self, names: Sequence[str] | None = None) -> str:
        """The changes as comma-separated values (RFC 4180), with a heading."""
        file = io.StringIO()
        rows = [("edge", "time", "net", "from", "to"), *self.table(names)]
        csv.writer(file, lineterminator="\r\n").writerows(rows)
        return file.getvalue()

    def data(self, names: Sequence[str] | None = None) -> dict[str, Any]:
        """The same for programs."""
        keys = ("edge", "time", "net", "from", "to")
        labels = self.trace.design.netlist.labels
        return {
            "design": self.trace.design.name,
            "operands": dict(self.trace.operands),
            "first": self.first,
            "last": self.last,
            "model": self.model,
            "unit": self.unit,
            "period": self.figure(self.period),
            "quiet": self.quiet,
            "changes": [dict(zip(keys, row, strict=True)) for row in self.table(names)],
            "glitches": [
                {"net": labels[g.net], "edge": g.edge, "kind": g.kind, "changes": len(g.changes)}
                for g in self.glitches
            ],
            "violations": [
                {
                    "kind": v.kind,
                    "part": self.trace.design.netlist.flip_flops[v.flip_flop].name,
                    "net": labels[v.net],
                    "edge": self.figure(v.edge),
                    "change": self.figure(v.change),
                    "needed": self.figure(v.needed),
                }
                for v in self.violations
            ],
        }

    def json(self, names: Sequence[str] | None = None) -> str:
        """The same as JSON."""
        return json.dumps(self.data(names), indent=1)


def _two(change: Change) -> tuple[str, str]:
    return "01X"[change.before], "01X"[change.after]
