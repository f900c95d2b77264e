"""Survey: reached and unused states, loops, and when the start comes again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from edgewise.columns import aligned, ruled
from edgewise.design import Design
from edgewise.engines import state_space
from edgewise.state_graph import StateGraph
from edgewise.words.lists import equations, listed
from edgewise.words.messages import ENGLISH, Words

MOST_SPELLED: Final = 16
"""States of a loop that are listed, at most; of a longer one its first and last are."""
_BEGUN: Final = 6


@dataclass(frozen=True)
class Survey:
    r"""What there is to say of the states of a circuit.

    Parameters
    ----------
    design : Design
    graph : StateGraph

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = survey(catalogue.design("johnson-counter", n=3))
    >>> found.period, found.unused_loops
    (6, ((2, 5),))
    >>> print(*found.sentences(), sep="\n")
    6 of 8 states are reached from the start.
    After every 6 edges the circuit is at its start again: 000, 100, 110, 111, 011, 001.
    2 states are not reached; no way leads back to those that are used.
    They go round in a loop of 2: 010, 101.
    """

    design: Design
    graph: StateGraph

    @cached_property
    def free(self) -> bool:
        """Whether no input matters, so that each state has one that follows."""
        return all(len(targets) == 1 for targets in self.graph.after.values())

    @cached_property
    def course(self) -> tuple[tuple[int, ...], tuple[int, ...]] | None:
        """What is passed from the start before a loop, and the loop; if that is always the same."""
        if not self.free or len(self.graph.starts) != 1:
            return None
        (start,) = self.graph.starts
        return self.graph.course(start)

    @property
    def period(self) -> int | None:
        """The least number of edges after which it is at its start again, whatever the inputs.

        None if it never is, or if that depends on inputs.
        """
        return len(self.course[1]) if self.course and not self.course[0] else None

    @cached_property
    def unused_loops(self) -> tuple[tuple[int, ...], ...]:
        """The loops of unused states, each in its order from its smallest state on."""
        if not self.free:
            return ()
        loops = (loop for loop in self.graph.loops if loop[0] not in self.graph.reached)
        return tuple(self.graph.course(loop[0])[1] for loop in loops)

    def sentences(self, words: Words = ENGLISH) -> Iterator[str]:
        """What is found, in words."""
        graph = self.graph
        reached, count = len(graph.reached), len(graph.states)
        yield words("states-about-count", reached=reached, all=count)
        if self.course is not None:
            yield from self._round(self.course, words)
        unused = len(graph.unreached)
        if not unused:
            return
        stranded = len(graph.stranded)
        which = "none" if stranded == unused else "some" if stranded else "all"
        back = unused - stranded
        yield words("states-about-unused", count=unused, which=which, back=back)
        for loop in self.unused_loops:
            kind, told = "they" if len(loop) == unused else "others", self.spelled(loop, words)
            yield words("states-unused-loop", which=kind, count=len(loop), states=told)

    def _round(
        self, course: tuple[tuple[int, ...], tuple[int, ...]], words: Words
    ) -> Iterator[str]:
        passed, loop = course
        told = self.spelled(loop, words)
        if not passed:
            yield words("states-period", count=len(loop), states=told)
            return
        yield words("states-passed", count=len(passed), states=self.spelled(passed, words))
        yield words("states-loop", count=len(loop), states=told)

    def spelled(self, states: Sequence[int], words: Words = ENGLISH) -> str:
        """States in digits; of many the first ones and the last."""
        told = [self.graph.spelled(state) for state in states]
        if len(told) > MOST_SPELLED:
            told = [*told[:_BEGUN], "…", told[-1]]
        return ", ".join(told) if len(told) > 1 else listed(told, words)

    def table(self, words: Words = ENGLISH) -> str:
        """Each state with what follows it, in columns."""
        graph = self.graph
        names = listed([name for name, _ in graph.words], words)
        inputs, outputs = bool(graph.inputs), (*graph.outputs, *graph.mealy)
        heads = [words("states-column", words=names)]
        heads += [" ".join(graph.inputs)] if inputs else []
        heads += [words("states-column-next"), *([" ".join(outputs)] if outputs else [])]
        heads.append(words("states-column-use"))
        lines = [tuple(heads)]
        for way in sorted(graph.transitions, key=lambda one: (one.source, one.target)):
            cells = [graph.spelled(way.source)]
            cells += [" | ".join(way.when)] if inputs else []
            cells.append(graph.spelled(way.target))
            shown = (graph.shown.get(way.source, ""), way.output)
            cells += [" ".join(filter(None, shown))] if outputs else []
            start = way.source in graph.starts
            use = "start" if start else "used" if way.source in graph.reached else "unused"
            lines.append((*cells, words("states-use", which=use)))
        laid = [*aligned(lines, left=range(len(heads)))]
        return "\n".join((laid[0], ruled(lines), *laid[1:]))

    def data(self) -> Mapping[str, Any]:
        """All of it as plain dictionaries and lists; a state is its digits."""
        graph, spelled = self.graph, self.graph.spelled
        return {
            "design": self.design.name,
            "parameters": dict(self.design.parameters),
            "words": [{"name": name, "width": len(places)} for name, places in graph.words],
            "starts": sorted(map(spelled, graph.starts)),
            "reached": sorted(map(spelled, graph.reached)),
            "unused": sorted(map(spelled, graph.unreached)),
            "stranded": sorted(map(spelled, graph.stranded)),
            "period": self.period,
            "unused_loops": [[*map(spelled, loop)] for loop in self.unused_loops],
            "inputs": list(graph.inputs),
            "transitions": [
                {
                    "state": spelled(way.source),
                    "when": list(way.when),
                    "next": spelled(way.target),
                    "output": way.output,
                }
                for way in graph.transitions
            ],
        }

    def __str__(self) -> str:
        given = equations(self.design.parameters.items(), "=")
        return f"{self.design.name}{f', {given}' if given else ''}"


def survey(design: Design) -> Survey:
    """Every state of a circuit with up to 12 flip-flops, and what leads from one to another.

    Raises
    ------
    EdgewiseError
        No flip-flop at all, or too many of them or of inputs.
    """
    return Survey(design, state_space.graph(design))
