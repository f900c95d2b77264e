"""Settling a truth about a run for all operands, by the cheapest way that is sound.

Going through all operand sets with the compiled engine where that takes about two seconds,
a SAT proof otherwise. Whatever is found false is run on the reference engine before anyone
hears of it.
"""

from __future__ import annotations

import re
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.design import Design, Operand
from edgewise.engines import native, outcome, proof
from edgewise.engines.chunks import Progress
from edgewise.engines.purpose import Named, Unsupported, given, lower
from edgewise.engines.space import LARGEST, Space
from edgewise.engines.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.unrolling import Row, unroll
from edgewise.engines.variables import Variable
from edgewise.engines.words import Truth, Whole, Words
from edgewise.formula import Name, Node, Number, Select, Slice, Timed, show

PATIENCE: Final = 2.0
"""Seconds that going through all sets may take, by estimate."""
LIMIT: Final = 20.0
"""Seconds for a proof before it is left undecided."""
_RATE: Final = 2e9
"""Vector operations a second and core, about: an estimate that only chooses the way."""
_SLICES_RATE: Final = 2e4


@dataclass(frozen=True, slots=True)
class Settled:
    """How a truth came out.

    Parameters
    ----------
    outcome : outcome.Outcome
        ``proved``: true for all operands; ``refuted``; ``undecided``: time was up.
    how : str
        ``checked on all 16,777,216 operand pairs``, ``proved by SAT``.
    engine : str
        ``native`` or ``proof``.
    seconds : float
    counterexample : mapping of str to int, optional
        All operands of a run in which it is false: the fewest ones, then the smallest.
    detail : str
        What ran, for those who ask: vectors, clauses.
    """

    outcome: outcome.Outcome
    how: str
    engine: str
    seconds: float
    counterexample: Mapping[str, int] | None = None
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Grounded:
    """The scope of a grounded formula: operands, parameters, and nets in rows.

    A grounded formula names rows by numbers, and nets and operands as the design does; see
    `settle`.
    """

    design: Design
    words: Words
    rows: Sequence[Row]
    operands: Named

    def look_up(self, name: Name, row: int | None) -> Whole:
        """The number that a name stands for; a net is read in `row`."""
        match name.steps:
            case (Select(items=(of,)),) if name.base in ("value", "signed"):
                whole = lower(of, self.words.terms, self, row)
                if isinstance(whole, Truth):
                    raise Unsupported(f"{show(name)}: reads a word of bits")
                return self._signed(of, whole) if name.base == "signed" else whole
            case (Select(),) if name.base == "total":
                return self.operands.look_up(name, row)
        if row is not None:
            return self.words.reading(self.rows[row][net] for net in self._nets(name))
        bits = self._operand_bits(name)
        if bits is not None:
            return self.words.unsigned(bits)
        return self.operands.look_up(name, row)

    def _nets(self, name: Name) -> tuple[int, ...]:
        return self.design.netlist.find(show(name))

    def _operand_bits(self, name: Name) -> list[Term] | None:
        """Bits of an operand of which an index or a slice is taken; None for anything else."""
        match = _SELECTED.fullmatch(show(name))
        if not match or match["base"] not in {o.name for o in self.design.operands}:
            return None
        high = int(match["high"])
        low = int(match["low"] or high)
        terms = self.words.terms
        return [terms.variable(Variable(match["base"], i)) for i in range(low, high + 1)]

    def _signed(self, of: Node, whole: Whole) -> Whole:
        width = self._width(of)
        if width is None:
            raise Unsupported(f"signed({show(of)}): the width of its word is not known here")
        bits = (*whole.bits, *[FALSE] * width)[:width]
        return Whole(bits, whole.unknown)

    def _width(self, node: Node) -> int | None:
        match node:
            case Timed(what=Name() as name):
                return len(self._nets(name))
            case Name(steps=(Slice(high=Number(value=high), low=Number(value=low)),)):
                return high - low + 1
            case Name():
                return next((o.width for o in self.design.operands if o.name == show(node)), None)
        return None


_SELECTED: Final = re.compile(r"(?P<base>.+)\((?P<high>\d+)(\.\.(?P<low>\d+))?\)")


