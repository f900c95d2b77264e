"""Which operand bit counts where: lanes, loops and unrolled copies of a kernel.

A kernel goes through a space of operand sets. The bits of a set's number are dealt out to

- **lanes**: bits that differ within one vector; their patterns are constants;
- **copies**: bits whose values are written into copies of the terms, which then fold;
- **loops**, the innermost first: a term is computed in the outermost loop that it depends
  on, so that what does not change is not computed again.

The set a vector lane stands for is no matter to a count, so there the bits that the fewest
terms depend on go to the copies and the inner loops: with an adder the last places, which
no other place reads. A search for the first set keeps the order of the numbers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.variables import Variable

_COPIED: Final = 4
"""Bits that are written into copies, at most."""
_NESTED: Final = 12
"""Bits that loops inside the outermost one count through, at most."""
_STEP: Final = 1 << 26
"""Operations in one step of the outermost loop, at most: about 20 ms of compiled code."""
_SETS: Final = 21
"""Operand sets in a step, at most, as a power of two; without the copies."""
_LOOP: Final = 2
"""Bits that each of these loops counts through."""


@dataclass(frozen=True, slots=True)
class Plan:
    """Terms to compute, and how their variables are counted through.

    Parameters
    ----------
    terms : Terms
        Only what `roots` reach.
    roots : tuple of (term, times) for each predicate
        The copies of a predicate, each with the number of sets that a lane of it stands for.
    lanes : tuple of Variable
        The variable at each bit of a lane's number.
    loops : tuple of tuple of Variable
        Bits of each loop's counter, LSB first; the outermost loop first. That one goes over
        a part of its range at a call.
    """

    terms: Terms
    roots: tuple[tuple[tuple[Term, int], ...], ...]
    lanes: tuple[Variable, ...]
    loops: tuple[tuple[Variable, ...], ...]

    @property
    def steps(self) -> int:
        """How far the outermost loop counts."""
        return 1 << len(self.loops[0])

    @property
    def work(self) -> int:
        """Operations on a whole vector that going through all sets takes.

        A term counts as often as the outermost loop that it depends on goes round.
        """
        level = {v: i for i, loop in enumerate(self.loops) for v in loop}
        rounds = [1]
        for loop in self.loops:
            rounds.append(rounds[-1] << len(loop))
        depth: list[int] = []
        total = 0
        for node in self.terms.nodes:
            if node.variable is not None:
                depth.append(level.get(node.variable, -1) + 1)
            elif node.operator == "false":
                depth.append(0)
            else:
                depth.append(max(depth[node.left >> 1], depth[node.right >> 1]))
                total += rounds[depth[-1]]
        return total

    @property
    def inner_bits(self) -> int:
        """Bits counted by the loops inside the outermost one."""
        return sum(map(len, self.loops[1:]))


def plan_in_order(
    terms: Terms, roots: Sequence[Term], space: Space, lane_bits: int, most: int = _SETS
) -> Plan:
    """Counts through the sets by their number, at most 2**most of them in a step."""
    own, roots = _restricted(terms, roots, {})
    lanes, rest = space.variables[:lane_bits], space.variables[lane_bits:]
    loops = _loops(rest, most - lane_bits, len(own.nodes))
    return Plan(own, tuple(((root, 1),) for root in roots), lanes, loops)


def plan_freely(terms: Terms, roots: Sequence[Term], space: Space, lane_bits: int) -> Plan:
    """Counts through the sets in whatever order costs least."""
    readers = _readers(terms, roots)
    order = sorted((v for v in space.variables if readers[v]), key=lambda v: readers[v])
    alike = 1 << (space.bits - len(order))  # sets that differ in bits that no term reads
    copied = min(_COPIED, max(0, len(order) - lane_bits))
    limit = 100 + 3 * len(terms.reached(roots)) // 2
    own, copies = _copies(terms, roots, order[:copied], limit)
    while len(own.nodes) > limit and copied:
        copied -= 1
        own, copies = _copies(terms, roots, order[:copied], limit)
    together = tuple(
        tuple((root, times * alike) for root, times in Counter(each).items())
        for each in zip(*copies, strict=True)
    )
    order = order[copied:]
    split = max(0, len(order) - lane_bits)
    loops = _loops(tuple(order[:split]), _SETS - lane_bits, len(own.nodes))
    return Plan(own, together, tuple(order[split:]), loops)


def _copies(
    terms: Terms, roots: Sequence[Term], variables: Sequence[Variable], limit: int
) -> tuple[Terms, list[tuple[Term, ...]]]:
    """The roots for every value of some variables; given up beyond `limit` nodes."""
    own, copies = Terms(), []
    for values in range(1 << len(variables)):
        bits = zip(variables, _bits(values, len(variables)), strict=True)
        copies.append(_restricted(terms, roots, dict(bits), own)[1])
        if len(own.nodes) > limit:
            break
    return own, copies


def _bits(value: int, width: int) -> list[int]:
    return [value >> i & 1 for i in range(width)]


def _loops(
    order: tuple[Variable, ...], nested: int, operations: int
) -> tuple[tuple[Variable, ...], ...]:
    """Variables from the fastest on as loops, outermost first."""
    nested = min(_NESTED, nested, (_STEP // operations).bit_length() - 1, len(order))
    nested = max(0, nested) // _LOOP * _LOOP
    inner = [order[i : i + _LOOP] for i in range(0, nested, _LOOP)]
    return (order[nested:], *reversed(inner))


def _readers(terms: Terms, roots: Sequence[Term]) -> Counter[Variable]:
    """How many terms depend on each variable."""
    names = list(terms.variables())
    # A variable with one value only is no node of its own.
    places = {term >> 1: i for i, (_, term) in enumerate(names) if term > TRUE}
    support: dict[int, int] = {}
    totals = [0] * len(names)
    for number in terms.reached(roots):
        node = terms.nodes[number]
        if number in places:
            support[number] = 1 << places[number]
        elif node.operator == "false":
            support[number] = 0
        else:
            support[number] = support[node.left >> 1] | support[node.right >> 1]
    for mask, times in Counter(support.values()).items():
        for place in range(mask.bit_length()):
            totals[place] += times * (mask >> place & 1)
    return Counter({variable: total for (variable, _), total in zip(names, totals, strict=True)})


def _restricted(
    terms: Terms, roots: Sequence[Term], values: Mapping[Variable, int], into: Terms | None = None
) -> tuple[Terms, tuple[Term, ...]]:
    """The roots made again, in `into`, with some variables constant."""
    own = Terms() if into is None else into
    made: dict[int, Term] = {}
    for number in terms.reached(roots):
        node = terms.nodes[number]
        if node.variable is not None:
            value = values.get(node.variable)
            made[number] = own.variable(node.variable) if value is None else (FALSE, TRUE)[value]
        elif node.operator == "false":
            made[number] = FALSE
        else:
            left = made[node.left >> 1] ^ node.left & 1
            right = made[node.right >> 1] ^ node.right & 1
            made[number] = (own.both if node.operator == "and" else own.differ)(left, right)
    return own, tuple(made[root >> 1] ^ root & 1 for root in roots)
