"""What the stage says of the rows of a run, asked of its own script in one process of node."""

from __future__ import annotations

import json
import shutil
import subprocess
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

import pytest

from edgewise.design import Design, Feed
from edgewise.publish.stage import custom_element, design_data
from edgewise.publish.stage.adder_rows import adders
from edgewise.publish.stage.feedback import feedback
from edgewise.publish.stage.selection import selectors
from edgewise.publish.stage.storage import stores
from edgewise.trace import Trace
from edgewise.words import messages
from scripts import make_script
from tests.web import workshop


@lru_cache(maxsize=1)
def _teller() -> subprocess.Popen[str]:
    if shutil.which("node") is None:
        pytest.fail(f"the stage's sentences need node; {workshop.ADVICE}", pytrace=False)
    text = (workshop.HERE / "teller.js").read_text("utf-8")
    script = Path(mkdtemp(prefix="edgewise-")) / "teller.mjs"
    script.write_text(make_script.made(text, "--platform=node"), "utf-8")
    return subprocess.Popen(
        ["node", str(script)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


@lru_cache(maxsize=256)
def _design(of: _Of, language: str) -> dict[str, object]:
    design = of.design
    return {
        **design_data.design(_fed(design), messages.of(language)),
        "stores": [store.data() for store in stores(design)],
        "adders": [row.data() for row in adders(design)],
        "feedback": [one.data() for one in feedback(design)],
        "selectors": [one.data() for one in selectors(design)],
    }


def _fed(design: Design) -> Design:
    """The design with X at inputs that its procedure forgets; its rows are given anyway."""
    phases = []
    for phase in design.procedure:
        known = {feed.input for feed in phase.feeds}
        more = tuple(Feed(name, None) for name in design.netlist.inputs if name not in known)
        phases.append(replace(phase, feeds=(*phase.feeds, *more)))
    return replace(design, procedure=tuple(phases))


class _Of:
    """A design as a key: the object itself, since comparing all of one takes long."""

    def __init__(self, trace: Trace) -> None:
        self.design = trace.design

    def __hash__(self) -> int:
        return id(self.design)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Of) and other.design is self.design


def of_stage(language: str = "en") -> dict[str, str]:
    """The messages that a page gives its stage."""
    words = messages.of(language)
    return {"language": words.language, "messages": words.source(*custom_element.MESSAGES)}


def every(trace: Trace, language: str = "en") -> tuple[str, ...]:
    """What is said of each row of a run."""
    asked = {
        "design": _design(_Of(trace), language),
        "rows": workshop.digits(trace.rows),
        "operands": {name: str(value) for name, value in trace.operands.items()},
        "words": of_stage(language),
    }
    process = _teller()
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write(f"{json.dumps(asked)}\n")
    process.stdin.flush()
    told = process.stdout.readline()
    assert told, "the script failed; its message is above"
    return tuple(json.loads(told))


def told(trace: Trace, row: int, language: str = "en") -> str:
    """What is said of a row."""
    return _kept(_Run(trace), language)[row]


class _Run:
    """A run as a key, by what it is."""

    def __init__(self, trace: Trace) -> None:
        self.trace = trace

    def __hash__(self) -> int:
        return hash((id(self.trace.design), self.trace.rows))

    def __eq__(self, other: object) -> bool:
        mine = self.trace
        if not isinstance(other, _Run):
            return False
        theirs = other.trace
        return (mine.design is theirs.design) and (mine.rows, dict(mine.operands)) == (
            theirs.rows,
            dict(theirs.operands),
        )


@lru_cache(maxsize=64)
def _kept(run: _Run, language: str) -> tuple[str, ...]:
    return every(run.trace, language)
