"""Whether packages, as they are wired, compute the design: read off the wires, and proved.

The table of wires alone is read: pins that wires join are one net. Then the chips' own functions
are followed as terms, and compared with the design's gates and flip-flops for every state, every
input and both values of the clock.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from typing import Final

from edgewise.bits import X
from edgewise.circuit.truth import Truth, compiled
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import FALSE, TRUE, Exhausted, Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.lab.wiring.board import Board, Package, Pin
from edgewise.lab.wiring.continuity import Finding, Wiring
from edgewise.lab.wiring.mapping import CLOCK
from edgewise.lab.wiring.nets import Nets
from edgewise.lab.wiring.pieces import RESET, inverted

SECONDS: Final = 60.0


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check found; nothing found is a proof.

    Parameters
    ----------
    findings : tuple of Finding
    compared : int
        Bits compared: those that are stored, and those that lights show.
    chips : tuple of str
        Whose functions were followed.
    """

    findings: tuple[Finding, ...]
    compared: int
    chips: tuple[str, ...]

    @property
    def equal(self) -> bool:
        """Whether the board computes the design."""
        return not self.findings


def check(board: Board) -> Checked:
    """Compare a board with its design.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab.wiring import placement
    >>> board = placement.wired(catalogue.design("serial-adder", n=4))
    >>> check(board).equal, check(board).compared
    (True, 18)
    """
    wiring = Wiring(board)
    findings = tuple(wiring.faults())
    chips = tuple(dict.fromkeys(package.chip.name for package in board.packages))
    if findings:
        return Checked(findings, 0, chips)
    proof = _Proof(board, wiring)
    try:
        found = tuple(proof.findings())
    except _Loop as loop:
        found = (Finding("loop", str(loop)),)
    except Exhausted:
        found = (Finding("time", board.design.name),)
    return Checked(found, proof.compared, chips)


# ---------------------------------------------------------------------- chips as terms


@dataclass(frozen=True, slots=True)
class _Logic:
    """The operations of `edgewise.circuit.truth` on terms; an unknown bit counts as 0."""

    terms: Terms

    def constant(self, bit: int) -> Term:
        return TRUE if bit == 1 else FALSE

    def bit_not(self, a: Term) -> Term:
        return a ^ 1

    def all_of(self, bits: Sequence[Term]) -> Term:
        return self.terms.all_of(bits)

    def any_of(self, bits: Sequence[Term]) -> Term:
        return self.terms.any_of(bits)

    def odd(self, bits: Sequence[Term]) -> Term:
        return reduce(self.terms.differ, bits)

    def bit_mux(self, select: Term, when_0: Term, when_1: Term) -> Term:
        return self.terms.choose(select, when_0, when_1)

    def unsure(self, bit: Term) -> bool:
        del bit
        return False


class _Loop(Exception):  # it is caught here, and told as a finding
    """Outputs that feed themselves."""


@dataclass(frozen=True)
class _Moment:
    """The board as terms, for one level of the clock and of the power-up clear."""

    board: Board
    wiring: Wiring
    logic: _Logic
    clock: Term
    clear: Term
    state: Mapping[tuple[str, str], Term]
    inputs: Mapping[str, Term]
    _known: dict[Pin, Term | None]

    @cached_property
    def packages(self) -> Mapping[str, Package]:
        """By name."""
        return {package.name: package for package in self.board.packages}

    def net(self, pin: Pin) -> Term:
        """What stands on the net of a pin."""
        net = self.wiring.net(pin)
        if net in self._known:
            known = self._known[net]
            if known is None:
                raise _Loop(str(pin))
            return known
        self._known[net] = None
        ((of, end),) = self.wiring.drivers[net]
        if of in ("GND", "VCC"):
            found = TRUE if of == "VCC" else FALSE
        elif of not in self.packages:
            found = self.inputs[end]
        elif self._is_clock(of, end):
            found = self.clock if self.packages[of].nets[end] == CLOCK else self.clock ^ 1
        else:
            found = self.truth(self.packages[of], self.packages[of].chip.outputs[end])
        self._known[net] = found
        return found

    def _is_clock(self, of: str, end: str) -> bool:
        """Whether an output is one of the two across that make the clock of the button.

        They feed each other, which is why they hold; the terms take the clock as given there, and
        `_Proof.debounces` looks at the two by themselves.
        """
        return self.packages[of].nets.get(end) in (CLOCK, inverted(CLOCK))

    def truth(self, package: Package, truth: Truth) -> Term:
        """What a truth of a chip comes to."""
        reads = package.chip.reads(truth)
        bits = [self._bit(package, name) for name in reads]
        return compiled(truth, {name: i for i, name in enumerate(reads)}, self.logic)(bits)

    def _bit(self, package: Package, name: str) -> Term:
        if (package.name, name) in self.state:
            return self.state[package.name, name]
        return self.net(package.pin(name))


# ---------------------------------------------------------------------- the comparison


