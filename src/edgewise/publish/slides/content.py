"""Content: which slides a lesson has, in its own order.

First its title; then its steps, where its stage or its first ``steps`` block stands; and where they
stand its claims, questions and what else is to be seen. Prose is not for slides: it is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from edgewise.lesson import Report, picking
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import Code, Composed, Grid, Listing, Paragraph, Phrase, Text
from edgewise.lesson.covered import Covered
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Steps
from edgewise.practice import wording, worked
from edgewise.practice.question import CellsQuestion, ChoiceQuestion, Question, ValueQuestion
from edgewise.practice.table_question import Cell
from edgewise.publish import captions
from edgewise.publish.lanes import without_lane
from edgewise.publish.publisher import Publisher
from edgewise.publish.slides.deck import Deck, Line, Picture, Slide, pictured
from edgewise.publish.slides.figures import Figures, Show
from edgewise.publish.slides.shape import Shape
from edgewise.publish.stage import telling
from edgewise.publish.stage.telling import Telling
from edgewise.trace import Trace
from edgewise.views.charts import curves
from edgewise.views.registry import Wish
from edgewise.views.table.edge_table import edge_table
from edgewise.views.text import alt_text
from edgewise.words.lists import equations, listed

Slides = tuple[Slide, ...]
_BETWEEN: Final = "\u00a0=\u00a0"


def deck(report: Report, shape: Shape, show: Show = "diagram") -> Deck:
    r"""The slides of a checked lesson.

    Examples
    --------
    >>> from pathlib import Path
    >>> from edgewise import lesson
    >>> from edgewise.publish.slides.shape import SHAPES
    >>> text = "---\ntitle: Rain\ndesign: serial-adder\noperands: {a: 1, b: 1}\n---\n"
    >>> made = deck(lesson.check_text(text, "rain.md", Path()), SHAPES["16:9"])
    >>> [slide.title for slide in made.slides][:2]
    ['Rain', 'Before the first edge, with the inputs of phase load']
    """
    front = report.lesson.front
    making = _Making(report, shape, show)
    slides = (making.opening(), *making.all())
    letters = making.figures.letters
    return Deck(front.title, front.language, report.words.language, slides, letters)


@dataclass
class _Making(Publisher[Slides]):
    report: Report
    shape: Shape
    show: Show

    @cached_property
    def trace(self) -> Trace:
        return self.report.trace

    @cached_property
    def figures(self) -> Figures:
        pieces = self.report.pieces.values()
        wish = next((piece for piece in pieces if isinstance(piece, Stage)), Stage())
        steps = self.report.steps
        pointed = dict.fromkeys(name for one in steps for name in one.points or one.predict)
        room, words = self.shape.content, self.report.words
        return Figures(self.trace, wish, room, self.show, words, tuple(pointed))

    def opening(self) -> Slide:
        """The title: what runs, and with what."""
        report, words = self.report, self.report.words
        title = alt_text.title(self.trace.design, words)
        numbers = {**self.trace.design.parameters, **self.trace.operands}
        lines = [Line(title[:1].upper() + title[1:])]
        lines += [Line(equations(numbers.items(), _BETWEEN))] if numbers else []
        if self.trace.edges:
            lines.append(Line(words("clock-edges", count=self.trace.edges)))
        if report.chosen is not None:
            lines.append(Line(picking.said(report.chosen, words, _BETWEEN), "note"))
        notes = "\n\n".join(text for text in (report.opening, words("page-footer")) if text)
        front = report.lesson.front
        own = bool(report.opening)
        return Slide(front.title, tuple(lines), notes=notes, own=own, opening=True)

    def all(self) -> Iterator[Slide]:
        """Every slide behind the title."""
        pieces = list(self.report.pieces.values())
        asked: list[object] = [p for p in pieces if isinstance(p, Steps | Stage)]
        asked = asked or [piece for piece in pieces if isinstance(piece, Figure)]
        if not asked:
            yield from self.run()
        for piece in pieces:
            if asked and piece is asked[0]:
                yield from self.run()
            yield from self.piece(piece)

    # ------------------------------------------------------------------ steps

    def run(self) -> Iterator[Slide]:
        """A slide for each step, and before it one that asks, if it does."""
        for one in telling.of(self.report):
            if one.step.predict:
                yield self._predict(one)
            yield self._step(one)

    def _step(self, one: Telling) -> Slide:
        step, words = one.step, self.report.words
        notes, own = one.said or words("slides-goes-on"), bool(step.said)
        if not step.predict:
            pictures = self.figures.step(step.row, step.points)
            return Slide(one.heading, pictures=pictures, notes=notes, own=own)
        held = ((name, self.trace.word(name, step.row)) for name in step.predict)
        answer = Line(f"{words('question-answer')}: {equations(held, _BETWEEN)}")
        picture = pictured(self.figures.diagram(step.row, step.points or step.predict))
        return Slide(one.heading, (answer,), (picture,), notes=notes, own=own)

    def _predict(self, one: Telling) -> Slide:
        step, words = one.step, self.report.words
        asked = words("slides-predict", names=listed(step.predict, words), edge=step.row)
        before = captions.moment(self.trace, (step.row - 1,), words)
        picture = self.figures.alone(step.row - 1)
        return Slide(before, (Line(asked),), (picture,), notes=words("slides-wait"))

    def steps(self, _: Steps) -> Slides:
        """Shown where the first of them stands."""
        return ()

    def stage(self, _: Stage) -> Slides:
        """Its rows are the steps."""
        return ()

    def said(self, _: Said) -> Slides:
        """It is in the notes of its rows, or of the title."""
        return ()

    def edge_table(self, _: EdgeTable) -> Slides:
        """It grows below the steps."""
        return ()

    # ------------------------------------------------------------------ what was checked

    def claims(self, piece: Checked) -> Slides:
        """The claims of a block, and how each was checked."""
        pairs = zip(piece.statements, piece.verdicts, strict=True)
        words = self.report.words
        told = ((one.text, verdict.evidence.told(words)) for one, verdict in pairs)
        return (self._checked("claims-checked", *told),)

    def law(self, piece: FoundLaw) -> Slides:
        """A law with how far it was checked; where there is none, that."""
        told = piece.told(self.report.words)
        if piece.text:
            law = f"{piece.law.quantity} = {piece.text}"
            return (self._checked("law-checked", (law, told)),)
        return (Slide(piece.law.quantity, (Line(told),)),)

    def proof(self, piece: Proved) -> Slides:
        """What was asked and how it was settled; of what is false, where it goes wrong."""
        finding, words = piece.finding, self.report.words
        asked = finding.asked.line(words)
        if finding.holds:
            return (self._checked("proved", (asked, finding.evidence.told(words))),)
        lines = (Line(asked, "formula"), *(Line(text) for text in finding.sentences(words)))
        made = [Slide(words("slides-refuted"), lines)]
        if piece.figure is not None and piece.table is not None:
            made += self._figure(piece.figure)
            made += self._table(piece.table, "")
        return tuple(made)

    def _checked(self, title: str, *told: tuple[str, str]) -> Slide:
        lines = [
            line
            for text, how in told
            for line in (Line(" ".join(text.split()), "formula"), Line(how, "note"))
        ]
        said = "\n".join(f"{line.text}" for line in lines)
        return Slide(self.report.words(title), tuple(lines), notes=said)

    # ------------------------------------------------------------------ questions

    def question(self, piece: Asked) -> Slides:
        """A question, and behind it its answer and how one gets there."""
        asked, words = piece.question, self.report.words
        heading = wording.heading(asked, words)
        lines = [Line(wording.asked(asked, words))]
        if isinstance(asked, ChoiceQuestion):
            lines += (
                Line(f"{letter})\u00a0{wording.option(one, words)}")
                for letter, one in asked.lettered
            )
        hint = f"{words('question-hint')}: {asked.hint}" if asked.hint else words("slides-wait")
        question = Slide(heading, tuple(lines), self._shown(asked), notes=hint)
        solution = wording.solution(piece, words)
        answer = wording.answer(asked, words)
        told = Line(f"{words('question-answer')}: {answer}")
        given = () if isinstance(asked, CellsQuestion) else (told,)
        notes = "\n".join((told.text, *solution))
        title = words("slides-answer", question=heading)
        answered = Slide(title, given, self._complete(asked), notes=notes)
        if not answered.pictures:
            how = tuple(Line(text, "bullet") for text in solution)
            answered = replace(answered, lines=(*given, *how))
        return (question, answered)

    def _shown(self, asked: Question) -> tuple[Picture, ...]:
        """The table or the timing diagram that a question shows, what is asked left open."""
        match asked:
            case CellsQuestion(kind="lane"):
                drawing = self._lane(asked).drawing()
                open_lane = without_lane(drawing, asked.cells[0].column, self.report.words)
                return (pictured(open_lane),)
            case CellsQuestion(columns=columns, rows=rows, cells=cells):
                blank = frozenset((cell.row, cell.column) for cell in cells)
            case ChoiceQuestion(kind="fault", columns=columns, rows=rows):
                blank = frozenset()
            case ValueQuestion(cell=cell) | ChoiceQuestion(kind="choice", cell=Cell() as cell):
                # What it starts from; without edges that would be the answer.
                started = replace(self.figures, trace=asked.trace)
                return (started.alone(0),) if cell.row else ()
            case _:
                return ()
        words = self.report.words
        drawn = edge_table(asked.trace, columns, rows, caption="", blank=blank, words=words)
        return (pictured(drawn),)

    def _complete(self, asked: Question) -> tuple[Picture, ...]:
        """What a question shows, nothing left out; of a value, the rows that lead to it."""
        if isinstance(asked, CellsQuestion) and asked.kind == "lane":
            return (pictured(self._lane(asked).drawing()),)
        shown = worked.table(asked)
        if shown is None:
            return ()
        return (pictured(edge_table(asked.trace, *shown, caption="", words=self.report.words)),)

    def _lane(self, asked: CellsQuestion) -> Figure:
        wish = Wish(
            names=asked.columns,
            rows=asked.rows,
            room=self.shape.content.width,
            words=self.report.words,
        )
        return Figure(asked.trace, "timing", wish, asked.rows, asked.columns)

    # ------------------------------------------------------------------ what else is shown

    def figure(self, piece: Figure) -> Slides:
        """A figure of its own; a diagram of the run is among the steps, a filmstrip is those."""
        mine = piece.trace is self.trace and piece.kind in ("diagram", "filmstrip", "table")
        return () if mine and not piece.wish.path else self._figure(piece)

    def _figure(self, piece: Figure) -> Slides:
        told = captions.moment(piece.trace, piece.rows, self.report.words)
        width = self.shape.content.width
        drawing = replace(piece, wish=replace(piece.wish, room=width)).drawing()
        lines = (Line(piece.caption),) if piece.caption else ()
        return (Slide(told, lines, (pictured(drawing),), notes=piece.caption or told),)

    def _table(self, piece: EdgeTable, title: str) -> Slides:
        words = self.report.words
        told = title or piece.caption or captions.given(piece.trace, piece.rows, words)
        drawn = edge_table(piece.trace, piece.columns or None, piece.rows, caption="", words=words)
        return (Slide(told, pictures=(pictured(drawn),), notes=told),)

    def fault(self, piece: Broken) -> Slides:
        """The circuit as it should be, or the fault in it; then the table of the broken run."""
        figure, table = piece.captioned(self.report.words)
        return (*self._figure(figure), *self._table(table, ""))

    def coverage(self, piece: Covered) -> Slides:
        """What the example shows."""
        words = self.report.words
        lines = tuple(Line(text, "bullet") for text in piece.sentences(words))
        table = tuple(tuple(row) for row in piece.lines(words))
        title = piece.title(words)
        made = [Slide(title, table=table)] if len(table) > 1 else []
        return (*made, *([Slide(title, lines)] if lines else []))

    def comparison(self, piece: Compared) -> Slides:
        """Designs compared: the table, the chart, the critical path, and what follows."""
        words, title = self.report.words, piece.title(self.report.words)
        made: list[Slide] = []
        if lines := piece.lines(words):
            made.append(Slide(title, table=tuple(tuple(row) for row in lines)))
        if (chart := piece.chart(words)) is not None:
            drawn, below = chart.svg(), captions.charted(piece, words)
            picture = Picture(drawn, drawn, chart.about, *curves.size(drawn))
            made.append(Slide(below, pictures=(picture,), notes=below))
        if piece.path is not None:
            made += self._figure(piece.path.figure)
        texts = (*piece.sentences(words), *piece.notes(words))
        if texts:
            made.append(Slide(title, tuple(Line(text, "bullet") for text in texts)))
        return tuple(made)

    def inside(self, piece: Opened) -> Slides:
        """A clock period opened up, then what is to be said of it."""
        words = self.report.words
        wish = replace(piece.figure.wish, room=self.shape.content.width)
        drawing = replace(piece.figure, wish=wish).drawing()
        title, said = piece.title(words), piece.sentences(words)
        shown = Slide(title, pictures=(pictured(drawing),), notes=" ".join(said))
        told = Slide(title, tuple(Line(one, "bullet") for one in said), notes=" ".join(said))
        claims = piece.claimed(words)
        return (shown, told, *([self._checked("claims-checked", *claims)] if claims else []))

    def composed(self, piece: Composed) -> Slides:
        """A block made of plain parts."""
        title, made = self.report.lesson.front.title, list[Slide]()
        lines: list[Line] = []
        for one in piece.content:
            match one:
                case Paragraph(text=text):
                    lines.append(Line(_plain(text)))
                case Listing(items=items):
                    lines += (Line(_plain(item), "bullet") for item in items)
                case Code(text=text):
                    lines += (Line(line, "formula") for line in text.splitlines())
                case Grid(heading=heading, rows=rows, caption=caption):
                    made.append(Slide(caption or title, table=(heading, *rows)))
                case EdgeTable():
                    made += self._table(one, "")
                case Figure():
                    made += self._figure(one)
        return (*([Slide(title, tuple(lines))] if lines else []), *made)

    def circuit(self, _: CircuitText) -> Slides:
        """Its diagram is on every step."""
        return ()


def _plain(text: Text) -> str:
    return "".join(span.text if isinstance(span, Phrase) else span for span in text)
