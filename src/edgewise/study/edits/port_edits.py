"""Changing a netlist at its ports: inverted, the other way round, exchanged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from edgewise.circuit.netlist import Gate, Netlist


def inverted_output(netlist: Netlist, name: str) -> Netlist:
    """The netlist with each bit of an output inverted.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder", n=2).netlist
    >>> inverted_output(netlist, "sum").gates[-1].operator
    'not'
    """
    first, bits = netlist.size, netlist.outputs[name]
    nots = tuple(Gate("not", (net,), first + i, f"{name} inverted") for i, net in enumerate(bits))
    changed = replace(netlist, size=first + len(bits), gates=(*netlist.gates, *nots))
    return with_outputs(changed, {name: tuple(range(first, first + len(bits)))})


def inverted_input(netlist: Netlist, name: str) -> Netlist:
    """The netlist with each bit of an input inverted before anything reads it."""
    first, bits = netlist.size, netlist.inputs[name]
    nots = tuple(Gate("not", (first + i,), net, f"{name} inverted") for i, net in enumerate(bits))
    changed = replace(netlist, size=first + len(bits), gates=(*nots, *netlist.gates))
    return with_inputs(changed, {name: tuple(range(first, first + len(bits)))})


def reversed_output(netlist: Netlist, name: str) -> Netlist:
    """The netlist with the bits of an output the other way round.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder", n=2).netlist
    >>> reversed_output(netlist, "sum").outputs["sum"] == netlist.outputs["sum"][::-1]
    True
    """
    return with_outputs(netlist, {name: netlist.outputs[name][::-1]})


def with_outputs(netlist: Netlist, outputs: Mapping[str, tuple[int, ...]]) -> Netlist:
    """The netlist with other nets at some outputs."""
    given = {**netlist.outputs, **outputs}
    return replace(netlist, outputs=given, names={**netlist.names, **outputs})


def with_inputs(netlist: Netlist, inputs: Mapping[str, tuple[int, ...]]) -> Netlist:
    """The netlist with other nets at some inputs."""
    given = {**netlist.inputs, **inputs}
    return replace(netlist, inputs=given, names={**netlist.names, **inputs})
