"""Circuit text: from its YAML tree to a circuit, once the parameters have numbers.

The circuit's own entries are ``circuit``, ``inputs``, ``nets``, ``join``, ``parts`` and
``outputs``; the rest of a text (parameters, operands, procedure, purpose) is read by
`edgewise.blueprint`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Final, TypeAlias

from edgewise.arithmetic import FUNCTIONS
from edgewise.circuit import parts
from edgewise.circuit.builder import Builder, as_kind, wires
from edgewise.circuit.declared_code import declared_code
from edgewise.circuit.family import Allowance, members, number_in, targets
from edgewise.circuit.model import CLOCK, Circuit, Kind, Signal
from edgewise.circuit.signals import Consequence, Piece, Signals
from edgewise.errors import (
    CircuitError,
    EdgewiseError,
    Message,
    Omitted,
    Place,
    Problems,
    TextError,
    raise_all,
)
from edgewise.formula import (
    RESERVED,
    Node,
    Target,
    Unknown,
    names_in,
    parse,
)
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, mapping, scalar

SubCircuit: TypeAlias = Callable[[Mapping[str, int]], Circuit]
"""A circuit used as a part, before its parameters have numbers."""
MadeFrom: TypeAlias = tuple[str, tuple[tuple[str, int], ...]]
"""The name of a circuit used as a part, and its parameters' numbers."""
Find: TypeAlias = Callable[[str, Place], "FoundCircuit | None"]
"""Looks up a circuit used as a part by the name in the text; None: it is none."""

MOST_PARTS: Final = 20_000
"""Parts in one circuit, at most."""
MOST_CONNECTED: Final = 1_000_000
"""Bits connected to all parts of one circuit, at most."""
MOST_BITS: Final = 200_000
"""Bits of all nets of one circuit, at most."""


@dataclass(frozen=True, slots=True)
class FoundCircuit:
    """A circuit that a text uses as a part: its parameters, and how to build it."""

    name: str
    parameters: tuple[str, ...]
    build: SubCircuit


@dataclass(frozen=True, slots=True)
class Entry:
    """What stands in the text about a part, or about all members of a family of parts."""

    type_name: str
    found: FoundCircuit | None
    settings: tuple[tuple[Scalar, Tree, tuple[str, ...]], ...]
    """Key, value, and the words that it can be besides numbers."""
    ports: Mapping[str, Tree]
    place: Place
    places: Mapping[str, Place]
    look: str = ""


