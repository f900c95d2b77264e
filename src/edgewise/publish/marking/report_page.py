"""The report on a class as one page: charts and tables, each figure with what it means."""

from __future__ import annotations

import html
from collections.abc import Iterator, Sequence
from statistics import fmean
from typing import Final

from edgewise.practice.marking.beliefs import Names
from edgewise.practice.marking.class_report import ClassReport
from edgewise.practice.marking.diagnosis import CARELESS_RATE, EARNS, Status
from edgewise.practice.marking.item_statistics import LEVEL, Interval
from edgewise.publish.html import page
from edgewise.publish.html.page import Frame, Policy
from edgewise.publish.html.tables import plain
from edgewise.study.misconceptions import registry
from edgewise.views.charts.bars import Bar, bars
from edgewise.words.messages import Words

BINS: Final = 10
MOST_CELLS: Final = 12
"""Cells in which errors begin that are listed."""
MOST_IDEAS: Final = 12
MOST_VARIANTS: Final = 40


_WITHOUT: Final = {
    Status.CARELESS: "report-careless",
    Status.UNEXPLAINED: "report-unexplained",
    Status.UNREADABLE: "report-hardly-readable",
    Status.RIGHT: "report-right",
}
"""What is said of learners to whom no idea is told."""


def html_of(report: ClassReport, title: str, words: Words) -> str:
    """The page; no learner is named in it.

    Parameters
    ----------
    report : ClassReport
    title : str
        Of the paper.
    words : Words
    """
    told = _Told(report, words)
    body = "".join(told.sections())
    sheet = page.style()
    around = Frame(
        words("report-title", title=title),
        words.language,
        told.facts(),
        "",
        words("report-footer"),
    )
    return page.framed(around, body, sheet, "", policy=Policy(styles=(page.hashed(sheet),)))


