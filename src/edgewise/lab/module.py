"""From a design to modules: one for each kind of circuit that it is made of, the innermost first.

Gates, multiplexers, constants and words that are stored are statements of the module that they
stand in; adders and circuits used as parts are modules of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from edgewise.circuit import parts
from edgewise.circuit.model import CLOCK, Adds, Circuit, Kind, Part, Tie, Wire
from edgewise.circuit.model import Signal as Wires
from edgewise.circuit.truth import Truth
from edgewise.lab.description import (
    Assign,
    Bits,
    Connection,
    Constant,
    Group,
    Instance,
    Module,
    Operation,
    Operator,
    Port,
    Signal,
    Statement,
    Store,
    Term,
)
from edgewise.lab.family import folded
from edgewise.lab.identifier import Identifiers, identifier
from edgewise.lab.naming import DIGITS, Naming, member
from edgewise.lab.storage import Stored, Word, stored


@dataclass
class Library:
    """The modules made so far.

    Parameters
    ----------
    language : str
        For messages.
    folds_case : bool
        Whether the language takes ``A`` and ``a`` for the same name.
    """

    language: str
    folds_case: bool
    modules: list[Module] = field(default_factory=list)
    bench: str = ""
    """What the bench of the outermost module is called."""
    random: str = ""
    """What its bench of random inputs is called."""
    _names: Identifiers = field(init=False)
    _made: list[tuple[Kind, Module]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._names = self.scope()

    def scope(self) -> Identifiers:
        """No names yet."""
        return Identifiers(self.language, folds_case=self.folds_case)

    def top(self, name: str, circuit: Circuit, about: Sequence[str]) -> Module:
        """The module of a whole circuit; those that it needs come before it."""
        found = self._named(name, circuit)
        self.bench = self._names.inner(f"{found}_bench")
        self.random = self._names.inner(f"{found}_random")
        made = self._module(found, circuit, None, about)
        self.modules.append(made)
        return made

    def _named(self, name: str, circuit: Circuit | None) -> str:
        """A name for a module, other than those of its ports."""
        hidden: list[str] = []
        if circuit is not None:
            hidden += [identifier(net.name) for net in circuit.inputs]
            hidden += [identifier(output.name) for output in circuit.outputs]
        return self._names.inner(name, f"{name}_circuit", hidden=hidden)

    def of(self, kind: Kind) -> Module:
        """The module of a kind of part."""
        for known, module in self._made:
            if known is kind or known == kind:
                return module
        name = self._named(kind.name, kind.inside)
        told = ", ".join(f"{key} = {value}" for key, value in kind.settings)
        about = parts.noun(kind.name) + (f", made for {told}" if told else "")
        if kind.adds is not None:
            module = _adder(name, kind, kind.adds, self.scope(), about)
        else:
            assert kind.inside is not None, kind.name
            module = self._module(name, kind.inside, kind, (about,))
        self._made.append((kind, module))
        self.modules.append(module)
        return module

    def _module(
        self, name: str, circuit: Circuit, kind: Kind | None, about: Sequence[str]
    ) -> Module:
        words = {part.name: word for part in circuit.parts if (word := stored(part)) is not None}
        names = self.scope()
        names.hide(name)
        naming = Naming(circuit, kind, words, names, clocked=clocked(circuit))
        groups = folded(tuple(_Reading(circuit, naming, self).groups()), names.inner)
        return Module(name, tuple(about), naming.ports, tuple(naming.signals), groups)


def clocked(circuit: Circuit) -> bool:
    """Whether a circuit needs the clock."""
    return any(
        part.kind.inside is None and part.kind.role == "storage" for part in circuit.parts
    ) or (
        any(kind.inside is not None and clocked(kind.inside) for kind in circuit.kinds)
        or any(bit == Wire(CLOCK) for bit in _read(circuit))
    )


def _read(circuit: Circuit) -> Iterator[object]:
    for part in circuit.parts:
        for connection in part.connections:
            yield from connection.signal
    for join in circuit.joins:
        yield from join.source
    for output in circuit.outputs:
        yield from output.signal


@dataclass
class _Reading:
    """One circuit being told."""

    circuit: Circuit
    naming: Naming
    library: Library

    def groups(self) -> Iterator[Group]:
        """What every part says, then the joins and the outputs."""
        for part in self.circuit.parts:
            base, index = member(part.name)
            statements = tuple(self._part(part))
            label = "" if not statements else base
            note = self._note(part)
            yield Group(base, index, label, statements, note)
        for join in self.circuit.joins:
            yield Group("", None, "", tuple(self._assign(join.target, self.term, join.source)))
        for output in self.circuit.outputs:
            port = self.naming.port_of(output.name)
            if self.term(output.signal) != port:
                source = self.term(output.signal)
                yield Group("", None, "", (Assign(port, source),))

    def _note(self, part: Part) -> str:
        return (
            f"{part.name}: {parts.noun(part.kind.name)}" if part.name in self.naming.stored else ""
        )

    # ------------------------------------------------------------------ terms

    def term(self, wires: Wires) -> Term:
        """Some bits as one term."""
        pieces = self.naming.pieces(wires)
        return pieces[0] if len(pieces) == 1 else Operation("join", pieces, len(wires))

    def _assign(
        self, target: Wires, source: Callable[[Wires], Term], wires: Wires
    ) -> Iterator[Assign]:
        """Each piece of a target from the same places of `wires`."""
        high = len(target)
        for piece in self.naming.pieces(target):
            assert isinstance(piece, Bits)
            low = high - piece.width
            if (found := source(wires[low:high])) != piece:
                yield Assign(piece, found)
            high = low

    # ------------------------------------------------------------------ parts

    def _part(self, part: Part) -> Iterator[Statement]:
        kind = part.kind
        word = self.naming.stored.get(part.name)
        if word is not None:
            yield from self._storage(part, word)
        elif kind.role == "constant":
            value, width = kind.setting("value"), kind.outs[0].width
            bits = "x" * width if value == "X" else f"{int(value or 0):0{width}b}"
            wires = tuple(Tie(DIGITS.index(bit)) for bit in reversed(bits))
            yield from self._assign(part.signal(kind.outs[0].name), self.term, wires)
        elif kind.function is not None:
            (out,) = kind.outs
            yield from self._assign(part.signal(out.name), lambda _: self._gate(part), ())
        elif _chooses(kind):
            yield from self._choice(part)
        else:
            yield self._instance(part)

    def _gate(self, part: Part) -> Term:
        function = part.kind.function
        assert function is not None
        if len(function.reads) == 1:
            at = {function.reads[0]: self.naming.pieces(part.signal(function.reads[0]))}
        else:
            at = {port: self.naming.pieces(part.signal(port)) for port in function.reads}
        return _computed(function.truth, at)

    def _choice(self, part: Part) -> Iterator[Assign]:
        """A multiplexer: the data inputs in pairs, chosen by the bits of ``select``, LSB first."""
        data = [part.signal(port.name) for port in part.kind.ins if port.role == "data"]
        (select,) = (part.signal(port.name) for port in part.kind.ins if port.role == "select")
        out = part.signal(part.kind.outs[0].name)
        high = len(out)
        for piece in self.naming.pieces(out):
            assert isinstance(piece, Bits)
            low = high - piece.width
            layer = [self.term(wires[low:high]) for wires in data]
            for bit in select:
                layer = [
                    Operation("choose", (self.term((bit,)), zero, one), piece.width)
                    for zero, one in zip(layer[::2], layer[1::2], strict=True)
                ]
            yield Assign(piece, layer[0])
            high = low

    def _storage(self, part: Part, what: Stored) -> Iterator[Statement]:
        net = f"{part.name}.{what.port}"
        own = tuple(Wire(net, i) for i in range(what.width))
        bits = self.term(own)
        assert isinstance(bits, Bits)
        ports = {port.name: self.term(part.signal(port.name)) for port in part.kind.ins}
        word = Word(what, bits, ports)
        clock = word.at("clock") or Bits(CLOCK)
        assert isinstance(clock, Bits)
        yield Store(bits, clock, word.ways())
        for port in part.kind.outs:
            signal = part.signal(port.name)
            if port.name == what.port:
                if signal != own:
                    yield from self._assign(signal, self.term, own)
            elif port.name in what.shown:
                shown = tuple(own[i] for i in what.shown[port.name])
                yield from self._assign(signal, self.term, shown)
            elif signal:
                (target,) = self.naming.pieces(signal)
                assert isinstance(target, Bits)
                yield Assign(target, word.terminal())

    def _instance(self, part: Part) -> Instance:
        module = self.library.of(part.kind)
        known = {(port.signal.known_as or port.signal.name): port for port in module.ports}
        connections = [
            Connection(known[port.name].signal.name, self.naming.pieces(part.signal(port.name)))
            for port in part.kind.ports
            if port.name in known and part.signal(port.name)
        ]
        if CLOCK in known and part.kind.port(CLOCK) is None:
            connections.insert(0, Connection(CLOCK, (Bits(CLOCK),)))
        return Instance(module.name, self.naming.names.inner(part.name), tuple(connections))


def _chooses(kind: Kind) -> bool:
    """Whether a part passes the data input on whose number stands at its select port."""
    known = kind.role == "selector" and parts.part_type(kind.name).function
    selects = [port for port in kind.ins if port.role == "select"]
    data = [port for port in kind.ins if port.role == "data"]
    return bool(
        known
        and known.operation == "choose"
        and len(selects) == len(kind.outs) == 1
        and len(data) == 1 << selects[0].width
    )


_MANY: tuple[Operator, ...] = ("and", "or", "xor")


def _computed(truth: Truth, at: dict[str, tuple[Bits | Constant, ...]]) -> Term:
    """A truth as a term, given what is at each port that it reads."""
    if isinstance(truth, int):
        return Constant(str(truth))
    if isinstance(truth, str):
        (one,) = at[truth]
        return one
    operation, *of = truth
    if operation not in _MANY:
        return Operation(operation, tuple(_computed(one, at) for one in of))
    terms: list[Term] = []
    for one in of:
        terms += at[one] if isinstance(one, str) else (_computed(one, at),)
    if len(terms) == 1 and terms[0].width == 1:
        return terms[0]
    return Operation(operation, tuple(terms))


def _adder(name: str, kind: Kind, adds: Adds, names: Identifiers, about: str) -> Module:
    """The module of a half adder or a full adder: what its bits are, as in a truth table.

    The carry is the sum of all its prime implicants: known where the known bits decide it.
    """
    ports = {port.name: Signal(names.port(port.name)) for port in kind.ports}
    for port in kind.ports:
        if ports[port.name].name != port.name:
            ports[port.name] = Signal(ports[port.name].name, known_as=port.name)
    bits = [Bits(ports[port].name) for port in adds.inputs]
    carry: Term = Operation("and", tuple(bits[:2]))
    if len(bits) > 2:
        either = Operation("and", (bits[2], Operation("or", tuple(bits[:2]))))
        carry = Operation("or", (carry, either))
    statements = (
        Assign(Bits(ports[adds.sum].name), Operation("xor", tuple(bits))),
        Assign(Bits(ports[adds.carry].name), carry),
    )
    return Module(
        name,
        (about,),
        tuple(Port(ports[port.name], port.direction) for port in kind.ports),
        (),
        (Group("", None, "", statements),),
    )
