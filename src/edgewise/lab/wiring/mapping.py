"""From a design to its demands: registers, counters and adders first, else gates and flip-flops."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewise.circuit.model import Part
from edgewise.circuit.multiplexers import data_inputs
from edgewise.circuit.netlist import FlipFlop, Gate
from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.errors import CircuitError, Message
from edgewise.lab.wiring.demand import Demand, Option, Use
from edgewise.lab.wiring.nets import Nets
from edgewise.lab.wiring.pieces import HIGH, LOW, OPERATORS, RESET, Pieces, chain, inverted, use

CLOCK: Final = "clock"
_LETTERS: Final = "abcdefgh"


@dataclass(frozen=True, slots=True)
class Adder:
    """A full adder, or a half adder with a constant 0, by the names of its nets."""

    path: str
    a: str
    b: str
    carry_in: str
    sum: str
    carry: str


@dataclass(frozen=True)
class Needed:
    """What a design demands: where to begin, and all demands by name."""

    roots: tuple[str, ...]
    demands: dict[str, Demand]


def needed(design: Design) -> Needed:
    """The demands of a design."""
    mapping = _Mapping(design)
    for part in design.circuit.parts:
        mapping.visit(part, "")
    mapping.adders()
    roots = mapping.roots
    if design.netlist.flip_flops:
        roots += mapping.debouncer()
    return Needed(tuple(dict.fromkeys(roots)), mapping.pieces.demands)


class _Mapping(Nets):
    """Walks a circuit, and asks for pieces."""

    def __init__(self, design: Design) -> None:
        super().__init__(design)
        self.pieces = Pieces()
        self.roots: list[str] = []
        self.chained: list[Adder] = []
        self.apart: frozenset[str] = frozenset()

    # ------------------------------------------------------------------ parts

    def visit(self, part: Part, path: str) -> None:
        """Ask for what a part takes."""
        here = path + part.name
        special = {
            "shift-register": self._shift_register,
            "counter": self._counter,
            "multiplexer": self._multiplexer,
        }.get(part.kind.name)
        if not any(self.alive(here)):
            return
        if part.kind.adds is not None:
            self._adder(here, part)
        elif special is not None and part.kind.inside is not None:
            ways = [*special(here, part), Option((), self._expanded(here))]
            self._demand(here, ways)
        elif part.kind.inside is not None and part.kind.role == "circuit":
            for inner in part.kind.inside.parts:
                self.visit(inner, f"{here}.")
        else:
            self.roots += self._expanded(here)

    def _demand(self, name: str, ways: list[Option]) -> None:
        self.pieces.demands[name] = Demand(name, tuple(ways))
        self.roots.append(name)

    def _expanded(self, path: str) -> tuple[str, ...]:
        """The demands of a part's gates and flip-flops one by one."""
        return tuple(
            self._gate(one) if isinstance(one, Gate) else self._flip_flop(one)
            for one in self.alive(path)
            if not (isinstance(one, Gate) and one.operator == "buffer")
        )

    def _gate(self, gate: Gate) -> str:
        ins, out = [self.net(net) for net in gate.inputs], self.net(gate.output)
        if gate.operator in OPERATORS:
            return self.pieces.gate(gate.operator, ins, out)
        made = function(gate.operator)
        at = dict(zip(made.reads, ins, strict=True)) if len(made.reads) > 1 else {}
        if not at:
            raise CircuitError(
                Message("gate-without-package", gate=gate.name, operator=gate.operator)
            )
        return self.pieces.truth(made.truth, at, out)

    def _flip_flop(self, one: FlipFlop) -> str:
        d, q = self.net(one.d), self.net(one.q)
        clock = CLOCK if one.gate is None else self.net(one.gate)
        enable = None if one.enable is None else self.net(one.enable)
        needs: list[str] = []
        if one.clear is not None:
            clear = self.net(one.clear)
            taken = f"{one.name}.taken"
            needs += [
                self.pieces.complement(clear),
                self.pieces.gate("and", (d, inverted(clear)), taken),
            ]
            d = taken
            if enable is not None:
                either = f"{enable}+{clear}"
                needs.append(self.pieces.gate("or", (enable, clear), either))
                enable = either
        if enable is None:
            stores = self.pieces.flip_flop(one.name, d, q, clock, one.start)
        else:
            stores = self.pieces.enabled(one.name, d, q, clock, enable, one.start)
        if not needs:
            return stores
        name = f"{one.name} cleared"
        self.pieces.demands[name] = Demand(name, (Option((), (*needs, stores)),))
        return name

    # ------------------------------------------------------------------ shift registers

    def _shift_register(self, path: str, part: Part) -> Iterator[Option]:
        kind, fed = part.kind, {port.name for port in part.kind.ins}
        inside = [one for one in self.alive(path) if isinstance(one, FlipFlop)]
        q = self.port(path, "q")
        if any(one.start == 1 for one in inside) or len(inside) < len(q) or "clear" in fed:
            return
        if "left" in fed:
            return
        serial, load, enable, data = (self.port(path, p) for p in ("in", "load", "enable", "d"))
        names = [f"{path}.bit({i})" for i in range(len(q))]
        stages = list(zip(q, names, data or [LOW] * len(q), strict=True))
        if kind.setting("direction") != "left":
            stages.reverse()
        clock = self._clock_of(inside[0])
        shared = {"clk": clock, "clr": RESET}
        modes = {"s0": HIGH, "s1": load[0] if load else LOW}
        needs: tuple[str, ...] = ()
        if enable:
            modes["s0"] = enable[0]
            if load:
                act = self.gates[f"{path}.act"]
                modes["s0"], needs = self.net(act.output), (self._gate(act),)
        yield Option(chain("74HC194 shifting", 4, stages, serial[0], shared | modes), needs)
        if enable:
            return
        if load:
            mode = {"shld": inverted(load[0])}
            back = (self.pieces.complement(load[0]),)
            yield Option(chain("74HC195", 4, stages, serial[0], shared | mode), back)
            if all(self._inner(net, path) for net, _, _ in stages[:-1]):
                yield from self._serial_out(stages, serial[0], shared | mode, back)
        else:
            yield Option(chain("74HC164", 8, stages, serial[0], shared))

    def _inner(self, net: str, path: str) -> bool:
        """Whether nothing outside a part reads a net."""
        return all(name.startswith(f"{path}.") for name in self.readers.get(net, ()))

    def _serial_out(
        self,
        stages: list[tuple[str, str, str]],
        serial: str,
        shared: dict[str, str],
        back: tuple[str, ...],
    ) -> Iterator[Option]:
        """A register of which only the last bit is read, in packages that show that alone.

        The first stages of the first package are passed by: what they hold is never seen.
        """
        if len(stages) != 8:
            return
        data = {_LETTERS[i]: d for i, (_, _, d) in enumerate(stages)}
        pins = {**data, "ser": serial, "qh": stages[-1][0], **shared}
        keeps = tuple((f"q{_LETTERS[i].upper()}", name) for i, (_, name, _) in enumerate(stages))
        yield Option((Use("74HC166", (), tuple(pins.items()), keeps),), back)

    def _clock_of(self, one: FlipFlop) -> str:
        return CLOCK if one.gate is None else self.net(one.gate)

    # ------------------------------------------------------------------ counters

    def _counter(self, path: str, part: Part) -> Iterator[Option]:
        fed = {port.name for port in part.kind.ins}
        inside = [one for one in self.alive(path) if isinstance(one, FlipFlop)]
        q = self.port(path, "q")
        if any(one.start == 1 for one in inside) or len(inside) < len(q) or "clear" in fed:
            return
        wraps = part.kind.setting("modulo") != "full"
        if wraps and "load" in fed and self.gates.get(f"{path}.onward"):
            return
        enable = (self.port(path, "enable") or [HIGH])[0]
        load, needs = HIGH, list[str]()
        data = [LOW] * len(q)
        if "load" in fed:
            data, load = self.port(path, "d"), inverted(self.port(path, "load")[0])
            needs.append(self.pieces.complement(self.port(path, "load")[0]))
        onward = self.gates.get(f"{path}.onward")
        if wraps and onward is not None:
            load = self.net(onward.output)
            ends = [g for g in self.alive(path) if isinstance(g, Gate) and _at_end(g, path)]
            needs += [self._gate(gate) for gate in ends]
        uses, carry = self._counted(path, q, data, enable, load, inside)
        terminal = self.port(path, "terminal-count")[0]
        if not wraps and not self._inner(terminal, path):
            last = uses[-1]
            if len(q) % 4 == 0:
                uses[-1] = Use(last.section, (), (*last.pins, ("rco", terminal)), last.keeps)
            else:
                ends_at = [*q[len(q) // 4 * 4 :], *([carry] if len(q) > 4 else [])]
                ends_at += [enable] if len(q) < 4 and enable != HIGH else []
                if len(ends_at) < 2:
                    return
                needs.append(self.pieces.gate("and", ends_at, terminal))
        yield Option(tuple(uses), tuple(needs))

    def _counted(
        self,
        path: str,
        q: list[str],
        data: list[str],
        enable: str,
        load: str,
        inside: list[FlipFlop],
    ) -> tuple[list[Use], str]:
        """Counters in a row; the carry out of one lets the next count."""
        uses, carry = [], enable
        for first in range(0, len(q), 4):
            pins = {"clk": self._clock_of(inside[0]), "clr": RESET, "load": load}
            pins |= {"enp": enable, "ent": carry}
            keeps = []
            for i in range(4):
                letter, bit = _LETTERS[i], first + i
                pins[letter] = data[bit] if bit < len(q) else LOW
                if bit < len(q):
                    pins[f"q{letter}"] = q[bit]
                    keeps.append((f"q{letter}", f"{path}.bit({bit})"))
            if first + 4 < len(q):
                carry = f"{path}.carry({first + 4})"
                pins["rco"] = carry
            uses.append(Use("74HC161", (), tuple(pins.items()), tuple(keeps)))
        return uses, carry

    # ------------------------------------------------------------------ multiplexers and adders

    def _multiplexer(self, path: str, part: Part) -> Iterator[Option]:
        fed = {port.name: port.width for port in part.kind.ins}
        if data_inputs(fed) != 4:
            return
        select = self.port(path, "select")
        shared = {"s0": select[0], "s1": select[1]}
        ways = [self.port(path, f"d{i}") for i in range(4)]
        yield Option(
            tuple(
                use("74HC153", shared, **{f"c{i}": way[bit] for i, way in enumerate(ways)}, y=out)
                for bit, out in enumerate(self.port(path, "out"))
            )
        )

    def _adder(self, path: str, part: Part) -> None:
        adds = part.kind.adds
        assert adds is not None
        a, b = (self.port(path, name)[0] for name in adds.inputs[:2])
        carry = self.port(path, adds.carry_in)[0] if adds.carry_in else LOW
        sum_, out = self.port(path, adds.sum)[0], self.port(path, adds.carry)[0]
        self.chained.append(Adder(path, a, b, carry, sum_, out))

    def adders(self) -> None:
        """Ask for all adders, those whose carries make a chain as one."""
        taking = {one.carry_in: one for one in self.chained if one.carry_in not in (LOW, HIGH)}
        inner = {
            one.carry: taking[one.carry]
            for one in self.chained
            if one.carry in taking and len(set(self._outside(one.carry, one))) == 1
        }
        self.apart = self._independent()
        heads = {one.path for one in self.chained} - {one.path for one in inner.values()}
        for one in self.chained:
            if one.path in heads:
                chain = [one]
                while chain[-1].carry in inner:
                    chain.append(inner[chain[-1].carry])
                self._chain_of_adders(chain)

    def _independent(self) -> frozenset[str]:
        """The adders that read nothing of another, and that no other reads, but through storage."""
        drivers = {gate.output: gate for gate in self.netlist.gates}
        owners = {
            gate.output: one.path
            for one in self.chained
            for gate in self.netlist.gates
            if gate.name.startswith(f"{one.path}.")
        }
        bound: set[str] = set()
        for one in self.chained:
            inside = {net for net, path in owners.items() if path == one.path}
            waiting, seen = [n for net in inside for n in drivers[net].inputs], set(inside)
            while waiting:
                net = waiting.pop()
                if net not in seen:
                    seen.add(net)
                    waiting += drivers[net].inputs if net in drivers else ()
            others = {owners[net] for net in seen if net in owners} - {one.path}
            bound |= others | ({one.path} if others else set())
        return frozenset(one.path for one in self.chained) - bound

    def _outside(self, net: str, adder: Adder) -> list[str]:
        """Who reads a carry: the part, as far as it is an adder."""
        readers = (name for name in self.readers.get(net, ()))
        found = []
        for name in readers:
            owner = next((a.path for a in self.chained if name.startswith(f"{a.path}.")), name)
            if owner != adder.path:
                found.append(owner)
        return found

    def _chain_of_adders(self, chain: list[Adder]) -> None:
        apart = tuple(self._single(one) for one in chain)
        if len(chain) == 1:
            self.roots += apart
            return
        uses, carry = [], chain[0].carry_in
        for first in range(0, len(chain), 4):
            few = chain[first : first + 4]
            pins = {"c0": carry}
            for i in range(1, 5):
                one = few[i - 1] if i <= len(few) else None
                pins[f"a{i}"], pins[f"b{i}"] = (one.a, one.b) if one else (LOW, LOW)
                if one and self.readers.get(one.sum):
                    pins[f"s{i}"] = one.sum
            carry = few[-1].carry
            if self.readers.get(carry):
                pins["c4" if len(few) == 4 else f"s{len(few) + 1}"] = carry
            uses.append(Use("74HC283 chain", (), tuple(pins.items())))
        self._demand(f"{chain[0].path}..{chain[-1].path}", [Option(tuple(uses)), Option((), apart)])

    def _single(self, one: Adder) -> str:
        """The demand of an adder for itself."""
        pins = {"a": one.a, "b": one.b, "c": one.carry_in}
        pins |= {"s": one.sum} if self.readers.get(one.sum) else {}
        pins |= {"co": one.carry} if self.readers.get(one.carry) else {}
        gates = self._expanded(one.path)
        section = "74HC283 pair" if one.path in self.apart else "74HC283 single"
        ways = [Option((use(section, **pins),)), Option((), gates)]
        carry = self.gates.get(f"{one.path}.OR")
        if carry is not None and self.readers.get(one.carry):
            ways.append(Option((), self._by_nands(one, carry)))
        name = f"{one.path} adds"
        self.pieces.demands[name] = Demand(name, tuple(ways))
        return name

    def _by_nands(self, one: Adder, carry: Gate) -> tuple[str, ...]:
        """A full adder's gates, its AND-OR as NANDs."""
        drivers = {gate.output: gate for gate in self.netlist.gates}
        pairs = [drivers[net] for net in carry.inputs]
        kept = [g for g in self.alive(one.path) if isinstance(g, Gate)]
        straight = tuple(self._gate(g) for g in kept if g not in (*pairs, carry))
        nets = [f"{self.net(pair.output)}'n" for pair in pairs]
        nands = [
            self.pieces.gate("nand", [self.net(n) for n in pair.inputs], net)
            for pair, net in zip(pairs, nets, strict=True)
        ]
        return (*straight, *nands, self.pieces.gate("nand", nets, one.carry))

    # ------------------------------------------------------------------ the clock's button

    def debouncer(self) -> list[str]:
        """Two NANDs across: a change-over button sets and resets them, bounces do nothing."""
        name = "debounced clock"
        across = (
            use("74HC00", a="button pressed", b=inverted(CLOCK), y=CLOCK),
            use("74HC00", a="button at rest", b=CLOCK, y=inverted(CLOCK)),
        )
        self.pieces.demands[name] = Demand(name, (Option(across),))
        return [name]


def _at_end(gate: Gate, path: str) -> bool:
    """Whether a gate of a counter tells its last state."""
    name = gate.name.removeprefix(f"{path}.")
    return name.startswith("low(") or name in ("last", "end", "onward")
