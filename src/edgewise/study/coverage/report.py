"""The account of what an example shows: plain sentences, and lines of a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.circuit.parts import count
from edgewise.study.coverage.measures import BitCoverage, Carries, Seen

PARTS: Final = ("rows", "carries", "flip-flops", "gates", "nets", "phases")
"""What an account has, in this order."""
HEADING: Final = ("what", "seen", "of", "not seen")
"""Over the columns of the table."""
_NAMED: Final = 4
"""Names listed in a sentence, at most."""
_ROWS: Final = 8
"""Rows of a truth table listed in a sentence, at most."""


def listed(names: Sequence[str], most: int = _NAMED) -> str:
    """Names in a sentence; beyond `most` they are counted.

    Examples
    --------
    >>> listed(["A", "B", "C"]), listed(["A", "B", "C"], 2)
    ('A, B and C', 'A, B and 1 more')
    """
    shown = list(names)
    if len(shown) > most:
        shown[most:] = [f"{len(names) - most} more"]
    return " and ".join(filter(None, (", ".join(shown[:-1]), *shown[-1:])))


# ---------------------------------------------------------------------- what is idle


def idle(shown: Seen, parts: Sequence[str] = PARTS) -> Iterator[str]:
    """What an example should not leave idle, a sentence each."""
    if "carries" in parts:
        for name in shown.unset_carries:
            yield (
                f"The carry flip-flop {name} is never set: this example would look the same"
                " without it."
            )
        if shown.carries and shown.carries.none and not shown.carry_flip_flops:
            yield "There is no carry: this example would look the same without the carry wires."
    if "flip-flops" in parts:
        for register in shown.still_registers:
            if register.one:
                yield f"{register.name} never changes from one known value to another."
            else:
                yield f"{register.name} never holds a 1: nothing is seen of it."


# ---------------------------------------------------------------------- sentences


def sentences(shown: Seen, parts: Sequence[str] = PARTS) -> Iterator[str]:
    """What is idle first, then part by part."""
    if not shown.phases and not shown.adders:
        yield (
            "Without clock edges and adders there is nothing to count: the one row of the run is"
            " all there is to see."
        )
    yield from idle(shown, parts)
    if "rows" in parts:
        yield from rows(shown)
    if "carries" in parts:
        yield from carries(shown)
    if "flip-flops" in parts:
        yield from _registers(shown, parts)
    if shown.phases:  # without edges, nothing can change
        yield from _bits("gate", shown.gates) if "gates" in parts else ()
        yield from _bits("net", shown.nets) if "nets" in parts else ()
    if "phases" in parts:
        for phase in shown.phases:
            if phase.last >= phase.first and not phase.matters:
                yield f"Phase {phase.name} stores nothing that gets into the answer."


def rows(shown: Seen, *, also: bool = True) -> Iterator[str]:
    """The rows of the truth table; `also` those of which nothing gets into the answer."""
    full = [adder for adder in shown.adders if adder.kind == "full-adder"]
    if len(full) == 1:
        extra = [row for row in full[0].met if row not in full[0].used]
        yield _met(f"{full[0].name} meets", "its", full[0].used, full[0].unused, bool(extra))
        if also and extra:
            one = len(extra) == 1
            yield (
                f"{full[0].name} also stands in {'row' if one else 'rows'}"
                f" {listed(extra, _ROWS)}, but no sum of {'that row' if one else 'those rows'}"
                " gets into the answer."
            )
    elif full:
        unused = [f"{row:03b}" for row in range(8) if f"{row:03b}" not in shown.rows]
        met = {row for adder in full for row in adder.met}
        beside = bool(met - set(shown.rows))
        who = f"The {len(full)} full adders together meet"
        yield _met(who, "the", shown.rows, unused, beside)


def _met(
    who: str,
    whose: str,
    used: Sequence[str],
    unused: Sequence[str],
    beside: bool,  # noqa: FBT001
) -> str:
    """Only the shorter list is told; `beside`: other rows are met, but don't count."""
    where = " in sums that get into the answer" if beside else ""
    total = len(used) + len(unused)
    if not unused:
        return f"{who} all {total} rows of {whose} truth table."
    if not used:
        return f"{who} none of the {total} rows of {whose} truth table where it counts."
    if len(used) < len(unused):
        return (
            f"{who} only {len(used)} of the {total} rows of {whose} truth table{where}:"
            f" {listed(used, _ROWS)} (a, b, carry-in)."
        )
    return (
        f"{who} {len(used)} of the {total} rows of {whose} truth table{where},"
        f" {'not' if beside else 'never'} {listed(unused, _ROWS)} (a, b, carry-in)."
    )


