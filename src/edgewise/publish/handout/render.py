"""Typesetting: a lesson's tables, figures and other pieces as typst, amid its prose."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final, assert_never

from edgewise.lesson.blocks import CircuitText, EdgeTable, Figure, Piece, Said, Stage
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.covered import Covered
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.proof import Proved
from edgewise.publish import captions
from edgewise.publish.handout import blanks, comparisons, run_tables
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.handout.prose import Prose, content
from edgewise.trace import Trace
from edgewise.views.drawing.svg import svg

_SVG: Final = "{http://www.w3.org/2000/svg}"
_POINTS: Final = 0.75
"""Points in a px."""
MARGINS: Final = 44.0
"""Left and right margin together, mm; as in `handout.typ`."""
_MOST_ROWS: Final = 40
"""Rows of a stage that are printed, at most."""
_TALLEST: Final = 560.0
"""Height of a figure, pt, at most."""


@dataclass(frozen=True, slots=True)
class Riddle:
    """A broken circuit of the lesson: its figure and table by name, and what is wrong."""

    figure: str
    table: str
    broken: Broken


@dataclass(slots=True)
class Sheet(Prose):
    """A whole lesson being typeset; what is left out of it is kept for the answer sheet."""

    withheld: list[tuple[str, Piece]] = field(default_factory=list)
    """Tables and figures with empty words, by what they are called."""
    riddles: list[Riddle] = field(default_factory=list)
    keyed: bool = False

    def piece(self, piece: Piece) -> str:  # noqa: C901  # a line for each kind
        """A table, figure, block of claims, or circuit."""
        match piece:
            case EdgeTable():
                return self._edge_table(piece)
            case Figure():
                return self._figure(piece) + self._unasked(piece)
            case Checked():
                pairs = zip(piece.statements, piece.verdicts, strict=True)
                items = "".join(
                    f"({quoted(statement.text)}, {quoted(verdict.how)}), "
                    for statement, verdict in pairs
                )
                return f"#claims({items})\n\n"
            case CircuitText(text=text):
                return f"#raw({quoted(text)}, block: true)\n\n"
            case Stage():
                return self._stage(piece)
            case Said():
                return ""  # for the teacher alone
            case FoundLaw():
                return self._law(piece)
            case Proved():
                return self._proved(piece)
            case Covered():
                return self._coverage(piece)
            case Broken():
                return self._broken(piece)
            case Compared():
                return self._comparison(piece)
            case _ as never:
                assert_never(never)

    def _unasked(self, before: Figure) -> str:
        """The stage that a page has after its first figure if the lesson asks for none."""
        pieces = self.report.pieces.values()
        first = next(piece for piece in pieces if isinstance(piece, Figure))
        if first is not before or any(isinstance(piece, Stage) for piece in pieces):
            return ""
        return self._stage(Stage(), before)

    def _stage(self, stage: Stage, before: Figure | None = None) -> str:
        """What can be stepped through on a page: its diagram, and its rows if they are few.

        The diagram is left out if the figure `before` it is the same.
        """
        from edgewise.views.diagram.block_diagram import diagram

        trace = self.report.trace
        drawing = diagram(
            trace,
            after=stage.row,
            open=stage.opened,
            clock=stage.clock,
            symbols=stage.symbols,
        )
        names = stage.columns or trace.columns
        drawn = Figure(svg(drawing), (stage.row,), names, drawing=drawing)
        same = before is not None and before.drawing == drawing
        made = "" if same else self._figure(drawn)
        if trace.edges > _MOST_ROWS:
            return made
        return made + self._edge_table(EdgeTable(names, tuple(range(trace.edges + 1))))

    def _law(self, found: FoundLaw) -> str:
        if found.text:
            told = f"{found.law.quantity} = {found.text}"
            return f"#claims(({quoted(told)}, {quoted(found.how)}),)\n\n"
        said = ", ".join(str(found.law).splitlines()[:2])
        counts = f"#raw({quoted(found.law.text_table())}, block: true)\n\n"
        return f"{counts}#note({content(said)})\n\n"

    def _proved(self, piece: Proved) -> str:
        finding = piece.finding
        asked = ": ".join(finding.asked.splitlines())
        if finding.holds:
            return f"#claims(({quoted(asked)}, {quoted(finding.how)}),)\n\n"
        _, *told = finding.sentences()
        lines = [line for text in told for line in text.splitlines() if line.strip()]
        made = f"#raw({quoted(asked)});\n\n" + "".join(f"#{quoted(line)};\n\n" for line in lines)
        if finding.trace is not None and finding.row is not None:
            trace, rows = finding.trace, (finding.row,)
            drawn = Figure(piece.svg, rows, finding.columns, piece.caption)
            made += self.figure(self._called("Figure"), trace, drawn)
            table = EdgeTable(finding.columns, finding.rows)
            made += self.run_table(self._called("Table"), trace, table)
        return made

    def _broken(self, shown: Broken) -> str:
        """The table is given, not a blank: what is asked is what is wrong."""
        riddle = Riddle(self._called("Figure"), self._called("Table"), shown)
        if self.blank:
            self.riddles.append(riddle)
            if shown.solution:
                told = f"{riddle.figure} and {riddle.table} tell what is wrong; they are on the"
                return f"#note({content(f'{told} answer sheet.')})\n\n"
        return self.broken(riddle)

    def broken(self, riddle: Riddle) -> str:
        """The figure and the table of a broken circuit."""
        shown = riddle.broken
        trace = shown.trace if shown.solution else self.report.trace
        drawn = Figure(svg(shown.drawing), (shown.row,), shown.columns, shown.drawn)
        table = EdgeTable(shown.columns, shown.rows, shown.told)
        return self.figure(riddle.figure, trace, drawn) + self.run_table(
            riddle.table, shown.trace, table
        )

    def _coverage(self, shown: Covered) -> str:
        made = ""
        if shown.lines:
            heading, *lines = shown.lines
            heads = "".join(f"{content(name)}, " for name in heading)
            cells = "".join(
                f"{content(what)}, {content(seen)}, {content(of)}, [#raw({quoted(unseen)});], "
                for what, seen, of, unseen in lines
            )
            called = self._called("Table")
            made += f"#note({content(f'{called}. {shown.title}')})\n\n"
            aligned = "start + top, right + top, right + top, start + top"
            made += f"#own-table(4, ({aligned}), ({heads}), {cells})\n\n"
        elif shown.caption:
            made += f"#note({content(shown.caption)})\n\n"
        items = "".join(f"{content(text)}, " for text in shown.sentences)
        return made + (f"#list({items})\n\n" if items else "")

    def _comparison(self, shown: Compared) -> str:
        made = ""
        if shown.lines:
            title = content(f"{self._called('Table')}. {shown.title}")
            made = f"#note({title})\n\n{comparisons.table(shown.lines)}\n\n"
        items = "".join(f"{content(text)}, " for text in (*shown.sentences, *shown.notes))
        made += f"#list({items})\n\n"
        if shown.chart:
            made += self._picture(shown.chart, captions.charted(shown))
        if shown.longest is not None:
            made += self._picture(svg(shown.longest.drawing), shown.longest.title)
            made += f"#raw({quoted(shown.longest.path.text())}, block: true)\n\n"
        return made

    def _picture(self, drawn: str, caption: str) -> str:
        """A figure that has no row of the run."""
        figure = Figure(drawn, (0,), (), caption)
        return self.figure(self._called("Figure"), self.report.trace, figure)

    def _edge_table(self, table: EdgeTable) -> str:
        trace = self.report.trace
        empty = blanks.of_table(trace, table) if self.blank else frozenset()
        called = self._called("Table")
        if empty:
            self.withheld.append((called, table))
        return self.run_table(called, trace, table, empty)

    def run_table(
        self, called: str, trace: Trace, table: EdgeTable, empty: frozenset[int] = frozenset()
    ) -> str:
        """A table of a run; below the first one, what its cells mean."""
        caption = content(f"{called}. {table.caption or captions.given(trace, table.rows)}")
        parts = run_tables.run_table(trace, table, empty, caption, self.width)
        made = "".join(f"{part}\n\n" for part in parts)
        key, self.keyed = "" if self.keyed else "#key\n\n", True
        return made + key

    def _figure(self, figure: Figure) -> str:
        called = self._called("Figure")
        if not (self.blank and blanks.of_figure(self.report.trace, figure)):
            return self.figure(called, self.report.trace, figure)
        self.withheld.append((called, figure))
        if figure.drawing is None:
            told = f"{called} shows values to be filled in; it is on the answer sheet."
            return f"#note({content(told)})\n\n"
        empty = replace(figure, svg=svg(blanks.emptied(figure.drawing)))
        return self.figure(called, self.report.trace, empty)

    def figure(self, called: str, trace: Trace, figure: Figure) -> str:
        """A figure, as large as it was drawn or as fits."""
        name = f"figure-{len(self.files) + 1}.svg"
        self.files[name] = figure.svg.encode()
        about, wide, high = heading(figure.svg)
        scale = min(_POINTS, self.width / wide, _TALLEST / high)
        caption = content(f"{called}. {figure.caption or captions.moment(trace, figure.rows)}")
        return f"#drawing({quoted(name)}, {quoted(about)}, {wide * scale:.1f}pt, {caption})\n\n"

    def _called(self, what: str) -> str:
        """The next figure or table by name and number."""
        self.counts[what] = self.counts.get(what, 0) + 1
        return f"{what} {self.counts[what]}"


def heading(picture: str) -> tuple[str, float, float]:
    """Description, width and height of one of our own figures.

    Examples
    --------
    >>> from edgewise.views.drawing.svg import Drawing
    >>> heading(svg(Drawing(8, 4, "A", "A is 1.", ())))
    ('A. A is 1.', 8.0, 4.0)
    """
    from xml.etree import ElementTree as ET

    root = ET.fromstring(picture)  # noqa: S314 - our own SVG, no entities
    told = (root.findtext(f"{_SVG}{tag}", "").rstrip(".") for tag in ("title", "desc"))
    about = "".join(f"{text}. " for text in told if text).strip()
    return about or "Figure.", float(root.get("width", "1")), float(root.get("height", "1"))
