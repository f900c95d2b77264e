"""A transcript: a lesson as plain text, with what the teacher says."""

from collections.abc import Sequence

from markdown_it.token import Token

from edgewise.lesson import Report
from edgewise.lesson.blocks import Piece
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import Code, Composed, Content, Grid, Listing, Paragraph, Phrase, Text
from edgewise.lesson.covered import Covered
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Steps
from edgewise.practice import wording
from edgewise.publish.formats import Format
from edgewise.publish.publisher import Publisher


class Transcript(Publisher):
    """One method for each kind of piece."""

    def __init__(self, report: Report) -> None:
        self.report = report
        self.words = report.words

    def lesson(self) -> str:
        """The whole lesson."""
        made = [self.report.lesson.front.title]
        for token in self.report.lesson.tokens:
            if token.type == "inline":
                made.append("".join(map(self.span, token.children or ())))
            elif token.type in ("fence", "code_block"):
                place = token.meta.get("place")
                made.append(self.piece(self.report.pieces[place]) if place else token.content)
        return "\n\n".join(text.strip() for text in made if text.strip()) + "\n"

    def span(self, token: Token) -> str:
        """A piece of running text; a computed value has its place."""
        if token.type in ("softbreak", "hardbreak"):
            return " "
        place = token.meta.get("place")
        return str(self.report.values[place]) if place else token.content

    def edge_table(self, piece: EdgeTable) -> str:
        return _table(piece.trace.table(piece.columns, piece.rows), piece.caption)

    def figure(self, piece: Figure) -> str:
        drawing = piece.drawing()
        return f"[{drawing.title}. {drawing.description}]"

    def stage(self, piece: Stage) -> str:
        trace = self.report.trace
        return _table(trace.table(piece.columns or trace.columns), "")

    def said(self, piece: Said) -> str:
        return f"(Say: {piece.text})"

    def steps(self, piece: Steps) -> str:
        return "\n".join(f"(Row {step.row}: {step.said})" for step in piece.steps if step.said)

    def circuit(self, piece: CircuitText) -> str:
        return piece.text

    def claims(self, piece: Checked) -> str:
        pairs = zip(piece.statements, piece.verdicts, strict=True)
        return "\n".join(f"{one.text}: {how.evidence.told(self.words)}" for one, how in pairs)

    def law(self, piece: FoundLaw) -> str:
        return f"{piece.law.quantity} = {piece.text}: {piece.told(self.words)}"

    def proof(self, piece: Proved) -> str:
        told = [piece.finding.asked.line(self.words), *piece.finding.sentences(self.words)]
        return "\n".join(told)

    def coverage(self, piece: Covered) -> str:
        return "\n".join(piece.sentences(self.words))

    def fault(self, piece: Broken) -> str:
        _, table = piece.captioned(self.words)
        return self.edge_table(table)

    def comparison(self, piece: Compared) -> str:
        return "\n".join([_table(piece.lines(self.words), ""), *piece.sentences])

    def question(self, piece: Asked) -> str:
        asked = piece.question
        told = [wording.heading(asked, self.words), wording.asked(asked, self.words)]
        return "\n".join([*told, *wording.solution(piece, self.words)])

    def other(self, piece: Piece) -> str:
        """For a kind of piece that is newer than this package."""
        return f"({type(piece).__name__}: see the page)"

    def composed(self, piece: Composed) -> str:
        return "\n\n".join(map(self.content, piece.content))

    def content(self, one: Content) -> str:
        """What a block of this or another package is composed of."""
        match one:
            case Paragraph():
                return _running(one.text)
            case Listing():
                return "\n".join(f"- {_running(item)}" for item in one.items)
            case Grid():
                return _table([one.heading, *one.rows], one.caption)
            case Code():
                return one.text
            case EdgeTable():
                return self.edge_table(one)
            case Figure():
                return self.figure(one)


def _running(text: Text) -> str:
    return "".join(span.text if isinstance(span, Phrase) else span for span in text)


def _table(lines: Sequence[Sequence[str]], caption: str) -> str:
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    told = [
        "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()
        for line in lines
    ]
    return "\n".join([*([caption] if caption else []), *told])


TRANSCRIPT = Format("transcript", ".txt", "plain text", lambda report: Transcript(report).lesson())
