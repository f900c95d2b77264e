"""The ways to make a gate or a flip-flop of packages, spare sections of other packages included."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from math import ceil

from edgewise.circuit.truth import Truth
from edgewise.lab.wiring.demand import Demand, Option, Use

LOW, HIGH = "0", "1"
"""Names of the nets of the rails."""
OPERATORS = ("and", "nand", "or", "nor", "xor", "xnor", "not", "multiplexer")
"""Gates of a netlist that there are packages for."""
RESET = "/power-up clear"
"""The net of the power-up clear: 0 while its switch is held down."""
LETTERS = "abcdefgh"
"""Of the stages of a register, from the one that is shifted into."""
NANDS = {2: "74HC00", 3: "74HC10", 4: "74HC20"}
ANDS = {2: "74HC08", 3: "74HC11", 4: "74HC21"}
NORS = {2: "74HC02", 3: "74HC27"}


def use(section: str, shared: dict[str, str] | None = None, /, **pins: str) -> Use:
    """One section, its roles by name."""
    return Use(section, tuple((shared or {}).items()), tuple(pins.items()))


def inverted(net: str) -> str:
    """The name of a net's complement."""
    return net[1:] if net.startswith("/") else f"/{net}"


class Pieces:
    """Demands as they come, each once."""

    def __init__(self) -> None:
        self.demands: dict[str, Demand] = {}
        self._inner: Counter[str] = Counter()
        """How many nets inside each gate have a name."""

    def _once(self, name: str, options: Sequence[Option]) -> str:
        self.demands.setdefault(name, Demand(name, tuple(options)))
        return name

    def complement(self, net: str) -> str:
        """The demand of an inverter that all who read the complement share."""
        return self.gate("not", (net,), inverted(net))

    def gate(self, operator: str, ins: Sequence[str], out: str) -> str:
        """The demand of a gate: an operator of a netlist, its inputs, the net that it drives."""
        name = f"{out} = {operator} {' '.join(ins)}"
        if name in self.demands:
            return name
        ways = {
            "and": self._and,
            "nand": self._nand,
            "or": self._or,
            "nor": self._nor,
            "xor": self._xor,
            "xnor": self._xnor,
            "not": self._not,
            "multiplexer": self._multiplexer,
        }
        return self._once(name, ways[operator](tuple(ins), out))

    def truth(self, truth: Truth, at: Mapping[str, str], out: str) -> str:
        """The demand of any function of single bits, as the operations that it is made of.

        `at` has the net of each port; a constant is a rail, and a port alone a pair of inverters.
        """
        operation: str
        operation, *of = truth if isinstance(truth, tuple) else ("buffer", truth)
        needs, nets = [], []
        for one in of:
            if isinstance(one, tuple):
                self._inner[out] += 1
                nets.append(f"{out}'{self._inner[out]}")
                needs.append(self.truth(one, at, nets[-1]))
            else:
                nets.append(at[one] if isinstance(one, str) else (HIGH if one else LOW))
        if operation == "buffer":
            self._inner[out] += 1
            between = f"{out}'{self._inner[out]}"
            needs.append(self.gate("not", nets, between))
            operation, nets = "not", [between]
        if operation != "not" and len(nets) == 1:
            return self.truth(of[0], at, out)
        operator = "multiplexer" if operation == "choose" else operation
        name = f"{out} made"
        return self._once(name, [Option((), (*needs, self.gate(operator, nets, out)))])

    # ------------------------------------------------------------------ operators

    def _wide(
        self, parts: dict[int, str], ins: tuple[str, ...], out: str, idle: str
    ) -> list[Option]:
        """In each part that has inputs enough, those left over being idle."""
        return [
            Option((use(part, **self._fed(ins, width, idle), y=out),))
            for width, part in parts.items()
            if width >= len(ins)
        ]

    @staticmethod
    def _fed(ins: tuple[str, ...], width: int, idle: str) -> dict[str, str]:
        padded = (*ins, *[idle] * (width - len(ins)))
        return dict(zip("abcd"[:width], padded, strict=True))

    def _split(
        self, operator: str, ins: tuple[str, ...], out: str, most: int
    ) -> tuple[list[str], tuple[str, ...]]:
        """A wide gate's inputs in groups; the demands of all groups, and the nets they give."""
        needs: list[str] = []
        nets: list[str] = []
        for first in range(0, len(ins), most):
            group = ins[first : first + most]
            if len(group) == 1:
                nets.append(group[0])
                continue
            self._inner[out] += 1
            nets.append(f"{out}'{self._inner[out]}")
            needs.append(self.gate(operator, group, nets[-1]))
        return needs, tuple(nets)

    def _and(self, ins: tuple[str, ...], out: str) -> list[Option]:
        found = self._wide(ANDS, ins, out, HIGH)
        if len(ins) <= 4:
            other = f"{out}'n"
            nand = use(NANDS[len(ins)], **self._fed(ins, len(ins), HIGH), y=other)
            found.append(Option((nand,), (self.gate("not", (other,), out),)))
        if len(ins) > 2:
            needs, nets = self._split("and", ins, out, 2 if len(ins) <= 4 else 4)
            found.append(Option((), (*needs, self.gate("and", nets, out))))
        return found

    def _nand(self, ins: tuple[str, ...], out: str) -> list[Option]:
        found = self._wide(NANDS, ins, out, HIGH)
        if len(ins) <= 4:
            other = f"{out}'n"
            straight = use(ANDS[len(ins)], **self._fed(ins, len(ins), HIGH), y=other)
            found.append(Option((straight,), (self.gate("not", (other,), out),)))
        else:
            needs, nets = self._split("and", ins, out, 4)
            found.append(Option((), (*needs, self.gate("nand", nets, out))))
        return found

    def _or(self, ins: tuple[str, ...], out: str) -> list[Option]:
        if len(ins) > 3:
            needs, nets = self._split("or", ins, out, 2)
            found = [Option((), (*needs, self.gate("or", nets, out)))]
            if len(ins) == 4:
                needs, nets = self._split("nor", ins, out, 2)
                found.append(Option((), (*needs, self.gate("nand", nets, out))))
            return found
        other = f"{out}'n"
        nor = use(NORS[len(ins)], **self._fed(ins, len(ins), LOW), y=other)
        through = Option((nor,), (self.gate("not", (other,), out),))
        if len(ins) == 3:
            needs, nets = self._split("or", ins, out, 2)
            return [Option((), (*needs, self.gate("or", nets, out))), through]
        a, b = ins
        nand = use("74HC00", a=inverted(a), b=inverted(b), y=out)
        return [
            Option((use("74HC32", a=a, b=b, y=out),)),
            through,
            Option((nand,), (self.complement(a), self.complement(b))),
        ]

    def _nor(self, ins: tuple[str, ...], out: str) -> list[Option]:
        found = self._wide(NORS, ins, out, LOW)
        other = f"{out}'n"
        found.append(Option((), (self.gate("or", ins, other), self.gate("not", (other,), out))))
        return found

    def _xor(self, ins: tuple[str, ...], out: str) -> list[Option]:
        if len(ins) > 2:
            needs, nets = self._split("xor", ins, out, 2)
            return [Option((), (*needs, self.gate("xor", nets, out)))]
        a, b = ins
        both, left, right = f"{out}'n", f"{out}'a", f"{out}'b"
        four = (
            use("74HC00", a=a, b=b, y=both),
            use("74HC00", a=a, b=both, y=left),
            use("74HC00", a=both, b=b, y=right),
            use("74HC00", a=left, b=right, y=out),
        )
        return [Option((use("74HC86", a=a, b=b, y=out),)), Option(four)]

    def _xnor(self, ins: tuple[str, ...], out: str) -> list[Option]:
        other = f"{out}'n"
        return [Option((), (self.gate("xor", ins, other), self.gate("not", (other,), out)))]

    def _not(self, ins: tuple[str, ...], out: str) -> list[Option]:
        (a,) = ins
        found = [Option((use("74HC04", a=a, y=out),))]
        for width, part in (*NANDS.items(), *NORS.items()):
            found.append(Option((use(part, **dict.fromkeys("abcd"[:width], a), y=out),)))
        found.append(Option((use("74HC86", a=a, b=HIGH, y=out),)))
        return found

    def _multiplexer(self, ins: tuple[str, ...], out: str) -> list[Option]:
        select, zero, one = ins
        low, high = f"{out}'0", f"{out}'1"
        nands = (
            use("74HC00", a=zero, b=inverted(select), y=low),
            use("74HC00", a=one, b=select, y=high),
            use("74HC00", a=low, b=high, y=out),
        )
        return [
            Option((use("74HC157", {"s": select}, a=zero, b=one, y=out),)),
            Option(nands, (self.complement(select),)),
        ]

    # ------------------------------------------------------------------ flip-flops

    def flip_flop(self, name: str, d: str, q: str, clock: str, start: int) -> str:
        """The demand of a flip-flop that stores at every edge of its clock.

        `start` is 0, 1 or X, which a clear gives as well as nothing.
        """
        if start == 1:
            preset = use("74HC74", d=d, clk=clock, q=q, clr=HIGH, pre=RESET)
            return self._once(f"{name} stores", [Option((_keeping(preset, name),))])
        one = use("74HC74", d=d, clk=clock, q=q, clr=RESET, pre=HIGH)
        found = [one]
        shared = {"clk": clock, "clr": RESET}
        found += [use(part, shared, d=d, q=q) for part in ("74HC175", "74HC174", "74HC273")]
        return self._once(f"{name} stores", [Option((_keeping(way, name),)) for way in found])

    def enabled(self, name: str, d: str, q: str, clock: str, enable: str, start: int) -> str:
        """The demand of a flip-flop with an enable."""
        chosen = f"{name}.next"
        behind = (
            self.gate("multiplexer", (enable, q, d), chosen),
            self.flip_flop(name, chosen, q, clock, start),
        )
        found = [Option((), behind)]
        if start != 1:
            taking = use("74HC194 loading", {"clk": clock, "clr": RESET, "take": enable}, d=d, q=q)
            held = {"clk": clock, "clr": inverted(RESET), "hold": inverted(enable)}
            register = use("74HC173", held, d=d, q=q)
            needs = self.complement(enable), self.complement(RESET)
            found = [
                Option((_keeping(taking, name),)),
                Option((_keeping(register, name),), needs),
                *found,
            ]
        return self._once(f"{name} holds", found)


def _keeping(one: Use, name: str) -> Use:
    """A section whose q is a flip-flop of the design."""
    return Use(one.section, one.shared, one.pins, (("q", name),))


def chain(
    section: str, size: int, stages: list[tuple[str, str, str]], serial: str, shared: dict[str, str]
) -> tuple[Use, ...]:
    """Shift registers in a row: each takes in what the last stage before it holds."""
    uses = []
    for package in range(ceil(len(stages) / size)):
        few = stages[package * size : (package + 1) * size]
        pins = {"ser": serial, **shared}
        keeps = []
        for i in range(size):
            letter = LETTERS[i]
            if i < len(few):
                q, name, _ = few[i]
                pins[f"q{letter}"] = q
                keeps.append((f"q{letter}", name))
            if size == 4:
                pins[letter] = few[i][2] if i < len(few) else LOW
        uses.append(Use(section, (), tuple(pins.items()), tuple(keeps)))
        serial = few[-1][0]
    return tuple(uses)
