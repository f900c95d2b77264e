"""A wrong idea about the sluice."""

from dataclasses import replace

from edgewise.circuit.model import Circuit, Part, Tie
from edgewise.design import Design
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions.misconception import COMMON, Misconception


def _always_open(part: Part) -> Part:
    if part.kind.name != "inhibit":
        return part
    return circuit_edits.rewired(part, {"b": (Tie(0),)})


def ignored(design: Design) -> Design:
    """The design of one who thinks that the sluice lets the water through all the time."""

    def changed(circuit: Circuit) -> Circuit:
        return replace(circuit, parts=tuple(map(_always_open, circuit.parts)))

    return circuit_edits.everywhere(design, changed)


SLUICE_IGNORED = Misconception(
    "sluice-ignored",
    "The water gets through, whether the sluice is shut or not.",
    "a gate that inhibits",
    COMMON,
    ignored,
)
