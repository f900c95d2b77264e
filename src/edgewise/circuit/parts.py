"""The parts that a circuit text can name: their settings and ports, and how each is made."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import NoneType
from typing import Any, Final, Literal, TypeAlias, get_args

from edgewise.circuit.cover import Decided
from edgewise.circuit.model import CLOCK, Adds, Circuit, Kind, Port, Role
from edgewise.circuit.truth import Function
from edgewise.errors import CircuitError, Message, nearest
from edgewise.guests import Group, Guest
from edgewise.listing import either

Settings: TypeAlias = Mapping[str, int | str]
"""The settings of one part, defaults filled in: ``{"width": 6, "direction": "right"}``."""


class PartFault(CircuitError):
    """A fault of one part; `at` names the port or setting that it is about."""

    def __init__(self, told: Message | str, at: str | None = None) -> None:
        super().__init__(told)
        self.at = at


@dataclass(frozen=True, slots=True)
class Setting:
    """Something a part can be given: a number in a range, a start value, or a choice."""

    name: str
    default: int | str | None = None
    """None: it must be given."""
    low: int = 0
    high: int = 1024
    choices: tuple[str, ...] = ()
    """Words that are allowed besides numbers from `low` to `high`."""

    def check(self, value: int | str) -> None:
        """Raise `PartFault` unless `value` is allowed."""
        if value in self.choices or (isinstance(value, int) and self.low <= value <= self.high):
            return
        numbers = (f"{self.low}..{self.high}",) if self.high >= self.low else ()
        raise PartFault(
            Message(
                "value-expected",
                name=self.name,
                found=value,
                expected=either((*numbers, *self.choices)),
            ),
            self.name,
        )


@dataclass(frozen=True, slots=True)
class PartType:
    """A part before its widths are known.

    Parameters
    ----------
    name, about : str
        The trade's name, and one line for people.
    ports : function
        All ports that settings and the count of bits at the inputs allow, in drawing order.
    required : frozenset of str
        Inputs that must be fed.
    settings : tuple of Setting
    inside : function, optional
        The circuit inside, for settings and the set of ports in use.
    word : str, optional
        As in `Kind`.
    check : function, optional
        Raises `CircuitError` where ports and settings don't go together.
    decided : function, optional
        As in `Kind`, for settings and the set of ports in use.
    role : str
        As in `Kind`.
    function : Function, optional
        What a gate computes, where it has nothing inside.
    symbol, clock_symbol : str, or function of the kind
        What stands in its rectangle, and at its clock, after IEC 60617-12.
    noun : str
        How a sentence calls it; the name without hyphens, if empty.
    does : str
        What a storage element does at an edge where no control says otherwise: ``take`` a bit or
        word, ``shift``, ``count``.
    stores : str
        Which of its ports, or of the nets inside, it then takes in.
    adds : Adds, optional
        As in `Kind`.
    """

    name: str
    about: str
    ports: Callable[[Settings, Mapping[str, int]], tuple[Port, ...]]
    required: frozenset[str]
    settings: tuple[Setting, ...] = ()
    inside: Callable[[Settings, Mapping[str, int]], Circuit | None] | None = None
    word: str | None = None
    check: Callable[[Settings, Mapping[str, int]], None] | None = None
    decided: Callable[[Settings, Mapping[str, int]], tuple[Decided, ...]] | None = None
    role: Role = "gate"
    function: Function | None = None
    symbol: str | Callable[[Kind], str] = ""
    clock_symbol: str | Callable[[Kind], str] = "C1"
    noun: str = ""
    does: Literal["take", "shift", "count"] = "take"
    stores: str = ""
    adds: Adds | None = None

    def complete(self, given: Settings) -> dict[str, int | str]:
        """`given` with defaults filled in, in the order of `settings`.

        Raises
        ------
        PartFault
            For an unknown, missing or bad setting.
        """
        known = [setting.name for setting in self.settings]
        for name in given:
            if name not in known:
                raise PartFault(
                    Message(
                        "setting-unknown",
                        kind=self.name,
                        name=name,
                        suggestion=nearest(name, known),
                    ),
                    name,
                )
        complete: dict[str, int | str] = {}
        for setting in self.settings:
            value = given.get(setting.name, setting.default)
            if value is None:
                raise PartFault(Message("setting-missing", kind=self.name, name=setting.name))
            setting.check(value)
            complete[setting.name] = value
        return complete

    def possible(self, given: Settings, widths: Mapping[str, int]) -> tuple[Port, ...]:
        """All ports that these settings and the bits at the inputs allow."""
        return self.ports(self.complete(given), widths)


def one_bit(direction: Literal["in", "out"], *names: str) -> tuple[Port, ...]:
    """Ports of one bit each."""
    return tuple(Port(name, 1, direction) for name in names)


def controls(*names: Literal["enable", "clear", "load"]) -> tuple[Port, ...]:
    """Inputs of one bit that say what a storage element does at an edge."""
    return tuple(Port(name, 1, "in", name) for name in names)


def _guarded(guest: Guest, part: PartType) -> PartType:
    """A part of another package, looked through, with its functions guarded."""
    guest.all_of(part, "settings", Setting)
    for field, kind in (("function", Function), ("adds", Adds), ("word", str)):
        if not isinstance(found := getattr(part, field), kind | None):
            raise guest.error(
                "guest-optional", field=field, found=repr(found), expected=kind.__name__
            )
    if part.role not in get_args(Role)[:-1]:
        roles = ", ".join(get_args(Role)[:-1])
        raise guest.error("guest-role", found=repr(part.role), expected=roles)

    def guarded(call: Any, *kinds: type, of: type | None = None) -> Any:
        said = call is None or isinstance(call, str)
        return call if said else guest.guarded(call, *kinds, of=of)

    return replace(
        part,
        ports=guarded(part.ports, tuple, of=Port),
        inside=guarded(part.inside, Circuit, NoneType),
        check=guarded(part.check),
        decided=guarded(part.decided, tuple, of=Decided),
        symbol=guarded(part.symbol, str),
        clock_symbol=guarded(part.clock_symbol, str),
    )


_REGISTRY: Final[dict[str, PartType]] = {}
_BROUGHT: Final[set[str]] = set()
"""Those of them that another package brought."""
GUESTS: Final = Group(
    "edgewise.parts", "part", PartType, lambda: _REGISTRY.keys() - _BROUGHT, _guarded
)
"""Parts that other packages bring."""


def register(*family: PartType) -> None:
    """Make the part types of a family known; `edgewise.circuit` does so for its own."""
    _REGISTRY.update({kind_type.name: kind_type for kind_type in family})


def registry() -> Mapping[str, PartType]:
    """Every part of our own by name, and the guests in use, in the order of a list."""
    return _REGISTRY


def names() -> tuple[str, ...]:
    """The name of every part that there is, those that other packages bring too."""
    return (*_REGISTRY, *(name for name in GUESTS.names() if name not in _REGISTRY))


def is_known(name: str) -> bool:
    """Whether there is a part of this name; one of another package is loaded.

    Raises
    ------
    GuestError
        Another package brings it, but it can't be used.
    """
    if name not in _REGISTRY and (guest := GUESTS.find(name)) is not None:
        register(guest)
        _BROUGHT.add(name)
    return name in _REGISTRY


def part_type(name: str) -> PartType:
    """The part of this name; the error for an unknown one suggests the nearest.

    Examples
    --------
    >>> part_type("full-adder").about
    'adds three bits: sum and carry-out'
    >>> part_type("ful-adder")
    Traceback (most recent call last):
    edgewise.errors.CircuitError: there is no part ful-adder; did you mean full-adder?
    """
    if not is_known(name):
        raise CircuitError(Message("part-unknown", name=name, suggestion=nearest(name, names())))
    return _REGISTRY[name]


def function(operator: str) -> Function:
    """What a gate of a netlist computes.

    Examples
    --------
    >>> function("nor").truth
    ('not', ('or', 'in'))
    """
    found = part_type(operator).function
    assert found is not None, operator
    return found


def role(name: str) -> Role:
    """What a part of this name is for; what is no part type is a circuit used as one."""
    return _REGISTRY[name].role if name in _REGISTRY else "circuit"


def noun(name: str) -> str:
    """How a sentence calls a part of this name.

    Examples
    --------
    >>> noun("shift-register"), noun("flip-flop")
    ('shift register', 'flip-flop')
    """
    return (name in _REGISTRY and _REGISTRY[name].noun) or name.replace("-", " ")


def symbol(kind: Kind, *, clock: bool = False) -> str:
    """What stands in the rectangle of a part, or at its clock."""
    if kind.role == "circuit":
        return ""
    known = part_type(kind.name)
    said = known.clock_symbol if clock else known.symbol
    return said if isinstance(said, str) else said(kind)


def has_clock(kind: Kind) -> bool:
    """Whether a clock comes to a part that stores, written or not: to a latch none does.

    Examples
    --------
    >>> latch = kind("d-latch", {}, {"d": 1, "enable": 1})
    >>> has_clock(kind("flip-flop", {}, {"d": 1})), has_clock(latch)
    (True, False)
    """
    if kind.role != "storage":
        return False
    possible = part_type(kind.name).ports(dict(kind.settings), {p.name: p.width for p in kind.ins})
    return any(port.role == "clock" for port in possible)


MOST_INPUTS: Final = 4096
"""Bits at one port, at most."""


def kind(name: str, settings: Settings, widths: Mapping[str, int]) -> Kind:
    """The kind of a part with all its widths.

    Parameters
    ----------
    name : str
        Name of a part type.
    settings : mapping
        What was given; defaults are filled in.
    widths : mapping of str to int
        Each port that is fed, or drives a net, with the number of bits there.

    Raises
    ------
    CircuitError
        Unknown part, port or setting; a width that doesn't match; a required input missing.
        All but the first are a `PartFault`.

    Examples
    --------
    >>> [p.name for p in kind("flip-flop", {}, {"d": 1, "enable": 1}).ports]
    ['d', 'enable', 'q']
    """
    return _kind(name, tuple(settings.items()), tuple(widths.items()))


@lru_cache(maxsize=2048)
def _kind(
    name: str, settings: tuple[tuple[str, int | str], ...], widths: tuple[tuple[str, int], ...]
) -> Kind:
    kind_type, bits = part_type(name), dict(widths)
    given = kind_type.complete(dict(settings))
    possible = kind_type.ports(given, bits)
    settable = [setting.name for setting in kind_type.settings]
    refuse_unknown_ports(name, possible, bits, settable)
    for port in possible:
        if port.name in kind_type.required and port.name not in bits:
            raise PartFault(Message("port-unfed", port=port.name, kind=name))
    if kind_type.check:
        kind_type.check(given, bits)
    used = tuple(port for port in possible if port.direction == "out" or port.name in bits)
    for port in used:
        check_width(name, port, bits)
    inside = kind_type.inside(given, bits) if kind_type.inside else None
    decided = kind_type.decided(given, bits) if kind_type.decided else ()
    return Kind(
        name,
        used,
        tuple(given.items()),
        inside,
        kind_type.word,
        decided,
        kind_type.role,
        None if inside else kind_type.function,
        kind_type.adds,
    )


def refuse_unknown_ports(
    name: str, ports: Iterable[Port], given: Iterable[str], settings: Iterable[str] = ()
) -> None:
    """Raise `PartFault` for a name that is neither a port nor a setting of a part."""
    known = [port.name for port in ports]
    for port in given:
        if port not in known:
            near = nearest(port, [*known, *settings])
            told = "part-port-or-setting-unknown" if settings else "part-port-unknown"
            raise PartFault(Message(told, kind=name, name=port, suggestion=near), port)


def check_width(name: str, port: Port, bits: Mapping[str, int], there: str | None = None) -> None:
    """Raise `PartFault` unless what is at a port has the port's width.

    `there` is a text for what is at the port: ``w(2..0)``.
    """
    found = bits.get(port.name, port.width)
    if found != port.width:
        unseen = "port-feeder" if port.direction == "in" else "port-driven"
        other = there or Message(unseen)
        raise PartFault(
            Message(
                "port-width", port=port.name, kind=name, width=port.width, other=other, found=found
            ),
            port.name,
        )


def count(number: int, noun: str) -> str:
    """A number with its noun: ``1 bit``, ``6 bits``."""
    return f"{number} {noun}" + ("" if number == 1 else "s")


def output_widths(name: str, settings: Settings, inputs: Iterable[str]) -> Mapping[str, int]:
    """Width of each output of a part, before anything is known of its inputs' widths."""
    return _output_widths(name, tuple(settings.items()), frozenset(inputs))


@lru_cache(maxsize=512)
def _output_widths(
    name: str, settings: tuple[tuple[str, int | str], ...], inputs: frozenset[str]
) -> Mapping[str, int]:
    kind_type = part_type(name)
    ports = kind_type.ports(kind_type.complete(dict(settings)), dict.fromkeys(inputs, 1))
    return {port.name: port.width for port in ports if port.direction == "out"}


CLOCK_PORT: Final = Port(CLOCK, 1, "in", "clock")
"""The optional clock port of every storage element."""
