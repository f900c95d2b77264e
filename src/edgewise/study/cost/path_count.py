"""How many paths a netlist has that are longer than something."""

from __future__ import annotations

from collections import Counter
from typing import Final

from edgewise.engines.sat.moments import Course

_NOWHERE: Final = -(1 << 60)


def longer(course: Course, most: int) -> int:
    """Paths that are longer than `most`, counted without going along each.

    Where two inputs of a gate are one net there is one path through it.

    Examples
    --------
    Of the paths through two exclusive ors in a row two take 4:

    >>> from edgewise import blueprint
    >>> text = '''
    ... circuit: parity
    ... inputs: {x: 3}
    ... parts:
    ...   P: {part: xor, in: [x(0), x(1)]}
    ...   Q: {part: xor, in: [P.out, x(2)]}
    ... outputs: {z: Q.out}
    ... operands: {x: 3}
    ... '''
    >>> netlist = blueprint.from_text(text, "parity.yaml").design().netlist
    >>> begins = dict.fromkeys(netlist.inputs["x"], 0)
    >>> course = Course(netlist, (2, 2), begins, {}, ((netlist.outputs["z"][0], 0),))
    >>> longer(course, 3), longer(course, 1), longer(course, 4)
    (2, 3, 0)
    """
    rest = _rest(course)
    ways: list[Counter[int]] = [Counter() for _ in range(course.netlist.size)]
    for net, begin in course.begins.items():
        if begin + rest[net] > most:
            ways[net][begin] = 1
    for gate, delay in zip(course.netlist.gates, course.delays, strict=True):
        enough = most - delay - rest[gate.output]
        into = ways[gate.output]
        for net in dict.fromkeys(gate.inputs):
            for length, count in ways[net].items():
                if length > enough:
                    into[length + delay] += count
    return sum(
        count
        for net, more in dict.fromkeys(course.ends)
        for length, count in ways[net].items()
        if length + more > most
    )


def _rest(course: Course) -> list[int]:
    """How long it takes at most from each net to an end."""
    rest = [_NOWHERE] * course.netlist.size
    for net, more in course.ends:
        rest[net] = max(rest[net], more)
    gates = zip(reversed(course.netlist.gates), reversed(course.delays), strict=True)
    for gate, delay in gates:
        for net in gate.inputs:
            rest[net] = max(rest[net], rest[gate.output] + delay)
    return rest
