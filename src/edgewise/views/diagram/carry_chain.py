"""Chain: adders of which each passes its carry to the next, drawn as a row.

The carry runs from right to left, as in written addition; the bits of both words hang over
each slice, the bits of the sum under it. A long chain is folded like a long word::

       a(2) b(2)    a(1) b(1)    a(0) b(0)
        |    |       |    |       |    |
       [ FA(2) ]----[ FA(1) ]----[ FA(0) ]---- carry_in
           |            |            |
         sum(2)       sum(1)       sum(0)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Final

from edgewise.circuit.model import Circuit, Part
from edgewise.views.diagram.drivers import Origin, Run, Sources
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.terminals import bit, tie
from edgewise.views.layout.graph import Side

WIDTH: Final = 104.0
HEIGHT: Final = 88.0
_SIDES: Final[dict[str, tuple[Side, float, str]]] = {
    "a": ("top", 32.0, "a"),
    "b": ("top", WIDTH - 32.0, "b"),
    "carry-in": ("right", 44.0, PORT_LABELS["carry-in"]),
    "carry-out": ("left", 44.0, PORT_LABELS["carry-out"]),
    "sum": ("bottom", WIDTH / 2, PORT_LABELS["sum"]),
}
_ELLIPSIS: Final = 60.0
_FOLD: Final = 12
"""A chain of more slices than this is folded."""
_FOLD_LOW: Final = 6
"""Slices of a folded chain right of the ellipsis; one less stands left of it."""


def chain(circuit: Circuit) -> tuple[Part, ...]:
    """The adders of a circuit that is one chain of them and nothing else; empty if it is not.

    The first is that of the LSB.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [part.name for part in chain(catalogue.design("ripple-carry-adder", n=3).circuit)]
    ['FA(0)', 'FA(1)', 'FA(2)']
    >>> chain(catalogue.design("serial-adder").circuit)
    ()
    """
    parts = circuit.parts
    if len(parts) < 2 or not all(p.kind.role == "arithmetic" for p in parts):
        return ()
    sources = Sources(circuit)
    for before, part in zip((None, *parts[:-1]), parts, strict=True):
        for port in part.kind.ports:
            if port.direction == "in":
                origin = _origin(sources, part, port.name)
                owner = origin.owner if origin else ""
                allowed = before.name if before and port.name == "carry-in" else ""
                if owner != allowed or (owner and origin and origin.port != "carry-out"):
                    return ()
        if before and part.kind.port("carry-in") is None:
            return ()
    if any(_stray(run, parts[-1]) for run in _output_runs(circuit, sources)):
        return ()
    return parts


def _origin(sources: Sources, part: Part, port: str) -> Origin | None:
    return sources.runs(part.signal(port))[0].origin


def _output_runs(circuit: Circuit, sources: Sources) -> Iterator[Run]:
    for output in circuit.outputs:
        yield from sources.single(output.signal)


def _stray(run: Run, last: Part) -> bool:
    """Whether an output shows anything but a sum or the last carry."""
    origin = run.origin
    if origin is None or not origin.owner:
        return True
    return origin.port != "sum" and origin.owner != last.name


def row(circuit: Circuit, parts: tuple[Part, ...], names: Mapping[str, tuple[int, ...]]) -> Scene:
    """The scene of a chain (see `chain`)."""
    made = _Row(circuit, names)
    made.build(parts)
    folded = len(parts) > _FOLD
    words = [net.name for net in circuit.inputs] + [output.name for output in circuit.outputs]
    wide = tuple((name, names[name]) for name in words if len(names[name]) > 1)
    return Scene(tuple(made.elements), tuple(made.threads), "left", wide if folded else ())


@dataclass(slots=True)
class _Row:
    circuit: Circuit
    names: Mapping[str, tuple[int, ...]]
    elements: list[Element] = field(default_factory=list)
    threads: list[Thread] = field(default_factory=list)

    def build(self, parts: tuple[Part, ...]) -> None:
        """Slices from the LSB on, with what hangs on them."""
        shown = _shown(parts)
        sources = Sources(self.circuit)
        outputs = sources.shown()
        start = _origin(sources, parts[0], "carry-in") if parts[0].signal("carry-in") else None
        if start is not None:
            self._terminal(self._name(start), "left", (0, 0), self.names[start.port])
        for number, part in enumerate(shown, 1):
            if part is None:
                self.elements.append(_ellipsis((number, 0)))
                continue
            element = self._slice(part, (number, 0))
            self.elements.append(element)
            for pin in element.pins:
                self._bits(part, pin, sources, outputs)
        self._carries(shown, None if start is None else self._name(start))
        last = parts[-1]
        name = outputs.get(Origin(last.name, "carry-out"))
        if name:
            nets = self.names[f"{last.name}.carry-out"]
            self._terminal(name, "right", (len(shown) + 1, 0), nets)
            source = f"{last.name}.carry-out"
            self.threads.append(Thread(f"{source}~", source, (f"{name}.",), "carry"))

    def _name(self, origin: Origin) -> str:
        width = len(self.names[origin.port])
        return f"{origin.port}({origin.index})" if width > 1 else origin.port

    def _slice(self, part: Part, seed: tuple[int, int]) -> Element:
        pins = []
        for port in part.kind.ports:
            side, at, label = _SIDES[port.name]
            ident = f"{part.name}.{port.name}"
            pins.append(Pin(ident, port.name, self.names[ident]).put(side, at, label))
        return Element(
            part.name,
            "slice",
            part.kind.name,
            part.name,
            WIDTH,
            HEIGHT,
            tuple(pins),
            (0.0, 0.0, WIDTH, HEIGHT),
            seed=seed,
            mark="Σ",
        )

    def _bits(self, part: Part, pin: Pin, sources: Sources, outputs: dict[Origin, str]) -> None:
        """What hangs on a pin: a bit of a word, or a constant."""
        if pin.port == "sum":
            name = outputs.get(Origin(part.name, "sum"))
            if name:
                element = bit(f"{pin.id}:bit", name, "top", pin.nets)
                self.threads.append(Thread(f"{pin.id}~", pin.id, (element.pins[0].id,)))
                self._add(element, pin)
        elif pin.port != "carry-out":
            origin = _origin(sources, part, pin.port)
            if origin is None:
                element = tie(pin, pin.id, "01X"[pin.nets[0]])
            elif pin.port != "carry-in":
                element = bit(f"{pin.id}:bit", self._name(origin), "bottom", pin.nets)
            else:
                return
            kind = "carry" if pin.port == "carry-in" else ""
            self.threads.append(Thread(f"{pin.id}~", element.pins[0].id, (pin.id,), kind))
            self._add(element, pin)

    def _add(self, element: Element, pin: Pin) -> None:
        self.elements.append(replace(element, hangs_on=pin.id))

    def _terminal(
        self, name: str, side: Side, seed: tuple[int, int], nets: tuple[int, ...]
    ) -> None:
        self.elements.append(replace(bit(name, name, side, nets), seed=seed))

    def _carries(self, shown: list[Part | None], start: str | None) -> None:
        if start is not None and shown[0] is not None:
            target = f"{shown[0].name}.carry-in"
            self.threads.append(Thread(f"{start}~", f"{start}.", (target,), "carry"))
        for before, after in pairwise(shown):
            source = f"{before.name}.carry-out" if before else "….out"
            target = f"{after.name}.carry-in" if after else "….in"
            self.threads.append(Thread(f"{source}~", source, (target,), "carry"))
        for i, element in enumerate(self.elements):
            if element.role == "ellipsis":
                k = shown.index(None)
                before, after = shown[k - 1], shown[k + 1]
                assert before is not None
                assert after is not None
                nets = {
                    "carry-in": self.names[f"{before.name}.carry-out"],
                    "carry-out": self.names[f"{after.name}.carry-in"],
                }
                pins = tuple(replace(pin, nets=nets[pin.port]) for pin in element.pins)
                self.elements[i] = replace(element, pins=pins)


def _shown(parts: tuple[Part, ...]) -> list[Part | None]:
    """The slices to be drawn, LSB first; None stands for those left out."""
    if len(parts) <= _FOLD:
        return list(parts)
    high = _FOLD - 1 - _FOLD_LOW
    return [*parts[:_FOLD_LOW], None, *parts[-high:]]


def _ellipsis(seed: tuple[int, int]) -> Element:
    pins = (
        Pin("….in", "carry-in", ()).put("right", 44.0),
        Pin("….out", "carry-out", ()).put("left", 44.0),
    )
    return Element("…", "ellipsis", "", "…", _ELLIPSIS, HEIGHT, pins, seed=seed)