def carries(shown: Seen) -> Iterator[str]:
    """Where carries are born, travel on and die; nothing where there are none."""
    found = shown.carries
    if found is None or found.none:
        return
    born = f"is born {_often(found.born)}" if found.born else "comes in from outside"
    travels = f"travels on {_often(found.travelling)}"
    dies = f"dies {_often(found.dying)}"
    run = f"the longest run is {count(found.longest, 'place')}"
    if found.travelling and found.dying:
        yield f"A carry {born}, {travels} and {dies}; {run}."
    elif found.travelling:
        yield f"A carry {born} and {travels}; {run}. None dies: no carry meets 0 + 0."
    elif found.dying:
        yield f"A carry {born} and {dies}, but never travels on from place to place."
    else:
        yield f"A carry {born}, but never travels on from place to place, and none dies."


def _often(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def _registers(shown: Seen, parts: Sequence[str]) -> Iterator[str]:
    total = len(shown.flip_flops)
    bits = {bit.name: bit for bit in shown.flip_flops}
    lazy = [bit for bit in shown.flip_flops if not (bit.rises and bit.falls)]
    if not total:
        return
    if not lazy:
        yield (
            f"All {total} flip-flops go both ways."
            if total > 1
            else f"{shown.flip_flops[0].name} goes both ways."
        )
        return
    # Of what `idle` tells that nothing is seen, nothing more is told.
    told = {name for register in shown.still_registers for name in register.bits}
    if "carries" in parts:
        told.update(shown.unset_carries)
    names = [
        name
        for members in shown.registers.values()
        for name in members
        if bits[name] in lazy and name not in told
    ]
    said = _grouped(
        ([n for n in names if bits[n].rises], "rises but never falls", "rise but never fall"),
        ([n for n in names if bits[n].falls], "falls but never rises", "fall but never rise"),
        (
            [n for n in names if not bits[n].rises and not bits[n].falls],
            "never changes",
            "never change",
        ),
    )
    both = total - len(lazy)
    verb = "goes" if both == 1 else "go"
    yield f"{both} of {count(total, 'flip-flop')} {verb} both ways{said}."


def _bits(noun: str, bits: Sequence[BitCoverage]) -> Iterator[str]:
    still = [bit for bit in bits if not bit.both]
    if not bits:
        return
    if not still:
        yield f"Every {noun} takes both values."
        return
    said = _grouped(
        ([bit.name for bit in still if bit.zero], "stays 0", "stay 0"),
        ([bit.name for bit in still if bit.one], "stays 1", "stay 1"),
        (
            [bit.name for bit in still if not bit.zero and not bit.one],
            "stays unknown",
            "stay unknown",
        ),
    )
    seen = len(bits) - len(still)
    verb = "takes" if seen == 1 else "take"
    yield f"{seen} of {count(len(bits), noun)} {verb} both values{said}."


def _grouped(*groups: tuple[Sequence[str], str, str]) -> str:
    """``; C and D rise but never fall; E never changes``."""
    return "".join(
        f"; {listed(names)} {one if len(names) == 1 else many}"
        for names, one, many in groups
        if names
    )


# ---------------------------------------------------------------------- table


def lines(shown: Seen, parts: Sequence[str] = PARTS) -> Iterator[tuple[str, ...]]:
    """The lines of the table."""
    if "rows" in parts:
        yield from _row_lines(shown)
    if "carries" in parts and shown.carries:
        yield from _carry_lines(shown.carries)
    if not shown.phases:
        return  # without edges, nothing can change
    both_ways = {bit.name: bit.rises and bit.falls for bit in shown.flip_flops}
    for part, what, values in (
        ("flip-flops", "flip-flops going both ways", both_ways),
        ("gates", "gates taking both values", {bit.name: bit.both for bit in shown.gates}),
        ("nets", "nets taking both values", {bit.name: bit.both for bit in shown.nets}),
        ("phases", "phases that matter", {phase.name: phase.matters for phase in shown.phases}),
    ):
        if values and part in parts:
            still = [name for name, seen in values.items() if not seen]
            seen = str(len(values) - len(still))
            yield what, seen, str(len(values)), " ".join(still)


def _row_lines(shown: Seen) -> Iterator[tuple[str, ...]]:
    full = [adder for adder in shown.adders if adder.kind == "full-adder"]
    if len(full) > 1:
        unused = [f"{row:03b}" for row in range(8) if f"{row:03b}" not in shown.rows]
        seen = str(len(shown.rows))
        yield f"rows of all {len(full)} full adders", seen, "8", " ".join(unused)
    for adder in shown.adders:
        total = len(adder.used) + len(adder.unused)
        yield f"rows of {adder.name}", str(len(adder.used)), str(total), " ".join(adder.unused)


def _carry_lines(found: Carries) -> Iterator[tuple[str, ...]]:
    yield "carries born", str(found.born), "", ""
    yield "carries travelling on", str(found.travelling), "", ""
    yield "carries dying", str(found.dying), "", ""
    yield "longest carry run", str(found.longest), "", ""
