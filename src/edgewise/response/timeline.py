"""A response as one long period, which timing diagrams draw to scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from edgewise.clocking import Pulse
from edgewise.inside import Glitch, Inside
from edgewise.response.facts import Response
from edgewise.response.report import sentences, table
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit


@dataclass(frozen=True)
class Timeline(Inside):
    """All that a circuit does in time, from 0 on; no edge begins it.

    Parameters
    ----------
    response : Response
    """

    response: Response | None = None

    @cached_property
    def glitches(self) -> tuple[Glitch, ...]:
        """Those of the response."""
        return self.response.glitches if self.response else ()

    @property
    def pulses(self) -> tuple[Pulse, ...]:
        """None: what is a clock here may have pulses of any length."""
        return ()

    def settled(self, edge: int, nets: Iterable[int] | None = None) -> int | None:
        """Nothing: inputs change more than once."""
        del edge, nets
        return None

    def lines(self, names: Sequence[str], words: Words = ENGLISH) -> list[tuple[str, ...]]:
        """What these words hold from which time on, a heading before it."""
        if self.response is None:
            return []
        head, *rows = table(self.response, names)
        time = f"{words('inside-column-time')} ({unit(self.unit, words)})"
        return [(time, *head[1:]), *((words.decimal(row[0]), *row[1:]) for row in rows)]

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """Those of the response."""
        return sentences(self.response, words) if self.response else []


def timeline(response: Response) -> Timeline:
    """A response as one period that begins at 0.

    Examples
    --------
    >>> from edgewise import blueprint
    >>> from edgewise.study.inside import follow
    >>> text = "{circuit: g, inputs: {x: 1}, parts: {N: {part: nand, in: [x, x]}},"
    >>> text += " outputs: {y: N.out}, waveforms: {x: [0, 1 after 5]}}"
    >>> line = timeline(follow(blueprint.from_text(text, "").made()))
    >>> line.figure(line.period), line.glitches
    ('7', ())
    """
    return Timeline(
        Trace(response.design, {}, (bytes(response.at(response.end)),)),
        0,
        0,
        response.model,
        response.unit,
        response.ticks,
        response.end,
        response.start,
        response.changes,
        response.violations,
        response.quiet,
        response=response,
    )
