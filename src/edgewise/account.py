"""What is to be said of clock periods that were looked into, each sentence from a fact."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Fact, Words
from edgewise.words.units import unit

if TYPE_CHECKING:
    from edgewise.clocking import LateBit, Pulse
    from edgewise.periods import Glitch, Periods, Violation

_MOST_NAMED: Final = 4
"""What the clock comes to late, named one by one, at most."""


def sentences(moment: Periods, words: Words = ENGLISH) -> list[str]:
    """The period, when all was settled, what is wrong with clocks, glitches, times not kept."""
    said = [*_settling(moment, words), *_skew(moment, words)]
    for pulse in moment.pulses:
        said += _pulse(moment, pulse, words)
    said += [_glitch(moment, one, words) for one in moment.glitches]
    said += [_broken(moment, violation, words) for violation in moment.violations]
    said += _least(moment, words)
    said += [_late(moment, one, words) for one in moment.late_bits]
    return said + _end(moment, words)


def _end(moment: Periods, words: Words) -> list[str]:
    """What does not end as the rows say."""
    if not moment.quiet:
        return [words("inside-restless")]
    labels, said = moment.trace.design.netlist.labels, []
    for net, row, here in moment.astray:
        facts = {"net": labels[net], "row": "01X"[row], "here": "01X"[here]}
        said.append(words("inside-astray", edge=moment.last, **facts))
    return said


def _glitch(moment: Periods, one: Glitch, words: Words) -> str:
    bits = " ".join("01X"[bit] for bit in one.bits)
    label = moment.trace.design.netlist.labels[one.net]
    return words(f"inside-glitch-{one.kind}", net=label, edge=one.edge, bits=bits)


def _broken(moment: Periods, violation: Violation, words: Words) -> str:
    netlist = moment.trace.design.netlist
    return words(
        f"inside-{violation.kind}",
        net=netlist.labels[violation.net],
        part=netlist.flip_flops[violation.flip_flop].name,
        stood=words.decimal(moment.figure(abs(violation.edge - violation.change))),
        needed=words.decimal(moment.figure(violation.needed)),
        unit=unit(moment.unit, words),
    )


def _least(moment: Periods, words: Words) -> Iterator[str]:
    """Where a set-up time is not kept: the period that would do."""
    if moment.least is None or all(one.kind != "setup" for one in moment.violations):
        return
    least, own = (words.decimal(moment.figure(t)) for t in (moment.least, moment.period))
    yield words("inside-least", least=least, own=own, unit=unit(moment.unit, words))


def _pulse(moment: Periods, pulse: Pulse, words: Words) -> Iterator[str]:
    """What is wrong with a pulse of a gated clock."""
    begin = (pulse.edge - moment.first) * moment.period
    told: dict[str, Fact] = {
        "net": moment.trace.design.netlist.labels[pulse.net],
        "edge": pulse.edge,
        "unit": unit(moment.unit, words),
    }
    if pulse.false:
        after = words.decimal(moment.figure(pulse.rise - begin))
        yield words("inside-false-edge", time=after, **told)
    if pulse.cut and pulse.fall is not None:
        high = words.decimal(moment.figure(pulse.fall - pulse.rise))
        whole = words.decimal(moment.figure(moment.period // 2))
        yield words("inside-cut-pulse", time=high, whole=whole, **told)


def _skew(moment: Periods, words: Words) -> Iterator[str]:
    """How much later the clock comes to what."""
    netlist = moment.trace.design.netlist
    found: dict[int, list[str]] = {}
    for one, times in zip(netlist.flip_flops, moment.asked, strict=False):
        if times.late:
            found.setdefault(times.late, []).append(netlist.labels[one.q])
    for late, names in sorted(found.items()):
        time = words.decimal(moment.figure(late))
        facts: dict[str, Fact] = {"time": time, "unit": unit(moment.unit, words)}
        yield words("inside-skew", names=listed(names, words, _MOST_NAMED), **facts)


def _late(moment: Periods, one: LateBit, words: Words) -> str:
    """A bit that is gone when a late clock comes for it."""
    netlist = moment.trace.design.netlist
    edge = moment.edge_of(one.begin)
    return words(
        "inside-late-bit",
        part=netlist.flip_flops[one.flip_flop].name,
        net=netlist.labels[one.net],
        edge=edge,
        before="01X"[one.before],
        after="01X"[one.after],
        time=words.decimal(moment.figure(one.change - one.begin)),
        unit=unit(moment.unit, words),
    )


def _settling(moment: Periods, words: Words) -> Iterator[str]:
    clocked = bool(moment.first)
    for edge in range(moment.first, moment.last + 1):
        time = moment.settled(edge)
        facts: dict[str, Fact] = {"edge": edge, "unit": unit(moment.unit, words)}
        if time is not None:
            facts["time"] = words.decimal(moment.figure(time))
        if not moment.rests(edge):
            yield words("inside-moving-later" if time is None else "inside-moving", **facts)
        else:
            name = "inside-nothing" if time is None else "inside-settled"
            yield words(name if clocked else f"{name}-inputs", **facts)
