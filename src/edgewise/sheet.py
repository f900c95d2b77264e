"""What a design is, as a sheet of plain text or as data for a program."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import show as show_signal
from edgewise.circuit.model import Part
from edgewise.circuit.parts import count
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
    operators = Counter(gate.operator for gate in netlist.gates)
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
        "gates": len(netlist.gates) - operators["not"] - operators["buffer"],
        "inverters": operators["not"],
        "buffers": operators["buffer"],
        "flip-flops": len(netlist.flip_flops),
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
    lines += ["", "parts", *_listed(_parts(design.circuit.parts), width)]
    if design.procedure:
        lines += ["", "procedure", *_listed([_phase(p) for p in sheet["phases"]], width)]
    if design.computes:
        lines += [
            "",
            "computes",
            *_listed([_purpose(o, p) for o, p in sheet["computes"].items()], width),
        ]
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


def _parts(parts: Sequence[Part]) -> list[tuple[str, str]]:
    """Parts with what feeds them; a family is shown by its first member and its count."""
    families: dict[str, list[Part]] = {}
    for part in parts:
        families.setdefault(part.name.partition("(")[0], []).append(part)
    rows = []
    for members in families.values():
        first = members[0]
        feeds = ", ".join(
            f"{port.name} = {show_signal(first.signal(port.name))}"
            for port in first.kind.ports
            if port.direction == "in"
        )
        settings = "".join(f" {n} {v}" for n, v in first.kind.settings if n == "width")
        name = first.name if len(members) == 1 else f"{first.name} … {members[-1].name}"
        rows.append((name, f"{first.kind.name}{settings}; {feeds}"))
    return rows


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
