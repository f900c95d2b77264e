"""Building a circuit in Python, part by part; the text notation builds with it too."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from functools import lru_cache

from edgewise.circuit import parts
from edgewise.circuit.model import (
    LOOKS,
    Circuit,
    Connection,
    Join,
    Kind,
    Net,
    Output,
    Part,
    Port,
    Signal,
    Tie,
    Wire,
)
from edgewise.codes import UNSIGNED, Code
from edgewise.errors import CircuitError, Message, Place
from edgewise.listing import either

Bits = Signal | Wire | Tie | int
"""What a port can be given: a signal, one wire, or a constant bit 0, 1, `bits.X`."""


def signal_of(bits: Bits) -> Signal:
    """`bits` as a signal; a plain number is one constant bit."""
    if isinstance(bits, int):
        return (Tie(bits),)
    return bits if isinstance(bits, tuple) else (bits,)


class PlacedPart:
    """A part just added: ``adder["carry-out"]`` is the signal at a port, `word` its word."""

    def __init__(self, part: Part) -> None:
        self.part = part

    def __getitem__(self, port: str) -> Signal:
        signal = self.part.signal(port)
        if not signal and self.part.kind.port(port) is None:
            raise CircuitError(
                Message("part-no-port", part=self.part.name, port=port), self.part.place
            )
        return signal

    @property
    def word(self) -> Signal:
        """What the bare name of the part stands for."""
        if self.part.kind.word is None:
            raise CircuitError(Message("part-port-unnamed", part=self.part.name), self.part.place)
        return self[self.part.kind.word]


class Builder:
    """Collects the pieces of one circuit.

    Parameters
    ----------
    name : str
        For people.
    place : Place, optional
        Where the circuit was written down.

    Examples
    --------
    A full adder and the flip-flop that keeps its carry:

    >>> b = Builder("serial sum")
    >>> x, y, c = b.input("x"), b.input("y"), b.net("c")
    >>> fa = b.part("FA", "full-adder", {"a": x, "b": y, "carry-in": c})
    >>> ff = b.part("C", "flip-flop", {"d": fa["carry-out"], "q": c})
    >>> b.output("sum", fa["sum"])
    >>> [part.name for part in b.circuit().parts]
    ['FA', 'C']
    """

    def __init__(self, name: str, place: Place | None = None) -> None:
        self.name = name
        self.place = place
        self._inputs: list[Net] = []
        self._nets: list[Net] = []
        self._parts: list[Part] = []
        self._joins: list[Join] = []
        self._outputs: list[Output] = []

    def input(self, name: str, width: int = 1, place: Place | None = None) -> Signal:
        """Declare an input; gives its bits, LSB first."""
        self._inputs.append(Net(name, width, place))
        return wires(name, width)

    def net(self, name: str, width: int = 1, place: Place | None = None) -> Signal:
        """Declare a net, to be driven by a part's output or a join."""
        self._nets.append(Net(name, width, place))
        return wires(name, width)

    def join(self, target: Bits, source: Bits, place: Place | None = None) -> None:
        """Feed `target` straight from `source`."""
        to, from_ = signal_of(target), signal_of(source)
        if len(to) != len(from_):
            raise CircuitError(
                Message(
                    "join-widths",
                    to=self._shown(to),
                    to_width=len(to),
                    source=self._shown(from_),
                    source_width=len(from_),
                ),
                place,
            )
        self._joins.append(Join(to, from_, place))

    def part(  # noqa: PLR0913, PLR0917  # what a part is, where it stands, how it looks
        self,
        name: str,
        kind: str | Kind,
        ports: Mapping[str, Bits],
        settings: parts.Settings | None = None,
        place: Place | None = None,
        places: Mapping[str, Place] | None = None,
        look: str = "",
    ) -> PlacedPart:
        """Add a part.

        Parameters
        ----------
        name : str
        kind : str or Kind
            Name of a part type, or a kind made beforehand (a circuit used as a part).
        ports : mapping
            For an input port its source; for an output port, if anything, the net it drives.
        settings : mapping, optional
        place, places : Place, mapping of port to Place, optional
        look : str
            How it is drawn, one of `edgewise.circuit.model.LOOKS`; if empty, as the circuit
            suggests.

        Raises
        ------
        CircuitError
            Unknown part, port, setting or look; a width that doesn't match; an input missing.
        """
        given = {port: signal_of(bits) for port, bits in ports.items()}
        where = places or {}
        if look and look not in LOOKS:
            raise CircuitError(
                Message(
                    "look-known", part=name, look=look, known=", ".join(LOOKS[:-1]), last=LOOKS[-1]
                ),
                where.get("look", place),
            )
        try:
            made = self._made(kind, settings or {}, given)
        except parts.PartFault as wrong:
            raise CircuitError(
                Message("in-part", part=name, told=wrong.told), where.get(wrong.at or "", place)
            ) from None
        except CircuitError as wrong:
            raise CircuitError(Message("in-part", part=name, told=wrong.told), place) from None
        connections = [
            Connection(
                port.name,
                given.get(port.name) or wires(f"{name}.{port.name}", port.width),
                where.get(port.name, place),
            )
            for port in made.ports
        ]
        self._parts.append(Part(name, made, tuple(connections), place, look))
        return PlacedPart(self._parts[-1])

    def _made(
        self, kind: str | Kind, settings: parts.Settings, given: Mapping[str, Signal]
    ) -> Kind:
        """The kind of a part, once what is at each port was found to fit."""
        widths = {port: len(signal) for port, signal in given.items()}
        if isinstance(kind, str):
            try:
                return parts.kind(kind, settings, widths)
            except parts.PartFault:
                # A wrong width is told with what is there, which only the circuit knows.
                self._refuse_widths(kind, parts.part_type(kind).possible(settings, widths), given)
                raise
        parts.refuse_unknown_ports(kind.name, kind.ports, given, [k for k, _ in kind.settings])
        for port in kind.ins:
            if port.name not in given:
                raise parts.PartFault(Message("port-unfed", port=port.name, kind=kind.name))
        self._refuse_widths(kind.name, kind.ports, given)
        return kind

    def _refuse_widths(self, name: str, ports: Iterable[Port], given: Mapping[str, Signal]) -> None:
        """Raise `parts.PartFault` unless what is at each port has the port's width."""
        for port in ports:
            signal = given.get(port.name)
            if signal is not None and len(signal) != port.width:
                try:
                    parts.check_width(name, port, {port.name: len(signal)}, self._shown(signal))
                except parts.PartFault as wrong:
                    raise parts.PartFault(self._meant(wrong.told, port, signal), wrong.at) from None

    def _meant(self, told: Message | str, port: Port, signal: Signal) -> Message | str:
        """What is told, with the single bits of a word that may be meant at a port of one bit."""
        nets = {bit.net for bit in signal if isinstance(bit, Wire)}
        if port.width != 1 or port.direction != "in" or len(nets) != 1 or len(signal) < 2:
            return told
        (net,) = nets
        for part in self._parts:
            outs = {out.name: part.signal(out.name) for out in part.kind.outs}
            if part.kind.word and {Wire(net)} & {*outs[part.kind.word]}:
                single = [f"{part.name}.{out}" for out, bits in outs.items() if len(bits) == 1]
                meant = either([*single, f"{part.name}(0)"])
                return Message("one-bit-meant", told=told, meant=meant)
        return Message("one-bit-meant", told=told, meant=f"{net}(0)")

    def _shown(self, signal: Signal) -> str:
        """A signal as text, without the index of a net's only bit."""
        only = signal[0] if len(signal) == 1 else None
        if not isinstance(only, Wire) or only.index:
            return show(signal)
        ports = (
            (f"{part.name}.{port.name}", port.width)
            for part in self._parts
            for port in part.kind.ports
        )
        declared = ((net.name, net.width) for net in (*self._inputs, *self._nets))
        return show(signal) if dict((*ports, *declared)).get(only.net, 1) > 1 else only.net

    def output(
        self, name: str, bits: Bits, place: Place | None = None, code: Code = UNSIGNED
    ) -> None:
        """Declare an output that shows these bits, and which numbers they stand for."""
        self._outputs.append(Output(name, signal_of(bits), place, code))

    def circuit(self) -> Circuit:
        """The circuit collected so far; `edgewise.circuit.flatten` checks it."""
        return Circuit(
            self.name,
            tuple(self._inputs),
            tuple(self._outputs),
            tuple(self._nets),
            tuple(self._parts),
            tuple(self._joins),
            self.place,
        )


