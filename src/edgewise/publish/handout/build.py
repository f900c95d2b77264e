"""A lesson on paper: an accessible PDF, with blanks and an answer sheet if wanted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, TypeAlias
from urllib.parse import unquote

from edgewise import lesson
from edgewise.errors import EdgewiseError, Message, Place, TextError
from edgewise.lesson import Report, picking
from edgewise.lesson.picking import Note
from edgewise.publish import output
from edgewise.publish.handout import answers, pdf
from edgewise.publish.handout.pdf import PAPERS, NoGlyph, check_paper, quoted
from edgewise.publish.handout.prose import content, taken
from edgewise.publish.handout.render import MARGINS, Sheet
from edgewise.views.text import alt_text

Paper: TypeAlias = Literal["a4", "letter"]

_POINTS_PER_MM: Final = 72 / 25.4


@dataclass(frozen=True, slots=True)
class Printed:
    """A handout, and the answers to its blanks if it has any; typst and the files it opens."""

    source: str
    files: dict[str, bytes]
    answers: str = ""
    answer_files: dict[str, bytes] | None = None


def build(
    path: Path,
    out: Path,
    tell: Callable[[Note], None] | None = None,
    *,
    paper: str = "a4",
    blanks: bool = False,
) -> tuple[Path, ...]:
    """Check a lesson and write its handout.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        Folder for the PDF; made if need be.
    tell : function, optional
        Is given each note on the lesson's example.
    paper : {"a4", "letter"}
    blanks : bool
        Leave out what is to be filled in, and write a second PDF with the answers.

    Returns
    -------
    tuple of Path
        ``NAME.pdf``, and with blanks ``NAME-answers.pdf``.

    Raises
    ------
    EdgewiseError or Problems
        Everything that is wrong with the lesson; nothing is written then.
    """
    check_paper(paper, "handout")
    report = lesson.check(path)
    sheets = pdfs(report, paper=paper, blanks=blanks)
    names = (f"{path.stem}.pdf", f"{path.stem}-answers.pdf")
    written = [output.write(out / name, sheet) for name, sheet in zip(names, sheets, strict=False)]
    if tell is not None:
        for note in report.notes:
            tell(note)
    return tuple(written)


def pdfs(report: Report, *, paper: str = "a4", blanks: bool = False) -> tuple[bytes, ...]:
    """The PDF of a checked lesson; with blanks a second one, of the answers.

    Raises
    ------
    TextError
        A character that the typefaces don't have, with its place.
    """
    sheets = typst_of(report, paper=paper, blanks=blanks)
    try:
        made = [pdf.pdf(sheets.source, sheets.files)]
        if sheets.answer_files is not None:
            made.append(pdf.pdf(sheets.answers, sheets.answer_files))
    except NoGlyph as wrong:
        raise TextError(wrong.told, place_of(report, wrong.text)) from None
    except EdgewiseError as wrong:
        raise (_broken_picture(report) or _unplaced(report, wrong)) from None
    return tuple(made)


def typst_of(report: Report, *, paper: str = "a4", blanks: bool = False) -> Printed:
    """The typst of a handout and of its answers."""
    sheet = Sheet(report, text_width(paper), blank=blanks)
    body = sheet.body()
    words = report.words
    owned = ", ".join(quoted(words(f"handout-{what}")) for what in ("name", "date"))
    owner = f"#owner({owned})\n\n" if blanks else ""
    source = f"{_opening(report, paper)}{owner}{body}"
    if not blanks:
        return Printed(source, sheet.files)
    full = Sheet(report, sheet.width)
    told = _opening(report, paper, answering=True) + answers.told(sheet, full)
    return Printed(source, sheet.files, told, full.files)


def text_width(paper: str) -> float:
    """Of a paper's text, pt."""
    _, wide, _ = PAPERS[paper]
    return (wide - MARGINS) * _POINTS_PER_MM


def _opening(report: Report, paper: str, *, answering: bool = False) -> str:
    front, trace = report.lesson.front, report.trace
    language, *further = front.language.split("-")
    region = next((part.upper() for part in further if len(part) == 2 and part.isalpha()), "")
    title = report.words("handout-answers", title=front.title) if answering else front.title
    footer = report.words("page-footer")
    told = [quoted(alt_text.title(trace.design, report.words))]
    numbers = {**trace.design.parameters, **trace.operands}
    told += [quoted(f"{name} = {value}") for name, value in numbers.items()]
    if trace.edges:
        told.append(quoted(report.words("clock-edges", count=trace.edges)))
    return (
        f"#show: setup.with(title: {quoted(title)}, lang: {quoted(language.lower())},"
        f" region: {quoted(region) if region else 'none'}, paper: {quoted(PAPERS[paper][0])},"
        f" foot: {quoted(title)})\n"
        f"#title[#{quoted(title)};]\n"
        f"#text({_language(report)}, facts({content(footer)}, {', '.join(told)}))\n\n"
        f"{_chosen(report)}"
    )


def _chosen(report: Report) -> str:
    """Why these operands, where the builder picked them."""
    if report.chosen is None:
        return ""
    why = content(picking.said(report.chosen, report.words))
    return f"#text({_language(report)}, note({why}))\n\n"


def _language(report: Report) -> str:
    """The language of our own words, as typst takes it."""
    return f"lang: {quoted(report.words.language)}"


def _unplaced(report: Report, wrong: EdgewiseError) -> EdgewiseError:
    return EdgewiseError(wrong.told, Place(report.lesson.file))


def _broken_picture(report: Report) -> EdgewiseError | None:
    """The error of the first picture that can't be printed by itself."""
    for token, place in report.lesson.pictures:
        name = str(token.attrs["src"])
        suffix, content = taken(name, report.pictures[name])
        try:
            pdf.pdf(f'#image("it{suffix}", alt: "it")', {f"it{suffix}": content})
        except EdgewiseError:
            return TextError(Message("picture-unprintable", name=unquote(name)), place)
    return None


def place_of(report: Report, text: str) -> Place:
    """Where in the lesson a character stands first."""
    file = report.lesson.file
    letter = text[:1]
    for token in report.lesson.tokens:
        first = (token.map or (0, 0))[0]
        for number, line in enumerate(token.content.split("\n")):
            if letter in line:
                return Place(file, first + 1 + number)
    return Place(file, 1)