@dataclass
class Reading:
    """One circuit being read: what is declared, and all errors so far."""

    text: Keys
    values: Mapping[str, int]
    find: Find
    allowance: Allowance = field(default_factory=Allowance)
    """What the whole text may still make."""
    builder: Builder = field(init=False)
    names: Signals = field(default_factory=Signals)
    errors: list[EdgewiseError] = field(default_factory=list)
    connected: int = 0
    """Bits connected to parts so far."""
    bits: int = 0
    """Bits declared so far."""
    found: dict[str, FoundCircuit | None] = field(default_factory=dict)
    built: dict[MadeFrom, Circuit] = field(default_factory=dict)
    kinds: dict[tuple[MadeFrom, bool], Kind] = field(default_factory=dict)
    """Of circuits used as parts, without and with a clock port."""

    def __post_init__(self) -> None:
        title = self.text.get("circuit")
        name = scalar(title, "circuit").text if title else "circuit"
        self.builder = Builder(name, self.text.place)

    @contextmanager
    def noting(self, place: Place | None = None) -> Iterator[None]:
        """Collect an error instead of stopping at it."""
        try:
            yield
        except EdgewiseError as wrong:
            self.note(wrong, place)

    def note(self, wrong: EdgewiseError, place: Place | None) -> None:
        """Collect an error, which is at `place` unless it says otherwise."""
        if isinstance(wrong, Consequence):
            return
        for single in wrong.parts():
            if not isinstance(single, Omitted):
                single.place = single.place or place
            self.errors.append(single)

    @contextmanager
    def declaring(self, key: Scalar) -> Iterator[None]:
        """Note an error in a declaration, and that its name has no meaning now."""
        before = len(self.errors)
        with self.noting(key.place):
            yield
        if len(self.errors) > before:
            self.names.broken.add(key.text.split("(")[0].strip())

    def circuit(self) -> Circuit:
        """The circuit, or all that is wrong with its text."""
        for step in (self.declare, self.gather, self.place_parts, self.joins, self.outputs):
            step()
        raise_all(self.errors)
        return self.builder.circuit()

    def section(self, name: str, example: str) -> Iterator[tuple[Scalar, Tree]]:
        """Keys and values of one entry of the text; nothing if it is absent or malformed."""
        tree = self.text.get(name)
        if tree is None:
            return
        with self.noting():
            yield from mapping(tree, name, example).pairs

    # ------------------------------------------------------------------ the five passes

    def declare(self) -> None:
        """Inputs, nets, and outputs given by a width."""
        for entry, declare in (("inputs", self.builder.input), ("nets", self.builder.net)):
            for key, value in self.section(entry, "{a: n, shift: 1}"):
                with self.declaring(key):
                    for name, values in members(key, self.values):
                        self._declare(
                            name, number_in(value, values, Message("width-of", name=name)), key
                        )
                        declare(name, self.names.widths[name], key.place)
        for key, value in self.section("outputs", "{sum: S, carry: C.q}"):
            with self.declaring(key):
                target: Target = parse(key.text, "target", key.place)
                if target.family or target.name.steps or target.name.base in RESERVED:
                    raise TextError(
                        Message("output-name-unfit", found=key.text, base=target.name.base),
                        key.place,
                    )
                self._refuse_parameter(key.text, key.place)
                width = self._width_only(declared_code(value)[0])
                if width is not None:
                    self._declare(key.text, width, key)
                    self.builder.net(key.text, width, key.place)

    def _declare(self, name: str, width: int, key: Scalar) -> None:
        if not 1 <= width <= parts.MOST_INPUTS:
            raise CircuitError(
                Message("net-width", name=name, width=width, most=parts.MOST_INPUTS),
                key.place,
            )
        if name == CLOCK:
            raise CircuitError(Message("clock-declared"), key.place)
        self._refuse_parameter(name, key.place)
        self._count(width, key.place)
        self.names.widths[name] = width

    def _refuse_parameter(self, name: str, place: Place) -> None:
        if name in self.values:
            raise TextError(Message("name-parameter", name=name), place)

    def _count(self, bits: int, place: Place) -> None:
        self.bits += bits
        if self.bits > MOST_BITS:
            raise CircuitError(Message("bits-many", most=MOST_BITS), place)
        self.allowance.take(bits=bits, place=place)

    def _width_only(self, tree: Tree) -> int | None:
        """The width, if an output is declared by one: a formula of numbers only."""
        if not isinstance(tree, Scalar):
            return None
        formula: Node = parse(tree.text, place=tree.place)
        if isinstance(formula, Unknown) or not all(
            name.base in self.values or (name.base in FUNCTIONS and name.steps)
            for name in names_in(formula)
        ):
            return None
        return number_in(tree, self.values, "width")

    def gather(self) -> None:
        """Every part with its settings, ports and output widths."""
        for key, value in self.section("parts", "{C: {part: flip-flop, d: x}}"):
            with self.declaring(key):
                body = mapping(value, f"part {key.text}", "{part: flip-flop, d: x}")
                entry: Entry | None = None
                for name, values in members(key, self.values):
                    if name in self.names.pieces:
                        first = self.names.pieces[name].place.line
                        raise TextError(
                            Message("part-twice", name=name, first=first),
                            key.place,
                        )
                    self._refuse_parameter(name, key.place)
                    self.allowance.take(parts=1, place=key.place)
                    entry = entry or self._entry(name, body, key.place)
                    self.names.pieces[name] = self._piece(name, entry, values)
                    if len(self.names.pieces) > MOST_PARTS:
                        raise TextError(Message("parts-many", most=MOST_PARTS), key.place)

    def _entry(self, name: str, body: Keys, place: Place) -> Entry:
        """What all members of a family have in common; `name` is the first of them."""
        named = body.get("part")
        if named is None:
            raise TextError(Message("part-kind-missing", name=name), place)
        type_text = scalar(named, f"part {name}")
        if type_text.text not in self.found:
            with _in_part(name, type_text.place):
                self.found[type_text.text] = self.find(type_text.text, type_text.place)
        found = self.found[type_text.text]
        with _in_part(name, type_text.place):
            words = {} if found else _words(type_text.text)
        own = found.parameters if found else tuple(words)
        look = body.get("look")
        entries = [(key, value) for key, value in body.pairs if key.text not in ("part", "look")]
        return Entry(
            type_text.text,
            found,
            tuple((k, value, words.get(k.text, ())) for k, value in entries if k.text in own),
            {key.text: value for key, value in entries if key.text not in own},
            place,
            {key.text: value.place for key, value in body.pairs},
            scalar(look, f"look of part {name}").text if look else "",
        )

    def _piece(self, name: str, entry: Entry, values: Mapping[str, int]) -> Piece:
        with _in_part(name, entry.place, entry.places):
            settings = {
                key.text: _setting(key, value, values, words)
                for key, value, words in entry.settings
            }
            piece = Piece(
                name, values, entry.type_name, settings, entry.ports, {}, entry.place, entry.places
            )
            piece.look = entry.look
            if entry.found:
                self._use_circuit(piece, entry.found)
            else:
                piece.outputs = parts.output_widths(entry.type_name, settings, entry.ports)
                piece.word = parts.part_type(entry.type_name).word
        self._count(sum(piece.outputs.values()), entry.place)
        return piece

    def _use_circuit(self, piece: Piece, found: FoundCircuit) -> None:
        numbers = {name: int(value) for name, value in piece.settings.items()}
        made_from = (found.name, tuple(numbers.items()))
        if made_from not in self.built:
            self.built[made_from] = found.build(numbers)
        clocked = CLOCK in piece.ports
        if (made_from, clocked) not in self.kinds:
            self.kinds[made_from, clocked] = as_kind(
                self.built[made_from], piece.settings, name=found.name, clocked=clocked
            )
        piece.kind = self.kinds[made_from, clocked]
        piece.outputs = {port.name: port.width for port in piece.kind.outs}
        piece.word = piece.kind.word
        parts.refuse_unknown_ports(found.name, piece.kind.ports, piece.ports, found.parameters)

    def place_parts(self) -> None:
        """Connect each part and add it; what is wrong with a whole family is told of one member."""
        at_fault: set[Place | tuple[Place, str]] = set()
        for piece in self.names.pieces.values():
            if piece.place in at_fault:
                continue  # what is wrong with one member of a family is told once
            signals: dict[str, Signal] = {}
            for port, tree in piece.ports.items():
                if (piece.place, port) in at_fault:
                    continue
                try:
                    signals[port] = self.names.signal(tree, piece.values)
                except EdgewiseError as wrong:
                    self.note(wrong, piece.places[port])
                    at_fault.add((piece.place, port))
            if len(signals) < len(piece.ports):
                continue
            self.connected += sum(map(len, signals.values()))
            if self.connected > MOST_CONNECTED:
                self.note(CircuitError(Message("bits-connected", most=MOST_CONNECTED)), piece.place)
                return
            before = len(self.errors)
            with self.noting(piece.place):
                self.builder.part(
                    piece.name,
                    piece.kind or piece.type_name,
                    signals,
                    piece.settings,
                    piece.place,
                    piece.places,
                    piece.look,
                )
            if len(self.errors) > before:
                at_fault.add(piece.place)

    def joins(self) -> None:
        """``join``: a net fed straight from another."""
        for key, value in self.section("join", "{c(0): carry_in}"):
            with self.noting(key.place):
                for name, values in targets(key, self.values):
                    target = self.names.signal(Scalar(name, key.place), values)
                    self._count(len(target), key.place)
                    self.builder.join(target, self.names.signal(value, values), key.place)

    def outputs(self) -> None:
        """The circuit's outputs."""
        for key, value in self.section("outputs", "{sum: S, carry: C.q}"):
            with self.noting(value.place):
                if key.text.partition("(")[0].strip() in self.names.broken:
                    continue
                shown, code = declared_code(value)
                if self._width_only(shown) is not None:
                    signal = wires(key.text, self.names.widths.get(key.text, 0))
                else:
                    signal = self.names.signal(shown, self.values)
                if signal:
                    code.numbers(len(signal))  # refuses widths that it has no words of
                self.builder.output(key.text, signal, key.place, code)


