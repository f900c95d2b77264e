"""Judging a counterexample on the reference engine, and designs made for that.

A solver's word is never enough: its operands are run on the reference engine, and the claim
is read off that trace.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from edgewise.circuit.model import Circuit
from edgewise.design import Design, Feed, Operand, Phase
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import Row, constant
from edgewise.engines.symbolic.variables import Variable
from edgewise.trace import Trace


def truths(terms: Terms, asked: Sequence[Term], bits: Mapping[Variable, int]) -> tuple[bool, ...]:
    """What each of `asked` is for these variables; those not given are 0.

    Examples
    --------
    >>> terms = Terms()
    >>> x = terms.variable(Variable("x", 0))
    >>> truths(terms, [x, x ^ 1], {Variable("x", 0): 1})
    (True, False)
    """
    values = {0: 0}
    for number in terms.reached(asked):
        node = terms.nodes[number]
        if node.variable is not None:
            values[number] = bits.get(node.variable, 0)
        elif node.operator != "false":
            left = values[node.left >> 1] ^ node.left & 1
            right = values[node.right >> 1] ^ node.right & 1
            values[number] = left & right if node.operator == "and" else left ^ right
    return tuple(bool(values[term >> 1] ^ term & 1) for term in asked)


def bits_of(operands: Mapping[str, int], of: Iterable[Operand]) -> dict[Variable, int]:
    """The variables that stand for these operands, each with its bit."""
    return {
        Variable(o.name, i): o.pattern(operands[o.name]) >> i & 1
        for o in of
        for i in range(o.width)
    }


def operands_of(bits: Mapping[Variable, int], of: Iterable[Operand]) -> dict[str, int]:
    """The operands that these bits stand for, the others 0; the reverse of `bits_of`.

    Examples
    --------
    >>> from edgewise.codes import Code
    >>> depth = Operand("depth", 4, code=Code("twos-complement"))
    >>> operands_of(bits_of({"depth": -3}, [depth]), [depth])
    {'depth': -3}
    """
    return {
        o.name: o.number(sum(bits.get(Variable(o.name, i), 0) << i for i in range(o.width)))
        for o in of
    }


def rows_of(trace: Trace) -> tuple[Row, ...]:
    """The rows of a trace as an unrolled run without variables."""
    return tuple(tuple(constant(bit) for bit in row) for row in trace.rows)


def variant(design: Design, **changes: Any) -> Design:
    """The design with another procedure or purpose; its circuit is not flattened again."""
    return replace(design, flat=(design.circuit, design.netlist), **changes)


def prolonged(design: Design, edges: int) -> Design:
    """The design with its last phase going on until there are this many edges.

    What is fed bit by bit is at its end by then and is fed 0.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> prolonged(catalogue.design("serial-adder", n=4), 11).edges
    11
    """
    more = edges - design.edges
    if more <= 0:
        return design
    last = next((p for p in reversed(design.procedure) if p.edges), Phase("on", 0, ()))
    feeds = tuple(f if f.order == "held" else Feed(f.input, 0) for f in last.feeds)
    return variant(design, procedure=(*design.procedure, Phase(last.name, more, feeds)))


def left_free(circuit: Circuit, edges: int) -> Design:
    """A design in which every input of a circuit may be anything in every row 0 … `edges`.

    Each input is an operand if there are no edges; otherwise it is one in each row: the
    input ``x`` is fed the operand ``x(0)`` in row 0, ``x(1)`` in row 1, and so on. With
    edges there is one more row at the end, in which the inputs stay.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("one flip-flop")
    >>> b.output("q", b.part("Q", "flip-flop", {"d": b.input("d")})["q"])
    >>> [operand.name for operand in left_free(b.circuit(), 2).operands]
    ['d(0)', 'd(1)', 'd(2)']
    """
    if not edges:
        return Design(
            circuit.name, circuit, {}, tuple(Operand(net.name, net.width) for net in circuit.inputs)
        )
    rows = range(edges + 1)
    operands = tuple(Operand(f"{n.name}({row})", n.width) for n in circuit.inputs for row in rows)
    phases = tuple(
        Phase(f"row {row}", 1, tuple(Feed(n.name, f"{n.name}({row})") for n in circuit.inputs))
        for row in rows
    )
    return Design(circuit.name, circuit, {}, operands, phases)
