"""The reference engine: three-valued, one row at a time, plain Python to be read.

Every other engine is held to this one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final

from edgewise.bits import Bit, X
from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import FlipFlop, Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.design import Design, Source
from edgewise.engines.run_loop import Machine
from edgewise.trace import Trace

_MACHINE: Final = Machine(KLEENE)


def run(design: Design, operands: Mapping[str, int | Sequence[int]]) -> Trace:
    """Run the whole procedure of a design once.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int, or to a sequence of them for a family
        Checked against the design's operands.

    Returns
    -------
    Trace
        edges + 1 rows.

    Raises
    ------
    DesignError
        Operands that don't fit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> trace = run(catalogue.design("ripple-carry-adder", n=4), {"a": 9, "b": 6, "carry_in": 0})
    >>> str(trace.word("sum", 0))
    '1111'
    """
    values = design.values(operands)
    patterns = values.patterns
    feeds = (fed(sources, patterns) for sources in design.schedule)
    return Trace(design, values, tuple(map(bytes, _MACHINE.rows(design.netlist, feeds))))


def at_rest(design: Design) -> Trace:
    """The start of a design, no input known: row 0 alone, for figures of the circuit itself.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> trace = at_rest(catalogue.design("serial-adder", n=4))
    >>> trace.edges, str(trace.word("A", 0)), str(trace.word("a_in", 0))
    (0, '0000', 'X')
    """
    netlist = design.netlist
    unknown = {name: [X] * len(nets) for name, nets in netlist.inputs.items()}
    start = settle(netlist, [flip_flop.start for flip_flop in netlist.flip_flops], unknown)
    return Trace(design, {}, (start,))


def settle(netlist: Netlist, stored: Iterable[Bit], inputs: Mapping[str, Iterable[Bit]]) -> bytes:
    """Every net's bit, once the combinational nets have settled.

    Parameters
    ----------
    netlist : Netlist
    stored : iterable of bit
        What each flip-flop holds, in the order of ``netlist.flip_flops``.
    inputs : mapping of str to iterable of bit
        Bits of each input, LSB first.
    """
    return bytes(_MACHINE.settle(netlist, stored, inputs))


def edge(netlist: Netlist) -> Callable[[Sequence[Bit]], list[Bit]]:
    """From a row to what the flip-flops store at the edge that follows it."""
    return _MACHINE.edge(netlist)


def next_bit(flip_flop: FlipFlop, row: Sequence[Bit]) -> Bit:
    """What one flip-flop stores at the edge that follows `row`."""
    return _MACHINE.store(flip_flop)(row)


def fed(
    sources: Mapping[str, Sequence[Source]], patterns: Mapping[str, int]
) -> dict[str, list[Bit]]:
    """The bits that each input is fed in a row of a schedule, LSB first.

    Parameters
    ----------
    sources : mapping of str to sequence of Source
    patterns : mapping of str to int
        The bits of each operand; see `Design.patterns`.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> fed(catalogue.design("serial-adder", n=4).schedule[1], {"a": 0b10, "b": 0b101})
    {'shift': [1], 'a_in': [1], 'b_in': [0]}
    """
    return {name: [_bit(source, patterns) for source in of] for name, of in sources.items()}


def _bit(source: Source, patterns: Mapping[str, int]) -> Bit:
    if isinstance(source, Tie):
        return source.bit
    return patterns[source.operand] >> source.index & 1
