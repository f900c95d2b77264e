"""Every event inside a clock period, held against an independent implementation of IEEE 1800.

Outside: Icarus Verilog (Debian's iverilog), continuous assignments with rise and fall delays for
gates (IEEE Std 1800-2017, 10.3.3: inertial), non-blocking assignments with an intra-assignment
delay for transport delays (9.4.5) and for flip-flops.
"""

from __future__ import annotations

import random
import re
import subprocess
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.engines import reference
from edgewise.engines.timed.delays import Delays, Stored
from edgewise.engines.timed.simulation import Stimulus, simulate

_JOINED = {"and": "&", "or": "|", "xor": "^", "nand": "&", "nor": "|", "xnor": "^"}
Event = tuple[int, int, str]
RACE = 780
"""Two inputs of one gate change in one tick there, and for a moment between them the gate would
give what it gives already. Which of them comes first the standard leaves open (4.7), and so
whether a change that is to come is taken back."""


def _expression(gate: Gate) -> str:
    nets = [f"n[{net}]" for net in gate.inputs]
    if gate.operator == "multiplexer":
        select, when_0, when_1 = nets
        return f"{select} ? {when_1} : {when_0}"
    if gate.operator in ("not", "buffer"):
        return f"{'~' * (gate.operator == 'not')}{nets[0]}"
    joined = f" {_JOINED[gate.operator]} ".join(nets)
    return f"~({joined})" if gate.operator.startswith(("n", "xn")) else joined


def _module(
    name: str, netlist: Netlist, delays: Delays, stimuli: Sequence[Stimulus], until: int
) -> str:
    """A module that prints each event of a net: time, net, bit."""
    driven = sorted({stimulus.net for stimulus in stimuli})
    lines = [f"module {name};", f"wire [{netlist.size}:0] n; reg [{netlist.size}:0] x;"]
    lines += ["assign n[0] = 1'b0; assign n[1] = 1'b1; assign n[2] = 1'bx;"]
    lines += [f"assign n[{net}] = x[{net}];" for net in driven]
    shown = list(driven)
    for gate, (rise, fall) in zip(netlist.gates, delays.gates, strict=True):
        out, said = gate.output, _expression(gate)
        shown.append(out)
        if delays.transport:
            lines.append(
                f"reg t{out}; always @* t{out} <= #{rise} {said}; assign n[{out}] = t{out};"
            )
        else:
            lines.append(f"assign #({rise},{fall}) n[{out}] = {said};")
    for one, times in zip(netlist.flip_flops, delays.flip_flops, strict=True):
        clock, q = CLOCK_NET if one.gate is None else one.gate, one.q
        held = f"n[{one.enable}] ? n[{one.d}] : n[{q}]" if one.enable is not None else f"n[{one.d}]"
        then = f"n[{one.clear}] ? 1'b0 : ({held})" if one.clear is not None else held
        lines.append(f"reg q{q} = 1'b{'01x'[one.start]}; assign n[{q}] = q{q};")
        show = f"q{q} <= #{times.clock_to_q} s{q};"
        forces = [(net, bit) for net, bit in ((one.preset, 1), (one.reset, 0)) if net is not None]
        forced = "".join(f"n[{net}] ? 1'b{bit} : " for net, bit in forces)
        lines.append(f"reg s{q} = 1'b{'01x'[one.start]};")
        lines.append(f"always @(posedge n[{clock}]) begin s{q} = {forced}({then}); {show} end")
        if forces:
            waits = " or ".join(f"n[{net}]" for net, _ in forces)
            lines.append(f"always @({waits}) begin s{q} = {forced}s{q}; {show} end")
        shown.append(q)
    lines += [
        f'always @(n[{net}]) $strobe("{name} %0t {net} %b", $time, n[{net}]);' for net in shown
    ]
    lines.append("initial begin")
    now = 0
    for time, net, bit in sorted(stimuli):
        lines.append(f"{f'#{time - now} ' if time > now else ''}x[{net}] = 1'b{'01x'[bit]};")
        now = time
    return "\n".join([*lines, f"#{until - now};", "end", "endmodule", ""])


def _events(text: str, folder: Path) -> dict[str, set[Event]]:
    """What the outside implementation prints, by module."""
    (folder / "all.v").write_text(f"`timescale 1ns/1ns\n{text}")
    subprocess.run(
        ["iverilog", "-g2012", "-o", folder / "all", folder / "all.v"], check=True, timeout=300
    )
    shown = subprocess.run(
        ["vvp", folder / "all"], check=True, capture_output=True, text=True, timeout=300
    ).stdout
    found: dict[str, set[Event]] = {}
    for name, time, net, bit in re.findall(r"^(\w+) (\d+) (\d+) (.)$", shown, re.MULTILINE):
        found.setdefault(name, set()).add((int(time), int(net), bit))
    return found


