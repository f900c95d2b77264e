"""The carry-lookahead adder: flat to 4 bits, beyond that 4-bit groups with lookahead between.

Place i generates a carry, g_i = a_i and b_i, or propagates one, p_i = a_i xor b_i: the two
outputs of a half adder. A lookahead unit turns those of up to four places into all their
carries at once, by sums of products::

    c1 = g0 + p0 c0
    c2 = g1 + p1 g0 + p1 p0 c0
    c3 = g2 + p2 g1 + p2 p1 g0 + p2 p1 p0 c0
    c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0

A whole group generates and propagates like a single place, so the same unit serves up to
four groups, up to four groups of groups, and so on. Without a carry-in the terms with c0 are
left out.

References
----------
Mano and Ciletti, *Digital Design*, sec. 4.5; Parhami, *Computer Arithmetic*, sec. 6.2 (both
from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import Builder, wires
from edgewise.circuit.model import Circuit, Kind, Port, Signal
from edgewise.circuit.parts import one_bit
from edgewise.design import Design, Operand, Purpose
from edgewise.formula import Number, parse
from edgewise.parameter import Parameter

GROUP: Final = 4
"""Places, or groups, in one lookahead unit at most."""

WITH_CARRY_IN: Final = "carry-lookahead-adder"
WITHOUT_CARRY_IN: Final = "carry-lookahead-adder-without-carry-in"


def blueprint(name: str) -> Blueprint:
    """The blueprint of the adder, with or without carry-in as its catalogue name says.

    Examples
    --------
    >>> blueprint("carry-lookahead-adder").design({"n": 6}).circuit.parts[0].name
    'group(0)'
    """
    carry_in = name == WITH_CARRY_IN
    about = "forms all carries of a group at once; 4-bit groups, lookahead between them"
    return Blueprint(
        name,
        "carry-lookahead adder" + ("" if carry_in else " without carry-in"),
        (Parameter("n", Number(4), Number(1), Number(256)),),
        partial(_design, name),
        about + ("" if carry_in else "; no carry comes in"),
        "Mano and Ciletti, Digital Design, sec. 4.5 (carry lookahead); Parhami, Computer"
        " Arithmetic, sec. 6.2 (both from memory)",
    )


def _design(name: str, numbers: Mapping[str, int]) -> Design:
    n, carry_in = numbers["n"], name == WITH_CARRY_IN
    operands = (Operand("a", n), Operand("b", n), *([Operand("carry_in", 1)] * carry_in))
    total = "(a + b + carry_in)" if carry_in else "(a + b)"
    computes = (
        Purpose("sum", parse(f"{total} mod 2**n")),
        Purpose("carry", parse(f"{total} div 2**n")),
    )
    return Design(name, adder(n, carry_in=carry_in), dict(numbers), operands, (), computes)


def adder(n: int, *, carry_in: bool = True) -> Circuit:
    """The carry-lookahead adder of `n` bits.

    Parameters
    ----------
    n : int
        Width of both words, at least 1.
    carry_in : bool
        Whether there is an input ``carry_in``.

    Returns
    -------
    Circuit
        Inputs a, b (n bits each), carry_in (1); outputs sum (n bits), carry (1).

    Examples
    --------
    >>> [part.name for part in adder(2).parts]
    ['HA(0)', 'HA(1)', 'LA', 'XOR(0)', 'XOR(1)']
    >>> [part.name for part in adder(9).parts]
    ['group(0)', 'group(1)', 'group(2)', 'LA']
    """
    b = Builder("carry-lookahead adder" + ("" if carry_in else " without carry-in"))
    one, other = b.input("a", n), b.input("b", n)
    carry = b.input("carry_in") if carry_in else ()
    if n <= GROUP:
        total, carries = _places(b, one, other, carry, last=True)
        b.output("sum", total)
        b.output("carry", carries[f"c{n}"])
        return b.circuit()
    root = _tree(n)
    total = b.net("sum", n)
    for node, comes_in in _walk(root, carry):
        if node.members:
            _add_unit(b, node, comes_in, last=node is root)
        else:
            span = slice(node.low, node.high + 1)
            kind = group(node.high - node.low + 1, carry_in=bool(comes_in))
            ports = {"a": one[span], "b": other[span], "sum": total[span]}
            b.part(node.name, kind, ports | ({"carry-in": comes_in} if comes_in else {}))
    b.output("sum", total)
    b.output("carry", wires(f"{root.name}.c{len(root.members)}", 1))
    return b.circuit()


@dataclass(frozen=True, slots=True)
class _Node:
    """A group of places `low` to `high`, or a unit over `members`, lowest first."""

    name: str
    low: int
    high: int
    members: tuple[_Node, ...] = ()


def _tree(n: int) -> _Node:
    level = [
        _Node(f"group({j})", low, min(low + GROUP, n) - 1)
        for j, low in enumerate(range(0, n, GROUP))
    ]
    height = 1
    while len(level) > GROUP:
        chunks = [level[i : i + GROUP] for i in range(0, len(level), GROUP)]
        # A group left alone needs no unit; it moves up one level as it is.
        level = [
            _Node(f"LA{height}({j})", chunk[0].low, chunk[-1].high, tuple(chunk))
            if len(chunk) > 1
            else chunk[0]
            for j, chunk in enumerate(chunks)
        ]
        height += 1
    return _Node("LA", 0, n - 1, tuple(level))


def _walk(node: _Node, comes_in: Signal) -> Iterator[tuple[_Node, Signal]]:
    """Every node below and then itself, with the carry that comes into it (empty: none)."""
    for i, member in enumerate(node.members):
        yield from _walk(member, wires(f"{node.name}.c{i}", 1) if i else comes_in)
    yield node, comes_in


def _add_unit(b: Builder, node: _Node, comes_in: Signal, *, last: bool) -> None:
    ports: dict[str, Signal] = {}
    for i, member in enumerate(node.members):
        ports[f"g{i}"] = wires(f"{member.name}.generate", 1)
        if i or comes_in:
            ports[f"p{i}"] = wires(f"{member.name}.propagate", 1)
    if comes_in:
        ports["carry-in"] = comes_in
    b.part(node.name, unit(len(node.members), carry_in=bool(comes_in), last=last), ports)


def _places(
    b: Builder, one: Signal, other: Signal, carry: Signal, *, last: bool
) -> tuple[Signal, dict[str, Signal]]:
    """Half adders, one lookahead unit, and the XOR gates of the sum.

    Gives the sum, and by name what the unit gives: c1, c2, … up to the carry-out if `last`,
    else ``generate`` and, with a carry-in, ``propagate`` of the group.
    """
    n = len(one)
    halves = [
        b.part(f"HA({i})", "half-adder", {"a": x, "b": y})
        for i, (x, y) in enumerate(zip(one, other, strict=True))
    ]
    g = [half["carry-out"] for half in halves]
    p = [half["sum"] for half in halves]
    given: dict[str, Signal]
    if n == 1 and not (last and carry):
        # One place needs no unit: its generate is the group's, or the carry-out.
        given = {"c1": g[0]} if last else {"generate": g[0], "propagate": p[0]}
    else:
        ports = {f"g{i}": bit for i, bit in enumerate(g)}
        ports |= {f"p{i}": bit for i, bit in enumerate(p) if i or carry}
        placed = b.part(
            "LA", unit(n, carry_in=bool(carry), last=last), ports | _if("carry-in", carry)
        )
        given = {port.name: placed[port.name] for port in placed.part.kind.ports}
    carries = [carry, *(given[f"c{i}"] for i in range(1, n))]
    total = tuple(
        b.part(f"XOR({i})", "xor", {"in": (*c, *half)})["out"][0] if c else half[0]
        for i, (c, half) in enumerate(zip(carries, p, strict=True))
    )
    return total, given


def _if(port: str, signal: Signal) -> dict[str, Signal]:
    return {port: signal} if signal else {}


@lru_cache(maxsize=16)
def group(width: int, *, carry_in: bool) -> Kind:
    """A part that adds up to four places and tells whether it generates or propagates a carry.

    Ports a, b, sum (`width` bits each), generate; with a carry-in also carry-in, propagate.
    """
    b = Builder("lookahead group")
    one, other = b.input("a", width), b.input("b", width)
    carry = b.input("carry-in") if carry_in else ()
    total, given = _places(b, one, other, carry, last=False)
    outs = ("generate", "propagate") if carry_in else ("generate",)
    b.output("sum", total)
    for name in outs:
        b.output(name, given[name])
    ports = (
        Port("a", width, "in"),
        Port("b", width, "in"),
        *one_bit("in", *["carry-in"] * carry_in),
        Port("sum", width, "out"),
        *one_bit("out", *outs),
    )
    return Kind("lookahead-group", ports, (("width", width),), b.circuit())


@lru_cache(maxsize=16)
def unit(places: int, *, carry_in: bool, last: bool) -> Kind:
    """A lookahead unit over a number of places, or of groups.

    Parameters
    ----------
    places : int
        1 to 4.
    carry_in : bool
        Whether a carry c0 comes in (port carry-in).
    last : bool
        True: gives the carries c1 to c(`places`). False: gives c1 to c(`places` - 1), and
        generate, with a carry-in also propagate, of all its places together.

    Examples
    --------
    >>> [port.name for port in unit(2, carry_in=True, last=False).ports]
    ['g0', 'p0', 'g1', 'p1', 'carry-in', 'c1', 'generate', 'propagate']
    """
    b = Builder("lookahead unit")
    ports: list[Port] = []
    g: list[Signal] = []
    p: list[Signal] = []
    for i in range(places):
        names = (f"g{i}", f"p{i}") if i or carry_in else (f"g{i}",)
        ports += one_bit("in", *names)
        g.append(b.input(names[0]))
        p.append(b.input(names[1]) if len(names) > 1 else ())
    comes_in: Signal = ()
    if carry_in:
        ports += one_bit("in", "carry-in")
        comes_in = b.input("carry-in")
    for i in range(1, places + last):
        b.output(f"c{i}", _carry(b, f"c{i}", g[:i], p[:i], comes_in))
    if not last:
        b.output("generate", _carry(b, "generate", g, p, ()))
        if carry_in:
            b.output("propagate", _product(b, "propagate_and", tuple(bit for s in p for bit in s)))
    ports += one_bit("out", *(output.name for output in b.circuit().outputs))
    return Kind("lookahead-unit", tuple(ports), (("places", places),), b.circuit())


def _carry(b: Builder, name: str, g: list[Signal], p: list[Signal], comes_in: Signal) -> Signal:
    """The sum of products: a carry is generated at a place, propagated by all above it."""
    terms: list[Signal] = []
    generated = [comes_in, *g] if comes_in else list(g)
    above = p if comes_in else p[1:]
    for j in reversed(range(len(generated))):
        factors = tuple(bit for signal in (*reversed(above[j:]), generated[j]) for bit in signal)
        terms.append(_product(b, f"{name}_{len(terms)}", factors))
    if len(terms) == 1:
        return terms[0]
    return b.part(f"{name}_or", "or", {"in": tuple(bit for term in terms for bit in term)})["out"]


def _product(b: Builder, name: str, factors: Signal) -> Signal:
    return b.part(name, "and", {"in": factors})["out"] if len(factors) > 1 else factors
