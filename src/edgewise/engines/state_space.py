"""State space: every state of a small circuit with every input, computed side by side.

All states and inputs are the lanes of one row (`edgewise.engines.side_by_side`), so that a graph
of 2**16 transitions takes about as long as one run.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from edgewise.bits import X
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.engines.run_loop import Machine
from edgewise.engines.side_by_side import Lanes
from edgewise.errors import EdgewiseError, Message
from edgewise.state_graph import StateGraph, Transition

MOST_FLIP_FLOPS: Final = 12
MOST_BITS: Final = 16
"""Flip-flops and the inputs that a next state depends on, together."""
_INDEX: Final = re.compile(r"\(\d+\)(?=$|\()")


def graph(design: Design) -> StateGraph:
    """The state graph of a circuit, whatever its procedure does.

    Raises
    ------
    EdgewiseError
        No flip-flop at all, or too many of them or of inputs.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = graph(catalogue.design("ring-counter", n=4))
    >>> [found.spelled(state) for state in sorted(found.reached)]
    ['0001', '0010', '0100', '1000']
    >>> len(found.unreached), len(found.stranded)
    (12, 12)
    """
    netlist = design.netlist
    check(design)
    read = _read(netlist)
    if X in read:
        raise EdgewiseError(Message("states-unknown-bit", design=design.name))
    inputs = [net for nets in netlist.inputs.values() for net in reversed(nets) if net in read]
    space = _Space(netlist, tuple(inputs))
    if space.bits > MOST_BITS:
        raise EdgewiseError(
            Message(
                "states-bits-many",
                design=design.name,
                count=len(netlist.flip_flops),
                inputs=len(space.inputs),
                most=MOST_BITS,
            )
        )
    return space.graph()


def check(design: Design) -> None:
    """See that a design has a state, and not too large a one.

    Raises
    ------
    EdgewiseError
        It has none, or too many flip-flops.
    """
    count = len(design.netlist.flip_flops)
    if not count:
        raise EdgewiseError(Message("states-none", design=design.name))
    if count > MOST_FLIP_FLOPS:
        raise EdgewiseError(
            Message(
                "states-many",
                design=design.name,
                count=count,
                states=2**count,
                most=MOST_FLIP_FLOPS,
            )
        )


def _read(netlist: Netlist) -> frozenset[int]:
    """Every net that a flip-flop or output may depend on; a constant's number is its bit."""
    gates = {gate.output: gate for gate in netlist.gates}
    waiting = [net for nets in netlist.outputs.values() for net in nets]
    for one in netlist.flip_flops:
        waiting += [net for net in (one.d, one.enable, one.clear, one.gate) if net is not None]
    seen: set[int] = set()
    while waiting:
        net = waiting.pop()
        if net not in seen:
            seen.add(net)
            waiting += gates[net].inputs if net in gates else ()
    return frozenset(seen)


