"""A blueprint: a design before its parameters have numbers; read from circuit text."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from edgewise import importers, parameter, waveform
from edgewise.circuit import notation
from edgewise.circuit.declared_code import declared_code
from edgewise.circuit.family import Allowance, members, number_in
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Circuit
from edgewise.circuit.parts import MOST_INPUTS
from edgewise.design import MOST_EDGES, Design, Feed, Operand, Phase, Purpose, feed
from edgewise.errors import DesignError, EdgewiseError, Message, Place, TextError, raise_all
from edgewise.formula import parse
from edgewise.parameter import Parameter
from edgewise.shelf import MOST_IDLE, Shelf, documents, read_file, title
from edgewise.waveform import Waveform
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, mapping, scalar, sequence

MOST_OPERANDS: Final = 4096
"""Operands of one design, members of families counted, at most."""
MOST_PHASES: Final = 4096
"""Phases of one procedure, counted likewise."""
MOST_FED: Final = 50_000
"""What inputs are fed in all phases together, at most."""


@dataclass(frozen=True, slots=True)
class Blueprint:
    """A design for any parameters in range.

    Parameters
    ----------
    name : str
        As commands know it.
    title, about, source : str
        For people: what it is, one line about it, the textbook it comes from.
    parameters : tuple of Parameter
    make : function
        The design for complete, checked parameters.
    make_timetable : function, optional
        The same without the circuit, where that can be had for less.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> blueprint = catalogue.find("serial-adder")
    >>> blueprint.design({"n": 4}).edges
    8
    """

    name: str
    title: str
    parameters: tuple[Parameter, ...]
    make: Callable[[Mapping[str, int]], Design]
    about: str = ""
    source: str = ""
    make_timetable: Callable[[Mapping[str, int]], Design] | None = None

    def numbers(self, given: Mapping[str, int], place: Place | None = None) -> dict[str, int]:
        """All parameters: those given, defaults for the rest, each in its range.

        Raises
        ------
        DesignError
            Unknown or out of range; the message shows the range.
        """
        return parameter.numbers(self.name, self.parameters, given, place)

    def design(self, given: Mapping[str, int] | None = None, place: Place | None = None) -> Design:
        """The design for these parameters, checked.

        Raises
        ------
        EdgewiseError or Problems
            Bad parameters, or whatever is wrong with the circuit and its procedure.
        """
        return self._made(self.make, given or {}, place).check()

    def made(self, given: Mapping[str, int] | None = None, place: Place | None = None) -> Design:
        """The design for these parameters, whose circuit and procedure may not fit.

        Raises
        ------
        EdgewiseError or Problems
            Bad parameters, or a text that can't be read.
        """
        return self._made(self.make, given or {}, place)

    def timetable(
        self, given: Mapping[str, int] | None = None, place: Place | None = None
    ) -> Design:
        """The design's parameters, operands and procedure, perhaps without its circuit.

        For what edges alone decide: many times quicker, and nothing of a circuit is checked.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> catalogue.find("serial-accumulator").timetable({"n": 8, "x": 5}).edges
        48
        """
        return self._made(self.make_timetable or self.make, given or {}, place)

    def _made(
        self,
        make: Callable[[Mapping[str, int]], Design],
        given: Mapping[str, int],
        place: Place | None,
    ) -> Design:
        return replace(make(self.numbers(given, place)), chosen=dict(given))


def from_file(path: Path) -> Blueprint:
    """The blueprint in a circuit file; circuits it uses as parts lie in the same folder.

    Raises
    ------
    EdgewiseError
        If the file can't be read, or is neither a circuit text nor one that an importer reads.
    """
    text = read_file(path, str(path))
    if (importer := importers.find(path.name)) is None:
        return from_text(text, str(path), folder=path.parent, name=path.stem)
    design = replace(importer.read(text, str(path)), name=path.stem)
    return Blueprint(path.stem, design.circuit.name, (), lambda _: design)


def from_text(
    text: str,
    file: str,
    folder: Path | None = None,
    name: str | None = None,
    first_line: int = 1,
) -> Blueprint:
    """The blueprint in a circuit text.

    Parameters
    ----------
    text : str
        YAML; further documents in it are circuits that the first may use as parts, by the
        name under ``circuit``.
    file : str
        For places.
    folder : Path, optional
        Where files named as parts are looked for; without it there are none.
    name : str, optional
        The design's name; the title with hyphens unless given.
    first_line : int
        Number of the text's first line in the file.

    Raises
    ------
    TextError or Problems
        If the text is not a circuit text.

    Examples
    --------
    >>> text = "{circuit: wire, inputs: {x: 2}, outputs: {y: x}, operands: {x: 2}}"
    >>> from_text(text, "wire.yaml").design().circuit.outputs[0].name
    'y'
    """
    found = documents(text, file, first_line)
    shelf = Shelf(folder, file, found)
    return _blueprint(found[0], shelf.inside(file, title(found[0])), name)


def _blueprint(text: Keys, shelf: Shelf, name: str | None) -> Blueprint:
    def entry(key: str) -> str:
        tree = text.get(key)
        return scalar(tree, key).text if tree is not None else ""

    own_name = name or "-".join(title(text).lower().split())
    return Blueprint(
        own_name,
        title(text),
        tuple(parameter.read(text)),
        lambda numbers: _Making(text, shelf, own_name, dict(numbers)).design(),
        " ".join(entry("about").split()),
        " ".join(entry("source").split()),
        lambda numbers: _Making(text, shelf, own_name, dict(numbers)).design(circuit=False),
    )


class _Making:
    """One design being made from its text; collects errors so that all are reported."""

    def __init__(self, text: Keys, shelf: Shelf, name: str, numbers: dict[str, int]) -> None:
        self.text, self.name, self.numbers = text, name, numbers
        self.shelf = replace(shelf, allowance=Allowance())  # each design has its own
        self.phases = self.fed = 0
        self.errors: list[EdgewiseError] = []

    def design(self, *, circuit: bool = True) -> Design:
        reading = notation.Reading(self.text, self.numbers, self.shelf.find, self.shelf.allowance)
        built = Circuit(self.name, (), (), (), ())
        if circuit:
            with reading.noting():
                built = reading.circuit()
            self.idle(reading)
        self.noting = reading.noting
        reading.errors = list(dict.fromkeys(reading.errors))
        operands = tuple(self.operands())
        procedure = tuple(self.procedure({o.name: o.width for o in operands}))
        computes = tuple(self.computes())
        waveforms = tuple(self.waveforms())
        raise_all(reading.errors)
        return Design(
            self.name,
            built,
            self.numbers,
            operands,
            procedure,
            computes,
            self.text.place,
            waveforms=waveforms,
        )

    def idle(self, reading: notation.Reading) -> None:
        """Check the circuits of the text that nothing uses, with their own defaults."""
        found = list(self.shelf.idle())
        if len(found) > MOST_IDLE:
            told = Message("circuits-idle", count=len(found), most=MOST_IDLE)
            reading.note(TextError(told, found[0][0].place), None)
            return
        for document, shelf in found:
            with reading.noting(document.place):
                flatten(shelf.circuit(document, title(document)).build({}))

    def section(self, name: str, example: str) -> Iterator[tuple[Scalar, Tree]]:
        tree = self.text.get(name)
        if tree is not None:
            with self.noting():
                yield from mapping(tree, name, example).pairs

    def operands(self) -> Iterator[Operand]:
        made = 0
        for key, value in self.section("operands", "{a: n, b: n}"):
            with self.noting(key.place):
                wide, code = declared_code(value)
                for name, values in members(key, self.numbers):
                    made += 1
                    if made > MOST_OPERANDS:
                        raise DesignError(Message("operands-many", most=MOST_OPERANDS), key.place)
                    width = number_in(wide, values, Message("width-of", name=name))
                    if not 1 <= width <= MOST_INPUTS:
                        raise DesignError(
                            Message("operand-width", name=name, width=width, most=MOST_INPUTS),
                            value.place,
                        )
                    if name in self.numbers:
                        raise DesignError(Message("name-parameter", name=name), key.place)
                    code.numbers(width)  # refuses widths that it has no words of
                    yield Operand(name, width, key.place, code)

    def procedure(self, widths: Mapping[str, int]) -> Iterator[Phase]:
        tree = self.text.get("procedure")
        if tree is None:
            return
        with self.noting():
            example = "- {phase: load, edges: n, shift: 1}"
            for item in sequence(tree, "procedure", example):
                with self.noting(item.place):
                    yield from self._phases(mapping(item, "a phase", example[2:]), widths)

    def _phases(self, body: Keys, widths: Mapping[str, int]) -> Iterator[Phase]:
        named, edges = body.get("phase"), body.get("edges")
        if named is None or edges is None:
            message = "phase-nameless" if named is None else "phase-without-edges"
            raise TextError(Message(message), body.place)
        for name, values in members(scalar(named, "phase"), self.numbers):
            self.phases += 1
            self.fed += max(0, len(body.pairs) - 2)
            if self.phases > MOST_PHASES or self.fed > MOST_FED:
                raise DesignError(
                    Message("phases-many", most=MOST_PHASES, inputs=MOST_FED), body.place
                )
            number_of = number_in(edges, values, Message("edges-of", phase=name))
            if not 0 <= number_of <= MOST_EDGES:
                raise DesignError(
                    Message("phase-edges", name=name, edges=number_of, most=MOST_EDGES), edges.place
                )
            feeds: list[Feed] = []
            for key, value in body.pairs:
                if key.text not in ("phase", "edges"):
                    text = scalar(value, key.text)
                    with self.noting(value.place):
                        feeds.append(feed(key.text, text.text, values, widths, text.place))
            yield Phase(name, number_of, tuple(feeds), body.place)

    def waveforms(self) -> Iterator[Waveform]:
        for key, value in self.section("waveforms", "{set: [1, 0 after 10]}"):
            with self.noting(key.place):
                yield waveform.read(key.text, value, self.numbers)

    def computes(self) -> Iterator[Purpose]:
        example = "{sum: (a + b) mod 2**n}"
        for key, value in self.section("computes", example):
            with self.noting(key.place):
                after, formula = None, value
                if isinstance(value, Keys):
                    told, when = value.get("value"), value.get("after")
                    raise_all(value.refuse_other_keys(("value", "after"), "purpose"))
                    if told is None:
                        raise TextError(
                            Message("purpose-without-value", name=key.text), value.place
                        )
                    formula = told
                    after = None if when is None else number_in(when, self.numbers, "after")
                text = scalar(formula, key.text)
                yield Purpose(key.text, parse(text.text, place=text.place), after, text.place)