class _Proof:
    """The board and the design, compared bit by bit."""

    def __init__(self, board: Board, wiring: Wiring) -> None:
        self.board, self.wiring = board, wiring
        self.terms = Terms(deadline=time.monotonic() + SECONDS)
        self.logic = _Logic(self.terms)
        netlist = board.design.netlist
        self.stored = [self.terms.variable(Variable(one.name, 0)) for one in netlist.flip_flops]
        by_name = {one.name: t for one, t in zip(netlist.flip_flops, self.stored, strict=True)}
        self.state = {
            (package.name, bit.name): by_name[package.keeps[bit.name]]
            if bit.name in package.keeps
            else self.terms.variable(Variable(f"{package.name} {bit.name}", 1))
            for package in board.packages
            for bit in package.chip.stored
        }
        self.fed = {
            name: [self.terms.variable(Variable(name, i, 0)) for i in range(len(nets))]
            for name, nets in netlist.inputs.items()
        }
        self.inputs = {
            netlist.labels[net]: self.fed[name][i]
            for name, nets in netlist.inputs.items()
            for i, net in enumerate(nets)
        }
        self.compared = 0

    def moment(self, clock: Term, clear: Term = TRUE) -> _Moment:
        """The board at one level of the clock; `clear` is 0 while all is cleared."""
        given = {**self.inputs, RESET: clear}
        return _Moment(self.board, self.wiring, self.logic, clock, clear, self.state, given, {})

    def findings(self) -> Iterator[Finding]:
        """Everything in which the board is not the design."""
        if next(self.board.of("button"), None) and not self.debounces():
            yield Finding("clock", "S1")
            return
        machine, netlist = Machine(self.logic), self.board.design.netlist
        row = machine.settle(netlist, self.stored, self.fed)
        low, high = self.moment(FALSE), self.moment(TRUE)
        with Session(self.terms, self.terms.deadline) as session:
            for number, one in enumerate(netlist.flip_flops):
                kept = self._keeper(one.name)
                if kept is None:
                    continue
                self.compared += 1
                gate = TRUE if one.gate is None else row[one.gate]
                stores = machine.store(one)(row)
                yield from self._one(session, kept, (low, high), gate, stores)
                yield from self._start(kept, one.start, self.stored[number])
            yield from self._lights(session, row, low)

    def _keeper(self, name: str) -> tuple[Package, str] | None:
        """Where a flip-flop is on the board; one that nothing depends on is nowhere."""
        for package in self.board.packages:
            for bit, flip_flop in package.keeps.items():
                if flip_flop == name:
                    return package, bit
        return None

    def _one(
        self,
        session: Session,
        kept: tuple[Package, str],
        levels: tuple[_Moment, _Moment],
        gate: Term,
        stores: Term,
    ) -> Iterator[Finding]:
        """Whether a stored bit of a chip takes what the flip-flop takes, at the same edges."""
        (package, name), (low, high) = kept, levels
        bit = next(bit for bit in package.chip.stored if bit.name == name)
        where = f"{package.name} {package.keeps[name]}"
        for condition, _ in bit.at_once:
            for level in levels:
                if session.ask(level.truth(package, condition)) is not False:
                    yield Finding("clear", where)
                    return
        before, after = (level.net(package.pin(bit.clock)) for level in (low, high))
        rises = self.terms.both(before ^ 1, after)
        falls = self.terms.both(before, after ^ 1)
        if session.ask(self.terms.either(self.terms.differ(rises, gate), falls)) is not False:
            yield Finding("clock", where)
            return
        # Where no edge comes the flip-flop holds; where one comes it takes what the chip takes.
        taken = self.terms.choose(
            rises, self.state[package.name, name], high.truth(package, bit.next)
        )
        if session.ask(self.terms.differ(taken, stores)) is not False:
            yield Finding("stored", where)

    def _start(self, kept: tuple[Package, str], start: int, held: Term) -> Iterator[Finding]:
        """Whether the power-up clear gives the initial state, whatever was held."""
        package, name = kept
        if start == X:
            return
        bit = next(bit for bit in package.chip.stored if bit.name == name)
        cleared = self.moment(FALSE, FALSE)
        given = held
        for condition, value in reversed(bit.at_once):
            acts = cleared.truth(package, condition)
            given = self.terms.choose(acts, given, cleared.truth(package, value))
        if given != (TRUE if start else FALSE):
            yield Finding("start", f"{package.name} {package.keeps[name]}")

    def _lights(self, session: Session, row: Sequence[Term], low: _Moment) -> Iterator[Finding]:
        netlist, nets_of = self.board.design.netlist, Nets(self.board.design)
        lights = {one.net: one.name for one in self.board.of("light")}
        for name, nets in netlist.outputs.items():
            for i, net in enumerate(nets):
                self.compared += 1
                light = lights[nets_of.net(net)]
                shows = low.net(Pin(light, 1))
                if session.ask(self.terms.differ(shows, row[net])) is not False:
                    yield Finding("shown", f"{light} {name}({i})")

    def debounces(self) -> bool:
        """Whether the two NANDs across follow the button, and hold while it touches neither."""
        button = next(self.board.of("button"))
        clock = {True: TRUE, False: FALSE}
        for held in (False, True):
            for pressed, resting, expected in ((0, 1, True), (1, 0, False), (1, 1, held)):
                given = {button.net: TRUE if pressed else FALSE}
                given[button.other] = TRUE if resting else FALSE
                if self._latched(clock[held], given) != clock[expected]:
                    return False
        return True

    def _latched(self, held: Term, contacts: Mapping[str, Term]) -> Term | None:
        """What the two come to, from a clock that was held: each in turn until nothing changes."""
        across = {
            net: (package, pin)
            for package in self.board.packages
            for pin, net in package.nets.items()
            if pin in package.chip.outputs and net in (CLOCK, inverted(CLOCK))
        }
        levels = {CLOCK: held, inverted(CLOCK): held ^ 1}
        for _ in range(4):
            before = dict(levels)
            for net, (package, pin) in across.items():
                moment = self.moment(levels[CLOCK])
                moment = replace(moment, inputs={**moment.inputs, **contacts}, _known={})
                for other, (one, output) in across.items():
                    moment._known[self.wiring.net(one.pin(output))] = levels[other]  # noqa: SLF001
                levels[net] = moment.truth(package, package.chip.outputs[pin])
            if before == levels:
                return levels[CLOCK]
        return None