def settle(
    design: Design,
    truth: Node,
    fixed: Mapping[str, int] | None = None,
    *,
    limit: float = LIMIT,
    progress: Progress | None = None,
) -> Settled:
    """Find out whether a truth about a run holds for all operands.

    Parameters
    ----------
    design : Design
    truth : Node
        Grounded: every time is ``after`` and a number; names are operands, parameters and
        nets as the design calls them.
    fixed : mapping of str to int, optional
        Operands that keep one value.
    limit : float
        Seconds for a proof.
    progress : function, optional
        Told (sets done, sets in all) while all sets are gone through.

    Raises
    ------
    Unsupported
        A formula that has no form as terms; the caller goes through the sets one by one.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> design = catalogue.design("serial-adder", n=12)
    >>> settled = settle(design, formula.parse("S after 24 == (a + b) mod 4096"))
    >>> settled.outcome, settled.how
    ('proved', 'checked on all 16,777,216 operand pairs')
    """
    began = time.perf_counter()
    fixed = dict(fixed or {})
    free = [operand for operand in design.operands if operand.name not in fixed]
    terms = Terms()
    for operand in design.operands:
        for i in range(operand.width if operand.name in fixed else 0):
            terms.fix(Variable(operand.name, i), fixed[operand.name] >> i & 1)
    wrong = _wrong(design, truth, terms)
    if wrong in (FALSE, TRUE):
        found = None if wrong == FALSE else dict.fromkeys((o.name for o in free), 0)
        return _told(found, fixed, began, _everywhere(free), "native", "structure")
    space = Space(tuple((operand.name, operand.width) for operand in free))
    if _seconds_for(space, len(terms.reached([wrong]))) <= PATIENCE:
        maker = native.best()
        numbers = native.first(terms, wrong, space, maker=maker, progress=progress)
        found = space.decode(numbers[0]) if numbers else None
        if found is not None:
            found = _smallest(design, truth, fixed, found)
        return _told(found, fixed, began, _everywhere(free), "native", maker.name)
    return _proved(design, truth, fixed, limit, began)


def _wrong(design: Design, truth: Node, terms: Terms) -> Term:
    """True where the formula is false, or has no value because of an X."""
    rows = unroll(design, terms)
    scope = Grounded(design, Words(terms), rows, given(design, terms))
    value = lower(truth, terms, scope)
    if isinstance(value, Whole):
        raise Unsupported(f"{show(truth)} is a number, not a truth")
    return terms.both(value.one, value.unknown ^ 1) ^ 1


def _seconds_for(space: Space, nodes: int) -> float:
    bits = sum(width for _, width in space.widths)
    if bits > LARGEST:
        return float("inf")
    maker = native.best()
    rate = _RATE if isinstance(maker, native.Vectors) else _SLICES_RATE
    return max(1, (1 << bits) >> maker.lane_bits) * nodes / rate


def _smallest(
    design: Design, truth: Node, fixed: Mapping[str, int], found: Mapping[str, int]
) -> Mapping[str, int]:
    """The counterexample with the fewest ones, then the smallest; `found` if that takes long."""
    asked = _asked(design, truth, fixed, 3.0)
    return asked.counterexample.operands if asked.counterexample else found


def _asked(
    design: Design, truth: Node, fixed: Mapping[str, int], limit: float
) -> outcome.Proof:
    def claim(terms: Terms, rows: Sequence[Row]) -> Term:
        scope = Grounded(design, Words(terms), rows, given(design, terms))
        value = lower(truth, terms, scope)
        if isinstance(value, Whole):
            raise Unsupported(f"{show(truth)} is a number, not a truth")
        return terms.both(value.one, value.unknown ^ 1)

    return proof.prove(design, claim, given=fixed, seconds=limit)


def _proved(
    design: Design, truth: Node, fixed: Mapping[str, int], limit: float, began: float
) -> Settled:
    asked = _asked(design, truth, fixed, limit)
    operands = asked.counterexample.operands if asked.counterexample else None
    how = "proved by SAT" if asked.outcome == "proved" else "refuted by SAT"
    if asked.outcome == "undecided":
        how = f"undecided: SAT found no proof in {limit:g} s"
    return Settled(
        asked.outcome, how, "proof", time.perf_counter() - began, operands, str(asked)
    )


def _told(
    found: Mapping[str, int] | None,
    fixed: Mapping[str, int],
    began: float,
    how: str,
    engine: str,
    detail: str,
) -> Settled:
    whole = None if found is None else {**fixed, **found}
    outcome_: outcome.Outcome = "proved" if found is None else "refuted"
    return Settled(outcome_, how, engine, time.perf_counter() - began, whole, detail)


def _everywhere(free: Sequence[Operand]) -> str:
    bits = sum(operand.width for operand in free)
    what = {1: "values of the operand", 2: "operand pairs"}
    if not free:
        return "checked on this run"
    return f"checked on all {1 << bits:,} {what.get(len(free), 'sets of operands')}"
