"""Guests: what other packages bring, found by their entry points, loaded when they are wanted.

A package that brings something names it in its own metadata, under a group of ours (entry points
specification, Python Packaging User Guide). `docs/guests.md` says what each group expects. What is
wrong with a guest is told with its name and its package, and hinders nothing else: an error where
that guest was asked for, a `GuestWarning` where all of them are gone through.
"""

from __future__ import annotations

import os
import re
import sys
import warnings
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, wraps
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from typing import TYPE_CHECKING, Any, Final, Generic, ParamSpec, TypeVar

from edgewise.errors import Caution, EdgewiseError, Fact, Message, visible
from edgewise.listing import both, either

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

OURS: Final = "edgewise."
"""What the names of all groups begin with."""
_NAME: Final = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_FIELDS: Final[Mapping[str, type]] = {
    "str": str,
    "int": int,
    "tuple": tuple,
    "frozenset": frozenset,
}
"""What is expected in a field of what a guest brings, by how its type is written."""
_LONGEST: Final = 200
"""Characters of what a guest says itself."""

Thing = TypeVar("Thing")
Given = ParamSpec("Given")
Made = TypeVar("Made")


class GuestError(EdgewiseError):
    """What another package brings can't be used."""


class GuestWarning(Caution):
    """The same, where nobody asked for it by its name."""


class _Line(Message):
    """What is said of a guest on one line, and no more of it than is read."""

    __slots__ = ()

    def __str__(self) -> str:
        line = " ".join(super().__str__().split())
        return line if len(line) <= _LONGEST else f"{line[:_LONGEST]}…"


@dataclass(frozen=True, slots=True)
class Guest:
    """An entry point of another package.

    Parameters
    ----------
    what : str
        ``part``, ``cost model``.
    name, package : str
        Of the entry point and of its distribution.
    entry : EntryPoint

    Examples
    --------
    >>> from importlib.metadata import EntryPoint
    >>> print(Guest("part", "inhibit", "tide-mill", EntryPoint("inhibit", "gates:IT", "")))
    part inhibit of the package tide-mill
    """

    what: str
    name: str
    package: str
    entry: EntryPoint

    def __str__(self) -> str:
        return visible(str(Message("guest", what=self.what, name=self.name, package=self.package)))

    def error(self, message: str, /, **facts: Fact) -> GuestError:
        """What is wrong with it: a message of the commands, in one line."""
        return GuestError(Message("within", what=str(self), told=_Line(message, **facts)))

    def failed(self, wrong: BaseException, doing: str) -> GuestError:
        """What went wrong in its own code while `doing`, which names the message."""
        return self.error(doing, error=_named(wrong))

    def load(self, kind: type[Thing]) -> Thing:
        """What it brings.

        Raises
        ------
        GuestError
            It can't be imported, is of another kind, or calls itself by another name.
        """
        found = _loaded(self)
        if isinstance(found, GuestError):
            raise found
        if not isinstance(found, kind):
            raise self.error("guest-found", found=_kind(found), expected=_a(kind.__name__))
        if getattr(found, "name", self.name) != self.name:
            raise self.error("guest-renamed", found=found.name)  # type: ignore[attr-defined]
        self._look_through(found)
        return found

    def _look_through(self, found: object) -> None:
        """Refuse a dataclass with a field of another type than it declares."""
        for field in fields(found) if is_dataclass(found) else ():
            expected = _FIELDS.get(str(field.type).partition("[")[0])
            value = getattr(found, field.name)
            if expected is not None and not isinstance(value, expected):
                raise self.error(
                    "guest-field",
                    field=field.name,
                    found=_kind(value),
                    expected=_a(expected.__name__),
                )

    def all_of(self, found: object, field: str, kind: type) -> None:
        """Refuse a tuple in a field that is not of one kind of things.

        Raises
        ------
        GuestError
        """
        for item in getattr(found, field):
            if not isinstance(item, kind):
                raise self.error(
                    "guest-among", found=_kind(item), field=field, expected=_a(kind.__name__)
                )

    def guarded(
        self,
        call: Callable[Given, Made],
        *kinds: type,
        of: type | None = None,
        expected: Fact = "",
    ) -> Callable[Given, Made]:
        """The same function, with what goes wrong in it told as the guest's.

        Parameters
        ----------
        call : function
        kinds : types
            Of which one is expected back; none: any.
        of : type, optional
            Of what the tuple that is expected back is made.
        expected : Fact
            What that is, where the names of the types don't tell.

        Examples
        --------
        >>> from importlib.metadata import EntryPoint
        >>> guest = Guest("cost model", "oak", "tide-mill", EntryPoint("oak", "oak:OAK", ""))
        >>> guest.guarded(lambda: 1 // 0)()  # doctest: +ELLIPSIS
        Traceback (most recent call last):
        edgewise.guests.GuestError: cost model oak of the package tide-mill: it failed with ...
        """

        @wraps(call)
        def called(*given: Given.args, **named: Given.kwargs) -> Made:
            try:
                made = call(*given, **named)
            except (EdgewiseError, MemoryError):
                raise
            except (Exception, SystemExit) as wrong:
                raise self.failed(wrong, "guest-failed") from wrong
            if kinds and not isinstance(made, kinds):
                wanted = expected or either(_a(kind.__name__) for kind in kinds)
                raise self.error("guest-gave", found=_kind(made), expected=wanted)
            if of is not None and isinstance(made, tuple):
                for item in made:
                    if not isinstance(item, of):
                        found = _kind(item)
                        raise self.error("guest-gave", found=found, expected=_a(of.__name__))
            return made

        return called