def _ours(
    netlist: Netlist, delays: Delays, start: list[int], stimuli: Sequence[Stimulus], until: int
) -> set[Event]:
    run = simulate(netlist, delays, start, stimuli, until=until)
    return {(change.time, change.net, "01x"[change.after]) for change in run.changes}


def _random(seed: int, *, transport: bool) -> tuple[Netlist, Delays, list[Stimulus]]:
    """A few gates, each after what it reads, with delays and stimuli at random."""
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    inputs = draw.randint(2, 4)
    size, gates = CLOCK_NET + 1 + inputs, list[Gate]()
    for number in range(draw.randint(2, 14)):
        operator = draw.choice([*_JOINED, "not", "buffer", "multiplexer"])
        wide = {"not": 1, "buffer": 1, "multiplexer": 3}.get(operator, draw.randint(2, 3))
        read = tuple(draw.randrange(CLOCK_NET + 1, size) for _ in range(wide))
        gates.append(Gate(operator, read, size, f"g{number}"))
        size += 1
    x = tuple(range(CLOCK_NET + 1, CLOCK_NET + 1 + inputs))
    times = [(draw.randint(1, 6), draw.randint(1, 6)) for _ in gates]
    if transport:
        times = [(rise, rise) for rise, _ in times]
    stimuli, time = [Stimulus(0, net, draw.randint(0, 1)) for net in x], 0
    for _ in range(8):
        time += draw.randint(1, 9)
        stimuli.append(Stimulus(time, draw.choice(x), draw.choice((0, 1, 0, 1, 2))))
    netlist = Netlist(size, {"x": x}, {}, tuple(gates), (), {})
    return netlist, Delays(tuple(times), (), transport), stimuli


@pytest.mark.parametrize("transport", [False, True], ids=["inertial", "transport"])
def test_gates_at_random(*, transport: bool, tmp_path: Path) -> None:
    until, texts, ours = 200, list[str](), dict[str, set[Event]]()
    for seed in (seed for seed in range(1000) if seed != RACE):
        netlist, delays, stimuli = _random(seed, transport=transport)
        name = f"m{seed}"
        start = [0, 1, 2, 1] + [2] * (netlist.size - 4)
        texts.append(_module(name, netlist, delays, stimuli, until))
        ours[name] = _ours(netlist, delays, start, stimuli, until)
    theirs = _events("\n".join(texts), tmp_path)
    assert sum(map(len, ours.values())) > 10_000
    assert [name for name in ours if ours[name] != theirs.get(name, set())] == []


def _clocked() -> Iterator[str]:
    for name in catalogue.ORDER:
        if catalogue.design(name).edges:
            yield name


def test_whole_runs_of_the_catalogue(tmp_path: Path) -> None:
    """Each clocked design, its clock slow enough and gates with odd delays, event for event."""
    texts, ours, begin = list[str](), dict[str, set[Event]](), dict[str, int]()
    for at, name in enumerate(_clocked()):
        design = catalogue.design(name)
        netlist, draw = design.netlist, random.Random(at)  # noqa: S311  # cases, no secrets
        delays = Delays(
            tuple((draw.randint(1, 9), draw.randint(1, 9)) for _ in netlist.gates),
            tuple(Stored(draw.randint(5, 12)) for _ in netlist.flip_flops),
        )
        largest = {one.name: one.number(draw.getrandbits(one.width)) for one in design.operands}
        trace = reference.run(design, largest)
        period = 20 * (10 + len(netlist.gates))
        stimuli = [
            Stimulus(at * period + (7 if at else 0), net, row[net] % 2)
            for at, row in enumerate(trace.rows)
            for nets in netlist.inputs.values()
            for net in nets
        ]
        stimuli += [
            Stimulus(edge * period + half * period // 2, CLOCK_NET, 1 - half)
            for edge in range(1, trace.edges + 1)
            for half in (0, 1)
        ]
        stimuli.append(Stimulus(0, CLOCK_NET, 0))
        start = [0, 1, 2] + [2] * (netlist.size - 3)
        for one in netlist.flip_flops:
            start[one.q] = one.start
        until = (trace.edges + 1) * period
        module = f"d{at}"
        texts.append(_module(module, netlist, delays, stimuli, until))
        ours[module] = _ours(netlist, delays, start, stimuli, until)
        begin[module] = period  # before, the order of what happens at time 0 is not given
    theirs = _events("\n".join(texts), tmp_path)
    for module in ours:
        assert {e for e in ours[module] ^ theirs[module] if e[0] >= begin[module]} == set(), module
