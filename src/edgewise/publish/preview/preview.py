"""The preview of a lesson: its page in parts, made anew at every save, errors at their lines.

What is right stays: while the lesson has an error, the last good page is kept, and each error
stands at the line to which it belongs. A build never raises: whatever goes wrong in it becomes
an error on the page.
"""

from __future__ import annotations

import contextlib
import hashlib
import html
import json
import textwrap
import time
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any, Final

from edgewise import importers, lesson
from edgewise.errors import EdgewiseError, unforeseen
from edgewise.lesson import Report, pictures
from edgewise.lesson.memory import Memory
from edgewise.lesson.picking import Note
from edgewise.lesson.pieces import Said
from edgewise.publish import look
from edgewise.publish.html import page, render
from edgewise.publish.html.page import Frame, Policy
from edgewise.publish.stage import custom_element, javascript
from edgewise.shelf import read_file

MARK: Final = "<!--part-->"
"""Stands before each part in the page."""
_SERVED: Final = ("connect-src 'self'", "frame-ancestors 'none'")
_LINK: Final = '<link rel="stylesheet" href="preview.css">\n'
_SCRIPT: Final = '<script type="module" src="preview.js" data-version="{}"></script>\n'
_EMPTY: Final = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
{links}</head>
<body>
<header>
<h1>{title}</h1>
</header>
<main>
</main>
{script}</body>
</html>
"""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the page: the line in which it begins, its HTML, and what is said there."""

    line: int
    html: str
    said: str = ""
    rows: tuple[int, ...] = ()

    @property
    def key(self) -> str:
        """Tells parts with different HTML apart."""
        return hashlib.sha256(self.html.encode()).hexdigest()[:20]


