"""HTML of a checked lesson. Whatever comes from a lesson or a circuit is escaped here."""

from __future__ import annotations

import html
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.lesson import Report, picking
from edgewise.lesson.blocks import CircuitText, EdgeTable, Figure, Piece, Said, Stage
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.covered import Covered
from edgewise.lesson.expression import shown
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.proof import Proved
from edgewise.publish.html import comparisons, tables
from edgewise.publish.stage import custom_element

if TYPE_CHECKING:
    from markdown_it.token import Token

_ALIGNED: Final = {
    "text-align:left": "left",
    "text-align:right": "right",
    "text-align:center": "middle",
}


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a page (a paragraph, a list, a block), and the line in which it begins."""

    line: int
    html: str


@dataclass(frozen=True, slots=True)
class Body:
    """The text of a page, and whether there is a stage in it."""

    parts: tuple[Part, ...]
    staged: bool


def body(report: Report) -> str:
    """The lesson's text with its values, tables, figures and claims."""
    return "".join(part.html for part in made(report).parts)


def made(report: Report) -> Body:
    """The lesson's text in parts."""
    from edgewise.lesson.prose import rendered

    rules = _Rules(report)
    figures = any(isinstance(piece, Figure) for piece in report.pieces.values())
    parts = [] if rules.staged or figures else [Part(0, rules.stage(Stage()))]
    group: list[Token] = []
    for token in report.lesson.tokens:
        group.append(token)
        if token.level == 0 and token.nesting <= 0:
            line = (group[0].map or (0, 0))[0] + 1
            parts.append(Part(line, rendered(group, rules.all())))
            group = []
    return Body(tuple(parts), rules.shown)


def facts(report: Report) -> str:
    """The line under the title: design, parameters, operands, edges."""
    design = report.trace.design
    told = [html.escape(report.blueprint.title)]
    told += [_equals(name, value) for name, value in design.parameters.items()]
    told += [_equals(name, value) for name, value in report.trace.operands.items()]
    if design.edges:
        told.append(f"{design.edges} clock edge{'s' * (design.edges != 1)}")
    items = "".join(f"<li>{item}</li>" for item in told)
    return f'<ul class="facts"{english(report)}>{items}</ul>{_chosen(report)}'


def _chosen(report: Report) -> str:
    """Why these operands, where the builder picked them."""
    if report.chosen is None:
        return ""
    why = html.escape(picking.chosen(report.chosen).replace(" = ", "\u00a0=\u00a0"))
    return f'\n<p class="chosen"{english(report)}>{why[:1].upper()}{why[1:]}.</p>'


def english(report: Report) -> str:
    """The language of our own words, where the lesson is in another."""
    language = report.lesson.front.language.lower()
    return "" if language == "en" or language.startswith("en-") else ' lang="en"'


def _equals(name: str, value: int) -> str:
    return f"<code>{html.escape(name)}</code>&nbsp;=&nbsp;{value}"


def value_html(value: Value) -> str:
    """A computed value in running text."""
    if isinstance(value, Word):
        return f'<code class="value">{html.escape(str(value))}</code>'
    return f'<span class="value">{shown(value)}</span>'


