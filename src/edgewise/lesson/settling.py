"""Settling claims: whether they are true for every operand and parameter they speak of.

`settle` is the one door; engines that are faster or that prove stand behind it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Final

from edgewise.arithmetic import Numbers, evaluate, evaluate_at, number, truth
from edgewise.blueprint import Blueprint
from edgewise.circuit.model import Tie
from edgewise.design import Design, Source
from edgewise.engines import reference
from edgewise.errors import DesignError, EdgewiseError, Place, TextError, UnknownBit, nearest
from edgewise.formula import Claim, Node, Range, show
from edgewise.lesson.expression import Run, Scope, times
from edgewise.lesson.reasons import reason
from edgewise.trace import Trace

MOST_BITS: Final = 16
"""Operand bits of which every combination is run, at most."""
MOST_RUNS: Final = 1 << 17
"""Runs for one claim, over all its parameters, at most."""
MOST_CASES: Final = 4096
"""Combinations of parameters in one claim, at most."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of a claim.

    Parameters
    ----------
    holds : bool
    how : str
        How that was found: ``checked on all 4,096 operand pairs``.
    parameters : mapping of str to int
        Of a false claim: those of its ranges in the case where it fails.
    counterexample : mapping of str to int
        Of a false claim: its ``for all`` operands where it fails, the smallest such.
    why : str
        Of a false claim: what is true instead.
    instead : str
        Of a false claim: the edges nearest to its own at which it holds, if any.
    engine : str
        ``reference``.
    """

    holds: bool
    how: str
    parameters: Mapping[str, int] = field(default_factory=dict)
    counterexample: Mapping[str, int] = field(default_factory=dict)
    why: str = ""
    instead: str = ""
    engine: str = "reference"


def settle(
    claim: Claim,
    blueprint: Blueprint,
    parameters: Mapping[str, int],
    operands: Mapping[str, int],
    place: Place | None = None,
) -> Verdict:
    """Find out whether a claim is true.

    Parameters
    ----------
    claim : Claim
    blueprint : Blueprint
        The design, which a claim over a range of parameters builds anew for each.
    parameters, operands : mapping of str to int
        Those of the lesson; the claim's own take their place.
    place : Place, optional
        Where the claim's text begins.

    Raises
    ------
    EdgewiseError
        If the claim can't be settled: unknown names, or too many combinations.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> claim = formula.parse("S after 12 == (a + b) mod 64 for all a, b", "claim")
    >>> settle(claim, catalogue.find("serial-adder"), {"n": 6}, {}).how
    'checked on all 4,096 operand pairs'
    """
    runs = 0
    names: tuple[str, ...] = ()
    for chosen in _cases(claim, blueprint, parameters, place):
        numbers = tuple({**parameters, **chosen}.items())
        design = _design(blueprint, numbers, place)
        names = _members(claim.for_all, design, place)
        runs += _count(design, names, place)
        if runs > MOST_RUNS:
            raise DesignError(
                f"this claim asks for more than {MOST_RUNS:,} runs; claim it over fewer parameters",
                place,
            )
        # A claim over many parameters must not push out what the next claim will need.
        steps = _Steps.of(blueprint, numbers) if names else _Steps(design)
        try:
            failing = _refute(claim, steps, names, operands, place)
        except EdgewiseError as wrong:
            raise _in_case(wrong, chosen, place) from None
        if failing is not None:
            instead = _nearest_edges(claim, failing, steps, names, place)
            return Verdict(
                holds=False,
                how="found false by running it",
                parameters=chosen,
                counterexample={name: failing.operands[name] for name in names},
                why=reason(claim.truth, Scope(failing, place=place)),
                instead=instead,
            )
    return Verdict(holds=True, how=_how(claim, runs, names))


def _cases(
    claim: Claim, blueprint: Blueprint, parameters: Mapping[str, int], place: Place | None
) -> Iterator[dict[str, int]]:
    """Each combination of the claim's parameters."""
    known = [parameter.name for parameter in blueprint.parameters]
    spans: list[range] = []
    scope = Numbers(parameters)
    for span in claim.ranges:
        if span.name not in known:
            raise TextError(
                f"{span.name} is not a parameter of {blueprint.name}{nearest(span.name, known)}",
                place,
            )
        low, high = (number(evaluate_at(end, scope, place)) for end in (span.low, span.high))
        if low > high:
            raise TextError(f"{span.name} in {low}..{high} is empty; write low..high", place)
        spans.append(range(low, high + 1))
    size = 1
    for span_ in spans:
        size *= len(span_)
    if size > MOST_CASES:
        raise DesignError(
            f"this claim asks for {size:,} designs; the limit is {MOST_CASES:,}", place
        )
    for values in itertools.product(*spans):
        yield {span.name: value for span, value in zip(claim.ranges, values, strict=True)}


