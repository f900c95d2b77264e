"""A blueprint: a design before its parameters have numbers; read from circuit text."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from edgewise.arithmetic import FUNCTIONS, Numbers, evaluate_at, number
from edgewise.circuit import notation
from edgewise.circuit.family import members, number_in
from edgewise.circuit.model import Circuit
from edgewise.circuit.notation import FoundCircuit
from edgewise.circuit.parts import MOST_INPUTS, count
from edgewise.design import MOST_EDGES, Design, Feed, Operand, Phase, Purpose, feed
from edgewise.errors import DesignError, EdgewiseError, Place, TextError, nearest, raise_all
from edgewise.formula import RESERVED, Default, Node, Target, parse
from edgewise.yamltext import LARGEST, Scalar, Tree, kind_of, mapping, read, scalar, sequence
from edgewise.yamltext import Mapping as Keys

ENTRIES: Final = (
    "circuit",
    "about",
    "source",
    "parameters",
    "inputs",
    "nets",
    "join",
    "parts",
    "outputs",
    "operands",
    "procedure",
    "computes",
)
"""The entries of a circuit text."""
DEEPEST: Final = 8
"""Circuits used as parts inside one another, at most."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """A number that a design is built with; the default may use the parameters before it."""

    name: str
    default: Node
    low: Node | None = None
    high: Node | None = None
    place: Place | None = None


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
        known = [parameter.name for parameter in self.parameters]
        for name in given:
            if name not in known:
                raise DesignError(
                    f"{self.name} has no parameter {name}{nearest(name, known)}", place
                )
        numbers: dict[str, int] = {}
        for p in self.parameters:
            scope = Numbers(numbers)
            if p.name in given:
                numbers[p.name] = given[p.name]
            else:
                numbers[p.name] = number(evaluate_at(p.default, scope, p.place))
            if p.low is not None and p.high is not None:
                low = number(evaluate_at(p.low, scope, p.place))
                high = number(evaluate_at(p.high, scope, p.place))
                if not low <= numbers[p.name] <= high:
                    raise DesignError(
                        f"parameter {p.name} is {numbers[p.name]}; the range is {low}..{high}",
                        place if p.name in given else p.place,
                    )
        return numbers

    def design(self, given: Mapping[str, int] | None = None, place: Place | None = None) -> Design:
        """The design for these parameters, checked.

        Raises
        ------
        EdgewiseError or Problems
            Bad parameters, or whatever is wrong with the circuit and its procedure.
        """
        return self.make(self.numbers(given or {}, place)).check()

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
        return (self.make_timetable or self.make)(self.numbers(given or {}, place))


def from_file(path: Path) -> Blueprint:
    """The blueprint in a circuit file; circuits it uses as parts lie in the same folder.

    Raises
    ------
    EdgewiseError
        If the file can't be read or is not a circuit text.
    """
    return from_text(read_file(path, str(path)), str(path), folder=path.parent, name=path.stem)


def read_file(path: Path, shown: str) -> str:
    """The text of a file; one clear error if there is none.

    Raises
    ------
    TextError
        Missing, a folder, too large, or not UTF-8.
    """
    try:
        if path.exists() and not path.is_file():
            raise TextError("this is not a file", Place(shown))
        if path.stat().st_size > 4 * LARGEST:
            raise TextError(
                f"the file is too large; the limit is {LARGEST} characters", Place(shown)
            )
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise TextError(
            f"byte {wrong.start} is not UTF-8 text; save the file as UTF-8", Place(shown)
        ) from None
    except OSError as wrong:
        raise TextError(f"can't be read: {wrong.strerror}", Place(shown)) from None


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
    documents = read(text, file, first_line)
    if not documents:
        raise TextError("the circuit text is empty; it begins with circuit: NAME", Place(file))
    tops = tuple(_top(document) for document in documents)
    shelf = _Shelf(folder, file, tops)
    return _blueprint(tops[0], shelf.inside(file, _title(tops[0])), name)


def _title(text: Keys) -> str:
    title = text.get("circuit")
    return scalar(title, "circuit").text if title is not None else ""


def _top(tree: Tree) -> Keys:
    if not isinstance(tree, Keys):
        raise TextError(
            f"found {kind_of(tree)}, expected a circuit text that begins with circuit: NAME",
            tree.place,
        )
    errors: list[EdgewiseError] = list(tree.refuse_other_keys(ENTRIES, "a circuit text"))
    if tree.get("circuit") is None:
        errors.append(TextError("the entry circuit: NAME is missing", tree.place))
    raise_all(errors)
    return tree


@dataclass(frozen=True, slots=True)
class _Shelf:
    """Where circuits used as parts are found: beside in the text, then in the folder."""

    folder: Path | None
    file: str
    documents: tuple[Keys, ...]
    trail: tuple[tuple[str, str], ...] = ()
    """File and title of the circuits around the one that is being read."""

    def inside(self, file: str, title: str) -> _Shelf:
        """The same shelf, seen from inside one of its circuits."""
        return replace(self, trail=(*self.trail, (file, title)))

    def find(self, name: str, place: Place) -> FoundCircuit | None:
        """Find the circuit of this name; nothing if it must be a part type."""
        for document in self.documents:
            if _title(document) == name:
                return self.enter(document, name, place)
        if not name.endswith((".yaml", ".yml")):
            return None
        path = self._path(name, place)
        trees = tuple(_top(t) for t in read(read_file(path, str(path)), str(path)))
        if not trees:
            raise TextError(
                "the circuit text is empty; it begins with circuit: NAME", Place(str(path))
            )
        return replace(self, file=str(path), documents=trees).enter(trees[0], path.stem, place)

    def enter(self, document: Keys, name: str, place: Place) -> FoundCircuit:
        """One of the documents as a circuit to use; refused inside itself."""
        this = (self.file, _title(document))
        if this in self.trail:
            ring = [title for _, title in (*self.trail[self.trail.index(this) :], this)]
            raise TextError(f"a circuit can't contain itself: {' -> '.join(ring)}", place)
        if len(self.trail) > DEEPEST:
            raise TextError(f"circuits are nested more than {DEEPEST} deep", place)
        inner = self.inside(*this)
        return _found(_blueprint(document, inner, name), document, inner)

    def _path(self, name: str, place: Place) -> Path:
        if self.folder is None:
            raise TextError(
                f"{name}: this circuit text has no folder; put the circuit into the text itself,"
                " after a line ---",
                place,
            )
        if Path(name).name != name:
            raise TextError(
                f"{name}: a circuit file used as a part lies in the same folder; give its name"
                " only",
                place,
            )
        path = self.folder / name
        if path.is_symlink():
            raise TextError(f"{name} is a link; copy the file itself into this folder", place)
        if not path.is_file():
            here = Path(place.file).name
            there = sorted(p.name for p in self.folder.glob("*.y*ml") if p.name != here)
            raise TextError(f"there is no circuit file {name} here{nearest(name, there)}", place)
        return path


def _found(blueprint: Blueprint, text: Keys, shelf: _Shelf) -> FoundCircuit:
    def build(given: Mapping[str, int]) -> Circuit:
        return notation.circuit(text, blueprint.numbers(given), shelf.find)

    names = tuple(parameter.name for parameter in blueprint.parameters)
    return FoundCircuit(blueprint.name, names, build)


def _blueprint(text: Keys, shelf: _Shelf, name: str | None) -> Blueprint:
    def entry(key: str) -> str:
        tree = text.get(key)
        return scalar(tree, key).text if tree is not None else ""

    title = entry("circuit")
    own_name = name or "-".join(title.lower().split())
    return Blueprint(
        own_name,
        title,
        tuple(_parameters(text)),
        lambda numbers: _Making(text, shelf, own_name, dict(numbers)).design(),
        " ".join(entry("about").split()),
        " ".join(entry("source").split()),
        lambda numbers: _Making(text, shelf, own_name, dict(numbers)).design(circuit=False),
    )


def _parameters(text: Keys) -> Iterator[Parameter]:
    tree = text.get("parameters")
    for key, value in mapping(tree, "parameters", "{n: 6 in 1..64}").pairs if tree else ():
        given = scalar(value, key.text)
        default: Default = parse(given.text, "default", given.place)
        target: Target = parse(key.text, "target", key.place)
        if target.family or target.name.steps or key.text in (*RESERVED, *FUNCTIONS):
            raise TextError(
                f"{key.text} can't be the name of a parameter; write a plain name, as in n",
                key.place,
            )
        yield Parameter(key.text, default.value, default.low, default.high, given.place)


class _Making:
    """One design being made from its text; collects errors so that all are reported."""

    def __init__(self, text: Keys, shelf: _Shelf, name: str, numbers: dict[str, int]) -> None:
        self.text, self.shelf, self.name, self.numbers = text, shelf, name, numbers
        self.errors: list[EdgewiseError] = []

    def design(self, *, circuit: bool = True) -> Design:
        reading = notation.Reading(self.text, self.numbers, self.shelf.find)
        built = Circuit(self.name, (), (), (), ())
        if circuit:
            with reading.noting():
                built = reading.circuit()
        self.noting = reading.noting
        reading.errors = list(dict.fromkeys(reading.errors))
        operands = tuple(self.operands())
        procedure = tuple(self.procedure({o.name: o.width for o in operands}))
        computes = tuple(self.computes())
        raise_all(reading.errors)
        return Design(
            self.name, built, self.numbers, operands, procedure, computes, self.text.place
        )

    def section(self, name: str, example: str) -> Iterator[tuple[Scalar, Tree]]:
        tree = self.text.get(name)
        if tree is not None:
            with self.noting():
                yield from mapping(tree, name, example).pairs

    def operands(self) -> Iterator[Operand]:
        for key, value in self.section("operands", "{a: n, b: n}"):
            with self.noting(key.place):
                for name, values in members(key, self.numbers):
                    width = number_in(value, values, f"width of {name}")
                    if not 1 <= width <= MOST_INPUTS:
                        raise DesignError(
                            f"operand {name} is {count(width, 'bit')} wide; expected"
                            f" 1..{MOST_INPUTS}",
                            value.place,
                        )
                    if name in self.numbers:
                        raise DesignError(
                            f"{name} is a parameter already; choose another name", key.place
                        )
                    yield Operand(name, width, key.place)

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
            missing = "phase: NAME" if named is None else "edges: NUMBER"
            raise TextError(f"this phase does not say {missing}; add it", body.place)
        for name, values in members(scalar(named, "phase"), self.numbers):
            number_of = number_in(edges, values, f"edges of phase {name}")
            if not 0 <= number_of <= MOST_EDGES:
                raise DesignError(
                    f"phase {name} has {count(number_of, 'edge')}; expected 0..{MOST_EDGES}",
                    edges.place,
                )
            feeds: list[Feed] = []
            for key, value in body.pairs:
                if key.text not in ("phase", "edges"):
                    text = scalar(value, key.text)
                    with self.noting(value.place):
                        feeds.append(feed(key.text, text.text, values, widths, text.place))
            yield Phase(name, number_of, tuple(feeds), body.place)

    def computes(self) -> Iterator[Purpose]:
        example = "{sum: (a + b) mod 2**n}"
        for key, value in self.section("computes", example):
            with self.noting(key.place):
                after, formula = None, value
                if isinstance(value, Keys):
                    told, when = value.get("value"), value.get("after")
                    raise_all(value.refuse_other_keys(("value", "after"), "a purpose"))
                    if told is None:
                        raise TextError(
                            f"{key.text} needs value: FORMULA, beside after", value.place
                        )
                    formula = told
                    after = None if when is None else number_in(when, self.numbers, "after")
                text = scalar(formula, key.text)
                yield Purpose(key.text, parse(text.text, place=text.place), after, text.place)