@dataclass(frozen=True, slots=True)
class Fault:
    """An error, and the line of the last good page at which it is shown; 0: above all.

    Examples
    --------
    >>> print(Fault(3, "there is no net named Q", "Line 3, column 9"))
    Line 3, column 9: there is no net named Q
    """

    line: int
    message: str
    where: str = ""
    """Where it is, in words; empty for the lesson as a whole."""
    details: str = ""
    """What else there is to look at, such as the rows that make a claim false."""

    def __str__(self) -> str:
        """Place and message, and below them the details, indented."""
        before = f"{self.where}: " if self.where else ""
        below = f"\n{textwrap.indent(self.details, '  ')}" if self.details else ""
        return f"{before}{self.message}{below}"


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said though the lesson is right; the line as of a `Fault`.

    Examples
    --------
    >>> print(Remark(5, "warning", "Line 5, column 11", "C is never set."))
    Line 5, column 11: warning: C is never set.
    """

    line: int
    kind: str
    """``warning`` or ``note``."""
    where: str
    message: str

    def __str__(self) -> str:
        return f"{self.where}: {self.kind}: {self.message}"


@dataclass(frozen=True, slots=True)
class Built:
    """What one build gave: a page, or what is wrong.

    Parameters
    ----------
    text : str
        Of the lesson, as it was read.
    frame : Frame or None
        Nothing if the lesson is wrong.
    parts : tuple of Part
    faults : tuple of Fault
        At lines of `text`.
    remarks : tuple of Remark
        What the example leaves unseen, and why it was chosen.
    seconds : float
        That it took.
    """

    text: str
    frame: Frame | None = None
    parts: tuple[Part, ...] = ()
    faults: tuple[Fault, ...] = ()
    remarks: tuple[Remark, ...] = ()
    seconds: float = 0.0

    def data(self) -> dict[str, Any]:
        """All of it as plain data."""
        return asdict(self)

    @classmethod
    def of(cls, told: Mapping[str, Any]) -> Built:
        """What `data` told.

        Examples
        --------
        >>> built = Built("text", parts=(Part(1, "<p>"),), faults=(Fault(3, "no net"),))
        >>> Built.of(json.loads(json.dumps(built.data()))) == built
        True
        """
        return cls(
            told["text"],
            None if told["frame"] is None else Frame(**told["frame"]),
            tuple(Part(**{**one, "rows": tuple(one["rows"])}) for one in told["parts"]),
            tuple(Fault(**one) for one in told["faults"]),
            tuple(Remark(**one) for one in told["remarks"]),
            told["seconds"],
        )


@dataclass(frozen=True, slots=True)
class State:
    """What the page shows.

    Parameters
    ----------
    version : int
        Grows by 1 at every build.
    frame : Frame or None
        What stands around the parts; nothing before a first good build.
    name : str
        Title of a page without a frame.
    parts : tuple of Part
    faults : tuple of Fault
        What is wrong now; the parts are those of the last good lesson then.
    remarks : tuple of Remark
        What the example leaves unseen, and why it was chosen; none beside faults.
    seconds : float
        That it took.
    """

    version: int
    name: str
    frame: Frame | None = None
    parts: tuple[Part, ...] = ()
    faults: tuple[Fault, ...] = ()
    remarks: tuple[Remark, ...] = ()
    seconds: float = 0.0

    def data(self, known: set[str], further: tuple[Remark, ...] = ()) -> str:
        """What a page is told, as JSON in one line.

        Parameters
        ----------
        known : set of str
            Keys of the parts whose HTML that page has; made those of this state.
        further : tuple of Remark
            Said above all.
        """
        parts = []
        keys: set[str] = set()
        for part in self.parts:
            key = part.key
            told: dict[str, Any] = {"line": part.line, "key": key}
            if key not in known | keys:
                told["html"] = part.html
            keys.add(key)
            if part.said:
                told |= {"said": part.said, "rows": list(part.rows)}
            parts.append(told)
        known.clear()
        known |= keys
        return json.dumps(
            {
                "version": self.version,
                "title": self.frame.title if self.frame else self.name,
                "head": self.frame.facts if self.frame else "",
                "parts": parts,
                "faults": [asdict(fault) for fault in self.faults],
                "remarks": [asdict(remark) for remark in (*further, *self.remarks)],
            }
        )


@dataclass(slots=True)
class Preview:
    r"""A lesson that is looked at while it is written.

    Parameters
    ----------
    path : Path
        The lesson.

    Examples
    --------
    >>> import tempfile
    >>> path = Path(tempfile.mkdtemp()) / "rain.md"
    >>> _ = path.write_text("---\ntitle: Rain\ndesign: half\n---\nText", "utf-8")
    >>> preview = Preview(path)
    >>> [fault.message.partition(";")[0] for fault in preview.build().faults]
    ['the catalogue has no design half']
    """

    path: Path
    state: State = field(init=False)
    good: str = ""
    """Text of the last good lesson."""
    memory: Memory = field(default_factory=Memory)

    def __post_init__(self) -> None:
        self.state = State(0, self.path.stem)

    def seen(self) -> tuple[tuple[str, int, int, int], ...]:
        """Name, time, size and number of every file that the lesson may depend on."""
        found = []
        try:
            entries = sorted(self.path.parent.iterdir())
        except OSError:
            return ()  # the folder is away; what is built then says so
        watched = {*pictures.KINDS, *importers.suffixes()}  # of files that a lesson may use
        for entry in entries:
            suffix = entry.suffix.lower()
            if entry.name != self.path.name and suffix not in watched:
                continue
            with contextlib.suppress(OSError):  # it goes just now, or leads nowhere
                told = entry.stat()
                found.append((entry.name, told.st_mtime_ns, told.st_size, told.st_ino))
        return tuple(found)

    def build(self) -> State:
        """The state after a save, built in this process."""
        return self.take(build(self.path, self.memory))

    def take(self, built: Built) -> State:
        """The state after a build."""
        version = self.state.version + 1
        if built.frame is None:
            shift = _Shift(self.good, built.text)
            faults = tuple(
                replace(fault, line=shift.back(fault.line) if fault.line else 0)
                for fault in built.faults
            )
            self.state = replace(
                self.state, version=version, faults=faults, remarks=(), seconds=built.seconds
            )
            return self.state
        self.good = built.text
        self.state = State(
            version, self.path.stem, built.frame, built.parts, (), built.remarks, built.seconds
        )
        return self.state

    def page(self) -> tuple[str, Policy]:
        """The page of the last good lesson, to be opened anew, and its policy."""
        sheet = page.style() + custom_element.style()
        policy = Policy(("'self'",), ("'self'", page.hashed(sheet)), _SERVED)
        told = _SCRIPT.format(self.state.version)
        around = self.state.frame
        if around is None:
            title = html.escape(self.state.name)
            return _EMPTY.format(title=title, style=sheet, links=_LINK, script=told), policy
        body = "".join(f"{MARK}{part.html}" for part in self.state.parts)
        return page.framed(around, body, sheet, told, links=_LINK), policy


def build(path: Path, memory: Memory | None = None) -> Built:
    """Build a lesson once. It never raises: whatever goes wrong is told in what it gives.

    `memory` is that of the build before.
    """
    start = time.perf_counter()
    text = ""
    try:
        text = read_file(path, str(path))
        report = lesson.check_text(text, str(path), path.parent, memory)
        parts, around = parts_of(report), page.frame(report)
        remarks = tuple(_remark(note) for note in report.notes)
    except EdgewiseError as wrong:
        faults = tuple(_fault(single, path) for single in wrong.parts())
        return Built(text, faults=faults, seconds=time.perf_counter() - start)
    except (KeyboardInterrupt, GeneratorExit):
        raise
    except BaseException as wrong:  # noqa: BLE001  # a library may panic, or leave the program
        faults = (Fault(0, unforeseen(wrong)),)
        return Built(text, faults=faults, seconds=time.perf_counter() - start)
    return Built(text, around, parts, (), remarks, time.perf_counter() - start)


def parts_of(report: Report) -> tuple[Part, ...]:
    """The parts of a page; those of ``say`` blocks are empty and have what is said."""
    said = {place.line: piece for place, piece in report.pieces.items() if isinstance(piece, Said)}
    made = []
    for part in render.made(report).parts:
        note = said.get(part.line)
        told = (note.text, note.rows) if note else ()
        made.append(Part(part.line, part.html, *told))
    return tuple(made)


def _fault(wrong: EdgewiseError, path: Path) -> Fault:
    place = wrong.place
    if place is None:
        return Fault(0, wrong.message, details=wrong.details)
    if Path(place.file) != path:
        return Fault(0, wrong.message, str(place), wrong.details)
    where = f"Line {place.line}" if place.line else ""
    if place.line and place.column:
        where += f", column {place.column}"
    return Fault(place.line, wrong.message, where, wrong.details)


def _remark(note: Note) -> Remark:
    place = note.place
    return Remark(place.line, note.kind, f"Line {place.line}, column {place.column}", note.text)


class _Shift:
    """Where a line of the text now stands in the text of the last good page."""

    def __init__(self, before: str, now: str) -> None:
        old, new = before.splitlines(), now.splitlines()
        most = min(len(old), len(new))
        self.same = next((i for i in range(most) if old[i] != new[i]), most)
        tail = most - self.same
        below = next((i for i in range(tail) if old[-1 - i] != new[-1 - i]), tail)
        self.below = len(new) - below
        self.grown = len(new) - len(old)
        self.last = max(self.same + 1, len(old) - below)

    def back(self, line: int) -> int:
        """The line in the text before; for one that is new, the changed place."""
        if line <= self.same:
            return line
        if line > self.below:
            return line - self.grown
        return min(line, self.last)


_NOTES: Final = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Notes</title>
<link rel="stylesheet" href="notes.css">
</head>
<body>
<main aria-live="polite"></main>
<script type="module" src="notes.js"></script>
</body>
</html>
"""


def notes_page() -> tuple[str, Policy]:
    """The teacher's notes, which follow what is projected: the page, and its policy."""
    return _NOTES, Policy(("'self'",), ("'self'",), _SERVED)


def sources() -> dict[str, tuple[str, str]]:
    """The script and style files that the page asks for: path, media type, text."""
    return {
        "preview.js": ("text/javascript", javascript.script("previewed")),
        "preview.css": ("text/css", look.css(":root") + javascript.source("preview.css")),
        "notes.css": ("text/css", look.css(":root") + javascript.source("notes.css")),
        "notes.js": ("text/javascript", javascript.script("notes")),
    }
