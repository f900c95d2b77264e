"""What an example shows of a circuit, and what it does not.

Row k of a run counts for an adder if its sum can get from there into the answer. The zeros
that an adder adds while registers are loading, and that nobody keeps, are listed but don't
count.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from itertools import pairwise
from typing import Any

from edgewise.circuit.netlist import CLOCK_NET
from edgewise.circuit.storage import storage
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.replay import rows_of
from edgewise.engines.symbolic.terms import Terms
from edgewise.study.coverage import report
from edgewise.study.coverage.adder_usage import (
    Adder,
    Addition,
    Reach,
    additions,
    longest_runs,
    reach,
)
from edgewise.study.coverage.measures import (
    AdderCoverage,
    BitCoverage,
    Carries,
    Measured,
    PhaseCoverage,
)
from edgewise.study.coverage.report import PARTS
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True)
class Coverage(Measured):
    """What one run of a design shows, to be told in words, as a table, or to a program.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> shown = coverage(catalogue.design("serial-adder", n=4), {"a": 5, "b": 2})
    >>> shown.adders[0].covered, shown.carries.generated
    (('000', '010', '100'), 0)
    >>> shown.warnings()[0]
    'The carry flip-flop C is never set: this example would look the same without it.'
    """

    def warnings(self, parts: Sequence[str] = PARTS, words: Words = ENGLISH) -> tuple[str, ...]:
        """What an example should not leave idle: the carry, a register. Empty if all is well."""
        return tuple(report.idle(self, parts, words))

    def sentences(self, parts: Sequence[str] = PARTS, words: Words = ENGLISH) -> tuple[str, ...]:
        """The same as `table` in words, what is idle first.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> shown = coverage(catalogue.design("serial-adder", n=6), {"a": 3, "b": 22})
        >>> print(*shown.sentences(["rows"]))
        6 of the 8 truth-table rows are covered by FA, all but 101 and 111 (a, b, carry-in).
        """
        return tuple(report.sentences(self, parts, words))

    def table(
        self, parts: Sequence[str] = PARTS, words: Words = ENGLISH
    ) -> tuple[tuple[str, ...], ...]:
        """Cells as text: a heading (what, covered, of, not covered), then one line each.

        Parameters
        ----------
        parts : sequence of str
            Some of `edgewise.study.coverage.report.PARTS`.
        words : Words
        """
        return report.heading(words), *(line.cells for line in report.lines(self, parts, words))

    def data(self) -> dict[str, Any]:
        """All of it as plain dictionaries and lists, for JSON."""
        return {
            **asdict(self),
            "operands": dict(self.operands),
            "registers": {name: list(bits) for name, bits in self.registers.items()},
            "sentences": list(self.sentences()),
            "warnings": list(self.warnings()),
        }


def coverage(design: Design, operands: Mapping[str, int | Sequence[int]]) -> Coverage:
    """What a design shows with these operands.

    Raises
    ------
    DesignError
        Operands that don't fit.
    """
    return of(reference.run(design, operands))


def of(trace: Trace) -> Coverage:
    """What a run shows."""
    design, netlist = trace.design, trace.design.netlist
    terms, rows = Terms(), rows_of(trace)
    reached = reach(design, terms, rows)
    found = additions(design, terms, rows, reached)
    labels = netlist.labels
    stored = {f.q for f in netlist.flip_flops}
    between = {net for name in netlist.top_names for net in netlist.names[name]}
    between -= {*stored, *range(CLOCK_NET + 1)}
    carries = {one.adder.carry for one in found}
    return Coverage(
        design.name,
        trace.operands,
        _adders(found),
        _carries(terms, found),
        tuple(_bit(trace, f.q, labels[f.q]) for f in netlist.flip_flops),
        tuple(_bit(trace, net, labels[net]) for net in sorted(between)),
        tuple(_bit(trace, gate.output, gate.name) for gate in netlist.gates),
        tuple(_phases(design, reached, found)),
        _registers(design),
        tuple(labels[f.q] for f in netlist.flip_flops if f.d in carries),
    )


def _registers(design: Design) -> Mapping[str, tuple[str, ...]]:
    """Each storage element with the names of its bits, the MSB first; stages of one bit as one."""
    netlist = design.netlist
    stored = {f.q for f in netlist.flip_flops}
    found: dict[str, tuple[str, ...]] = {}
    for one in storage(design.circuit, netlist):
        name = one.name.rpartition("(")[0] if len(one.q) == 1 and one.name[-1] == ")" else one.name
        bits = tuple(netlist.labels[net] for net in reversed(one.q) if net in stored)
        found[name] = (*bits, *found.get(name, ()))
    return found


def _adders(found: Sequence[Addition]) -> tuple[AdderCoverage, ...]:
    together: dict[Adder, list[Addition]] = {}
    for one in found:
        together.setdefault(one.adder, []).append(one)
    adders = []
    for adder, ones in together.items():
        occurring, covered = (
            tuple(
                row
                for i, row in enumerate(adder.rows)
                if any(one.cases[i] and (one.counts or not counting) for one in ones)
            )
            for counting in (False, True)
        )
        uncovered = tuple(row for row in adder.rows if row not in covered)
        adders.append(AdderCoverage(adder.name, adder.kind, occurring, covered, uncovered))
    return tuple(adders)


def _carries(terms: Terms, found: Sequence[Addition]) -> Carries | None:
    if not any(one.adder.full for one in found):
        return None  # what half adders give does not go on as a carry
    counting = [one for one in found if one.counts]
    return Carries(
        sum(one.generated for one in counting),
        sum(one.propagated for one in counting),
        sum(one.killed for one in counting),
        sum(longest_runs(terms, found)),
    )


def _bit(trace: Trace, net: int, name: str) -> BitCoverage:
    values = [row[net] for row in trace.rows]
    steps = set(pairwise(values))
    return BitCoverage(name, 0 in values, 1 in values, (0, 1) in steps, (1, 0) in steps)


def _phases(design: Design, reached: Reach, found: Sequence[Addition]) -> Iterator[PhaseCoverage]:
    adding = {one.row + 1 for one in found if one.counts}
    for phase, first, last in design.spans:
        edges = range(first, last + 1)
        yield PhaseCoverage(
            phase.name,
            first,
            last,
            any(reached.stored[edge - 1] for edge in edges),
            any(edge in adding for edge in edges),
        )