@lru_cache(maxsize=64)
def _built(blueprint: Blueprint, numbers: tuple[tuple[str, int], ...]) -> Design:
    return blueprint.design(dict(numbers))


def _design(
    blueprint: Blueprint, numbers: tuple[tuple[str, int], ...], place: Place | None
) -> Design:
    try:
        return _built(blueprint, numbers)
    except EdgewiseError as wrong:
        single = wrong.parts()[0]
        if single.place is None:
            raise type(single)(single.message, place) from None
        raise


def _in_case(wrong: EdgewiseError, chosen: Mapping[str, int], place: Place | None) -> EdgewiseError:
    """The error, with the parameters of the case in which it arose."""
    single = wrong.parts()[0]
    case = "".join(f"{name}={value}: " for name, value in chosen.items())
    return type(single)(case + single.message, single.place or place)


def _members(names: Sequence[str], design: Design, place: Place | None) -> tuple[str, ...]:
    """The operands that ``for all`` names, those of a family one by one."""
    single = [operand.name for operand in design.operands]
    found: list[str] = []
    for name in names:
        if name in design.families:
            found += design.families[name]
        elif name in single:
            found.append(name)
        else:
            known = nearest(name, [*single, *design.families])
            raise TextError(f"for all {name}: there is no operand {name}{known}", place)
    return tuple(dict.fromkeys(found))


def _count(design: Design, names: Sequence[str], place: Place | None) -> int:
    widths = {operand.name: operand.width for operand in design.operands}
    bits = sum(widths[name] for name in names)
    if bits > MOST_BITS:
        size = f"2^{bits}" + (f" = {1 << bits:,}" if bits < 64 else "")
        raise DesignError(
            f"for all {', '.join(names)} means {size} runs{_with(design.parameters)}; every"
            f" combination is run up to 2^{MOST_BITS} = {1 << MOST_BITS:,}: claim it for smaller"
            " words, or for fewer operands",
            place,
        )
    return 1 << bits


def _with(parameters: Mapping[str, int]) -> str:
    pairs = ", ".join(f"{name}={value}" for name, value in parameters.items())
    return f" at {pairs}" if pairs else ""


# ---------------------------------------------------------------------- by running


class _Steps:
    """Runs of one design on the reference engine, each step from row to row made only once.

    Runs of all operands share most of their rows: an 8-bit serial adder has 65,536 runs of
    17 rows, but a tenth as many different steps.
    """

    MOST = 400_000

    def __init__(self, design: Design) -> None:
        self.design = design
        self.known: dict[tuple[bytes, tuple[int, ...]], bytes] = {}

    @cached_property
    def sources(self) -> list[list[tuple[str, Source]]]:
        """Of each row: all input bits, LSB first, with the input's name."""
        return [
            [(name, source) for name, bits in row.items() for source in bits]
            for row in self.design.schedule
        ]

    @staticmethod
    @lru_cache(maxsize=3)
    def of(blueprint: Blueprint, numbers: tuple[tuple[str, int], ...]) -> _Steps:
        """The steps of one design; kept for the lesson's next claim."""
        return _Steps(_built(blueprint, numbers))

    def run(self, design: Design, operands: Mapping[str, int]) -> Trace:
        """As `reference.run`, for operands already checked."""
        before = b""
        rows: list[bytes] = []
        for row, sources in enumerate(self.sources):
            fed = tuple(
                s.bit if isinstance(s, Tie) else operands[s.operand] >> s.index & 1
                for _, s in sources
            )
            after = self.known.get((before, fed))
            if after is None:
                if len(self.known) > self.MOST:
                    self.known.clear()
                after = self.known[before, fed] = self._step(row, before, fed)
            rows.append(after)
            before = after
        return Trace(design, operands, tuple(rows))

    def _step(self, row: int, before: bytes, fed: tuple[int, ...]) -> bytes:
        netlist = self.design.netlist
        stored = [
            reference.next_bit(flip_flop, before) if row else flip_flop.start
            for flip_flop in netlist.flip_flops
        ]
        inputs: dict[str, list[int]] = {name: [] for name in netlist.inputs}
        for (name, _), bit in zip(self.sources[row], fed, strict=True):
            inputs[name].append(bit)
        return reference.settle(netlist, stored, inputs)


