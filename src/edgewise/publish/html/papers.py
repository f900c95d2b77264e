"""Papers as a page: all variants one after another, their answers, or their solutions."""

from __future__ import annotations

import html
from typing import Literal, TypeAlias

from edgewise.practice import wording
from edgewise.practice.paper import Papers, Variant
from edgewise.publish.html import page, render, tables
from edgewise.views.text import alt_text
from edgewise.words.lists import equations

What: TypeAlias = Literal["papers", "key", "solutions"]


def html_of(papers: Papers, what: What = "papers") -> str:
    """The page of papers, of their answers, or of their solutions.

    In the one of the papers there is no answer anywhere.
    """
    report = papers.report
    words = report.words
    plain = report.lesson.front.title
    named = {"key": "paper-key", "solutions": "paper-worked"}
    title = words(named[what], title=plain) if what in named else plain
    language = report.lesson.front.language
    foreign = words.attribute(language)
    contents = "".join(
        f'<li><a href="#{one.code}">{html.escape(words("paper-code", code=one.code))}</a></li>'
        for one in papers.variants
    )
    frame = page.Frame(
        title,
        language,
        f'<ul class="facts"{foreign}>{contents}</ul>',
        foreign,
        words("page-footer"),
    )
    sheet = page.style()
    policy = page.Policy(styles=(page.hashed(sheet),))
    made = {"papers": _paper, "key": _key, "solutions": _solved}[what]
    return page.framed(frame, "".join(map(made, papers.variants)), sheet, "", policy=policy)


def _key(one: Variant) -> str:
    """The answers to one paper as a table."""
    words = one.report.words
    heads = ("paper-question", "question-answer", "paper-marks")
    lines = [tuple(map(words, heads))]
    lines += [(q.name, wording.answer(q, words), str(q.marks)) for q in one.questions]
    head, operands = words("paper-code", code=one.code), equations(one.operands.items())
    title = f"{head}: {operands}" if operands else head
    return (
        f'<section class="paper" id="{one.code}"{render.language(one.report)}>\n'
        f"<h2>{html.escape(head)}</h2>\n{tables.plain(lines, title, (2,))}</section>\n"
    )


def _solved(one: Variant) -> str:
    return _paper(one, solving=True)


def _paper(one: Variant, *, solving: bool = False) -> str:
    report, words = one.report, one.report.words
    told = html.escape(words("paper-code", code=one.code))
    marks = words("paper-total", marks=words("question-marks", count=one.marks))
    numbers = {**report.trace.design.parameters, **report.trace.operands}
    facts = [html.escape(alt_text.title(report.trace.design, words))]
    facts += [f"<code>{html.escape(name)}</code>&nbsp;=&nbsp;{v}" for name, v in numbers.items()]
    facts.append(html.escape(marks))
    items = "".join(f"<li>{fact}</li>" for fact in facts)
    body = render.paper(report, solving=solving, prefix=f"{one.code}-")
    return (
        f'<section class="paper" id="{one.code}">\n<h2>{told}</h2>\n'
        f'<ul class="facts"{render.language(report)}>{items}</ul>\n{body}</section>\n'
    )
