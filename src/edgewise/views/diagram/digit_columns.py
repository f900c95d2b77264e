"""Digits: adders side by side, each under the registers that feed it and over the one it feeds.

A word moves through several registers, one digit at an edge; the carry goes from adder to adder and
through a flip-flop back to the first. Found in the nets, the LSB right::

      a(3,1)  b(3,1)   a(2,0)  b(2,0)
      [A(1)]  [B(1)]   [A(0)]  [B(0)]
      [    FA(1)   ]◄──[    FA(0)   ]◄─q[C]d─┐
    ┌──┘──────────────────────────────────────┘
        [S(1)]           [S(0)]
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.circuit.model import CLOCK
from edgewise.views.diagram import terminals
from edgewise.views.diagram.datapath_registers import NAME, bare, compact
from edgewise.views.diagram.elements import PORT_LABELS, Element, Mark, Pin
from edgewise.views.diagram.group_words import joined
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line, Placement

_HEIGHT: Final = 72.0
_SIDE: Final = 46.0
_STEM: Final = 16.0
_DROP: Final = 22.0
_BESIDE: Final = 24.0
"""From the ends of an adder to what comes from the registers."""
_APART: Final = 12.0
"""More between two digits than between two registers of one."""
_LOOP: Final = 68.0
"""Between the adders and the registers under them; the carry runs there."""
_SHOWN: Final = 22.0
"""From the top of the flip-flop to where it shows the carry: over the loop."""


@dataclass(frozen=True, slots=True)
class Digit:
    """An adder, the registers that feed its ports in their order, and the one it feeds."""

    adder: Element
    over: tuple[Element, Element]
    under: Element


def digits(scene: Scene) -> Scene | None:
    """The scene with its places, if it is made of digits; else nothing.

    Examples
    --------
    >>> digits(Scene((), ())) is None
    True
    """
    search = _Search(scene)
    found = search.found()
    if found is None:
        return None
    made = _Places(scene, search, found)
    return made.placed() if made.build() else None


class _Search:
    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.home = {pin.id: element for element in scene.elements for pin in element.pins}
        self.source = {end: t.source for t in scene.threads for end in t.targets}
        self.targets = {t.source: t.targets for t in scene.threads}
        self.store: Element | None = None

    def found(self) -> tuple[Digit, ...] | None:
        """The digits from the LSB on."""
        adders = [element for element in self.scene.elements if element.role == "adder"]
        ports = {pin.port for element in self.scene.elements for pin in element.pins}
        if len(adders) < 2 or CLOCK in ports or any(e.inside for e in self.scene.elements):
            return None
        after: dict[str, Element] = {}
        first: list[Element] = []
        for adder in adders:
            fed = self._home(f"{adder.id}.carry-in")
            if fed is None:
                return None
            if fed.role == "adder":
                after[fed.id] = adder
            else:
                first.append(adder)
                self.store = fed
        order = first
        while order and order[-1].id in after and len(order) <= len(adders):
            order.append(after[order[-1].id])
        if len(first) > len(adders) or len(order) != len(adders) or not self._loops(order[-1]):
            return None
        made = [digit for adder in order if (digit := self._digit(adder))]
        return tuple(made) if len(made) == len(order) and self._rest(made) else None

    def _home(self, pin: str) -> Element | None:
        return self.home.get(self.source.get(pin, ""))

    def _loops(self, last: Element) -> bool:
        """Whether the carry comes back through a flip-flop."""
        store = self.store
        if store is None or store.role != "storage" or len(store.word) != 1:
            return False
        fed = self.targets.get(f"{last.id}.carry-out", ())
        return fed == (f"{store.id}.d",)

    def _digit(self, adder: Element) -> Digit | None:
        over = []
        for port in ("a", "b"):
            register = self._home(f"{adder.id}.{port}")
            out = self.source.get(f"{adder.id}.{port}", "")
            if register is None or register.role != "storage" or len(self.targets[out]) > 1:
                return None
            if out != f"{register.id}.out" or self.targets.get(f"{register.id}.q"):
                return None
            over.append(register)
        under = self.targets.get(f"{adder.id}.sum", ())
        register = self.home[under[0]] if len(under) == 1 else None
        if register is None or register.role != "storage" or not under[0].endswith(".in"):
            return None
        return Digit(adder, (over[0], over[1]), register)

    def _rest(self, made: list[Digit]) -> bool:
        """Whether there is nothing else but inputs, outputs and constants."""
        known = {e.id for d in made for e in (d.adder, *d.over, d.under)}
        known |= {self.store.id} if self.store else set()
        others = [e for e in self.scene.elements if e.id not in known]
        return all(e.role in ("input", "output", "tie") for e in others)


@dataclass(slots=True)
class _Places:
    scene: Scene
    nets: _Search
    digits: tuple[Digit, ...]
    placement: Placement = field(default_factory=Placement)
    routes: dict[str, list[tuple[str, Line]]] = field(default_factory=dict)
    done: set[str] = field(default_factory=set)
    marks: list[Mark] = field(default_factory=list)
    right: float = 0.0
    kinds: Mapping[str, str] = field(init=False)

    def __post_init__(self) -> None:
        self.kinds = {thread.source: thread.kind for thread in self.scene.threads}

    def placed(self) -> Scene:
        """The scene on the page."""
        for source, ends in self.routes.items():
            kind = self.kinds.get(source.removesuffix("!"), "")
            thread = Thread(f"{source}~", source, tuple(end for end, _ in ends), kind)
            self.placement.join(thread, [line for _, line in ends])
        self.placement.note(self.marks)
        return self.placement.scene("down")

    def build(self) -> bool:
        """Lay everything; False if a wire found no way."""
        for digit in self.digits:
            self._digit(digit)
            self.right -= _APART
        self._carries()
        self._outputs()
        every = {end for thread in self.scene.threads for end in thread.targets}
        return every <= self.done

    def _route(self, source: str, target: str, *line: tuple[float, float]) -> None:
        self.routes.setdefault(source, []).append((target, line))
        self.done.add(target)

    # ------------------------------------------------------------ a digit

    def _digit(self, digit: Digit) -> None:
        """From right to left: b's register, a's register, then the adder under both."""
        xs = {}
        for port, register in zip("ba", digit.over[::-1], strict=True):
            xs[port] = self._register(register)
        low, high = xs["a"] - _BESIDE, xs["b"] + _BESIDE
        pins = []
        for pin in digit.adder.pins:
            label = PORT_LABELS.get(pin.port, pin.port)
            match pin.port:
                case "a" | "b":
                    pins.append(pin.put("top", xs[pin.port] - low, label))
                case "sum":
                    pins.append(pin.put("bottom", _BESIDE, label))
                case "carry-in":
                    pins.append(pin.put("right", _SIDE, label))
                case _:
                    pins.append(pin.put("left", _SIDE, label))
        width = high - low
        made = replace(
            digit.adder,
            role="cell",
            width=width,
            height=_HEIGHT,
            frame=(0.0, 0.0, width, _HEIGHT),
            pins=tuple(pins),
            seed=None,
        )
        self.placement.put(made, (low, 0.0))
        for port in "ab":
            target = f"{made.id}.{port}"
            source = self.nets.source[target]
            self._route(source, target, self.placement.spots[source], (xs[port], 0.0))
        self._under(digit, low + _BESIDE)

    def _register(self, register: Element) -> float:
        """A register over an adder, with its word over it; px of where its bits leave."""
        made = bare(register)
        out = Pin(f"{register.id}.out", "out", (register.word[0],))
        sides = [pin for pin in made.pins if pin.port != "d"]
        words = sorted((pin for pin in register.pins if pin.port == "d"), key=_place)
        pins = [*sides, out.put("bottom", made.width - _BESIDE / 2)]
        word = None
        if words:
            nets = tuple(net for pin in words for net in pin.nets)
            word = Pin(f"{register.id}.d!", "d", nets).put("top", made.width / 2)
            pins.append(word)
        made = compact(replace(made, pins=tuple(pins)))
        left = self.right - made.width
        top = -_STEM - made.height
        self.placement.put(made, (left, top))
        self.right = left - self._names(made)
        if word is not None:
            self._word(word, [self.nets.source[pin.id] for pin in words])
            self.done |= {pin.id for pin in words}
        return left + made.width - _BESIDE / 2

    def _word(self, pin: Pin, sources: list[str]) -> None:
        """The bits that a register takes in together, over it."""
        names = []
        for source, net in zip(sources * (len(pin.nets) // len(sources)), pin.nets, strict=True):
            element = self.nets.home[source]
            nets = element.pins[0].nets
            names.append(f"{element.label}({nets.index(net)})" if len(nets) > 1 else element.label)
        x, y = self.placement.spots[pin.id]
        made = terminals.word(f"{pin.id}:word", joined(names), "bottom", pin.nets)
        own = made.pins[0].id
        self.placement.put_at(made, own, (x, y - _DROP))
        self.routes[own] = [(pin.id, ((x, y - _DROP), (x, y)))]
        if len(pin.nets) > 1:
            self.marks.append(Mark(x, y - 8, str(len(pin.nets)), "down"))

    def _names(self, register: Element) -> float:
        """What comes in at the left of a register, and how much room that takes."""
        room = 0.0
        for pin in register.pins:
            source = self.nets.source.get(pin.id)
            if pin.side != "left" or source is None:
                continue
            given = self.nets.home[source]
            if given.role not in ("tie", "input"):
                continue
            x, y = self.placement.spots[pin.id]
            if given.role == "tie":
                made = terminals.tie(pin, pin.id, given.label)
            else:
                own = replace(given.pins[0], id=f"{pin.id}:name.")
                made = terminals.terminal_in(given.label, own, control=given.control)
            start = made.pins[0].id
            self.placement.put_at(made, start, (x - NAME, y))
            self.kinds = {**self.kinds, start: self.kinds.get(source, "")}
            self._route(start, pin.id, (x - NAME, y), (x, y))
            room = max(room, ceil(made.width) + NAME)
        return room + _STEM

    def _under(self, digit: Digit, x: float) -> None:
        """The register that takes in the sums of a digit."""
        made = compact(bare(digit.under))
        into = next(pin for pin in made.pins if pin.port == "in")
        top = _HEIGHT + _LOOP
        self.placement.put(made, (x + 2 * _STEM, top))
        end = self.placement.spots[into.id]
        self._route(f"{digit.adder.id}.sum", into.id, (x, _HEIGHT), (x, end[1]), end)
        self._names(made)

    # ------------------------------------------------------------ what goes on

    def _carries(self) -> None:
        """From adder to adder, and through the flip-flop back to the first."""
        for before, after in zip(self.digits, self.digits[1:], strict=False):
            source, target = f"{before.adder.id}.carry-out", f"{after.adder.id}.carry-in"
            spots = self.placement.spots
            self._route(source, target, spots[source], spots[target])
        store = self.nets.store
        assert store is not None
        first, last = self.digits[0].adder, self.digits[-1].adder
        pins = []
        others = [pin for pin in store.pins if pin.port not in ("d", "q")]
        made = bare(store)
        level = made.cells[1] + made.cell.height / 2
        width = made.width
        for pin in store.pins:
            if pin.port == "d":
                pins.append(pin.put("right", level, pin.label))
            elif pin.port == "q":
                pins.append(pin.put("left", level, "q"))
        pins += [replace(pin, note="", stub=0.0).put("left", pin.at, pin.label) for pin in others]
        again = Pin(f"{store.id}.q!", "q", store.word)
        shown = [e for e in self.nets.targets[f"{store.id}.q"] if self._shows(e)]
        made = compact(replace(made, pins=tuple(pins)))
        if shown:
            pins = [*made.pins, again.put("right", _SHOWN, "q")]
            made = replace(made, pins=tuple(pins))
        target = f"{first.id}.carry-in"
        x, y = self.placement.spots[target]
        room = self._needed(others)
        self.placement.put(made, (x + room, y - level))
        self._names(made)
        spots = self.placement.spots
        self._route(f"{store.id}.q", target, spots[f"{store.id}.q"], (x, y))
        source = f"{last.id}.carry-out"
        start, end = spots[source], spots[f"{store.id}.d"]
        low = self.placement.corners[store.id][1] + made.height
        track = max(_HEIGHT, low) + _STEM - 4
        left, right = start[0] - _STEM, x + room + width + _STEM
        way = (start, (left, start[1]), (left, track), (right, track), (right, end[1]), end)
        self._route(source, f"{store.id}.d", *way)
        for name in shown:
            self._out(again.id, name)

    def _needed(self, pins: list[Pin]) -> float:
        """Room left of the flip-flop for the names of its controls."""
        names = [self.nets.home[self.nets.source[pin.id]] for pin in pins]
        return max([2 * _STEM, *(ceil(name.width) + NAME + _STEM for name in names)])

    def _shows(self, end: str) -> bool:
        return self.nets.home[end].role == "output"

    def _out(self, source: str, end: str) -> None:
        x, y = self.placement.spots[source]
        made = replace(self.nets.home[end], seed=None, hangs_on=None)
        self.placement.put_at(made, end, (x + 2 * _STEM, y))
        self._route(source, end, (x, y), (x + 2 * _STEM, y))

    def _outputs(self) -> None:
        """The words of the registers under the adders, each with the name of its bits."""
        for digit in self.digits:
            register = digit.under
            ends = [e for e in self.nets.targets.get(f"{register.id}.q", ()) if self._shows(e)]
            if not ends:
                continue
            names = [name for _, name in sorted(self._shown(register, ends))]
            kept = next(e for e in self.placement.elements if e.id == register.id)
            x, y = self.placement.corners[register.id]
            at = kept.cells[1] + kept.cell.height / 2
            q = Pin(f"{register.id}.q", "q", register.word)
            i = self.placement.elements.index(kept)
            pins = (*kept.pins, q.put("right", at))
            self.placement.elements[i] = replace(kept, pins=pins)
            spot = self.placement.spots[q.id] = x + kept.width, y + at
            pin = Pin(f"{register.id}.q:out", joined(names), register.word)
            made = terminals.terminal_out(pin.id, joined(names), (pin,), ())
            self.placement.put_at(made, pin.id, (spot[0] + 2 * _STEM, spot[1]))
            self._route(q.id, pin.id, spot, (spot[0] + 2 * _STEM, spot[1]))
            if len(register.word) > 1:
                self.marks.append(Mark(spot[0] + _STEM, spot[1], str(len(register.word)), "across"))
            self.done |= {*ends}

    def _shown(self, register: Element, ends: list[str]) -> Iterator[tuple[int, str]]:
        """Which bits of an output a register shows: its place in the register, its name."""
        for end in ends:
            element = self.nets.home[end]
            pin = next(pin for pin in element.pins if pin.id == end)
            low = _place(pin) if pin.which else 0
            many = len(element.word or pin.nets) > 1 or bool(pin.which)
            for i, net in enumerate(pin.nets):
                name = f"{element.label}({low + i})" if many else element.label
                yield register.word.index(net), name


def _place(pin: Pin) -> int:
    """The lowest bit that a pin is of its port."""
    return int(pin.which.strip("()").rpartition("..")[2] or 0)