class _Told:
    """A report being said."""

    def __init__(self, report: ClassReport, words: Words) -> None:
        self.report, self.words = report, words

    def facts(self) -> str:
        """How many learners there are, under the title."""
        report = self.report
        counts = {
            "report-learners": report.learners,
            "report-counted": report.counted,
            "report-blank": report.blank,
            f"report-without-{report.source}": report.without_paper,
        }
        items = "".join(
            f"<li>{html.escape(self.words(message, count=number))}</li>"
            for message, number in counts.items()
            if number or message == "report-learners"
        )
        return f'<ul class="facts">{items}</ul>'

    def sections(self) -> Iterator[str]:
        """Section by section, those that have anything to say."""
        if not self.report.counted:
            yield self._paragraph("report-nothing")
            return
        yield from self._marks()
        yield from self._questions()
        yield from self._ideas()
        yield from self._begun()
        yield from self._variants()
        yield self._heading("report-definitions")
        defined = "".join(
            f"<dt>{html.escape(self.words(f'report-term-{name}'))}</dt>"
            f"<dd>{html.escape(self.words(f'report-define-{name}', **self._assumed()))}</dd>\n"
            for name in self._defined()
        )
        yield f"<dl>\n{defined}</dl>\n"

    def _defined(self) -> Iterator[str]:
        """The figures that are there."""
        report = self.report
        yield from ("share", "facility")
        shown = {
            "discrimination": any(one.discrimination is not None for one in report.items),
            "alpha": report.alpha is not None,
            "kr-20": report.kr_20 is not None,
            "idea": bool(report.statuses),
            "began": any(one.began for one in report.cells),
            "variants": len(report.variants) > 1 and report.equally_hard is not None,
        }
        yield from (name for name, there in shown.items() if there)

    def _assumed(self) -> dict[str, str | int]:
        return {
            "earns": EARNS,
            "rate": self._decimal(100 * CARELESS_RATE, 0),
            "level": self._decimal(100 * LEVEL, 0),
        }

    def _marks(self) -> Iterator[str]:
        shares = self.report.shares
        yield self._heading("paper-marks")
        yield self._paragraph("report-mean", share=self._percent(fmean(shares)))
        counts = [0] * BINS
        for share in shares:
            counts[min(int(share * BINS), BINS - 1)] += 1
        step = 100 // BINS
        drawn = [
            Bar(f"{step * i}–{step * (i + 1)} %", number, str(number))
            for i, number in enumerate(counts)
        ]
        yield self._chart(drawn, "report-chart-marks")

    def _questions(self) -> Iterator[str]:
        words, items = self.words, self.report.items
        yield self._heading("report-questions")
        heads = ("question", "marks", "facility", "answers", "discrimination")
        lines = [tuple(words(f"report-column-{name}") for name in heads)]
        for item in items:
            apart = "–" if item.discrimination is None else self._decimal(item.discrimination)
            shares = self._decimal(item.facility), self._decimal(item.answers)
            lines.append((item.name, str(item.marks), *shares, apart))
        yield plain(lines, words("report-table-questions"), (1, 2, 3, 4))
        drawn = [Bar(i.name, i.facility, self._decimal(i.facility)) for i in items]
        yield self._chart(drawn, "report-chart-facility", most=1)
        for message, found in (
            ("report-alpha", self.report.alpha),
            ("report-kr-20", self.report.kr_20),
        ):
            if found is not None:
                yield self._reliability(message, found)

    def _reliability(self, message: str, found: Interval) -> str:
        value, low, high = (self._decimal(n) for n in (found.value, found.low, found.high))
        return self._paragraph(message, value=value, low=low, high=high, **self._assumed())

    def _ideas(self) -> Iterator[str]:
        report, words = self.report, self.words
        yield self._heading("report-ideas")
        told = report.ideas[:MOST_IDEAS]
        drawn = [Bar(self._named(names), number, str(number)) for names, number in told]
        for status, message in _WITHOUT.items():
            number = report.statuses.get(status, 0)
            if number:
                drawn.append(Bar(words(message), number, str(number), strong=False))
        if drawn:
            yield self._chart(drawn, "report-chart-ideas")
        thoughts = dict.fromkeys(name for names, _ in told for pair in names for name in pair)
        if thoughts:
            items = "".join(
                f"<li>{html.escape(name)}: {html.escape(registry.find(name).said(words))}</li>\n"
                for name in thoughts
            )
            yield f"<ul>\n{items}</ul>\n"

    def _named(self, names: Sequence[Names]) -> str:
        each = [
            self.words("feedback-and", one=pair[0], other=pair[1]) if len(pair) > 1 else pair[0]
            for pair in names
        ]
        return self.words("report-or").join(each)

    def _begun(self) -> Iterator[str]:
        begun = sorted((c for c in self.report.cells if c.began), key=lambda c: -c.began)
        if not begun:
            return
        yield self._heading("report-began")
        heads = ("question", "cell", "asked", "right", "follows", "began")
        lines = [tuple(self.words(f"report-column-{name}") for name in heads)]
        for cell in begun[:MOST_CELLS]:
            numbers = (cell.asked, cell.right, cell.followed, cell.began)
            lines.append((cell.question, cell.cell.said(self.words), *map(str, numbers)))
        yield plain(lines, self.words("report-table-began"), (2, 3, 4, 5))

    def _variants(self) -> Iterator[str]:
        found, same = self.report.variants, self.report.equally_hard
        if len(found) < 2:
            return
        yield self._heading("report-variants")
        if same is not None:
            yield self._paragraph(
                "report-equally-hard",
                ratio=self._decimal(same.ratio),
                between=same.between,
                within=same.within,
                probability=self._decimal(same.probability, 3),
                differ="yes" if same.probability < 1 - LEVEL else "no",
            )
        lines = [tuple(self.words(f"report-column-{n}") for n in ("code", "learners", "share"))]
        lines += [
            (one.code, str(one.learners), self._percent(one.share)) for one in found[:MOST_VARIANTS]
        ]
        yield plain(lines, self.words("report-table-variants"), (1, 2))

    # ------------------------------------------------------------------ pieces

    def _heading(self, message: str) -> str:
        return f"<h2>{html.escape(self.words(message))}</h2>\n"

    def _paragraph(self, message: str, **facts: str | int) -> str:
        return f"<p>{html.escape(self.words(message, **facts))}</p>\n"

    def _chart(self, drawn: Sequence[Bar], message: str, most: float = 0) -> str:
        title = self.words(message)
        drawing = bars(drawn, title, most, self.words)
        return (
            f'<figure class="drawing"><div class="box" role="region" tabindex="0"'
            f' aria-label="{html.escape(title)}">\n{drawing}\n</div></figure>\n'
        )

    def _decimal(self, number: float, places: int = 2) -> str:
        return self.words.decimal(f"{number:.{places}f}").replace("-", "−")

    def _percent(self, share: float) -> str:
        return f"{self._decimal(100 * share, 0)} %"
