"""A design checked for all its operands, by going through every one of them."""

from __future__ import annotations

import time
from collections.abc import Mapping
from concurrent.futures import Executor
from dataclasses import dataclass, field

from edgewise.bits import X
from edgewise.design import Design
from edgewise.engines.exhaustive.compiler import best, count, first, some
from edgewise.engines.exhaustive.kernel import Maker
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.exhaustive.parallel import Progress
from edgewise.engines.reference import run
from edgewise.engines.replay import rows_of
from edgewise.engines.symbolic.specification import agreement
from edgewise.engines.symbolic.terms import FALSE, TRUE, Terms
from edgewise.engines.symbolic.unrolling import entry_of_unknown, unroll
from edgewise.errors import DesignError, Message
from edgewise.trace import Trace
from edgewise.words.lists import equations


@dataclass(frozen=True, slots=True)
class Settled:
    """What came of checking a design for all its operands.

    Parameters
    ----------
    holds : bool
    checked : int
        Number of operand sets: all there are.
    failures : int
        For how many of them the answer is wrong.
    counterexample : mapping of str to int, optional
        The first of them, by number of the set.
    trace : Trace, optional
        Its run on the reference engine.
    seconds : float
    by : str
        What ran: ``compiled for vectors of 256 bits``; ``structure`` where circuit and purpose
        fold to the same terms, so that nothing was left to run.
    """

    holds: bool
    checked: int
    failures: int
    counterexample: Mapping[str, int] | None
    trace: Trace | None = field(repr=False)
    seconds: float
    by: str


def check(
    design: Design,
    *,
    maker: Maker | None = None,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> Settled:
    """Compare a design's answer with its purpose, for all operands.

    Parameters
    ----------
    design : Design
    maker : Maker, optional
        What makes the kernels: `best` unless given.
    executor : Executor, optional
        Where they run: threads on all cores unless given.
    progress : function, optional
        Is told (sets done, sets in all) about ten times a second; where something is wrong,
        failures are counted in a second pass.

    Raises
    ------
    DesignError
        The answer depends on an X; nothing is said of what the design computes; too many
        operand bits; too large to compile.
    Unsupported
        A purpose that can't be lowered to terms.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> settled = check(catalogue.design("serial-adder", n=10))
    >>> settled.holds, settled.checked
    (True, 1048576)
    """
    began = time.perf_counter()
    maker = maker or best()
    if not design.computes:
        raise DesignError(Message("nothing-computed", design=design.name), design.place)
    space, terms = Space.of(design), Terms()
    space.bits  # noqa: B018  # refused before the work begins
    claim = agreement(design, terms, unroll(design, terms))
    if claim.unknown != FALSE:
        known = first(terms, claim.unknown, space, maker=maker, executor=executor)
        if known:
            raise _unknown_answer(design, space.decode(known[0]))
    wrong = claim.one ^ 1
    by = "structure" if wrong in (FALSE, TRUE) else maker.name
    failures, operands, trace = 0, None, None
    if some(terms, wrong, space, maker=maker, executor=executor, progress=progress):
        failures = count(terms, wrong, space, maker=maker, executor=executor, progress=progress)
        (number,) = first(terms, wrong, space, maker=maker, executor=executor)
        operands = space.decode(number)
        trace = replay(design, operands)
    seconds = time.perf_counter() - began
    return Settled(not failures, space.sets, failures, operands, trace, seconds, by)


def replay(design: Design, operands: Mapping[str, int]) -> Trace:
    """Run a counterexample on the reference engine, which must find the answer wrong too."""
    trace = run(design, operands)
    wanted = design.expected(operands)
    rows = {p.output: design.edges if p.after is None else p.after for p in design.computes}
    wrong = [n for n in wanted if design.read(n, trace.word(n, rows[n])) != wanted[n]]
    assert wrong, f"{design.name}, {dict(operands)}: the reference engine finds nothing wrong"
    return trace


def _unknown_answer(design: Design, operands: Mapping[str, int]) -> DesignError:
    trace = run(design, operands)
    for purpose in design.computes:
        row = design.edges if purpose.after is None else purpose.after
        nets = design.netlist.outputs[purpose.output]
        unknown = [index for index, net in enumerate(nets) if trace.rows[row][net] == X]
        if not unknown:
            continue
        entry = entry_of_unknown(design, rows_of(trace), nets[unknown[0]], row)
        bit = f"{purpose.output}({unknown[0]})" if len(nets) > 1 else purpose.output
        return DesignError(
            Message(
                "unknown-answer",
                design=design.name,
                count=len(operands),
                given=equations(operands.items(), "="),
                bit=bit,
                row=row,
                net=design.netlist.labels[entry.net],
                entry=entry.row,
                remedy=_remedy(design, entry.net),
            ),
            purpose.place or design.place,
        )
    raise AssertionError(f"{design.name}, {dict(operands)}: the reference engine finds no X")


def _remedy(design: Design, net: int) -> Message:
    if any(net == flip_flop.q for flip_flop in design.netlist.flip_flops):
        return Message("unknown-answer-start")
    return Message("unknown-answer-feed")
