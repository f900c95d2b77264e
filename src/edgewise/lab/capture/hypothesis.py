"""What may have gone wrong, each thing with the rows that it would give."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from edgewise.bits import Bit, X
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.lab.capture import rehearsal
from edgewise.lab.capture.rehearsal import Feeds
from edgewise.study.edits import circuit_edits
from edgewise.study.faults import models
from edgewise.study.faults.fault import Fault
from edgewise.words.messages import Fact, Words

USUAL: Final = 4.0
"""How unlikely a single fault is beforehand, in nats: about one in fifty for any one of them."""
NOTICED: Final = 1.5
"""How unlikely a double edge is where the clock's channel bounced."""
_STARTS: Final = 6
"""Bits of a part whose initial values are all tried."""
_MOST_SWITCHES: Final = 400


@dataclass(frozen=True)
class Hypothesis:
    """One thing that may be wrong, or nothing.

    Parameters
    ----------
    form : str
        ``right``, ``fault``, ``double``, ``triple``, ``missed``, ``uncleared``,
        ``nothing-cleared``, ``switch``.
    facts : tuple of (str, str or int)
    netlist : Netlist
        Of the circuit with it.
    rows : tuple of bytes
    unlikely : float
        Nats.
    fault : Fault, optional
    """

    form: str
    facts: tuple[tuple[str, Fact], ...]
    netlist: Netlist
    rows: tuple[bytes, ...]
    unlikely: float = USUAL
    fault: Fault | None = None

    @property
    def name(self) -> str:
        """By which it is known to programs: ``FA.sum stuck at 0``, ``double edge 3``."""
        if self.fault is not None:
            return self.fault.name
        return " ".join([self.form, *(str(value) for _, value in self.facts)])

    def told(self, words: Words) -> str:
        """What is wrong, as a sentence."""
        if self.fault is not None:
            return self.fault.told(words)
        return words(f"capture-{self.form}", **dict(self.facts))

    def shown(self, name: str) -> tuple[Bit, ...]:
        """A net's bit in each row."""
        net = self.netlist.find(name)[0]
        return tuple(row[net] for row in self.rows)


def hypotheses(
    design: Design,
    operands: Mapping[str, int],
    fed: Feeds,
    presses: Sequence[int],
    seen: Mapping[str, Sequence[Bit]],
) -> Iterator[Hypothesis]:
    """Everything that is tried, what is right first.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int
    fed : sequence
        What the inputs were, row by row: the procedure's, and where that is X the recording's.
    presses : sequence of int
        Edges of the clock's channel at each edge of the run.
    seen : mapping of str to sequence of bit
        Samples of nets whose channels are known by name.
    """
    netlist = design.netlist
    yield Hypothesis("right", (), netlist, rehearsal.rows(netlist, fed), 0.0)
    for fault in models.faults(design, inside=True):
        if fault.form == "unknown-start":
            continue
        changed = fault.design
        given = fed
        if changed.procedure != design.procedure:
            given = _same(rehearsal.feeds(changed, operands), fed)
        made = rehearsal.rows(changed.netlist, given)
        yield Hypothesis("fault", (), changed.netlist, made, USUAL, fault)
    yield from _clocked(design, fed, presses)
    yield from _uncleared(design, fed, seen)
    yield from _nothing_cleared(design, fed, seen)
    yield from _switches(design, fed)


def _same(fed: Feeds, like: Feeds) -> Feeds:
    """Unknown inputs of a procedure given those of another one, where both have the row."""
    return tuple(
        {
            name: [
                other if bit == X else bit for bit, other in zip(bits, like[row][name], strict=True)
            ]
            for name, bits in inputs.items()
        }
        if row < len(like)
        else inputs
        for row, inputs in enumerate(fed)
    )


def _clocked(design: Design, fed: Feeds, presses: Sequence[int]) -> Iterator[Hypothesis]:
    """An edge that came twice, or thrice, or not at all."""
    for edge in range(1, len(fed)):
        bounced = edge <= len(presses) and presses[edge - 1] > 1
        for count, form in ((2, "double"), (3, "triple"), (0, "missed")):
            edges = [count if k == edge else 1 for k in range(1, len(fed))]
            made = rehearsal.rows(design.netlist, fed, edges)
            unlikely = NOTICED if bounced and count else USUAL
            unlikely += form == "triple"
            yield Hypothesis(form, (("edge", edge),), design.netlist, made, unlikely)


