"""The stage of a page: what a learner steps through, tries and predicts.

The element holds the compiled design as JSON and, for readers without scripts, the figure
and the table of the lesson's own run.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.formula import Claim
from edgewise.lesson import Report
from edgewise.lesson.claims import Statement
from edgewise.lesson.memory import Memory
from edgewise.lesson.pieces import Stage
from edgewise.lesson.steps import Step, Steps
from edgewise.practice import identity
from edgewise.publish import captions, look
from edgewise.publish.stage import design_data, javascript
from edgewise.publish.stage.bundle import Packing
from edgewise.publish.stage.design_data import Data
from edgewise.publish.stage.sizes import fits, sizes
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.study.cost.sweep import Progress

TAG: Final = "<edgewise-stage "
"""How a stage begins in a page."""
MESSAGES: Final = ("stage-", "table-", "timing-", "caption-words", "figure-heading-", "list-and")
"""How the names of the messages begin that the page's script says."""
_DEEP: Final = re.compile(r"\.[\w-]+\.")
"""Behind a part's part, as in ``FA.X1.out``: a name that is not packed otherwise."""


def of(report: Report, wish: Stage, number: int = 1, language: str = "") -> str:
    """The stage of a lesson; `number` tells it from others of the same page.

    `language` is the attribute that tells the language of our own words, or nothing.
    """
    ident = "stage" if number == 1 else f"stage-{number}"
    return element(
        report.trace,
        report.blueprint,
        _claims(report),
        wish,
        ident,
        language,
        report.words,
        report.memory,
        _steps(report),
    )


def prepare(report: Report, progress: Progress) -> None:
    """Pack what the stages of a page need, which takes most of a build; tells how far it is.

    The layouts of wide designs can take seconds, the first time that they are made.

    Raises
    ------
    EdgewiseError
        The design is too large to be drawn; where the lesson names it.
    """
    if not fits(report.trace.design):
        return
    wishes = [piece for piece in report.pieces.values() if isinstance(piece, Stage)]
    for wish in wishes or [Stage()]:
        try:
            claims, memory = _claims(report), report.memory
            _packed(
                report.trace.design,
                report.blueprint,
                claims,
                wish,
                memory,
                report.words,
                _pointed(_steps(report)),
                progress,
            )
        except EdgewiseError as wrong:  # it is too large to be drawn
            named = report.lesson.front.design
            raise wrong.placed(named.place if named else None) from None


def _claims(report: Report) -> tuple[Statement, ...]:
    """Those that a page checks anew for other operands; it knows no delays."""
    told = (s for checked in report.claims for s in checked.statements)
    return tuple(s for s in told if isinstance(s.claim, Claim))


def _steps(report: Report) -> tuple[Step, ...]:
    """Those that the lesson writes out; what only the teacher is to see is not among them."""
    pieces = report.pieces.values()
    return tuple(step for piece in pieces if isinstance(piece, Steps) for step in piece.steps)


def _pointed(steps: Iterable[Step]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for step in steps for name in step.points))


def element(  # noqa: PLR0913, PLR0917  # what a stage is made of, each by its name
    trace: Trace,
    blueprint: Blueprint | None = None,
    claims: Iterable[Statement] = (),
    wish: Stage | None = None,
    ident: str = "stage",
    language: str = "",
    words: Words = ENGLISH,
    memory: Memory | None = None,
    steps: tuple[Step, ...] = (),
) -> str:
    """The stage as HTML; empty for a run that is too long for one.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> made = element(run(catalogue.design("serial-adder", n=4), a=6, b=3))
    >>> made.startswith(TAG)
    True
    """
    wish = wish or Stage()
    made = data(trace, blueprint, claims, wish, ident, words, memory, steps)
    if made is None:
        return ""
    return (
        f'{TAG}id="{html.escape(ident)}"{language}>\n'
        f'<script type="application/json">{design_data.text(made)}</script>\n'
        f"{still(trace, wish, ident, words)}</edgewise-stage>\n"
    )


def data(  # noqa: PLR0913, PLR0917  # as of `element`
    trace: Trace,
    blueprint: Blueprint | None,
    claims: Iterable[Statement],
    wish: Stage,
    ident: str = "stage",
    words: Words = ENGLISH,
    memory: Memory | None = None,
    steps: tuple[Step, ...] = (),
) -> Data | None:
    """What ``web/stage.js`` reads; None if the design is too large for a page."""
    if not fits(trace.design):
        return None
    claims = tuple(claims)
    return {
        "id": ident,
        **_packed(
            trace.design, blueprint, claims, wish, memory or Memory(), words, _pointed(steps)
        ),
        "own": {
            "size": 0,
            "operands": {name: str(value) for name, value in trace.operands.items()},
            "row": wish.row,
        },
        "claims": [
            design_data.claim(c.text, c.claim) for c in claims if isinstance(c.claim, Claim)
        ],
        "fade": wish.fade,
        "lesson": identity.short(trace.design),
        **(
            {"steps": [[step.row, list(step.points), step.said] for step in steps]} if steps else {}
        ),
        "words": {"language": words.language, "messages": words.source(*MESSAGES)},
    }


def _packed(  # noqa: PLR0913, PLR0917  # what is packed, what of it is known, who is told
    design: Design,
    blueprint: Blueprint | None,
    claims: Iterable[Statement],
    wish: Stage,
    memory: Memory,
    words: Words,
    points: tuple[str, ...] = (),
    progress: Progress | None = None,
) -> Data:
    deep = any(_DEEP.search(claim.text) for claim in claims)

    def pack() -> Data:
        packing = Packing(wish, deep, words, points)
        chosen = sizes(design, blueprint)
        for done, one in enumerate(chosen, 1):
            packing.add(one)
            if progress:
                progress(done, len(chosen))
        return packing.data()

    # Neither the row shown first nor the fading changes it.
    manner = (wish.columns, wish.opened, wish.clock, wish.symbols, deep, words.language, points)
    key = (blueprint, tuple(design.parameters.items()), manner)
    made: Data = memory.stages.of(key, pack) if blueprint else pack()
    return made


def still(trace: Trace, wish: Stage, ident: str = "stage", words: Words = ENGLISH) -> str:
    """The figure and the table that stand where no script runs."""
    from edgewise.views.diagram.block_diagram import diagram
    from edgewise.views.drawing.svg import svg
    from edgewise.views.table.edge_table import edge_table_html
    from edgewise.views.text import alt_text

    drawing = diagram(
        trace, trace.edges, open=wish.opened, clock=wish.clock, symbols=wish.symbols, words=words
    )
    rows = tuple(range(trace.edges + 1))
    caption = captions.given(trace, rows, words)
    table = edge_table_html(trace, wish.columns or None, rows, caption=caption, words=words)
    name = html.escape(words("figure-diagram-name"))
    # The lesson may have shown the same figure and table before its stage.
    where = html.escape(words("stage-step-through", title=alt_text.title(trace.design, words)))
    return (
        f'<div class="still">\n<div class="box" role="region" aria-label="{where}: {name}"'
        f' tabindex="0">\n{svg(drawing, prefix=ident)}</div>\n'
        f'<div class="box" role="region" aria-label="{where}: {html.escape(caption)}"'
        f' tabindex="0">\n'
        f"{table}</div>\n</div>\n"
    )


@lru_cache(maxsize=1)
def style() -> str:
    """The style sheet of the stage."""
    own = look.css("edgewise-stage, .edgewise-stage")
    return own + javascript.source("stage.css") + javascript.source("project.css")


def module() -> str:
    """The script of the stage; it takes every stage of the page."""
    return f"\n{javascript.script('page')}"
