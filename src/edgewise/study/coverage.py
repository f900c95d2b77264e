"""What an example shows of a circuit, and what it leaves unseen.

Row k of a run counts for an adder if its sum can get from there into the answer. The zeros
that an adder adds while registers are loading, and that nobody keeps, are listed but don't
count.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from itertools import pairwise
from typing import Any, Final

from edgewise.circuit.netlist import CLOCK_NET
from edgewise.circuit.parts import count
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.replay import rows_of
from edgewise.engines.terms import Terms
from edgewise.study.adders import Adder, Addition, Reach, additions, longest_runs, reach
from edgewise.study.seen import AdderCoverage, BitCoverage, Carries, PhaseCoverage
from edgewise.trace import Trace

_NAMED: Final = 4
"""Names listed in a sentence, at most."""


@dataclass(frozen=True)
class Coverage:
    """What one run of a design shows.

    Parameters
    ----------
    design : str
    operands : mapping of str to int
    adders : tuple of AdderCoverage
    carries : Carries, optional
        None: the design has no adders.
    flip_flops, nets, gates : tuple of BitCoverage
        Stored bits; nets between top-level parts, stored bits left out; gate outputs.
    phases : tuple of PhaseCoverage
    registers : mapping of str to tuple of str
        Each storing part with its bits, the MSB first.
    carry_flip_flops : tuple of str
        Stored bits that take the carry of an adder.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> shown = coverage(catalogue.design("serial-adder", n=4), {"a": 5, "b": 2})
    >>> shown.adders[0].used, shown.carries.born
    (('000', '010', '100'), 0)
    >>> shown.warnings()[0]
    'The carry flip-flop C is never set: this example would look the same without it.'
    """

    design: str
    operands: Mapping[str, int]
    adders: tuple[AdderCoverage, ...]
    carries: Carries | None
    flip_flops: tuple[BitCoverage, ...]
    nets: tuple[BitCoverage, ...]
    gates: tuple[BitCoverage, ...]
    phases: tuple[PhaseCoverage, ...]
    registers: Mapping[str, tuple[str, ...]]
    carry_flip_flops: tuple[str, ...]

    @property
    def rows(self) -> tuple[str, ...]:
        """Rows of the full adder's truth table that count, of all full adders together."""
        return tuple(sorted({row for a in self.adders if a.kind == "full-adder" for row in a.used}))

    def warnings(self) -> tuple[str, ...]:
        """What an example should not leave idle: the carry, a register. Empty if all is well."""
        return tuple(_idle(self))

    def sentences(self) -> tuple[str, ...]:
        """The same as `table` in words, what is idle first."""
        return (
            *self.warnings(),
            *_of_adders(self),
            *_of_carries(self),
            *_of_registers(self),
            *(_of_bits("gate", self.gates) if self.phases else ()),
            *(_of_bits("net", self.nets) if self.phases else ()),
            *_of_phases(self),
        )

    def table(self) -> tuple[tuple[str, ...], ...]:
        """Cells as text: a heading (what, seen, of, not seen), then one line each."""
        lines = [("what", "seen", "of", "not seen")]
        for adder in self.adders:
            rows = len(adder.used) + len(adder.unused)
            lines.append(
                (
                    f"rows of {adder.name}",
                    str(len(adder.used)),
                    str(rows),
                    " ".join(adder.unused),
                )
            )
        if self.carries:
            lines += [
                ("carries born", str(self.carries.born), "", ""),
                ("carries travelling on", str(self.carries.travelling), "", ""),
                ("carries dying", str(self.carries.dying), "", ""),
                ("longest carry run", str(self.carries.longest), "", ""),
            ]
        rises = {bit.name: bit.rises and bit.falls for bit in self.flip_flops}
        for what, values in (
            ("flip-flops going both ways", rises),
            ("gates taking both values", {bit.name: bit.both for bit in self.gates}),
            ("nets taking both values", {bit.name: bit.both for bit in self.nets}),
            ("phases that matter", {phase.name: phase.matters for phase in self.phases}),
        ):
            if values and self.phases:  # without edges, nothing can change
                idle = [name for name, seen in values.items() if not seen]
                seen = str(len(values) - len(idle))
                lines.append((what, seen, str(len(values)), " ".join(idle)))
        return tuple(lines)

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
    registers: dict[str, list[str]] = {}
    for f in reversed(netlist.flip_flops):
        registers.setdefault(register_of(labels[f.q]), []).append(labels[f.q])
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
        {name: tuple(bits) for name, bits in reversed(registers.items())},
        tuple(labels[f.q] for f in netlist.flip_flops if f.d in carries),
    )


def register_of(label: str) -> str:
    """The word that a stored bit belongs to: ``A`` for ``A(3)``."""
    return label.rpartition("(")[0] or label


def _adders(found: Sequence[Addition]) -> tuple[AdderCoverage, ...]:
    together: dict[Adder, list[Addition]] = {}
    for one in found:
        together.setdefault(one.adder, []).append(one)
    covered = []
    for adder, ones in together.items():
        met, used = (
            tuple(
                row
                for i, row in enumerate(adder.rows)
                if any(one.cases[i] and (one.counts or not counting) for one in ones)
            )
            for counting in (False, True)
        )
        unused = tuple(row for row in adder.rows if row not in used)
        covered.append(AdderCoverage(adder.name, adder.kind, met, used, unused))
    return tuple(covered)


