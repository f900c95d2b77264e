"""How large a whole circuit may be, what is inside its parts counted for each part."""

from __future__ import annotations

from collections.abc import Container
from typing import Final

from edgewise.circuit.insides import once_a_kind
from edgewise.circuit.model import CLOCK, Circuit, Kind
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.errors import CircuitError, Message, Place

MOST_PARTS: Final = 100_000
"""Parts in a whole circuit, those inside parts counted, at most."""
MOST_NETS: Final = 2_000_000
"""Net bits in a whole circuit, at most."""


def refuse_too_large(circuit: Circuit) -> None:
    """Raise `CircuitError` where a circuit that is taken apart in text order passes a limit."""
    _Count().add(circuit, (), None)


class _Count:
    """Parts and nets so far; an inside that fits is taken as a whole."""

    def __init__(self) -> None:
        self.parts = 0
        self.nets = CLOCK_NET + 1

    def add(self, circuit: Circuit, fed: Container[str], place: Place | None) -> None:
        self.nets += _own_nets(circuit, fed)
        if self.nets > MOST_NETS:
            raise CircuitError(Message("nets-whole", most=MOST_NETS))
        for part in circuit.parts:
            self.parts += 1
            if self.parts > MOST_PARTS:
                raise CircuitError(
                    Message("parts-whole", most=MOST_PARTS),
                    part.place or place,
                )
            if part.kind.inside is None:
                continue
            parts, nets = _inside(part.kind)
            if self.parts + parts <= MOST_PARTS and self.nets + nets <= MOST_NETS:
                self.parts += parts
                self.nets += nets
            else:
                self.add(part.kind.inside, _fed(part.kind), part.place or place)


@once_a_kind
def _inside(kind: Kind) -> tuple[int, int]:
    """How many parts and nets there are inside a kind of part, to the last gate."""
    if kind.inside is None:
        return 0, 0
    parts, nets = len(kind.inside.parts), _own_nets(kind.inside, _fed(kind))
    for part in kind.inside.parts:
        if part.kind.inside is not None:
            more = _inside(part.kind)
            parts, nets = parts + more[0], nets + more[1]
    return parts, nets


def _fed(kind: Kind) -> set[str]:
    """The nets of an inside that are nets outside, too."""
    return {port.name for port in kind.ins}


def _own_nets(circuit: Circuit, fed: Container[str]) -> int:
    return sum([w for name, w in circuit.widths.items() if name != CLOCK and name not in fed])
