"""What is said of a recording: sentences and tables, from the facts of its explanation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final, TypeAlias

from edgewise.lab.capture.explanation import Explained
from edgewise.words.lists import listed
from edgewise.words.messages import Words

MOST_DIFFERENCES: Final = 12
_ALIKE: Final = 6
Lines: TypeAlias = list[Sequence[str]]
Said: TypeAlias = str | tuple[str, Lines]
"""A sentence, or a table with its title, the heading first."""


def report(found: Explained, words: Words) -> Iterator[Said]:
    """The whole report."""
    yield _clock(found, words)
    if found.lined.clock:
        glitches = sum(found.lined.glitches.values())
        yield words("capture-noise", bounces=found.lined.bounces, glitches=glitches)
    if found.lined.rows <= found.design.edges:
        yield words("capture-short", last=found.lined.rows - 1, of=found.design.edges)
    yield words("capture-channels"), _channels(found, words)
    if found.unmatched:
        yield words("capture-unmatched", list=listed(found.unmatched, words, 12))
    if found.as_it_should:
        left = found.right.unexplained
        yield words("capture-agrees-but", count=left) if left else words("capture-agrees")
        if not found.explained:
            yield words("capture-none")
        return
    yield from _differences(found, words)
    yield words("capture-explanations"), _explanations(found, words)
    if not found.explained:
        yield words("capture-none")
    yield from _next(found, words)


def _clock(found: Explained, words: Words) -> str:
    lined = found.lined
    if not lined.clock:
        expected = found.design.edges + 1
        if not found.design.edges:
            return words("capture-unclocked")
        return words("capture-samples", found=lined.rows, expected=expected)
    return words(
        "capture-clock",
        channel=lined.clock,
        how="name" if lined.named else "data",
        edge="falling" if lined.inverted else "rising",
        found=len(lined.presses),
        expected=found.design.edges,
    )


def _channels(found: Explained, words: Words) -> Lines:
    lines: Lines = [[words(f"capture-column-{name}") for name in ("channel", "net", "how")]]
    for probe in found.probes:
        how = words("capture-by-name" if probe.named else "capture-by-data")
        told = words("capture-inverted", how=how) if probe.inverted else how
        lines.append((probe.channel, probe.net, told))
    return lines


def _differences(found: Explained, words: Words) -> Iterator[Said]:
    if not found.differences:
        return
    first = found.differences[0]
    seen, expected = first.seen, first.expected
    yield words("capture-first", row=first.row, net=first.net, seen=seen, expected=expected)
    heads = [words(f"capture-column-{name}") for name in ("row", "net", "seen", "expected")]
    lines: Lines = [heads]
    for one in found.differences[:MOST_DIFFERENCES]:
        lines.append((str(one.row), one.net, str(one.seen), str(one.expected)))
    yield words("capture-differences"), lines
    if found.misset > 1:
        yield words("capture-misset", count=found.misset)


def _explanations(found: Explained, words: Words) -> Lines:
    names = ("explanation", "unexplained", "alike")
    lines: Lines = [["", *(words(f"capture-column-{name}") for name in names)]]
    for number, group in enumerate(found.likely, 1):
        alike = _names([one.name for one in group.members[1:]], words)
        told, left = group.best.told(words), str(group.best.unexplained)
        lines.append((str(number), told, left, alike))
    return lines


def _names(names: Sequence[str], words: Words) -> str:
    """Names that may have commas of their own."""
    shown = [*names[:_ALIKE]]
    if len(names) > _ALIKE:
        shown.append(words("list-more", count=len(names) - _ALIKE))
    return "; ".join(shown)


def _next(found: Explained, words: Words) -> Iterator[Said]:
    measurement = found.next
    if measurement is not None:
        yield words(
            "capture-next",
            net=measurement.net,
            row=measurement.row,
            zero=_names(measurement.zero, words),
            one=_names(measurement.one, words),
        )
    elif len(found.explanations[0].members) > 1:
        yield words("capture-next-none")


def data(found: Explained) -> dict[str, Any]:
    """The same for a program."""
    lined, measurement = found.lined, found.next
    return {
        "design": found.design.name,
        "operands": dict(found.operands),
        "clock": {
            "channel": lined.clock or None,
            "active": "falling" if lined.inverted else "rising",
            "edges": len(lined.presses),
            "bounces": lined.bounces,
        },
        "glitches": dict(lined.glitches),
        "channels": [
            {"channel": p.channel, "net": p.net, "inverted": p.inverted, "by_name": p.named}
            for p in found.probes
        ],
        "as_it_should": found.as_it_should,
        "differences": [
            {"row": d.row, "net": d.net, "seen": d.seen, "expected": d.expected}
            for d in found.differences
        ],
        "explanations": [
            {
                "names": [one.name for one in group.members],
                "unexplained": group.best.unexplained,
            }
            for group in found.likely
        ],
        "next": None
        if measurement is None
        else {
            "net": measurement.net,
            "row": measurement.row,
            "zero": list(measurement.zero),
            "one": list(measurement.one),
        },
    }