@dataclass(frozen=True)
class _Space:
    """Lane l: the state is its low bits, the inputs are the bits above, the first one highest."""

    netlist: Netlist
    inputs: tuple[int, ...]

    @property
    def held(self) -> int:
        return len(self.netlist.flip_flops)

    @property
    def bits(self) -> int:
        return self.held + len(self.inputs)

    def graph(self) -> StateGraph:
        """All transitions, in the fewest conditions."""
        logic = Lanes((1 << (1 << self.bits)) - 1)
        machine = Machine(logic)
        planes = [_plane(i, self.bits) for i in range(self.bits)]
        fed = dict(zip(reversed(self.inputs), planes[self.held :], strict=True))
        feed = {n: [fed.get(net, 0) for net in nets] for n, nets in self.netlist.inputs.items()}
        row = machine.settle(self.netlist, planes[: self.held], feed)
        following = self._numbers(machine.edge(self.netlist)(row))
        held = {one.q for one in self.netlist.flip_flops}
        told = {n: nets for n, nets in self.netlist.outputs.items() if not held.issuperset(nets)}
        outputs = {name: self._numbers([row[net] for net in nets]) for name, nets in told.items()}
        moore = tuple(name for name, values in outputs.items() if self._steady(values))
        mealy = tuple(name for name in outputs if name not in moore)

        def bits(names: Sequence[str], lane: int) -> str:
            return " ".join(f"{outputs[n][lane]:0{len(told[n])}b}" for n in names)

        matter = self._matter([following, *(outputs[name] for name in mealy)])
        return StateGraph(
            tuple(self._words()),
            tuple(self.netlist.labels[self.inputs[i]] for i in matter),
            tuple(self._transitions(following, lambda lane: bits(mealy, lane), matter)),
            frozenset(self._starts()),
            moore,
            mealy,
            {state: bits(moore, state) for state in range(1 << self.held)} if moore else {},
        )

    def _numbers(self, planes: Sequence[int]) -> list[int]:
        """What the bits in `planes`, LSB first, make in each lane."""
        count = 1 << self.bits
        texts = [f"{plane:0{count}b}"[::-1] for plane in reversed(planes)]
        return [int("".join(digits), 2) for digits in zip(*texts, strict=True)]

    def _steady(self, values: Sequence[int]) -> bool:
        """Whether no input changes them."""
        low = (1 << self.held) - 1
        return all(value == values[lane & low] for lane, value in enumerate(values))

    def _matter(self, tables: Sequence[Sequence[int]]) -> list[int]:
        """Which inputs change anything, the first highest."""
        found = []
        for i in range(len(self.inputs)):
            bit = 1 << (self.bits - 1 - i)
            if any(t[lane] != t[lane ^ bit] for t in tables for lane in range(1 << self.bits)):
                found.append(i)
        return found

    def _transitions(
        self, following: Sequence[int], output: Callable[[int], str], matter: Sequence[int]
    ) -> Iterator[Transition]:
        shifts = [self.bits - 1 - i for i in matter]
        choices = [
            sum(bit << shift for bit, shift in zip(bits, shifts, strict=True))
            for bits in product((0, 1), repeat=len(matter))
        ]
        for state in range(1 << self.held):
            ways: defaultdict[tuple[int, str], int] = defaultdict(int)
            for number, choice in enumerate(choices):
                lane = state | choice
                ways[following[lane], output(lane)] |= 1 << number
            for (target, told), where in sorted(ways.items()):
                yield Transition(state, target, tuple(cubes(where, len(matter))), told)

    def _words(self) -> Iterator[tuple[str, tuple[int, ...]]]:
        """The words that hold a state, by the names of their bits."""
        found: dict[str, list[int]] = {}
        for place, one in enumerate(self.netlist.flip_flops):
            found.setdefault(_INDEX.sub("", self.netlist.labels[one.q]), []).append(place)
        return ((name, tuple(places)) for name, places in found.items())

    def _starts(self) -> Iterator[int]:
        ways = [(0, 1) if one.start == X else (one.start,) for one in self.netlist.flip_flops]
        for bits in product(*ways):
            yield sum(bit << place for place, bit in enumerate(bits))


def _plane(bit: int, bits: int) -> int:
    """Bit `bit` of every lane's number."""
    run = 1 << bit
    period = ((1 << run) - 1) << run
    for size in range(bit + 1, bits):
        period |= period << (1 << size)
    return period


def cubes(where: int, width: int) -> Iterator[str]:
    """Few conditions that hold for exactly these inputs; bit k of `where` is input number k.

    None for no input at all, and where every input will do. An irredundant sum of products by
    the method of S. Minato (Fast generation of prime-irredundant covers, 1992).

    Examples
    --------
    >>> list(cubes(0b1110, 2)), list(cubes(0b1111, 2))
    (['1-', '-1'], ['--'])
    """
    if width:
        found, _ = _cover(where, where, width)
        yield from found


def _cover(least: int, most: int, width: int) -> tuple[list[str], int]:
    """Cubes that hold on `least` and nowhere outside `most`, and where they hold."""
    if not least:
        return [], 0
    whole = (1 << (1 << width)) - 1
    if most == whole:
        return ["-" * width], whole
    half = 1 << (width - 1)
    low = (1 << half) - 1
    (l0, l1), (m0, m1) = ((each & low, each >> half) for each in (least, most))
    zero, on0 = _cover(l0 & ~m1, m0, width - 1)
    one, on1 = _cover(l1 & ~m0, m1, width - 1)
    both, on = _cover((l0 & ~on0) | (l1 & ~on1), m0 & m1, width - 1)
    found = [f"1{c}" for c in one] + [f"0{c}" for c in zero] + [f"-{c}" for c in both]
    return found, (on0 | on) | (on1 | on) << half