def _uncleared(
    design: Design, fed: Feeds, seen: Mapping[str, Sequence[Bit]]
) -> Iterator[Hypothesis]:
    """Each part that stores, begun with each other word that it may hold."""
    netlist = design.netlist
    for part in design.circuit.parts:
        inside = [f for f in netlist.flip_flops if circuit_edits.in_part(f, part.name)]
        if not inside:
            continue
        for bits in _words(netlist, [f.q for f in inside], seen):
            start = {f.name: bit for f, bit in zip(inside, bits, strict=True)}
            if all(f.start in (bit, X) for f, bit in zip(inside, bits, strict=True)):
                continue
            word = "".join(str(bit) for bit in reversed(bits))
            made = rehearsal.rows(netlist, fed, (), start)
            facts: tuple[tuple[str, Fact], ...] = (("part", part.name), ("word", word))
            yield Hypothesis("uncleared", facts, netlist, made, USUAL + 0.1 * len(bits))


def _nothing_cleared(
    design: Design, fed: Feeds, seen: Mapping[str, Sequence[Bit]]
) -> Iterator[Hypothesis]:
    """All that stores began as it came up: as recorded; what was not is unknown.

    Parts of one bit that were not recorded, such as a carry flip-flop, are tried both ways.
    """
    netlist = design.netlist
    known = {netlist.find(name)[0]: samples[0] for name, samples in seen.items() if samples}
    start: dict[str, Bit] = {one.name: known.get(one.q, X) for one in netlist.flip_flops}
    single = [
        one.name
        for one in netlist.flip_flops
        if start[one.name] == X and design.circuit.part(one.name) is not None
    ]
    if len(start) < 2 or all(one.start in (start[one.name], X) for one in netlist.flip_flops):
        return
    for bits in product((0, 1), repeat=min(len(single), _STARTS)):
        given = start | dict(zip(single, bits, strict=False))
        made = rehearsal.rows(netlist, fed, (), given)
        yield Hypothesis("nothing-cleared", (), netlist, made, USUAL + 0.5)


def _words(
    netlist: Netlist, nets: Sequence[int], seen: Mapping[str, Sequence[Bit]]
) -> Iterator[tuple[Bit, ...]]:
    """Initial words that are tried: all of them; of a long one bits that were recorded are so."""
    if len(nets) <= _STARTS:
        yield from product((0, 1), repeat=len(nets))
        return
    known = {
        net: samples[0]
        for name, samples in seen.items()
        if samples and (net := netlist.find(name)[0]) in nets
    }
    free = [net for net in nets if known.get(net, X) == X]
    if len(free) > _STARTS:
        return
    for bits in product((0, 1), repeat=len(free)):
        given = known | dict(zip(free, bits, strict=True))
        yield tuple(given[net] for net in nets)


def _switches(design: Design, fed: Feeds) -> Iterator[Hypothesis]:
    """One switch in the wrong place before one edge."""
    netlist = design.netlist
    bits = [(name, i) for name, nets in netlist.inputs.items() for i in range(len(nets))]
    if len(bits) * len(fed) > _MOST_SWITCHES:
        return
    for row in range(len(fed)):
        for name, i in bits:
            if fed[row][name][i] == X:
                continue
            wrong = list(fed[row][name])
            wrong[i] = 1 - wrong[i]
            given = [*fed[:row], {**fed[row], name: wrong}, *fed[row + 1 :]]
            label = name if len(netlist.inputs[name]) == 1 else f"{name}({i})"
            facts: tuple[tuple[str, Fact], ...] = (
                ("input", label),
                ("row", row),
                ("bit", wrong[i]),
            )
            made = rehearsal.rows(netlist, given)
            yield Hypothesis("switch", facts, netlist, made, USUAL + 0.5)
