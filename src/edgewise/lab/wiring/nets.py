"""The nets of a design by the names that they have on the board, and what reads them."""

from __future__ import annotations

from collections.abc import Iterator

from edgewise.bits import X
from edgewise.circuit.netlist import FlipFlop, Gate
from edgewise.design import Design
from edgewise.lab.wiring.pieces import LOW


def shown(design: Design) -> tuple[str, ...]:
    """The nets that the outputs of a design show, bit by bit, each once."""
    nets_of = Nets(design)
    bits = (net for nets in design.netlist.outputs.values() for net in nets)
    return tuple(dict.fromkeys(map(nets_of.net, bits)))


class Nets:
    """A design's nets, gates and flip-flops.

    Parameters
    ----------
    design : Design
    """

    def __init__(self, design: Design) -> None:
        self.design, self.netlist = design, design.netlist
        self.gates = {gate.name: gate for gate in self.netlist.gates}
        self.flip_flops = {one.name: one for one in self.netlist.flip_flops}
        self.aliases = {g.output: g.inputs[0] for g in self.netlist.gates if g.operator == "buffer"}
        self.live = self._live()
        self.readers = self._readers()

    def net(self, number: int) -> str:
        """The name of a net; an unknown constant is one that a tie may decide."""
        while number in self.aliases:
            number = self.aliases[number]
        if number == X:
            return LOW
        return self.netlist.labels[number]

    def port(self, path: str, port: str) -> list[str]:
        """The nets at a port, LSB first; none where nothing is connected."""
        return [self.net(n) for n in self.netlist.names.get(f"{path}.{port}", ())]

    def _live(self) -> frozenset[int]:
        """The nets that an output or a stored bit which counts depends on."""
        drivers = {gate.output: gate for gate in self.netlist.gates}
        stored = {one.q: one for one in self.netlist.flip_flops}
        waiting = [net for bits in self.netlist.outputs.values() for net in bits]
        seen: set[int] = set()
        while waiting:
            net = waiting.pop()
            if net in seen:
                continue
            seen.add(net)
            if net in drivers:
                waiting += drivers[net].inputs
            elif net in stored:
                waiting += _reads(stored[net])
        return frozenset(seen)

    def _readers(self) -> dict[str, list[str]]:
        """For each net the parts that read it; an output of the circuit has no name."""
        found: dict[str, list[str]] = {}
        for gate in self.netlist.gates:
            for net in gate.inputs if gate.output in self.live else ():
                found.setdefault(self.net(net), []).append(gate.name)
        for one in self.netlist.flip_flops:
            for net in _reads(one) if one.q in self.live else ():
                found.setdefault(self.net(net), []).append(one.name)
        for bits in self.netlist.outputs.values():
            for net in bits:
                found.setdefault(self.net(net), []).append("")
        return found

    def alive(self, path: str) -> Iterator[Gate | FlipFlop]:
        """The gates and flip-flops of a part that count."""
        inside = f"{path}."
        for gate in self.netlist.gates:
            if (gate.name == path or gate.name.startswith(inside)) and gate.output in self.live:
                yield gate
        for one in self.netlist.flip_flops:
            if (one.name == path or one.name.startswith(inside)) and one.q in self.live:
                yield one


def _reads(one: FlipFlop) -> list[int]:
    return [net for net in (one.d, one.enable, one.clear, one.gate) if net is not None]