def as_kind(
    circuit: Circuit,
    settings: Mapping[str, int | str] | None = None,
    *,
    name: str | None = None,
    clocked: bool = False,
) -> Kind:
    """A circuit as the kind of a part, to be used in another circuit.

    Its inputs and outputs are the ports; its only output, if it has just one, is its word.

    Parameters
    ----------
    circuit : Circuit
    settings : mapping, optional
        The parameters that it was built with.
    name : str, optional
        The circuit's own name unless given.
    clocked : bool
        Whether the part has a clock port (for a gated clock).

    Examples
    --------
    >>> b = Builder("inverter pair")
    >>> x = b.input("x")
    >>> b.output("y", b.part("N", "not", {"in": b.part("M", "not", {"in": x})["out"]})["out"])
    >>> twice = as_kind(b.circuit())
    >>> [port.name for port in twice.ports], twice.word
    (['x', 'y'], 'y')
    """
    ins = tuple(Port(net.name, net.width, "in") for net in circuit.inputs)
    outs = tuple(Port(out.name, len(out.signal), "out") for out in circuit.outputs)
    return Kind(
        name or circuit.name,
        (*ins, *((parts.CLOCK_PORT,) if clocked else ()), *outs),
        tuple((settings or {}).items()),
        circuit,
        outs[0].name if len(outs) == 1 else None,
    )


@lru_cache(maxsize=512)  # a family of parts asks for the same net again and again
def wires(net: str, width: int) -> Signal:
    """All wires of a net, LSB first."""
    return tuple(Wire(net, i) for i in range(width))


def show(signal: Signal, single: Container[str] = ()) -> str:
    """A signal as text: ``a(5..2)``, ``FA.sum``, ``[clock, shift]``.

    Nets that are known to be a `single` bit are told without an index.

    Examples
    --------
    >>> show(wires("a", 6)[2:]), show((Wire("a", 0),)), show((Tie(1), Wire("b", 3)))
    ('a(5..2)', 'a(0)', '[b(3), 1]')
    """
    runs: list[list[Wire | Tie]] = []
    for bit in signal:
        last = runs[-1][-1] if runs else None
        follows = (
            isinstance(bit, Wire)
            and isinstance(last, Wire)
            and (bit.net, bit.index) == (last.net, last.index + 1)
        )
        if follows:
            runs[-1].append(bit)
        else:
            runs.append([bit])
    texts = [_show_run(run, single) for run in reversed(runs)]
    if not texts:
        return "[]"
    return texts[0] if len(texts) == 1 else f"[{', '.join(texts)}]"


def _show_run(run: list[Wire | Tie], single: Container[str]) -> str:
    first, last = run[0], run[-1]
    if isinstance(first, Tie) or isinstance(last, Tie):
        return "01X"[first.bit] if isinstance(first, Tie) else "?"
    if len(run) > 1:
        return f"{first.net}({last.index}..{first.index})"
    return first.net if first.net in single else f"{first.net}({first.index})"