def _named(wrong: BaseException) -> str:
    return f"{type(wrong).__name__}: {wrong}".rstrip(": ")


def _kind(thing: object) -> Fact:
    return "None" if thing is None else _a(type(thing).__name__)


def _a(name: str) -> Fact:
    if name in ("None", "NoneType"):
        return "None"
    return Message("one-of", begins="vowel" if name[0] in "AEIOUaeiou" else "other", kind=name)


@cache
def _loaded(guest: Guest) -> object:
    """What an entry point names, or what is wrong with it; a package is read once."""
    try:
        return guest.entry.load()
    except (Exception, SystemExit) as wrong:  # noqa: BLE001  # it is not our code
        return guest.failed(wrong, "guest-unimported")


@dataclass(frozen=True, slots=True)
class Group(Generic[Thing]):
    """The guests of one kind; each room has the group that it reads.

    Parameters
    ----------
    name : str
        ``edgewise.parts``.
    what : str
        What one is called.
    kind : type
        What its entry points name.
    own : function
        The names that edgewise has itself, which no guest takes.
    guard : function
        The same thing, with `Guest.guarded` around its functions.
    trial : function, optional
        Uses it once, where its author wants to know whether it works.
    """

    name: str
    what: str
    kind: type[Thing]
    own: Callable[[], Collection[str]]
    guard: Callable[[Guest, Thing], Thing]
    trial: Callable[[Thing], object] | None = None

    def guests(self) -> tuple[Guest, ...]:
        """All of them as they are named, right or wrong, in the order of their names."""
        return tuple(
            Guest(self.what, entry.name, package, entry)
            for package, entry in _entries()
            if entry.group == self.name
        )

    def names(self) -> tuple[str, ...]:
        """The names under which one can be asked for."""
        own = self.own()
        there = dict.fromkeys(guest.name for guest in self.guests())
        return tuple(name for name in there if name not in own and _NAME.fullmatch(name))

    def find(self, name: str) -> Thing | None:
        """The guest of this name, loaded; nothing if there is none.

        Raises
        ------
        GuestError
            It can't be used, or two packages bring one.
        """
        there = [guest for guest in self.guests() if guest.name == name]
        return self._load(there) if there and name in self.names() else None

    def all(self) -> Iterator[Thing]:
        """All that can be used; a `GuestWarning` for each other one."""
        for name in dict.fromkeys(guest.name for guest in self.guests()):
            try:
                yield self._load([guest for guest in self.guests() if guest.name == name])
            except GuestError as wrong:
                warn(wrong)

    def check(self, guest: Guest) -> None:
        """Raise an error if one of them can't be used."""
        thing = self._load([one for one in self.guests() if one.name == guest.name])
        try:
            if self.trial is not None:
                self.trial(thing)
        except GuestError:
            raise
        except EdgewiseError as wrong:
            raise wrong.within(str(guest)) from None

    def _load(self, there: list[Guest]) -> Thing:
        first = there[0]
        if not _NAME.fullmatch(first.name):
            raise first.error("guest-name")
        if first.name in self.own():
            raise first.error("guest-name-taken", what=_a(self.what))
        if len(there) > 1:
            packages = both(guest.package for guest in there)
            raise GuestError(
                Message("guests-same", what=self.what, name=first.name, packages=packages)
            )
        return self.guard(first, first.load(self.kind))