def _refute(
    claim: Claim,
    steps: _Steps,
    names: Sequence[str],
    operands: Mapping[str, int],
    place: Place | None,
) -> Run | None:
    """The first run in which the claim is false: of the smallest operands, by their sum."""
    for run in _runs(steps, names, operands):
        if not _true(claim.truth, Scope(run, place=place), place):
            return run
    return None


def _runs(steps: _Steps, names: Sequence[str], operands: Mapping[str, int]) -> Iterator[Run]:
    design = steps.design
    if not names:
        yield Run(design, operands)
        return
    widths = {operand.name: operand.width for operand in design.operands}
    members = {m: family for family, all_ in design.families.items() for m in all_}
    others = {
        name: value
        for name, value in operands.items()
        if name not in names and members.get(name) not in names
    }
    design.values({**others, **dict.fromkeys(names, 0)})  # what is left of them must fit
    sets = itertools.product(*(range(1 << widths[name]) for name in names))
    for values in sorted(sets, key=lambda chosen: (sum(chosen), chosen)):
        given = {**others, **dict(zip(names, values, strict=True))}
        run = Run(design, given, steps.run)
        run.__dict__["operands"] = given  # in range as they are made
        yield run


def _true(node: Node, scope: Scope, place: Place | None) -> bool:
    """Whether it is true; with an unknown bit in it, it is not."""
    try:
        return truth(evaluate(node, scope))
    except UnknownBit:
        return False
    except EdgewiseError as wrong:
        if wrong.place is None:
            raise type(wrong)(wrong.message, place) from None
        raise


# ---------------------------------------------------------------------- what is true instead


def _nearest_edges(
    claim: Claim, failing: Run, steps: _Steps, names: Sequence[str], place: Place | None
) -> str:
    """The edges at which the claim holds instead, if all its times are one and there are any."""
    rows = {Scope(failing, place=place).row_of(timed) for timed in times(claim.truth)}
    if len(rows) != 1:
        return ""
    (row,) = rows
    last = failing.design.edges
    held = list(range(last + 1))
    for run in _runs(steps, names, failing.given):
        held = [k for k in held if _true(claim.truth, Scope(run, instead=k), place)]
        if not held:
            return ""
    near = min(held, key=lambda k: (abs(k - row), -k))
    first = final = near
    while first - 1 in held:
        first -= 1
    while final + 1 in held:
        final += 1
    if final == last:
        return f"It holds from edge {first} on."
    if first == final:
        return f"It holds after edge {first} only." if first else "It holds at the start only."
    return f"It holds after edges {first} to {final} only."


def _how(claim: Claim, runs: int, names: Sequence[str]) -> str:
    over = ", ".join(f"{r.name} = {_ends(r)}" for r in claim.ranges)
    if not names:
        return f"checked for {over}" if over else "checked on this run"
    what = {1: f"values of {names[0]}", 2: "operand pairs"}.get(len(names), "sets of operands")
    return f"checked on all {runs:,} {what}" + (f" for {over}" if over else "")


def _ends(span: Range) -> str:
    low, high = show(span.low), show(span.high)
    return low if low == high else f"{low} to {high}"
