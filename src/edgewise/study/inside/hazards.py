"""Hazards of a design: pulses that may come out while one input changes, whatever the delays.

For each output bit and each kind of hazard: the smallest operands that show it, whether the pulse
is seen with the delays of a cost model (or with these spread), and gates that take it away.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from edgewise.bits import Bit, X
from edgewise.circuit.model import Tie
from edgewise.columns import aligned
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.hazards import search
from edgewise.engines.hazards.search import Hazard
from edgewise.engines.replay import operands_of
from edgewise.engines.sat.bounded import value_order
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError, Message, Place
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology
from edgewise.study.inside.moment import Manner, inside
from edgewise.study.inside.remedy import MOST_TERMS, AddedGate, Question, remedy
from edgewise.words.lists import equations, listed
from edgewise.words.messages import ENGLISH, Words

SPREAD: Final = 90
"""Percent by which delays are moved where those of the model don't show a hazard."""
SEEDS: Final = 20
"""How many such delays are tried."""


@dataclass(frozen=True, slots=True)
class Pulse:
    """A hazard as it was played.

    Parameters
    ----------
    bits : tuple of bit
        What the output holds, one bit after the other.
    rises : bool
        The input changes from 0 to 1.
    seed : int, optional
        Of the delays moved by up to `SPREAD` percent; none for those of the model.
    """

    bits: tuple[Bit, ...]
    rises: bool
    seed: int | None = None


@dataclass(frozen=True, slots=True)
class Added:
    """An added gate; its inputs by name, each as it is or complemented.

    Examples
    --------
    >>> str(Added("and", (("b", False), ("c", True))))
    'AND(b, ¬c)'
    """

    operator: str
    inputs: tuple[tuple[str, bool], ...]

    def __str__(self) -> str:
        names = [("¬" if turned else "") + name for name, turned in self.inputs]
        return f"{self.operator.upper()}({', '.join(names)})"


@dataclass(frozen=True, slots=True)
class Told:
    """One hazard.

    Parameters
    ----------
    output : str
        The output bit: ``sum(1)``.
    kind : str
        ``static-0``, ``static-1`` or ``dynamic``.
    changed : str
        The input bit that changes.
    operands : (mapping of str to int, mapping of str to int)
        The smallest that show it: the bit that changes is 0 in the first, 1 in the second.
    pairs : int, optional
        How many pairs of operands show it, if that was counted.
    pulse : Pulse, optional
        None where no delays that were tried show it.
    added : tuple of Added
        Gates that take it away. An AND goes into an OR behind the output, an OR into an AND.
    whole : bool
        They take all hazards of this kind away from the output, proved; otherwise at most one is
        there, which does it for these operands.
    """

    output: str
    kind: search.Kind
    changed: str
    operands: tuple[Mapping[str, int], Mapping[str, int]]
    pairs: int | None
    pulse: Pulse | None
    added: tuple[Added, ...] = ()
    whole: bool = False

    @property
    def before(self) -> Mapping[str, int]:
        """The operands before the change."""
        return self.operands[self.pulse is not None and not self.pulse.rises]


@dataclass(frozen=True, slots=True)
class Hazards:
    """The hazards of a design.

    Parameters
    ----------
    design : str
    model : str
        Whose delays were tried first.
    outputs : tuple of str
        The output bits that were looked at.
    found : tuple of Told
    complete : bool
        None is missing.
    """

    design: str
    model: str
    outputs: tuple[str, ...]
    found: tuple[Told, ...]
    complete: bool = True

    @property
    def clean(self) -> tuple[str, ...]:
        """The outputs without a hazard; none are known where time was up."""
        wrong = {one.output for one in self.found}
        return tuple(one for one in self.outputs if one not in wrong) if self.complete else ()

    def text(self, words: Words = ENGLISH) -> str:
        """A table of the hazards, and what is to be said of them."""
        table = [*aligned(self.cells(words), left={0, 1, 2, 3, 4, 5}), ""] if self.found else []
        return "\n".join([*table, *self.sentences(words)])

    def cells(self, words: Words = ENGLISH) -> list[tuple[str, ...]]:
        """The same cell by cell, the heading first."""
        columns = ("output", "kind", "before", "changes", "seen", "added")
        rows = [tuple(words(f"hazard-column-{column}") for column in columns)]
        return rows + [
            (
                one.output,
                words(f"hazard-{one.kind}"),
                equations(one.before.items(), "="),
                f"{one.changed} {_arrow(one.pulse)}",
                _seen(one.pulse, words),
                _gates(one, words),
            )
            for one in self.found
        ]

    def sentences(self, words: Words = ENGLISH) -> Iterator[str]:
        """How many outputs have a hazard, what the added gates do, what was left open."""
        wrong = {one.output for one in self.found}
        yield words("hazard-count", wrong=len(wrong), outputs=len(self.outputs))
        if wrong and self.clean:
            yield words("hazard-clean", outputs=listed(self.clean, words))
        if any(one.whole for one in self.found):
            yield words("hazard-added")
        if any(one.added and not one.whole for one in self.found):
            yield words("hazard-partly", most=MOST_TERMS)
        if any(one.pulse is not None and one.pulse.seed is not None for one in self.found):
            yield words("hazard-spread", percent=SPREAD)
        if not self.complete:
            yield words("hazard-incomplete")

    def data(self) -> dict[str, Any]:
        """The same for programs."""
        return {
            "design": self.design,
            "model": self.model,
            "outputs": list(self.outputs),
            "complete": self.complete,
            "hazards": [
                {
                    "output": one.output,
                    "kind": one.kind,
                    "changed": one.changed,
                    "operands": [dict(each) for each in one.operands],
                    "pairs": one.pairs,
                    "seen": one.pulse
                    and {
                        "bits": ["01X"[bit] for bit in one.pulse.bits],
                        "rises": one.pulse.rises,
                        "seed": one.pulse.seed,
                    },
                    "added": [str(gate) for gate in one.added],
                    "whole": one.whole,
                }
                for one in self.found
            ],
        }


