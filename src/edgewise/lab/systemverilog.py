"""Modules and a bench as SystemVerilog (IEEE 1800-2017)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.lab.bench import Bench
from edgewise.lab.description import (
    Assign,
    Bits,
    Connection,
    Constant,
    Filled,
    Group,
    Instance,
    Module,
    Operation,
    Port,
    Signal,
    Statement,
    Store,
    Term,
)
from edgewise.lab.law import Law
from edgewise.lab.layout import LONGEST, apart, ascii_text, comment, ended, indented, listed

_HEAD: Final = ("`timescale 1ns / 1ns", "`default_nettype none")
_FOOT: Final = ("", "`default_nettype wire")
_ARITHMETIC: Final = {"div": "/", "mod": "%"}
_SIGN: Final = {"and": "&", "or": "|", "xor": "^"}


def text(modules: Sequence[Module]) -> str:
    r"""The modules as one file; a comment behind a declaration is the name in the circuit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab import module
    >>> library = module.Library("SystemVerilog", folds_case=False)
    >>> circuit = catalogue.design("ring-counter", n=3).circuit
    >>> _ = library.top("ring", circuit, ())
    >>> print(text(library.modules).partition("none\n\n")[2])
    module ring (
      input  wire clock,
      output wire [2:0] state
    );
      logic [2:0] R = 3'b100;
    <BLANKLINE>
      // R: shift register
      always_ff @(posedge clock)
        R <= {R[0], R[2:1]};
    <BLANKLINE>
      assign state = R;
    endmodule
    <BLANKLINE>
    `default_nettype wire
    <BLANKLINE>
    """
    found = [*_HEAD]
    for module in modules:
        found += ["", *_module(module)]
    return "\n".join([*found, *_FOOT]) + "\n"


def _module(module: Module) -> Iterator[str]:
    yield from comment("//", module.about)
    ports = [_port(port) for port in module.ports]
    told = ", ".join(f"parameter int {one.name} = {one.value}" for one in module.parameters)
    yield f"module {module.name} {f'#({told}) ' if told else ''}("
    yield from listed(ports, [_known(port.signal, "//") for port in module.ports])
    yield ");"
    for signal in module.signals:
        yield f"  {_declared(signal)};{_known(signal, '  //')}"
    yield from indented(apart([[*_group(group)] for group in module.groups]))
    yield "endmodule"


def _known(signal: Signal, mark: str) -> str:
    return f"{mark} {ascii_text(signal.known_as)}" if signal.known_as else ""


def _range(signal: Signal) -> str:
    return "" if signal.low is None else f" [{signal.high}:{signal.low}]"


def _port(port: Port) -> str:
    direction = "input " if port.direction == "in" else "output"
    return f"{direction} wire{_range(port.signal)} {port.signal.name}"


def _declared(signal: Signal) -> str:
    if signal.start is None:
        return f"wire{_range(signal)} {signal.name}"
    return f"logic{_range(signal)} {signal.name}{_start(signal.start)}"


def _start(start: str | Filled) -> str:
    """The first value; a variable is x where none is given."""
    if isinstance(start, Filled):
        return "" if start.digit == "x" else f" = {term(start)}"
    return "" if set(start) == {"x"} else f" = {constant(start)}"


def constant(bits: str) -> str:
    """A constant, MSB first.

    Examples
    --------
    >>> constant("0110"), constant("00000"), constant("x")
    ("4'b0110", "5'b00000", "1'bx")
    """
    return f"{len(bits)}'b{bits}"


# ---------------------------------------------------------------------- statements


def _group(group: Group) -> Iterator[str]:
    if not group.statements:
        return
    if group.note:
        yield f"// {ascii_text(group.note)}"
    lines = [line for one in group.statements for line in _statement(one)]
    if group.loop is None:
        yield from lines
        return
    letter, first, last = group.loop
    yield f"for (genvar {letter} = {first}; {letter} <= {last}; {letter}++) begin : {group.label}"
    yield from indented(lines)
    yield "end"


def _statement(one: Statement) -> Iterator[str]:
    match one:
        case Assign():
            first, *more = ended(_choice(one.source), ";")
            yield f"assign {term(one.target)} = {first}"
            yield from more
        case Store():
            yield from _store(one)
        case Instance():
            yield f"{one.module} {one.label} ("
            yield from listed([_connection(c) for c in one.connections])
            yield ");"


def _choice(one: Term) -> list[str]:
    """A term; a choice too long for one line is one line a branch."""
    found = term(one)
    if len(found) <= LONGEST or not (isinstance(one, Operation) and one.operator == "choose"):
        return [found]
    select, zero, other = one.of
    return [
        f"{term(select, nested=True)} ?",
        *indented(ended(_choice(other), " :")),
        *indented(_choice(zero)),
    ]


def _store(one: Store) -> Iterator[str]:
    target = term(one.target)
    if not one.ways:
        return
    yield f"always_ff @(posedge {term(one.clock)})"
    for place, (when, value) in enumerate(one.ways):
        stores = f"{target} <= {term(value)};"
        if when is None:
            yield f"  else {stores}" if place else f"  {stores}"
        else:
            yield f"  {'else ' * bool(place)}if ({term(when)}) {stores}"


def _connection(one: Connection) -> str:
    pieces = [term(piece) for piece in one.pieces]
    return f".{one.port}({pieces[0] if len(pieces) == 1 else _joined(pieces)})"


def _joined(pieces: Sequence[str]) -> str:
    return "{" + ", ".join(pieces) + "}"


def term(one: Term, *, nested: bool = False) -> str:
    """A term; one with an operator is in parentheses if it is `nested` in another.

    Examples
    --------
    >>> term(Operation("and", (Bits("a", (3,)), Operation("not", (Bits("b"),)))))
    'a[3] & ~b'
    """
    match one:
        case Bits():
            return one.name + (f"[{':'.join(map(str, one.span))}]" if one.span else "")
        case Constant():
            return constant(one.bits)
        case Filled():
            return f"'{one.digit}"
        case Operation():
            found = _operation(one)
            plain = one.operator in {"not", "join"} or len(one.of) == 1
            return f"({found})" if nested and not plain else found


def _operation(one: Operation) -> str:
    of = [term(inner, nested=True) for inner in one.of]
    match one.operator:
        case "not":
            (inner,) = one.of  # a unary operator takes a primary (A.8.3)
            return f"~({term(inner)})" if isinstance(inner, Operation) else f"~{of[0]}"
        case "join":
            return _joined([term(inner) for inner in one.of])
        case "equals":
            return f"{of[0]} == {of[1]}"
        case "next":
            return f"{of[0]} + 1'b1"
        case "choose":
            select, zero, other = of
            return f"{select} ? {other} : {zero}"
        case _:
            sign = _SIGN[one.operator]
            pieces = [
                f"{sign}{text}" if inner.width != 1 else text
                for inner, text in zip(one.of, of, strict=True)
            ]
            if len(pieces) > 1:
                pieces = [f"({piece})" if piece[0] == sign else piece for piece in pieces]
            return f" {sign} ".join(pieces)


# ---------------------------------------------------------------------- the bench


def bench_text(bench: Bench) -> str:
    """A module that feeds each row of a run, and compares what the circuit shows with the run.

    It prints ``PASS``; or the first row that differs, and then ends with an error.
    """
    lines = [
        *_HEAD,
        "",
        *comment("//", bench.about),
        f"module {bench.name};",
        *indented(_bench_body(bench)),
        "endmodule",
        *_FOOT,
    ]
    return "\n".join(lines) + "\n"


def _bench_body(bench: Bench) -> Iterator[str]:
    clock = [Port(Signal(bench.clock), "in")] if bench.clock else []
    for port in (*clock, *bench.inputs):
        start = " = 1'b0" if port in clock else ""
        yield f"logic{_range(port.signal)} {port.signal.name}{start};"
    for port in bench.outputs:
        yield f"wire{_range(port.signal)} {port.signal.name};"
    yield ""
    yield f"{bench.module.name} {bench.unit} ("
    yield from listed([f".{p.signal.name}({p.signal.name})" for p in bench.module.ports])
    yield ");"
    yield ""
    yield from _task(bench)
    yield ""
    yield "initial begin"
    masks = [bench.known(port) for port in bench.outputs]
    for i, row in enumerate(bench.rows):
        bits = [constant(one) for one in row.fed]
        for shown, mask in zip(row.shown, masks, strict=True):
            bits.append(constant(shown.replace("x", "0") if mask else shown))
            bits += [constant(mask[i])] if mask else []
        note = f"  // {ascii_text(row.phase)}" if row.phase else ""
        yield f"  {bench.task}({', '.join([str(row.number), *bits])});{note}"
    yield '  $display("PASS");'
    yield "  $finish;"
    yield "end"


def _task(bench: Bench) -> Iterator[str]:
    yield "// Feeds a row while the clock is low, compares the bits that are known, then clocks."
    yield f"task automatic {bench.task}("
    pairs = list(zip(bench.ports, bench.bits, strict=True))
    masks = dict(zip(bench.outputs, bench.masks, strict=True))
    told = []
    for port, bits in pairs:
        told.append(f"input logic{_range(port.signal)} {bits}")
        if port in masks and bench.known(port):
            told.append(f"input logic{_range(port.signal)} {masks[port]}")
    yield from listed([f"input int {bench.number}", *told])
    yield ");"
    for port, bits in pairs[: len(bench.inputs)]:
        yield f"  {port.signal.name} = {bits};"
    yield "  #5;"
    for port, bits in pairs[len(bench.inputs) :]:
        yield from indented(_compared(bench, port, bits, masks[port]))
    for port, law in bench.laws:
        yield from indented(_asserted(bench, port.signal.name, law))
    if bench.clock:
        yield f"  {bench.clock} = 1'b1;"
        yield "  #5;"
        yield f"  {bench.clock} = 1'b0;"
    yield "endtask"


def _compared(bench: Bench, port: Port, bits: str, known: str) -> Iterator[str]:
    """What compares an output; where bits of it are unknown, those are left out."""
    name, expected = port.signal.name, bits
    shown = name
    if bench.known(port):
        shown = f"({name} & {known})"
        expected = f"{bits} | (~{known} & {constant('x' * port.signal.width)})"
    yield f"if ({shown} !== {bits}) begin"
    text = f"FAIL: row %0d: {name} is %b, expected %b"
    yield f'  $display("{text}", {bench.number}, {name}, {expected});'
    yield "  $fatal(1);"
    yield "end"


def _asserted(bench: Bench, name: str, law: Law) -> Iterator[str]:
    """A law, in the row in which it holds."""
    told = ascii_text(f"{name} is {law.told}")
    yield f"if ({bench.number} == {law.row})  // {told}"
    yield f"  assert (32'({name}) == {law.text(_ARITHMETIC)})"
    yield "  else begin"
    yield f'    $display("FAIL: row %0d: {name} is %b, expected {ascii_text(law.told)}",'
    yield f"      {bench.number}, {name});"
    yield "    $fatal(1);"
    yield "  end"
