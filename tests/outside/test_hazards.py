"""Hazards against all orders in which gates and wires may follow, and against a textbook.

Outside: the definition (common practice, no source): while one input changes, each gate and each
wire that does not agree with what it reads may follow at any moment, one after the other; a circuit
has a hazard where its output can change more often than once, or at all where it ends as it began.
All orders are gone through here, state by state, without code of ours. And the consensus term of a
Karnaugh map: f = a b + a' c glitches while a changes and b = c = 1; the term b c takes that away
(M. Mano and M. Ciletti, *Digital Design*, sec. 9.7; E. McCluskey, *Logic Design Principles*, 1986;
both from memory).
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from itertools import product

import pytest

from edgewise import blueprint
from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.design import Design
from edgewise.engines.hazards import search
from edgewise.engines.symbolic.variables import Variable
from edgewise.study.inside import hazards

Circuit = tuple[int, list[tuple[str, tuple[int, ...]]]]
"""How many inputs, then gates: operator, and numbers of inputs or of gates before."""


def output(operator: str, bits: Sequence[int]) -> int:
    match operator:
        case "multiplexer":
            return bits[2] if bits[0] else bits[1]
        case "not":
            return 1 - bits[0]
        case "and" | "nand":
            return int(all(bits)) ^ (operator == "nand")
        case "or" | "nor":
            return int(any(bits)) ^ (operator == "nor")
    return sum(bits) % 2


def settled(circuit: Circuit, word: Sequence[int]) -> list[int]:
    values = list(word)
    for operator, read in circuit[1]:
        values.append(output(operator, [values[one] for one in read]))
    return values


def most_changes(circuit: Circuit, word: Sequence[int], changed: int) -> int:
    """How often the last gate may change, three times at most: all orders of gates and wires."""
    inputs, gates = circuit
    wires = [(at, pin) for at, (_, read) in enumerate(gates) for pin in range(len(read))]
    where = {wire: at for at, wire in enumerate(wires)}
    before = settled(circuit, word)
    after = [bit ^ (at == changed) for at, bit in enumerate(word)]
    start = (*(before[gates[at][1][pin]] for at, pin in wires), *before[inputs:])
    seen, waiting, most = {(start, 0)}, [(start, 0)], 0
    while waiting and most < 3:
        state, changes = waiting.pop()
        most = max(most, changes)
        for at, bit in enumerate(state):
            if at < len(wires):
                gate, pin = wires[at]
                source = gates[gate][1][pin]
                new = after[source] if source < inputs else state[len(wires) + source - inputs]
            else:
                operator, read = gates[at - len(wires)]
                pins = [where[at - len(wires), pin] for pin in range(len(read))]
                new = output(operator, [state[pin] for pin in pins])
            if new != bit:
                follows = (*state[:at], new, *state[at + 1 :])
                key = follows, changes + (at == len(state) - 1)
                if key not in seen:
                    seen.add(key)
                    waiting.append(key)
    return most


def at_random(seed: int) -> Circuit:
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    inputs = draw.randint(2, 3)
    gates = list[tuple[str, tuple[int, ...]]]()
    for _ in range(draw.randint(2, 5)):
        operator = draw.choice(["and", "or", "nand", "nor", "xor", "not", "multiplexer"])
        wide = {"not": 1, "multiplexer": 3}.get(operator, 2)
        gates.append((operator, tuple(draw.randrange(inputs + len(gates)) for _ in range(wide))))
    return inputs, gates


@pytest.mark.parametrize("few", [search.FEW, 0], ids=["all inputs", "solver"])
def test_circuits_at_random(few: int) -> None:
    """Each hazard of 150 circuits, its smallest inputs and how many pairs have it; none besides."""
    found = 0
    for seed in range(150 if few else 60):
        inputs, gates = circuit = at_random(seed)
        first = CLOCK_NET + 1
        made = [
            Gate(operator, tuple(first + one for one in read), first + inputs + at, "")
            for at, (operator, read) in enumerate(gates)
        ]
        nets = tuple(range(first, first + inputs))
        netlist = Netlist(first + inputs + len(gates), {"x": nets}, {}, tuple(made), (), {})
        order = [Variable("x", at) for at in range(inputs)]
        told = search.hazards(
            netlist, dict(zip(nets, order, strict=True)), order, [made[-1].output], few=few
        )
        assert told.complete
        pairs: dict[str, list[tuple[int, ...]]] = {}
        for word in product((0, 1), repeat=inputs):
            for changed in (at for at in range(inputs) if not word[at]):
                other = [bit ^ (at == changed) for at, bit in enumerate(word)]
                start, end = settled(circuit, word)[-1], settled(circuit, other)[-1]
                if most_changes(circuit, word, changed) > (start != end):
                    kind = "dynamic" if start != end else f"static-{start}"
                    pairs.setdefault(kind, []).append((sum(word), *word, -changed))
        assert {one.kind for one in told.hazards} == pairs.keys()
        for one in told.hazards:
            bits = [one.values[variable] for variable in order]
            assert (sum(bits), *bits, -one.changed.index) == min(pairs[one.kind])
            assert one.pairs in ((len(pairs[one.kind]),) if few else (None,))
            found += 1
    assert found > 20


CHOICE = """
circuit: {name}
inputs: {{a: 1, b: 1, c: 1}}
parts:
  N: {{part: not, in: a}}
  P: {{part: {first}, in: [a, b]}}
  Q: {{part: {first}, in: [N.out, c]}}
  F: {{part: {second}, in: [P.out, Q.out{more}]}}
{term}outputs: {{f: F.out}}
operands: {{a: 1, b: 1, c: 1}}
"""


def choice(first: str, second: str, term: str = "") -> Design:
    text = CHOICE.format(
        name="choice",
        first=first,
        second=second,
        more=", R.out" if term else "",
        term=f"  R: {{part: {first}, in: {term}}}\n" if term else "",
    )
    return blueprint.from_text(text, "choice.yaml").design()


@pytest.mark.parametrize(
    ("first", "second", "kind", "bit", "gate"),
    [("and", "or", "static-1", 1, "AND(b, c)"), ("or", "and", "static-0", 0, "OR(b, c)")],
)
def test_the_consensus_term(first: str, second: str, kind: str, bit: int, gate: str) -> None:
    """A sum of products, and by duality a product of sums: (a + b)(a' + c) with b + c."""
    (hazard,) = hazards.of(choice(first, second)).found
    assert (hazard.output, hazard.kind, hazard.changed, hazard.pairs) == ("f", kind, "a", 1)
    assert hazard.operands == ({"a": 0, "b": bit, "c": bit}, {"a": 1, "b": bit, "c": bit})
    assert [str(one) for one in hazard.added] == [gate]
    assert hazard.whole
    assert hazard.pulse is not None
    assert hazard.pulse.bits == (bit, 1 - bit, bit)
    assert hazards.of(choice(first, second, "[b, c]")).found == ()
