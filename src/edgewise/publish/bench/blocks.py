"""A bench sheet in words: headings, sentences, tables with boxes to tick, drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, TypeAlias

from edgewise.lab.wiring.board import Package, Pin, Wire
from edgewise.lab.wiring.check import Checked
from edgewise.lab.wiring.pieces import HIGH, LOW, RESET, inverted
from edgewise.lab.wiring.placement import PRESSED, RESTING
from edgewise.lab.wiring.sheet import (
    BULK,
    CAPACITOR,
    SUPPLY,
    Caution,
    Column,
    Fitting,
    Sheet,
    Shown,
)
from edgewise.publish.blocks import Heading, Paragraph
from edgewise.views.drawing.svg import Drawing
from edgewise.views.packages.package_row import Drawn, Leg, Wired, package_row
from edgewise.words.lists import equations, listed
from edgewise.words.messages import Words

EITHER: Final = "–"
"""What is printed for an unknown bit."""
_ACROSS: Final = 700.0
"""Px of a drawing of packages, about: two beside each other on a page."""
_DRAWN: Final = 6
"""Packages in one drawing, so that it stays on a page."""


@dataclass(frozen=True, slots=True)
class Points:
    """Sentences one below the other; with `ticked`, each with a box to tick."""

    texts: tuple[str, ...]
    ticked: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose lines may have a box to tick before them.

    Parameters
    ----------
    caption : str
    heads : tuple of str
    lines : tuple of tuple of str
    bits : frozenset of int
        Columns of bits.
    ticked : bool
    narrow : bool
        Whether two such columns fit beside each other on paper.
    """

    caption: str
    heads: tuple[str, ...]
    lines: tuple[tuple[str, ...], ...]
    bits: frozenset[int] = frozenset()
    ticked: bool = False
    narrow: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, and what stands under it."""

    drawing: Drawing
    caption: str


Block: TypeAlias = Heading | Paragraph | Points | Table | Picture


def title(sheet: Sheet, words: Words) -> str:
    """What stands at the top."""
    return words("bench-title", title=sheet.board.design.circuit.name)


def facts(sheet: Sheet, words: Words) -> tuple[str, ...]:
    """Under the title: parameters, operands, how much there is to build."""
    design = sheet.board.design
    numbers = {**design.parameters, **sheet.trace.operands}
    counts = (
        words("bench-packages", count=len(sheet.board.packages)),
        words("bench-lines", count=sheet.lines),
    )
    return (*([equations(numbers.items())] if numbers else []), *counts)


def blocks(sheet: Sheet, checked: Checked, words: Words) -> Iterator[Block]:
    """The sheet from top to bottom."""
    yield Paragraph(words("bench-fewest" if sheet.board.proved else "bench-best-found"))
    yield Paragraph(words("bench-equal", count=checked.compared))
    yield Heading(words("bench-cautions"))
    yield Points(tuple(_caution(one, words) for one in sheet.cautions))
    yield from _parts(sheet, words)
    yield from _board(sheet, words)
    yield from _building(sheet, words)
    yield Heading(words("bench-test"))
    yield Points(tuple(_tests(sheet, words)), ticked=True)
    yield from _run(sheet, words)
    yield Heading(words("bench-differs"))
    yield Paragraph(words("bench-differs-first"))
    if sheet.trace.edges:
        yield Paragraph(words("bench-differs-capture"))


def _caution(one: Caution, words: Words) -> str:
    """A caution, numbers with the decimal sign of the language."""
    facts = {
        name: words.decimal(value) if isinstance(value, str) and name in _NUMBERS else value
        for name, value in one.facts
    }
    return words(one.message, **facts)


_NUMBERS: Final = ("current", "ohms", "rated", "volts")


def _parts(sheet: Sheet, words: Words) -> Iterator[Block]:
    yield Heading(words("bench-parts"))
    heads = tuple(words(f"bench-column-{name}") for name in ("count", "part", "what", "names"))
    lines = [
        (
            str(item.count),
            words.decimal(item.value) or EITHER,
            words(item.what),
            ", ".join(item.names),
        )
        for item in sheet.items
    ]
    yield Table(words("bench-parts"), heads, tuple(lines), ticked=True)


def _tests(sheet: Sheet, words: Words) -> Iterator[str]:
    yield words("bench-test-short")
    yield words("bench-test-notches")
    yield words("bench-test-count", count=sheet.lines)
    yield words("bench-test-on")
    yield words("bench-test-supply", volts=f"{SUPPLY:g}")


# ---------------------------------------------------------------------- packages and wires


def _board(sheet: Sheet, words: Words) -> Iterator[Block]:
    yield Heading(words("bench-board"))
    packages = sheet.board.packages
    for first in range(0, len(packages), _DRAWN):
        few = packages[first : first + _DRAWN]
        named = listed([f"{one.name} ({one.chip.name})" for one in few], words)
        about = words("bench-board-about", packages=named)
        drawn = [_drawn(one, sheet.points, words) for one in few]
        caption = words("bench-board-caption") if not first else ""
        yield Picture(package_row(drawn, named, about, _ACROSS), caption)


def _drawn(package: Package, points: frozenset[Pin], words: Words) -> Drawn:
    chip, legs = package.chip, []
    for number, pin in enumerate(chip.pins, 1):
        net = net_told(package.nets.get(pin, ""), words)
        wired: Wired = "signal" if net else "open"
        if pin in ("VCC", "GND"):
            net, wired = pin, "supply"
        elif net in (LOW, HIGH):
            net, wired = ("VCC" if net == HIGH else "GND"), "tied"
        point = package.pin(pin) in points and pin in chip.outputs
        legs.append(Leg(number, pin, net, wired, pin in chip.low, point))
    return Drawn(package.name, chip.name, tuple(legs))


def _building(sheet: Sheet, words: Words) -> Iterator[Block]:
    yield Heading(words("bench-build"))
    example = sheet.board.packages[0]
    note = words("bench-build-note", example=f"{example.name}-5", pin=5, package=example.name)
    yield Paragraph(note)
    names = ", ".join(f"{one.name} {one.chip.name}" for one in sheet.board.packages)
    yield Points((words("bench-place", names=names, value=CAPACITOR, bulk=BULK),), ticked=True)
    number = 0
    heads = tuple(words(f"bench-column-{name}") for name in ("wire", "from", "to", "net"))
    for stage, fitted in sheet.stages:
        told = words(f"bench-stage-{stage}")
        yield Paragraph(told, leads=True)
        lines = [
            (str(i), end(sheet, one.start), end(sheet, one.end), _carried(one, words))
            for i, one in enumerate(fitted, number + 1)
        ]
        number += len(fitted)
        yield Table(told, heads, tuple(lines), ticked=True, narrow=True)


def end(sheet: Sheet, pin: Pin) -> str:
    """An end of a wire with the pin's own name: ``U1-5 C``."""
    package = next((one for one in sheet.board.packages if one.name == pin.of), None)
    if package is not None:
        return f"{pin} {package.chip.label(package.chip.pins[pin.number - 1])}"
    return f"{pin} {_POLES[pin.number]}" if pin.of.startswith("D") else str(pin)


