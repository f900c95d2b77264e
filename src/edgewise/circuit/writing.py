"""Circuit text written from a circuit: the way back from the model to the notation.

Reading the text again gives an equal circuit. Only names that the notation has no place for
change: those with a hyphen inside a circuit used as a part, whose ports are then called
alike with ``_``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from edgewise import yamltext
from edgewise.bits import X
from edgewise.circuit import parts
from edgewise.circuit.builder import wires
from edgewise.circuit.model import CLOCK, Circuit, Kind, Part, Signal, Tie, Wire
from edgewise.codes import UNSIGNED, Code
from edgewise.formula import RESERVED

_INDEX: Final = re.compile(r"(?<=\()\d+(?=\)|\.\.)|(?<=\.\.)\d+(?=\))")
"""A number that is an index or an end of a slice."""
_MEMBER: Final = re.compile(r"(?P<base>\w+)\((?P<index>\d+)\)")
_ODD: Final = re.compile(r"\W")
_QUOTED: Final = re.compile(r"[,:#\[\]{}\"']|^[*&!|>%@`?-]|^\s|\s$|^$")
_LETTERS: Final = ("i", "j", "k", "place")
FEWEST: Final = 3
"""Members from which a family is written as one line."""


def text(circuit: Circuit) -> str:
    """The text of a circuit: what it is made of, without operands and procedure.

    Circuits used as parts follow, each after a line ``---``.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("carry store")
    >>> x, c = b.input("x"), b.net("c")
    >>> gate = b.part("G", "or", {"in": (*x, *c)})
    >>> _ = b.part("C", "flip-flop", {"d": gate["out"], "q": c})
    >>> b.output("seen", c)
    >>> print(text(b.circuit()), end="")
    circuit: carry store
    inputs: {x: 1}
    nets: {c: 1}
    parts:
      G: {part: or, in: [c, x]}
      C: {part: flip-flop, d: G.out, q: c}
    outputs: {seen: c}
    """
    return "---\n".join("\n".join(lines) + "\n" for lines in documents(circuit))


def documents(circuit: Circuit) -> tuple[list[str], ...]:
    """The lines of a circuit's text, then of each circuit that it uses as a part."""
    shelf = _Shelf()
    shelf.gather(circuit)
    own = _Circuit(circuit, shelf).lines()
    return (own, *(_Circuit(k.inside, shelf, k).lines() for k in shelf.kinds if k.inside))


def quoted(value: str) -> str:
    """A value as it can stand inside braces.

    Examples
    --------
    >>> quoted("FA.sum"), quoted("min(a, b)")
    ('FA.sum', '"min(a, b)"')
    """
    return yamltext.quoted(value) if _QUOTED.search(value) else value


def braces(pairs: Sequence[tuple[str, str]]) -> str:
    """Keys and values in braces; a list in brackets stays one."""
    told = ", ".join(
        f"{quoted(key)}: {value if value.startswith('[') else quoted(value)}"
        for key, value in pairs
    )
    return f"{{{told}}}"


def coded(told: str, code: Code) -> str:
    """A width or an output with the code that is declared behind it."""
    return told if code == UNSIGNED else f"{told} {code.name}"


def folded(pairs: Sequence[tuple[str, str]], taken: frozenset[str]) -> Iterator[tuple[str, str]]:
    """Pairs with runs of members, ``FA(0)``, ``FA(1)``…, as one: ``FA(i = 0..5)``.

    Parameters
    ----------
    pairs : sequence of (str, str)
        Names and bodies.
    taken : frozenset of str
        Names that can't be the letter of a family.

    Examples
    --------
    >>> pairs = [(f"G({i})", f"{{a: a({i}), c: c({i + 1})}}") for i in range(3)]
    >>> list(folded(pairs, frozenset()))
    [('G(i = 0..2)', '{a: a(i), c: c(i + 1)}')]
    """
    letter = next(letter for letter in (*_LETTERS, "i_") if letter not in taken)
    at = 0
    while at < len(pairs):
        size = _run(pairs, at)
        if size < FEWEST:
            yield pairs[at]
            at += 1
            continue
        run = pairs[at : at + size]
        base, first = _member(run[0][0]) or ("", 0)
        yield f"{base}({letter} = {first}..{first + size - 1})", _general(run, first, letter)
        at += size


