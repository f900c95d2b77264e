"""Making elements fewer: constants worked in, gates of a kind joined, idle ones left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from edgewise.hdl.element import Element, Nets
from edgewise.hdl.netlist import Bit, Bits

_FIXED: Final = {"and": ("0", "0"), "nand": ("0", "1"), "or": ("1", "1"), "nor": ("1", "0")}
"""Which input decides a gate, and what it gives then."""
_INVERTED: Final = {"nand": "and", "nor": "or", "xnor": "xor"}
_WITH_NOT: Final = {plain: inverted for inverted, plain in _INVERTED.items()}
_JOINED: Final = ("and", "or", "xor")


def folded(elements: Iterable[Element], nets: Nets) -> list[Element]:
    """The elements with constants worked in, as far as that goes."""
    left = list(elements)
    while True:
        made = [new for one in left for new in _folded(_resolved(one, nets), nets)]
        if made == left:
            return made
        left = made


def _resolved(one: Element, nets: Nets) -> Element:
    return replace(one, ins={port: nets.all_of(bits) for port, bits in one.ins.items()})


def _folded(one: Element, nets: Nets) -> Iterator[Element]:
    if one.part == "multiplexer":
        yield from _choice(one, nets)
    elif one.part in ("full-adder", "half-adder"):
        yield from _adder(one, nets)
    elif one.part == "not" and one.ins["in"][0] in ("0", "1"):
        nets.join(one.outs["out"][0], "0" if one.ins["in"][0] == "1" else "1")
    elif one.part in _FIXED or one.part in ("xor", "xnor"):
        yield from _gate(one, nets)
    else:
        yield one


def _gate(one: Element, nets: Nets) -> Iterator[Element]:
    (out,) = one.outs["out"]
    bits, part = one.ins["in"], one.part
    if part in _FIXED:
        decides, given = _FIXED[part]
        if decides in bits:
            nets.join(out, given)
            return
        idle = "1" if decides == "0" else "0"
        bits = tuple(dict.fromkeys(bit for bit in bits if bit != idle))
    else:
        odd = bits.count("1") & 1
        bits = tuple(bit for bit in bits if bit not in ("0", "1"))
        part = ("xor", "xnor")[(part == "xnor") ^ odd]
    inverts = part in _INVERTED
    if not bits:
        empty = {"and": "1", "or": "0", "xor": "0"}[_INVERTED.get(part, part)]
        nets.join(out, str(int(empty) ^ inverts))
    elif len(bits) == 1 and not inverts:
        nets.join(out, bits[0])
    else:
        part = "not" if len(bits) == 1 else part
        yield replace(one, part=part, ins={"in": bits})


def _choice(one: Element, nets: Nets) -> Iterator[Element]:
    select, when_0, when_1 = one.ins["select"][0], one.ins["d0"], one.ins["d1"]
    same = {"0": when_0, "1": when_1}.get(str(select)) or (when_0 if when_0 == when_1 else None)
    if same is not None:
        for out, bit in zip(one.outs["out"], same, strict=True):
            nets.join(out, bit)
    elif (when_0, when_1) == (("0",), ("1",)):
        nets.join(one.outs["out"][0], select)
    elif len(when_0) == 1 and "0" in (*when_0, *when_1) and "1" not in (*when_0, *when_1):
        yield from _gated(one, nets, select, when_0[0], when_1[0])
    else:
        yield one


def _gated(one: Element, nets: Nets, select: Bit, when_0: Bit, when_1: Bit) -> Iterator[Element]:
    """A multiplexer that gives 0 in one of its cases, as an AND gate."""
    bit = when_1
    if when_1 == "0":
        (inverted,) = nets.new()
        yield Element("not", {"in": (select,)}, {"out": (inverted,)}, {}, one.place)
        select, bit = inverted, when_0
    yield Element("and", {"in": (select, bit)}, one.outs, {}, one.place)


def _adder(one: Element, nets: Nets) -> Iterator[Element]:
    bits = [bit for bits in one.ins.values() for bit in bits]
    (total,), (carry,) = one.outs["sum"], one.outs["carry-out"]
    ones, others = bits.count("1"), [bit for bit in bits if bit not in ("0", "1")]
    if not others:
        nets.join(total, str(ones & 1))
        nets.join(carry, str(ones >> 1))
    elif len(others) == 1 and ones == 0:
        nets.join(total, others[0])
        nets.join(carry, "0")
    elif len(others) == 1:
        yield Element(
            "not", {"in": (others[0],)}, {"out": (total if ones == 1 else nets.new()[0],)}
        )
        nets.join(carry, others[0] if ones == 1 else "1")
        if ones > 1:
            nets.join(total, others[0])
    elif len(others) == 2 and ones == 0 and one.part == "full-adder":
        ins = {"a": (others[0],), "b": (others[1],)}
        yield replace(one, part="half-adder", ins=ins)
    else:
        yield one


def joined(
    elements: Sequence[Element], keep: frozenset[Bit], outputs: Iterable[Bit]
) -> list[Element]:
    """Gates with the gates of a kind before them that nothing else reads; NOT behind a gate.

    Parameters
    ----------
    elements : sequence of Element
    keep : frozenset of Bit
        Nets with names of their own, which stay.
    outputs : iterable of Bit
        What is read from outside.
    """
    found = {one.outs["out"][0]: one for one in elements if "out" in one.outs}
    uses = Counter(bit for one in elements for bit in one.reads)
    uses.update(outputs)

    def inner(bit: Bit) -> Element | None:
        alone = bit not in keep and uses[bit] == 1
        return found.get(bit) if alone else None

    gone: set[Bit] = set()
    made: dict[Bit, Element] = {}
    for one in elements:
        if "out" not in one.outs or one.part not in (*_JOINED, *_INVERTED, "not"):
            continue
        whole = made.get(one.outs["out"][0], one)
        before = inner(whole.ins["in"][0]) if whole.part == "not" else None
        if before is not None and before.part in _JOINED:
            gone |= set(before.drives)
            whole = replace(whole, part=_WITH_NOT[before.part], ins=before.ins)
        plain = _INVERTED.get(whole.part, whole.part)
        if plain in _JOINED:
            whole = replace(whole, ins={"in": tuple(_spread(whole.ins["in"], plain, inner, gone))})
        made[one.outs["out"][0]] = whole
        found[one.outs["out"][0]] = whole
    kept = (made.get(one.outs["out"][0], one) if "out" in one.outs else one for one in elements)
    return [one for one in kept if not set(one.drives) & gone]


def _spread(bits: Bits, part: str, inner: object, gone: set[Bit]) -> Iterator[Bit]:
    """The inputs of a gate, those of single gates of a kind before it in their place."""
    assert callable(inner)
    waiting = list(reversed(bits))
    while waiting:
        bit = waiting.pop()
        before = inner(bit)
        if before is not None and before.part == part:
            gone.add(bit)
            waiting += reversed(before.ins["in"])
        else:
            yield bit


def live(elements: Sequence[Element], roots: Iterable[Bit]) -> list[Element]:
    """The elements on which some nets depend."""
    drivers = {bit: one for one in elements for bit in one.drives}
    seen: set[int] = set()
    waiting = list(roots)
    while waiting:
        one = drivers.get(waiting.pop())
        if one is not None and id(one) not in seen:
            seen.add(id(one))
            waiting += one.reads
    return [one for one in elements if id(one) in seen]
