"""Gates and constants: the parts with nothing inside."""

from __future__ import annotations

from collections.abc import Mapping

from edgewise.circuit.model import Port
from edgewise.circuit.parts import PartFault, PartType, Setting, Settings, one_bit, register
from edgewise.circuit.truth import Function, Truth
from edgewise.errors import Message


def _many_inputs(_settings: Settings, bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (Port("in", bits.get("in", 2), "in"), *one_bit("out", "out"))


def _one_input(_settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (*one_bit("in", "in"), *one_bit("out", "out"))


def _at_least_two(_settings: Settings, bits: Mapping[str, int]) -> None:
    if bits["in"] < 2:
        raise PartFault(Message("gate-inputs", count=bits["in"]), "in")


def gate(name: str, about: str, reads: tuple[str, ...], truth: Truth, symbol: str) -> PartType:
    """A gate with an input of one bit for each of `reads`; `parts.register` makes it known.

    Examples
    --------
    >>> inhibit = gate("inhibit", "a, unless b", ("a", "b"), ("and", "a", ("not", "b")), "&")
    >>> inhibit.possible({}, {})[-1].name
    'out'
    """
    ports = (*one_bit("in", *reads), *one_bit("out", "out"))
    function = Function(reads, truth)
    return PartType(
        name,
        about,
        lambda *_: ports,
        frozenset(reads),
        word="out",
        function=function,
        symbol=symbol,
    )


def _gate(name: str, about: str, truth: Truth, symbol: str) -> PartType:
    """A gate of any number of inputs."""
    function = Function(("in",), truth)
    return PartType(
        name,
        about,
        _many_inputs,
        frozenset({"in"}),
        check=_at_least_two,
        function=function,
        symbol=symbol,
    )


def _single(name: str, about: str, truth: Truth) -> PartType:
    function = Function(("in",), truth)
    return PartType(name, about, _one_input, frozenset({"in"}), function=function, symbol="1")


def _constant_ports(settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (Port("out", int(settings["width"]), "out"),)


def _value_fits(settings: Settings, _bits: Mapping[str, int]) -> None:
    value, width = settings["value"], int(settings["width"])
    if isinstance(value, int) and value >> width:
        raise PartFault(
            Message("value-range", value=value, most=(1 << width) - 1, width=width), "value"
        )


GATES = ("and", "or", "xor", "nand", "nor", "xnor", "not", "buffer")
"""The gates, by their names in a netlist."""

register(
    _gate("and", "1 if all inputs are 1", ("and", "in"), "&"),
    _gate("or", "1 if any input is 1", ("or", "in"), "≥1"),
    _gate("xor", "1 if an odd number of inputs is 1", ("xor", "in"), "=1"),
    _gate("nand", "0 if all inputs are 1", ("not", ("and", "in")), "&"),
    _gate("nor", "0 if any input is 1", ("not", ("or", "in")), "≥1"),
    _gate("xnor", "1 if an even number of inputs is 1", ("not", ("xor", "in")), "=1"),
    _single("not", "the other value", ("not", "in")),
    _single("buffer", "the same value", "in"),
    PartType(
        "constant",
        "a fixed word",
        _constant_ports,
        frozenset(),
        (
            Setting("value", low=0, high=(1 << 64) - 1, choices=("X",)),
            Setting("width", 1, low=1),
        ),
        word="out",
        check=_value_fits,
        role="constant",
    ),
)
