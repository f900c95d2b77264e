"""The account of what an example shows: whole sentences, and lines of a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.study.coverage.measures import AdderCoverage, BitCoverage, Carries, Measured
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Fact, Words

PARTS: Final = ("rows", "carries", "flip-flops", "gates", "nets", "phases")
"""What an account has, in this order."""
_NAMED: Final = 4
"""Names listed in a sentence, at most."""
_ROWS: Final = 8
"""Rows of a truth table listed in a sentence, at most."""


# ---------------------------------------------------------------------- what is idle


def idle(shown: Measured, parts: Sequence[str] = PARTS, words: Words = ENGLISH) -> Iterator[str]:
    """What an example should not leave idle, a sentence each."""
    if "carries" in parts:
        for name in shown.unset_carries:
            yield words("coverage-unset-carry", name=name)
        if shown.carries and shown.carries.none and not shown.carry_flip_flops:
            yield words("coverage-no-carry")
    if "flip-flops" in parts:
        for register in shown.still_registers:
            still = "still" if register.one else "empty"
            yield words(f"coverage-register-{still}", name=register.name)


# ---------------------------------------------------------------------- sentences


def sentences(
    shown: Measured, parts: Sequence[str] = PARTS, words: Words = ENGLISH
) -> Iterator[str]:
    """What is idle first, then part by part."""
    if not shown.phases and not shown.adders:
        yield words("coverage-nothing")
    yield from idle(shown, parts, words)
    if "rows" in parts:
        yield from rows(shown, words)
    if "carries" in parts:
        yield from carries(shown, words)
    if "flip-flops" in parts:
        yield from _registers(shown, parts, words)
    if shown.phases:  # without edges, nothing can change
        yield from _bits("gates", shown.gates, words) if "gates" in parts else ()
        yield from _bits("nets", shown.nets, words) if "nets" in parts else ()
    if "phases" in parts:
        for phase in shown.phases:
            if phase.last >= phase.first and not phase.matters:
                yield words("coverage-idle-phase", name=phase.name)


def rows(shown: Measured, words: Words = ENGLISH, *, also: bool = True) -> Iterator[str]:
    """The rows of the truth table; `also` those of which nothing gets into the answer."""
    full = [adder for adder in shown.adders if adder.full]
    if len(full) == 1:
        (adder,) = full
        extra = [row for row in adder.occurring if row not in adder.covered]
        yield _covered(full, adder.covered, adder.uncovered, words, beside=bool(extra))
        if also and extra:
            row_list = listed(extra, words, _ROWS)
            yield words("coverage-beside", name=adder.name, count=len(extra), rows=row_list)
    elif full:
        occurring = {row for adder in full for row in adder.occurring}
        beside = bool(occurring - set(shown.rows))
        yield _covered(full, shown.rows, _uncovered(shown), words, beside=beside)


def _uncovered(shown: Measured) -> list[str]:
    """Rows of the full adder's truth table that don't count in any full adder."""
    return [row for row in (f"{row:03b}" for row in range(8)) if row not in shown.rows]


def _covered(
    full: Sequence[AdderCoverage],
    covered: Sequence[str],
    uncovered: Sequence[str],
    words: Words,
    *,
    beside: bool,
) -> str:
    """Only the shorter list is told; `beside`: other rows occur, but don't count."""
    facts: dict[str, Fact] = {
        "adders": len(full),
        "name": full[0].name,
        "total": len(covered) + len(uncovered),
    }
    if not uncovered:
        return words("coverage-rows-all", **facts)
    if not covered:
        return words("coverage-rows-none", **facts)
    facts |= {"covered": len(covered), "where": "beside" if beside else "everywhere"}
    if len(covered) < len(uncovered):
        return words("coverage-rows-few", rows=listed(covered, words, _ROWS), **facts)
    return words("coverage-rows-most", rows=listed(uncovered, words, _ROWS), **facts)


def carries(shown: Measured, words: Words = ENGLISH) -> Iterator[str]:
    """How often carries are generated, propagated and killed; nothing where there are none."""
    found = shown.carries
    if found is None or found.none:
        return
    if found.propagated:
        name = "coverage-carries" if found.killed else "coverage-carries-unkilled"
        facts = {
            "generated": found.generated,
            "propagated": found.propagated,
            "longest": found.longest,
        }
        if found.killed:
            facts["killed"] = found.killed
        yield words(name, **facts)
    elif found.killed:
        yield words("coverage-carries-unpropagated", generated=found.generated, killed=found.killed)
    else:
        yield words("coverage-carries-generated", generated=found.generated)