def _carries(terms: Terms, found: Sequence[Addition]) -> Carries | None:
    if not any(one.adder.kind == "full-adder" for one in found):
        return None  # what half adders give does not go on as a carry
    counting = [one for one in found if one.counts]
    return Carries(
        sum(one.born for one in counting),
        sum(one.travels for one in counting),
        sum(one.dies for one in counting),
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


# ---------------------------------------------------------------------- in words


def listed(names: Sequence[str], most: int = _NAMED) -> str:
    """Names in a sentence; beyond `most` they are counted.

    Examples
    --------
    >>> listed(["A", "B", "C"]), listed(["A", "B", "C"], 2)
    ('A, B and C', 'A, B and 1 more')
    """
    shown = list(names)
    if len(shown) > most:
        shown[most:] = [f"{len(names) - most} more"]
    return " and ".join(filter(None, (", ".join(shown[:-1]), *shown[-1:])))


def _idle(shown: Coverage) -> Iterator[str]:
    bits = {bit.name: bit for bit in shown.flip_flops}
    for name in shown.carry_flip_flops:
        if not bits[name].one:
            yield (
                f"The carry flip-flop {name} is never set: this example would look the same"
                " without it."
            )
    if shown.carries and shown.carries.none and not shown.carry_flip_flops:
        yield "There is no carry: this example would look the same without the carry wires."
    for register, names in shown.registers.items():
        if register in shown.carry_flip_flops:
            continue
        idle = [bits[name] for name in names if not (bits[name].rises or bits[name].falls)]
        if len(idle) < len(names):
            continue
        if not any(bit.one for bit in idle):
            yield f"{register} never holds a 1: nothing is seen of it."
        else:
            yield f"{register} never changes from one known value to another."


def _of_adders(shown: Coverage) -> Iterator[str]:
    full = [adder for adder in shown.adders if adder.kind == "full-adder"]
    if len(full) == 1:
        yield _met(full[0].name, full[0].used, full[0].unused, "meets")
        extra = [row for row in full[0].met if row not in full[0].used]
        if extra:
            noun = "row" if len(extra) == 1 else "rows"
            yield (
                f"{full[0].name} also stands in {noun} {listed(extra, 8)}, but no sum of"
                f" {'that row' if len(extra) == 1 else 'those rows'} gets into the answer."
            )
    elif full:
        rows = shown.rows
        unused = [f"{row:03b}" for row in range(8) if f"{row:03b}" not in rows]
        yield _met(f"Together, the {len(full)} full adders", rows, unused, "meet")


def _met(name: str, used: Sequence[str], unused: Sequence[str], verb: str) -> str:
    table = "rows of the truth table (a, b, carry-in)"
    if not unused:
        return f"{name} {verb} all {len(used)} {table}."
    return (
        f"{name} {verb} {len(used)} of the {len(used) + len(unused)} {table}:"
        f" {listed(used, 8) or 'none'}; never {listed(unused, 8)}."
    )


def _of_carries(shown: Coverage) -> Iterator[str]:
    carries = shown.carries
    if carries is None or carries.none:
        return
    born = f"is born {_often(carries.born)}" if carries.born else "comes in from outside"
    if carries.travelling:
        run = count(carries.longest, "place")
        travels = f"travels on {_often(carries.travelling)}"
        yield f"A carry {born} and {travels}; the longest run is {run}."
    else:
        yield f"A carry {born} and never travels on: nothing is seen of a carry handed on."
    if carries.dying:
        yield f"A carry dies {_often(carries.dying)}, where it meets 0 + 0."
    else:
        yield "No carry dies: none meets 0 + 0."


def _often(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def _of_registers(shown: Coverage) -> Iterator[str]:
    bits = {bit.name: bit for bit in shown.flip_flops}
    idle = {
        register: [name for name in names if not (bits[name].rises and bits[name].falls)]
        for register, names in shown.registers.items()
    }
    total = len(shown.flip_flops)
    lazy = sum(map(len, idle.values()))
    if not total:
        return
    if not lazy:
        yield f"{'All' if total > 1 else 'The'} {count(total, 'flip-flop')} go both ways."
        return
    yield f"{total - lazy} of {count(total, 'flip-flop')} go both ways."
    warned = " ".join(shown.warnings())
    for register, names in idle.items():
        if not names or f"{register} is never" in warned or f"{register} never" in warned:
            continue
        rises = [name for name in names if bits[name].rises]
        falls = [name for name in names if bits[name].falls]
        still = [name for name in names if not bits[name].rises and not bits[name].falls]
        said = [
            f"{listed(some)} {one if len(some) == 1 else many}"
            for some, one, many in (
                (rises, "rises but never falls", "rise but never fall"),
                (falls, "falls but never rises", "fall but never rise"),
                (still, "never changes", "never change"),
            )
            if some
        ]
        yield f"{'; '.join(said)}."


def _of_bits(noun: str, bits: Sequence[BitCoverage]) -> Iterator[str]:
    idle = [bit for bit in bits if not bit.both]
    if not bits:
        return
    if not idle:
        yield f"Every {noun} takes both values."
        return
    said = [
        f"{listed(some)} {'stays' if len(some) == 1 else 'stay'} {value}"
        for some, value in (
            ([bit.name for bit in idle if bit.zero], "0"),
            ([bit.name for bit in idle if bit.one], "1"),
            ([bit.name for bit in idle if not bit.zero and not bit.one], "unknown"),
        )
        if some
    ]
    seen = len(bits) - len(idle)
    verb = "takes" if seen == 1 else "take"
    yield f"{seen} of {count(len(bits), noun)} {verb} both values: {'; '.join(said)}."


def _of_phases(shown: Coverage) -> Iterator[str]:
    for phase in shown.phases:
        if phase.last >= phase.first and not phase.matters:
            yield f"Phase {phase.name} stores nothing that gets into the answer."
