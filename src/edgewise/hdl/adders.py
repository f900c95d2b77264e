"""Full adders, found again among gates: an XOR of three bits, and their majority."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Final

from edgewise.hdl.element import Element
from edgewise.hdl.netlist import Bit, Bits

_COLUMNS: Final = (0b10101010, 0b11001100, 0b11110000)
_SUM: Final = 0b10010110
_CARRY: Final = 0b11101000
_DEEPEST: Final = 4
_GATES: Final = frozenset({"and", "or", "xor", "xnor", "nand", "nor", "not", "multiplexer"})


def with_adders(elements: Sequence[Element]) -> list[Element]:
    """The elements, gates that are a full adder together as one.

    The gates that it is made of stay where something else reads them; what nothing reads is left
    out later.
    """
    drivers = {one.outs["out"][0]: one for one in elements if _single(one)}
    readers: dict[Bit, list[Element]] = defaultdict(list)
    for one in drivers.values():
        for bit in one.reads:
            readers[bit].append(one)
    taken: set[Bit] = set()
    found: dict[Bit, Element] = {}
    for one in elements:
        if not _single(one) or one.part not in ("xor", "xnor"):
            continue
        (total,) = one.outs["out"]
        leaves = _leaves(one, drivers)
        if len(leaves) != 3 or total in taken or _table(total, leaves, drivers) != _SUM:
            continue
        carry = _majority(leaves, drivers, readers)
        if carry is not None and carry not in taken:
            ins = dict(zip(("a", "b", "carry-in"), ((bit,) for bit in leaves), strict=True))
            made = Element(
                "full-adder", ins, {"sum": (total,), "carry-out": (carry,)}, {}, one.place
            )
            found[total] = made
            taken |= {total, carry}
    return [
        *found.values(),
        *(one for one in elements if not (_single(one) and one.outs["out"][0] in taken)),
    ]


def _single(one: Element) -> bool:
    return one.part in _GATES and len(one.outs["out"]) == 1


def _leaves(one: Element, drivers: Mapping[Bit, Element]) -> Bits:
    """The inputs of an XOR and of those before it, as long as they are three at most."""
    leaves = list(one.ins["in"])
    for bit in tuple(leaves):
        before = drivers.get(bit)
        if before is not None and before.part in ("xor", "xnor") and len(leaves) < 3:
            at = leaves.index(bit)
            leaves[at : at + 1] = before.ins["in"]
    named = [bit for bit in leaves if isinstance(bit, int)]
    return tuple(leaves) if len(set(named)) == len(leaves) else ()


def _table(  # noqa: C901  # each kind of gate is a case
    bit: Bit, leaves: Bits, drivers: Mapping[Bit, Element], depth: int = 0
) -> int | None:
    """What a net is for the eight values of three others; None if it depends on more."""
    if bit in leaves:
        return _COLUMNS[leaves.index(bit)]
    if bit in ("0", "1"):
        return 255 * int(bit)
    one = drivers.get(bit)
    if one is None or depth > _DEEPEST:
        return None
    tables = []
    for port in ("d0", "d1", "select") if one.part == "multiplexer" else ("in",):
        for source in one.ins[port]:
            table = _table(source, leaves, drivers, depth + 1)
            if table is None:
                return None
            tables.append(table)
    if one.part == "multiplexer":
        return tables[2] & tables[1] | ~tables[2] & 255 & tables[0]
    if one.part in ("not", "nand", "and"):
        value = 255
        for table in tables:
            value &= table
    else:
        value = 0
        for table in tables:
            value = value ^ table if one.part in ("xor", "xnor") else value | table
    return value ^ 255 if one.part in ("not", "nand", "nor", "xnor") else value


def _majority(
    leaves: Bits, drivers: Mapping[Bit, Element], readers: Mapping[Bit, Sequence[Element]]
) -> Bit | None:
    """A net that is the majority of three others, the nearest to them."""
    layer, seen = set(leaves), set(leaves)
    for _ in range(_DEEPEST):
        after = [one.outs["out"][0] for bit in layer for one in readers.get(bit, ())]
        layer = {bit for bit in after if bit not in seen}
        for bit in sorted(layer, key=str):
            if _table(bit, leaves, drivers) == _CARRY:
                return bit
        layer = {bit for bit in layer if _table(bit, leaves, drivers) is not None}
        seen |= layer
    return None
