"""A run as a value change dump (IEEE 1364-2005, clause 18): the clock, and each named word.

A clock period has ten units of time. Edge k comes at 10 k, when the clock rises; row k stands from
then on. What gates a clock changes at the falling edge behind it, so that it disturbs no edge.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

from edgewise import files
from edgewise.circuit.clocks import falling, gating
from edgewise.circuit.model import CLOCK
from edgewise.errors import Message
from edgewise.lab.identifier import identifier
from edgewise.trace import Trace

PERIOD: Final = 10
"""Units of time from edge to edge; the clock is high in the first half."""
SUFFIX: Final = ".vcd"
_DIGITS: Final = "01x"
_ODD: Final = re.compile(r"[^A-Za-z0-9_.()-]+")
_FIRST, _LAST = ord("!"), ord("~")


def check(path: Path) -> None:
    """See that a dump can have this name.

    Raises
    ------
    EdgewiseError
        It ends otherwise.
    """
    files.check_suffix(path, (SUFFIX,), Message("written-as", kind="dump", suffixes=SUFFIX))


def code(number: int) -> str:
    """The short name of a variable: printable characters, ``!`` to ``~``.

    Examples
    --------
    >>> code(0), code(93), code(94)
    ('!', '~', '!!')
    """
    digits = ""
    number += 1
    while number:
        number, digit = divmod(number - 1, _LAST - _FIRST + 1)
        digits = chr(_FIRST + digit) + digits
    return digits


def text(trace: Trace) -> str:
    """The dump of a run: the columns of its table, and the clock if there is one.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> print(text(run(catalogue.design("ring-counter", n=3)))[:100])
    $version edgewise $end
    $timescale 1 ns $end
    $scope module ring_counter $end
    $var wire 1 ! clock $end
    """
    waves = dict(_waves(trace))
    codes = {name: code(number) for number, name in enumerate(waves)}
    widths = {name: len(next(iter(wave.values()))) for name, wave in waves.items()}
    lines = ["$version edgewise $end", "$timescale 1 ns $end"]
    lines.append(f"$scope module {identifier(trace.design.name)} $end")
    for name in waves:
        bits = f" [{widths[name] - 1}:0]" if widths[name] > 1 else ""
        lines.append(f"$var wire {widths[name]} {codes[name]} {_token(name)}{bits} $end")
    lines += ["$upscope $end", "$enddefinitions $end"]
    before: dict[str, str] = {}
    for time in range(0, PERIOD * trace.edges + PERIOD // 2 + 1, PERIOD // 2):
        now = {name: wave[time] for name, wave in waves.items() if time in wave}
        changes = [name for name, bits in now.items() if before.get(name) != bits]
        if changes or not time:
            lines.append(f"#{time}")
            told = [_change(now[name], codes[name]) for name in changes]
            lines += ["$dumpvars", *told, "$end"] if not time else told
        before |= now
    return "\n".join([*lines, f"#{PERIOD * (trace.edges + 1)}"]) + "\n"


def _token(name: str) -> str:
    """A name as one word of the file."""
    return _ODD.sub("_", name)


def _change(bits: str, short: str) -> str:
    return f"{bits}{short}" if len(bits) == 1 else f"b{bits} {short}"


def _waves(trace: Trace) -> Iterator[tuple[str, Mapping[int, str]]]:
    """Each variable with its bits, MSB first, at each time at which they may change."""
    netlist = trace.design.netlist
    gated, late = gating(netlist), falling(netlist)
    ends = range(trace.edges + 1)
    if trace.edges:
        high = {PERIOD * k: "1" if k else "0" for k in ends}
        yield CLOCK, high | {PERIOD * k + PERIOD // 2: "0" for k in ends}
    for name in trace.columns:
        nets = netlist.find(name)
        words = ["".join(_DIGITS[trace.rows[k][net]] for net in reversed(nets)) for k in ends]
        if len(nets) == 1 and nets[0] in gated:
            pulses = {PERIOD * k: words[k - 1] if k else "0" for k in ends}
            yield name, pulses | {PERIOD * k + PERIOD // 2: "0" for k in ends}
        elif set(nets) & late:
            yield name, {PERIOD * k + (PERIOD // 2 if k else 0): words[k] for k in ends}
        else:
            yield name, {PERIOD * k: words[k] for k in ends}
