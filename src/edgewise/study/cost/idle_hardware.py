"""Idle hardware: what a design's own procedure never uses.

A flip-flop with an enable takes a multiplexer that holds its bit. Where the procedure keeps that
enable at 1 at every edge, the multiplexer does nothing: it is there so that a learner may stop the
circuit. A rival without an enable would look cheaper for nothing, so a comparison prices designs
without it, and says so. The same goes for a clear that is 0 at every edge, and for an AND gate that
lets every edge through to a clock.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Netlist
from edgewise.design import Design, Feed, Phase

_SERIAL: Final = ("lsb-first", "msb-first")


def held(design: Design) -> dict[str, int]:
    """The inputs of one bit that are the same number at every edge.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> held(catalogue.design("serial-adder")), held(catalogue.design("digit-serial-adder"))
    ({'shift': 1}, {})
    """
    phases = [phase for phase in design.procedure if phase.edges]
    found: dict[str, int] = {}
    for name, nets in design.netlist.inputs.items():
        fed = {_constant(phase, name) for phase in phases}
        if len(nets) == 1 and len(fed) == 1 and None not in fed:
            found[name] = next(bit for bit in fed if bit is not None)
    return found


def _constant(phase: Phase, name: str) -> int | None:
    """The bit that an input of one bit is in all of a phase, if it is one number."""
    feed: Feed | None = next((one for one in phase.feeds if one.input == name), None)
    if feed is None or not isinstance(feed.what, int):
        return None
    ones = (1 << phase.edges) - 1 if feed.order in _SERIAL else 1
    return {0: 0, ones: 1}.get(feed.what & ones)


def lean(design: Design) -> tuple[Design, tuple[str, ...]]:
    """A design without its idle hardware, and the inputs that made it idle.

    Returns
    -------
    Design, tuple of str
        The design itself and nothing, where nothing is idle.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design, inputs = lean(catalogue.design("serial-adder", n=4))
    >>> inputs, {flip_flop.enable for flip_flop in design.netlist.flip_flops}
    (('shift',), {None})
    """
    netlist = design.netlist
    if not netlist.flip_flops:
        return design, ()
    bits = {netlist.inputs[name][0]: bit for name, bit in held(design).items()}
    ones = {net for net, bit in bits.items() if bit} | {1}
    zeros = {net for net, bit in bits.items() if not bit} | {0}
    open_gates = {
        gate.output
        for gate in netlist.gates
        if CLOCK_NET in gate.inputs and set(gate.inputs) <= ones | {CLOCK_NET}
    }
    used = set(_controls(netlist)) & (ones | zeros | open_gates)
    changed = tuple(_without(one, ones, zeros, open_gates) for one in netlist.flip_flops)
    if changed == netlist.flip_flops:
        return design, ()
    used |= {n for gate in netlist.gates if gate.output in open_gates for n in gate.inputs}
    gates = tuple(gate for gate in netlist.gates if gate.output not in open_gates)
    names = tuple(name for name in netlist.inputs if netlist.inputs[name][0] in used & bits.keys())
    return replace(design, altered=replace(netlist, flip_flops=changed, gates=gates)), names


def _controls(netlist: Netlist) -> Iterator[int]:
    for flip_flop in netlist.flip_flops:
        yield from (net for net in (flip_flop.enable, flip_flop.clear) if net is not None)


def _without(one: FlipFlop, ones: set[int], zeros: set[int], open_gates: set[int]) -> FlipFlop:
    return replace(
        one,
        enable=None if one.enable in ones else one.enable,
        clear=None if one.clear in zeros else one.clear,
        gate=None if one.gate in open_gates else one.gate,
    )
