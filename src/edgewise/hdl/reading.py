"""A description in a hardware description language as a circuit, and as a design to run."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.bits import X
from edgewise.circuit.builder import Bits as Given
from edgewise.circuit.builder import Builder, wires
from edgewise.circuit.model import CLOCK, Circuit, Signal, Tie, Wire
from edgewise.design import Design, Operand, Phase
from edgewise.errors import CircuitError, EdgewiseError, Message, Place
from edgewise.formula import RESERVED
from edgewise.hdl import folding
from edgewise.hdl.adders import with_adders
from edgewise.hdl.cells import UNSUPPORTED, Made
from edgewise.hdl.clocking import STORING, Clocking, Note, clocking, without_resets
from edgewise.hdl.elaboration import Remark, elaborated
from edgewise.hdl.element import Element, Nets
from edgewise.hdl.netlist import Bit, Bits, Cell, Module
from edgewise.hdl.sources import gather
from edgewise.hdl.words import PASSING, Words

EDGES: Final = 8
"""Clock edges of the procedure that a description is given, which has none."""
_STEMS: Final[Mapping[str, str]] = {
    "multiplexer": "M",
    "full-adder": "FA",
    "half-adder": "HA",
    "not": "N",
    "xor": "X",
    "xnor": "X",
    "register": "R",
    "shift-register": "R",
    "counter": "R",
    "flip-flop": "Q",
}


@dataclass(frozen=True)
class Read:
    """A description that was read.

    Parameters
    ----------
    circuit : Circuit
    clock : str
        The input that makes the edges; empty where nothing is stored.
    notes : tuple of Note
        What was understood in a way that is to be told.
    remarks : tuple of Remark
        What the text says that is worth a look.
    module : Module
        What it was made from.
    """

    circuit: Circuit
    clock: str
    notes: tuple[Note, ...]
    remarks: tuple[Remark, ...]
    module: Module

    def design(self, name: str) -> Design:
        """A design to run: every input holds an operand for `EDGES` edges."""
        operands = tuple(Operand(net.name, net.width) for net in self.circuit.inputs)
        procedure = (Phase("run", EDGES, ()),) if self.clock else ()
        return Design(name, self.circuit, {}, operands, procedure)


def read(text: str, file: str, top: str = "", near: str = "") -> Read:
    """Read a description.

    Parameters
    ----------
    text : str
    file : str
        For places, for what it includes, and for the language, which its suffix tells.
    top : str
        The outermost module or entity; else the only one with ports that no other uses.
    near : str
        That one is preferred if it is called so.

    Raises
    ------
    EdgewiseError or Problems
    """
    found = elaborated(gather(text, file), top, near)
    try:
        circuit, clock, notes, seen = _circuit(found.module, file)
    except EdgewiseError as wrong:
        raise wrong.placed(Place(file)) from None
    return Read(circuit, clock, notes, (*found.remarks, *seen), found.module)


def _circuit(
    module: Module, file: str
) -> tuple[Circuit, str, tuple[Note, ...], tuple[Remark, ...]]:
    module, resets = without_resets(module)
    clock, edges = clocking(module)
    nets = Nets(bit for cell in module.cells for bits in cell.ports.values() for bit in bits)
    made = Made(nets)
    elements: list[Element] = []
    for cell in module.cells:
        if cell.kind not in STORING:
            elements += _of_cell(made, module, cell)
    elements = folding.folded(elements, nets)
    elements = [*Words(module, clock, nets, elements).elements(), *elements]
    elements = folding.folded(elements, nets)
    outputs = {name: nets.all_of(bits) for name, bits in module.outputs.items()}
    roots = [bit for bits in outputs.values() for bit in bits]
    elements = folding.live(with_adders(folding.live(elements, roots)), roots)
    named = {
        bit
        for name, bits in module.nets.items()
        if "." not in name and not PASSING.fullmatch(name)
        for bit in bits
    }
    elements = folding.joined(elements, frozenset(named), roots)
    written = _Writer(module, clock, elements, outputs, file).circuit()
    seen = {bit for one in elements for bit in one.reads}.union(roots, clock.nets)
    remarks = tuple(_remarks(module, clock, elements, seen, Place(file)))
    return written, clock.clock, (*resets, *edges), remarks


def _remarks(
    module: Module, clock: Clocking, elements: Iterable[Element], seen: set[Bit], file: Place
) -> Iterator[Remark]:
    """What the circuit tells: inputs that nothing depends on, nets undriven, gates in the clock."""
    for name, bits in module.inputs.items():
        idle = [i for i, bit in enumerate(bits) if bit not in seen]
        if idle:
            some = len(idle) < len(bits)
            told = ", ".join(f"{name}({i})" for i in idle[:8]) if some else name
            yield Remark("unused", module.places.get(name, file), told)
    driven = {bit for one in elements for bit in one.drives}.union(*module.inputs.values())
    for name in dict.fromkeys(
        module.name_of(bit).partition("(")[0]
        for bit in sorted(bit for bit in seen - driven - clock.nets if isinstance(bit, int))
    ):
        yield Remark("undriven", module.places.get(name, file), name)
    for gate in {id(one): one for one in clock.gates.values()}.values():
        yield Remark("gated", gate.place or file, clock.clock)


def _of_cell(made: Made, module: Module, cell: Cell) -> Iterator[Element]:
    if cell.kind in UNSUPPORTED:
        bits = cell.ports.get("Q") or cell.ports.get("Y") or ()
        wrong = CircuitError(Message("cell-unsupported", kind=cell.kind), cell.place)
        raise wrong.within(module.name_of(bits[0])) if bits else wrong
    for bits in cell.ports.values():
        if "z" in bits:
            raise CircuitError(Message("cell-unsupported", kind="tribuf"), cell.place)
    yield from made.of(cell)


class _Writer:
    """Writes elements down as the parts of a circuit."""

    def __init__(
        self,
        module: Module,
        clock: Clocking,
        elements: Iterable[Element],
        outputs: Mapping[str, Bits],
        file: str,
    ) -> None:
        self.module, self.clock, self.outputs, self.file = module, clock, outputs, file
        self.elements = sorted(elements, key=self._order)
        self.sizes = Counter(one.family[0] for one in self.elements if one.family)
        self.families: dict[str, str] = {}
        self.taken: set[str] = {CLOCK, *RESERVED}
        self.at: dict[Bit, Wire | Tie] = {"0": Tie(0), "1": Tie(1), "x": Tie(X), "z": Tie(X)}
        self.b = Builder(module.name.replace("_", " "), Place(file))

    @staticmethod
    def _order(one: Element) -> tuple[bool, str, int, int]:
        """What stores first; then as the text goes."""
        place = one.place
        stores = {"q"} == set(one.outs)
        line = (place.file, place.line, place.column) if place else ("~", 0, 0)
        return (not stores, line[0], line[1], 0 if one.family else line[2])

    def circuit(self) -> Circuit:
        """The circuit."""
        inputs: dict[str, Bits] = {
            name: bits for name, bits in self.module.inputs.items() if name != self.clock.clock
        }
        shown = {name: self._free(name) for name in (*inputs, *self.outputs)}
        for name, bits in inputs.items():
            signal = self.b.input(shown[name], len(bits), self.module.places.get(name))
            self.at.update(zip(bits, signal, strict=True))
        for bit in self.clock.nets:
            self.at[bit] = Wire(CLOCK)
        named = [(self._name(one), one) for one in self.elements]
        for name, one in named:
            for port, bits in one.outs.items():
                self.at.update(zip(bits, wires(f"{name}.{port}", len(bits)), strict=True))
        for name, one in named:
            ins: dict[str, Given] = {port: self._signal(bits) for port, bits in one.ins.items()}
            self.b.part(name, one.part, ins, one.settings, one.place)
        for name, bits in self.outputs.items():
            self.b.output(shown[name], self._signal(bits), self.module.places.get(name))
        return self.b.circuit()

    def _signal(self, bits: Bits) -> Signal:
        return tuple(self.at.get(bit, Tie(X)) for bit in bits)

    def _name(self, one: Element) -> str:
        """What a part is called: after the net that it drives, if that has a name."""
        if one.family and self.sizes[one.family[0]] > 1:
            key, index = one.family
            if key not in self.families:
                self.families[key] = self._free(_STEMS["full-adder"], one)
            return f"{self.families[key]}({index})"
        if "sum" in one.outs:
            own = self._instance(one)
        else:
            own = self._own_name(next(iter(one.outs.values())))
        if own is None:
            return self._numbered(_STEMS.get(one.part, "G"))
        return self._free(own, one)

    def _instance(self, one: Element) -> str | None:
        """What an adder was called as a part of the description."""
        around = [
            {name.rpartition(".")[0] for name, word in self.module.nets.items() if word == bits}
            for bits in one.outs.values()
        ]
        both = sorted(set.intersection(*around) - {""})
        return both[0] if both else None

    def _own_name(self, bits: Bits) -> str | None:
        """The name of a net that is these bits; one that is no port, if there is one."""
        ports = {*self.module.inputs, *self.module.outputs}
        names = [
            name
            for name, word in self.module.nets.items()
            if word == bits and not PASSING.fullmatch(name.rpartition(".")[2])
        ]
        names.sort(key=lambda name: (name in ports, name.count(".")))
        return names[0] if names else None

    def _numbered(self, stem: str) -> str:
        number = 1
        while f"{stem}{number}" in self.taken:
            number += 1
        self.taken.add(f"{stem}{number}")
        return f"{stem}{number}"

    def _free(self, name: str, one: Element | None = None) -> str:
        """A name that the notation allows and nothing has yet."""
        plain = re.sub(r"\W", "_", name.replace("\\", ""), flags=re.ASCII)
        plain = plain if re.match(r"[A-Za-z_]", plain) else f"n_{plain}"
        if plain in self.taken and one is not None:
            plain = f"{plain}_{'reg' if 'q' in one.outs else 'mux' if 'd1' in one.ins else 'gate'}"
        found, number = plain, 2
        while found in self.taken:
            found, number = f"{plain}_{number}", number + 1
        self.taken.add(found)
        return found
