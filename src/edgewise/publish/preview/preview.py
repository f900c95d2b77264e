"""The preview of a lesson: its page in parts, made anew at every save, errors at their lines.

What is right stays: while the lesson has an error, the last good page is kept, and each error
stands at the line to which it belongs. A build never raises: whatever goes wrong in it becomes
an error on the page.
"""

from __future__ import annotations

import contextlib
import html
import time
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from edgewise import importers, lesson
from edgewise.errors import EdgewiseError, unforeseen
from edgewise.lesson import Report, pictures
from edgewise.lesson.memory import Memory
from edgewise.lesson.picking import Note
from edgewise.lesson.pieces import Said
from edgewise.publish import look
from edgewise.publish.html import page, render
from edgewise.publish.html.page import Policy
from edgewise.publish.preview.state import Built, Fault, Part, Remark, State
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
