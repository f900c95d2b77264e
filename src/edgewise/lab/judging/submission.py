"""Judging a submission: a description held against a design, for all operands."""

from __future__ import annotations

import time
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import permutations
from pathlib import Path
from typing import Final

from edgewise.circuit.flatten import flatten
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message
from edgewise.hdl.reading import read
from edgewise.hdl.sources import SUFFIXES
from edgewise.lab.identifier import identifier
from edgewise.lab.judging.comparison import compared
from edgewise.lab.judging.explanation import LONGEST, Rivals
from edgewise.lab.judging.ports import Fitted, Match, fitted
from edgewise.lab.judging.reset import submitted
from edgewise.lab.judging.verdict import Verdict
from edgewise.shelf import read_file

_MOST_ORDERS: Final = 24
"""Orders in which ports are tried that only their order matched."""
SECONDS: Final = 60.0
"""For one submission, unless the caller says otherwise."""


def judge(
    path: Path,
    design: Design,
    rivals: Rivals | None = None,
    *,
    ports: Mapping[str, str] | None = None,
    seconds: float = SECONDS,
) -> Verdict:
    """Judge a submission, in this process.

    Parameters
    ----------
    path : Path
        Of the description.
    design : Design
    rivals : Rivals, optional
        Its rivals, if they were made before.
    ports : mapping of str to str, optional
        A map of ports; see `edgewise.lab.judging.ports.port_map`.
    seconds : float
        For the proof and for all that may explain a wrong one.
    """
    deadline = time.monotonic() + seconds
    try:
        found = read(read_file(path, str(path)), str(path), near=identifier(design.name))
        flatten(found.circuit)  # what is wrong with it is told by its own names
        fitting = fitted(found, design, ports)
        own, resets = submitted(fitting, design)
        own.check()
        judged = compared(design, own, min(seconds, LONGEST))
        if judged.refuted:
            fitting = _fitting(fitting, design, deadline) or fitting
    except EdgewiseError as wrong:
        return Verdict(str(path), "refused", str(wrong))
    facts = Verdict(
        str(path),
        "right",
        taken=(*found.notes, *fitting.matches, *resets),
        remarks=found.remarks,
    )
    if judged.outcome == "proved" or any(one.how == "tried" for one in fitting.matches):
        return facts
    if judged.refuted is None:
        return replace(facts, outcome="undecided")
    rivals = rivals or Rivals(design)
    explanations, whole = rivals.explained(own, judged.refuted.operands, deadline)
    return replace(
        facts,
        outcome="wrong",
        refuted=judged.refuted,
        explanations=explanations,
        whole=whole,
    )


def _fitting(fitting: Fitted, design: Design, deadline: float) -> Fitted | None:
    """Inputs that were matched by their order in another one in which the submission is right."""
    guessed = {one.name: one.port for one in fitting.matches if one.how == "order"}
    for order in list(permutations(guessed.values()))[1:_MOST_ORDERS]:
        tried = dict(zip(guessed, order, strict=True))
        if time.monotonic() > deadline or not fitting.inputs.items() >= guessed.items():
            break
        widths = {net.name: net.width for net in fitting.circuit.inputs}
        if any(widths[tried[name]] != widths[port] for name, port in guessed.items()):
            continue
        other = replace(
            fitting,
            inputs={**fitting.inputs, **tried},
            matches=tuple(
                Match(one.name, tried[one.name], "tried") if one.name in tried else one
                for one in fitting.matches
            ),
        )
        own, _ = submitted(other, design)
        if compared(design, own, LONGEST).outcome == "proved":
            return other
    return None


def gathered(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Files, and for a folder the descriptions in it, in the order of their names.

    Raises
    ------
    EdgewiseError
        A folder without any.
    """
    found: list[Path] = []
    for path in paths:
        if not path.is_dir():
            found.append(path)
            continue
        there = sorted(one for one in path.iterdir() if one.suffix.lower() in SUFFIXES)
        if not there:
            raise EdgewiseError(
                Message("descriptions-none", path=str(path), suffixes=", ".join(SUFFIXES))
            )
        found += there
    return tuple(found)
