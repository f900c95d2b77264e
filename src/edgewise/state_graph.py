"""State graph: the states of a circuit and what leads from one to another, as facts.

A state is a number: bit i is what the i-th flip-flop of the netlist holds. What computes a graph
stands in `edgewise.engines.state_space`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Transition:
    """One way from a state to the next.

    Parameters
    ----------
    source, target : int
    when : tuple of str
        The inputs that lead there, each a digit an input bit, ``-`` where it may be either: any
        one of these. Empty where no input matters.
    output : str
        What the outputs are meanwhile that depend on inputs, too (Mealy); empty without such.
    """

    source: int
    target: int
    when: tuple[str, ...] = ()
    output: str = ""


@dataclass(frozen=True)
class StateGraph:
    """All states of a circuit, and the transitions between them.

    Parameters
    ----------
    words : tuple of (str, tuple of int)
        What holds a state: the name of each word and its flip-flops, LSB first.
    inputs : tuple of str
        The input bits that a next state or an output depends on, as in `Transition.when`.
    transitions : tuple of Transition
        By source, then target.
    starts : frozenset of int
        The initial state; several where a flip-flop starts unknown.
    outputs : tuple of str
        Names of outputs that depend on the state alone (Moore) and are more than its bits.
    mealy : tuple of str
        Names of those that depend on inputs, too.
    shown : mapping of int to str
        The bits of `outputs` in each state.

    Examples
    --------
    >>> ring = [Transition(0b01, 0b10), Transition(0b10, 0b01), Transition(0, 0), Transition(3, 3)]
    >>> graph = StateGraph((("R", (0, 1)),), (), tuple(ring), frozenset({0b10}))
    >>> sorted(graph.reached), sorted(graph.unreached), graph.spelled(2)
    ([1, 2], [0, 3], '10')
    >>> graph.loops, sorted(graph.stranded)
    (((1, 2), (0,), (3,)), [0, 3])
    """

    words: tuple[tuple[str, tuple[int, ...]], ...]
    inputs: tuple[str, ...]
    transitions: tuple[Transition, ...]
    starts: frozenset[int]
    outputs: tuple[str, ...] = ()
    mealy: tuple[str, ...] = ()
    shown: Mapping[int, str] = field(default_factory=dict)

    @property
    def bits(self) -> int:
        """Flip-flops."""
        return sum(len(places) for _, places in self.words)

    @property
    def states(self) -> range:
        """Every state there can be."""
        return range(1 << self.bits)

    def spelled(self, state: int) -> str:
        """A state in digits, MSB left, its words in their order."""
        return " ".join(
            "".join(str(state >> place & 1) for place in reversed(places))
            for _, places in self.words
        )

    @cached_property
    def after(self) -> Mapping[int, tuple[int, ...]]:
        """The states that may follow each."""
        found: dict[int, dict[int, None]] = {state: {} for state in self.states}
        for each in self.transitions:
            found[each.source][each.target] = None
        return {state: tuple(targets) for state, targets in found.items()}

    @cached_property
    def reached(self) -> frozenset[int]:
        """The states that some inputs lead to from the start."""
        return _closure(self.starts, self.after)

    @property
    def unreached(self) -> frozenset[int]:
        """The unused states."""
        return frozenset(self.states) - self.reached

    @cached_property
    def stranded(self) -> frozenset[int]:
        """The unused states from which nothing leads back to a used one."""
        before: dict[int, list[int]] = {state: [] for state in self.states}
        for each in self.transitions:
            before[each.target].append(each.source)
        return frozenset(self.states) - _closure(self.reached, before)

    def course(self, state: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The states passed from one on before a loop, and the loop; where inputs don't matter.

        Examples
        --------
        >>> ways = (Transition(0, 1), Transition(1, 2), Transition(2, 1), Transition(3, 3))
        >>> StateGraph((("R", (0, 1)),), (), ways, frozenset({0})).course(0)
        ((0,), (1, 2))
        """
        seen: dict[int, int] = {}
        while state not in seen:
            seen[state] = len(seen)
            (state,) = self.after[state]
        passed = tuple(seen)
        return passed[: seen[state]], passed[seen[state] :]

    @cached_property
    def loops(self) -> tuple[tuple[int, ...], ...]:
        """The sets of states that a circuit can go round in, the reached and larger ones first."""
        found = [
            tuple(sorted(group))
            for group in _components(self.after)
            if len(group) > 1 or group[0] in self.after[group[0]]
        ]
        return tuple(sorted(found, key=lambda g: (g[0] not in self.reached, -len(g), g)))


def _closure(start: frozenset[int], after: Mapping[int, Sequence[int]]) -> frozenset[int]:
    seen, waiting = set(start), list(start)
    while waiting:
        new = set(after[waiting.pop()]) - seen
        seen |= new
        waiting += new
    return frozenset(seen)


def _components(after: Mapping[int, Sequence[int]]) -> Iterator[list[int]]:
    """Strongly connected components, as found by Tarjan (SIAM Journal on Computing 1, 1972)."""
    number: dict[int, int] = {}
    low: dict[int, int] = {}
    path: list[int] = []
    on_path: set[int] = set()
    for root in after:
        if root in number:
            continue
        calls = [(root, iter(after[root]))]
        number[root] = low[root] = len(number)
        path.append(root)
        on_path.add(root)
        while calls:
            state, following = calls[-1]
            for target in following:
                if target not in number:
                    number[target] = low[target] = len(number)
                    path.append(target)
                    on_path.add(target)
                    calls.append((target, iter(after[target])))
                    break
                if target in on_path:
                    low[state] = min(low[state], number[target])
            else:
                calls.pop()
                if calls:
                    low[calls[-1][0]] = min(low[calls[-1][0]], low[state])
                if low[state] == number[state]:
                    at = path.index(state)
                    group = path[at:]
                    del path[at:]
                    on_path -= set(group)
                    yield group
