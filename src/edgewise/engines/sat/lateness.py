"""Whether a netlist is ever as late as its critical path, settled by a SAT solver.

A critical path may be a *false* one: whatever the inputs, every net has settled before a change
could come along it. Looked at is the moment one tick before the end of the critical path. A net
that lies on a path of that length counts as unknown (X) then, unless what has settled by that
moment decides it. If no inputs leave an end unknown, each critical path is false. This is the
floating mode of P. McGeer and R. Brayton, *Integrating Functional and Temporal Domains in Logic
Design*, 1991 (from memory): what was there before is unknown, and every delay may be shorter.

Stored bits are taken as free, so that of a clocked circuit only "false" is certain.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import FALSE, Terms
from edgewise.engines.symbolic.unrolling import ONE, UNKNOWN, ZERO, Logic, Rail
from edgewise.engines.symbolic.variables import Variable

SECONDS: Final = 2.0
"""How long one netlist may take."""


def reached(
    netlist: Netlist, at: Sequence[int], delays: Sequence[int], ends: Iterable[int]
) -> bool | None:
    """Whether some inputs and stored bits make one of the `ends` settle as late as its `at`.

    Parameters
    ----------
    netlist : Netlist
    at : sequence of int
        When each net has settled at the latest, by the longest way to it.
    delays : sequence of int
        Of each gate, in the netlist's order.
    ends : iterable of int
        Nets.

    Returns
    -------
    bool or None
        False: none do. None: not known in `SECONDS`.

    Examples
    --------
    The first multiplexer takes the long way for s = 0, the second for s = 1:

    >>> from edgewise import blueprint
    >>> text = '''
    ... circuit: never both
    ... inputs: {s: 1, x: 1, y: 1}
    ... parts:
    ...   F: {part: and, in: [x, y]}
    ...   M: {part: multiplexer, select: s, d0: F.out, d1: x}
    ...   N: {part: multiplexer, select: s, d0: y, d1: M.out}
    ... outputs: {z: N.out}
    ... operands: {s: 1, x: 1, y: 1}
    ... '''
    >>> netlist = blueprint.from_text(text, "never.yaml").design().netlist
    >>> at, out = [0] * netlist.size, netlist.outputs["z"][0]
    >>> for gate in netlist.gates:
    ...     at[gate.output] = 1 + max(at[net] for net in gate.inputs)
    >>> at[out], reached(netlist, at, [1, 1, 1], [out])
    (3, False)
    """
    ends = [net for net in ends if net > CLOCK_NET]
    terms = Terms()
    late = _late(netlist, at, delays, ends, Logic(terms))
    unknown = terms.any_of(late[net].unknown for net in ends)
    if unknown == FALSE:
        return False
    with Session(terms, time.monotonic() + SECONDS) as session:
        return session.ask(unknown)


def _late(
    netlist: Netlist, at: Sequence[int], delays: Sequence[int], ends: list[int], logic: Logic
) -> dict[int, Rail]:
    """The nets on the critical paths to the ends, each one tick before its own time."""
    settled = [ZERO] * netlist.size
    settled[:3] = [ZERO, ONE, ZERO]
    settled[CLOCK_NET] = ONE
    begins = [net for bits in netlist.inputs.values() for net in bits]
    begins += [flip_flop.q for flip_flop in netlist.flip_flops]
    for net in begins:
        settled[net] = Rail(logic.terms.variable(Variable("", net)))
    late = dict.fromkeys(begins, UNKNOWN)
    on_path, machine = _on_path(netlist, at, delays, ends), Machine(logic)
    for gate, delay in zip(netlist.gates, delays, strict=True):
        settled[gate.output] = machine.gate(gate.operator, [settled[net] for net in gate.inputs])
        if gate.output in on_path:
            before = at[gate.output] - delay
            late[gate.output] = machine.gate(
                gate.operator,
                [
                    late[net] if at[net] == before and net in late else settled[net]
                    for net in gate.inputs
                ],
            )
    return {net: late.get(net, settled[net]) for net in ends}


def _on_path(
    netlist: Netlist, at: Sequence[int], delays: Sequence[int], ends: Iterable[int]
) -> set[int]:
    """The nets from which a critical path leads to one of the ends."""
    found = set(ends)
    for gate, delay in zip(reversed(netlist.gates), reversed(delays), strict=True):
        if gate.output in found:
            found.update(net for net in gate.inputs if at[net] == at[gate.output] - delay)
    return found