def _words(type_name: str) -> dict[str, tuple[str, ...]]:
    """The settings of a part type, each with the words that it can be besides numbers."""
    return {setting.name: setting.choices for setting in parts.part_type(type_name).settings}


def _setting(
    key: Scalar, value: Tree, values: Mapping[str, int], words: tuple[str, ...]
) -> int | str:
    text = scalar(value, key.text)
    if words and text.text.isalpha() and text.text not in values:
        return text.text
    return number_in(value, values, key.text)


@contextmanager
def _in_part(name: str, place: Place, places: Mapping[str, Place] | None = None) -> Iterator[None]:
    """Say in which part an error is, and where, unless it has its place already."""
    try:
        yield
    except Problems:
        raise
    except EdgewiseError as wrong:
        if wrong.place is not None:
            raise
        at = wrong.at if isinstance(wrong, parts.PartFault) else None
        where = (places or {}).get(at or "", place)
        raise CircuitError(Message("in-part", part=name, told=wrong.told), where) from None


def circuit(
    text: Keys, values: Mapping[str, int], find: Find, allowance: Allowance | None = None
) -> Circuit:
    """The circuit that a text describes, for given parameters.

    Parameters
    ----------
    text : yamltext.Mapping
        A whole circuit text; entries that are not the circuit's own are passed over.
    values : mapping of str to int
        The parameters' numbers.
    find : function
        Looks up circuits used as parts.
    allowance : Allowance, optional
        What the whole text may still make.

    Raises
    ------
    EdgewiseError or Problems
        All that is wrong, each with its place.
    """
    return Reading(text, values, find, allowance or Allowance()).circuit()
