"""Named controls: a control beyond an adder is named at its pin, not wired past the adder.

A wire from an input to a register behind the adder would have to run under the figure. Books on
logic write the name of the control there once more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from edgewise.views.diagram.elements import Element
from edgewise.views.diagram.nets import Thread
from edgewise.views.diagram.terminals import terminal_in

_STEM: Final = 12.0


@dataclass(slots=True)
class NamedControls:
    """The inputs and threads of a figure whose adder is `whole`.

    Examples
    --------
    >>> made = NamedControls([], [], [], Element("FA", "pair"))
    >>> made.name()
    >>> made.hanging
    []
    """

    entrances: list[Element]
    parts: Sequence[Element]
    threads: list[Thread]
    whole: Element
    hanging: list[Element] = field(default_factory=list)
    """The names at the pins."""

    def name(self) -> None:
        """Cut every control where it would have to pass the adder."""
        stems = dict.fromkeys((part.id for part in self.parts), _STEM)
        before = self._before()
        for entrance in [*self.entrances]:
            thread = next((t for t in self.threads if t.source == entrance.pins[0].id), None)
            if thread is None or thread.kind != "control":
                continue
            home = {pin.id: part for part in self.parts for pin in part.pins}
            kept = tuple(end for end in thread.targets if home[end].id in before)
            far = [end for end in thread.targets if end not in kept]
            for end in far:
                pin = next(pin for pin in home[end].pins if pin.id == end)
                source = replace(entrance.pins[0], id=f"{end}:name.")
                made = terminal_in(entrance.label, source, control=True)
                stem = stems[home[end].id]
                stems[home[end].id] += made.width + _STEM
                self.hanging.append(replace(made, hangs_on=pin.id, stem=stem))
                self.threads.append(Thread(f"{end}~", made.pins[0].id, (end,), "control"))
            if far:
                self.threads.remove(thread)
                if kept:
                    self.threads.append(replace(thread, targets=kept))
                else:
                    self.entrances.remove(entrance)

    def _before(self) -> set[str]:
        """What the adder takes in, straight or through other parts."""
        home = {pin.id: part.id for part in self.parts for pin in part.pins}
        found: set[str] = set()
        waiting = [self.whole.id]
        while waiting:
            here = waiting.pop()
            for thread in self.threads:
                source = home.get(thread.source)
                ends = {home.get(end) for end in thread.targets}
                if source and here in ends and source not in found | {self.whole.id}:
                    found.add(source)
                    waiting.append(source)
        return found
