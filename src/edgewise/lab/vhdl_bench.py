"""A bench as VHDL (IEEE 1076-2008)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewise.lab.bench import Bench
from edgewise.lab.description import Port
from edgewise.lab.law import Law
from edgewise.lab.layout import ascii_text, comment, indented, listed
from edgewise.lab.vhdl import LIBRARIES, constant, type_of, used

_ARITHMETIC: Final = {"div": "/"}


def bench_text(bench: Bench) -> str:
    """An entity that feeds each row of a run, and compares what the circuit shows with the run.

    It prints ``PASS``; or the first row that differs, and then ends with a failure.
    """
    lines = [
        *LIBRARIES,
        "",
        *comment("--", bench.about),
        f"entity {bench.name} is",
        "end entity;",
        "",
        f"architecture bench of {bench.name} is",
        *indented(_bench_signals(bench)),
        "begin",
        *indented(_bench_body(bench)),
        "end architecture;",
    ]
    return "\n".join(lines) + "\n"


def _bench_signals(bench: Bench) -> Iterator[str]:
    if bench.clock:
        yield f"signal {bench.clock} : std_logic := '0';"
    for port in bench.ports:
        yield f"signal {port.signal.name} : {type_of(port.signal)};"


def _bench_body(bench: Bench) -> Iterator[str]:
    ports = [f"{p.signal.name} => {p.signal.name}" for p in bench.module.ports]
    yield from used(bench.unit, bench.module.name, ports)
    yield ""
    yield "process"
    yield from indented(_procedure(bench))
    yield "begin"
    for row in bench.rows:
        bits = [constant(one) for one in row.fed] + [constant(one, "-") for one in row.shown]
        note = f"  -- {ascii_text(row.phase)}" if row.phase else ""
        yield f"  {bench.task}({', '.join([str(row.number), *bits])});{note}"
    yield '  std.textio.write(std.textio.output, "PASS" & LF);'
    yield "  wait;"
    yield "end process;"


def _procedure(bench: Bench) -> Iterator[str]:
    yield "-- Feeds a row while the clock is low, compares the bits that are not '-', then clocks."
    yield f"procedure {bench.task}("
    pairs: list[tuple[Port, str]] = list(zip(bench.ports, bench.bits, strict=True))
    told = [f"constant {bits} : {type_of(port.signal)}" for port, bits in pairs]
    yield from listed([f"constant {bench.number} : natural", *told], comma=";")
    yield ") is"
    yield "begin"
    for port, bits in pairs[: len(bench.inputs)]:
        yield f"  {port.signal.name} <= {bits};"
    yield "  wait for 5 ns;"
    for port, bits in pairs[len(bench.inputs) :]:
        name = port.signal.name
        yield f"  assert std_match({name}, {bits})"
        yield f'    report "FAIL: row " & to_string({bench.number}) & ": {name} is "'
        yield f'    & to_string({name}) & ", expected " & to_string({bits})'
        yield "    severity failure;"
    for port, law in bench.laws:
        yield from indented(_asserted(bench, port, law))
    if bench.clock:
        yield f"  {bench.clock} <= '1';"
        yield "  wait for 5 ns;"
        yield f"  {bench.clock} <= '0';"
    yield "end procedure;"


def _asserted(bench: Bench, port: Port, law: Law) -> Iterator[str]:
    """A law, in the row in which it holds."""
    name, formula = port.signal.name, law.text(_ARITHMETIC)
    alike = f"unsigned({name}) = to_unsigned({formula}, {port.signal.width})"
    if port.signal.low is None:
        alike = f"({name} = '1') = (({formula}) = 1)"
    told = ascii_text(law.told)
    yield f"-- In row {law.row} {name} is {told}."
    yield f"assert {bench.number} /= {law.row} or {alike}"
    yield f'  report "FAIL: row {law.row}: {name} is not {told}"'
    yield "  severity failure;"
