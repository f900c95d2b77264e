"""The least number of two-input gates of a half and a full adder, by searching all circuits.

Outside: D. E. Knuth, *The Art of Computer Programming* 4A, sec. 7.1.2 (from memory, high
confidence): 2 gates for the half adder, 5 for the full adder, whatever two-input gates are
allowed; N. P. Red'kin, 1981, proved 5n - 3 for n-bit sums, of which these are the first two
cases. The search is the one of that section: the variables describe a circuit of r gates,
and the solver looks for one.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import TypeAlias

import pytest

from edgewise.circuit.builder import Builder
from edgewise.circuit.flatten import flatten
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.study.cost import gate_counts

Function: TypeAlias = Callable[[Sequence[int]], int]

HALF: Sequence[Function] = (lambda x: x[0] ^ x[1], lambda x: x[0] & x[1])
FULL: Sequence[Function] = (lambda x: sum(x) & 1, lambda x: int(sum(x) > 1))


@dataclass(frozen=True)
class Gate:
    """Two earlier wires, and what it gives for 00, 01, 10, 11 on them."""

    sources: tuple[int, int]
    table: tuple[int, int, int, int]


@dataclass(frozen=True)
class Search:
    """A circuit of so many gates for functions of so many inputs.

    All functions are 0 where all inputs are 0, and so every gate may be taken to be 0 for
    00: one that is not is complemented, and the tables of its readers are changed.
    """

    inputs: int
    functions: Sequence[Function]
    gates: int

    def term(self, terms: Terms, kind: str, *key: int) -> Term:
        return terms.variable(Variable(f"{kind} {key}", 0))

    def found(self) -> tuple[list[Gate], list[int]] | None:
        """Gates, and for each function the wire that has it; None if there is none."""
        terms = Terms()
        with Session(terms, time.monotonic() + 60) as session:

            def literal(bit: int, kind: str, *key: int) -> int:
                """That something described by the key is `bit`."""
                return session.clauses.literal(self.term(terms, kind, *key)) * (1 if bit else -1)

            for clause in self.clauses(literal):
                session.clauses.add(clause)
            answer = session.ask()
            assert answer is not None
            return self.read(terms, session) if answer else None

    def clauses(self, literal: Callable[..., int]) -> list[list[int]]:
        rows = list(enumerate(product((0, 1), repeat=self.inputs)))
        made = range(self.inputs, self.inputs + self.gates)
        clauses = [
            [literal(bits[wire], "wire", wire, row)]
            for wire in range(self.inputs)
            for row, bits in rows
        ]
        for gate in made:
            pairs = list(combinations(range(gate), 2))
            clauses.append([literal(1, "reads", gate, *pair) for pair in pairs])
            clauses.append([literal(0, "table", gate, 0, 0)])
            for pair, (row, _), (p, q, gives) in product(pairs, rows, product((0, 1), repeat=3)):
                clauses.append(
                    [
                        literal(0, "reads", gate, *pair),
                        literal(1 - p, "wire", pair[0], row),
                        literal(1 - q, "wire", pair[1], row),
                        literal(1 - gives, "wire", gate, row),
                        literal(gives, "table", gate, p, q),
                    ]
                )
        for number, function in enumerate(self.functions):
            assert function([0] * self.inputs) == 0
            clauses.append([literal(1, "has", number, gate) for gate in made])
            clauses += [
                [
                    literal(0, "has", number, gate),
                    literal(function(bits), "wire", gate, row),
                ]
                for gate in made
                for row, bits in rows
            ]
        return clauses

    def read(self, terms: Terms, session: Session) -> tuple[list[Gate], list[int]]:
        made = range(self.inputs, self.inputs + self.gates)

        def chosen(kind: str, *key: int) -> int:
            return session.bits({0: self.term(terms, kind, *key)})[0]

        gates = []
        for gate in made:
            pairs = combinations(range(gate), 2)
            a, b, c, d = (chosen("table", gate, p, q) for p, q in product((0, 1), repeat=2))
            sources = next(pair for pair in pairs if chosen("reads", gate, *pair))
            gates.append(Gate(sources, (a, b, c, d)))
        wires = [
            next(gate for gate in made if chosen("has", number, gate))
            for number in range(len(self.functions))
        ]
        return gates, wires


@pytest.mark.parametrize(
    ("inputs", "functions", "least"), [(2, HALF, 2), (3, FULL, 5)], ids=["half", "full"]
)
def test_least_number_of_gates(inputs: int, functions: Sequence[Function], least: int) -> None:
    for fewer in range(1, least):
        assert Search(inputs, functions, fewer).found() is None
    found = Search(inputs, functions, least).found()
    assert found is not None
    gates, outputs = found
    for bits in product((0, 1), repeat=inputs):
        wires = list(bits)
        for gate in gates:
            p, q = (wires[source] for source in gate.sources)
            wires.append(gate.table[2 * p + q])
        assert [wires[o] for o in outputs] == [function(bits) for function in functions]


@pytest.mark.parametrize(
    ("kind", "ports", "least"),
    [("half-adder", ("a", "b"), 2), ("full-adder", ("a", "b", "carry-in"), 5)],
)
def test_our_adders_have_as_few(kind: str, ports: Sequence[str], least: int) -> None:
    b = Builder(kind)
    part = b.part("P", kind, {name: b.input(name) for name in ports})
    for name in ("sum", "carry-out"):
        b.output(name, part[name])
    assert gate_counts.gates(flatten(b.circuit()), two_input=True) == least