def warn(wrong: GuestError) -> None:
    """Tell what is wrong with a guest that nobody asked for; once in a process."""
    warnings.warn(wrong.message, GuestWarning, stacklevel=3)


def warn_plainly() -> None:
    """From now on write a `Caution` as one line, as the other warnings of a command."""
    usual = warnings.formatwarning

    def line(message: Warning | str, category: type[Warning], *place: Any, **further: Any) -> str:
        if issubclass(category, Caution):
            return f"warning: {message}\n"
        return usual(message, category, *place, **further)

    warnings.formatwarning = line


@cache
def _entries() -> tuple[tuple[str, EntryPoint], ...]:
    """The entry points of all our groups, each with its package, in the order of their names."""
    if not any(map(_may_have_guests, sys.path)):
        return ()
    from importlib.metadata import distributions

    found: list[tuple[str, EntryPoint]] = []
    seen: set[str] = set()
    for distribution in distributions():
        package = str(distribution.metadata["Name"])
        # As in an import, the first of a name on the path is the one that counts.
        key = re.sub(r"[-_.]+", "-", package).lower()
        if key in seen:
            continue
        seen.add(key)
        try:
            entries = [e for e in distribution.entry_points if e.group.startswith(OURS)]
        except Exception as wrong:  # noqa: BLE001  # whatever stands in the file of a package
            told = " ".join(f"{type(wrong).__name__}: {wrong}".split())[:_LONGEST]
            warn(GuestError(Message("guest-entry-points", package=package, why=told)))
            continue
        found += [(package, entry) for entry in entries]
    return tuple(sorted(found, key=lambda one: (one[1].group, one[1].name, one[0])))


def _may_have_guests(folder: str) -> bool:
    """Whether a package there may name one of our groups.

    importlib.metadata takes 50 ms to import, a look into the folders 5: few have guests.
    """
    try:
        there = os.scandir(folder or ".")
    except NotADirectoryError:  # an archive, which only importlib.metadata can look into
        return True
    except OSError:
        return False
    with there:
        return any(
            _names_us(Path(entry.path, "entry_points.txt"))
            for entry in there
            if entry.name.endswith((".dist-info", ".egg-info"))
        )


def _names_us(file: Path) -> bool:
    try:
        return f"[{OURS}".encode() in file.read_bytes()
    except OSError:
        return False


def modules(package: str) -> tuple[str, ...]:
    """The modules in a folder of ours in which each file is one thing, by name.

    Examples
    --------
    >>> modules("edgewise.study.cost.models")
    ('cmos', 'gates', 'hc74')
    """
    return tuple(sorted(one.name for one in iter_modules(import_module(package).__path__)))
