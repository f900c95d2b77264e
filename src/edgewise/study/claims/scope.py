"""What names and times mean in a formula about a run."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from edgewise.arithmetic import FUNCTIONS, Value, call, evaluate, number
from edgewise.bits import Word
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message, Place, TextError, UnknownBit, nearest
from edgewise.formula import (
    Binary,
    Dot,
    Name,
    Node,
    Number,
    Select,
    Slice,
    Step,
    Timed,
    Unary,
    show,
)
from edgewise.study.claims.run import WORD_FUNCTIONS, Reading, Run, of_word

Kind: TypeAlias = Literal["function", "total", "fixed", "operand", "net"]
"""What a name stands for; ``fixed`` is a number that is the same in every run."""

_WORDS: Final = ("edges", "end", "total", *WORD_FUNCTIONS, *FUNCTIONS)


@dataclass(frozen=True, slots=True)
class Scope:
    """The names of one run: nets at a row, operands, parameters, phases, ``edges``, ``end``.

    Parameters
    ----------
    run : Run
    row : int, optional
        Row in which a net without a time of its own is read. Without one, such a net is an
        error, but in a design without edges, where it is row 0.
    instead : int, optional
        Row read in place of every time in the formula.
    counting : bool
        Whether this is the time of an ``after``, where a phase's name means its last edge.
    place : Place, optional
        Where the formula begins, for errors.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> run = Run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
    >>> str(evaluate(parse("S(1..0) after load + 2"), Scope(run)))
    '00'
    >>> str(evaluate(parse("A after load"), Scope(run)))
    '010110'
    """

    run: Run
    row: int | None = None
    instead: int | None = None
    counting: bool = False
    place: Place | None = None

    @property
    def design(self) -> Design:
        """The design of the run."""
        return self.run.design

    def look_up(self, name: Name) -> Value:
        """The value of a name."""
        try:
            for kind in self._kinds():
                if (found := kind(name)) is not None:
                    return found
        except EdgewiseError as wrong:
            if isinstance(wrong, UnknownBit):
                raise
            raise wrong.placed(self._spot(name)) from None
        known = nearest(show(name), self._names(dotted=bool(name.steps)))
        raise TextError(
            Message("name-unknown-here", name=show(name), suggestion=known), self._spot(name)
        )

    def at_time(self, timed: Timed) -> Value:
        """``what after k``: `what` in row k; ``before k``: in row k - 1."""
        return evaluate(timed.what, replace(self, row=self.row_of(timed), counting=False))

    def row_of(self, timed: Timed) -> int:
        """The row that a time means.

        Raises
        ------
        TextError
            If the run has no such edge.
        """
        if self.instead is not None:
            return self.instead
        edge = number(evaluate(timed.when, replace(self, counting=True, row=None)))
        if timed.relation == "before":
            if not 1 <= edge <= self.design.edges:
                raise TextError(
                    Message("edge-unknown", timed=show(timed), edge=edge, edges=self._edges_are(1)),
                    self._spot(timed),
                )
            return edge - 1
        if not 0 <= edge <= self.design.edges:
            raise TextError(
                Message("edge-unknown", timed=show(timed), edge=edge, edges=self._edges_are(0)),
                self._spot(timed),
            )
        return edge

    def canonical(self, name: Name) -> str:
        """The name with its indices worked out: ``S(n-1)`` is ``S(5)``."""
        return show(self.settled(name))

    def settled(self, name: Name) -> Name:
        """The name with numbers for its indices."""
        return Name(name.base, tuple(self._settled(step) for step in name.steps), name.at)

    def net_name(self, name: Name) -> str:
        """`canonical`, found to name a net, port, word, bit or slice of the circuit.

        Raises
        ------
        EdgewiseError
            If it does not; the nearest name is suggested.
        """
        if not self._is_net(name):
            nets = self.design.netlist.top_names
            known = nearest(show(name), [n for n in nets if name.steps or "." not in n])
            raise TextError(
                Message("name-unknown-here", name=show(name), suggestion=known), self._spot(name)
            )
        found = self.canonical(name)
        self.design.netlist.find(found, self._spot(name))
        return found

    def kind(self, name: Name) -> Kind:
        """What a name stands for, by the same order as `look_up`.

        Raises
        ------
        EdgewiseError
            As `look_up` does, if there is nothing of that name.
        """
        match name.steps:
            case (Select(),) if name.base in (*FUNCTIONS, *WORD_FUNCTIONS):
                return "function"
            case (Select(items=(Name(base=family, steps=()),)),) if name.base == "total":
                if family in self.design.families:
                    return "total"
        for kind, found in zip(self._order(), self._kinds(), strict=True):
            if found(name) is not None:
                return kind
        self.look_up(name)  # raises
        raise AssertionError(show(name))

    # ------------------------------------------------------------------ kinds of names

    def _order(self) -> tuple[Kind, ...]:
        if self.row is not None:
            return ("fixed", "net", "operand", "fixed")
        return ("fixed", "operand", "fixed", "net")

    def _kinds(self) -> tuple[Callable[[Name], Value | None], ...]:
        """What a name may be, the likeliest first."""
        if self.row is not None:
            return (self._fixed, self._net, self._operand, self._parameter)
        return (self._fixed, self._operand, self._parameter, self._timeless_net)

    def _fixed(self, name: Name) -> Value | None:
        if self.counting and (last := self._phase(name)) is not None:
            return last
        match name.steps:
            case ():
                return self.design.edges if name.base in ("edges", "end") else None
            case (Select(items=items),) if name.base in FUNCTIONS:
                return call(name.base, [number(evaluate(item, self)) for item in items])
            case (Select(items=(item,)),) if name.base in WORD_FUNCTIONS:
                return of_word(name.base, evaluate(item, self))
            case (Select(items=(Name() as of,)),) if name.base == "edges":
                return self._edges_in(of)
            case (Select(items=(Name(base=family, steps=()),)),) if name.base == "total":
                return self._total(family)
        return None

    def _phase(self, name: Name) -> int | None:
        """Number of the last edge of a phase, or of the last of a family of phases."""
        if any(isinstance(step, Dot | Slice) for step in name.steps):
            return None
        wanted = self.canonical(name) if name.steps else name.base
        ends = [
            last
            for phase, _, last in self.design.spans
            if phase.name == wanted or phase.name.startswith(f"{wanted}(")
        ]
        return max(ends) if ends else None

    def _edges_in(self, name: Name) -> int:
        wanted = self.canonical(name)
        counts = [
            phase.edges
            for phase in self.design.procedure
            if phase.name == wanted or phase.name.startswith(f"{wanted}(")
        ]
        if not counts:
            known = nearest(wanted, [phase.name for phase in self.design.procedure])
            raise TextError(Message("phase-unknown", name=wanted, suggestion=known))
        return sum(counts)

    def _total(self, family: str) -> int:
        families = self.design.families
        if family not in families:
            raise TextError(
                Message("total-of", name=family, suggestion=nearest(family, families))
                if families
                else Message("total-of-none", name=family)
            )
        return sum(self.run.operands[member] for member in families[family])

    def _operand(self, name: Name) -> Value | None:
        known = {operand.name: operand for operand in self.design.operands}
        whole, steps = name.base, name.steps
        if whole not in known and steps and isinstance(steps[0], Select):
            whole, steps = show(self.settled(Name(whole, steps[:1]))), steps[1:]
        if whole not in known:
            if name.base in self.design.families:
                members = self.design.families[name.base]
                raise TextError(
                    Message(
                        "operand-member-unknown",
                        name=show(name),
                        first=members[0],
                        last=members[-1],
                    )
                    if name.steps
                    else Message("operand-family-whole", name=name.base, first=members[0])
                )
            return None
        value = self.run.operands[whole]
        if not steps:
            return value
        word = Word(known[whole].width, known[whole].pattern(value))
        match steps:
            case (Slice(high=high, low=low),):
                return word.slice(self._number(high), self._number(low))
            case (Select(items=(index,)),):
                return Word(1, word.bit(self._number(index)))
        return None

    def _parameter(self, name: Name) -> Value | None:
        return None if name.steps else self.design.parameters.get(name.base)

    def _is_net(self, name: Name) -> bool:
        names = self.design.netlist.names
        dotted = name.base
        if dotted in names:
            return True
        for step in name.steps:
            dotted += show(Name("", (self._settled(step),)))
            if dotted in names:
                return True
        return False

    def _net(self, name: Name) -> Value | None:
        if not self._is_net(name):
            return None
        row = self.row or 0
        wanted = self.canonical(name)
        word = self.run.trace.word(wanted, row)
        what = f"{wanted} after {row}" if self.design.edges else wanted
        return Reading(word.width, word.ones, word.unknown, word.code, what)

    def _timeless_net(self, name: Name) -> Value | None:
        edges = self.design.edges
        if not self._is_net(name):
            return None
        if self.counting:
            raise TextError(Message("word-for-edge", name=show(name)))
        if not edges:
            return self._net(name)
        raise TextError(
            Message("name-timeless", name=show(name), last=edges, edges=self._edges_are(0))
        )

    # ------------------------------------------------------------------ words for messages

    def _edges_are(self, first: int) -> Message:
        return Message("edges-there", first=first, last=self.design.edges)

    def _names(self, *, dotted: bool) -> Iterator[str]:
        """What could have been meant; ports and bits only if one was asked for."""
        yield from _WORDS
        yield from (operand.name for operand in self.design.operands)
        yield from self.design.families
        yield from self.design.parameters
        names = self.design.netlist.top_names
        yield from (name for name in names if dotted or "." not in name)
        if self.counting:
            yield from (phase.name for phase in self.design.procedure)

    def _spot(self, node: Node) -> Place | None:
        return self.place and self.place.moved(node.at)

    def _number(self, node: Node) -> int:
        return number(evaluate(node, replace(self, row=None, counting=False)))

    def _settled(self, step: Step) -> Step:
        match step:
            case Dot():
                return step
            case Slice(high=high, low=low):
                return Slice(Number(self._number(high)), Number(self._number(low)))
            case Select(items=items):
                return Select(tuple(Number(self._number(item)) for item in items))


def shown(value: Value) -> str:
    """A value as a lesson prints it: a word as its bits, a number in decimal, a truth in words.

    Examples
    --------
    >>> shown(Word.parse("0X1")), shown(65), shown(True)
    ('0X1', '65', 'true')
    """
    return str(value).lower() if isinstance(value, bool) else str(value)


def times(node: Node) -> Iterator[Timed]:
    """Every time in a formula, from left to right.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> [show(t) for t in times(parse("(S after 2) + signed(A after 3) == 1"))]
    ['S after 2', 'A after 3']
    """
    match node:
        case Timed():
            yield node
        case Unary(operand=operand):
            yield from times(operand)
        case Binary(left=left, right=right):
            yield from times(left)
            yield from times(right)
        case Name(steps=steps):
            for step in steps:
                for item in step.items if isinstance(step, Select) else ():
                    yield from times(item)
