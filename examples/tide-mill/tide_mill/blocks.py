"""A block that tells how often words change, and at which edges."""

from edgewise.lesson.blocks import Setting
from edgewise.lesson.composed import Composed, Grid, Paragraph, Phrase
from edgewise.lesson.document import Block
from edgewise.lesson.options import Gathering, names_of, options_of, text_of
from edgewise.trace import Trace


def changes(block: Block, setting: Setting) -> Composed | None:
    """``of: [WHEEL, OPEN.out]``, ``caption: …``."""
    options = options_of(block, ("of", "caption"))
    with Gathering() as gathering:  # so that all that is wrong is told in one go
        names = gathering.add(names_of, options.get("of"), "of", setting.run) or ()
        caption = gathering.add(text_of, options, "caption") or "How often words change"
    if setting.run is None:  # the lesson's run is wrong, which is told elsewhere
        return None
    trace = setting.run.trace
    rows = []
    for name in names:
        edges = [k for k in range(1, trace.edges + 1) if _changed(trace, name, k)]
        rows.append((name, str(len(edges)), ", ".join(map(str, edges))))
    most = max(rows, key=lambda row: int(row[1]))[0]
    said = Paragraph((Phrase(most, "code"), " changes most often."))
    grid = Grid(("word", "changes", "at edges"), tuple(rows), caption, right=(1,))
    return Composed((grid, said) if len(rows) > 1 else (grid,))


def _changed(trace: Trace, name: str, row: int) -> bool:
    return trace.word(name, row) != trace.word(name, row - 1)
