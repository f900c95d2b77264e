"""The state of a preview: what its page shows, part by part, and what is wrong by now."""

from __future__ import annotations

import hashlib
import json
import textwrap
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from edgewise.publish.html.page import Frame


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
