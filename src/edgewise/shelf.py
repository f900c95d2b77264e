"""The shelf: circuit texts, and where the circuits are found that they use as parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from edgewise import importers, parameter
from edgewise.circuit import notation
from edgewise.circuit.family import Allowance
from edgewise.circuit.model import Circuit
from edgewise.circuit.notation import FoundCircuit
from edgewise.circuit.parts import is_known
from edgewise.circuit.parts import names as part_names
from edgewise.errors import (
    CircuitError,
    EdgewiseError,
    Message,
    Place,
    TextError,
    nearest,
    raise_all,
)
from edgewise.yamltext import LARGEST, Scalar, Tree, kind_of, read, scalar
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
    "waveforms",
)
"""The entries of a circuit text."""
DEEPEST: Final = 8
"""Circuits used as parts inside one another, at most."""
MOST_IDLE: Final = 32
"""Circuits in a text that nothing uses, at most; each is built to be checked."""
_INSIDE: Final = ("inputs", "nets", "join", "parts", "outputs")
"""The entries that say what is in a circuit."""


def read_file(path: Path, shown: str) -> str:
    """The text of a file; one clear error if there is none.

    Raises
    ------
    TextError
        Missing, a folder, too large, or not UTF-8.
    """
    try:
        shown.encode()  # whatever is made of it holds its name
        if path.exists() and not path.is_file():
            raise TextError(Message("no-file"), Place(shown))
        if path.stat().st_size > 4 * LARGEST:
            raise TextError(Message("file-large-characters", most=LARGEST), Place(shown))
        return path.read_text("utf-8-sig")
    except UnicodeEncodeError:
        raise TextError(Message("file-name-no-utf8"), Place(ascii(shown)[1:-1])) from None
    except UnicodeDecodeError as wrong:
        raise TextError(Message("file-no-utf8", start=wrong.start), Place(shown)) from None
    except OSError as wrong:
        raise TextError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), Place(shown)
        ) from None
    except ValueError:  # a zero byte
        raise TextError(Message("no-file-name"), Place(ascii(shown)[1:-1])) from None


def documents(text: str, file: str, first_line: int = 1) -> tuple[Keys, ...]:
    """The circuits of a text, the main one first; their entries are known, their names differ.

    Parameters
    ----------
    text : str
        YAML, a circuit in each document.
    file : str
        For places.
    first_line : int
        Number of the text's first line in the file.

    Raises
    ------
    TextError or Problems
        All that is no circuit text.

    Examples
    --------
    >>> [title(one) for one in documents("{circuit: a, outputs: {}}", "a.yaml")]
    ['a']
    """
    trees = read(text, file, first_line)
    if not trees:
        raise TextError(Message("circuit-empty"), Place(file))
    errors: list[EdgewiseError] = []
    found: dict[str, Keys] = {}
    for tree in trees:
        try:
            one = _top(tree)
            if title(one) in found:
                first = found[title(one)].place.line
                raise TextError(Message("circuit-twice", name=title(one), first=first), one.place)
            found[title(one)] = one
        except EdgewiseError as wrong:
            errors.append(wrong)
    raise_all(errors)
    return tuple(found.values())


def title(text: Keys) -> str:
    """What a circuit is called in its text."""
    named = text.get("circuit")
    return scalar(named, "circuit").text if named is not None else ""


def _top(tree: Tree) -> Keys:
    if not isinstance(tree, Keys):
        raise TextError(Message("circuit-expected", found=kind_of(tree)), tree.place)
    errors: list[EdgewiseError] = list(tree.refuse_other_keys(ENTRIES, "circuit"))
    if tree.get("circuit") is None:
        errors.append(TextError(Message("circuit-entry"), tree.place))
    if not errors and not any(tree.get(entry) is not None for entry in _INSIDE):
        errors.append(TextError(Message("circuit-bare", name=title(tree)), tree.place))
    raise_all(errors)
    return tree


def _part_types(document: Keys) -> Iterator[str]:
    """What stands behind each ``part:`` of a circuit."""
    section = document.get("parts")
    for _, body in section.pairs if isinstance(section, Keys) else ():
        named = body.get("part") if isinstance(body, Keys) else None
        if isinstance(named, Scalar):
            yield named.text


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where circuits used as parts are found: beside in the text, then in the folder."""

    folder: Path | None
    file: str
    documents: tuple[Keys, ...]
    trail: tuple[tuple[str, str], ...] = ()
    allowance: Allowance = field(default_factory=Allowance, compare=False)
    """What the circuits of this text may still make, one design at a time."""
    """File and title of the circuits around the one that is being read."""

    def inside(self, file: str, title: str) -> Shelf:
        """The same shelf, seen from inside one of its circuits."""
        return replace(self, trail=(*self.trail, (file, title)))

    def find(self, name: str, place: Place) -> FoundCircuit | None:
        """Find the circuit of this name; nothing if it must be a part type."""
        for document in self.documents:
            if title(document) == name:
                return self.enter(document, name, place)
        if not importers.is_circuit_file(name):
            if not is_known(name):
                there = [*part_names(), *map(title, self.documents[1:])]
                raise CircuitError(
                    Message("part-unknown", name=name, suggestion=nearest(name, there))
                )
            return None
        path = self._path(name, place)
        if (importer := importers.find(name)) is not None:
            circuit = importer.read(read_file(path, str(path)), str(path)).circuit
            return FoundCircuit(path.stem, (), lambda _: circuit)
        trees = documents(read_file(path, str(path)), str(path))
        return replace(self, file=str(path), documents=trees).enter(trees[0], path.stem, place)

    def enter(self, document: Keys, name: str, place: Place) -> FoundCircuit:
        """One of the documents as a circuit to use; refused inside itself."""
        this = (self.file, title(document))
        if this in self.trail:
            ring = [title for _, title in (*self.trail[self.trail.index(this) :], this)]
            raise TextError(Message("circuit-in-itself", ring=" -> ".join(ring)), place)
        if len(self.trail) > DEEPEST:
            raise TextError(Message("circuits-deep", most=DEEPEST), place)
        return self.inside(*this).circuit(document, name)

    def circuit(self, document: Keys, name: str) -> FoundCircuit:
        """A document as a circuit, seen from inside it."""
        known = tuple(parameter.read(document))

        def build(given: Mapping[str, int]) -> Circuit:
            numbers = parameter.numbers(name, known, given)
            return notation.circuit(document, numbers, self.find, self.allowance)

        return FoundCircuit(name, tuple(one.name for one in known), build)

    def idle(self) -> Iterator[tuple[Keys, Shelf]]:
        """The documents that the first one does not use, and the shelf seen from inside each."""
        allowance = Allowance()
        used, waiting = {title(self.documents[0])}, [self.documents[0]]
        while waiting:
            named = set(_part_types(waiting.pop()))
            reached = [d for d in self.documents if title(d) in named - used]
            used |= {title(document) for document in reached}
            waiting += reached
        for document in self.documents:
            if title(document) not in used:
                yield (
                    document,
                    replace(self, trail=((self.file, title(document)),), allowance=allowance),
                )

    def _path(self, name: str, place: Place) -> Path:
        if self.folder is None:
            raise TextError(Message("circuit-without-folder", name=name[:80]), place)
        if Path(name).name != name:
            raise TextError(Message("circuit-elsewhere", name=name[:80]), place)
        path = self.folder / name
        try:
            if path.is_symlink():
                raise TextError(Message("file-is-link", name=name[:80]), place)
            if path.is_file():
                return path
            here = Path(place.file).name
            there = [p.name for p in importers.files_in(self.folder) if p.name != here]
        except OSError as wrong:  # such as a name that is too long
            raise TextError(
                Message("unreadable", name=name[:80], why=wrong.strerror or str(wrong)), place
            ) from None
        raise TextError(
            Message("circuit-unknown", name=name[:80], suggestion=nearest(name, there)), place
        )
