"""Modules and a bench as VHDL (IEEE 1076-2008)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.lab.description import (
    CLOCK,
    Assign,
    Bits,
    Connection,
    Constant,
    Filled,
    Group,
    Instance,
    Module,
    Operation,
    Signal,
    Statement,
    Store,
    Term,
)
from edgewise.lab.layout import LONGEST, apart, ascii_text, comment, ended, indented, listed

LIBRARIES: Final = (
    "library ieee;",
    "use ieee.std_logic_1164.all;",
    "use ieee.numeric_std.all;",
)
_QUALIFIED: Final = "std_logic'"
_AFTER: Final = " after 1 ns"
_WHY_AFTER: Final = (
    "A gated clock rises a delta cycle after the clock: what is stored appears 1 ns after the"
    " edge, so that all of it is stored from the bits before the edge."
)
_CHOICES: Final = """\
library ieee;
use ieee.std_logic_1164.all;

-- A choice of two within a term; where the choice is unknown, the bits on which both agree.
package choices is
  function choose(choice, when_0, when_1 : std_logic) return std_logic;
  function choose(choice : std_logic; when_0, when_1 : std_logic_vector) return std_logic_vector;
end package;

package body choices is
  function choose(choice, when_0, when_1 : std_logic) return std_logic is
  begin
    return (choice and when_1) or (not choice and when_0) or (when_0 and when_1);
  end function;

  function choose(choice : std_logic; when_0, when_1 : std_logic_vector) return std_logic_vector is
  begin
    return (choice and when_1) or (not choice and when_0) or (when_0 and when_1);
  end function;
