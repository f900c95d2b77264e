"""Whether two designs, or two circuits, come to the same."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines.replay import left_free
from edgewise.engines.sat.bounded import SECONDS, Item, settled
from edgewise.engines.sat.outcome import Proof
from edgewise.engines.symbolic.terms import TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Rail, Row
from edgewise.errors import DesignError, Fact, Message
from edgewise.listing import both, clauses

_Ports: TypeAlias = Mapping[str, Mapping[str, int]]
"""By what they are (input, output…) the widths of a circuit's ports."""


def same(
    design: Design,
    other: Design,
    *,
    given: Mapping[str, int] | None = None,
    unknown: bool = False,
    seconds: float = SECONDS,
) -> Proof:
    """Settle whether two designs give the same answers for all operands.

    Answers are compared by name, each in the row where its design has it: what the design
    computes, or else every output in the last row. An answer with an X in it equals none,
    unless X is to equal X.

    Parameters
    ----------
    design, other : Design
        With the same operands (but for those given) and answers.
    given : mapping of str to int, optional
        Operands that have one value only; one of them may be in one design only.
    unknown : bool
        Whether an unknown bit equals an unknown one.
    seconds : float

    Raises
    ------
    DesignError
        Operands or answers that the designs don't share; the message names them all.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> serial = catalogue.design("serial-adder", n=8)
    >>> same(serial, catalogue.design("ripple-carry-adder", n=8), given={"carry_in": 0}).outcome
    'proved'
    """
    ends = [_ends(one) for one in (design, other)]
    _require_equal(
        (design.name, other.name),
        *(
            {"operand": _operands(one, given or {}), "answer": _outputs(one, names)}
            for one, names in zip((design, other), ends, strict=True)
        ),
    )

    alike = _identical if unknown else _alike

    def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
        return [
            Item(
                alike(
                    terms,
                    _word(design, runs[0], name, ends[0][name]),
                    _word(other, runs[1], name, ends[1][name]),
                ),
                ends[0][name],
                name,
            )
            for name in ends[0]
        ]

    return settled((design, other), items, None, given, seconds)


def same_circuits(
    circuit: Circuit, other: Circuit, edges: int | None = None, *, seconds: float = SECONDS
) -> Proof:
    """Settle whether two circuits with the same ports behave alike.

    Both run from their initial states, with any inputs in each row; all outputs are compared
    in rows 0 … `edges`. Without flip-flops row 0 is all there is.

    Raises
    ------
    DesignError
        Ports that differ (the message names them all), or flip-flops and no `edges`.
    """
    last = edges or 0
    one, two = (left_free(c, last) for c in (circuit, other))
    _require_equal(
        (circuit.name, other.name),
        *(
            {"input": _sizes(d.netlist.inputs), "output": _sizes(d.netlist.outputs)}
            for d in (one, two)
        ),
    )
    for design in (one, two):
        if design.netlist.flip_flops and edges is None:
            raise DesignError(Message("compared-edges-missing", design=design.name))

    def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
        return [
            Item(
                _alike(terms, _word(one, runs[0], name, row), _word(two, runs[1], name, row)),
                row,
                name,
            )
            for row in range(last + 1)
            for name in one.netlist.outputs
        ]

    return settled((one, two), items, last, None, seconds)


def _alike(terms: Terms, a: Sequence[Rail], b: Sequence[Rail]) -> Term:
    """Whether two words are known and equal."""
    alike = TRUE
    for x, y in zip(a, b, strict=True):
        known = terms.both(x.unknown ^ 1, y.unknown ^ 1)
        alike = terms.both(alike, terms.both(known, terms.differ(x.one, y.one) ^ 1))
    return alike


def _identical(terms: Terms, a: Sequence[Rail], b: Sequence[Rail]) -> Term:
    """Whether two words are equal, bit by bit 0, 1 or X."""
    return terms.all_of(
        terms.both(terms.differ(x.one, y.one) ^ 1, terms.differ(x.unknown, y.unknown) ^ 1)
        for x, y in zip(a, b, strict=True)
    )


def _operands(design: Design, given: Mapping[str, int]) -> dict[str, int]:
    return {o.name: o.width for o in design.operands if o.name not in given}


def _ends(design: Design) -> dict[str, int]:
    """Each answer with the row in which it stands."""
    after = {p.output: p.after for p in design.computes} or dict.fromkeys(design.netlist.outputs)
    return {name: design.edges if row is None else row for name, row in after.items()}


def _outputs(design: Design, names: Iterable[str]) -> dict[str, int]:
    return {name: len(design.netlist.outputs[name]) for name in names}


def _sizes(ports: Mapping[str, Sequence[int]]) -> dict[str, int]:
    return {name: len(bits) for name, bits in ports.items()}


def _word(design: Design, rows: Sequence[Row], name: str, row: int) -> list[Rail]:
    return [rows[row][net] for net in design.netlist.outputs[name]]


def _require_equal(names: tuple[str, str], ports: _Ports, others: _Ports) -> None:
    """Refuse what is in one only, or has another width; all of it in one message."""
    first: Fact
    second: Fact
    first, second = names
    if first == second:
        first, second = Message("compared-first"), Message("compared-second")
    wrong: list[Message] = []
    operands = ports.get("operand", {}), others.get("operand", {})
    for what, one in ports.items():
        two = others[what]
        for here, there, design in ((one, two, first), (two, one, second)):
            wrong += [
                Message("only-in", kind=what, name=name, design=design)
                for name in here
                if name not in there
            ]
        wrong += [
            Message(
                "widths-differ",
                kind=what,
                name=name,
                width=width,
                first=first,
                other=two[name],
                second=second,
            )
            for name, width in one.items()
            if two.get(name, width) != width
        ]
    if wrong:
        alone = [n for one, two in (operands, operands[::-1]) for n in one if n not in two]
        raise DesignError(
            Message(
                "not-comparable",
                first=first,
                second=second,
                wrong=clauses(wrong),
                alone=len(alone) if len(wrong) == len(alone) else 0,
                names=both(alone),
            )
        )
