"""Captions: what a table, a figure or a chart without a caption of its own shows."""

from __future__ import annotations

from edgewise.lesson.compared import Compared
from edgewise.trace import Trace


def given(trace: Trace, rows: tuple[int, ...]) -> str:
    """What a table without a caption of its own shows."""
    numbers = {**trace.design.parameters, **trace.operands}
    values = ", ".join(f"{name}\u00a0=\u00a0{value}" for name, value in numbers.items())
    values = f" ({values})" if values else ""
    if not trace.edges:
        return f"The words, MSB left{values}"
    if len(rows) == 1:
        when = f"after edge {rows[0]}" if rows[0] else "before the first edge"
        return f"The words {when}, MSB left{values}"
    return f"The words after each edge, with the inputs that the next one samples; MSB left{values}"


def moment(trace: Trace, rows: tuple[int, ...]) -> str:
    """What a figure without a caption of its own shows."""
    if not trace.edges:
        return trace.design.circuit.name[:1].upper() + trace.design.circuit.name[1:]
    if len(rows) > 1:
        return f"Edges {rows[0]} to {rows[-1]}"
    phase = trace.phase(rows[0])
    when = f"After edge {rows[0]}" if rows[0] else "Before the first edge"
    return f"{when}, with the inputs of phase {phase.name}" if phase else when


def charted(shown: Compared) -> str:
    """What the chart shows."""
    found = shown.comparison
    return f"{', '.join(found.designs)} in the model {found.model.name}"
