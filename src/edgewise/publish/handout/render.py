"""Typesetting: a lesson's tables, figures and other pieces as typst, amid its prose."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final, Literal, TypeAlias

from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import Code, Composed, Grid, Listing, Paragraph
from edgewise.lesson.covered import Covered
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Steps
from edgewise.publish import captions
from edgewise.publish.handout import blanks, comparisons, questions, run_tables
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.handout.prose import Prose, content, running
from edgewise.publish.publisher import Publisher
from edgewise.views.charts import curves
from edgewise.views.drawing import theme
from edgewise.views.drawing.svg import Drawing
from edgewise.views.registry import Wish

_POINTS: Final = 0.75
"""Points in a px."""
MARGINS: Final = 44.0
"""Left and right margin together, mm; as in `handout.typ`."""
_MOST_ROWS: Final = 40
"""Rows of a stage that are printed, at most."""
_LEAST: Final = 6.0
"""Pt of the smallest letters of a figure; common practice of journals, no source."""
_TALLEST: Final = 560.0
"""Height of a figure, pt, at most."""


@dataclass(frozen=True, slots=True)
class Riddle:
    """A broken circuit of the lesson: its figure and table by name, and what is wrong."""

    figure: str
    table: str
    broken: Broken


Withheld: TypeAlias = EdgeTable | Figure
"""What a handout with blanks keeps for the answer sheet."""


@dataclass(slots=True)
class Sheet(Publisher[str], Prose):
    """A whole lesson being typeset; what is left out of it is kept for the answer sheet."""

    withheld: list[tuple[str, Withheld]] = field(default_factory=list)
    """Tables and figures with empty words, by what they are called."""
    riddles: list[Riddle] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    """The questions so far."""
    solving: bool = False
    """Whether questions are told with their solutions."""
    staging: bool = True
    """Whether the stage that a page has is printed though nobody asks for it."""
    keyed: bool = False

    # ------------------------------------------------------------------ kinds of pieces

    def edge_table(self, piece: EdgeTable) -> str:
        """A table of the run, with blanks if wanted."""
        empty = blanks.of_table(piece) if self.blank else frozenset()
        called = self.called("table")
        if empty:
            self.withheld.append((called, piece))
        return self.run_table(called, piece, empty)

    def figure(self, piece: Figure) -> str:
        """A figure, with blanks if wanted; behind the first one the stage that a page has."""
        return self._figure(piece) + self._unasked(piece)

    def stage(self, piece: Stage, before: Figure | None = None) -> str:
        """What can be stepped through on a page: its diagram, and its rows if they are few.

        The diagram is left out if the figure `before` it is the same.
        """
        trace = self.report.trace
        wish = Wish(
            after=piece.row,
            open=piece.opened,
            clock=piece.clock,
            symbols=piece.symbols,
            words=self.report.words,
        )
        names = piece.columns or trace.columns
        drawn = Figure(trace, "diagram", wish, (piece.row,), names)
        same = before is not None and (before.kind, before.wish) == (drawn.kind, drawn.wish)
        made = "" if same else self._figure(drawn)
        if trace.edges > _MOST_ROWS:
            return made
        return made + self.edge_table(EdgeTable(trace, names, tuple(range(trace.edges + 1))))

    def said(self, _: Said) -> str:
        """For the teacher alone."""
        return ""

    def steps(self, _: Steps) -> str:
        """For what is projected: a reader has the rows themselves."""
        return ""

    def circuit(self, piece: CircuitText) -> str:
        """The text as it stands."""
        return f"#raw({quoted(piece.text)}, block: true)\n\n"

    def claims(self, piece: Checked) -> str:
        """The claims of a block, and how each was checked."""
        pairs = zip(piece.statements, piece.verdicts, strict=True)
        items = "".join(
            f"({quoted(statement.text)}, {quoted(verdict.evidence.told(self.words))}), "
            for statement, verdict in pairs
        )
        return f"#claims({items})\n\n"

    def law(self, piece: FoundLaw) -> str:
        """A law with how far it was checked; where there is none, the counts."""
        if piece.text:
            told = f"{piece.law.quantity} = {piece.text}"
            return f"#claims(({quoted(told)}, {quoted(piece.told(self.words))}),)\n\n"
        said = piece.told(self.words)
        counts = f"#raw({quoted(piece.law.text_table())}, block: true)\n\n"
        return f"{counts}#note({content(said)})\n\n"

    def proof(self, piece: Proved) -> str:
        """What was asked and how it was settled; of what is false, where it goes wrong."""
        finding = piece.finding
        asked = finding.asked.line(self.words)
        if finding.holds:
            how = finding.evidence.told(self.words)
            return f"#claims(({quoted(asked)}, {quoted(how)}),)\n\n"
        told = finding.sentences(self.words)
        made = f"#raw({quoted(asked)});\n\n" + "".join(f"#{quoted(line)};\n\n" for line in told)
        if piece.figure is not None and piece.table is not None:
            made += self.drawn(self.called("figure"), piece.figure)
            made += self.run_table(self.called("table"), piece.table)
        return made

    def fault(self, piece: Broken) -> str:
        """The table is given, not a blank: what is asked is what is wrong."""
        riddle = Riddle(self.called("figure"), self.called("table"), piece)
        if self.blank:
            self.riddles.append(riddle)
            if piece.solution:
                facts = {"figure": riddle.figure, "table": riddle.table}
                return f"#note({content(self.words('handout-solution-elsewhere', **facts))})\n\n"
        return self.broken(riddle)

    def coverage(self, piece: Covered) -> str:
        """What the example shows."""
        made = ""
        heading, *lines = piece.lines(self.words) or [()]
        if lines:
            heads = "".join(f"{content(name)}, " for name in heading)
            cells = "".join(
                f"{content(what)}, {content(seen)}, {content(of)}, [#raw({quoted(unseen)});], "
                for what, seen, of, unseen in lines
            )
            called = self.called("table")
            made += f"#note({content(f'{called}. {piece.title(self.words)}')})\n\n"
            aligned = "start + top, right + top, right + top, start + top"
            made += f"#own-table(4, ({aligned}), ({heads}), {cells})\n\n"
        elif piece.caption:
            made += f"#note({content(piece.caption)})\n\n"
        items = "".join(f"{content(text)}, " for text in piece.sentences(self.words))
        return made + (f"#list({items})\n\n" if items else "")

    def comparison(self, piece: Compared) -> str:
        """Designs compared."""
        made = ""
        if lines := piece.lines(self.words):
            title = content(f"{self.called('table')}. {piece.title(self.words)}")
            made = f"#note({title})\n\n{comparisons.table(lines)}\n\n"
        texts = (*piece.sentences(self.words), *piece.notes(self.words))
        made += f"#list({''.join(f'{content(captions.unbroken(one))}, ' for one in texts)})\n\n"
        if (chart := piece.chart(self.words)) is not None:
            drawn, below = chart.svg(), captions.charted(piece, self.words)
            called = self.called("figure")
            made += self._picture(drawn, chart.about, curves.size(drawn), called, below)
        if piece.path is not None:
            made += self.drawn(self.called("figure"), piece.path.figure)
            path = piece.path.path
            made += f"{comparisons.table(path.cells(self.words), {0, 1})}\n\n"
            made += f"#note({content(captions.unbroken(piece.path.note(self.words)))})\n\n"
        return made

    def inside(self, piece: Opened) -> str:
        """A clock period opened up, and what is to be said of it."""
        called, figure = self.called("figure"), piece.figure
        made = self.drawn(called, replace(figure, caption=piece.title(self.words)))
        items = "".join(f"{content(one)}, " for one in piece.sentences(self.words))
        made += f"#list({items})\n\n"
        told = piece.claimed(self.words)
        claims = "".join(f"({quoted(text)}, {quoted(how)}), " for text, how in told)
        return made + (f"#claims({claims})\n\n" if told else "")

    def composed(self, piece: Composed) -> str:
        """A block made of plain parts, its text in the language that it says."""
        primary = quoted(piece.language.partition("-")[0].lower())
        made = ""
        for one in piece.content:
            if isinstance(one, EdgeTable):
                made += self.run_table(self.called("table"), one)
            elif isinstance(one, Figure):
                made += self.drawn(self.called("figure"), one)
            else:
                note, text = self._content(one)
                made += f"{note}#text(lang: {primary})[{text}]\n\n"
        return made

    def _content(self, one: Paragraph | Listing | Grid | Code) -> tuple[str, str]:
        """What stands above a part of a block, in our words, and the part."""
        match one:
            case Paragraph(text=text):
                return "", running(text)
            case Listing(items=items, numbered=numbered):
                told = "".join(f"[{running(item)}], " for item in items)
                return "", f"#{'enum' if numbered else 'list'}({told})"
            case Code(text=text):
                return "", f"#raw({quoted(text)}, block: true)"
            case Grid(heading=heading, rows=rows, caption=caption, right=right):
                sides = ("end" if column in right else "start" for column in range(len(heading)))
                aligned = "".join(f"{side} + top, " for side in sides)
                heads = "".join(f"{content(name)}, " for name in heading)
                cells = "".join(f"{content(cell)}, " for row in rows for cell in row)
                called = self.called("table")
                note = f"#note({content(f'{called}. {caption}')})\n\n"
                return note, f"#own-table({len(heading)}, ({aligned}), ({heads}), {cells})"

    def question(self, piece: Asked) -> str:
        """What is asked, or in a worked solution the answer; kept for the answer sheet."""
        if self.solving:
            return questions.solved(self, piece)
        self.asked.append(piece)
        return questions.asked(self, piece)

    # ------------------------------------------------------------------ what they are made of

    def _unasked(self, before: Figure) -> str:
        """The stage that a page has after its first figure if the lesson asks for none."""
        pieces = self.report.pieces.values()
        first = next(piece for piece in pieces if isinstance(piece, Figure))
        if (
            not self.staging
            or first is not before
            or any(isinstance(piece, Stage) for piece in pieces)
        ):
            return ""
        return self.stage(Stage(), before)

    def broken(self, riddle: Riddle) -> str:
        """The figure and the table of a broken circuit."""
        figure, table = riddle.broken.captioned(self.words)
        return self.drawn(riddle.figure, figure) + self.run_table(riddle.table, table)

    def run_table(
        self,
        called: str,
        table: EdgeTable,
        empty: frozenset[int] = frozenset(),
        cells: run_tables.Cells = frozenset(),
    ) -> str:
        """A table of a run, some rows or single `cells` open; below the first, what cells mean."""
        told = table.caption or captions.given(table.trace, table.rows, self.words)
        caption = f"{called}. {told}"
        parts = run_tables.run_table(table, empty, caption, self.width, self.words, cells)
        made = [f"{part}\n\n" for part in parts]
        if not self.keyed:
            self.keyed = True
            # What the cells mean stays on the page of the table.
            made[-1] = f"#[\n#show figure: set block(sticky: true)\n{made[-1]}{self._key()}\n]\n\n"
        return "".join(made)

    def _figure(self, figure: Figure) -> str:
        called = self.called("figure")
        if not (self.blank and blanks.of_figure(figure)):
            return self.drawn(called, figure)
        figure = self._slim(figure, figure.drawing())
        self.withheld.append((called, figure))
        return self.drawn(called, figure, blanks.emptied(figure.drawing(), self.words))

    def _slim(self, figure: Figure, drawing: Drawing) -> Figure:
        """The figure, laid out for the sheet if its letters would be under 6 pt on it."""
        room = self.width * theme.SIZE_SMALL / _LEAST
        return (
            replace(figure, wish=replace(figure.wish, room=room))
            if drawing.width > room
            else figure
        )

    def drawn(self, called: str, figure: Figure, drawing: Drawing | None = None) -> str:
        """A figure, or another `drawing` in its place."""
        if drawing is None:
            drawing = figure.drawing()
            slim = self._slim(figure, drawing)
            drawing = drawing if slim is figure else slim.drawing()
        about = f"{drawing.title.rstrip('.')}. {drawing.description}".strip()
        told = captions.told(figure, self.words)
        size = (drawing.width, drawing.height)
        return self._picture(figure.svg(drawing), about, size, called, told)

    def _picture(
        self, svg: str, about: str, size: tuple[float, float], called: str, told: str
    ) -> str:
        """A picture, as large as it was drawn or as fits."""
        data = svg.encode()
        # Papers share what is the same in all of them.
        same = (known for known, content in self.files.items() if content == data)
        name = next(same, f"figure-{len(self.files) + 1}.svg")
        self.files[name] = data
        wide, high = size
        scale = min(_POINTS, self.width / wide, _TALLEST / high)
        caption = content(f"{called}. {told}")
        return f"#drawing({quoted(name)}, {quoted(about)}, {wide * scale:.1f}pt, {caption})\n\n"

    def _key(self) -> str:
        """What the cells of a table mean."""
        cells = ("one", "zero", "unknown", "changed")
        return f"#key({', '.join(quoted(self.words(f'key-{name}')) for name in cells)})"

    def called(self, what: Literal["figure", "table"]) -> str:
        """The next figure or table by name and number."""
        self.counts[what] = self.counts.get(what, 0) + 1
        return self.words(f"handout-{what}", number=self.counts[what])
