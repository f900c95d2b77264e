"""A reset that a submission has and the design has not: over before the run begins."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from edgewise.bits import Bit, X
from edgewise.design import Design, Feed, Phase
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Message
from edgewise.lab.judging.ports import Fitted
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Reset:
    """An input that resets at an edge, and the level at which it does."""

    name: str
    level: int

    def said(self, words: Words = ENGLISH) -> str:
        """In words."""
        return words("judged-reset", name=self.name, level=self.level)


def submitted(fitted: Fitted, design: Design) -> tuple[Design, tuple[Reset, ...]]:
    """The design with the submission's circuit in place of its own, all resets over.

    Which level resets is tried: the one at which an edge makes more bits known, all else unknown.

    Raises
    ------
    EdgewiseError
        An input that is called as a reset is, and resets nothing.
    """
    if not fitted.resets:
        return replace(design, circuit=fitted.within({}), altered=None, flat=None), ()
    resets = tuple(Reset(name, _level(fitted, name)) for name in fitted.resets)
    circuit = fitted.within({one.name: 1 - one.level for one in resets})
    whole = replace(design, circuit=circuit, altered=None, flat=None)
    stored = _stored(fitted, {one.name: one.level for one in resets})
    started = tuple(
        replace(one, start=stored[one.name] if stored.get(one.name, X) != X else one.start)
        for one in whole.netlist.flip_flops
    )
    return replace(whole, altered=replace(whole.netlist, flip_flops=started)), resets


def _level(fitted: Fitted, name: str) -> int:
    """The level at which an input resets."""
    known = [
        {one for one, bit in _stored(fitted, {name: level}).items() if bit != X} for level in (0, 1)
    ]
    if len(known[0]) == len(known[1]):
        raise EdgewiseError(Message("submission-reset", name=name))
    return int(len(known[1]) > len(known[0]))


def _stored(fitted: Fitted, levels: Mapping[str, int]) -> dict[str, Bit]:
    """What each flip-flop holds after one edge from an unknown state, only `levels` known."""
    circuit = fitted.within({})
    feeds = tuple(Feed(net.name, levels.get(net.name)) for net in circuit.inputs)
    trial = Design("reset", circuit, {}, (), (Phase("reset", 1, feeds),))
    netlist = trial.netlist
    unknown = tuple(replace(one, start=X) for one in netlist.flip_flops)
    run = reference.run(replace(trial, altered=replace(netlist, flip_flops=unknown)), {})
    return {one.name: _bit(run.rows[1][one.q]) for one in netlist.flip_flops}


def _bit(value: int) -> Bit:
    return 0 if value == 0 else 1 if value == 1 else X
