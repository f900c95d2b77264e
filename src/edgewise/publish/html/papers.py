"""Papers as a page: all variants one after another, with or without their solutions."""

from __future__ import annotations

import html

from edgewise.practice.paper import Papers, Variant
from edgewise.publish.html import page, render


def html_of(papers: Papers, *, solving: bool = False) -> str:
    """The page of papers; without `solving` there is no answer anywhere in it."""
    report = papers.report
    words = report.words
    plain = report.lesson.front.title
    title = words("paper-worked", title=plain) if solving else plain
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
    body = "".join(_paper(one, solving=solving) for one in papers.variants)
    return page.framed(frame, body, sheet, "", policy=policy)


def _paper(one: Variant, *, solving: bool) -> str:
    report, words = one.report, one.report.words
    told = html.escape(words("paper-code", code=one.code))
    marks = words("paper-total", marks=words("question-marks", count=one.marks))
    numbers = {**report.trace.design.parameters, **report.trace.operands}
    facts = [html.escape(report.blueprint.title)]
    facts += [f"<code>{html.escape(name)}</code>&nbsp;=&nbsp;{v}" for name, v in numbers.items()]
    facts.append(html.escape(marks))
    items = "".join(f"<li>{fact}</li>" for fact in facts)
    body = render.paper(report, solving=solving, prefix=f"{one.code}-")
    return (
        f'<section class="paper" id="{one.code}">\n<h2>{told}</h2>\n'
        f'<ul class="facts"{render.language(report)}>{items}</ul>\n{body}</section>\n'
    )