def _member(name: str) -> tuple[str, int] | None:
    found = _MEMBER.fullmatch(name)
    return (found["base"], int(found["index"])) if found else None


def _run(pairs: Sequence[tuple[str, str]], at: int) -> int:
    """How many pairs from `at` on are members of one family, each like the one before."""
    start = _member(pairs[at][0])
    if start is None:
        return 1
    base, first = start
    steps: list[int] | None = None
    size = 1
    while at + size < len(pairs):
        name, body = pairs[at + size]
        before = pairs[at + size - 1][1]
        if _member(name) != (base, first + size) or _form(body) != _form(before):
            break
        grown = [b - a for a, b in zip(_indices(before), _indices(body), strict=True)]
        if steps is not None and grown != steps:
            break
        steps = grown
        size += 1
    return size


def _form(body: str) -> str:
    return _INDEX.sub("#", body)


def _indices(body: str) -> list[int]:
    return [int(number) for number in _INDEX.findall(body)]


def _general(run: Sequence[tuple[str, str]], first: int, letter: str) -> str:
    """The body of a family: each index that grows, as a formula in the letter."""
    body, start = run[0][1], _indices(run[0][1])
    steps = [b - a for a, b in zip(start, _indices(run[1][1]), strict=True)]
    formulas = iter(
        str(value) if not step else _linear(step, value - step * first, letter)
        for value, step in zip(start, steps, strict=True)
    )
    return _INDEX.sub(lambda _: next(formulas), body)


def _linear(step: int, offset: int, letter: str) -> str:
    times = letter if abs(step) == 1 else f"{abs(step)}*{letter}"
    if step < 0:
        return f"{offset} - {times}"
    return times if not offset else f"{times} {'+' if offset > 0 else '-'} {abs(offset)}"


# ---------------------------------------------------------------- circuits used as parts


@dataclass
class _Shelf:
    """The kinds that need a document of their own, and what each is called there."""

    kinds: list[Kind] = field(default_factory=list)
    titles: dict[int, str] = field(default_factory=dict)

    def gather(self, circuit: Circuit) -> None:
        """Find every circuit used as a part, the outermost first."""
        for part in circuit.parts:
            kind = part.kind
            if kind.role != "circuit" or kind.inside is None or kind in self.kinds:
                continue
            self.kinds.append(kind)
            others = [k for k in self.kinds[:-1] if k.name == kind.name]
            self.titles[len(self.kinds) - 1] = kind.name + (f" {len(others) + 1}" if others else "")
            self.gather(kind.inside)

    def title(self, kind: Kind) -> str | None:
        """What a kind is called in the text; nothing for a ready part."""
        return self.titles[self.kinds.index(kind)] if kind in self.kinds else None


def plain(name: str) -> str:
    """A name that the notation allows: letters, digits and ``_``.

    Examples
    --------
    >>> plain("carry-in"), plain("FA(3)"), plain("or")
    ('carry_in', 'FA(3)', 'or_')
    """
    member = _MEMBER.fullmatch(name)
    if member:
        return f"{plain(member['base'])}({member['index']})"
    changed = _ODD.sub("_", name)
    return f"{changed}_" if changed in RESERVED else changed


