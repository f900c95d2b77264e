"""A design: circuit, procedure, operands, and what it computes."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final

from edgewise.arithmetic import FUNCTIONS, Value, call, evaluate, number
from edgewise.bits import Word, X
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Circuit, Tie
from edgewise.circuit.netlist import Netlist
from edgewise.codes import UNSIGNED, Code
from edgewise.errors import (
    DesignError,
    EdgewiseError,
    Message,
    Place,
    TextError,
    nearest,
    raise_all,
)
from edgewise.formula import Name, Select, Timed, show
from edgewise.operands import Operands, checked, families
from edgewise.procedure import Feed, Operand, OperandBit, Phase, Purpose, Source, feed
from edgewise.waveform import Waveform

__all__ = [
    "MOST_EDGES",
    "Design",
    "Feed",
    "Given",
    "Operand",
    "OperandBit",
    "Phase",
    "Purpose",
    "Source",
    "feed",
]

MOST_EDGES: Final = 100_000
"""Edges of a whole procedure, at most."""
MOST_FED: Final = 10_000_000
"""Edges times bits of inputs, at most."""
MOST_HELD: Final = 50_000_000
"""Edges times nets, at most."""


@dataclass(frozen=True)
class Design:
    """One circuit, one procedure, its operands, and what it computes.

    Parameters
    ----------
    name : str
        As commands know it: ``serial-adder``.
    circuit : Circuit
    parameters : mapping of str to int
        The numbers that it was built with.
    operands : tuple of Operand
    procedure : tuple of Phase
        Empty: no edges; row 0 is the answer.
    computes : tuple of Purpose
    place : Place, optional
    chosen : mapping of str to int
        Those of the parameters that were given; the others follow their defaults, which may be
        formulas in these.
    altered : Netlist, optional
        Runs in place of the flattened circuit: a wrong idea or a fault that no wiring of the
        same parts could show.
    flat : (Circuit, Netlist), optional
        A circuit flattened before; used if it is the very one of this design.
    base : str
        The name of the design that this one was changed from; empty where it was not.
    waveforms : tuple of Waveform
        What inputs are fed where the design is followed in time, without a procedure.

    Raises
    ------
    EdgewiseError
        On use, if circuit and procedure don't fit; see `check`.
    """

    name: str
    circuit: Circuit
    parameters: Mapping[str, int] = field(default_factory=dict)
    operands: tuple[Operand, ...] = ()
    procedure: tuple[Phase, ...] = ()
    computes: tuple[Purpose, ...] = ()
    place: Place | None = field(default=None, compare=False)
    altered: Netlist | None = None
    chosen: Mapping[str, int] = field(default_factory=dict, compare=False)
    flat: tuple[Circuit, Netlist] | None = field(default=None, compare=False, repr=False)
    base: str = field(default="", compare=False)
    waveforms: tuple[Waveform, ...] = ()

    @cached_property
    def netlist(self) -> Netlist:
        """The flat circuit."""
        if self.altered is not None:
            return self.altered
        if self.flat is not None and self.flat[0] is self.circuit:
            return self.flat[1]
        return flatten(self.circuit)

    def in_time(self) -> Design:
        """The same design, to be followed in time only: it may have loops and clocks of its own.

        Raises
        ------
        EdgewiseError or Problems
            For what is wrong with its wiring apart from that.

        Examples
        --------
        >>> from edgewise import blueprint
        >>> text = "{circuit: ring, parts: {N: {part: not, in: N.out}}, outputs: {y: N.out}}"
        >>> [gate.name for gate in blueprint.from_text(text, "").made().in_time().netlist.gates]
        ['N']
        """
        return replace(self, altered=flatten(self.circuit, in_time=True))

    @cached_property
    def edges(self) -> int:
        """Number of clock edges of the whole procedure."""
        return sum(phase.edges for phase in self.procedure)

    @cached_property
    def spans(self) -> tuple[tuple[Phase, int, int], ...]:
        """Each phase with its first and its last edge (last < first for one without edges)."""
        spans, last = [], 0
        for phase in self.procedure:
            spans.append((phase, last + 1, last + phase.edges))
            last += phase.edges
        return tuple(spans)

    @cached_property
    def stretches(self) -> tuple[tuple[Phase, int, int], ...]:
        """Each phase that has edges, with the first and the last row that hold its inputs.

        Row k holds what edge k + 1 samples, so these rows begin one before the phase's first
        edge. The last phase goes on in the last row.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> design = catalogue.design("serial-adder", n=6)
        >>> [(phase.name, first, last) for phase, first, last in design.spans]
        [('load', 1, 6), ('add', 7, 12)]
        >>> [(phase.name, first, last) for phase, first, last in design.stretches]
        [('load', 0, 5), ('add', 6, 12)]
        """
        return tuple(
            (phase, first - 1, last - (last < self.edges))
            for phase, first, last in self.spans
            if first <= last
        )

    def phase_at(self, row: int) -> Phase | None:
        """The phase whose inputs stand in a row; None where there are no edges."""
        for phase, first, last in self.stretches:
            if first <= row <= last:
                return phase
        return None

    def phase_of(self, edge: int) -> Phase | None:
        """The phase to which an edge belongs; None for edge 0, the start."""
        # A phase without edges ends where the one before it ends, so that it is never the first.
        found = bisect_left(self._last_edges, edge) if edge > 0 else len(self.spans)
        return self.spans[found][0] if found < len(self.spans) else None

    @cached_property
    def _last_edges(self) -> tuple[int, ...]:
        return tuple(last for _, _, last in self.spans)

    def check(self) -> Design:
        """The design itself, once circuit, procedure and purposes were found to fit.

        Raises
        ------
        EdgewiseError or Problems
            Everything that is wrong.
        """
        raise_all(self._faults())
        return self

    def _faults(self) -> Iterator[EdgewiseError]:
        try:
            netlist = self.netlist
        except EdgewiseError as wrong:
            yield from wrong.parts()
            return
        operands = {operand.name: operand for operand in self.operands}
        if self.edges > MOST_EDGES:
            yield DesignError(
                Message("procedure-long", edges=self.edges, most=MOST_EDGES), self.place
            )
        yield from self._run_faults(netlist)
        yield from self._phase_faults()
        places = {net.name: net.place for net in self.circuit.inputs}
        for name, bits in netlist.inputs.items():
            if name in operands and operands[name].width != len(bits):
                yield DesignError(
                    Message(
                        "input-width", name=name, width=len(bits), operand=operands[name].width
                    ),
                    operands[name].place,
                )
            elif name not in operands and not self.procedure:
                yield DesignError(
                    Message("input-unfed", name=name), places[name] or self.circuit.place
                )
        for (first, one), *others in self._declared.values():
            for name, other in others:
                if one != other:
                    told = Message(
                        "codes-differ", first=first, one=one.name, name=name, other=other.name
                    )
                    yield DesignError(told, self.place)
        for purpose in self.computes:
            yield from self._purpose_faults(purpose)

    def _run_faults(self, netlist: Netlist) -> Iterator[EdgewiseError]:
        fed = sum(map(len, netlist.inputs.values()))
        for bits, most, what in (
            (fed, MOST_FED, "inputs"),
            (netlist.size, MOST_HELD, "nets"),
        ):
            if self.edges <= MOST_EDGES and self.edges * bits > most:
                yield DesignError(
                    Message("run-large", edges=self.edges, count=bits, what=what, most=most),
                    self.place,
                )

    def _phase_faults(self) -> Iterator[EdgewiseError]:
        seen: set[str] = set()
        for phase in self.procedure:
            if phase.name in seen:
                yield DesignError(Message("phase-twice", name=phase.name), phase.place)
            seen.add(phase.name)
            fed = {given.input for given in phase.feeds} | {
                operand.name for operand in self.operands
            }
            for name in self.netlist.inputs:
                if name not in fed:
                    yield DesignError(
                        Message("phase-input-unfed", phase=phase.name, name=name), phase.place
                    )
            for given in phase.feeds:
                yield from self._feed_faults(given, phase)

    def _feed_faults(self, feed: Feed, phase: Phase) -> Iterator[EdgewiseError]:
        inputs, place = self.netlist.inputs, feed.place or phase.place
        if feed.input not in inputs:
            yield DesignError(
                Message(
                    "phase-input-unknown",
                    phase=phase.name,
                    name=feed.input,
                    suggestion=nearest(feed.input, inputs),
                ),
                place,
            )
            return
        width, serial = len(inputs[feed.input]), feed.order != "held"
        if serial and width != 1:
            yield DesignError(
                Message("fed-serially", name=feed.input, width=width, order=feed.order), place
            )
        elif isinstance(feed.what, str):
            widths = {operand.name: operand.width for operand in self.operands}
            given = widths.get(feed.what)
            if given is None:
                yield DesignError(
                    Message(
                        "operand-unknown", name=feed.what, suggestion=nearest(feed.what, widths)
                    ),
                    place,
                )
            elif given != width and not serial:
                told = Message(
                    "fed-width",
                    phase=phase.name,
                    name=feed.input,
                    width=width,
                    operand=feed.what,
                    given=given,
                )
                yield DesignError(told, place)
        elif isinstance(feed.what, int):
            room = phase.edges if serial else width
            if not room:
                return
            if feed.what < 0 or feed.what >> room:
                told = Message(
                    "fed-number",
                    phase=phase.name,
                    name=feed.input,
                    number=feed.what,
                    most=(1 << room) - 1,
                    count=room,
                    unit="edges" if serial else "bits",
                )
                yield DesignError(told, place)

    def _purpose_faults(self, purpose: Purpose) -> Iterator[EdgewiseError]:
        if purpose.output not in self.netlist.outputs:
            known = nearest(purpose.output, self.netlist.outputs)
            yield DesignError(
                Message("output-unknown-design", name=purpose.output, suggestion=known),
                purpose.place,
            )
        if purpose.after is not None and not 0 <= purpose.after <= self.edges:
            yield DesignError(
                Message(
                    "purpose-outside", output=purpose.output, after=purpose.after, last=self.edges
                ),
                purpose.place,
            )
        # A formula may have no value for some operands (a div b at b = 0); it is wrong if it
        # has none for any of these.
        first: EdgewiseError | None = None
        largest = {operand.name: operand.numbers[-1] for operand in self.operands}
        ones = {name: min(most, 1) for name, most in largest.items()}
        for operands in (ones, largest, dict.fromkeys(largest, 0)):
            try:
                self._purpose(purpose, operands)
            except EdgewiseError as wrong:
                first = first or wrong
            else:
                return
        if first:
            told = Message("within", what=show(purpose.formula), told=first.told)
            yield DesignError(told, first.place or purpose.place)

    # ------------------------------------------------------------------ a run's inputs

    def values(
        self, given: Mapping[str, int | Sequence[int]], place: Place | None = None
    ) -> Operands:
        """The operands of one run, checked once; a family may be given as a list.

        Raises
        ------
        DesignError or Problems
            Missing, unknown, negative, too large, or the wrong count; the message gives the
            range.
        """
        return checked(self.operands, given, place)

    @cached_property
    def families(self) -> Mapping[str, tuple[str, ...]]:
        """Operands that belong together: ``w`` stands for ``w(1)``, ``w(2)`` and so on."""
        return families(self.operands)

    @cached_property
    def schedule(self) -> tuple[Mapping[str, tuple[Source, ...]], ...]:
        """For each row 0 … edges, what each input is fed: its bits, LSB first.

        Row k holds what edge k+1 will sample. The last row goes on as if its phase had one
        more edge.
        """
        widths = {operand.name: operand.width for operand in self.operands}
        resting: dict[str, tuple[Source, ...]] = {
            name: tuple(OperandBit(name, i) for i in range(len(bits)))
            for name, bits in self.netlist.inputs.items()
            if name in widths
        }
        rows: list[Mapping[str, tuple[Source, ...]]] = []
        phases = [phase for phase in self.procedure if phase.edges]
        for phase in phases:
            extra = phase is phases[-1]
            for step in range(phase.edges + extra):
                fed = {f.input: self._fed(f, step, phase.edges, widths) for f in phase.feeds}
                rows.append({**resting, **fed})
        if not rows:
            last = self.procedure[-1].feeds if self.procedure else ()
            rows.append({**resting, **{f.input: self._fed(f, 0, 0, widths) for f in last}})
        return tuple(rows)

    def _fed(
        self, feed: Feed, step: int, edges: int, widths: Mapping[str, int]
    ) -> tuple[Source, ...]:
        if feed.order == "held":
            indices = range(len(self.netlist.inputs[feed.input]))
        else:
            bits = widths[feed.what] if isinstance(feed.what, str) else edges
            index = step if feed.order == "lsb-first" else max(edges, bits) - 1 - step
            indices = range(index, index + 1)
        match feed.what:
            case None:
                return tuple(Tie(X) for _ in indices)
            case int(value):
                return tuple(Tie(value >> i & 1 if i >= 0 else 0) for i in indices)
            case str(name):
                width = widths[name]
                return tuple(OperandBit(name, i) if 0 <= i < width else Tie(0) for i in indices)

    def patterns(self, operands: Mapping[str, int]) -> dict[str, int]:
        """The bits of operands, bit 0 the LSB; of those that there are.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> catalogue.design("serial-adder", n=4).patterns({"a": 6, "b": 3})
        {'a': 6, 'b': 3}
        """
        if isinstance(operands, Operands) and operands.of == self.operands:
            return operands.patterns
        return {o.name: o.pattern(operands[o.name]) for o in self.operands if o.name in operands}

    @cached_property
    def codes(self) -> Mapping[str, Code]:
        """The code of each output: which numbers its words stand for."""
        return {output.name: output.code for output in self.circuit.outputs}

    @cached_property
    def coded(self) -> Mapping[tuple[int, ...], Code]:
        """The codes other than unsigned, by the nets of their words, LSB first.

        An input is read in the code of the operand of its name.
        """
        return {nets: codes[-1][1] for nets, codes in self._declared.items()}

    @cached_property
    def _declared(self) -> Mapping[tuple[int, ...], list[tuple[str, Code]]]:
        """What is declared of words that are not unsigned: by name, operands before outputs."""
        of, netlist = {one.name: one.code for one in self.operands}, self.netlist
        named = [(name, of[name], nets) for name, nets in netlist.inputs.items() if name in of]
        outputs = ((name, self.codes.get(name), nets) for name, nets in netlist.outputs.items())
        named += [(name, code, nets) for name, code, nets in outputs if code is not None]
        found: dict[tuple[int, ...], list[tuple[str, Code]]] = {}
        for name, code, nets in named:
            if code != UNSIGNED:
                found.setdefault(nets, []).append((name, code))
        return found

    def read(self, output: str, word: Word) -> int | None:
        """The number that an output's word stands for.

        None where no number has it: with an X, or with a BCD digit above 9.
        """
        return self.codes[output].number(word.ones, word.width) if word.known else None

    def expected(self, operands: Mapping[str, int]) -> dict[str, int]:
        """The number that each purpose says, by output; a truth is 1 or 0."""
        return {purpose.output: self._purpose(purpose, operands) for purpose in self.computes}

    def _purpose(self, purpose: Purpose, operands: Mapping[str, int]) -> int:
        value = evaluate(purpose.formula, Given(self, operands))
        return int(value) if isinstance(value, bool) else number(value)


@dataclass(frozen=True, slots=True)
class Given:
    """The scope of a purpose: parameters, operands, functions, and ``total(w)`` of a family."""

    design: Design
    operands: Mapping[str, int]

    def look_up(self, name: Name) -> Value:
        """A parameter, an operand, or a function of numbers."""
        match name.steps:
            case ():
                if name.base in self.operands:
                    return self.operands[name.base]
                if name.base in self.design.parameters:
                    return self.design.parameters[name.base]
            case (Select(items=(Name(base=family, steps=()),)),) if name.base == "total":
                if family in self.design.families:
                    return sum(self.operands[member] for member in self.design.families[family])
                raise TextError(Message("operand-family-unknown", name=family))
            case (Select(items=items),) if name.base in FUNCTIONS:
                return call(name.base, [number(evaluate(item, self)) for item in items])
            case (Select(items=(index,)),):
                member = f"{name.base}({number(evaluate(index, self))})"
                if member in self.operands:
                    return self.operands[member]
        known = nearest(show(name), [*self.operands, *self.design.parameters])
        raise TextError(Message("operand-or-parameter-unknown", name=show(name), suggestion=known))

    def at_time(self, timed: Timed) -> Value:
        """Refused: a purpose speaks of operands only."""
        raise TextError(Message("purpose-timed", relation=timed.relation))
