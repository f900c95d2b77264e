"""The run loop of every engine: rows of a netlist, for any kind of bits.

What a gate computes and what a flip-flop stores is read from `edgewise.circuit.truth`; an engine
brings its bits as a `Logic`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Generic, TypeAlias

from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import NEXT, STORES, UNFED, B, Logic, Truth, compiled, fed

_Of: TypeAlias = Callable[[Sequence[B]], B]


class Machine(Generic[B]):
    """Settles rows and makes the next ones, with one kind of bits.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.bits import X
    >>> from edgewise.circuit.truth import KLEENE
    >>> machine = Machine(KLEENE)
    >>> machine.gate("nor", [0, X]), machine.gate("nor", [1, X])
    (2, 0)
    """

    def __init__(self, logic: Logic[B]) -> None:
        self.logic = logic
        self._gates: dict[str, _Of[B]] = {}

    def gate(self, operator: str, inputs: Sequence[B]) -> B:
        """The output of a gate."""
        of = self._gates.get(operator) or self._learn(operator)
        return of(inputs)

    def _learn(self, operator: str) -> _Of[B]:
        self._gates[operator] = function(operator).over(self.logic)
        return self._gates[operator]

    def settle(
        self, netlist: Netlist, stored: Iterable[B], inputs: Mapping[str, Iterable[B]]
    ) -> list[B]:
        """Every net's bit, once the combinational nets have settled.

        Parameters
        ----------
        netlist : Netlist
        stored : iterable of bit
            What each flip-flop holds, in the order of ``netlist.flip_flops``.
        inputs : mapping of str to iterable of bit
            Bits of each input, LSB first.
        """
        logic, gates = self.logic, self._gates
        zero, one, unknown = (logic.constant(bit) for bit in range(3))
        values = [zero] * netlist.size
        values[1], values[2], values[CLOCK_NET] = one, unknown, one
        for name, nets in netlist.inputs.items():
            for net, bit in zip(nets, inputs[name], strict=True):
                values[net] = bit
        for flip_flop, bit in zip(netlist.flip_flops, stored, strict=True):
            values[flip_flop.q] = bit
        for gate in netlist.gates:
            of = gates.get(gate.operator) or self._learn(gate.operator)
            bit = of([values[net] for net in gate.inputs])
            if gate.cover and logic.unsure(bit):
                bit = gate.cover.value(values, logic)
            values[gate.output] = bit
        return values

    def edge(self, netlist: Netlist) -> Callable[[Sequence[B]], list[B]]:
        """From a row to what the flip-flops store at the edge that follows it."""
        stores = [self.store(flip_flop) for flip_flop in netlist.flip_flops]
        return lambda row: [store(row) for store in stores]

    def store(self, one: FlipFlop) -> Callable[[Sequence[B]], B]:
        """From a row to what one flip-flop stores at the edge that follows it."""
        nets = {"q": one.q, "d": one.d, "enable": one.enable, "clear": one.clear, "clock": one.gate}
        at: dict[str, int | _Of[B]] = {port: net for port, net in nets.items() if net is not None}
        stores, then = _rule(tuple([port for port in UNFED if port not in at]))
        first, cover, logic = compiled(stores, at, self.logic), one.cover, self.logic
        if cover is None:
            return compiled(then, {**at, "stored": first}, logic)

        def stored(row: Sequence[B]) -> B:
            bit = first(row)
            return cover.value(row, logic) if logic.unsure(bit) else bit

        return compiled(then, {**at, "stored": stored}, logic)

    def rows(
        self, netlist: Netlist, feeds: Iterable[Mapping[str, Iterable[B]]]
    ) -> Iterator[list[B]]:
        """Row after row, for what feeds the inputs in each."""
        stored = [self.logic.constant(one.start) for one in netlist.flip_flops]
        edge = self.edge(netlist)
        for inputs in feeds:
            row = self.settle(netlist, stored, inputs)
            yield row
            stored = edge(row)


@lru_cache(maxsize=16)
def _rule(unfed: tuple[str, ...]) -> tuple[Truth, Truth]:
    """The rule of a flip-flop some of whose controls nothing feeds."""
    missing = {port: UNFED[port] for port in unfed}
    return fed(STORES, missing), fed(NEXT, missing)
