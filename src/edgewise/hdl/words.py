"""Registers, shift registers and counters, found again among cells that store."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewise.errors import Place
from edgewise.hdl.clocking import STORING, Clocking
from edgewise.hdl.element import Element, Nets
from edgewise.hdl.netlist import Bit, Bits, Cell, Module

PASSING: Final = re.compile(r"n\d+_[oq]|_\d+_|\$.*")
"""Names that the reader of VHDL gives what has none."""


@dataclass(frozen=True)
class _Stored:
    """One bit that is stored; controls as nets with the level at which they act."""

    q: Bit
    d: Bit
    gate: Bit | None
    enable: tuple[Bit, int] | None
    reset: tuple[Bit, int] | None
    value: str
    start: str
    cell: Cell

    @property
    def control(self) -> tuple[object, ...]:
        """What bits of a word have in common."""
        return self.gate, self.enable, self.reset


class Words:
    """The words of a module.

    Parameters
    ----------
    module : Module
    clocking : Clocking
    nets : Nets
    elements : sequence of Element
        All that stores nothing.
    """

    def __init__(
        self, module: Module, clocking: Clocking, nets: Nets, elements: Sequence[Element]
    ) -> None:
        self.module, self.clocking, self.nets = module, clocking, nets
        self.drivers = {bit: one for one in elements for bit in one.drives}
        self.sums = {
            bit: (cell, i)
            for cell in module.cells
            if cell.kind == "add"
            for i, bit in enumerate(cell.ports["Y"])
        }
        self.added: list[Element] = []
        self._inverters: dict[Bit, Bit] = {}

    def elements(self) -> Iterator[Element]:
        """What stores, and the gates that its controls need."""
        bits = {one.q: one for one in self._bits()}
        for word in self._grouped(bits):
            yield self._element([bits[bit] for bit in word])
        yield from self.added

    def _bits(self) -> Iterator[_Stored]:
        for cell in self.module.cells:
            if cell.kind not in STORING:
                continue
            ports = cell.ports
            enable = reset = None
            if "EN" in ports:
                enable = (self.nets.of(ports["EN"][0]), cell.number("EN_POLARITY"))
            if "SRST" in ports:
                reset = (self.nets.of(ports["SRST"][0]), cell.number("SRST_POLARITY"))
            clock = ports["CLK"][0]
            gate = clock if clock in self.clocking.gates else None
            values = cell.settings.get("SRST_VALUE", "")[::-1] or "0" * len(ports["Q"])
            for q, d, value in zip(ports["Q"], ports["D"], values, strict=True):
                start = self.module.initial.get(q, "X").upper()
                yield _Stored(q, self.nets.of(d), gate, enable, reset, value, start, cell)

    def _grouped(self, bits: Mapping[Bit, _Stored]) -> Iterator[Bits]:
        """The words: by the names of nets, else by cells."""
        left = dict(bits)
        for _, named in sorted(self._named(bits), key=lambda found: found[0]):
            if all(bit in left for bit in named):
                yield named
                for bit in named:
                    del left[bit]
        for cell in {id(one.cell): one.cell for one in left.values()}.values():
            word = tuple(bit for bit in cell.ports["Q"] if bit in left)
            if word:
                yield word

    def _named(
        self, bits: Mapping[Bit, _Stored]
    ) -> Iterator[tuple[tuple[bool, int, bool, int, str], Bits]]:
        """Nets of which all bits are stored alike; the likelier a word of its own, the earlier."""
        ports = {*self.module.inputs, *self.module.outputs}
        for name, word in self.module.nets.items():
            if len(set(word)) != len(word) or not all(bit in bits for bit in word):
                continue
            if len({bits[bit].control for bit in word}) > 1 or len(word) > 64:
                continue
            cells = {id(bits[bit].cell): bits[bit].cell for bit in word}.values()
            cuts = sum(len(cell.ports["Q"]) for cell in cells) != len(word)
            passing = PASSING.fullmatch(name.rpartition(".")[2]) is not None
            rank = (cuts, len(cells), passing or name in ports, name.count("."), name)
            yield rank, word

    # ------------------------------------------------------------ one word

    def _element(self, word: list[_Stored]) -> Element:
        first = word[0]
        q, d = tuple(one.q for one in word), tuple(one.d for one in word)
        place: Place | None = first.cell.place
        controls: dict[str, Bits] = {}
        enable = None if first.enable is None else self._positive(*first.enable)
        if first.reset is not None:
            reset = self._positive(*first.reset)
            if first.cell.kind == "sdffce" and enable is not None:
                reset = self._gate("and", (reset, enable), place)
            if all(one.value != "1" for one in word):
                controls["clear"] = (reset,)
            else:
                d, enable = self._set(word, d, reset, enable, place)
        if first.gate is not None:
            controls["clock"] = (first.gate,)
        start = self._start(word)
        made = self._stepping(q, d, enable, place)
        if made is None:
            ins = {"d": d} | ({} if enable is None else {"enable": (enable,)})
            part = "register" if len(q) > 1 else "flip-flop"
            made = Element(part, ins, {"q": q}, {"width": len(q)} if len(q) > 1 else {})
        settings = {**made.settings, **({} if start == 0 else {"start": start})}
        return replace(made, ins={**made.ins, **controls}, settings=settings, place=place)

    def _set(
        self, word: list[_Stored], d: Bits, reset: Bit, enable: Bit | None, place: Place | None
    ) -> tuple[Bits, Bit | None]:
        """What is stored and when, for a reset to a value that has a 1 in it."""
        values = tuple("1" if one.value == "1" else "0" for one in word)
        out = self.nets.new(len(d))
        ins: dict[str, Bits] = {"d0": d, "d1": values, "select": (reset,)}
        settings = {"width": len(d)} if len(d) > 1 else {}
        self.added.append(Element("multiplexer", ins, {"out": out}, settings, place))
        return out, None if enable is None else self._gate("or", (enable, reset), place)

    @staticmethod
    def _start(word: list[_Stored]) -> int | str:
        """The value at the start; X if one of its bits is."""
        if any(one.start == "X" for one in word):
            return "X"
        return int("".join(one.start for one in reversed(word)), 2)

    def _stepping(
        self, q: Bits, d: Bits, enable: Bit | None, place: Place | None
    ) -> Element | None:
        """A shift register or a counter, perhaps with a load."""
        if len(q) < 2:
            return None
        d = self._while(d, enable)
        if (made := self._step(q, d)) is not None:
            steers = {} if enable is None else {"enable": (enable,)}
            return replace(made, ins={**made.ins, **steers})
        chosen = self._chosen(d)
        if chosen is None:
            return None
        select, when_0, when_1 = chosen
        for moves, data, level in ((when_0, when_1, 1), (when_1, when_0, 0)):
            load = self._positive(select, level)
            other = None if enable is None else self._besides(enable, load)
            made = self._step(q, self._while(moves, other))
            if made is not None:
                ins = {**made.ins, "d": data}
                if enable is not None:
                    if other is None:
                        load = self._gate("and", (load, enable), place)
                    ins["enable"] = (enable if other is None else other,)
                return replace(made, ins={**ins, "load": (load,)})
        return None

    def _while(self, d: Bits, enable: Bit | None) -> Bits:
        """What a word is while `enable` is 1, if it is left open otherwise: X."""
        chosen = self._chosen(d)
        if enable is not None and chosen and chosen[0] == enable and set(chosen[1]) == {"x"}:
            return chosen[2]
        return d

    def _step(self, q: Bits, d: Bits) -> Element | None:
        """A shift register or a counter without controls."""
        width = len(q)
        if d[:-1] == q[1:]:
            settings: dict[str, int | str] = {"width": width}
            return Element("shift-register", {"in": d[-1:]}, {"q": q}, settings)
        if d[1:] == q[:-1]:
            settings = {"width": width, "direction": "left"}
            return Element("shift-register", {"in": d[:1]}, {"q": q}, settings)
        found = [self.sums.get(bit) for bit in d]
        if all(one is not None and one[0] is found[0][0] for one in found):  # type: ignore[index]
            cell, places = found[0][0], [one[1] for one in found if one]  # type: ignore[index]
            words = [self.nets.all_of(cell.ports[port]) for port in ("A", "B")]
            one = ("1", *"0" * (width - 1))
            padded = [(*word, *"0" * width)[:width] for word in words]
            if places == list(range(width)) and padded in ([q, one], [one, q]):
                return Element("counter", {}, {"q": q}, {"width": width})
        return None

    def _chosen(self, d: Bits) -> tuple[Bit, Bits, Bits] | None:
        """What a multiplexer chooses between, where it gives each bit of a word."""
        select: set[Bit] = set()
        ways: list[tuple[Bit, Bit]] = []
        for bit in d:
            one = self.drivers.get(bit)
            if one is None or one.part != "multiplexer":
                return None
            at = one.outs["out"].index(bit)
            select |= set(one.ins["select"])
            ways.append((one.ins["d0"][at], one.ins["d1"][at]))
        if len(select) != 1:
            return None
        when_0, when_1 = zip(*ways, strict=True)
        return select.pop(), when_0, when_1

    def _besides(self, enable: Bit, load: Bit) -> Bit | None:
        """What enables besides the load, where an OR gate joins the two."""
        one = self.drivers.get(enable)
        if one is None or one.part != "or" or load not in one.ins["in"]:
            return None
        others = [bit for bit in one.ins["in"] if bit != load]
        return others[0] if len(others) == 1 else None

    def _positive(self, bit: Bit, level: int) -> Bit:
        """A net that is 1 where a control acts."""
        if level:
            return bit
        driver = self.drivers.get(bit)
        if driver is not None and driver.part == "not":
            return driver.ins["in"][0]
        if bit not in self._inverters:
            self._inverters[bit] = self._gate("not", (bit,), None)
        return self._inverters[bit]

    def _gate(self, part: str, bits: Bits, place: Place | None) -> Bit:
        (out,) = self.nets.new()
        self.added.append(Element(part, {"in": bits}, {"out": (out,)}, {}, place))
        return out
