"""Prose of a handout: the tokens of a lesson, with its values and blanks, as typst.

All text becomes a typst string, so nothing in a lesson is ever read as typst. Markup is made
of function calls alone, each in content brackets of its own.
"""

from __future__ import annotations

import base64
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.errors import Place
from edgewise.lesson import Report
from edgewise.lesson.blocks import Piece
from edgewise.lesson.composed import Phrase, Text
from edgewise.lesson.expression import shown
from edgewise.lesson.pieces import Figure, Stage
from edgewise.publish.handout import blanks
from edgewise.publish.handout.pdf import quoted
from edgewise.words.messages import Words

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


@dataclass(frozen=True, slots=True)
class Answer:
    """What belongs into a blank of the text."""

    number: int
    formula: str
    value: str


@dataclass(slots=True)
class Prose:
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
    counts: dict[str, int] = field(default_factory=dict)

    @property
    def words(self) -> Words:
        """Our own words, in the lesson's language if there are any."""
        return self.report.words

    # ------------------------------------------------------------------ the lesson

    def body(self) -> str:
        """The whole lesson; a stage that it does not ask for stands where the page has it."""
        figures = [p for p in self.report.pieces.values() if isinstance(p, Figure | Stage)]
        first = "" if figures else self.piece(Stage())
        return first + self.text()

    def text(self) -> str:
        """The text as it stands."""
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
        suffix, content = taken(str(token.attrs["src"]), source)
        name = f"picture-{len(self.files) + 1}{suffix}"
        self.files[name] = content
        return f"#box(image({quoted(name)}, alt: {quoted(token.content)}));"

    def piece(self, piece: Piece) -> str:
        """What a block of ours became."""
        raise NotImplementedError


def taken(name: str, source: str) -> tuple[str, bytes]:
    """A picture's suffix as typst knows it, and its content, from its name and data URL."""
    suffix = f".{unquote(name).rpartition('.')[2].lower()}"
    return {".jpeg": ".jpg"}.get(suffix, suffix), base64.b64decode(source.partition(",")[2])


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


_STYLES: Final = {"emphasis": "#emph[{}];", "strong": "#strong[{}];"}


def running(text: Text) -> str:
    """Running text of a composed block.

    Examples
    --------
    >>> running(("a [b] ", Phrase("c", "strong")))
    '#"a [b] ";#strong[#"c";];'
    """
    made = ""
    for span in text:
        if not isinstance(span, Phrase):
            made += f"#{quoted(span)};"
        elif span.style == "code":
            made += f"#raw({quoted(span.text)});"
        else:
            made += _STYLES[span.style].format(f"#{quoted(span.text)};")
    return made
