"""The flat form of a circuit that every engine takes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final, TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.cover import Cover
from edgewise.circuit.model import no_slice
from edgewise.errors import CircuitError, Message, Place, nearest

CONSTANTS: Final = (0, 1, 2)
"""Net numbers of the constants 0, 1 and X: the number is the bit."""
CLOCK_NET: Final = 3
"""Net number of the clock. Between edges it counts as 1, so that an AND gate in a clock
passes exactly the nets that let the next edge through."""


@dataclass(frozen=True, slots=True)
class Gate:
    """One gate: `operator` of `inputs` is the value of the net `output`.

    `operator` is the name of a part type that has a `Function`, which orders the inputs.
    """

    operator: str
    inputs: tuple[int, ...]
    output: int
    name: str
    """Path of the part, as in ``FA.X1``."""
    cover: Cover | None = None
    """What the part around it decides where the inputs leave the output unknown."""


@dataclass(frozen=True, slots=True)
class FlipFlop:
    """One stored bit; at an edge, `q` takes its next value from the row before.

    If `gate` is a net and 0, no edge arrives. Otherwise: `clear` 1 stores 0; else `enable` 0
    holds; else `d` is stored; `edgewise.circuit.truth` has the rule. None stands for "not there"
    (an edge arrives, not cleared, enabled). Where `enable` and `d` leave it unknown what is
    stored, `cover` decides, if there is one: it says what the part around stores when an edge
    arrives and nothing is cleared.

    `preset` 1 stores 1 at once, and else `reset` 1 stores 0, whatever the clock does: they are
    asynchronous, so that only `edgewise.engines.timed` knows them.
    """

    name: str
    d: int
    q: int
    enable: int | None
    clear: int | None
    gate: int | None
    start: Bit
    cover: Cover | None = None
    reset: int | None = None
    preset: int | None = None


Drivers: TypeAlias = Mapping[int, tuple[Gate, Place | None]]
"""The gate that drives each net, and where the part was written down that it is in."""


@dataclass(frozen=True)
class Netlist:
    """Nets by number, gates in evaluation order, flip-flops, and names for people.

    Parameters
    ----------
    size : int
        Number of nets; 0, 1, 2 are the constants 0, 1, X and 3 is the clock.
    inputs, outputs : mapping of str to tuple of int
        Net numbers, LSB first.
    gates : tuple of Gate
        Each after all that it reads.
    flip_flops : tuple of FlipFlop
    names : mapping of str to tuple of int
        Nets, ports (``FA.carry-out``), words (``A``), outputs, and what is inside parts
        (``FA.X1.out``); net numbers, LSB first.
    """

    size: int
    inputs: Mapping[str, tuple[int, ...]]
    outputs: Mapping[str, tuple[int, ...]]
    gates: tuple[Gate, ...]
    flip_flops: tuple[FlipFlop, ...]
    names: Mapping[str, tuple[int, ...]]

    def find(self, name: str, place: Place | None = None) -> tuple[int, ...]:
        """Net numbers of a name, LSB first; an index or slice may stand behind it.

        Raises
        ------
        CircuitError
            If there is no such name, bit or slice; the nearest name is suggested.
        """
        exact = self.names.get(name)
        if exact is not None:
            return exact
        selected = _SELECTED.fullmatch(name)
        base = selected["base"] if selected else name
        bits = self.names.get(base)
        if bits is None:
            known = [name for name in self.top_names if "." in base or "." not in name]
            raise CircuitError(
                Message("name-unknown-here", name=base, suggestion=nearest(base, known)), place
            )
        if not selected:
            return bits
        high = int(selected["high"])
        low = int(selected["low"] or high)
        if not 0 <= low <= high < len(bits):
            raise no_slice(base, high, low, len(bits), place)
        return bits[low : high + 1]

    @cached_property
    def top_names(self) -> tuple[str, ...]:
        """The names that suggestions are made from: those not inside a part."""
        return tuple(name for name in self.names if name.count(".") <= 1)

    @cached_property
    def labels(self) -> tuple[str, ...]:
        """One name for each net bit, of the outermost level there is: ``c(3)``, ``FA.sum``.

        A net is called after what drives it; names of outputs and of input ports, which tell
        where it goes, come last.
        """
        best: list[str] = [""] * self.size
        best[:4] = ["0", "1", "X", "clock"]
        ranks = [(False, -1)] * self.size
        for name, bits in self.names.items():
            for i, net in enumerate(bits):
                label = name if len(bits) == 1 else f"{name}({i})"
                rank = (name in self.outputs, name.count("."))
                if not best[net] or rank < ranks[net]:
                    best[net], ranks[net] = label, rank
        return tuple(best)


_SELECTED: Final = re.compile(r"(?P<base>.+)\((?P<high>\d{1,6})(\.\.(?P<low>\d{1,6}))?\)")
