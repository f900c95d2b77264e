"""What came of a question about all operands, in sentences and as data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from edgewise.codes import UNSIGNED
from edgewise.design import Design
from edgewise.engines.sat.outcome import Outcome
from edgewise.formula import Node, Timed, names_in, show
from edgewise.study.claims.carry_leak import Leak
from edgewise.study.claims.evidence import Evidence
from edgewise.study.claims.explanation import Reason
from edgewise.study.claims.holding_edges import Elsewhere
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope, times
from edgewise.trace import Trace
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words

_WIDE: Final = 92
"""Columns of a table."""
_ROWS: Final = 8
"""Rows read by a claim that are shown, at most: the last ones."""
_VERDICTS: Final[Mapping[str, str]] = {"proved": "true", "refuted": "false"}


@dataclass(frozen=True, slots=True)
class Question:
    """What was asked.

    Parameters
    ----------
    designs : tuple of str
        The design with its parameters; a second one that is to give the same answers.
    claim : str
        What is claimed of a single design, as claims are written.
    given : mapping of str to int
        Operands that keep one value.
    """

    designs: tuple[str, ...]
    claim: str = ""
    given: Mapping[str, int] = field(default_factory=dict)

    def lines(self, words: Words = ENGLISH) -> tuple[str, ...]:
        """The question, a line for each design and one for what is claimed."""
        told = self.claim or words("finding-same")
        given = equations(self.given.items(), "=")
        return *self.designs, words("finding-with", claim=told, given=given) if given else told

    def line(self, words: Words = ENGLISH) -> str:
        """The question on one line."""
        return ": ".join(self.lines(words))


@dataclass(frozen=True, slots=True)
class Difference:
    """An answer that two designs give differently.

    Parameters
    ----------
    output : str
    answers : tuple of (str, int, str)
        Of each design its name, the edge after which it answers (0 without edges), the answer.
    """

    output: str
    answers: tuple[tuple[str, int, str], tuple[str, int, str]]

    def told(self, words: Words) -> str:
        """``sum is 0001 (1) in one after edge 8, and 0010 (2) in other after edge 4``."""
        first, second = (
            words("finding-answer", value=value, design=design, edge=edge)
            for design, edge, value in self.answers
        )
        return words("finding-difference", output=self.output, first=first, second=second)


@dataclass(frozen=True, slots=True)
class Failure:
    """What is true instead of a false claim.

    Parameters
    ----------
    reason : Reason
    case : mapping of str to int
        The parameters of the design in which it is false, if it is claimed of many.
    instead : Elsewhere
        The rows at which it holds.
    """

    reason: Reason
    case: Mapping[str, int]
    instead: Elsewhere

    def told(self, words: Words) -> str:
        """A sentence or two."""
        case = equations(self.case.items(), "=")
        why = self.reason.told(words)
        said = words("finding-at", case=case, why=why) if case else words("finding-why", why=why)
        return f"{said} {self.instead.told(words)}".strip()


@dataclass(frozen=True, slots=True)
class Finding:
    """How a question came out.

    Parameters
    ----------
    asked : Question
    outcome : Outcome
        ``proved``, ``refuted`` or ``undecided``.
    evidence : Evidence
        How that was found.
    engine : str
        ``reference``, ``native``, ``proof`` or ``structure``.
    seconds : float
    detail : str
        What ran: vectors, clauses.
    parameters : mapping of str to int
        Of the design, or of the one of several in which the claim is false.
    operands : mapping of str to int
        Of a false claim: all operands of the run that shows it.
    smallest : bool
        Whether no operands with fewer ones, or as many and smaller, show it too.
    failure : Failure or Difference, optional
        Of a false claim: what is true instead.
    trace, other : Trace, optional
        Of a false claim: the run; and that of the other design, where two are compared.
    row : int, optional
        Where it goes wrong: the row to look at, and to draw.
    columns : tuple of str
        Words of that run to look at.
    rows : tuple of int
    leak : Leak, optional
        The carry that makes it false, if one alone does.
    """

    asked: Question
    outcome: Outcome
    evidence: Evidence
    engine: str
    seconds: float = field(compare=False)
    detail: str = field(compare=False)
    parameters: Mapping[str, int]
    operands: Mapping[str, int] = field(default_factory=dict)
    smallest: bool = True
    failure: Failure | Difference | None = None
    trace: Trace | None = field(default=None, repr=False)
    other: Trace | None = field(default=None, repr=False)
    row: int | None = None
    columns: tuple[str, ...] = ()
    rows: tuple[int, ...] = ()
    leak: Leak | None = None

    @property
    def holds(self) -> bool:
        """Whether it is true for all operands."""
        return self.outcome == "proved"

    @property
    def how(self) -> str:
        """``checked on all 16,777,216 operand pairs``, ``proved by SAT``."""
        return str(self.evidence)

    @property
    def why(self) -> tuple[str, ...]:
        """Of a false claim: what is true instead."""
        return (self.failure.told(ENGLISH),) if self.failure else ()

    def text(self, *, timed: bool = True) -> str:
        """The answer in sentences; `timed` adds what ran and how long.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> from edgewise.study.claims.proof_request import prove
        >>> print(prove(catalogue.find("serial-adder"), {"n": 12}).text(timed=False))
        serial-adder, n=12
        sum after 24 == (a + b) mod 2**n and carry after 24 == (a + b) div 2**n, for all a, b
        <BLANKLINE>
        True: checked on all 16,777,216 operand pairs.
        """
        told = [*self.asked.lines(), "", *self.answer(timed=timed)]
        told += ["", *self.leak.sentences()] if self.leak else []
        told += ["", self.table] if self.table else []
        return "\n".join(told)

    @property
    def table(self) -> str:
        """The rows to look at, as a table; empty if there are none."""
        if self.trace is None or not self.trace.edges or not self.rows:
            return ""
        return self.trace.text(self.columns, self.rows)

    def sentences(self, words: Words = ENGLISH) -> tuple[str, ...]:
        """The answer, and of a false claim the carry that makes it false."""
        return *self.answer(words), *(self.leak.sentences(words) if self.leak else ())

    def answer(self, words: Words = ENGLISH, *, timed: bool = False) -> tuple[str, ...]:
        """How it came out, and what is true instead; `timed` adds what ran and how long."""
        detail = f"{self.detail}, " if self.detail else ""
        ran = f" ({detail}{self.seconds:.2f} s)" if timed else ""
        if self.outcome == "undecided":
            told = words("finding-undecided", why=self.evidence.open(words), ran=ran)
            stuck = self.evidence.way == "not-inductive"
            return told, words("finding-claim-more" if stuck else "finding-more-time")
        if self.holds:
            return (words("finding-true", how=self.evidence.told(words), ran=ran),)
        given = equations(self.operands.items(), "=")
        kind = self._kind if given else "any"
        told = words("finding-false", kind=kind, operands=given, ran=ran)
        return told, *((self.failure.told(words),) if self.failure else ())

    @property
    def _kind(self) -> str:
        """Which of all operands they are; the word of a number with a sign tells no size."""
        of = self.trace.design.operands if self.trace else ()
        plain = all(operand.code == UNSIGNED for operand in of)
        return ("smallest" if plain else "fewest") if self.smallest else "some"

    def data(self) -> dict[str, Any]:
        """The answer as plain dictionaries and lists."""
        found: dict[str, Any] = {
            "asked": list(self.asked.lines()),
            "outcome": self.outcome,
            "holds": self.holds,
            "how": self.how,
            "engine": self.engine,
            "detail": self.detail,
            "seconds": round(self.seconds, 3),
            "parameters": dict(self.parameters),
        }
        if self.outcome == "refuted":
            found |= {
                "operands": dict(self.operands),
                "smallest": self.smallest,
                "why": list(self.why),
                "row": self.row,
            }
        if self.leak:
            found["leak"] = {"part": self.leak.part, "row": self.leak.row}
        if self.trace is not None and self.rows:
            heading, *lines = self.trace.table(self.columns, self.rows)
            found["rows"] = [
                {
                    "row": row,
                    "phase": line[1] or None,
                    "values": dict(zip(heading[2:], line[2:], strict=True)),
                }
                for row, line in zip(self.rows, lines, strict=True)
            ]
        return found


def called(design: Design, parameters: Mapping[str, int]) -> str:
    """The design that is asked about: ``serial-adder, n=4``."""
    return ", ".join([design.name, *(f"{name}={value}" for name, value in parameters.items())])


def free(design: Design, given: Mapping[str, int]) -> tuple[str, ...]:
    """The operands that are not given; a family by its name, unless members of it are given.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-accumulator", n=4, x=3)
    >>> free(design, {}), free(design, {"w(2)": 1})
    (('w',), ('w(1)', 'w(3)'))
    """
    families = {m: family for family, all_ in design.families.items() for m in all_}
    partly = {families[name] for name in given if name in families}
    names = (operand.name for operand in design.operands if operand.name not in given)
    told = (n if families.get(n, n) in partly else families.get(n, n) for n in names)
    return tuple(dict.fromkeys(told))


def last_row(claimed: Node, run: Run) -> int | None:
    """The last row that a claim reads; none if it reads no row."""
    scope = Scope(run)
    rows = [scope.row_of(timed) for timed in times(claimed)]
    return max(rows, default=None if run.design.edges else 0)


def around(row: int, answer: int, trace: Trace) -> tuple[int, ...]:
    """The rows about one of interest, and those of the answer."""
    rows = {row - 1, row, row + 1, answer - 1, answer}
    return tuple(sorted(r for r in rows if 0 <= r <= trace.edges))


def columns(trace: Trace, first: Sequence[str]) -> tuple[str, ...]:
    """Words for a table: those named first, and of the others as many as there is room for."""
    find = trace.design.netlist.find
    nets = {find(name): name for name in (*first, *trace.columns)}
    left = _WIDE
    chosen: set[tuple[int, ...]] = set()
    for bits in dict.fromkeys(find(name) for name in (*first, *trace.columns)):
        wide = max(len(bits), len(nets[bits])) + 2
        if wide <= left or not chosen:
            left -= wide
            chosen.add(bits)
    order = [find(name) for name in (*trace.columns, *first)]
    return tuple(nets[bits] for bits in dict.fromkeys(order) if bits in chosen)


def shown(claimed: Node, run: Run) -> str:
    """The rows that a claim reads, and those about the last, as a table; nothing if none.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> run = Run(catalogue.design("serial-adder", n=2), {"a": 0, "b": 1})
    >>> print(shown(parse("S after 3 == 1"), run))
    after edge  phase  shift  a_in  b_in  A   B   FA.sum  FA.carry-out  C  S
    ──────────  ─────  ─────  ────  ────  ──  ──  ──────  ────────────  ─  ──
             2  add    1      X     X     00  01  1       0             0  00
             3  add    1      X     X     X0  X0  0       0             0  10
             4  add    1      X     X     XX  XX  X       X             0  01
    """
    answer = last_row(claimed, run)
    if answer is None or not run.design.edges:
        return ""
    trace = run.trace
    scope = Scope(run)
    read = sorted({scope.row_of(timed) for timed in times(claimed)})[-_ROWS:]
    rows = sorted({*read, *around(answer, answer, trace)})
    return trace.text(columns(trace, words_in(claimed, run)), rows)


def words_in(claimed: Node, run: Run) -> tuple[str, ...]:
    """The words of the circuit that a claim reads in a row."""
    found = []
    for timed in times(claimed):
        found += _words(timed, Scope(run))
    return tuple(dict.fromkeys(found))


def _words(timed: Timed, scope: Scope) -> list[str]:
    known = scope.design.netlist.names
    return [show(name) for name in names_in(timed.what) if show(name) in known]