end package body;
"""


def text(modules: Sequence[Module]) -> str:
    """The modules as one file; a comment behind a declaration is the name in the circuit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab import module
    >>> library = module.Library("VHDL", folds_case=True)
    >>> circuit = catalogue.design("ring-counter", n=3).circuit
    >>> _ = library.top("ring", circuit, ())
    >>> print(text(library.modules).partition("begin")[2])
    <BLANKLINE>
      -- R: shift register
      process (clock)
      begin
        if rising_edge(clock) then
          R <= R(0) & R(2 downto 1);
        end if;
      end process;
    <BLANKLINE>
      state <= R;
    end architecture;
    <BLANKLINE>
    """
    gated = any(map(_gated, modules))
    bodies = ["\n".join(_module(module, gated=gated)) + "\n" for module in modules]
    chosen = ["choose(" in body for body in bodies]
    units = [_CHOICES] if any(chosen) else []
    for body, chooses in zip(bodies, chosen, strict=True):
        context = (*LIBRARIES, *["use work.choices.all;"] * chooses)
        units.append("\n".join(context) + "\n\n" + body)
    return "\n".join(units)


def _gated(module: Module) -> bool:
    """Whether anything in a module has another clock than the module itself."""
    for group in module.groups:
        for one in group.statements:
            if isinstance(one, Store) and one.clock != Bits(CLOCK):
                return True
            if isinstance(one, Instance) and any(
                c.port == CLOCK and c.pieces != (Bits(CLOCK),) for c in one.connections
            ):
                return True
    return False


def _module(module: Module, *, gated: bool) -> Iterator[str]:
    delayed = gated and _stores(module)
    yield from comment("--", (*module.about, *[_WHY_AFTER] * delayed))
    yield f"entity {module.name} is"
    if module.parameters:
        told = [
            f"{one.name} : natural range {one.low} to {one.high} := {one.value}"
            for one in module.parameters
        ]
        yield f"  generic ({'; '.join(told)});"
    yield from _ports(module)
    yield "end entity;"
    yield ""
    yield f"architecture structure of {module.name} is"
    for signal in module.signals:
        start = f" := {_start(signal.start)}" if signal.start is not None else ""
        known = f"  {_known(signal)}" if signal.known_as else ""
        yield f"  signal {signal.name} : {type_of(signal)}{start};{known}"
    yield "begin"
    after = _AFTER if gated else ""
    lines = [*apart([[*_group(group, after)] for group in module.groups])]
    yield from indented(lines[1:])
    yield "end architecture;"


def _ports(module: Module) -> Iterator[str]:
    """The port clause; there is none where there is no port (IEEE 1076-2008, 6.5.6.1)."""
    if module.ports:
        ports = [
            f"{one.signal.name} : {one.direction} {type_of(one.signal)}" for one in module.ports
        ]
        notes = [_known(port.signal) for port in module.ports]
        yield "  port ("
        yield from indented(listed(ports, notes, ";"))
        yield "  );"


def used(label: str, module: str, ports: Sequence[str]) -> Iterator[str]:
    """An entity in its place, with what is at its ports."""
    if not ports:
        yield f"{label} : entity work.{module};"
        return
    yield f"{label} : entity work.{module} port map ("
    yield from listed(ports)
    yield ");"


def _stores(module: Module) -> bool:
    return any(isinstance(one, Store) for group in module.groups for one in group.statements)


def _known(signal: Signal) -> str:
    return f"-- {ascii_text(signal.known_as)}" if signal.known_as else ""


def type_of(signal: Signal) -> str:
    """The type of a signal."""
    if signal.low is None:
        return "std_logic"
    return f"std_logic_vector({signal.high} downto {signal.low})"


def _start(start: str | Filled) -> str:
    return term(start) if isinstance(start, Filled) else constant(start)


def constant(bits: str, unknown: str = "X") -> str:
    """A constant, MSB first; one bit is a character.

    Examples
    --------
    >>> constant("01x"), constant("1")
    ('"01X"', "'1'")
    """
    told = bits.replace("x", unknown)
    return f"'{told}'" if len(bits) == 1 else f'"{told}"'


# ---------------------------------------------------------------------- statements


def _group(group: Group, after: str) -> Iterator[str]:
    if not group.statements:
        return
    if group.note:
        yield f"-- {ascii_text(group.note)}"
    lines = [line for one in group.statements for line in _statement(one, after)]
    if group.loop is None:
        yield from lines
        return
    letter, first, last = group.loop
    yield f"{group.label} : for {letter} in {first} to {last} generate"
    yield from indented(lines)
    yield "end generate;"


def _statement(one: Statement, after: str) -> Iterator[str]:
    match one:
        case Assign(source=Operation(operator="choose", of=(select, zero, other))):
            line = (
                f"{term(one.target)} <= {term(other)} when {_condition(select)} else {term(zero)};"
            )
            if len(line) <= LONGEST:
                yield line
                return
            yield f"{term(one.target)} <="
            yield from indented(ended(_choice(other), f" when {_condition(select)} else"))
            yield from indented(ended(_choice(zero), ";"))
        case Assign():
            yield f"{term(one.target)} <= {term(one.source)};"
        case Store():
            yield from _store(one, after)
        case Instance():
            lines = [line for c in one.connections for line in _connection(c)]
            yield from used(one.label, one.module, lines)


def _choice(one: Term) -> list[str]:
    """A term; a choice too long for one line is one line a branch."""
    found = term(one)
    if len(found) <= LONGEST or not (isinstance(one, Operation) and one.operator == "choose"):
        return [found]
    select, zero, other = one.of
    return [
        f"choose({term(select)},",
        *indented(ended(_choice(zero), ",")),
        *indented(ended(_choice(other), ")")),
    ]


def _store(one: Store, after: str) -> Iterator[str]:
    if not one.ways:
        return
    target, clock = term(one.target), term(one.clock)
    yield f"process ({clock})"
    yield "begin"
    yield f"  if rising_edge({clock}) then"
    for place, (when, value) in enumerate(one.ways):
        stores = f"{target} <= {term(value)}{after};"
        if when is None and not place:
            yield f"    {stores}"
            break
        if when is None:
            yield "    else"
        else:
            yield f"    {'els' * bool(place)}if {_condition(when)} then"
        yield f"      {stores}"
    if one.ways[0][0] is not None:
        yield "    end if;"
    yield "  end if;"
    yield "end process;"


def _connection(one: Connection) -> Iterator[str]:
    """A port, or each piece of it by itself."""
    if len(one.pieces) == 1:
        yield f"{one.port} => {term(one.pieces[0])}"
        return
    high = sum(piece.width for piece in one.pieces)
    for piece in one.pieces:
        low = high - piece.width
        span = f"{low}" if piece.width == 1 else f"{high - 1} downto {low}"
        yield f"{one.port}({span}) => {term(piece)}"
        high = low


def _condition(one: Term) -> str:
    """A term of one bit as a condition: true where it is 1."""
    match one:
        case Operation(operator="equals", of=(word, number)):
            return f"{term(word)} = {term(number)}"
        case Operation(operator="and", of=of) if all(inner.width == 1 for inner in of):
            return " and ".join(map(_condition, of))
        case Constant():
            return "true" if one.bits == "1" else "false"
        case Operation():
            # Of literals alone the type would be open; the qualified expression says it.
            return f"{'' if _reads(one) else _QUALIFIED}({term(one)}) = '1'"
    return f"{term(one)} = '1'"


def _reads(one: Term) -> bool:
    """Whether a term reads a signal."""
    return isinstance(one, Bits) or any(map(_reads, getattr(one, "of", ())))


def term(one: Term, *, nested: bool = False) -> str:
    """A term; one with an operator is in parentheses if it is `nested` in another.

    Examples
    --------
    >>> term(Operation("and", (Bits("a", (3,)), Operation("not", (Bits("b"),)))))
    'a(3) and (not b)'
    """
    match one:
        case Bits():
            return one.name + (f"({' downto '.join(map(str, one.span))})" if one.span else "")
        case Constant():
            return constant(one.bits)
        case Filled():
            return f"(others => {constant(one.digit)})"
        case Operation():
            found = _operation(one)
            return f"({found})" if nested and one.operator != "choose" else found


def _operation(one: Operation) -> str:
    of = [term(inner, nested=True) for inner in one.of]
    match one.operator:
        case "not":
            return f"not {of[0]}"
        case "join":
            return " & ".join(of)
        case "equals":
            return f"{of[0]} ?= {of[1]}"
        case "next":
            return f"std_logic_vector(unsigned({of[0]}) + 1)"
        case "choose":
            return f"choose({', '.join(term(inner) for inner in one.of)})"
        case _:
            word = one.operator
            pieces = [
                f"{word} {text}" if inner.width != 1 else text
                for inner, text in zip(one.of, of, strict=True)
            ]
            if len(pieces) > 1:
                pieces = [
                    f"({piece})" if inner.width != 1 else piece
                    for inner, piece in zip(one.of, pieces, strict=True)
                ]
            return f" {word} ".join(pieces)
