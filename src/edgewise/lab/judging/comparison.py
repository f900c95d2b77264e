"""Whether a submission equals a design.

Where there are operands, the answers are compared for all of them. Where there are none, as with a
counter, the run is the only one and its last row says little: the outputs are compared after every
edge, in each bit that is known in the design.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.sat import equivalence
from edgewise.lab.judging.refutation import Refutation
from edgewise.trace import Trace


@dataclass(frozen=True)
class Compared:
    """What came of it: ``proved``, ``refuted`` or ``undecided``, and for what it is refuted."""

    outcome: str
    refuted: Refutation | None = None


def compared(design: Design, other: Design, seconds: float, *, exact: bool = False) -> Compared:
    """Compare two designs with the same operands and answers.

    Parameters
    ----------
    design, other : Design
    seconds : float
    exact : bool
        Whether an unknown bit equals an unknown one, and no other.

    Raises
    ------
    EdgewiseError
        They can't be compared.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ring, johnson = (catalogue.design(f"{name}-counter", n=4) for name in ("ring", "johnson"))
    >>> found = compared(ring, johnson, 1)
    >>> found.outcome, found.refuted.answer, found.refuted.row
    ('refuted', 'state', 0)
    """
    if not design.operands:
        return _edge_by_edge(reference.run(design, {}), reference.run(other, {}), exact=exact)
    proof = equivalence.same(design, other, unknown=exact, seconds=seconds)
    shown = proof.counterexample
    if shown is None or shown.other is None:
        return Compared("proved" if proof.outcome == "proved" else "undecided")
    runs = (shown.trace, shown.other)
    return Compared("refuted", Refutation(shown.operands, shown.what, shown.row, runs))


def _edge_by_edge(should: Trace, found: Trace, *, exact: bool) -> Compared:
    """Two runs; of one that is longer, the last rows."""
    answers = [purpose.output for purpose in should.design.computes]
    more = found.edges - should.edges
    for row in range(max(0, -more), should.edges + 1):
        for name in answers or should.design.netlist.outputs:
            wanted, given = str(should.word(name, row)), str(found.word(name, row + more))
            free = "" if exact else "X"
            if any(a not in (free, b) for a, b in zip(wanted, given, strict=True)):
                return Compared("refuted", Refutation({}, name, row, (should, found)))
    return Compared("proved")