@dataclass
class _Circuit:
    """One document being written."""

    circuit: Circuit
    shelf: _Shelf
    kind: Kind | None = None
    """What it is a part as; nothing for the outermost."""
    by_name: dict[str, Part] = field(init=False)
    widths: dict[str, int] = field(init=False)

    def __post_init__(self) -> None:
        self.by_name = {part.name: part for part in self.circuit.parts}
        nets = (*self.circuit.inputs, *self.circuit.nets)
        self.widths = {CLOCK: 1, **{net.name: net.width for net in nets}}
        for part in self.circuit.parts:
            for port in part.kind.ports:
                self.widths[f"{part.name}.{port.name}"] = port.width

    def lines(self) -> list[str]:
        """The document."""
        circuit = self.circuit
        title = circuit.name if self.kind is None else self.shelf.title(self.kind) or circuit.name
        lines = [f"circuit: {quoted(title)}"]
        settings = self.kind.settings if self.kind else ()
        if settings:
            lines.append(f"parameters: {braces([(k, str(v)) for k, v in settings])}")
        shown = self._shown_by_width()
        nets = [(plain(net.name), str(net.width)) for net in circuit.nets if net.name not in shown]
        inputs = [(plain(net.name), str(net.width)) for net in circuit.inputs]
        for entry, pairs in (("inputs", inputs), ("nets", nets)):
            if pairs:
                lines.append(f"{entry}: {braces(list(folded(pairs, self._taken())))}")
        if circuit.joins:
            joins = [(self.signal(j.target), self.signal(j.source)) for j in circuit.joins]
            lines.append(f"join: {braces(joins)}")
        lines += self._parts()
        outputs = [
            (
                plain(o.name),
                coded(str(len(o.signal)) if o.name in shown else self.signal(o.signal), o.code),
            )
            for o in circuit.outputs
        ]
        return [*lines, f"outputs: {braces(outputs)}"]

    def _taken(self) -> frozenset[str]:
        settings = self.kind.settings if self.kind else ()
        return frozenset({*self.widths, *(name for name, _ in settings)})

    def _shown_by_width(self) -> frozenset[str]:
        """The outputs that are nets of their own; they are declared last, in this order."""
        nets = {net.name: net.width for net in self.circuit.nets}
        own = [
            o.name
            for o in self.circuit.outputs
            if o.name in nets and o.signal == wires(o.name, nets[o.name])
        ]
        last = [net.name for net in self.circuit.nets][len(nets) - len(own) :]
        return frozenset(own) if own == last else frozenset()

    def _parts(self) -> Iterator[str]:
        if not self.circuit.parts:
            return
        yield "parts:"
        pairs = [(plain(part.name), braces(self._body(part))) for part in self.circuit.parts]
        for name, body in folded(pairs, self._taken()):
            yield f"  {name}: {body}"

    def _body(self, part: Part) -> list[tuple[str, str]]:
        title = self.shelf.title(part.kind)
        body = [("part", title or part.kind.name)]
        usual: dict[str, int | str | None] = {}
        if part.kind.role != "circuit":
            usual = {one.name: one.default for one in parts.part_type(part.kind.name).settings}
        body += [(k, str(v)) for k, v in part.kind.settings if usual.get(k) != v]
        for connection in part.connections:
            port = part.kind.port(connection.port)
            own = wires(f"{part.name}.{connection.port}", port.width if port else 0)
            if port is None or (port.direction == "out" and connection.signal == own):
                continue
            name = plain(port.name) if title else port.name
            body.append((name, self.signal(connection.signal)))
        if part.look:
            body.append(("look", part.look))
        return body

    def signal(self, signal: Signal) -> str:
        """Some bits as a text: names, bits, slices and constants, MSB left."""
        pieces = [self._piece(run) for run in _runs(tuple(reversed(signal)))]
        return pieces[0] if len(pieces) == 1 else f"[{', '.join(pieces)}]"

    def _piece(self, run: Sequence[Wire | Tie]) -> str:
        first = run[0]
        if isinstance(first, Tie):
            return "X" if first.bit == X else str(first.bit)
        last = run[-1]
        assert isinstance(last, Wire)
        name = self._net(first.net)
        width = self.widths.get(first.net, 1)
        if len(run) == width and last.index == 0:
            return name
        return f"{name}({first.index})" if len(run) == 1 else f"{name}({first.index}..{last.index})"

    def _net(self, net: str) -> str:
        owner, dot, port = net.rpartition(".")
        part = self.by_name.get(owner) if dot else None
        if part is None:
            return plain(net)
        outs = [p.name for p in part.kind.ports if p.direction == "out"]
        if port == part.kind.word or (self.shelf.title(part.kind) and outs == [port]):
            return plain(owner)
        return f"{plain(owner)}.{plain(port) if self.shelf.title(part.kind) else port}"


def _runs(bits: Signal) -> Iterator[Sequence[Wire | Tie]]:
    """Bits, MSB first, cut where a name ends: each run is one constant or one slice."""
    run: list[Wire | Tie] = []
    for bit in bits:
        last = run[-1] if run else None
        follows = (
            isinstance(bit, Wire)
            and isinstance(last, Wire)
            and bit.net == last.net
            and bit.index == last.index - 1
        )
        if run and not follows:
            yield run
            run = []
        run.append(bit)
    if run:
        yield run
