"""The ``hazard`` block: pulses that may come out of a circuit, and gates against them."""

from __future__ import annotations

from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.lesson.composed import Composed, Grid, Listing
from edgewise.lesson.options import text_of
from edgewise.study.claims.run import Run
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import scalar

OPTIONS: Final = ("output", "model", "caption")
"""The entries of a ``hazard`` block."""


def read(options: Keys, run: Run | None, words: Words = ENGLISH) -> Composed | None:
    """A table of the hazards and what is to be said of them; without a run it is only read.

    Parameters
    ----------
    options : Keys
        ``output: sum``, an output or a bit of it, all unless given; ``model: 74hc``, whose delays
        are tried; ``caption:``.
    run : Run, optional
        The lesson's.

    Raises
    ------
    EdgewiseError
        Options that can't be read, a circuit with flip-flops, a name that is no output.
    """
    from edgewise.study.cost import models
    from edgewise.study.cost.models.gates import UNIT_GATE
    from edgewise.study.inside import hazards

    caption, output = text_of(options, "caption"), text_of(options, "output")
    tree = options.get("model")
    model = UNIT_GATE
    if tree is not None:
        named = scalar(tree, "model")
        model = models.technology(named.text, named.place)
    if run is None:
        return None
    asked = options.get("output")
    try:
        found = hazards.of(run.design, model, output)
    except EdgewiseError as wrong:
        place = options.place if asked is None else scalar(asked, "output").place
        raise wrong.placed(place) from None
    heading, *rows = found.cells(words)
    title = caption or words("hazard-title", design=run.design.name)
    # Short cells stay on one line beside the long ones of the gates.
    kept = tuple((*(cell.replace(" ", "\u00a0") for cell in row[:-1]), row[-1]) for row in rows)
    grid = (Grid(heading, kept, title),) if rows else ()
    said = Listing(tuple((sentence,) for sentence in found.sentences(words)))
    return Composed((*grid, said), words.language)
