"""From a circuit of parts that contain parts to one flat netlist."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from edgewise.circuit import check
from edgewise.circuit.clocks import refuse_clock_faults
from edgewise.circuit.insides import once_a_kind
from edgewise.circuit.limits import refuse_too_large
from edgewise.circuit.model import Circuit, Kind
from edgewise.circuit.names import Names, in_plan, names
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Gate, Netlist
from edgewise.circuit.order import in_order
from edgewise.circuit.plan import Nets, Plan, Stamp, planned
from edgewise.errors import CircuitError, Message, Place, raise_all


def flatten(circuit: Circuit, *, in_time: bool = False) -> Netlist:
    """Check a circuit and flatten it.

    Parameters
    ----------
    circuit : Circuit
    in_time : bool
        It is to be followed in time only: loops of gates and any logic in a clock are accepted,
        and its gates stand in text order.

    Raises
    ------
    CircuitError or Problems
        For every wiring fault (see `edgewise.circuit.check.faults`), a combinational loop
        (printed net by net), logic in a clock other than one AND gate, a flip-flop that is cleared
        or preset between edges, or too many parts or nets.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("half adder")
    >>> x, y = b.input("x"), b.input("y")
    >>> b.output("s", b.part("HA", "half-adder", {"a": x, "b": y})["sum"])
    >>> [gate.name for gate in flatten(b.circuit()).gates]
    ['HA.X1', 'HA.G1']
    """
    raise_all(_all_faults(circuit))
    refuse_too_large(circuit)
    plan = planned(circuit)
    numbers = _numbers(plan)
    parts = _Parts()
    parts.add(plan, numbers)
    draft = Netlist(
        max(numbers) + 1,
        {name: _all_of(nets, numbers) for name, nets in plan.inputs.items()},
        {name: _all_of(nets, numbers) for name, nets in plan.outputs.items()},
        tuple([gate for gate, _ in parts.drivers.values()]),
        tuple([flip_flop for flip_flop, _ in parts.flip_flops]),
        Names(lambda: names(plan, numbers)),
    )
    if in_time:
        return draft
    refuse_clock_faults(draft, parts.drivers, [place for _, place in parts.flip_flops])
    return replace(draft, gates=in_order(draft, parts.drivers))


def _all_faults(circuit: Circuit) -> Iterator[CircuitError]:
    """Wiring faults of a circuit and of every circuit inside it, each looked at once."""
    yield from check.faults(circuit)
    pending = list(circuit.kinds)
    seen = {id(circuit)}
    for kind in pending:  # grows while it is read
        if kind.inside is not None and id(kind.inside) not in seen:
            seen.add(id(kind.inside))
            if not _sound(kind):
                yield from check.faults(kind.inside, inside=True)
            pending += kind.inside.kinds


@once_a_kind
def _sound(kind: Kind) -> bool:
    """Whether the inside of a kind of part has no fault of its own."""
    return kind.inside is None or not check.faults(kind.inside, inside=True)


def _numbers(plan: Plan) -> list[int]:
    """A number for each net of a plan, without gaps; nets that are joined have one number."""
    number = {net: net for net in range(CLOCK_NET + 1)}
    return [number.setdefault(driven, len(number)) for driven in _driven(plan)]


def _driven(plan: Plan) -> list[int]:
    """For each net of a plan the one from which its joins feed it in the end, or itself."""
    ends = list(range(plan.size))
    for net in sorted(plan.joins):
        trail: dict[int, None] = {}
        end = net
        while end in plan.joins and ends[end] == end:
            if end in trail:
                raise _ring(plan, list(trail), end)
            trail[end] = None
            end = plan.joins[end]
        for step in trail:
            ends[step] = ends[end]
    return ends


def _ring(plan: Plan, trail: list[int], end: int) -> CircuitError:
    """The error for joins that lead back to a net, `end`."""
    ring = [*trail[trail.index(end) :], end][::-1]
    named = in_plan(plan)[0]

    def name_of(net: int) -> str:
        found = [
            name if len(nets) == 1 else f"{name}({nets.index(net)})"
            for name, nets in named.items()
            if net in nets
        ]
        return min(found, key=len, default="?")

    text = " -> ".join(map(name_of, ring))
    return CircuitError(Message("joins-ring", nets=text), plan.circuit.place)


class _Parts:
    """Gates and flip-flops of a whole circuit, in text order."""

    def __init__(self) -> None:
        self.drivers: dict[int, tuple[Gate, Place | None]] = {}
        self.flip_flops: list[tuple[FlipFlop, Place | None]] = []

    def add(
        self, plan: Plan, numbers: Sequence[int], path: str = "", place: Place | None = None
    ) -> None:
        """Add what is in a plan, `numbers` being the final ones of its nets."""
        for element, own_place in plan.elements:
            where = own_place or place
            name = path + element.name
            if isinstance(element, Gate):
                inputs, output = _all_of(element.inputs, numbers), numbers[element.output]
                cover = element.cover.over(numbers.__getitem__) if element.cover else None
                self.drivers[output] = Gate(element.operator, inputs, output, name, cover), where
            elif isinstance(element, Stamp):
                self.add(element.plan, element.inside(numbers), f"{name}.", where)
            else:
                self.flip_flops.append((_flip_flop(element, numbers, name), where))


def _flip_flop(one: FlipFlop, numbers: Sequence[int], name: str) -> FlipFlop:
    """A flip-flop of a plan with the final numbers, the bare clock left out."""
    enable = None if one.enable is None else numbers[one.enable]
    clear = None if one.clear is None else numbers[one.clear]
    clock = CLOCK_NET if one.gate is None else numbers[one.gate]
    gate = None if clock == CLOCK_NET else clock
    cover = one.cover.over(numbers.__getitem__) if one.cover else None
    reset = None if one.reset is None else numbers[one.reset]
    preset = None if one.preset is None else numbers[one.preset]
    d, q = numbers[one.d], numbers[one.q]
    return FlipFlop(name, d, q, enable, clear, gate, one.start, cover, reset, preset)


def _all_of(nets: Nets, numbers: Sequence[int]) -> Nets:
    return tuple([numbers[net] for net in nets])
