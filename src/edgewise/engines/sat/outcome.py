"""How a question about all operands came out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from edgewise.errors import Fact, Message
from edgewise.trace import Trace

Outcome: TypeAlias = Literal["proved", "refuted", "undecided"]
"""What is known in the end."""


@dataclass(frozen=True, slots=True)
class Counterexample:
    """Operands for which a claim is false, and the run that shows it.

    Parameters
    ----------
    operands : mapping of str to int
    trace : Trace
        Their run on the reference engine.
    row : int
        The first row in which the claim is seen to be false.
    what : str
        The output that is wrong, where the claim speaks of outputs.
    other : Trace, optional
        The run of the other design, where two were compared.
    smallest : bool
        Whether no operands with fewer ones, and with as many ones no smaller operands (in
        order, the first counting most), break the claim; False if time was up before.
    """

    operands: Mapping[str, int]
    trace: Trace
    row: int
    what: str = ""
    other: Trace | None = None
    smallest: bool = True


@dataclass(frozen=True, slots=True)
class Proof:
    """How a question came out.

    Parameters
    ----------
    outcome : Outcome
    method : str
        ``SAT``; ``structure`` where both sides fold to the same terms; ``k-induction``.
    seconds : float
    clauses, variables, conflicts : int
        What the solver was given, and how often it had to turn back, until the answer stood.
    k : int, optional
        For k-induction: how many rows in a row had to be right for the next to be right.
    counterexample : Counterexample, optional
        There if refuted.
    reason : Fact
        Why it is undecided.

    Examples
    --------
    >>> print(Proof("proved", "SAT", 0.031, clauses=2505, variables=698))
    proved by SAT (2,505 clauses over 698 variables, 0.03 s)
    """

    outcome: Outcome
    method: str
    seconds: float
    clauses: int = 0
    variables: int = 0
    conflicts: int = 0
    k: int | None = None
    counterexample: Counterexample | None = None
    reason: Fact = ""

    def __str__(self) -> str:
        told = Message(
            "proof",
            outcome=self.outcome,
            method=self.method,
            clauses=self.clauses,
            variables=self.variables,
            depth="" if self.k is None else Message("proof-depth", k=self.k),
            seconds=f"{self.seconds:.2f}",
            reason=self.reason and Message("proof-reason", reason=self.reason),
        )
        return str(told)