def _registers(shown: Measured, parts: Sequence[str], words: Words) -> Iterator[str]:
    total = len(shown.flip_flops)
    bits = {bit.name: bit for bit in shown.flip_flops}
    lazy = [bit for bit in shown.flip_flops if not (bit.rises and bit.falls)]
    if not total:
        return
    if not lazy:
        yield words("coverage-flip-flops-all", total=total, name=shown.flip_flops[0].name)
        return
    # Of what `idle` tells that nothing is seen, nothing more is told.
    told = {name for register in shown.still_registers for name in register.bits}
    if "carries" in parts:
        told.update(shown.unset_carries)
    left = [
        bits[name]
        for members in shown.registers.values()
        for name in members
        if bits[name] in lazy and name not in told
    ]
    groups = {
        "rising": [bit for bit in left if bit.rises],
        "falling": [bit for bit in left if bit.falls],
        "unchanging": [bit for bit in left if not bit.rises and not bit.falls],
    }
    both = total - len(lazy)
    rest = _grouped(groups, words)
    yield words("coverage-flip-flops", total=total, both=both, rest=rest)


def _bits(which: str, bits: Sequence[BitCoverage], words: Words) -> Iterator[str]:
    still = [bit for bit in bits if not bit.both]
    if not bits:
        return
    if not still:
        yield words(f"coverage-{which}-all")
        return
    groups = {
        "zero": [bit for bit in still if bit.zero],
        "one": [bit for bit in still if bit.one],
        "unknown": [bit for bit in still if not bit.zero and not bit.one],
    }
    both = len(bits) - len(still)
    rest = _grouped(groups, words)
    yield words(f"coverage-{which}", total=len(bits), both=both, rest=rest)


def _grouped(groups: dict[str, list[BitCoverage]], words: Words) -> str:
    """``; C and D rise but never fall; E never changes``."""
    return "".join(
        "; "
        + words(
            f"coverage-{kind}",
            count=len(bits),
            names=listed([bit.name for bit in bits], words, _NAMED),
        )
        for kind, bits in groups.items()
        if bits
    )


# ---------------------------------------------------------------------- table


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the table.

    Parameters
    ----------
    what : str
        In the words of a language.
    covered : int
    of : int, optional
        None: it is a plain count.
    uncovered : tuple of str
        Names or rows that are not covered.
    """

    what: str
    covered: int
    of: int | None = None
    uncovered: tuple[str, ...] = ()

    @property
    def cells(self) -> tuple[str, str, str, str]:
        """The line as text."""
        of = "" if self.of is None else str(self.of)
        return self.what, str(self.covered), of, " ".join(self.uncovered)


def heading(words: Words = ENGLISH) -> tuple[str, ...]:
    """Over the columns of the table."""
    columns = ("what", "covered", "of", "uncovered")
    return tuple(words(f"coverage-column-{column}") for column in columns)


def lines(shown: Measured, parts: Sequence[str] = PARTS, words: Words = ENGLISH) -> Iterator[Line]:
    """The lines of the table."""
    if "rows" in parts:
        yield from _row_lines(shown, words)
    if "carries" in parts and shown.carries:
        yield from _carry_lines(shown.carries, words)
    if not shown.phases:
        return  # without edges, nothing can change
    toggling = {bit.name: bit.rises and bit.falls for bit in shown.flip_flops}
    for part, values in (
        ("flip-flops", toggling),
        ("gates", {bit.name: bit.both for bit in shown.gates}),
        ("nets", {bit.name: bit.both for bit in shown.nets}),
        ("phases", {phase.name: phase.matters for phase in shown.phases}),
    ):
        if values and part in parts:
            still = tuple(name for name, moves in values.items() if not moves)
            covered = len(values) - len(still)
            yield Line(words(f"coverage-line-{part}"), covered, len(values), still)


def _row_lines(shown: Measured, words: Words) -> Iterator[Line]:
    full = [adder for adder in shown.adders if adder.full]
    if len(full) > 1:
        what = words("coverage-line-rows", adders=len(full))
        yield Line(what, len(shown.rows), 8, tuple(_uncovered(shown)))
    for adder in shown.adders:
        what = words("coverage-line-rows-of", name=adder.name)
        yield Line(
            what, len(adder.covered), len(adder.covered) + len(adder.uncovered), adder.uncovered
        )


def _carry_lines(found: Carries, words: Words) -> Iterator[Line]:
    yield Line(words("coverage-line-generated"), found.generated)
    yield Line(words("coverage-line-propagated"), found.propagated)
    yield Line(words("coverage-line-killed"), found.killed)
    yield Line(words("coverage-line-longest"), found.longest)