class _Rules:
    """What each kind of token becomes, where that is not the parser's own rule."""

    def __init__(self, report: Report) -> None:
        self.report = report
        levels = [int(t.tag[1]) for t in report.lesson.tokens if t.type == "heading_open"]
        # The title is the page's h1; the lesson's own headings begin below it.
        self.deeper = 2 - min(levels, default=2)
        self.keyed = False
        # A page without a stage of its own has one after its first figure.
        self.staged = int(any(isinstance(p, Stage) for p in report.pieces.values()))
        self.stages = 0
        self.shown = False
        """Whether a stage is there: a run can be too long for one."""

    def all(self) -> dict[str, Any]:
        return {
            "code_inline": self.code_inline,
            "fence": self.fence,
            "code_block": self.code_block,
            "heading_open": self.heading,
            "heading_close": self.heading,
            "image": self.image,
            "link_open": self.link,
            "table_open": self.table_open,
            "table_close": lambda *_: "</table></div>\n",
            "th_open": self.cell,
            "td_open": self.cell,
        }

    def code_inline(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        place = token.meta.get("place")
        if place is not None:
            return value_html(self.report.values[place])
        return f"<code>{html.escape(token.content)}</code>"

    def fence(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        place = token.meta.get("place")
        if place is None:
            return code(token.content)
        return self.piece(self.report.pieces[place])

    def code_block(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        return code(tokens[at].content)

    def piece(self, piece: Piece) -> str:  # noqa: C901  # a line for each kind
        match piece:
            case EdgeTable():
                first, self.keyed = not self.keyed, True
                return tables.edge_table(
                    self.report.trace, piece, english(self.report), keyed=first
                )
            case Figure():
                again = not self.staged and self.shows_the_start(piece)
                figure = tables.figure(
                    self.report.trace, piece, english(self.report), repeated=again
                )
                return figure + ("" if self.staged else self.stage(Stage()))
            case Stage():
                return self.stage(piece)
            case Checked():
                return claims(piece, english(self.report))
            case CircuitText(text=text):
                return code(text)
            case Said():
                return ""  # for the teacher alone
            case FoundLaw():
                return law(piece, english(self.report))
            case Proved():
                return proved(piece, english(self.report))
            case Broken():
                return tables.broken(piece, english(self.report))
            case Compared():
                return comparisons.comparison(piece, english(self.report))
            case Covered():
                return tables.coverage(piece, english(self.report))

    def shows_the_start(self, drawn: Figure) -> bool:
        """Whether it is what the stage behind it begins with; words of its own are kept."""
        from edgewise.views.diagram.block_diagram import diagram

        return not drawn.caption and drawn.drawing == diagram(self.report.trace, 0)

    def stage(self, wish: Stage) -> str:
        """A stage; it counts them, so that each has an id of its own."""
        self.staged = 1
        self.stages += 1
        told = custom_element.of(self.report, wish, self.stages, english(self.report))
        self.shown = self.shown or bool(told)
        return told

    def heading(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        level = min(int(token.tag[1]) + self.deeper, 6)
        return f"<h{level}>" if token.nesting == 1 else f"</h{level}>\n"

    def image(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        source = self.report.pictures[str(token.attrs["src"])]
        title = token.attrs.get("title")
        told = f' title="{html.escape(str(title))}"' if title else ""
        return f'<img src="{html.escape(source)}" alt="{html.escape(token.content)}"{told}>'

    def link(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        told = "".join(
            f' {k}="{html.escape(str(v))}"'
            for k, v in token.attrs.items()
            if k in ("href", "title")
        )
        return f'<a{told} rel="noopener noreferrer">'

    def table_open(self, *_: Any) -> str:
        return '<div class="box" role="group" tabindex="0"><table class="plain">\n'

    def cell(self, tokens: Sequence[Token], at: int, *_: Any) -> str:
        token = tokens[at]
        aligned = _ALIGNED.get(str(token.attrs.get("style", "")))
        scope = ' scope="col"' if token.tag == "th" else ""
        told = f' class="{aligned}"' if aligned else ""
        return f"<{token.tag}{scope}{told}>"


def code(text: str) -> str:
    """Code as it stands."""
    return f'<pre class="box" tabindex="0"><code>{html.escape(text)}</code></pre>\n'


def claims(checked: Checked, language: str) -> str:
    """The claims of a block, and how each was checked."""
    items = "".join(
        f"<li><code>{html.escape(' '.join(statement.text.split()))}</code>"
        f' <span class="how">{html.escape(verdict.how)}</span></li>\n'
        for statement, verdict in zip(checked.statements, checked.verdicts, strict=True)
    )
    return f'<ul class="claims" aria-label="Claims, checked"{language}>\n{items}</ul>\n'


def law(found: FoundLaw, language: str) -> str:
    """A law with how far it was checked; where there is none, the counts."""
    quantity = html.escape(found.law.quantity)
    if found.text:
        told = f"<code>{quantity} = {html.escape(found.text)}</code>"
        how = f' <span class="how">{html.escape(found.how)}</span>'
        label = 'aria-label="Law, checked"'
        return f'<ul class="claims" {label}{language}>\n<li>{told}{how}</li>\n</ul>\n'
    said = html.escape(", ".join(str(found.law).splitlines()[:2]))
    counts = code(found.law.text_table())
    return f"<figure{language}>\n{counts}<figcaption>{said}</figcaption></figure>\n"


def proved(piece: Proved, language: str) -> str:
    """A finding: what was asked and how it was settled; of a false one, where it goes wrong."""
    finding = piece.finding
    asked = html.escape(": ".join(finding.asked.splitlines()))
    if finding.holds:
        how = html.escape(finding.how)
        said = f'<code>{asked}</code> <span class="how">{how}</span>'
        return f'<ul class="claims" aria-label="Proved"{language}>\n<li>{said}</li>\n</ul>\n'
    _, *told = finding.sentences()
    text = "".join(f"<p>{html.escape(line)}</p>\n" for line in told)
    figure = ""
    if finding.trace is not None and finding.row is not None:
        drawn = Figure(piece.svg, (finding.row,), finding.columns, piece.caption)
        figure = tables.edge_table(finding.trace, EdgeTable(finding.columns, finding.rows))
        figure = tables.figure(finding.trace, drawn, language) + figure
    return f"<div{language}>\n<p><code>{asked}</code></p>\n{text}</div>\n{figure}"
