"""The ports of a submission, matched with those of the design.

By a map, by name, by a name that differs in what is common to add (``i_``, ``_in``), as the only
one of its width that is left, and last by their order. All but the first two are told.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.circuit.builder import Bits, Builder, as_kind
from edgewise.circuit.model import Circuit, Tie
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message, nearest
from edgewise.hdl.reading import Read
from edgewise.lab.identifier import identifier
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import mapping, read, scalar

_AROUND: Final = re.compile(r"^[io]_|_(?:in|out|i|o)$|_")
"""What people put around the name of a port."""
_RESET: Final = re.compile(r"^(?:[asni]_?)*(?:rst|reset|res|clr|clear)(?:_?(?:n|b|ni|i|sync))*$")
"""How inputs are called that reset."""


@dataclass(frozen=True, slots=True)
class Match:
    """A port of the submission that is taken for one of the design with another name.

    Parameters
    ----------
    name, port : str
        Of the design, of the submission.
    how : str
        ``near``, ``alone``, ``order``; ``tried``: so it is right.
    """

    name: str
    port: str
    how: str

    def said(self, words: Words = ENGLISH) -> str:
        """In words."""
        return words(f"judged-port-{self.how}", name=self.name, port=self.port)


@dataclass(frozen=True)
class Fitted:
    """A submission's circuit, and which of its ports are which of the design's.

    Parameters
    ----------
    circuit : Circuit
    inputs, outputs : mapping of str to str
        For each port of the design that of the circuit.
    matches : tuple of Match
        What is to be told.
    resets : tuple of str
        Inputs that the design has not, and that are called as resets are.
    held : mapping of str to int
        Inputs that a map holds at a level, or that nothing depends on.
    """

    circuit: Circuit
    inputs: Mapping[str, str]
    outputs: Mapping[str, str]
    matches: tuple[Match, ...]
    resets: tuple[str, ...]
    held: Mapping[str, int]

    def within(self, tied: Mapping[str, int]) -> Circuit:
        """The circuit inside one whose inputs are called as the design's are.

        Resets that are not tied stay inputs.
        """
        b = Builder(self.circuit.name, self.circuit.place)
        widths = {net.name: net.width for net in self.circuit.inputs}
        levels = {**self.held, **tied}
        fed: dict[str, Bits] = {
            port: b.input(name, widths[port]) for name, port in self.inputs.items()
        }
        fed |= {port: (Tie(level),) * widths[port] for port, level in levels.items()}
        fed |= {port: b.input(port) for port in self.resets if port not in levels}
        name = "submission"
        while name in self.inputs or name in self.outputs:
            name += "_"
        inner = b.part(name, as_kind(self.circuit), fed)
        for output, port in self.outputs.items():
            b.output(output, inner[port])
        return b.circuit()


def port_map(text: str, file: str) -> dict[str, str]:
    """A map of ports: the design's names, and for each the submission's; or an input and its level.

    Raises
    ------
    TextError

    Examples
    --------
    >>> port_map("{shift: en, test_mode: 0}", "ports.yaml")
    {'shift': 'en', 'test_mode': '0'}
    """
    example = "shift: en, or test_mode: 0"
    trees = read(text, file)
    pairs = mapping(trees[0], "a map of ports", example).pairs if trees else ()
    return {name.text: scalar(value, name.text).text for name, value in pairs}


def fitted(found: Read, design: Design, ports: Mapping[str, str] | None = None) -> Fitted:
    """A submission as the design's ports want it.

    Raises
    ------
    EdgewiseError
        A port that has no match, one of another width, an input that is left over.
    """
    circuit, ports = found.circuit, ports or {}
    ins = {net.name: net.width for net in circuit.inputs}
    outs = {output.name: len(output.signal) for output in circuit.outputs}
    wanted = {net.name: net.width for net in design.circuit.inputs}
    answers = [purpose.output for purpose in design.computes] or list(design.netlist.outputs)
    given = {name: len(design.netlist.outputs[name]) for name in answers}
    _refuse_unknown(ports, {*wanted, *given}, ins, outs)
    held = {name: int(level) for name, level in ports.items() if name in ins and level in "01"}
    outputs = _Matching(given, outs, "output", ports).matched()
    free = {name: width for name, width in ins.items() if name not in held}
    inputs = _Matching(wanted, free, "input", ports)
    taken = inputs.matched()
    idle = {one.name: 0 for one in found.remarks if one.what == "unused" and one.name in ins}
    resets = tuple(
        name for name in inputs.left if _is_reset(name) and ins[name] == 1 and name not in idle
    )
    if others := [name for name in inputs.left if name not in (*resets, *idle)]:
        raise EdgewiseError(
            Message("submission-inputs-many", names=", ".join(others), first=others[0])
        )
    return Fitted(
        circuit,
        {name: match.port for name, match in taken.items()},
        {name: match.port for name, match in outputs.items()},
        tuple(m for m in (*taken.values(), *outputs.values()) if m.how not in ("name", "map")),
        resets,
        {**{name: 0 for name in inputs.left if name in idle}, **held},
    )


def _is_reset(name: str) -> bool:
    return _RESET.match(name.lower()) is not None


def _refuse_unknown(
    ports: Mapping[str, str],
    wanted: set[str],
    ins: Mapping[str, int],
    outs: Mapping[str, int],
) -> None:
    """Refuse a map that names what is not there."""
    for name, value in ports.items():
        level = value in ("0", "1")
        known = ins if level else wanted
        if name not in known:
            message = "port-map-input" if level else "port-map-name"
            raise EdgewiseError(Message(message, name=name, suggestion=nearest(name, known)))
        if not level and value not in (*ins, *outs):
            hint = nearest(value, [*ins, *outs])
            raise EdgewiseError(Message("port-map-port", name=value, suggestion=hint))


def _joined(name: str) -> str:
    """A name without underscores, in small letters."""
    return identifier(name).lower().replace("_", "")


def _bare(name: str) -> str:
    """A name without what people put around it."""
    return _AROUND.sub("", _AROUND.sub("", identifier(name).lower()))


class _Matching:
    """The ports of one direction, matched step by step."""

    def __init__(
        self,
        wanted: Mapping[str, int],
        there: Mapping[str, int],
        what: str,
        ports: Mapping[str, str],
    ) -> None:
        self.wanted, self.there, self.what, self.ports = wanted, there, what, ports
        self.found: dict[str, Match] = {}

    @property
    def left(self) -> list[str]:
        """Those of the submission that are not matched."""
        taken = {match.port for match in self.found.values()}
        return [name for name in self.there if name not in taken]

    @property
    def open(self) -> list[str]:
        """Those of the design that are not matched."""
        return [name for name in self.wanted if name not in self.found]

    def matched(self) -> dict[str, Match]:
        """For each port of the design the one of the submission."""
        for name in self.wanted:
            if self.ports.get(name) in self.there:
                self._take(name, self.ports[name], "map")
        self._by_name(lambda name: identifier(name).lower(), "name")
        self._by_name(_joined, "near")
        self._by_name(_bare, "near")
        self._by_width()
        for name in self.open:
            there = ", ".join(f"{one} ({width})" for one, width in self.there.items())
            raise EdgewiseError(
                Message(
                    "submission-port",
                    what=self.what,
                    name=name,
                    count=self.wanted[name],
                    there=there or "–",
                )
            )
        for name, match in self.found.items():
            width, expected = self.there[match.port], self.wanted[name]
            if width != expected:
                raise EdgewiseError(
                    Message(
                        "submission-width",
                        what=self.what,
                        name=match.port,
                        count=width,
                        expected=expected,
                    )
                )
        return {name: self.found[name] for name in self.wanted}

    def _take(self, name: str, port: str, how: str) -> None:
        self.found[name] = Match(name, port, how)

    def _by_name(self, plain: Callable[[str], str], how: str) -> None:
        several = Counter(plain(name) for name in self.left)
        alike = {plain(name): name for name in self.left if several[plain(name)] == 1}
        for name in self.open:
            port = alike.get(plain(name))
            if port is not None and (how == "name" or self.there[port] == self.wanted[name]):
                self._take(name, port, how)

    def _by_width(self) -> None:
        """Those of a width, if there are as many on both sides: one, or several in order."""
        for width in sorted({self.wanted[name] for name in self.open}):
            names = [name for name in self.open if self.wanted[name] == width]
            ports = [name for name in self.left if self.there[name] == width]
            if self.what == "input" and len(ports) > len(names):
                ports = [name for name in ports if not _is_reset(name)]
            if len(names) == len(ports):
                for name, port in zip(names, ports, strict=True):
                    self._take(name, port, "alone" if len(names) == 1 else "order")
