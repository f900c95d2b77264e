"""The critical path of a netlist, net by net, with the arrival time.

In a circuit with flip-flops the path runs from the edge, through a flip-flop, to the setup of a
flip-flop: the shortest clock period. What is outside is clocked, too: inputs count as outputs of
flip-flops there, and each output leads to d of one, all taking the same edge. In a circuit without
flip-flops the path runs from an input to an output.

The path is the longest one that is *there*. It may be a false path: one along which no operands
ever send a change, as in a carry-skip adder, where a carry that could ripple through a whole group
has skipped it already. It counts all the same; `taken` tells whether it is false.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from edgewise.circuit.netlist import Netlist
from edgewise.columns import aligned
from edgewise.study.cost.arrival import Kind, arrivals
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology, number, plain
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit


@dataclass(frozen=True, slots=True)
class Step:
    """One station of a path.

    Parameters
    ----------
    net : int
        Number of the net that is reached.
    name : str
        Its name: ``FA(3).carry-out``.
    part : str
        Path of the part that drives it, or in which the path ends: ``FA(3).OR``; empty for an
        input or output.
    kind : str
        ``input``, ``flip-flop``, ``gate``, and at the end ``setup`` or ``output``.
    what : str
        The gate's operator, or the port at which a setup is: ``and``, ``d``.
    delay, at : Fraction
        What this station adds, and the sum so far, in the technology's units of time.
    """

    net: int
    name: str
    part: str
    kind: Kind
    what: str
    delay: Fraction
    at: Fraction


@dataclass(frozen=True, slots=True)
class Path:
    """A critical path.

    Parameters
    ----------
    technology : Technology
    steps : tuple of Step
    """

    technology: Technology
    steps: tuple[Step, ...]

    @property
    def length(self) -> Fraction:
        """The whole delay."""
        return self.steps[-1].at if self.steps else Fraction(0)

    @property
    def nets(self) -> tuple[int, ...]:
        """The nets on the path, from its start."""
        return tuple(dict.fromkeys(step.net for step in self.steps))

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts on the path, from its start; a part inside another by its whole name."""
        return tuple(dict.fromkeys(step.part for step in self.steps if step.part))

    @property
    def marks(self) -> tuple[tuple[str, str], ...]:
        """What a diagram marks: nets, and at last the port in which the path ends, with the delay.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> longest(catalogue.design("serial-adder", n=4).netlist).marks[-2:]
        (('FA.carry-out', '8'), ('C.d', '12'))
        """
        found = [(step.name, number(step.at)) for step in self.steps]
        if found and self.steps[-1].kind == "setup":
            found[-1] = f"{self.steps[-1].part}.{self.steps[-1].what}", found[-1][1]
        return tuple(found)

    def text(self, words: Words = ENGLISH) -> str:
        r"""The path as lines: net, what drives it, its delay, the sum so far.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> adder = catalogue.design("ripple-carry-adder-without-carry-in", n=2)
        >>> print("\n".join(longest(adder.netlist).text().splitlines()[:-1]))
        net           through       delay  arrival
        b(1)          input             0        0
        FA(1).X1.out  xor FA(1).X1      2        2
        FA(1).sum     xor FA(1).X2      2        4
        sum(1)        output            0        4
        """
        return "\n".join([*aligned(self.cells(words), left={0, 1}), self.note(words)])

    def cells(self, words: Words = ENGLISH) -> list[tuple[str, ...]]:
        """The same cell by cell, the heading first."""
        columns = ("net", "through", "delay", "arrival")
        rows = [tuple(words(f"path-column-{column}") for column in columns)]
        for step in self.steps:
            figures = (words.decimal(number(figure)) for figure in (step.delay, step.at))
            rows.append((step.name, _through(step, words), *figures))
        return rows

    def note(self, words: Words = ENGLISH) -> str:
        """Length and ends, and that a path counts whether or not operands take it."""
        return self.told(words) + (f"; {words('path-counts')}" if self.steps else "")

    @property
    def summary(self) -> str:
        """Length and ends in a line: ``critical path: 10 gate delays, from a(0) to sum(3)``."""
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """The same in a language."""
        if not self.steps:
            return words("path-none")
        first, last = self.steps[0], self.steps[-1]
        end = last.name
        if last.kind == "setup":
            end = words("path-port", port=last.what, part=last.part)
        return words(
            "path-summary",
            length=words.decimal(number(self.length)),
            unit=unit(self.technology.time_unit, words),
            **{"from": first.name, "to": end},
        )

    def data(self) -> dict[str, Any]:
        """The path for programs."""
        return {
            "model": self.technology.name,
            "unit": self.technology.time_unit,
            "length": plain(self.length),
            "note": ENGLISH("path-counts"),
            "steps": [
                {
                    "net": step.name,
                    "part": step.part,
                    "kind": step.kind,
                    "what": step.what,
                    "delay": plain(step.delay),
                    "at": plain(step.at),
                }
                for step in self.steps
            ],
        }


def _through(step: Step, words: Words) -> str:
    """What drives a net on the path, or where the path ends."""
    if step.kind in ("input", "output"):
        return words(f"path-{step.kind}")
    what = words("path-flip-flop") if step.kind == "flip-flop" else step.what
    return f"{what} {step.part}".strip()


def longest(netlist: Netlist, technology: Technology = UNIT_GATE) -> Path:
    """The critical path: from edge to edge, or input to output where there are no registers.

    Parameters
    ----------
    netlist : Netlist
    technology : Technology

    Returns
    -------
    Path
        Of paths of equal length the one that meets the first input of each gate, found from the
        first end.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> print(longest(catalogue.design("serial-adder", n=4).netlist).summary)
    critical path: 12 gate delays, from B(0) to d of C
    """
    timing = technology.timing(netlist)
    found = arrivals(netlist, timing)
    if found.latest is None:
        return Path(technology, ())
    at, (when, net, kind, part, port) = found.at, found.latest
    units, labels = technology.units, netlist.labels
    last = Step(net, labels[net], part, kind, port, units(when - at[net]), units(when))
    if kind == "output":
        last = Step(net, port, "", kind, "", units(when - at[net]), units(when))
    drivers = {gate.output: gate for gate in netlist.gates}
    stored = {flip_flop.q: flip_flop.name for flip_flop in netlist.flip_flops}
    steps = [last]
    while net in drivers:
        gate = drivers[net]
        before = max(gate.inputs, key=lambda one: at[one])
        took = units(at[net] - at[before])
        steps.append(Step(net, labels[net], gate.name, "gate", gate.operator, took, units(at[net])))
        net = before
    begin: Kind = "flip-flop" if net in stored else "input"
    start = units(at[net])
    what = "flip-flop" if net in stored else ""
    steps.append(Step(net, labels[net], stored.get(net, ""), begin, what, start, start))
    return Path(technology, tuple(reversed(steps)))
