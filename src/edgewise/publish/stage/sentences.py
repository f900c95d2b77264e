"""What happened at an edge, and why, in sentences made from the trace.

``web/sentences.js`` says the same for any run on a page; both are held to the same words.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from edgewise.bits import Word, X
from edgewise.errors import EdgewiseError
from edgewise.formula import show
from edgewise.publish.stage.adder_rows import Addend, Adder, AdderRow, adders
from edgewise.publish.stage.storage import Family, Store, action, families, stores, word
from edgewise.trace import Trace

LONG: Final = 60
"""Characters of a formula that is left out of a sentence."""
WIDE: Final = 16
"""Bits of a word that is told by its name alone, where it has one."""
_NAMED: Final = 3
"""Parts that hold and are named, at most."""
_NOTHING: Final = "nothing is stored"
_BARE: Final = re.compile(r"-?[0-9]+")


def told(trace: Trace, row: int) -> str:
    """What happened at an edge, and why.

    Parameters
    ----------
    trace : Trace
    row : int
        0 tells the start; k, edge k.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    >>> told(trace, 8)  # doctest: +NORMALIZE_WHITESPACE
    'Edge 8, phase add: just before, a=1, b=1 and the stored carry 0 made sum 0 and carry 1; the
    sum bit 0 entered S, the carry 1 was stored in C (before: 0). A shifted right (X came in,
    1 went out) and B shifted right (X came in, 1 went out).'
    >>> trace = run(catalogue.design("shift-add-multiplier", n=4), a=11, b=5)
    >>> told(trace, 2)  # doctest: +NORMALIZE_WHITESPACE
    'Edge 2, phase multiply: just before, H = 0000 and M = 1011 (Q(0) = 1 let it through) added
    up to 01011; bits 4..1 went to H, bit 0 entered Q. M kept its value.'
    """
    return " ".join([*_head_and_acts(trace, row), *_results(trace, row)])


def _head_and_acts(trace: Trace, row: int) -> list[str]:
    design = trace.design
    kept = stores(design)
    if not trace.edges:
        return []
    if not row:
        start = trace.rows[0]
        values = [f"{one.name} = {one.word(start, lambda s: s.q)}" for one in families(kept)]
        return [f"At the start: {', '.join(values) or _NOTHING}."]
    phase = design.phase_of(row)
    head = f"Edge {row}, phase {phase.name}:" if phase else f"Edge {row}:"
    acts = _acts(kept, adders(design), trace.rows[row - 1], trace.rows[row])
    return [head, *(acts or [f"{_NOTHING}."])]


def _acts(
    kept: Sequence[Store], rows: Sequence[AdderRow], before: Sequence[int], after: Sequence[int]
) -> list[str]:
    does = {store.name: action(store, before) for store in kept}
    said: list[str] = []
    told_of: set[str] = set()
    for row in rows:
        text, names = _addition(row, kept, does, before)
        if text:
            said.append(f"{row.name}: {text}" if len(rows) > 1 else text)
            told_of |= names
    rest = [store for store in kept if store.name not in told_of]

    def doing(what: str) -> list[Family]:
        return families([store for store in rest if does[store.name] == what])

    def verb(one: Family, single: str, many: str) -> str:
        given = one.word(before, lambda s: s.given(does[s.name]))
        return f"{one.name} {many if one.many else single} {given}"

    entering = [_entering(one, before, "shift") for one in doing("shift")]
    entering += [_entering(one, before, "left") for one in doing("left")]
    said += _sentence(entering)
    said += _sentence([verb(one, "took", "took") for one in doing("take")])
    said += _sentence([verb(one, "loaded", "loaded") for one in doing("load")])
    said += _sentence([_counting(one, before, after) for one in doing("count")])
    said += _together(doing("clear"), "was cleared", "were cleared")
    unsure = [one.name for one in doing("unsure")]
    if unsure:
        said.append(f"What {_and(unsure)} did is unknown.")
    holding = doing("hold")
    if len(holding) > _NAMED:
        return [
            *said,
            "The others kept their values." if said else "Every storing part kept its value.",
        ]
    return said + _together(holding, "kept its value", "kept their values")


def _entering(one: Family, before: Sequence[int], does: str) -> str:
    """The bit that came in and the one that went out, at the other end."""
    came = one.word(before, lambda s: s.given(does))
    way = "left" if does == "left" else one.members[0].direction
    gone = one.word(before, lambda s: s.q[:1] if way == "right" else s.q[-1:])
    return f"{one.name} shifted {way} ({came} came in, {gone} went out)"


def _counting(one: Family, before: Sequence[int], after: Sequence[int]) -> str:
    words = [one.word(row, lambda s: s.q) for row in (before, after)]
    if "X" in "".join(words):
        return f"{one.name} counted, and its value is not all known"
    return f"{one.name} counted from {words[0]} to {words[1]}"


# ---------------------------------------------------------------------- adders


def _addition(
    row: AdderRow, kept: Sequence[Store], does: dict[str, str], before: Sequence[int]
) -> tuple[str, set[str]]:
    """What a row of adders adds and where that goes; and the names of the stores it goes to."""
    if len(row.adders) == 1:
        return _one_adder(row.adders[0], kept, does, before)
    taking = [
        one
        for what in ("shift", "take", "load")
        for one in families([store for store in kept if does[store.name] == what])
    ]
    tell = _words_added if row.addends else _bits_added
    text, into = tell(row, taking, does, before)
    return text, {store.name for one in into for store in one.members}


def _one_adder(
    adder: Adder, kept: Sequence[Store], does: dict[str, str], before: Sequence[int]
) -> tuple[str, set[str]]:
    def into(net: int) -> list[str]:
        taking = ("shift", "take")
        return [s.name for s in kept if s.takes == (net,) and does[s.name] in taking]

    sums, carries = into(adder.sum), into(adder.carry)
    if not sums and not carries:
        return "", set()
    bits = [before[adder.a], before[adder.b]]
    given = [f"a={_bit(bits[0])}", f"b={_bit(bits[1])}"]
    if adder.carry_in >= 0:
        bits.append(before[adder.carry_in])
        given.append(_carry(adder, before))
    total, carry = _bit(before[adder.sum]), _bit(before[adder.carry])
    result = f"made sum {total} and carry {carry}" if _known(bits) else "were not all known"
    goes = []
    if sums:
        goes.append(f"the sum bit {total} entered {_and(sums)}")
    if carries:
        held = {s.name: s.q[0] for s in kept if s.name in carries}
        into_each = [f"{n}{_was(_bit(before[q]), carry)}" for n, q in held.items()]
        goes.append(f"the carry {carry} was stored in {_and(into_each)}")
    return f"just before, {_and(given)} {result}; {', '.join(goes)}.", {*sums, *carries}


def _words_added(
    row: AdderRow, taking: Sequence[Family], does: dict[str, str], before: Sequence[int]
) -> tuple[str, list[Family]]:
    """Two words added by adders that pass their carries on."""
    result = [*(adder.sum for adder in row.adders), row.adders[-1].carry]
    goes, into = [], []
    for one in taking:
        what = does[one.members[0].name]
        nets = list(one.given(what))
        low = result.index(nets[0]) if nets and nets[0] in result else 0
        if nets and nets == result[low : low + len(nets)]:
            share = _share(nets, low, len(row.adders), before)
            # Upper bits first, the carry last.
            goes.append(
                (low if low == len(row.adders) else -low, share + _way(one, what, share, before))
            )
            into.append(one)
    if not goes:
        return "", []
    first = row.adders[0]
    given = [_addend(addend, before) for addend in row.addends]
    bits = [before[net] for addend in row.addends for net in addend.nets]
    if first.carry_in >= 0 and first.carry_from != "none":
        given.append(_carry(first, before))
        bits.append(before[first.carry_in])
    added = f"added up to {word(before, result)}" if _known(bits) else "were not all known"
    goes.sort(key=lambda pair: pair[0])
    texts = ", ".join(text for _, text in goes)
    return f"just before, {_and(given)} {added}; {texts}.", into


def _share(nets: Sequence[int], low: int, places: int, before: Sequence[int]) -> str:
    """The part of a sum that goes somewhere."""
    digits = f" {word(before, nets)}" if len(nets) <= WIDE else ""
    if low == places:
        return f"the carry{digits}"
    if len(nets) > places:
        return "all of it"
    if len(nets) == places and not low:
        return f"the sum{digits}"
    return f"bits {low + len(nets) - 1}..{low}" if len(nets) > 1 else f"bit {low}"


def _way(one: Family, what: str, share: str, before: Sequence[int]) -> str:
    """Where a part of a sum goes."""
    if share.startswith("the carry"):
        old = one.word(before, lambda s: s.q)
        return f" was stored in {one.name}{_was(old, share.rpartition(' ')[2])}"
    return f" {'entered' if what == 'shift' else 'went to'} {one.name}"


def _addend(addend: Addend, before: Sequence[int]) -> str:
    """A word that is added, and where it comes from."""
    bits = word(before, addend.nets)
    wide = len(addend.nets) > WIDE
    name, by = addend.name, addend.control_name
    if not name:
        return bits
    told = name if wide else f"{name} = {bits}"
    if not addend.through:
        return told
    control = before[addend.control]
    if addend.through == "and" and control == 1:
        return f"{told} ({by} = 1 let it through)"
    if addend.through == "and" and control == 0:
        return f"{'0' if wide else bits} ({by} = 0 kept {name} back)"
    if addend.through == "xor" and control == 0:
        return told
    if addend.through == "xor" and control == 1:
        return f"{bits} ({name} complemented, as {by} = 1)"
    return bits


def _bits_added(
    row: AdderRow, taking: Sequence[Family], does: dict[str, str], before: Sequence[int]
) -> tuple[str, list[Family]]:
    """Bits added in many places, each by itself."""
    goes, into = [], []
    for nets, one_bit, more in (
        ({adder.sum for adder in row.adders}, "sum bit{} entered", "sum bits{} entered"),
        (
            {adder.carry for adder in row.adders},
            "carry{} was stored in",
            "carries{} were stored in",
        ),
    ):
        for one in taking:
            given = one.given(does[one.members[0].name])
            if given and nets.issuperset(given):
                form = more if len(given) > 1 else one_bit
                goes.append(f"the {form.format(_digits(word(before, given)))} {one.name}")
                into.append(one)
    if not goes:
        return "", []
    bits = [before[net] for a in row.adders for net in (a.a, a.b, a.carry_in) if net >= 0]
    half = [adder.carry_in < 0 for adder in row.adders]
    adds = "two bits" if all(half) else "two or three bits" if any(half) else "three bits"
    carries = sum(before[adder.carry] == 1 for adder in row.adders)
    some = f"{carries or 'none'} of them with a carry"
    if not _known(bits):
        some = "not all of these were known"
    each = f"each of the {len(row.adders)} adders added {adds}"
    return f"just before, {each}, {some}; {', '.join(goes)}.", into


# ---------------------------------------------------------------------- results


def _results(trace: Trace, row: int) -> list[str]:
    """What stands at the outputs that are due in this row."""
    design = trace.design
    due = [p for p in design.computes if (trace.edges if p.after is None else p.after) == row]
    said = []
    for purpose in due:
        found = trace.bits(design.netlist.outputs[purpose.output], row)
        text = f"{purpose.output} reads {found}"
        try:
            wanted = design.expected(trace.operands)[purpose.output]
        except EdgewiseError:
            said.append(f"{text}.")
        else:
            said.append(f"{text}{_compared(found, show(purpose.formula), wanted)}.")
    return said


def _compared(found: Word, formula: str, wanted: int) -> str:
    """What a word is, beside what it should be."""
    # A formula that says no more than the number, or too much to be read, stays out.
    silent = len(formula) > LONG or _BARE.fullmatch(formula)
    should = f"expected: {wanted}" if silent else f"{formula} is {wanted}"
    if not found.known:
        return f", not all of it known; {should}"
    number = f", which is {found.value}" if found.width > 1 else ""
    if found.value != wanted:
        return f"{number}; {should}"
    return f"{number}{', as expected' if silent else f' = {formula}'}"


# ---------------------------------------------------------------------- words


def _bit(bit: int) -> str:
    return "01X"[bit]


def _digits(text: str) -> str:
    """A word behind what it is called."""
    return f" {text}" if len(text) <= WIDE or text.strip("0") else ", all 0,"


def _known(bits: Sequence[int]) -> bool:
    return X not in bits


def _carry(adder: Adder, before: Sequence[int]) -> str:
    kind = "stored" if adder.carry_from == "stored" else "incoming"
    return f"the {kind} carry {_bit(before[adder.carry_in])}"


def _was(old: str, new: str) -> str:
    """What stood there until the edge."""
    return " (unchanged)" if old == new and "X" not in old else f" (before: {old})"


def _and(names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _sentence(clauses: Sequence[str]) -> list[str]:
    return [f"{_and(clauses)}."] if clauses else []


def _together(some: Sequence[Family], one: str, many: str) -> list[str]:
    if not some:
        return []
    single = len(some) == 1 and not some[0].many
    return [f"{_and([family.name for family in some])} {one if single else many}."]
