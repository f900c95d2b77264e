"""Circuits with loops and clocks of their own, event for event, against IEEE 1800.

Outside: Icarus Verilog (Debian's iverilog), as in `test_ieee1800_delays`; a preset or a clear is an
``always`` that waits for it. Delays, and the times at which inputs change, are at random; inputs
change one at a time, so that no order is left open.
"""

from __future__ import annotations

import random
from pathlib import Path
from typing import Final

from edgewise import blueprint
from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.engines.timed.delays import Delays, Stored
from edgewise.engines.timed.simulation import Stimulus
from tests.outside.test_ieee1800_delays import Event, _events, _module, _ours

PARTS: Final = {
    "sr-latch": ("s", "r"),
    "sr-latch-nand": ("s-bar", "r-bar"),
    "gated-sr-latch": ("s", "r", "enable", "clear-bar"),
    "d-latch": ("d", "enable"),
    "master-slave-flip-flop": ("d", "clock"),
    "jk-master-slave": ("j", "k", "clock", "preset-bar", "clear-bar"),
    "six-nand-flip-flop": ("d", "clock", "preset-bar", "clear-bar"),
    "flip-flop": ("d", "clock", "async-preset", "async-clear"),
    "jk-flip-flop": ("j", "k", "clock", "async-clear"),
    "t-flip-flop": ("t", "clock", "async-preset"),
}
RIPPLE: Final = """\
circuit: ripple counter, cleared at five
inputs: {x0: 1, x1: 1}
nets: {toggle: 4, count: 3}
join: {toggle(0): x0}
parts:
  Q(i = 0..2): {part: t-flip-flop, t: 1, clock: toggle(i), q: count(i), async-clear: BACK.out,
    start: X}
  N(i = 0..2): {part: not, in: count(i), out: toggle(i+1)}
  FIVE: {part: and, in: [count(0), toggle(2), count(2)]}
  BACK: {part: or, in: [FIVE.out, x1]}
outputs: {y: count}
"""
SEEDS: Final = 12


def netlist_of(part: str) -> Netlist:
    if part == "ripple":
        return blueprint.from_text(RIPPLE, "ripple.yaml").made().in_time().netlist
    ports = PARTS[part]
    fed = ", ".join(f"{port}: x{at}" for at, port in enumerate(ports))
    text = f"circuit: one\ninputs: {{{', '.join(f'x{at}: 1' for at in range(len(ports)))}}}\n"
    start = ", start: X" if "bar" not in fed and "latch" not in part and "slave" not in part else ""
    text += f"parts: {{P: {{part: {part}, {fed}{start}}}}}\noutputs: {{q: P.q}}\n"
    return blueprint.from_text(text, "one.yaml").made().in_time().netlist


def case(netlist: Netlist, seed: int) -> tuple[Delays, list[Stimulus]]:
    """Delays at random, and inputs that change one at a time, at times a gate's or many apart."""
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    delays = Delays(
        tuple((draw.randint(3, 17), draw.randint(3, 17)) for _ in netlist.gates),
        tuple(Stored(draw.randint(5, 19)) for _ in netlist.flip_flops),
    )
    nets = [net for bits in netlist.inputs.values() for net in bits]
    # Whether an edge comes where a clock begins at 1 is left to each.
    clocks = {one.gate for one in netlist.flip_flops}
    stimuli = [Stimulus(0, net, 0 if net in clocks else draw.randint(0, 1)) for net in nets]
    now, time = {one.net: one.bit for one in stimuli}, 50
    for _ in range(60):
        time += draw.choice((1, 7, 40, 150)) + draw.randint(0, 9)
        net = draw.choice(nets)
        now[net] = 1 - now[net]
        stimuli.append(Stimulus(time, net, now[net]))
    return delays, stimuli


END: Final = 4000
LOOPS: Final = 400
"""Circuits at random whose gates read any net, later ones too."""


def cyclic(seed: int) -> tuple[Netlist, Delays, list[Stimulus]]:
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    inputs, count = draw.randint(2, 4), draw.randint(3, 12)
    first = CLOCK_NET + 1 + inputs
    size, gates = first + count, list[Gate]()
    for number in range(count):
        operator = draw.choice(("and", "or", "xor", "nand", "nor", "xnor", "not", "multiplexer"))
        wide = {"not": 1, "multiplexer": 3}.get(operator, draw.randint(2, 3))
        read = tuple(draw.sample(range(CLOCK_NET + 1, size), wide))
        gates.append(Gate(operator, read, first + number, f"g{number}"))
    x = tuple(range(CLOCK_NET + 1, first))
    netlist = Netlist(size, {"x": x}, {}, tuple(gates), (), {})
    delays = Delays(tuple((draw.randint(11, 97), draw.randint(11, 97)) for _ in gates), ())
    stimuli, time = [Stimulus(0, net, draw.randint(0, 1)) for net in x], 400
    for _ in range(12):
        time += draw.randint(3, 160)
        stimuli.append(Stimulus(time, draw.choice(x), draw.randint(0, 1)))
    return netlist, delays, stimuli


def ordered(netlist: Netlist, events: set[Event]) -> bool:
    """Whether no two inputs of a gate change in one tick: the standard leaves their order open."""
    ticks: dict[int, set[int]] = {}
    for time, net, _ in events:
        ticks.setdefault(time, set()).add(net)
    return all(
        len(moved & {*gate.inputs}) < 2 for moved in ticks.values() for gate in netlist.gates
    )


def test_loops_at_random(tmp_path: Path) -> None:
    texts, ours = list[str](), dict[str, set[Event]]()
    for seed in range(LOOPS):
        netlist, delays, stimuli = cyclic(seed)
        name = f"loop{seed}"
        start = [0, 1, 2, 1] + [2] * (netlist.size - 4)
        events = _ours(netlist, delays, start, stimuli, END)
        if ordered(netlist, {event for event in events if event[0]}):
            texts.append(_module(name, netlist, delays, stimuli, END))
            ours[name] = events
    # What oscillates has no end of its own.
    texts.append(f"module ending; initial #{END + 1} $finish; endmodule")
    theirs = _events("\n".join(texts), tmp_path)
    assert len(ours) > LOOPS / 2
    assert sum(map(len, ours.values())) > 5_000
    # What happens at time 0 has no order.
    wrong = {
        name: sorted(e for e in ours[name] ^ theirs.get(name, set()) if 0 < e[0] <= END)
        for name in ours
    }
    assert {name: events[:3] for name, events in wrong.items() if events} == {}


def test_every_event(tmp_path: Path) -> None:
    texts, ours = list[str](), dict[str, set[Event]]()
    for part in (*PARTS, "ripple"):
        netlist = netlist_of(part)
        for seed in range(SEEDS):
            delays, stimuli = case(netlist, seed)
            until = stimuli[-1].time + 400
            name = f"{part.replace('-', '_')}_{seed}"
            start = [0, 1, 2] + [2] * (netlist.size - 3)
            for one in netlist.flip_flops:
                start[one.q] = one.start
            texts.append(_module(name, netlist, delays, stimuli, until))
            ours[name] = _ours(netlist, delays, start, stimuli, until)
    theirs = _events("\n".join(texts), tmp_path)
    wrong = {
        name: sorted({e for e in ours[name] ^ theirs.get(name, set()) if e[0]})[:4]
        for name in ours
        if {e for e in ours[name] ^ theirs.get(name, set()) if e[0]}
    }
    assert sum(map(len, ours.values())) > 5_000
    assert wrong == {}
