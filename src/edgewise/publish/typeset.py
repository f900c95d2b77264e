"""Typesetting: a lesson's tokens, values and pieces as typst.

All text becomes a typst string, so nothing in a lesson is ever read as typst. Markup is made
of function calls alone, each in content brackets of its own.
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Final, assert_never
from urllib.parse import unquote

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.errors import Place
from edgewise.lesson import Report
from edgewise.lesson.blocks import CircuitText, EdgeTable, Figure, Piece, Said, Stage
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.covered import Covered
from edgewise.lesson.expression import shown
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.proof import Proved
from edgewise.publish import blanks, comparisons, runtables, tables
from edgewise.publish.printing import quoted
from edgewise.trace import Trace
from edgewise.views.drawing import svg

if TYPE_CHECKING:
    from markdown_it.token import Token

_ALIGNED: Final = {
    "text-align:left": "left",
    "text-align:right": "right",
    "text-align:center": "center",
}
_PLAIN: Final = {
    "em_open": "#emph[",
    "strong_open": "#strong[",
    "blockquote_open": "#quote(block: true)[",
    "list_item_open": "[",
    "bullet_list_open": "#list(",
    "paragraph_open": "",
    "paragraph_close": "\n\n",
    "th_open": "[",
    "td_open": "[",
    "list_item_close": "], ",
    "em_close": "];",
    "strong_close": "];",
    "link_close": "];",
    "heading_close": "]\n\n",
    "blockquote_close": "]\n\n",
    "bullet_list_close": ")\n\n",
    "ordered_list_close": ")\n\n",
    "softbreak": '#" ";',
    "hardbreak": "#linebreak();",
    "hr": "#line(length: 100%, stroke: .6pt + rule)\n\n",
    "th_close": "], ",
    "td_close": "], ",
    "thead_close": "), ",
    "table_close": ")\n\n",
    "thead_open": "",
    "tr_open": "",
    "tr_close": "",
    "tbody_open": "",
    "tbody_close": "",
}
"""Tokens that always become the same."""
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
class Answer:
    """What belongs into a blank of the text."""

    number: int
    formula: str
    value: str


@dataclass(slots=True)
class Sheet:
    """Typst being written, with the files it opens and the answers to its blanks.

    Parameters
    ----------
    report : Report
    width : float
        Of the text, pt.
    blank : bool
        Whether values are left empty.
    """

    report: Report
    width: float
    blank: bool = False
    files: dict[str, bytes] = field(default_factory=dict)
    answers: list[Answer] = field(default_factory=list)
    withheld: list[tuple[str, Piece]] = field(default_factory=list)
    """Tables and figures with empty words, by what they are called."""
    counts: dict[str, int] = field(default_factory=dict)
    keyed: bool = False

    # ------------------------------------------------------------------ the lesson

    def body(self) -> str:
        """The whole lesson."""
        return self._blocks(self.report.lesson.tokens)

    def _blocks(self, tokens: Sequence[Token]) -> str:
        levels = sorted({int(t.tag[1]) for t in tokens if t.type == "heading_open"})
        made: list[str] = []
        for token in tokens:
            match token.type:
                case "heading_open":
                    # No level is passed over, as ISO 14289-1 asks.
                    level = self._level(levels.index(int(token.tag[1])) + 1)
                    made.append(f"#heading(level: {level})[")
                case "inline":
                    made.append(self.inline(token.children or ()))
                case "ordered_list_open":
                    made.append(f"#enum(start: {int(token.attrs.get('start', 1))}, ")
                case "fence" | "code_block":
                    made.append(self._fence(token))
                case "table_open":
                    made.append(self._table(tokens, token))
                case kind:
                    made.append(_PLAIN[kind])
        return "".join(made)

    def _level(self, level: int) -> int:
        last = self.counts.get("level", 0)
        self.counts["level"] = min(level, last + 1)
        return self.counts["level"]

    def _table(self, tokens: Sequence[Token], opening: Token) -> str:
        at = tokens.index(opening)
        end = next(i for i in range(at, len(tokens)) if tokens[i].type == "thead_close")
        heads = [token for token in tokens[at:end] if token.type == "th_open"]
        aligned = "".join(
            f"{_ALIGNED.get(str(head.attrs.get('style', '')), 'start')} + top, " for head in heads
        )
        return f"#own-table({len(heads)}, ({aligned}), ("

    def _fence(self, token: Token) -> str:
        place = token.meta.get("place")
        if place is None:
            return f"#raw({quoted(token.content)}, block: true)\n\n"
        piece = self.report.pieces.get(place)
        return "" if piece is None else self.piece(piece)

    # ------------------------------------------------------------------ running text

    def inline(self, tokens: Sequence[Token]) -> str:
        """Running text."""
        made: list[str] = []
        for token in tokens:
            match token.type:
                case "text" | "text_special" | "html_inline":
                    made.append(f"#{quoted(token.content)};" if token.content else "")
                case "code_inline":
                    made.append(self._code(token))
                case "link_open":
                    target = quoted(str(token.attrs.get("href", "")) or "#")
                    made.append(f"#link({target})[")
                case "image":
                    made.append(self._image(token))
                case kind:
                    made.append(_PLAIN[kind])
        return "".join(made)

    def _code(self, token: Token) -> str:
        place = token.meta.get("place")
        if place is None:
            return f"#raw({quoted(token.content)});"
        return self._value(place)

    def _value(self, place: Place) -> str:
        value = self.report.values[place]
        formula = next(v.formula for v in self.report.lesson.values if v.place == place)
        if self.blank and not blanks.is_given(formula, self.report):
            number = len(self.answers) + 1
            self.answers.append(Answer(number, formula, shown(value)))
            return f"#blank({number}, {min(len(shown(value)), 24)});"
        return value_text(value)

    def _image(self, token: Token) -> str:
        source = self.report.pictures[str(token.attrs["src"])]
        suffix = unquote(str(token.attrs["src"])).rpartition(".")[2].lower()
        name = f"picture-{len(self.files) + 1}.{'jpg' if suffix == 'jpeg' else suffix}"
        try:
            self.files[name] = base64.b64decode(source.partition(",")[2], validate=True)
        except binascii.Error:
            self.files[name] = b""
        return f"#box(image({quoted(name)}, alt: {quoted(token.content)}));"

    # ------------------------------------------------------------------ blocks of ours

    def piece(self, piece: Piece) -> str:  # noqa: C901  # a line for each kind
        """A table, figure, block of claims, or circuit."""
        match piece:
            case EdgeTable():
                return self._edge_table(piece)
            case Figure():
                return self._figure(piece)
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

    def _stage(self, stage: Stage) -> str:
        """What can be stepped through on a page: its diagram, and its rows if they are few."""
        from edgewise.views.diagram import diagram

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
        made = self._figure(drawn)
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
        trace = shown.trace if shown.solution else self.report.trace
        drawn = Figure(svg(shown.drawing), (shown.row,), shown.columns, shown.drawn)
        table = EdgeTable(shown.columns, shown.rows, shown.told)
        made = self.figure(self._called("Figure"), trace, drawn)
        return made + self.run_table(self._called("Table"), shown.trace, table)

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
            made = f"#note({title})\n\n{comparisons.typeset(shown.lines)}\n\n"
        items = "".join(f"{content(text)}, " for text in (*shown.sentences, *shown.notes))
        made += f"#list({items})\n\n"
        if shown.chart:
            made += self._picture(shown.chart, comparisons.about(shown))
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
        caption = content(f"{called}. {table.caption or tables.given(trace, table.rows)}")
        parts = runtables.run_table(trace, table, empty, caption, self.width)
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
        caption = content(f"{called}. {figure.caption or tables.moment(trace, figure.rows)}")
        return f"#drawing({quoted(name)}, {quoted(about)}, {wide * scale:.1f}pt, {caption})\n\n"

    def _called(self, what: str) -> str:
        """The next figure or table by name and number."""
        self.counts[what] = self.counts.get(what, 0) + 1
        return f"{what} {self.counts[what]}"


def heading(picture: str) -> tuple[str, float, float]:
    """Description, width and height of one of our own figures.

    Examples
    --------
    >>> from edgewise.views.drawing import Drawing
    >>> heading(svg(Drawing(8, 4, "A", "A is 1.", ())))
    ('A. A is 1.', 8.0, 4.0)
    """
    from xml.etree import ElementTree as ET

    root = ET.fromstring(picture)  # noqa: S314 - our own SVG, no entities
    told = (root.findtext(f"{_SVG}{tag}", "").rstrip(".") for tag in ("title", "desc"))
    about = "".join(f"{text}. " for text in told if text).strip()
    return about or "Figure.", float(root.get("width", "1")), float(root.get("height", "1"))


def value_text(value: Value) -> str:
    """A computed value in running text."""
    return (
        f"#value({quoted(str(value))});" if isinstance(value, Word) else f"#{quoted(shown(value))};"
    )


def content(text: str) -> str:
    """A text as typst content.

    Examples
    --------
    >>> content("a [b]")
    '[#"a [b]";]'
    """
    return f"[#{quoted(text)};]"
