"""The report on judged submissions as a page: errors in groups, each with both runs drawn."""

from __future__ import annotations

import html
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from edgewise.design import Design
from edgewise.errors import Place
from edgewise.hdl.clocking import Note
from edgewise.lab.judging.beside import beside
from edgewise.lab.judging.groups import ORDER, Group
from edgewise.lab.judging.refutation import Refutation
from edgewise.lab.judging.verdict import Verdict
from edgewise.publish.html import page
from edgewise.publish.html.page import Frame, Policy
from edgewise.publish.html.tables import framed, plain
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.table.edge_table import edge_table
from edgewise.views.timing.timing_diagram import timing
from edgewise.words.lists import equations
from edgewise.words.messages import Words

MOST_DRAWN: Final = 20
"""Groups whose runs are drawn; those of fewer submissions come later."""
MOST_ROWS: Final = 24
"""Rows of a drawing."""


def html_of(groups: Sequence[Group], design: Design, words: Words) -> str:
    """The page.

    Parameters
    ----------
    groups : sequence of Group
    design : Design
        What they were held against.
    words : Words
    """
    report = _Report(groups, words)
    sheet = page.style()
    title = words("judged-title", title=_subject(design))
    around = Frame(title, words.language, report.facts(), "", words("judged-footer"))
    body = "".join(report.sections())
    return page.framed(around, body, sheet, "", policy=Policy(styles=(page.hashed(sheet),)))


def _subject(design: Design) -> str:
    return ", ".join([design.name, *filter(None, [equations(design.parameters.items())])])


def drawn(refuted: Refutation, words: Words) -> Drawing:
    """Both runs in one drawing, from the row before the first that differs."""
    both, names = beside(refuted, words)
    first = max(refuted.first - 1, 0)
    rows = range(first, min(both.edges + 1, first + MOST_ROWS))
    if both.edges:
        return timing(both, names, rows, words=words)
    return edge_table(both, names[:-1], rows, caption="", words=words)


class _Report:
    """The report being said."""

    def __init__(self, groups: Sequence[Group], words: Words) -> None:
        self.groups, self.words = groups, words
        self.wrong = [one for one in groups if one.outcome == "wrong"]
        everything = [verdict for group in groups for verdict in group.verdicts]
        self.verdicts = sorted(everything, key=lambda one: one.file)
        self.number = {
            verdict.file: number
            for number, group in enumerate(self.wrong, 1)
            for verdict in group.verdicts
        }
        self.short = _short([one.file for one in self.verdicts])

    def facts(self) -> str:
        """How many there are of each verdict, under the title."""
        counts = Counter(one.outcome for one in self.verdicts)
        told = [self.words("judged-count", count=len(self.verdicts))]
        told += [
            self.words(f"judged-count-{outcome}", count=counts[outcome])
            for outcome in reversed(ORDER)
            if counts[outcome]
        ]
        items = "".join(f"<li>{html.escape(one)}</li>" for one in told)
        return f'<ul class="facts">{items}</ul>'

    def sections(self) -> Iterator[str]:
        """Section by section, those that have anything to say."""
        if self.wrong:
            yield self._heading("judged-errors")
        for number, group in enumerate(self.wrong, 1):
            yield from self._group(number, group)
        yield from self._remarks()
        yield self._heading("judged-all")
        yield self._table("all", ("file", "verdict", "group", "why"), self._lines(), (2,))

    def _group(self, number: int, group: Group) -> Iterator[str]:
        words, first = self.words, group.verdicts[0]
        told = words("judged-error", number=number, count=len(group.verdicts))
        yield f"<h3>{html.escape(told)}</h3>\n"
        yield self._items(first.explained(words))
        if len(group.verdicts) > 1:
            files = ", ".join(self.short[one.file] for one in group.verdicts)
            yield f"<p>{html.escape(files)}</p>\n"
        if len(group.verdicts) > 1 and not first.explanations:
            yield f"<p>{html.escape(words('judged-alike'))}</p>\n"
        refuted = first.refuted
        if refuted is None or number > MOST_DRAWN:
            return
        yield f"<p>{html.escape(self.short[first.file])}: {html.escape(first.told(words))}.</p>\n"
        facts = {"file": self.short[first.file], "operands": equations(refuted.operands.items())}
        kind = "judged-drawn" if refuted.runs[0].edges else "judged-drawn-start"
        caption = words(kind, edge=refuted.first, **facts)
        yield framed(svg(drawn(refuted, words), prefix=f"g{number}-"), caption)

    def _remarks(self) -> Iterator[str]:
        """What an examiner looks for, and what was understood how."""
        seen = [
            (self._at(one, remark.place), remark.said(self.words))
            for one in self.verdicts
            for remark in one.remarks
        ]
        taken = [
            (self._at(one, note.place if isinstance(note, Note) else None), note.said(self.words))
            for one in self.verdicts
            for note in one.taken
        ]
        if seen:
            yield self._heading("judged-remarks")
            yield f"<p>{html.escape(self.words('judged-remarks-note'))}</p>\n"
            yield self._table("remarks", ("file", "remarks"), seen)
        if taken:
            yield self._heading("judged-taken")
            yield self._table("taken", ("file", "taken"), taken)

    def _at(self, verdict: Verdict, place: Place | None) -> str:
        """The name of a file, with the line of a place in it."""
        told = str(place or "").removeprefix(verdict.file)
        return self.short[verdict.file] + (told if told.startswith(":") else "")

    def _lines(self) -> Iterator[tuple[str, ...]]:
        for one in self.verdicts:
            number = self.number.get(one.file)
            why = one.reason.replace(one.file, self.short[one.file])
            yield (
                self.short[one.file],
                self.words(f"judged-verdict-{one.outcome}"),
                str(number or ""),
                why or "; ".join(one.explained(self.words)),
            )

    # ------------------------------------------------------------------ pieces

    def _heading(self, message: str) -> str:
        return f"<h2>{html.escape(self.words(message))}</h2>\n"

    def _items(self, texts: Iterator[str]) -> str:
        items = "".join(f"<li>{html.escape(text)}</li>\n" for text in texts)
        return f"<ul>\n{items}</ul>\n" if items else ""

    def _table(
        self,
        name: str,
        heads: Sequence[str],
        lines: Iterator[tuple[str, ...]] | Sequence[tuple[str, ...]],
        right: tuple[int, ...] = (),
    ) -> str:
        heading = tuple(self.words(f"judged-column-{one}") for one in heads)
        return plain([heading, *lines], self.words(f"judged-table-{name}"), right)


def _short(files: Sequence[str]) -> dict[str, str]:
    """The names of files without their folders, where that tells them apart."""
    several = Counter(Path(file).name for file in files)
    return {file: Path(file).name if several[Path(file).name] == 1 else file for file in files}
