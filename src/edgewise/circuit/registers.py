"""Storage elements: flip-flop, register and shift register.

At an edge, in this order: `clear` (1: all bits become 0), `load` (1: the parallel data `d`
is taken), `enable` (1: store or shift; 0: hold). An input that nothing feeds is not there:
without `enable` a part acts at every edge. `async-preset` and `async-clear` of a single bit act at
once, and only in time (`edgewise.engines.timed`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.bits import Bit
from edgewise.circuit.builder import Bits, Builder
from edgewise.circuit.cover import Condition, Decided, Terms, primes
from edgewise.circuit.model import Circuit, Kind, Port, Signal, Tie
from edgewise.circuit.parts import (
    CLOCK_PORT,
    PartFault,
    PartType,
    Setting,
    Settings,
    controls,
    one_bit,
    register,
)
from edgewise.circuit.truth import Truth, refuse
from edgewise.errors import Message

START = Setting("start", 0, low=0, high=(1 << 64) - 1, choices=("X",))
"""What is stored before the first edge; X: unknown, as after power-up."""
WIDTH = Setting("width", low=1)
"""Number of bits."""
ASYNCHRONOUS: Final = (
    Port("async-preset", 1, "in", "preset"),
    Port("async-clear", 1, "in", "reset"),
)
"""Inputs that wait for no clock edge; where both are 1, the preset wins."""


def start_fits(settings: Settings, _bits: Mapping[str, int] | None = None) -> None:
    """Refuse a start value that is too large for the width."""
    start, width = settings["start"], int(settings.get("width", 1))
    if isinstance(start, int) and start >> width:
        raise PartFault(
            Message("start-range", start=start, most=(1 << width) - 1, width=width), "start"
        )


def start_bit(settings: Settings, index: int) -> dict[str, int | str]:
    """The `start` setting of the flip-flop that holds bit `index`."""
    start = settings["start"]
    return {"start": start if isinstance(start, str) else start >> index & 1}


def control(b: Builder, bits: Mapping[str, int], *names: str) -> dict[str, Signal]:
    """Declare those one-bit inputs that are in use."""
    return {name: b.input(name) for name in names if name in bits}


def _flip_flop_ports(_settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (
        *one_bit("in", "d"),
        *controls("enable", "clear"),
        CLOCK_PORT,
        *ASYNCHRONOUS,
        *one_bit("out", "q"),
    )


def _register_ports(settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    width = int(settings["width"])
    return (
        Port("d", width, "in"),
        *controls("enable", "clear"),
        CLOCK_PORT,
        Port("q", width, "out"),
    )


def _register(settings: Settings, bits: Mapping[str, int]) -> Circuit:
    b = Builder("register")
    d = b.input("d", int(settings["width"]))
    steered = control(b, bits, "enable", "clear", "clock")
    q = [
        b.part(f"bit({i})", "flip-flop", {"d": wire, **steered}, start_bit(settings, i))["q"][0]
        for i, wire in enumerate(d)
    ]
    b.output("q", tuple(q))
    return b.circuit()


def _shift_ports(settings: Settings, bits: Mapping[str, int]) -> tuple[Port, ...]:
    width = int(settings["width"])
    both_ways = one_bit("out", "left-out") if "left" in bits else ()
    return (
        *one_bit("in", "in", "left-in"),
        Port("d", width, "in"),
        *controls("load", "enable"),
        Port("left", 1, "in", "direction"),
        *controls("clear"),
        CLOCK_PORT,
        Port("q", width, "out"),
        *one_bit("out", "out"),
        *both_ways,
    )


def _shift_check(settings: Settings, bits: Mapping[str, int]) -> None:
    start_fits(settings)
    for one, other in (("d", "load"), ("load", "d"), ("left", "left-in"), ("left-in", "left")):
        if one in bits and other not in bits:
            raise PartFault(Message("ports-together", fed=one, unfed=other), one)
    if "left" in bits and settings["direction"] == "left":
        raise PartFault(Message("direction-fixed"), "direction")


def _shift_register(settings: Settings, bits: Mapping[str, int]) -> Circuit:
    b = Builder("shift register")
    width = int(settings["width"])
    serial = b.input("in")
    far = b.input("left-in") if "left" in bits else ()
    data = b.input("d", width) if "load" in bits else ()
    steered = control(b, bits, "load", "enable", "left", "clear", "clock")
    q = b.net("cell", width)
    from_left, from_right = (*q[1:], *serial), (*far, *q[:-1])
    if settings["direction"] == "left":
        from_left = (*serial, *q[:-1])
    stored: dict[str, Bits] = {k: steered[k] for k in ("clear", "clock") if k in steered}
    if "enable" in steered:
        stored["enable"] = steered["enable"]
        if "load" in steered:
            either = (*steered["enable"], *steered["load"])
            stored["enable"] = b.part("act", "or", {"in": either})["out"]
    for i in range(width):
        next_bit: Bits = from_left[i]
        if "left" in steered:
            next_bit = _choose(b, f"way({i})", steered["left"], next_bit, from_right[i])
        if "load" in steered:
            next_bit = _choose(b, f"take({i})", steered["load"], next_bit, data[i])
        b.part(
            f"bit({i})", "flip-flop", {"d": next_bit, **stored, "q": q[i]}, start_bit(settings, i)
        )
    b.output("q", q)
    b.output("out", q[-1] if settings["direction"] == "left" else q[0])
    if "left" in steered:
        b.output("left-out", q[-1])
    return b.circuit()


def _choose(b: Builder, name: str, select: Signal, when_0: Bits, when_1: Bits) -> Signal:
    return b.part(name, "multiplexer", {"d0": when_0, "d1": when_1, "select": select})["out"]


def _shift_decided(settings: Settings, bits: Mapping[str, int]) -> tuple[Decided, ...]:
    """What each bit stores, for a part with both `load` and `enable`, which meet in two places."""
    if "load" not in bits or "enable" not in bits:
        return ()
    width, two_ways = int(settings["width"]), "left" in bits
    cells: list[Condition] = [("cell", i, 1) for i in range(width)]
    from_left = [*cells[1:], ("in", 0, 1)]
    if settings["direction"] == "left":
        from_left = [("in", 0, 1), *cells[:-1]]
    from_right = [("left-in", 0, 1), *cells[:-1]]
    found = primes(_stored_two_ways if two_ways else _stored, 7 if two_ways else 5)
    decided = []
    for i in range(width):
        nets = [("load", 0, 1), ("enable", 0, 1), ("d", i, 1), cells[i], from_left[i]]
        nets += [("left", 0, 1), from_right[i]] if two_ways else []
        terms = (Terms(tuple((*nets[at][:2], bit) for at, bit in one)) for one in found)
        decided.append(Decided(f"bit({i})", tuple(terms)))
    return tuple(decided)


def _stored(load: Bit, enable: Bit, d: Bit, held: Bit, shifted: Bit) -> Bit:
    return d if load else shifted if enable else held


def _stored_two_ways(  # noqa: PLR0913, PLR0917  the ports of one stage
    load: Bit, enable: Bit, d: Bit, held: Bit, from_left: Bit, left: Bit, from_right: Bit
) -> Bit:
    return _stored(load, enable, d, held, from_right if left else from_left)


def _shift_symbol(kind: Kind) -> str:
    if kind.port("left"):
        return "C1"
    return "C1/←" if kind.setting("direction") == "left" else "C1/→"


def storing(
    name: str, about: str, reads: tuple[str, ...], stores: Truth, noun: str = ""
) -> PartType:
    """A part that stores one bit: what `stores` says of the bits at `reads` and of its own `q`.

    It is a D flip-flop with gates before it, which may be fed an enable, a clear, a clock and
    what waits for none; `parts.register` makes it known.

    Examples
    --------
    >>> toggle = storing("toggle", "changes at the edge where t is 1", ("t",), ("xor", "q", "t"))
    >>> made = toggle.inside({"start": 0}, {"t": 1})
    >>> [part.kind.name for part in made.parts]
    ['xor', 'flip-flop']
    """
    refuse(stores, (*reads, "q"))
    steering = (*controls("enable", "clear"), CLOCK_PORT, *ASYNCHRONOUS)
    ports = (*one_bit("in", *reads), *steering, *one_bit("out", "q"))

    def inside(settings: Settings, bits: Mapping[str, int]) -> Circuit:
        b = Builder(name.replace("-", " "))
        at = {port: b.input(port) for port in reads}
        steered = control(b, bits, *(port.name for port in steering))
        at["q"] = b.net("held")
        d = gates_of(b, "next", stores, at)
        b.part("bit", "flip-flop", {"d": d, **steered, "q": at["q"]}, settings)
        b.output("q", at["q"])
        return b.circuit()

    return PartType(
        name,
        about,
        lambda *_: ports,
        frozenset(reads),
        (_FLIP_FLOP_START,),
        inside,
        "q",
        role="storage",
        noun=noun or name,
        stores=stores if isinstance(stores, str) else "next.out",
    )


def gates_of(b: Builder, name: str, truth: Truth, at: Mapping[str, Signal]) -> Signal:
    """The gates that compute a truth, the last one called `name`."""
    if isinstance(truth, str):
        return at[truth]
    if isinstance(truth, int):
        return (Tie(truth),)
    operation, *of = truth
    fed = [gates_of(b, f"{name}{i}", one, at) for i, one in enumerate(of)]
    if operation == "choose":
        return _choose(b, name, *fed)
    return b.part(name, operation, {"in": tuple(bit for one in fed for bit in one)})["out"]


_FLIP_FLOP_START = Setting("start", 0, low=0, high=1, choices=("X",))

register(
    PartType(
        "flip-flop",
        "stores one bit at the edge (D flip-flop)",
        _flip_flop_ports,
        frozenset({"d"}),
        (_FLIP_FLOP_START,),
        word="q",
        role="storage",
        noun="flip-flop",
        stores="d",
    ),
    PartType(
        "register",
        "stores a word at the edge",
        _register_ports,
        frozenset({"d"}),
        (WIDTH, START),
        _register,
        "q",
        start_fits,
        role="storage",
        stores="d",
    ),
    PartType(
        "shift-register",
        "moves its bits one place at the edge, towards the LSB unless direction is left",
        _shift_ports,
        frozenset({"in"}),
        (WIDTH, Setting("direction", "right", 1, 0, ("right", "left")), START),
        _shift_register,
        "q",
        _shift_check,
        _shift_decided,
        "storage",
        symbol=lambda kind: f"SRG{kind.setting('width')}",
        clock_symbol=_shift_symbol,
        does="shift",
        stores="in",
    ),
)
