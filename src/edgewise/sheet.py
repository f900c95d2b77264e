"""What a design is, as a sheet of plain text or as data for a program."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import show as show_signal
from edgewise.circuit.check import unread
from edgewise.circuit.model import Circuit, Part
from edgewise.circuit.parts import count, function, part_type
from edgewise.design import Design, Feed
from edgewise.formula import show


def data(blueprint: Blueprint, design: Design) -> dict[str, Any]:
    """The sheet as plain dictionaries and lists.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> blueprint = catalogue.find("serial-adder")
    >>> data(blueprint, blueprint.design({"n": 4}))["edges"]
    8
    """
    netlist = design.netlist
    # An operation is a gate; without one, an input is passed on, inverted or not.
    functions = [function(gate.operator) for gate in netlist.gates]
    through = [one.inverted for one in functions if not one.operation]
    return {
        "design": blueprint.name,
        "title": blueprint.title,
        "about": blueprint.about,
        "source": blueprint.source,
        "parameters": [
            {
                "name": p.name,
                "value": design.parameters[p.name],
                "range": f"{show(p.low)}..{show(p.high)}" if p.low and p.high else None,
            }
            for p in blueprint.parameters
        ],
        "operands": {operand.name: operand.width for operand in design.operands},
        "inputs": {name: len(bits) for name, bits in netlist.inputs.items()},
        "outputs": {name: len(bits) for name, bits in netlist.outputs.items()},
        "parts": {part.name: part.kind.name for part in design.circuit.parts},
        "settings": {
            part.name: told for part in design.circuit.parts if (told := told_settings(part))
        },
        "phases": [
            {
                "phase": phase.name,
                "edges": phase.edges,
                "first": first,
                "last": last,
                "feeds": {feed.input: show_feed(feed) for feed in phase.feeds},
            }
            for phase, first, last in design.spans
        ],
        "edges": design.edges,
        "computes": {
            p.output: {
                "formula": show(p.formula),
                "after": design.edges if p.after is None else p.after,
            }
            for p in design.computes
        },
        "gates": len(functions) - len(through),
        "inverters": sum(through),
        "buffers": len(through) - sum(through),
        "flip-flops": len(netlist.flip_flops),
        "unread": [part.name for part in unread(design.circuit)],
        "gated clocks": [f.name for f in netlist.flip_flops if f.gate is not None],
    }


def show_feed(feed: Feed) -> str:
    """What an input is fed, as in circuit text.

    Examples
    --------
    >>> show_feed(Feed("a_in", "a", "lsb-first")), show_feed(Feed("a_in", None))
    ('a lsb-first', 'X')
    """
    what = "X" if feed.what is None else str(feed.what)
    return what if feed.order == "held" else f"{what} {feed.order}"


def text(blueprint: Blueprint, design: Design, width: int = 88) -> str:
    """The sheet as text for a terminal `width` characters wide."""
    sheet = data(blueprint, design)
    lines = [f"{blueprint.name}: {blueprint.title}"]
    lines += textwrap.wrap(blueprint.about, width)
    if blueprint.source:
        lines += textwrap.wrap(f"Source: {blueprint.source}", width)
    parameters = [
        f"{p['name']} = {p['value']}" + (f" in {p['range']}" if p["range"] else "")
        for p in sheet["parameters"]
    ]
    sizes = ", ".join(
        count(sheet[f"{noun}s"], noun)
        for noun in ("gate", "inverter", "buffer", "flip-flop", "edge")
        if sheet[f"{noun}s"] or noun in ("gate", "flip-flop", "edge")
    )
    facts = [
        ("parameters", parameters),
        ("operands", _with_widths(sheet["operands"])),
        ("inputs", _with_widths(sheet["inputs"])),
        ("outputs", _with_widths(sheet["outputs"])),
        ("size", [sizes]),
    ]
    lines.append("")
    lines += _listed([(name, ", ".join(items)) for name, items in facts if items], width)
    lines += ["", "parts", *_listed(_parts(design.circuit), width)]
    if design.procedure:
        lines += ["", "procedure", *_listed([_phase(p) for p in sheet["phases"]], width)]
    if design.computes:
        lines += [
            "",
            "computes",
            *_listed([_purpose(o, p) for o, p in sheet["computes"].items()], width),
        ]
    if sheet["unread"]:
        said = (
            f"Nothing reads {', '.join(sheet['unread'])}: connect what it gives, or leave it out."
        )
        lines += ["", *textwrap.wrap(said, width)]
    if sheet["gated clocks"]:
        lines += ["", *textwrap.wrap(GATED_CLOCK_CAUTION, width)]
    return "\n".join(lines)


GATED_CLOCK_CAUTION = (
    "Caution: the signal that gates a clock must not change while the clock is high: a rise makes"
    " a false edge, a fall cuts the pulse short. An enable on the flip-flop has no such risk."
)
"""Said wherever a clock passes through an AND gate."""


def _with_widths(widths: Mapping[str, int]) -> list[str]:
    return [f"{name} ({count(width, 'bit')})" for name, width in widths.items()]


def _parts(circuit: Circuit) -> list[tuple[str, str]]:
    """Parts with what feeds them; members of a family that differ in their index alone as one."""
    single = frozenset(name for name, width in circuit.widths.items() if width == 1)
    runs: list[_Members] = []
    for part in circuit.parts:
        member = _Member.of(part, single)
        joined = runs[-1].with_next(member) if runs else None
        if joined:
            runs[-1] = joined
        else:
            runs.append(_Members(member, member))
    return [run.told() for run in runs]


@dataclass(frozen=True, slots=True)
class _Member:
    """A part: its name without the index, its index (None: it has none), and what is told of it.

    Of `pieces`, every second one is an index of something that feeds it.
    """

    name: str
    base: str
    index: int | None
    pieces: tuple[str, ...]

    @classmethod
    def of(cls, part: Part, single: Container[str]) -> _Member:
        """Kind, settings, and what feeds each port."""
        base, _, index = part.name.removesuffix(")").rpartition("(")
        feeds = ", ".join(
            f"{port.name} = {show_signal(part.signal(port.name), single)}"
            for port in part.kind.ports
            if port.direction == "in"
        )
        settings = "".join(f" {name} {value}" for name, value in told_settings(part).items())
        told = f"{part.kind.name}{settings}{'; ' if feeds else ''}{feeds}"
        number = int(index) if base and index.isdecimal() else None
        return cls(part.name, base or part.name, number, tuple(_INDEX.split(told)))


@dataclass(frozen=True, slots=True)
class _Members:
    """Members of a family, one after the other, told as one.

    `moves`: for each index of what feeds them, whether it moves with the member; the others are
    the same for all.
    """

    first: _Member
    last: _Member
    moves: tuple[bool, ...] = ()

    def with_next(self, member: _Member) -> _Members | None:
        """Those and one more; None where it is not the next, or not alike."""
        first = self.first
        if first.index is None or member.index is None or first.base != member.base:
            return None
        alike = member.pieces[::2] == first.pieces[::2]
        if not alike or member.index != (self.last.index or 0) + 1:
            return None
        pairs = list(zip(first.pieces[1::2], member.pieces[1::2], strict=True))
        moves = tuple(one != other for one, other in pairs)
        step = member.index - first.index
        if any(int(other) - int(one) != step for one, other in pairs if one != other):
            return None
        if first != self.last and moves != self.moves:
            return None
        return _Members(first, member, moves)

    def told(self) -> tuple[str, str]:
        """The name, ``FA(i = 0..5)``, and what is told of all."""
        first = self.first
        if first == self.last:
            return first.name, "".join(first.pieces)
        pieces = list(first.pieces)
        for place, moves in enumerate(self.moves):
            if moves:
                distance = int(pieces[2 * place + 1]) - (first.index or 0)
                pieces[2 * place + 1] = f"i{distance:+d}" if distance else "i"
        return f"{first.base}(i = {first.index}..{self.last.index})", "".join(pieces)


_INDEX: Final = re.compile(r"(?<=[(.])([0-9]+)(?=[).])")
"""An index in what is told of a part: in parentheses, alone or as an end of a slice."""


def told_settings(part: Part) -> dict[str, int | str]:
    """The settings of a part, but for those that it has if nothing is said.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> told_settings(catalogue.design("serial-subtractor").circuit.part("C"))
    {'start': 1}
    """
    usual: dict[str, int | str | None] = {}
    if part.kind.role != "circuit":
        usual = {one.name: one.default for one in part_type(part.kind.name).settings}
    return {name: value for name, value in part.kind.settings if usual.get(name) != value}


def _phase(phase: Mapping[str, Any]) -> tuple[str, str]:
    number = phase["edges"]
    edges = f"edges {phase['first']}–{phase['last']}" if number > 1 else f"edge {phase['first']}"
    feeds = ", ".join(f"{name}: {what}" for name, what in phase["feeds"].items())
    return phase["phase"], "; ".join(filter(None, (edges if number else "no edges", feeds)))


def _purpose(output: str, purpose: Mapping[str, Any]) -> tuple[str, str]:
    when = f" after edge {purpose['after']}" if purpose["after"] else ""
    return output, f"= {purpose['formula']}{when}"


def _listed(rows: Sequence[tuple[str, str]], width: int) -> list[str]:
    left = max((len(name) for name, _ in rows), default=0)
    lines = []
    for name, what in rows:
        indent = " " * (left + 4)
        wrapped = textwrap.wrap(what, max(width - len(indent), 30)) or [""]
        lines.append(f"  {name.ljust(left)}  {wrapped[0]}")
        lines += [indent + line for line in wrapped[1:]]
    return lines
