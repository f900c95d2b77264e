"""Latches and flip-flops made of gates, with their loops: only time can tell what they hold.

Schematics after M. Mano and M. Ciletti, *Digital Design*, sec. 5.3 and 5.4, and the edge-triggered
flip-flop of six NAND gates as in a 7474 (all from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import CLOCK, Circuit, Port, Signal, Wire
from edgewise.circuit.parts import CLOCK_PORT, PartType, Settings, one_bit, register

Draw = Callable[[Builder, Mapping[str, Signal]], None]
"""Puts the gates of a latch between what its ports are fed and its nets q and q-bar."""


def _nand(b: Builder, name: str, *bits: Signal, out: Signal | None = None) -> Signal:
    fed = {"in": tuple(bit for one in bits for bit in one)}
    return b.part(name, "nand", fed if out is None else {**fed, "out": out})["out"]


def _cross(b: Builder, at: Mapping[str, Signal], set_bar: Signal, reset_bar: Signal) -> None:
    """The two NAND gates that hold a bit."""
    _nand(b, "Q", set_bar, at["q-bar"], at.get("preset-bar", ()), out=at["q"])
    _nand(b, "R", reset_bar, at["q"], at.get("clear-bar", ()), out=at["q-bar"])


def _sr(b: Builder, at: Mapping[str, Signal]) -> None:
    b.part("Q", "nor", {"in": (*at["r"], *at["q-bar"]), "out": at["q"]})
    b.part("R", "nor", {"in": (*at["s"], *at["q"]), "out": at["q-bar"]})


def _sr_nand(b: Builder, at: Mapping[str, Signal]) -> None:
    _cross(b, at, at["s-bar"], at["r-bar"])


def _gated_sr(b: Builder, at: Mapping[str, Signal]) -> None:
    gated = [_nand(b, name, at[port], at["enable"]) for name, port in (("S1", "s"), ("R1", "r"))]
    _cross(b, at, *gated)


def _d(b: Builder, at: Mapping[str, Signal]) -> None:
    other = b.part("N", "not", {"in": at["d"]})["out"]
    _gated_sr(b, {**at, "s": at["d"], "r": other})


def _master_slave(b: Builder, at: Mapping[str, Signal]) -> None:
    low = b.part("N", "not", {"in": at[CLOCK]})["out"]
    master = b.part("M", "d-latch", {"d": at["d"], "enable": low})["q"]
    slave = {"d": master, "enable": at[CLOCK], "q": at["q"], "q-bar": at["q-bar"]}
    b.part("S", "d-latch", slave)


def _jk_master_slave(b: Builder, at: Mapping[str, Signal]) -> None:
    low = b.part("N", "not", {"in": at[CLOCK]})["out"]
    set_bar = _nand(b, "J", at["j"], at[CLOCK], at["q-bar"])
    reset_bar = _nand(b, "K", at["k"], at[CLOCK], at["q"])
    direct = {port.name: at[port.name] for port in _DIRECT if port.name in at}
    master = b.part("M", "sr-latch-nand", {"s-bar": set_bar, "r-bar": reset_bar, **direct})
    slave = {"s": master["q"], "r": master["q-bar"], "enable": low, **direct}
    b.part("S", "gated-sr-latch", {**slave, "q": at["q"], "q-bar": at["q-bar"]})


def _six_nand(b: Builder, at: Mapping[str, Signal]) -> None:
    preset, clear = at.get("preset-bar", ()), at.get("clear-bar", ())
    held, taken, reset = b.net("held"), b.net("taken"), b.net("reset")
    setting = _nand(b, "G2", held, at[CLOCK], clear)
    _nand(b, "G1", taken, setting, preset, out=held)
    _nand(b, "G3", setting, at[CLOCK], taken, out=reset)
    _nand(b, "G4", reset, at["d"], clear, out=taken)
    _cross(b, at, setting, reset)


def _made(
    name: str, draw: Draw, ports: Iterable[Port], _settings: Settings, bits: Mapping[str, int]
) -> Circuit:
    b = Builder(name.replace("-", " "))
    at: dict[str, Signal] = {CLOCK: (Wire(CLOCK),)}
    at |= {port.name: b.input(port.name) for port in ports if port.name in bits}
    at |= {"q": b.net("held-1"), "q-bar": b.net("held-0")}
    draw(b, at)
    b.output("q", at["q"])
    b.output("q-bar", at["q-bar"])
    return b.circuit()


def _latch(
    name: str, noun: str, about: str, draw: Draw, *ports: Port, optional: tuple[Port, ...] = ()
) -> PartType:
    """A part of gates in loops, with the outputs q and q-bar."""
    every = (*ports, *optional)
    shown = (*every, *one_bit("out", "q", "q-bar"))
    required = frozenset(port.name for port in ports)
    inside = partial(_made, name, draw, every)
    return PartType(
        name, about, lambda *_: shown, required, (), inside, "q", role="storage", noun=noun
    )


_LEVEL = Port("enable", 1, "in", "level")
_DIRECT = (Port("preset-bar", 1, "in", "preset"), Port("clear-bar", 1, "in", "reset"))
"""A 0 at one of them sets or resets at once."""

register(
    _latch(
        "sr-latch", "SR latch", "set by s, reset by r; two NOR gates", _sr, *one_bit("in", "s", "r")
    ),
    _latch(
        "sr-latch-nand",
        "SR latch",
        "set by a 0 at s-bar, reset by a 0 at r-bar; two NAND gates",
        _sr_nand,
        *one_bit("in", "s-bar", "r-bar"),
        optional=_DIRECT,
    ),
    _latch(
        "gated-sr-latch",
        "gated SR latch",
        "set by s, reset by r while enable is 1",
        _gated_sr,
        *one_bit("in", "s", "r"),
        _LEVEL,
        optional=_DIRECT,
    ),
    _latch(
        "d-latch",
        "D latch",
        "follows d while enable is 1, and holds it else",
        _d,
        *one_bit("in", "d"),
        _LEVEL,
    ),
    _latch(
        "master-slave-flip-flop",
        "master-slave flip-flop",
        "two D latches: takes d at the edge",
        _master_slave,
        *one_bit("in", "d"),
        optional=(CLOCK_PORT,),
    ),
    _latch(
        "jk-master-slave",
        "JK master-slave flip-flop",
        "takes j and k while the clock is 1, shows what came of them when it falls",
        _jk_master_slave,
        *one_bit("in", "j", "k"),
        optional=(CLOCK_PORT, *_DIRECT),
    ),
    _latch(
        "six-nand-flip-flop",
        "D flip-flop",
        "takes d at the edge; six NAND gates",
        _six_nand,
        *one_bit("in", "d"),
        optional=(CLOCK_PORT, *_DIRECT),
    ),
)
