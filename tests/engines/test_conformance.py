"""Every engine agrees with the reference engine: every net, every row, X included.

An engine joins the suite with one line in `ENGINES`: a function from a design and operand
sets to what the engine says stands at every net in every row, in the form of
`edgewise.trace.Trace.rows`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

import pytest
from hypothesis import given

from edgewise import catalogue
from edgewise.bits import X
from edgewise.circuit.model import Tie
from edgewise.design import Design
from edgewise.engines import dual_rail, reference, side_by_side
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.bigint import Slices
from edgewise.engines.exhaustive.kernel import Maker
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.replay import bits_of
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import Terms
from edgewise.engines.symbolic.unrolling import unroll
from tests.strategies import designs

Rows: TypeAlias = tuple[bytes, ...]
Engine: TypeAlias = Callable[[Design, Sequence[Mapping[str, int]]], list[Rows]]


def by_reference(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
    """Run the design once for each operand set."""
    return [reference.run(design, operands).rows for operands in sets]


def by_kernels(maker: Maker) -> Engine:
    """Look up each operand set in the masks of every net's rails."""

    def run(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
        terms, space = Terms(), Space.of(design)
        rows = unroll(design, terms)
        roots = sorted({term for row in rows for rail in row for term in (rail.one, rail.unknown)})
        found = []
        for operands in sets:
            number = space.number(operands)
            masks = compiler.masks(terms, roots, space, number, number + 1, maker=maker)
            value = dict(zip(roots, masks, strict=True))
            found.append(
                tuple(
                    bytes(X if value[rail.unknown] else value[rail.one] for rail in row)
                    for row in rows
                )
            )
        return found

    return run


def by_solver(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
    """Give the solver the clauses of every net, and the operand bits as assumptions."""
    terms = Terms()
    rows = unroll(design, terms)
    rails = {
        (row, net, unknown): rail.unknown if unknown else rail.one
        for row, bits in enumerate(rows)
        for net, rail in enumerate(bits)
        for unknown in (False, True)
    }
    found = []
    with Session(terms, math.inf) as session:
        for term in rails.values():
            session.clauses.literal(term)
        for operands in sets:
            fixed = bits_of(operands, design.operands)
            assert session.ask(*(terms.variable(v) ^ 1 ^ bit for v, bit in fixed.items()))
            value = session.bits(rails)
            found.append(
                tuple(
                    bytes(
                        X if value[row, net, True] else value[row, net, False]
                        for net in range(len(bits))
                    )
                    for row, bits in enumerate(rows)
                )
            )
    return found


def by_lanes(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
    """All sets side by side, with 0 for every X."""
    values = {o.name: [o.pattern(operands[o.name]) for operands in sets] for o in design.operands}
    found = list(side_by_side.rows(design, values, len(sets)))
    return [tuple(_lane(row, run) for row in found) for run in range(len(sets))]


def _lane(row: Sequence[int], run: int) -> bytes:
    """One run of many; the constant X stays what it is."""
    bits = [bit >> run & 1 for bit in row]
    bits[X] = X
    return bytes(bits)


def by_rails(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
    """All sets side by side, X included."""
    values = {
        o.name: dual_rail.planes([o.pattern(operands[o.name]) for operands in sets])
        for o in design.operands
    }
    found = [row.values for row in dual_rail.rows(design, values, len(sets))]
    return [
        tuple(bytes(one + (one & zero) for one, zero in rails(row, run)) for row in found)
        for run in range(len(sets))
    ]


def rails(row: Sequence[dual_rail.Rails], run: int) -> list[dual_rail.Rails]:
    """One run of many."""
    return [(one >> run & 1, zero >> run & 1) for one, zero in row]


def without_x(design: Design, sets: Sequence[Mapping[str, int]]) -> list[Rows]:
    """The reference engine's rows with 0 for every X at the start, in constants, at inputs."""

    def of(net: int | None) -> int | None:
        return 0 if net == X else net

    netlist = replace(
        design.netlist,
        gates=tuple(
            replace(g, inputs=tuple(0 if net == X else net for net in g.inputs))
            for g in design.netlist.gates
        ),
        flip_flops=tuple(
            replace(
                f,
                d=of(f.d) or 0,
                enable=of(f.enable),
                clear=of(f.clear),
                gate=of(f.gate),
                start=of(f.start) or 0,
            )
            for f in design.netlist.flip_flops
        ),
    )
    found = []
    for operands in sets:
        rows: list[bytes] = []
        stored = [f.start for f in netlist.flip_flops]
        for fed in design.schedule:
            bits = {
                name: [
                    s.bit & 1 if isinstance(s, Tie) else operands[s.operand] >> s.index & 1
                    for s in sources
                ]
                for name, sources in fed.items()
            }
            rows.append(reference.settle(netlist, stored, bits))
            stored = reference.edge(netlist)(rows[-1])
        found.append(tuple(rows))
    return found


ENGINES: Final[Mapping[str, Engine]] = {
    "reference": by_reference,
    "native, vectors of 128": by_kernels(compiler.Vectors(128)),
    "native, vectors of 256": by_kernels(compiler.Vectors(256)),
    "native, vectors of 512": by_kernels(compiler.Vectors(512)),
    "native, slices": by_kernels(Slices(4)),
    "proof": by_solver,
    "side by side": by_lanes,
    "side by side, X included": by_rails,
}

SMALL: Final[Mapping[str, Mapping[str, int]]] = {
    "modulo-counter": {"m": 6, "k": 8},
    "binary-counter": {"n": 3, "k": 9},
}
"""Parameters for designs that n = 3 alone does not make small."""


def small(name: str) -> Design:
    """A catalogue design for parameters that keep it small."""
    known = {parameter.name for parameter in catalogue.find(name).parameters}
    given_ = SMALL.get(name, {"n": 3, "x": 2})
    return catalogue.design(name, **{key: value for key, value in given_.items() if key in known})


def show(design: Design, operands: Mapping[str, int], expected: Rows, found: Rows) -> str:
    """The first net that differs, for the message of a failed test."""
    labels = design.netlist.labels
    for row, (want, have) in enumerate(zip(expected, found, strict=True)):
        for net, (a, b) in enumerate(zip(want, have, strict=True)):
            if a != b:
                return f"{dict(operands)}: {labels[net]} in row {row} is {'01X'[b]}, not {'01X'[a]}"
    return ""


def agree(engine: Engine, design: Design, sets: Sequence[Mapping[str, int]]) -> None:
    """Fail at the first difference between an engine and the reference."""
    wanted = (without_x if engine is by_lanes else by_reference)(design, sets)
    for operands, expected, found in zip(sets, wanted, engine(design, sets), strict=True):
        assert found == expected, show(design, operands, expected, found)


def spread(space: Space, most: int) -> list[dict[str, int]]:
    """Operand sets from all over a space, the first and the last among them."""
    step = max(1, space.size // most)
    numbers = {*range(0, space.size, step), space.size - 1}
    return [space.decode(number) for number in sorted(numbers)]


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("engine", ENGINES.values(), ids=ENGINES)
def test_catalogue(engine: Engine, name: str) -> None:
    """Agree on every design of the catalogue."""
    design = small(name)
    agree(engine, design, spread(Space.of(design), 6))


@pytest.mark.parametrize("engine", ENGINES.values(), ids=ENGINES)
@given(design=designs())
def test_random_designs(engine: Engine, design: Design) -> None:
    """Agree on circuits that nobody would draw."""
    agree(engine, design, spread(Space.of(design), 4))
