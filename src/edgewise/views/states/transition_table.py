"""Transition table: a state graph in lines of text, for those who can't see its diagram."""

from __future__ import annotations

from edgewise.state_graph import StateGraph
from edgewise.views.states.state_diagram import chosen
from edgewise.words.messages import ENGLISH, Words


def lines(graph: StateGraph, words: Words = ENGLISH) -> tuple[tuple[str, ...], ...]:
    """The heading, then each transition that the diagram shows, those of reached states first.

    Examples
    --------
    >>> from edgewise.state_graph import Transition
    >>> ways = (Transition(0, 1, ("1",)), Transition(0, 0, ("0",)), Transition(1, 0, ("-",)))
    >>> for line in lines(StateGraph((("C", (0,)),), ("up",), ways, frozenset({0}))):
    ...     print(line)
    ('state (C)', 'up', 'next state')
    ('0', '1', '1')
    ('0', '0', '0')
    ('1', '–', '0')
    """
    name = ", ".join(word for word, _ in graph.words)
    heading = [words("states-column", words=name)]
    heading += [", ".join(graph.outputs)] if graph.outputs else []
    heading += [", ".join(graph.inputs)] if graph.inputs else []
    heading += [", ".join(graph.mealy)] if graph.mealy else []
    made = [(*heading, words("states-column-next"))]
    shown = chosen(graph)
    for each in sorted(graph.transitions, key=lambda t: (t.source not in graph.reached, t.source)):
        if each.source in shown:
            line = [graph.spelled(each.source)]
            line += [graph.shown[each.source]] if graph.outputs else []
            line += [", ".join(each.when).replace("-", "–")] if graph.inputs else []
            line += [each.output] if graph.mealy else []
            made.append((*line, graph.spelled(each.target)))
    return tuple(made)
