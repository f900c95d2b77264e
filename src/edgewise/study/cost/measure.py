"""The cost of a design: what it takes, how long it takes, how often it can do it.

Definitions, the same in every technology
-----------------------------------------
area
    Everything, the flip-flops included; `storage` is their part of it, `logic` the rest.
period
    The shortest clock period: the critical path from register to register with what the flip-flops
    take (`critical_path`). Inputs count as outputs of flip-flops outside, and outputs lead
    to such flip-flops. None for a circuit without flip-flops.
time
    Of one result. With a clock: edges of the whole procedure, loading included, x period. Without:
    the critical path from an input to an output.
throughput
    Results in a unit of time, one run after another, nothing overlapped: 1 / time with a clock.
    Without a clock: flip-flops before the inputs and behind the outputs, so that a result comes
    at every edge: 1 / (clock-to-Q + time + set-up time). These flip-flops are not in the area.
area_delay
    The area-delay product: area x time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import sqrt
from typing import TYPE_CHECKING, Any, Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import Place
from edgewise.formula import show
from edgewise.study.cost import gate_counts, idle_hardware
from edgewise.study.cost.arrival import arrivals
from edgewise.study.cost.models import technology
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology, plain

if TYPE_CHECKING:
    from edgewise.study.cost.switching import Activity


@dataclass(frozen=True, slots=True)
class Cost:
    """The figures of one design at certain parameters in one technology.

    Parameters
    ----------
    design : str
    parameters : tuple of (str, int)
    model : str
        Name of the technology.
    gates, flip_flops, edges : int
        Counts; gates as the netlist has them, without inverters and buffers.
    area, storage : Fraction
    period : Fraction, optional
    time, throughput : Fraction
    toggles, toggles_variance : Fraction, optional
        Nets that change in one result, on average (`switching`), if asked for, and
        the square of that mean's standard error.
    takes, gives : tuple of str
        The operands' names, a family's once; each output with what it is to be.
    idle : tuple of str
        Inputs that are the same at every edge, so that what they control was left out.
    built : Cost, optional
        The figures with all that is there, if something idle was left out.
    toggles_in_time, toggles_in_time_variance : Fraction, optional
        The same with the toggles in between (`glitches`).
    """

    design: str
    parameters: tuple[tuple[str, int], ...]
    model: str
    gates: int
    flip_flops: int
    edges: int
    area: Fraction
    storage: Fraction
    period: Fraction | None
    time: Fraction
    throughput: Fraction
    toggles: Fraction | None = None
    toggles_variance: Fraction | None = None
    takes: tuple[str, ...] = ()
    gives: tuple[str, ...] = ()
    idle: tuple[str, ...] = ()
    built: Cost | None = None
    toggles_in_time: Fraction | None = None
    toggles_in_time_variance: Fraction | None = None

    @property
    def does(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """What it takes and gives; designs that do the same are alike."""
        return self.takes, self.gives

    @property
    def logic(self) -> Fraction:
        """The area without storage elements."""
        return self.area - self.storage

    @property
    def area_delay(self) -> Fraction:
        """Area-delay product."""
        return self.area * self.time

    def parameter(self, name: str) -> int | None:
        """The number of a parameter, or nothing."""
        return next((number for own, number in self.parameters if own == name), None)

    def figure(self, quantity: str) -> Fraction:
        """One of `QUANTITIES`; the period of a circuit without a clock is its time."""
        if quantity == "period" and self.period is None:
            return self.time
        return Fraction(getattr(self, quantity) or 0)

    def order(self, other: Cost, quantity: str) -> int:
        """-1 where this is less, 1 where it is more, 0 where the two can't be told apart.

        Figures of a sample differ where they are more than `SURE` standard errors of their
        difference apart; all others are exact.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> names = ("carry-select-adder", "sklansky-adder", "brent-kung-adder")
        >>> some, *others = (
        ...     measure(catalogue.find(name), {"n": 8}, activity=True) for name in names
        ... )
        >>> [some.order(other, "toggles") for other in others]
        [1, 1]
        """
        difference = self.figure(quantity) - other.figure(quantity)
        if quantity == "toggles":
            variance = (self.toggles_variance or 0) + (other.toggles_variance or 0)
            if difference**2 <= SURE**2 * variance:
                return 0
        return (difference > 0) - (difference < 0)

    @property
    def toggles_error(self) -> float:
        """The standard error of `toggles`."""
        return sqrt(self.toggles_variance or 0)

    @property
    def toggles_in_time_error(self) -> float:
        """The standard error of `toggles_in_time`."""
        return sqrt(self.toggles_in_time_variance or 0)

    def data(self) -> dict[str, Any]:
        """The figures for programs."""
        return {
            "design": self.design,
            "parameters": dict(self.parameters),
            "model": self.model,
            "gates": self.gates,
            "flip_flops": self.flip_flops,
            "edges": self.edges,
            "area": plain(self.area),
            "logic": plain(self.logic),
            "storage": plain(self.storage),
            "period": None if self.period is None else plain(self.period),
            "time": plain(self.time),
            "throughput": float(self.throughput),
            "area_delay": plain(self.area_delay),
            "toggles": None if self.toggles is None else plain(self.toggles),
            "toggles_error": None if self.toggles is None else self.toggles_error,
            "toggles_in_time": None
            if self.toggles_in_time is None
            else plain(self.toggles_in_time),
            "toggles_in_time_error": None
            if self.toggles_in_time is None
            else self.toggles_in_time_error,
            "takes": list(self.takes),
            "gives": list(self.gives),
            "idle": list(self.idle),
            "built": None if self.built is None else self.built.data(),
        }


SURE: Final = 3
"""Standard errors that two figures of a sample must be apart to differ."""
QUANTITIES: Final[Mapping[str, str]] = {
    "area": "all of the hardware, flip-flops included",
    "logic": "the area without flip-flops",
    "storage": "the flip-flops' part of the area",
    "gates": "gates of the netlist, without inverters and buffers",
    "flip_flops": "flip-flops",
    "edges": "clock edges of the whole procedure",
    "period": "shortest clock period; without a clock the time",
    "time": "time of one result",
    "throughput": "results in a unit of time",
    "area_delay": "area-delay product",
    "toggles": "nets that change in one result, on average",
}
"""What a design can be compared by."""


def of(design: Design, model: Technology = UNIT_GATE, counted: Activity | None = None) -> Cost:
    """The cost of a design, with all that is in its circuit.

    Parameters
    ----------
    design : Design
    model : Technology
    counted : Activity, optional
        What `edgewise.study.cost.switching` counted.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ripple = of(catalogue.design("ripple-carry-adder", n=8))
    >>> str(ripple.area), str(ripple.time), ripple.edges
    ('56', '18', 0)
    >>> serial = of(catalogue.design("serial-adder", n=8))
    >>> str(serial.period), serial.edges, str(serial.time)
    ('12', 16, '192')
    """
    netlist = design.netlist
    timing = model.timing(netlist)
    latest = arrivals(netlist, timing).latest
    path = model.units(latest[0] if latest else 0)
    area, storage = model.area(netlist)
    if netlist.flip_flops:
        period: Fraction | None = path
        time = path * design.edges
        throughput = 1 / time if time else Fraction(0)
    else:
        period, time = None, path
        throughput = 1 / (path + model.units(sum(timing.outside)))
    return Cost(
        design.name,
        tuple(design.parameters.items()),
        model.name,
        gate_counts.gates(netlist),
        gate_counts.flip_flops(netlist),
        design.edges,
        Fraction(area),
        Fraction(storage),
        period,
        time,
        throughput,
        counted.mean if counted else None,
        counted.variance if counted else None,
        tuple(dict.fromkeys(operand.name.partition("(")[0] for operand in design.operands)),
        tuple(
            f"{purpose.output} = {show(purpose.formula)}"
            + ("" if purpose.after is None else f" after edge {purpose.after}")
            for purpose in design.computes
        ),
    )


def measure(
    blueprint: Blueprint,
    numbers: Mapping[str, int],
    model: str = UNIT_GATE.name,
    *,
    activity: bool = False,
    place: Place | None = None,
) -> Cost:
    """The cost of a blueprint's design at these parameters, without idle hardware.

    What the design's own procedure never uses is left out (`idle_hardware`), so that like is
    compared with like; `Cost.built` has the figures with it.

    Parameters
    ----------
    blueprint : Blueprint
    numbers : mapping of str to int
    model : str
        Name of a technology.
    activity : bool
        Whether toggles are counted too, which takes a run for some operands.

    Raises
    ------
    DesignError
        Unknown model, bad parameters.
    """
    chosen = technology(model, place)
    design = blueprint.design(numbers, place)
    lean, inputs = idle_hardware.lean(design)
    counted = None
    if activity:
        from edgewise.study.cost.switching import toggles

        counted = toggles(lean)
    found = of(lean, chosen, counted)
    if activity:
        from edgewise.study.cost import glitches

        seen = glitches.toggles(lean, chosen)
        found = replace(found, toggles_in_time=seen.mean, toggles_in_time_variance=seen.variance)
    return replace(found, idle=inputs, built=of(design, chosen)) if inputs else found
