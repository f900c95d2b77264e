"""Synchronous up counters, to 2**width or modulo m."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from edgewise.circuit.builder import Bits, Builder
from edgewise.circuit.cover import Condition, Decided, Terms
from edgewise.circuit.model import Circuit, Kind, Port, Signal
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
from edgewise.circuit.registers import START, WIDTH, control, start_bit, start_fits
from edgewise.errors import Message

EXACT_WIDTH: Final = 16
"""Of a counter with a modulus, at most, to be decided as a whole where its state is unknown."""


def _ports(settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    width = int(settings["width"])
    return (
        *controls("enable", "clear", "load"),
        Port("d", width, "in"),
        CLOCK_PORT,
        Port("q", width, "out"),
        *one_bit("out", "terminal-count"),
    )


def _check(settings: Settings, bits: Mapping[str, int]) -> None:
    start_fits(settings)
    width, modulo = int(settings["width"]), settings["modulo"]
    if isinstance(modulo, int) and modulo > 1 << width:
        raise PartFault(
            Message("modulo-range", modulo=modulo, most=1 << width, width=width), "modulo"
        )
    for one, other in (("load", "d"), ("d", "load")):
        if one in bits and other not in bits:
            raise PartFault(Message("ports-together", fed=one, unfed=other), one)


def _all_ones(b: Builder, name: str, bits: Signal) -> Signal:
    return b.part(name, "and", {"in": bits})["out"] if len(bits) > 1 else bits


def _at_last(b: Builder, q: Signal, last: int) -> Signal:
    """1 when the counter stands at `last`."""
    bits = [
        wire if last >> i & 1 else b.part(f"low({i})", "not", {"in": wire})["out"][0]
        for i, wire in enumerate(q)
    ]
    return _all_ones(b, "last", tuple(bits))


def _counter(settings: Settings, bits: Mapping[str, int]) -> Circuit:
    b = Builder("counter")
    width = int(settings["width"])
    modulo = settings["modulo"] if isinstance(settings["modulo"], int) else 1 << width
    steered = control(b, bits, "enable", "clear", "load", "clock")
    data = b.input("d", width) if "load" in bits else ()
    q = b.net("cell", width)
    carry: Bits = steered.get("enable", 1)
    sums: list[Signal] = []
    for i, wire in enumerate(q):
        step = b.part(f"step({i})", "half-adder", {"a": wire, "b": carry})
        sums.append(step["sum"])
        carry = step["carry-out"]
    terminal: Bits = carry
    if modulo != 1 << width:
        terminal = _at_last(b, q, modulo - 1)
        if "enable" in steered:
            both = (*terminal, *steered["enable"])
            terminal = b.part("end", "and", {"in": both})["out"]
        onward = b.part("onward", "not", {"in": terminal})["out"]
        sums = [
            b.part(f"wrap({i})", "and", {"in": (*onward, *total)})["out"]
            for i, total in enumerate(sums)
        ]
    stored: dict[str, Bits] = {k: steered[k] for k in ("clear", "clock") if k in steered}
    for i, next_bit in enumerate(sums):
        taken = next_bit
        if "load" in steered:
            ways: dict[str, Bits] = {"d0": next_bit, "d1": data[i], "select": steered["load"]}
            taken = b.part(f"take({i})", "multiplexer", ways)["out"]
        b.part(f"bit({i})", "flip-flop", {"d": taken, **stored, "q": q[i]}, start_bit(settings, i))
    b.output("q", q)
    b.output("terminal-count", terminal)
    return b.circuit()


def _next_bits(settings: Settings, bits: Mapping[str, int]) -> tuple[Decided, ...]:
    """What each bit counts to, for a modulus: ``wrap(i)`` sees q both in the sum and at the end.

    Bit i of q + 1 is 1 where q(i) is 1 and some bit below it, or `enable`, is 0; or q(i) is 0 and
    those are all 1. That holds but in the last state; in which, if it is enabled, bit i becomes 0.
    """
    width, modulo = int(settings["width"]), settings["modulo"]
    if not isinstance(modulo, int) or modulo == 1 << width or width > EXACT_WIDTH:
        return ()
    enabled: tuple[Condition, ...] = (("enable", 0, 1),) if "enable" in bits else ()
    elsewhere = [("cell", k, 1 - ((modulo - 1) >> k & 1)) for k in range(width)]
    elsewhere += [_opposite(one) for one in enabled]
    decided = []
    for i in range(width):
        below = [*enabled, *(("cell", j, 1) for j in range(i))]
        ways: list[tuple[Condition, ...]] = [(("cell", i, 1), _opposite(one)) for one in below]
        ways += [(("cell", i, 0), *below)]
        terms = [_unless_last(way, elsewhere) for way in ways]
        decided.append(Decided(f"wrap({i})", tuple(term for term in terms if term)))
    return tuple(decided)


def _unless_last(way: tuple[Condition, ...], elsewhere: Sequence[Condition]) -> Terms | None:
    """`way`, and any of `elsewhere`; None where they can't both be."""
    if any(one in way for one in elsewhere):
        return Terms(way)
    some = tuple(one for one in elsewhere if _opposite(one) not in way)
    return Terms(way, some) if some else None


def _opposite(one: Condition) -> Condition:
    net, index, bit = one
    return net, index, 1 - bit


def _symbol(kind: Kind) -> str:
    modulo, width = kind.setting("modulo"), kind.setting("width")
    return f"CTR{width}" if modulo == "full" else f"CTRDIV{modulo}"


register(
    PartType(
        "counter",
        "counts up at the edge; terminal-count is 1 at its last state while it counts",
        _ports,
        frozenset(),
        (WIDTH, Setting("modulo", "full", low=2, high=1 << 64, choices=("full",)), START),
        _counter,
        "q",
        _check,
        _next_bits,
        "storage",
        symbol=_symbol,
        clock_symbol="+",
        does="count",
    ),
)
