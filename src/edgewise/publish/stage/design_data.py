"""A design as data for the browser: netlist, schedule, purposes, claims.

Everything is a number, a text or a list of those, so that it can be written as JSON and read
by ``web/simulator.js``. Net numbers stay those of the `Netlist`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final, TypeAlias

from edgewise.circuit.cover import Cover
from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import FlipFlop, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import NEXT, STORES, UNFED, placed
from edgewise.codes import UNSIGNED
from edgewise.design import Design, Operand, Source
from edgewise.formula import (
    Binary,
    Claim,
    Dot,
    Name,
    Node,
    Number,
    Select,
    Slice,
    Step,
    Timed,
    Unary,
    Unknown,
    show,
)
from edgewise.publish.typesetting import formula
from edgewise.words.messages import ENGLISH, Words

Data: TypeAlias = dict[str, Any]
"""What becomes a JSON object."""

OF_FLAT: Final = ("size", "inputs", "truths", "gates", "rule", "flipFlops", "covers")
"""What computes rows; see `flat`."""
_NO_NET: Final = -1


def design(of: Design, said: Words = ENGLISH) -> Data:
    """A design, complete enough to be run for any operands; `said`: how formulas are told.

    Returns
    -------
    dict
        ``size``, ``truths``, ``gates``, ``rule``, ``flipFlops``, ``inputs``, ``outputs``,
        ``operands``, ``phases``, ``feeds`` and ``schedule`` (for each row the position of its
        feed: a source for each input bit), ``parameters``, ``purposes``, ``names``.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> made = design(catalogue.design("serial-adder", n=2))
    >>> made["operands"], made["phases"]
    ([['a', 2], ['b', 2]], [['load', 1, 2], ['add', 3, 4]])
    >>> made["inputs"], made["feeds"][0]
    ([['shift', [4]], ['a_in', [5]], ['b_in', [6]]], [1, 3, 5])
    """
    netlist = of.netlist
    feeds, feed_of_row = schedule(of)
    return {
        "name": of.name,
        "title": of.circuit.name,
        "parameters": dict(of.parameters),
        **flat(netlist),
        "outputs": [[name, list(bits)] for name, bits in netlist.outputs.items()],
        "operands": [_operand(operand) for operand in of.operands],
        "phases": [[phase.name, first, last] for phase, first, last in of.spans],
        "feeds": feeds,
        "schedule": feed_of_row,
        "purposes": [
            [
                p.output,
                tree(p.formula),
                of.edges if p.after is None else p.after,
                formula(p.formula, said),
            ]
            for p in of.computes
        ],
        "names": {name: list(netlist.names[name]) for name in netlist.top_names},
        **({"coded": _coded(of)} if of.coded else {}),
    }


def _operand(of: Operand) -> list[str | int]:
    """Name and width, and the code of those that are not unsigned."""
    code = [] if of.code == UNSIGNED else [of.code.name]
    return [of.name, of.width, *code]


def _coded(of: Design) -> list[tuple[list[int], str]]:
    """The nets of words that are not unsigned, each with its code."""
    return [(list(nets), code.name) for nets, code in of.coded.items()]


def flat(netlist: Netlist) -> Data:
    """What is needed to compute rows: nets, gates and what they compute, flip-flops, inputs."""
    operators = list(dict.fromkeys(gate.operator for gate in netlist.gates))
    place = {operator: i for i, operator in enumerate(operators)}
    return {
        "size": netlist.size,
        "inputs": [[name, list(bits)] for name, bits in netlist.inputs.items()],
        "truths": [function(operator).placed() for operator in operators],
        "gates": [[place[g.operator], g.output, *g.inputs] for g in netlist.gates],
        "rule": _RULE,
        "flipFlops": [_flip_flop(f) for f in netlist.flip_flops],
        "covers": [
            [number, [[list(one.every), list(one.some)] for one in cover.products]]
            for number, cover in _covers(netlist)
        ],
    }


_READS: Final = ("d", "q", "enable", "clear", "clock", "stored")
_RULE: Final = {
    "stores": placed(STORES, _READS),
    "next": placed(NEXT, _READS),
    "unfed": list(UNFED.values()),
}
"""What a flip-flop stores, over the nets of one in their order there, and what was stored."""


def _covers(netlist: Netlist) -> Iterator[tuple[int, Cover]]:
    """Each cover with the output of its gate, or the ``q`` of its flip-flop."""
    for gate in netlist.gates:
        if gate.cover:
            yield gate.output, gate.cover
    for flip_flop in netlist.flip_flops:
        if flip_flop.cover:
            yield flip_flop.q, flip_flop.cover


def _flip_flop(f: FlipFlop) -> list[int]:
    controls = (f.enable, f.clear, f.gate)
    return [f.d, f.q, *(_NO_NET if net is None else net for net in controls), f.start]


def schedule(of: Design) -> tuple[list[list[int]], list[int]]:
    """Each different feed once, and which of them each row has.

    A source is a bit (0, 1, or 2 for X), or 3 and more: operand bits one after another, LSB
    first, in the order of the operands.
    """
    offsets, last = {}, 3
    for operand in of.operands:
        offsets[operand.name] = last
        last += operand.width

    def number(source: Source) -> int:
        return source.bit if isinstance(source, Tie) else offsets[source.operand] + source.index

    places: dict[tuple[int, ...], int] = {}
    feed_of_row = []
    for row in of.schedule:
        feed = tuple(number(s) for name in of.netlist.inputs for s in row[name])
        feed_of_row.append(places.setdefault(feed, len(places)))
    return [list(feed) for feed in places], feed_of_row


# ---------------------------------------------------------------------- formulas


def tree(node: Node) -> list[Any]:
    """A formula as nested lists, the kind of node first; numbers as text, for any size.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> tree(parse("S(1..0) after 12 == 3"))  # doctest: +NORMALIZE_WHITESPACE
    ['==', ['after', ['name', 'S', [['slice', ['number', '1'], ['number', '0']]]],
    ['number', '12']], ['number', '3']]
    """
    match node:
        case Number(value=value):
            return ["number", str(value)]
        case Unknown():
            return ["unknown"]
        case Name(base=base, steps=steps):
            return ["name", base, [_step(step) for step in steps]]
        case Unary(operator=operator, operand=operand):
            return ["not" if operator == "not" else "minus", tree(operand)]
        case Binary(operator=operator, left=left, right=right):
            return [operator, tree(left), tree(right)]
        case Timed(relation=relation, what=what, when=when):
            return [relation, tree(what), tree(when)]


def _step(step: Step) -> list[Any]:
    match step:
        case Dot(name=name):
            return ["dot", name]
        case Slice(high=high, low=low):
            return ["slice", tree(high), tree(low)]
        case Select(items=items):
            return ["select", *map(tree, items)]


def claim(text: str, made: Claim) -> Data:
    """A claim: its text, its truth, its operands and ranges, and the two sides it compares."""
    sides: list[str] = []
    match made.truth:
        case Binary(operator="==" | "!=" | "<=" | ">=" | "<" | ">", left=left, right=right):
            sides = [show(left), show(right)]
    return {
        "text": text,
        "truth": tree(made.truth),
        "sides": sides,
        "ranges": [[r.name, tree(r.low), tree(r.high)] for r in made.ranges],
    }


# ---------------------------------------------------------------------- JSON


def text(data: Mapping[str, Any] | Sequence[Any]) -> str:
    r"""JSON that is safe inside a ``script`` element of a page: no ``<`` stands in it.

    Examples
    --------
    >>> text({"name": "</script>"})
    '{"name":"\\u003c/script>"}'
    """
    made = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for character in "<\u2028\u2029":
        made = made.replace(character, f"\\u{ord(character):04x}")
    return made


def words(of: Design, names: Iterable[str]) -> list[list[Any]]:
    """Names with their net numbers, LSB first."""
    return [[name, list(of.netlist.find(name))] for name in names]
