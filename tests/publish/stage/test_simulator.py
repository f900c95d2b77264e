"""The simulator of the page, held to the reference engine in Chromium."""

from __future__ import annotations

import contextlib
import random
from typing import TYPE_CHECKING, Any, Final

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from edgewise import catalogue
from edgewise.circuit.gates import GATES
from edgewise.circuit.netlist import FlipFlop, Gate, Netlist
from edgewise.design import Design, Feed, Operand
from edgewise.design import Phase as Edges
from edgewise.engines import reference
from edgewise.errors import DesignError
from edgewise.publish.stage import design_data
from edgewise.publish.stage import storage as kept
from tests.strategies import designs
from tests.web.telling import of_stage
from tests.web.workshop import case, digits, load

if TYPE_CHECKING:
    from playwright.sync_api import Page

RUNS: Final = 10_000
SIZES: Final = (1, 3, 8, 32)

PLAY: Final = """\
(cases) => cases.map(([design, runs]) => runs.map(([operands, expected]) => {
  const values = Object.fromEntries(
    Object.entries(operands).map(([name, value]) => [name, BigInt(value)]));
  const rows = simulator.run(design, values).map((row) => row.join(""));
  return rows.join() === expected.join() ? "" : rows.join();
}))
"""


def some_operands(design: Design, chance: random.Random) -> dict[str, int]:
    """Random ones; sometimes all zeros or all ones."""
    extreme = chance.random()
    if extreme < 0.1:
        ones = extreme >= 0.05
        return {o.name: o.number((1 << o.width) - 1 if ones else 0) for o in design.operands}
    return {o.name: o.number(chance.getrandbits(o.width)) for o in design.operands}


def played(design: Design, chance: random.Random, runs: int) -> tuple[Any, list[Any]]:
    """A compiled design, with operands and the rows of the reference engine."""
    made = []
    for _ in range(runs):
        operands = some_operands(design, chance)
        trace = reference.run(design, operands)
        made.append([case(design, operands)[1], digits(trace.rows)])
    return design_data.design(design), made


def differing(page: Page, cases: list[tuple[Any, list[Any]]]) -> list[str]:
    """Every run whose rows differ in the browser."""
    answers = page.evaluate(PLAY, [list(one) for one in cases])
    return [
        f"{design['name']} {run[0]}: expected {','.join(run[1])}, found {answer}"
        for (design, runs), found in zip(cases, answers, strict=True)
        for run, answer in zip(runs, found, strict=True)
        if answer
    ]


def ready(number: int) -> list[Design]:
    """Every catalogue design for which `number` is a size."""
    found = []
    for name in catalogue.ORDER:
        blueprint = catalogue.find(name)
        with contextlib.suppress(DesignError):  # out of its range
            found.append(blueprint.design({blueprint.parameters[0].name: number}))
    assert len(found) > len(catalogue.ORDER) / 2
    return found


@pytest.mark.parametrize("number", SIZES)
def test_the_browser_runs_every_catalogue_design_as_the_reference_does(
    page: Page, number: int
) -> None:
    load(page, "simulator")
    chance = random.Random(number)  # noqa: S311  # cases, no secrets
    assert differing(page, [played(design, chance, 4) for design in ready(number)]) == []


def random_netlist(chance: random.Random) -> tuple[Netlist, tuple[Operand, ...]]:
    """Gates of every kind over inputs, constants and flip-flops with every control."""
    operands = tuple(Operand(f"w{i}", chance.randint(1, 32)) for i in range(chance.randint(1, 3)))
    inputs, size = {}, 4
    for operand in operands:
        inputs[operand.name] = tuple(range(size, size + operand.width))
        size += operand.width
    count = chance.randint(0, 6)
    stored = list(range(size, size + count))
    size += count
    known = [*range(size)]
    gates = []
    for i in range(chance.randint(1, 30)):
        operator = chance.choice((*GATES, "multiplexer"))
        fixed = {"not": 1, "buffer": 1, "multiplexer": 3}.get(operator)
        fed = tuple(chance.choice(known) for _ in range(fixed or chance.randint(1, 4)))
        gates.append(Gate(operator, fed, size, f"G{i}"))
        known.append(size)
        size += 1

    def net() -> int | None:
        some: list[int | None] = [None, *chance.sample(known, min(3, len(known)))]
        return chance.choice(some)

    flip_flops = tuple(
        FlipFlop(f"F{i}", chance.choice(known), q, net(), net(), net(), chance.choice((0, 1, 2)))
        for i, q in enumerate(stored)
    )
    outputs = {"y": tuple(known[-3:])}
    names = {**inputs, **outputs}
    return Netlist(size, inputs, outputs, tuple(gates), flip_flops, names), operands


