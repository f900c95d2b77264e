"""Papers as PDF: all variants in one file, their answers, and their worked solutions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.practice import wording
from edgewise.practice.paper import Papers, Variant
from edgewise.publish.handout import pdf
from edgewise.publish.handout.build import text_width
from edgewise.publish.handout.pdf import PAPERS, NoGlyph, quoted
from edgewise.publish.handout.prose import content
from edgewise.publish.handout.render import Sheet
from edgewise.views.text import alt_text
from edgewise.words.lists import equations

What: TypeAlias = Literal["papers", "key", "solutions"]
WHATS: Final[tuple[What, ...]] = ("papers", "key", "solutions")
"""What is printed of papers."""


@dataclass(frozen=True, slots=True)
class Source:
    """The typst of a PDF, and the files that it opens."""

    text: str
    files: dict[str, bytes]


def pdf_of(papers: Papers, what: What, paper: str = "a4") -> bytes:
    """The PDF of papers, of their answers, or of their solutions.

    Raises
    ------
    TextError
        A character that the typefaces don't have.
    """
    return _printed(papers, typst_of(papers, what, paper))


def _printed(papers: Papers, source: Source) -> bytes:
    try:
        return pdf.pdf(source.text, source.files)
    except NoGlyph as wrong:
        raise TextError(wrong.told, Place(str(papers.path))) from None
    except EdgewiseError as wrong:
        raise wrong.placed(Place(str(papers.path))) from None


def typst_of(papers: Papers, what: What, paper: str = "a4") -> Source:
    """The typst of papers, of their answers, or of their solutions."""
    files: dict[str, bytes] = {}
    body = "".join(_MADE[what](one, files, text_width(paper)) for one in papers.variants)
    return Source(_opening(papers, what, paper) + body, files)


def title(papers: Papers, what: What) -> str:
    """What stands at the top."""
    report = papers.report
    plain = report.lesson.front.title
    names = {"key": "paper-key", "solutions": "paper-worked"}
    return report.words(names[what], title=plain) if what in names else plain


def _opening(papers: Papers, what: What, paper: str) -> str:
    report = papers.report
    told = title(papers, what)
    language = report.lesson.front.language.partition("-")[0].lower()
    return (
        f"#show: setup.with(title: {quoted(told)}, lang: {quoted(language)},"
        f" paper: {quoted(PAPERS[paper][0])}, foot: {quoted(told)})\n"
        f"#show: papers.with({quoted(told)})\n\n"
    )


def _sheet(one: Variant, files: dict[str, bytes], width: float, *, solving: bool = False) -> Sheet:
    sheet = Sheet(one.report, width, files=files, solving=solving, staging=False)
    sheet.counts["level"] = 1
    return sheet


def _facts(one: Variant) -> str:
    """What the paper's run is, and what it is worth."""
    report, words = one.report, one.report.words
    marks = words("paper-total", marks=words("question-marks", count=one.marks))
    numbers = {**report.trace.design.parameters, **report.trace.operands}
    told = [
        alt_text.title(report.trace.design, words),
        *(f"{name} = {value}" for name, value in numbers.items()),
    ]
    facts = ", ".join(quoted(text) for text in (*told, marks))
    return f"#paper-facts({facts})\n\n"


def _page(one: Variant, body: str) -> str:
    front, words = one.report.lesson.front, one.report.words
    head = f"{front.title} – {words('paper-code', code=one.code)}"
    return f"#paper-sheet({quoted(one.code)}, {quoted(head)})[\n{body}]\n\n"


def _asked(one: Variant, files: dict[str, bytes], width: float) -> str:
    words = one.report.words
    owned = ", ".join(quoted(words(f"handout-{what}")) for what in ("name", "date"))
    note = f"#note({content(words('paper-instructions'))})\n\n"
    body = _sheet(one, files, width).text()
    return _page(one, f"{_facts(one)}#owner({owned})\n\n{note}{body}")


def _worked(one: Variant, files: dict[str, bytes], width: float) -> str:
    return _page(one, _facts(one) + _sheet(one, files, width, solving=True).text())


def _key(one: Variant, files: dict[str, bytes], width: float) -> str:
    """The answers to one paper as a table; several of them stand on one page."""
    del files, width
    words = one.report.words
    heads = ("paper-question", "question-answer", "paper-marks")
    # A line ends behind an answer, not within one.
    answers = (
        "; ".join(one.replace(" ", "\u00a0") for one in wording.answer(question, words).split("; "))
        for question in one.questions
    )
    told = "".join(
        f"{content(question.name)}, [#value({quoted(answer)});], {content(str(question.marks))}, "
        for question, answer in zip(one.questions, answers, strict=True)
    )
    named = ", ".join(content(words(name)) for name in heads)
    operands = equations(one.operands.items())
    head = words("paper-code", code=one.code)
    title = f"{head}: {operands}" if operands else head
    return (
        f"#paper-key({quoted(one.code)}, {quoted(title)})[\n"
        f"#own-table(3, (start + top, start + top, end + top), ({named}), {told})\n]\n\n"
    )


_MADE: Final[dict[What, Callable[[Variant, dict[str, bytes], float], str]]] = {
    "papers": _asked,
    "key": _key,
    "solutions": _worked,
}


def sheets(
    papers: Papers, paper: str, pool: Executor
) -> Iterator[tuple[What, Callable[[], bytes]]]:
    """Each PDF as a promise: the typesetter, which needs no Python, works in `pool` meanwhile."""
    for what in WHATS:
        yield what, pool.submit(_printed, papers, typst_of(papers, what, paper)).result