def _gates(one: Told, words: Words) -> str:
    told = ", ".join(map(str, one.added)) or words("hazard-no-gate")
    return told if one.whole or not one.added else f"{told} …"


def _arrow(pulse: Pulse | None) -> str:
    return "↕" if pulse is None else "↑" if pulse.rises else "↓"


def _seen(pulse: Pulse | None, words: Words) -> str:
    if pulse is None:
        return words("hazard-unseen")
    bits = " ".join("01X"[bit] for bit in pulse.bits)
    return bits if pulse.seed is None else words("hazard-seed", bits=bits, seed=pulse.seed)


def of(
    design: Design,
    model: Technology = UNIT_GATE,
    output: str = "",
    *,
    few: int = search.FEW,
    place: Place | None = None,
) -> Hazards:
    """The hazards of a design without flip-flops.

    Parameters
    ----------
    design : Design
    model : Technology
        Whose delays are tried first.
    output : str
        An output, or one bit of it; all unless given.
    few : int
        Operand bits up to which all operands are gone through; beyond, a solver looks for them.

    Raises
    ------
    DesignError
        Flip-flops, an unknown input, or a name that is no output.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = of(catalogue.design("ripple-carry-adder", n=1))
    >>> [(one.output, one.kind, one.changed, one.before) for one in found.found]
    [('carry', 'static-1', 'a', {'a': 1, 'b': 1, 'carry_in': 1})]
    >>> print(*found.found[0].added, sep=", ")
    AND(b, carry_in), AND(a, carry_in)
    """
    netlist = design.netlist
    if netlist.flip_flops:
        raise DesignError(Message("hazards-stored", design=design.name), place)
    inputs: dict[int, Variable | int] = {
        net: what.bit if isinstance(what, Tie) else Variable(what.operand, what.index)
        for name, fed in design.schedule[0].items()
        for net, what in zip(netlist.inputs[name], fed, strict=True)
    }
    if X in inputs.values():
        raise DesignError(Message("hazards-unknown", design=design.name), place)
    outputs = _outputs(design, output, place)
    order = value_order(design.operands)
    found = search.hazards(netlist, inputs, order, list(outputs.values()), few=few)
    names = {net: name for name, net in reversed(outputs.items())}
    labels = {
        Variable(one.name, i): one.name if one.width == 1 else f"{one.name}({i})"
        for one in design.operands
        for i in range(one.width)
    }
    told = list[Told]()
    places = list(outputs.values())
    for one in sorted(
        found.hazards, key=lambda one: (places.index(one.net), search.KINDS.index(one.kind))
    ):
        held = remedy(Question(netlist, inputs, order, one.net), one)
        low = operands_of(one.values, design.operands)
        high = operands_of({**one.values, one.changed: 1}, design.operands)
        told.append(
            Told(
                names[one.net],
                one.kind,
                labels[one.changed],
                (low, high),
                one.pairs,
                _pulse(design, model, one, (low, high)),
                tuple(_added(gate, labels) for gate in held.gates),
                held.whole,
            )
        )
    return Hazards(design.name, model.name, tuple(outputs), tuple(told), found.complete)


def _added(gate: AddedGate, labels: Mapping[Variable, str]) -> Added:
    straight = int(gate.kind == "static-1")
    inputs = tuple((labels[one], bit != straight) for one, bit in gate.literals)
    return Added("and" if straight else "or", inputs)


def _outputs(design: Design, asked: str, place: Place | None) -> dict[str, int]:
    """The output bits by name."""
    netlist = design.netlist
    found = {
        name if len(bits) == 1 else f"{name}({i})": net
        for name, bits in netlist.outputs.items()
        for i, net in enumerate(bits)
    }
    if not asked:
        return found
    nets = netlist.find(asked, place)
    chosen = {name: net for name, net in found.items() if net in nets}
    if not chosen:
        known = ", ".join(netlist.outputs)
        raise DesignError(Message("hazards-output", name=asked, known=known), place)
    return chosen


def _pulse(
    design: Design,
    model: Technology,
    hazard: Hazard,
    operands: tuple[Mapping[str, int], Mapping[str, int]],
) -> Pulse | None:
    """The hazard as it is played: with the delays of the model, or with these spread."""
    least = 4 if hazard.kind == "dynamic" else 3
    runs = [reference.run(design, design.values(one)) for one in operands]
    for seed in (None, *range(1, SEEDS + 1)):
        manner = Manner(model, spread=0 if seed is None else SPREAD, seed=seed or 1)
        for rises in (True, False):
            before, after = runs if rises else reversed(runs)
            moment = inside(after, 0, manner=manner, before=before)
            changes = list(moment.of([hazard.net]))
            bits = (moment.start[hazard.net], *(change.after for change in changes))
            if len(bits) >= least:
                return Pulse(bits, rises, seed)
    return None
