"""Two runs as one: the design's and the submission's, row by row, to be drawn together."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, CONSTANTS, FlipFlop, Gate, Netlist
from edgewise.lab.judging.refutation import Refutation
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words

_FIXED: Final = max(*CONSTANTS, CLOCK_NET) + 1
"""Nets that every netlist has."""


def beside(refuted: Refutation, words: Words = ENGLISH) -> tuple[Trace, tuple[str, ...]]:
    """Both runs as one, and the names to draw: inputs, each output twice, where they differ.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> one, other = (run(catalogue.design("serial-adder", n=2), a=1, b=b) for b in (1, 3))
    >>> both, names = beside(Refutation({"a": 1, "b": 1}, "sum", 4, (one, other)))
    >>> names[3:]
    ('sum: design', 'sum: submitted', 'carry: design', 'carry: submitted', 'differs')
    """
    should, found = refuted.runs
    one, other = (run.design.netlist for run in refuted.runs)
    size = one.size + other.size - _FIXED
    names = {name: nets for name, nets in one.names.items() if name in one.inputs}
    for name in refuted.names:
        names[words("judged-lane-design", name=name)] = one.outputs[name]
        names[words("judged-lane-submitted", name=name)] = tuple(
            _moved(net, one.size) for net in other.outputs[name]
        )
    names[words("judged-lane-differs")] = (size,)
    netlist = Netlist(
        size + 1,
        one.inputs,
        {},
        (*one.gates, *(_gate(gate, one.size) for gate in other.gates)),
        (*one.flip_flops, *(_flip_flop(each, one.size) for each in other.flip_flops)),
        names,
    )
    rows = tuple(
        bytes([*a, *b[_FIXED:], row in refuted.differing])
        for row, (a, b) in enumerate(zip(should.rows, found.rows, strict=True))
    )
    return Trace(replace(should.design, altered=netlist), should.operands, rows), tuple(names)


def _moved(net: int, by: int) -> int:
    return net if net < _FIXED else net + by - _FIXED


def _gate(gate: Gate, by: int) -> Gate:
    inputs = tuple(_moved(net, by) for net in gate.inputs)
    return replace(gate, inputs=inputs, output=_moved(gate.output, by), cover=None)


def _flip_flop(one: FlipFlop, by: int) -> FlipFlop:
    def maybe(net: int | None) -> int | None:
        return None if net is None else _moved(net, by)

    return replace(
        one,
        d=_moved(one.d, by),
        q=_moved(one.q, by),
        enable=maybe(one.enable),
        clear=maybe(one.clear),
        gate=maybe(one.gate),
        cover=None,
    )
