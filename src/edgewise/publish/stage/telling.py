"""Telling: the stage's sentence on a row, for slides, film and script.

The sentences are made in one place, the page's script (``web/sentences.js``). Here it runs without
a page, and takes its words from the same catalogue.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from edgewise.lesson.steps import Step
from edgewise.publish import captions
from edgewise.publish.stage import design_data, javascript
from edgewise.publish.stage.adder_rows import adders
from edgewise.publish.stage.feedback import feedback
from edgewise.publish.stage.selection import selectors
from edgewise.publish.stage.word_names import WordNames
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.lesson import Report

_STACK: Final = 512 * 1024


@dataclass(frozen=True, slots=True)
class Telling:
    """A step in words.

    Parameters
    ----------
    step : Step
    heading : str
        The moment that is shown: "After edge 7, with the inputs of phase add".
    sentence : str
        What happened at the edge that led to its row, and what its outputs read, as computed.
    said : str
        What is said: the author's words, else `sentence`. Empty: what was said before goes on.
    """

    step: Step
    heading: str
    sentence: str
    said: str


def of(report: Report) -> tuple[Telling, ...]:
    """A lesson's steps in words, in its own language as far as there is a catalogue of it."""
    trace, words, steps = report.trace, report.words, report.steps
    told = sentences(trace, (step.row for step in steps), words)
    return tuple(
        Telling(
            step,
            captions.moment(trace, (step.row,), words),
            told[step.row],
            told[step.row] if step.said is None else step.said,
        )
        for step in steps
    )


def sentences(trace: Trace, rows: Iterable[int], words: Words = ENGLISH) -> dict[int, str]:
    """What the stage says of some rows of a run.

    A circuit without edges has no such sentence but for its results.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.words import messages
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> for row, said in sentences(trace, (0,)).items():
    ...     print(row, said)
    0 At the start: A = 0000, B = 0000, C = 0, S = 0000.
    """
    import quickjs  # a compiled library: only where sentences are wanted

    def say(message: str, facts: str) -> str:
        return words(message, **json.loads(facts))

    which = sorted(set(rows))
    context = quickjs.Context()
    context.set_max_stack_size(_STACK)
    context.add_callable("say", say)
    context.eval(javascript.script("telling"))
    given = {
        "design": _design(trace, words),
        "rows": ["".join(map(str, row)) for row in trace.rows],
        "which": which,
        "operands": {name: str(value) for name, value in trace.operands.items()},
    }
    context.set("given", json.dumps(given))
    return dict(zip(which, json.loads(context.eval("sentences(given, say)")), strict=True))


def _design(trace: Trace, words: Words) -> design_data.Data:
    design = trace.design
    names = WordNames(design)
    return {
        **design_data.design(design, words),
        "stores": [store.data() for store in names.stores],
        "adders": [row.data() for row in adders(design, names)],
        "feedback": [one.data() for one in feedback(design, names)],
        "selectors": [one.data() for one in selectors(design, names)],
    }
