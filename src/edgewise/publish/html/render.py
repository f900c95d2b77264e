"""HTML of a checked lesson. Whatever comes from a lesson or a circuit is escaped here."""

from __future__ import annotations

import html
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.lesson import Report, picking
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import (
    Code,
    Composed,
    Content,
    Grid,
    Listing,
    Paragraph,
    Phrase,
    Text,
)
from edgewise.lesson.covered import Covered
from edgewise.lesson.expression import shown
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Steps
from edgewise.publish.html import comparisons, periods, questions, tables
from edgewise.publish.publisher import Publisher
from edgewise.publish.stage import custom_element, slow_motion
from edgewise.views.registry import Wish
from edgewise.views.text import alt_text
from edgewise.words.messages import Words

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
    waiting = not (rules.staged or figures)
    parts: list[Part] = []
    group: list[Token] = []
    for token in report.lesson.tokens:
        group.append(token)
        if token.level == 0 and token.nesting <= 0:
            line = (group[0].map or (0, 0))[0] + 1
            parts.append(Part(line, rendered(group, rules.all())))
            if waiting and group[0].type == "paragraph_open":
                # A page begins with its first sentence.
                waiting = False
                parts.append(Part((group[0].map or (0, 0))[1] + 1, rules.stage(Stage())))
            group = []
    if waiting:
        parts.append(Part(0, rules.stage(Stage())))
    return Body(tuple(parts), rules.shown)


def paper(report: Report, *, solving: bool, prefix: str) -> str:
    """A paper's text: no stage, in which the answers stood; ids in it begin with `prefix`."""
    from edgewise.lesson.prose import rendered

    rules = _Rules(report, solving=solving, staging=False, prefix=prefix)
    return rendered(list(report.lesson.tokens), rules.all())


def facts(report: Report) -> str:
    """The line under the title: design, parameters, operands, edges."""
    design = report.trace.design
    told = [html.escape(alt_text.title(design, report.words))]
    told += [_equals(name, value) for name, value in design.parameters.items()]
    told += [_equals(name, value) for name, value in report.trace.operands.items()]
    if design.edges:
        told.append(html.escape(report.words("clock-edges", count=design.edges)))
    items = "".join(f"<li>{item}</li>" for item in told)
    return f'<ul class="facts"{language(report)}>{items}</ul>{_chosen(report)}'


def _chosen(report: Report) -> str:
    """Why these operands, where the builder picked them."""
    if report.chosen is None:
        return ""
    why = html.escape(picking.said(report.chosen, report.words, "\u00a0=\u00a0"))
    return f'\n<p class="chosen"{language(report)}>{why}</p>'


def language(report: Report) -> str:
    """The attribute that tells the language of our own words, where the lesson is in another."""
    return report.words.attribute(report.lesson.front.language)


def _equals(name: str, value: int) -> str:
    return f"<code>{html.escape(name)}</code>&nbsp;=&nbsp;{value}"


def value_html(value: Value) -> str:
    """A computed value in running text."""
    if isinstance(value, Word):
        return f'<code class="value">{html.escape(str(value))}</code>'
    return f'<span class="value">{shown(value)}</span>'