_ADDED: Final = {
    PRESSED: "bench-net-pressed",
    RESTING: "bench-net-resting",
    inverted(RESET): "bench-net-clear",
}
_POLES: Final = {1: "+", 2: "−"}
"""Of a light: the anode, and the cathode."""


def _carried(one: Wire | Fitting, words: Words) -> str:
    """What a line carries, and the resistor that it is."""
    net = net_told(one.net, words)
    if isinstance(one, Fitting) and one.what == "resistor":
        return words("bench-resistor", value=words.decimal(one.value), net=net).rstrip()
    return net


def net_told(net: str, words: Words) -> str:
    """A net's name; those that the bench adds are named in the language."""
    plain = net.removeprefix("/")
    message = _ADDED.get(plain)
    return f"{'/' * (plain != net)}{words(message)}" if message else net


# ---------------------------------------------------------------------- the run


def _run(sheet: Sheet, words: Words) -> Iterator[Block]:
    clocked = bool(sheet.trace.edges)
    yield Heading(words("bench-run"))
    yield Paragraph(words("bench-run-clocked" if clocked else "bench-run-unclocked"))
    kinds: tuple[Shown, ...] = ("light", "set", "point")
    for shown in kinds:
        columns = [one for one in sheet.columns if one.shown == shown]
        if columns:
            told = "; ".join(_placed(one, words) for one in columns)
            yield Paragraph(words(f"bench-legend-{shown}", list=told))
    if any("X" in word for push in sheet.pushes for word in push.words):
        yield Paragraph(words("bench-run-either"))
    if len(sheet.pushes) <= sheet.trace.edges:
        rows = sheet.trace.edges + 1
        yield Paragraph(words("bench-run-part", count=len(sheet.pushes), of=rows))
    heads = [words("bench-set", name=c.name) if c.shown == "set" else c.name for c in sheet.columns]
    first = (words("bench-row"), words("bench-phase")) if clocked else ()
    lines = [
        (
            *((str(push.row), push.phase) if clocked else ()),
            *(word.replace("X", EITHER) for word in push.words),
        )
        for push in sheet.pushes
    ]
    bits = frozenset(range(len(first), len(first) + len(heads)))
    yield Table(words("bench-run-caption"), (*first, *heads), tuple(lines), bits, ticked=True)


def _placed(column: Column, words: Words) -> str:
    return words("bench-places", name=column.name, places=", ".join(column.places))
