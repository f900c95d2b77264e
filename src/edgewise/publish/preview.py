"""The preview of a lesson: its page in parts, made anew at every save, errors at their lines.

What is right stays: while the lesson has an error, the last good page is kept, and each error
stands at the line to which it belongs.
"""

from __future__ import annotations

import hashlib
import html
import json
import re
import textwrap
import time
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any, Final

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson import Report, pictures
from edgewise.lesson.blocks import Said
from edgewise.lesson.picking import Note
from edgewise.publish import markup, page, script, stage
from edgewise.shelf import read_file

MARK: Final = "<!--part-->"
"""Stands before each part in the page."""
_META: Final = re.compile(r'<meta http-equiv="Content-Security-Policy" content="[^"]*">\n')
_POLICY: Final = re.compile(r'content="(default-src[^"]*)"')
_EMPTY: Final = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<header>
<h1>{title}</h1>
</header>
<main>
</main>
</body>
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
    """An error, and the line of the last good page at which it is shown; 0: above all."""

    line: int
    message: str
    details: str = ""
    """What else there is to look at, such as the rows that make a claim false."""

    def __str__(self) -> str:
        """The message, and below it the details, indented."""
        below = f"\n{textwrap.indent(self.details, '  ')}" if self.details else ""
        return f"{self.message}{below}"


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said of the lesson's example, though nothing is wrong; the line as of a `Fault`.

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
class State:
    """What the page shows.

    Parameters
    ----------
    version : int
        Grows by 1 at every save.
    title, head : str
        The title, and the HTML under it.
    parts : tuple of Part
    faults : tuple of Fault
        What is wrong now; the parts are those of the last good lesson then.
    remarks : tuple of Remark
        What the example leaves unseen, and why it was chosen; none beside faults.
    seconds : float
        That it took.
    """

    version: int
    title: str
    head: str
    parts: tuple[Part, ...]
    faults: tuple[Fault, ...]
    remarks: tuple[Remark, ...] = ()
    seconds: float = 0.0

    def data(self, known: set[str]) -> str:
        """What a page is told, as JSON in one line.

        Parameters
        ----------
        known : set of str
            Keys of the parts whose HTML that page has had; those told now are added.
        """
        parts = []
        for part in self.parts:
            key = part.key
            told: dict[str, Any] = {"line": part.line, "key": key}
            if key not in known:
                told["html"] = part.html
                known.add(key)
            if part.said:
                told |= {"said": part.said, "rows": list(part.rows)}
            parts.append(told)
        return json.dumps(
            {
                "version": self.version,
                "title": self.title,
                "head": self.head,
                "parts": parts,
                "faults": [asdict(fault) for fault in self.faults],
                "remarks": [asdict(remark) for remark in self.remarks],
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
    >>> [fault.message.partition(": ")[2].partition(";")[0] for fault in preview.build().faults]
    ['the catalogue has no design half']
    """

    path: Path
    state: State = field(init=False)
    good: tuple[str, int, Report] | None = None
    """Text, version and report of the last good lesson."""

    def __post_init__(self) -> None:
        self.state = State(0, self.path.stem, "", (), ())

    def seen(self) -> tuple[tuple[str, int, int, int], ...]:
        """Name, time, size and number of every file that the lesson may depend on."""
        found = []
        try:
            for entry in sorted(self.path.parent.iterdir()):
                suffix = entry.suffix.lower()
                if entry.name == self.path.name or suffix in (".yaml", ".yml", *pictures.KINDS):
                    told = entry.stat()
                    found.append((entry.name, told.st_mtime_ns, told.st_size, told.st_ino))
        except OSError:
            return tuple(found)  # it goes just now; the next look tells
        return tuple(found)

    def build(self) -> State:
        """The state after a save."""
        start = time.perf_counter()
        version = self.state.version + 1
        text = ""
        try:
            text = read_file(self.path, str(self.path))
            report = lesson.check_text(text, str(self.path), self.path.parent)
            parts = parts_of(report)
        except EdgewiseError as wrong:
            shift = _Shift(self.good[0] if self.good else "", text)
            faults = tuple(_fault(single, self.path, shift) for single in wrong.parts())
            taken = time.perf_counter() - start
            self.state = replace(
                self.state, version=version, faults=faults, remarks=(), seconds=taken
            )
            return self.state
        self.good = (text, version, report)
        title, head = report.lesson.front.title, markup.facts(report)
        remarks = tuple(_remark(note) for note in report.notes)
        taken = time.perf_counter() - start
        self.state = State(version, title, head, parts, (), remarks, taken)
        return self.state

    def page(self) -> tuple[str, str]:
        """The page of the last good lesson, to be opened anew, and its policy."""
        if self.good is None:
            empty = _EMPTY.format(
                title=html.escape(self.path.stem), style=page.style() + stage.style()
            )
            return _live(empty, 0), _policy(page.style() + stage.style())
        _, version, report = self.good
        marked = "".join(f"{MARK}{told}" for _, told in markup.parts(report))
        made = page.html_of(report, marked)
        return _live(_META.sub("", made), version), _policy_of(made)


def parts_of(report: Report) -> tuple[Part, ...]:
    """The parts of a page; those of ``say`` blocks are empty and have what is said."""
    said = {place.line: piece for place, piece in report.pieces.items() if isinstance(piece, Said)}
    made = []
    for line, told in markup.parts(report):
        note = said.get(line)
        made.append(Part(line, told, note.text, note.rows) if note else Part(line, told))
    return tuple(made)


def _fault(wrong: EdgewiseError, path: Path, shift: _Shift) -> Fault:
    place = wrong.place
    here = place is not None and Path(place.file) == path
    line = shift.back(place.line) if here and place is not None and place.line else 0
    told = str(wrong)
    if here:
        told = told.removeprefix(f"{path}:")
        told = re.sub(r"^(\d+):(\d+): ", r"Line \1, column \2: ", told)
        told = re.sub(r"^(\d+): ", r"Line \1: ", told).lstrip()
    return Fault(line, told, wrong.details)


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


def _live(made: str, version: int) -> str:
    """A page that keeps itself up to date: with our script, and a policy from the server."""
    sheet = '<link rel="stylesheet" href="/preview.css">\n</head>'
    told = f'<script type="module" src="/preview.js" data-version="{version}"></script>\n</body>'
    before, _, behind = made.replace("</head>", sheet, 1).rpartition("</body>")
    return f"{before}{told}{behind}"


def _policy_of(made: str) -> str:
    """The policy of a page that may also ask this server, and nobody else."""
    found = _POLICY.search(made)
    assert found is not None
    told = re.sub(
        r"(?<=script-src|.style-src) [^;]*",
        lambda m: m[0].replace(" 'none'", "") + " 'self'",
        html.unescape(found[1]),
    )
    return f"{told}; connect-src 'self'; frame-ancestors 'none'"


def _policy(style: str) -> str:
    return (
        f"default-src 'none'; script-src 'self'; style-src 'sha256-{page.digest(style)}' 'self';"
        " img-src data:; font-src data:; base-uri 'none'; form-action 'none'; connect-src 'self';"
        " frame-ancestors 'none'"
    )


_NOTES: Final = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Notes</title>
<link rel="stylesheet" href="/notes.css">
</head>
<body>
<main aria-live="polite"></main>
<script type="module" src="/notes.js"></script>
</body>
</html>
"""


def notes_page() -> tuple[str, str]:
    """The teacher's notes, which follow what is projected: the page, and its policy."""
    return _NOTES, "default-src 'none'; script-src 'self'; style-src 'self'; base-uri 'none'"


def sources() -> dict[str, tuple[str, str]]:
    """The script and style files that the page asks for: path, media type, text."""
    return {
        "/preview.js": ("text/javascript", script.joined("stage", "preview")),
        "/preview.css": ("text/css", script.source("preview.css")),
        "/notes.css": ("text/css", script.source("notes.css")),
        "/notes.js": ("text/javascript", script.joined("notes")),
    }