def random_design(number: int, chance: random.Random) -> Design:
    """A random netlist, fed for some edges with operands, constants or X."""
    netlist, operands = random_netlist(chance)
    phases = []
    for i in range(chance.randint(1, 3)):
        feeds = tuple(
            Feed(
                o.name, chance.choice([o.name, o.name, None, o.number(chance.getrandbits(o.width))])
            )
            for o in operands
        )
        phases.append(Edges(f"p{i}", chance.randint(0, 5), feeds))
    base = catalogue.design("ring-counter")  # its circuit is not run: the netlist is
    return Design(f"random {number}", base.circuit, {}, operands, tuple(phases), altered=netlist)


@pytest.mark.slow
def test_ten_thousand_random_runs_are_those_of_the_reference(page: Page) -> None:
    load(page, "simulator")
    chance = random.Random(11)  # noqa: S311  # cases, no secrets
    runs, each = 0, 50
    number = 0
    while runs < RUNS:
        cases = [played(random_design(number + i, chance), chance, each) for i in range(20)]
        assert differing(page, cases) == []
        number += len(cases)
        runs += len(cases) * each
    assert runs >= RUNS


# ---------------------------------------------------------------------- sentences


def grown(count: int) -> list[Design]:
    """Circuits of every part type, the same ones each time."""
    found: list[Design] = []

    @settings(
        max_examples=count,
        database=None,
        derandomize=True,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(designs())
    def gather(design: Design) -> None:
        found.append(design)

    gather()
    return found


def test_grown_circuits_are_run_alike(page: Page) -> None:
    load(page, "simulator")
    chance = random.Random(5)  # noqa: S311  # cases, no secrets
    for design in grown(60):
        assert differing(page, [played(design, chance, 8)]) == []


STANDS: Final = """\
([design, stores, operands, k, wrong, told]) => {
  const values = Object.fromEntries(
    Object.entries(operands).map(([name, value]) => [name, BigInt(value)]));
  const rows = simulator.run(design, values);
  for (const net of wrong) rows[k][net] = 1 - rows[k][net];
  return sentences.stands(new words.Words(told), design, stores, rows, k);
}
"""


@pytest.mark.parametrize(
    ("name", "wrong", "text"),
    [
        ("serial-adder", [], ""),
        (
            "serial-adder",
            ["S(5)"],
            "Row 8 is your own: S = 110000. From row 7 would follow S = 010000.",
        ),
        (
            "serial-adder",
            ["S(5)", "C"],
            "Row 8 is your own: C = 0 and S = 110000."
            " From row 7 would follow C = 1 and S = 010000.",
        ),
        (
            "crc-register",
            ["R(0)", "R(1)", "R(3)"],
            "Row 8 is your own: R(1..0) = 11 and R(3) = 0."
            " From row 7 would follow R(1..0) = 00 and R(3) = 1.",
        ),
    ],
)
def test_an_own_row_is_told_as_such(page: Page, name: str, wrong: list[str], text: str) -> None:
    load(page, "sentences", "words")
    design = catalogue.design(name)
    operands = {"a": 22, "b": 43} if name == "serial-adder" else {"byte(1)": 60}
    nets = [net for one in wrong for net in design.netlist.find(one)]
    stores = [store.data() for store in kept.stores(design)]
    found = page.evaluate(
        STANDS, [design_data.design(design), stores, operands, 8, nets, of_stage()]
    )
    assert found == text
