"""Single faults: what goes wrong in real labs and exams, each as a design of its own.

The list is common practice, no source: a wire stuck at a constant, two wires swapped,
a clear that is wrong, a clock that does not arrive, one edge more or fewer, an unknown or
wrong initial state, an enable that comes late at a gated clock.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from typing import Final, TypeVar

from edgewise.bits import X
from edgewise.circuit.model import Part, Signal
from edgewise.circuit.netlist import CLOCK_NET, CONSTANTS, FlipFlop, Gate, Netlist
from edgewise.design import Design, Phase
from edgewise.errors import EdgewiseError
from edgewise.study.edits import circuit_edits
from edgewise.study.faults.fault import Fault
from edgewise.words.messages import ENGLISH, Fact

BENCH_CAUTION = (
    "On a bench, switch the supply off before a wire is moved, and never tie an output to the"
    " supply or to ground to imitate a stuck wire: pull the wire and tie the input. Local rules"
    " and the data sheets come first."
)
"""Said wherever faults are suggested for the lab (common practice, no source)."""
OPEN_INPUT: Final = "open-input"
"""The caution of stuck wires. CMOS: Texas Instruments, application report SCBA004, *Implications
of Slow or Floating CMOS Inputs* (from memory); TTL: common practice, no source."""
GATED_CLOCK: Final = "gated-clock"
"""The caution of a clock that passes through a gate."""


_WORK: Final = 250_000
"""Gates and flip-flops worked out for all faults together, at most, about: some ten seconds."""
_LEAST: Final = 16
"""Places that are broken at least."""
Thing = TypeVar("Thing")


def faults(design: Design, *, inside: bool = False) -> tuple[Fault, ...]:
    """The single faults of a design; those that would not make a circuit are left out.

    In a large design some wires and parts are drawn at random, always the same; see `share`.

    Parameters
    ----------
    design : Design
    inside : bool
        Also wires inside parts: outputs of gates, and single inputs of gates where a wire
        branches.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [f.name for f in faults(catalogue.design("serial-adder", n=4)) if f.kind == "swapped"][:3]
    ['A: in and enable swapped', 'B: in and enable swapped', 'FA: a and b swapped']
    """
    found = (
        *_stuck(design, inside=inside),
        *_swapped(design, inside=inside),
        *_clears(design),
        *_clocks(design),
        *_edges(design),
        *_starts(design),
        *_late_enables(design),
    )
    return tuple(f for f in found if f.design != design)


def _few(things: Sequence[Thing], design: Design, *, inside: bool) -> Sequence[Thing]:
    """All places to break, or as many drawn at random as there is time for; in their order."""
    each = (len(design.netlist.gates) + len(design.netlist.flip_flops)) * (design.edges + 1)
    kinds = 3 if inside else 2  # wires and parts, and inside of parts the branches of wires
    most = max(_LEAST, _WORK // kinds // max(each, 1))
    if len(things) <= most:
        return things
    chosen = random.Random(0).sample(range(len(things)), most)  # noqa: S311  # always the same
    return [things[i] for i in sorted(chosen)]


def share(design: Design, *, inside: bool = False) -> tuple[int, int]:
    """Of how many wires, and branches of wires inside, faults are tried, and how many there are.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> tried, wires = share(catalogue.design("serial-adder", n=4))
    >>> tried == wires
    True
    """
    places: list[Sequence[object]] = [_wires(design, inside=inside)]
    if inside:
        places.append(_branches(design.netlist))
    tried = sum(len(_few(some, design, inside=inside)) for some in places)
    return tried, sum(map(len, places))


def _fault(
    kind: str,
    form: str,
    changed: Design,
    where: tuple[str, ...],
    facts: Mapping[str, Fact],
    *warned: str,
) -> Fault:
    """A fault; the changed design is named after it."""
    name = ENGLISH(f"fault-name-{form}", **facts)
    base = changed.base or changed.name
    design = replace(changed, name=f"{changed.name} ({name})", base=base)
    return Fault(kind, name, where, form, tuple(facts.items()), design, warned)


# ---------------------------------------------------------------------- wires


def _stuck(design: Design, *, inside: bool) -> Iterator[Fault]:
    netlist = design.netlist
    clocks = {f.gate for f in netlist.flip_flops}
    nets = _few(_wires(design, inside=inside), design, inside=inside)
    ports = {
        netlist.names[f"{part.name}.{port.name}"][0]: f"{part.name}.{port.name}"
        for part in design.circuit.parts
        for port in part.kind.ports
        if port.direction == "out" and port.width == 1
    }
    for net in nets:
        if net <= CLOCK_NET or net in clocks:
            continue
        label = netlist.labels[net]
        for bit in (0, 1):
            changed = replace(design, altered=circuit_edits.stuck(netlist, net, bit))
            where, facts = (ports.get(net, label),), {"wire": label, "bit": bit}
            yield _fault("stuck", "stuck", changed, where, facts, OPEN_INPUT)
    if inside:
        yield from _stuck_pins(design)


def _wires(design: Design, *, inside: bool) -> list[int]:
    """The nets of the circuit, or those of its parts as well."""
    names = design.netlist.names if inside else design.netlist.top_names
    return list(dict.fromkeys(net for name in names for net in design.netlist.names[name]))


def _branches(netlist: Netlist) -> list[tuple[Gate, int]]:
    """The inputs of gates at which a wire with other readers ends: each gate, and its pin."""
    readers = Counter(net for gate in netlist.gates for net in gate.inputs)
    readers.update(net for bits in netlist.outputs.values() for net in bits)
    for flip_flop in netlist.flip_flops:
        ports = (flip_flop.d, flip_flop.enable, flip_flop.clear, flip_flop.gate)
        readers.update(net for net in ports if net is not None)
    return [
        (gate, pin)
        for gate in netlist.gates
        for pin, net in enumerate(gate.inputs)
        if net > CLOCK_NET and readers[net] > 1  # with one reader, the wire's own fault is the same
    ]


def _stuck_pins(design: Design) -> Iterator[Fault]:
    netlist = design.netlist
    for gate, pin in _few(_branches(netlist), design, inside=True):
        source = netlist.labels[gate.inputs[pin]]
        for bit in (0, 1):
            facts = {"gate": gate.name, "wire": source, "bit": bit}
            altered = circuit_edits.pin_stuck(netlist, gate, pin, bit)
            changed, where = replace(design, altered=altered), (gate.name,)
            yield _fault("stuck", "branch-stuck", changed, where, facts, OPEN_INPUT)


def _swapped(design: Design, *, inside: bool) -> Iterator[Fault]:
    for part in _few(design.circuit.parts, design, inside=inside):
        single = [
            port.name
            for port in part.kind.ports
            if port.direction == "in" and port.width == 1 and port.role != "clock"
        ]
        near = combinations(single, 2) if len(single) <= 3 else pairwise(single)
        for one, other in near:
            signals = {one: part.signal(other), other: part.signal(one)}
            yield from _rewired(design, part, signals, (one, other))
        outs = [p.name for p in part.kind.ports if p.direction == "out" and p.width == 1]
        for one, other in combinations(outs, 2):
            yield from _outputs_swapped(design, part, one, other)
        for port in part.kind.ports:
            if port.direction == "in":
                for low in range(port.width - 1):
                    bits = list(part.signal(port.name))
                    bits[low : low + 2] = reversed(bits[low : low + 2])
                    pair = (f"{port.name}({low})", f"{port.name}({low + 1})")
                    yield from _rewired(design, part, {port.name: tuple(bits)}, pair)
    yield from _swapped_neighbours(design)


def _rewired(
    design: Design, part: Part, signals: Mapping[str, Signal], pair: tuple[str, str]
) -> Iterator[Fault]:
    symmetric = part.kind.function and part.kind.function.symmetric
    if symmetric or signals == {p: part.signal(p) for p in signals}:
        return
    changed = circuit_edits.rewired(part, signals)
    faulty = circuit_edits.with_parts(design, lambda p: changed if p is part else p)
    where = tuple(f"{part.name}.{port}" for port in signals)
    facts = {"part": part.name, "first": pair[0], "second": pair[1]}
    yield from _sound(_fault("swapped", "swapped-at", faulty, where, facts))


def _outputs_swapped(design: Design, part: Part, one: str, other: str) -> Iterator[Fault]:
    where = (f"{part.name}.{one}", f"{part.name}.{other}")
    nets = [design.netlist.names[port][0] for port in where]
    altered = circuit_edits.exchanged(design.netlist, *nets)
    if altered is not None:
        facts = {"part": part.name, "first": one, "second": other}
        yield _fault("swapped", "swapped-at", replace(design, altered=altered), where, facts)


def _swapped_neighbours(design: Design) -> Iterator[Fault]:
    """The same wire of two neighbours in a family: ``FA(2)`` and ``FA(3)``."""
    for one, other in pairwise(design.circuit.parts):
        if one.kind != other.kind or one.name.split("(")[0] != other.name.split("(")[0]:
            continue
        for port in one.kind.ports:
            if port.width > 1 or port.name in ("clock", "carry-in", "carry-out"):
                continue
            mine, theirs = one.signal(port.name), other.signal(port.name)
            if mine == theirs:
                continue
            swap = {
                one.name: circuit_edits.rewired(one, {port.name: theirs}),
                other.name: circuit_edits.rewired(other, {port.name: mine}),
            }
            faulty = circuit_edits.with_parts(design, lambda p, swap=swap: swap.get(p.name, p))  # type: ignore[misc]
            where = (f"{one.name}.{port.name}", f"{other.name}.{port.name}")
            facts = {"first": where[0], "second": where[1]}
            yield from _sound(_fault("swapped", "swapped", faulty, where, facts))


def _sound(fault: Fault) -> Iterator[Fault]:
    """The fault, unless it makes a loop or otherwise no circuit."""
    try:
        fault.design.check()
    except EdgewiseError:
        return
    yield fault


# ---------------------------------------------------------------------- clear and clock


def _stores(design: Design) -> Iterator[tuple[Part, list[FlipFlop]]]:
    """Top-level parts that store, with their flip-flops."""
    for part in design.circuit.parts:
        inside = [f for f in design.netlist.flip_flops if circuit_edits.in_part(f, part.name)]
        if inside:
            yield part, inside


def _each(design: Design, part: Part, **changes: object) -> Design:
    return circuit_edits.with_flip_flops(
        design,
        lambda f: replace(f, **changes) if circuit_edits.in_part(f, part.name) else f,  # type: ignore[arg-type]
    )


def _clears(design: Design) -> Iterator[Fault]:
    for part, inside in _stores(design):
        if not part.signal("clear"):
            continue
        where = (part.name, f"{part.name}.clear")
        facts = {"part": part.name}
        for clear, form in ((None, "never-cleared"), (CONSTANTS[1], "always-cleared")):
            yield _fault("clear", form, _each(design, part, clear=clear), where, facts)
        feeds = {bit.net for bit in part.signal("clear") if hasattr(bit, "net")}
        serial = [
            feed.input
            for phase in design.procedure
            for feed in phase.feeds
            if feed.input in feeds and feed.order != "held" and feed.what
        ]
        if serial and inside:
            earlier = circuit_edits.with_feeds(
                design,
                lambda feed, serial=serial: (  # type: ignore[misc]
                    replace(feed, what=feed.what >> 1)
                    if feed.input in serial and isinstance(feed.what, int)
                    else feed
                ),
            )
            yield from _sound(_fault("clear", "early-clear", earlier, where, facts))


def _clocks(design: Design) -> Iterator[Fault]:
    for part, _ in _stores(design):
        changed = _each(design, part, gate=CONSTANTS[0])
        yield _fault("clock", "no-clock", changed, (part.name,), {"part": part.name})


def _late_enables(design: Design) -> Iterator[Fault]:
    """An enable that falls late lets one more edge through: a false one."""
    netlist = design.netlist
    for part, inside in _stores(design):
        gate = inside[0].gate
        if gate is None:
            continue
        before, either = netlist.size, netlist.size + 1
        late = FlipFlop(f"{part.name} late", gate, before, None, None, None, 0)
        passes = Gate("or", (gate, before), either, f"{part.name} late")
        altered = replace(
            netlist,
            size=netlist.size + 2,
            gates=(*netlist.gates, passes),
            flip_flops=(
                *(
                    replace(f, gate=either) if circuit_edits.in_part(f, part.name) else f
                    for f in netlist.flip_flops
                ),
                late,
            ),
        )
        changed, facts = replace(design, altered=altered), {"part": part.name}
        where = (part.name, netlist.labels[gate])
        yield _fault("late enable", "late-enable", changed, where, facts, GATED_CLOCK)


# ---------------------------------------------------------------------- procedure and start


def _edges(design: Design) -> Iterator[Fault]:
    for position, (phase, _, last) in enumerate(design.spans):
        for more, change in ((1, "more"), (-1, "fewer")):
            if phase.edges + more < 0 or not phase.edges:
                continue
            changed = _with_phase(design, position, phase, more, last)
            edges = phase.edges + more
            facts: dict[str, Fact] = {"phase": phase.name, "edges": edges, "change": change}
            yield from _sound(_fault("edges", "edges", changed, (), facts))


def _with_phase(design: Design, position: int, phase: Phase, more: int, last: int) -> Design:
    procedure = list(design.procedure)
    procedure[position] = replace(phase, edges=phase.edges + more)
    computes = tuple(
        replace(p, after=p.after + more) if p.after is not None and p.after >= last else p
        for p in design.computes
    )
    return replace(design, procedure=tuple(procedure), computes=computes)


def _starts(design: Design) -> Iterator[Fault]:
    for part, inside in _stores(design):
        facts: dict[str, Fact] = {"part": part.name}
        options: list[tuple[str, Mapping[str, Fact], Callable[[FlipFlop], FlipFlop]]] = []
        if any(f.start != X for f in inside):
            options.append(("unknown-start", facts, lambda f: replace(f, start=X)))
        if len(inside) == 1 and inside[0].start != X:
            held = {**facts, "bit": 1 - inside[0].start}
            options.append(("wrong-start", held, lambda f: replace(f, start=1 - f.start)))
        for form, said, change in options:
            changed = circuit_edits.with_flip_flops(
                design,
                lambda f, part=part, change=change: (  # type: ignore[misc]
                    change(f) if circuit_edits.in_part(f, part.name) else f
                ),
            )
            yield _fault("start", form, changed, (part.name,), said)