class _Rules(Publisher[str]):
    """What each kind of piece becomes, and each token where that is not the parser's own rule."""

    def __init__(
        self, report: Report, *, solving: bool = True, staging: bool = True, prefix: str = ""
    ) -> None:
        self.report = report
        self.solving = solving
        self.prefix = prefix
        self.parts = 0
        self.words = report.words
        self.language = language(report)
        levels = [int(t.tag[1]) for t in report.lesson.tokens if t.type == "heading_open"]
        # The title is the page's h1; the lesson's own headings begin below it.
        self.deeper = 2 - min(levels, default=2)
        self.keyed = False
        # A page without a stage of its own has one after its first figure.
        asked_for = any(isinstance(p, Stage) for p in report.pieces.values())
        self.staged = int(asked_for or not staging)
        self.staging = staging
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

    def edge_table(self, piece: EdgeTable) -> str:
        """The first of a page says what its cells mean."""
        first, self.keyed = not self.keyed, True
        return tables.edge_table(piece, self.words, self.language, keyed=first)

    def figure(self, piece: Figure) -> str:
        """A figure; behind the first one the stage, if the lesson asks for none."""
        again = not self.staged and self.shows_the_start(piece)
        prefix = self.prefix
        made = tables.figure(piece, self.words, self.language, repeated=again, prefix=prefix)
        return made + ("" if self.staged else self.stage(Stage()))

    def stage(self, piece: Stage) -> str:
        """A stage; it counts them, so that each has an id of its own."""
        if not self.staging:
            return ""
        self.staged = 1
        self.stages += 1
        told = custom_element.of(self.report, piece, self.stages, self.language)
        self.shown = self.shown or bool(told)
        return told

    def said(self, _: Said) -> str:
        """For the teacher alone."""
        return ""

    def steps(self, _: Steps) -> str:
        """For what is projected: a reader has the rows themselves."""
        return ""

    def circuit(self, piece: CircuitText) -> str:
        """The text as it stands."""
        return code(piece.text)

    def claims(self, piece: Checked) -> str:
        """The claims of a block, and how each was checked."""
        return claims(piece, self.words, self.language)

    def law(self, piece: FoundLaw) -> str:
        """A law with how far it was checked; where there is none, the counts."""
        return law(piece, self.words, self.language)

    def proof(self, piece: Proved) -> str:
        """What was asked and how it was settled; of what is false, where it goes wrong."""
        return proved(piece, self.words, self.language)

    def coverage(self, piece: Covered) -> str:
        """What the example shows."""
        return tables.coverage(piece, self.words, self.language)

    def fault(self, piece: Broken) -> str:
        """A broken run; nothing in it names the fault."""
        figure, table = piece.captioned(self.words)
        drawn = tables.drawing(figure, self.language, prefix=self.prefix)
        return drawn + tables.edge_table(table, self.words, self.language)

    def comparison(self, piece: Compared) -> str:
        """Designs compared."""
        return comparisons.comparison(piece, self.words, self.language)

    def inside(self, piece: Opened) -> str:
        """A clock period opened up; it can be gone through event by event."""
        made = periods.opened(piece, self.words, self.language, prefix=self.prefix)
        if self.staging:  # not on a paper
            self.shown = True
            made = slow_motion.element(piece, made, self.words)
        told = piece.claimed(self.words)
        if not told:
            return made
        return made + listed(claimed(told), self.words("claims-checked"), self.language)

    def composed(self, piece: Composed) -> str:
        """A block made of plain parts, its text in the language that it says."""
        foreign = piece.language.lower() != self.report.lesson.front.language.lower()
        told = f' lang="{html.escape(piece.language)}"' if foreign else ""
        return "".join(self._content(one, told) for one in piece.content)

    def _content(self, one: Content, language: str) -> str:
        match one:
            case Paragraph(text=text):
                return f"<p{language}>{_running(text)}</p>\n"
            case Listing(items=items, numbered=numbered):
                tag = "ol" if numbered else "ul"
                told = "".join(f"<li>{_running(item)}</li>\n" for item in items)
                return f"<{tag}{language}>\n{told}</{tag}>\n"
            case Grid(heading=heading, rows=rows, caption=caption, right=right):
                table = tables.plain([heading, *rows], caption, right)
                return f'<figure class="coverage"{language}>\n{table}</figure>\n'
            case Code(text=text):
                return code(text)
            case EdgeTable():
                return self.edge_table(one)
            case Figure():
                self.parts += 1  # a block may draw a figure twice, and ids in it must differ
                prefix = f"{self.prefix}part{self.parts}-"
                return tables.figure(one, self.words, self.language, prefix=prefix)

    def question(self, piece: Asked) -> str:
        """A question, with its solution to be opened where that is not kept back."""
        return questions.question(
            piece, self.words, self.language, solution=self.solving, prefix=self.prefix
        )

    def shows_the_start(self, drawn: Figure) -> bool:
        """Whether it is what the stage behind it begins with."""
        start = Figure(
            self.report.trace, "diagram", Wish(after=0, words=self.words), (0,), drawn.names
        )
        return replace(drawn, caption="", place=None) == start

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


_STYLES: Final = {"emphasis": "em", "strong": "strong", "code": "code"}


def _running(text: Text) -> str:
    """Running text of a composed block."""
    made = ""
    for span in text:
        if isinstance(span, Phrase):
            tag = _STYLES[span.style]
            made += f"<{tag}>{html.escape(span.text)}</{tag}>"
        else:
            made += html.escape(span)
    return made


def code(text: str) -> str:
    """Code as it stands."""
    return f'<pre class="box" tabindex="0"><code>{html.escape(text)}</code></pre>\n'


def claims(checked: Checked, words: Words, language: str) -> str:
    """The claims of a block, and how each was checked."""
    pairs = zip(checked.statements, checked.verdicts, strict=True)
    told = ((statement.text, verdict.evidence.told(words)) for statement, verdict in pairs)
    return listed(claimed(told), words("claims-checked"), language)


def claimed(told: Iterable[tuple[str, str]]) -> str:
    """Statements, and how each came out."""
    return "".join(
        f"<li><code>{html.escape(' '.join(text.split()))}</code>"
        f' <span class="how">{html.escape(how)}</span></li>\n'
        for text, how in told
    )


def listed(items: str, label: str, language: str) -> str:
    """Statements that were checked."""
    return f'<ul class="claims" aria-label="{html.escape(label)}"{language}>\n{items}</ul>\n'


def law(found: FoundLaw, words: Words, language: str) -> str:
    """A law with how far it was checked; where there is none, the counts."""
    quantity = html.escape(found.law.quantity)
    if found.text:
        told = f"<code>{quantity} = {html.escape(found.text)}</code>"
        how = f' <span class="how">{html.escape(found.told(words))}</span>'
        return listed(f"<li>{told}{how}</li>\n", words("law-checked"), language)
    said = html.escape(found.told(words))
    counts = code(found.law.text_table())
    return f"<figure{language}>\n{counts}<figcaption>{said}</figcaption></figure>\n"


def proved(piece: Proved, words: Words, language: str) -> str:
    """A finding: what was asked and how it was settled; of a false one, where it goes wrong."""
    finding = piece.finding
    asked = html.escape(finding.asked.line(words))
    if finding.holds:
        how = html.escape(finding.evidence.told(words))
        said = f'<code>{asked}</code> <span class="how">{how}</span>'
        return listed(f"<li>{said}</li>\n", words("proved"), language)
    text = "".join(f"<p>{html.escape(line)}</p>\n" for line in finding.sentences(words))
    figure = ""
    if piece.figure is not None and piece.table is not None:
        figure = tables.figure(piece.figure, words, language) + tables.edge_table(
            piece.table, words
        )
    return f"<div{language}>\n<p><code>{asked}</code></p>\n{text}</div>\n{figure}"
