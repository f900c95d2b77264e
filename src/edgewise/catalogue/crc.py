"""The CRC register: the remainder of a message divided by a polynomial, bit by bit.

Bits are the coefficients of polynomials over GF(2). At each edge the register, a polynomial of
less than n terms, is multiplied by x, the message bit joins at x**n, and where that gives a term
x**n the generator polynomial is subtracted (which is XOR). An m-bit message takes m edges.

The parameters are those by which CRCs are usually told: `poly` without its term x**n, the start
value `init`, whether the bytes come LSB first (`reflect_in`), whether the result is read with its
bits in reverse (`reflect_out`), and what it is XORed with at last (`xor_out`).

References
----------
W. Peterson, D. Brown, "Cyclic codes for error detection", Proc. IRE 49, 1961; W. Stallings,
*Data and Computer Communications*, sec. 6.3 (both from memory).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import Bits, Builder
from edgewise.circuit.model import Circuit
from edgewise.design import Design, Feed, Operand, Phase, Purpose
from edgewise.formula import Binary, Name, Node, Number, Select, parse
from edgewise.parameter import Parameter

NAME: Final = "crc-register"


def blueprint(name: str = NAME) -> Blueprint:
    """The blueprint of the register.

    Examples
    --------
    The remainder of one byte, with the polynomial x**3 + x + 1:

    >>> blueprint().design({"n": 3, "poly": 3}).expected({"byte(1)": 0b10110001})
    {'crc': 3}
    """
    word, bit = (Number(0), parse("2**n - 1")), (Number(0), Number(0), Number(1))
    return Blueprint(
        name,
        "CRC register",
        (
            Parameter("n", Number(4), Number(2), Number(128)),
            Parameter("poly", Number(3), Number(1), parse("2**n - 1")),
            Parameter("init", Number(0), *word),
            Parameter("reflect_in", *bit),
            Parameter("reflect_out", *bit),
            Parameter("xor_out", Number(0), *word),
            Parameter("x", Number(1), Number(1), Number(64)),
        ),
        partial(_design, name),
        "the checksum of x bytes, one message bit an edge; any polynomial, start value, reflection",
        "Peterson and Brown, Proc. IRE 49, 1961; Stallings, Data and Computer Communications,"
        " sec. 6.3 (both from memory)",
    )


def _design(name: str, numbers: Mapping[str, int]) -> Design:
    x = numbers["x"]
    order = "lsb-first" if numbers["reflect_in"] else "msb-first"
    members = [f"byte({i})" for i in range(1, x + 1)]
    return Design(
        name,
        register(numbers),
        dict(numbers),
        tuple(Operand(member, 8) for member in members),
        tuple(
            Phase(f"take({i})", 8, (Feed("bit_in", member, order),))
            for i, member in enumerate(members, 1)
        ),
        (Purpose("crc", remainder(numbers)),),
    )


def register(numbers: Mapping[str, int]) -> Circuit:
    """The circuit for these parameters.

    Examples
    --------
    >>> some = {"n": 3, "poly": 3, "init": 0, "reflect_out": 0, "xor_out": 4}
    >>> [part.name for part in register(some).parts]
    ['F', 'XOR(1)', 'R(0)', 'R(1)', 'R(2)', 'N(2)']
    """
    n, poly = numbers["n"], numbers["poly"]
    b = Builder("CRC register")
    bit_in, state = b.input("bit_in"), b.net("stages", n)
    back = b.part("F", "xor", {"in": (*bit_in, state[-1])})["out"]
    after: list[Bits] = []
    for i in range(n):
        below: Bits = state[i - 1] if i else 0
        if not poly >> i & 1:
            after.append(below)
        elif i:
            after.append(b.part(f"XOR({i})", "xor", {"in": (*back, state[i - 1])})["out"])
        else:
            after.append(back)
    for i, d in enumerate(after):
        start: dict[str, int | str] = {"start": numbers["init"] >> i & 1}
        b.part(f"R({i})", "flip-flop", {"d": d, "q": state[i]}, start)
    read = state[::-1] if numbers["reflect_out"] else state
    shown = [
        b.part(f"N({i})", "not", {"in": bit})["out"][0] if numbers["xor_out"] >> i & 1 else bit
        for i, bit in enumerate(read)
    ]
    b.output("crc", tuple(shown))
    return b.circuit()


def remainder(numbers: Mapping[str, int]) -> Node:
    """The result as a formula: every bit is the parity of some message bits.

    Found by long division: x**(n + k) mod the polynomial tells which bits of the remainder a
    message bit with k bits behind it has a part in; the start value counts like a message of
    n bits before all others.

    Examples
    --------
    >>> from edgewise.formula import show
    >>> some = {"n": 2, "poly": 3, "init": 0, "reflect_in": 0, "reflect_out": 0, "xor_out": 0}
    >>> show(remainder({**some, "x": 1}))[:60]
    '(byte(1) div 128 + (byte(1) div 64 + byte(1) div 16) + (byte'
    """
    n, length = numbers["n"], 8 * numbers["x"]
    whole = numbers["poly"] | 1 << n
    # power[k] is x**k mod the polynomial.
    power = [1]
    while len(power) < n + length:
        last = power[-1] << 1
        power.append(last ^ whole if last >> n else last)
    start = 0
    for i in range(n):
        if numbers["init"] >> i & 1:
            start ^= _shifted(power[i], length, whole, n)
    parts: list[Node] = []
    for i in range(n):
        source = n - 1 - i if numbers["reflect_out"] else i
        terms: list[Node] = [
            _message_bit(position, reflected=bool(numbers["reflect_in"]))
            for position in range(length)
            if power[n + length - 1 - position] >> source & 1
        ]
        if (start >> source ^ numbers["xor_out"] >> i) & 1:
            terms.append(Number(1))
        if terms:
            parity = Binary("mod", _sum(terms), Number(2))
            parts.append(Binary("*", parity, Number(1 << i)) if i else parity)
    return _sum(parts) if parts else Number(0)


def _shifted(value: int, places: int, whole: int, n: int) -> int:
    for _ in range(places):
        value <<= 1
        if value >> n:
            value ^= whole
    return value


def _message_bit(position: int, *, reflected: bool) -> Node:
    """A number whose parity is the message bit at `position`, 0 being the first to come."""
    number, place = divmod(position, 8)
    index = place if reflected else 7 - place
    return Binary("div", Name("byte", (Select((Number(number + 1),)),)), Number(1 << index))


def _sum(terms: Sequence[Node]) -> Node:
    """A sum as a tree of little height; every walk over a formula is recursive."""
    if len(terms) == 1:
        return terms[0]
    half = len(terms) // 2
    return Binary("+", _sum(terms[:half]), _sum(terms[half:]))
