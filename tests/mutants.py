"""Mutated lessons, circuits, options, answers and cache entries, and what may become of them.

Whatever a text is, `edgewise` may answer or refuse it with an `EdgewiseError`; any other
exception is a fault of ours. One seed gives one case, so that a failure is a number to keep.
"""

from __future__ import annotations

import atexit
import csv
import io
import json
import os
import random
import re
import shutil
import tempfile
from collections.abc import Callable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Final
from unittest import mock

from edgewise import blueprint, cache, catalogue, formula, nodes
from edgewise import lesson as lessons
from edgewise.cli import options
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lesson import document
from edgewise.lesson.blocks import BLOCKS
from edgewise.practice.marking import (
    answer_sheet,
    class_marks,
    feedback,
    mark_sheet,
    spreadsheet,
    table,
)
from edgewise.practice.marking.overrules import Overrules
from edgewise.publish.html import page as pages
from edgewise.publish.marking import sheet_page, sheet_print
from edgewise.publish.marking.feedback_sheet import Sheets
from edgewise.words import messages
from tests.practice.marking.classes import OnePaper, Papers, Plain, adder, asked, paper

ROOT: Final = Path(__file__).parents[1]
LESSONS: Final = tuple(p.read_text("utf-8") for p in sorted((ROOT / "examples").glob("*.md")))
SMALL: Final = ("serial-adder", "half-adder", "ripple-carry-adder", "johnson-counter")
OPTIONS: Final = ("a=22,b=0b101011", "w=[5,9,3]", "n=1..8,m=2..3", "6..12", "0,3,7", "2..16")
SPICE: Final = (
    "`", "``", "```", "? ", "`? ", "\x1b[2J", "\u202e", "\ud83d", "\ude00", "\u200b", "\u00a0",
    "&#27;", "&#x202e;", "\\e", "\\U00110000", "{", "}", "[", "]", "(", ")", "..", "...", "-", ":",
    ": ", "\n", "\n---\n", "|", ">", "\t", "'", '"', "**", "*", "2**63", "9" * 40, "0..99999999",
    "(i = 0..999)", "X", "mod", "div 0", "after", "for all a", "\x00", "\x85", "\u2028", "&a", "*a",
    "!!python/name:os.system", "#", "n", "é", "😀", "%", "?", "@", "~~~", "![x](y.png)",
)  # fmt: skip


def mutated(text: str, random_: random.Random) -> str:
    """The text after one to six changes: pieces put in, left out, doubled, or moved."""
    for _ in range(random_.randint(1, 6)):
        at = random_.randrange(len(text) + 1)
        end = min(len(text), at + random_.choice((1, 1, 2, 5, 20, 80)))
        piece = text[at:end]
        match random_.randrange(5):
            case 0:
                text = text[:at] + random_.choice(SPICE) + text[at:]
            case 1:
                text = text[:at] + text[end:]
            case 2:
                text = text[:at] + piece * random_.choice((2, 3, 40)) + text[end:]
            case 3:
                text = text[:at] + random_.choice(SPICE) + text[end:]
            case _:
                text = text[:at] + "".join(chr(ord(c) ^ 1 << random_.randrange(7)) for c in piece)
                text += text[end:]
    return text[:60_000]


_WORD: Final = re.compile(r"\w+")
NUMBERS: Final = ("0", "1", "1", "2", "2", "3", "3", "4", "5", "7", "8", "15", "-1", "n", "n-1")
_STANDING: Final = ("```", "---", "circuit:", "title:", "inputs:", "parts:", "operands:", "design:")
"""How lines begin that are neither moved nor left out: without them little can be read."""


def reworded(text: str, random_: random.Random) -> str:
    """The text after one to three changes that mostly leave it readable.

    A word becomes another of its line, a number another number; a line goes, is doubled under
    another name, or changes places with the next.
    """
    for _ in range(random_.choice((1, 1, 2, 3))):
        lines = text.split("\n")
        at = random_.randrange(len(lines))
        words = list(_WORD.finditer(lines[at]))
        figures = [word for word in words if word[0].isdigit()]
        names = [word for word in words if word not in figures]
        movable = not lines[at].startswith(_STANDING)
        match random_.randrange(7):
            case 0 | 1 if len(names) > 1:
                old, new = random_.sample(names, 2)
                lines[at] = _put(lines[at], old, new[0])
            case 2 | 3 if figures:
                lines[at] = _put(lines[at], random_.choice(figures), random_.choice(NUMBERS))
            case 4 if movable:
                del lines[at]
            case 5 if movable and names:
                lines.insert(at, _put(lines[at], names[0], f"{names[0][0]}2"))
            case 6 if movable and at and not lines[at - 1].startswith(_STANDING):
                lines[at - 1 : at + 1] = lines[at], lines[at - 1]
            case _ if words:
                lines[at] = _put(lines[at], random_.choice(words), random_.choice(NUMBERS[:9]))
        text = "\n".join(lines)
    return text


def answers(text: str) -> None:
    """Mark a class and make all that is made of it; no mark is without a cell that earned it."""
    content = table.decoded(text.encode("utf-8", "surrogatepass"))
    sheet = answer_sheet.of_table(table.of_text(content, "fuzz.csv"), _papers())
    marked = class_marks.mark(sheet)
    rows = mark_sheet.overruled(marked, Overrules())
    for row in rows:
        learner = row.result.learner
        for score in row.result.scores:
            written = score.asked - score.blank - score.unread
            assert 0 <= score.right <= score.followed <= written, (learner.line.number, score)
        assert learner.variant is not None or row.notes
        assert 0 <= row.total <= row.most
    lines = spreadsheet.content([mark_sheet.sheet(rows, Overrules())], ".csv").decode("utf-8-sig")
    for cells in csv.reader(io.StringIO(lines, newline="")):
        assert not any(cell.startswith(("=", "+", "@")) for cell in cells), cells
    feedback.doubts(marked)
    sheets = Sheets("Gauges", marked, rows, messages.of("en"))
    sheet_print.source(sheets, range(len(rows)))
    assert sheet_page.html_of(sheets, range(len(rows))).count("<section>") == len(rows)


@lru_cache(maxsize=1)
def _papers() -> Papers:
    """Two variants of a small paper with a question of each kind that is read."""
    cells = asked((4, 5, 6), ("A", "C", "S"))
    filled = paper(adder(3), cells, {"K7": {"a": 5, "b": 3}, "K8": {"a": 6, "b": 7}})
    others = tuple(
        Plain(f"q{number}", kind, {f"q{number}": right}, (("carry-dropped", wrong),))
        for number, (kind, right, wrong) in enumerate(WHOLES, 2)
    )
    return Papers(
        {code: OnePaper((*one.questions, *others)) for code, one in filled.variants.items()}
    )


WHOLES: Final = (
    ("word", "000", "110"),
    ("number", "6", "3"),
    ("letter", "b", "c"),
    ("operand", "5", "4"),
    ("formula", "2*n", "n"),
)
ANSWERS: Final = (
    "learner,code,q1: A after 4,q1: C after 4,q1: S after 4,q1: A after 5,q1: C after 5,"
    "q1: S after 5,q1: A after 6,q1: C after 6,q1: S after 6,q2,q3,q4,q5,q6,when\n"
    "Ines,K7,X10,1,000,XX1,1,000,XXX,1,000,000,6,b,5,2*n,9:00\n"
    "Tarek,K7,X10,1,000,XX1,0,100,XXX,0,110,110,3,c,4,n,9:05\n"
    "Solveig,k8,x11,0,4,xx1,0x1,2,XXX,TRUE,0b101,5,six,(B),0b101,,=1+1\n"
    "Bao,K8,,,,,,,,,,,,,,,\n"
    '"Marek, jun.",K9,X11,0,100,XX1,1,010,XXX,1,101,101,6,b,5,2*n,\n'
)


def _put(text: str, where: re.Match[str], new: str) -> str:
    return f"{text[: where.start()]}{new}{text[where.end() :]}"


def lesson(text: str) -> None:
    """Take a lesson apart; its values and blocks are read, nothing is run."""
    found = document.read(text, "fuzz.md", Path("/nowhere"), tuple(BLOCKS))
    for fault in found.faults:
        acts = [c for c in str(fault) if ord(c) < 32 and c != "\n"]
        assert not acts, str(fault)


def circuit(text: str) -> None:
    """Build a circuit text with its defaults."""
    blueprint.from_text(text, "fuzz.yaml").design()


def wiring(text: str) -> None:
    """Build a circuit, and run it with each operand zero."""
    design = blueprint.from_text(text, "fuzz.yaml").design()
    if design.edges * design.netlist.size < 200_000:
        run = reference.run(design, dict.fromkeys((o.name for o in design.operands), 0))
        assert len(run.rows) == design.edges + 1


def page(text: str) -> None:
    """Check a lesson and make its page; nothing that was typed becomes markup."""
    with mock.patch.dict(os.environ, {cache.VARIABLE: _cellar()}):
        made = pages.html_of(lessons.check_text(text, "fuzz.md", Path("/nowhere")))
    assert "<tide>" not in made
    assert made.count("</body>") == 1
    assert not _ACTS.search(made)


_ACTS: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
"""Controls of ISO/IEC 6429 and of Unicode's bidirectional algorithm (UAX 9)."""


def option(text: str) -> None:
    """Read an option in each of the ways in which options are read."""
    readers: tuple[Callable[[str], object], ...] = (
        lambda t: options.assignments(t, "--operands"),
        lambda t: options.spans(t, "--over"),
        lambda t: options.span(t, "--between"),
        options.rows_of,
        options.names_of,
    )
    for reader in readers:
        try:
            reader(text)
        except EdgewiseError:
            continue


FORMULAS: Final = ("a + b", "(a + b) mod 2**n", "S after 12 == (a + b) mod 64")
PACKED: Final = tuple(json.dumps(nodes.packed(formula.parse(f))) for f in FORMULAS)


@lru_cache(maxsize=1)
def _cellar() -> str:
    """A cache folder of its own, gone with the process."""
    folder = tempfile.mkdtemp(prefix="edgewise-mutants-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def entry(text: str) -> None:
    """Hold that a changed cache entry is none, or the one that it was."""
    content = text.encode("utf-8", "surrogatepass")
    with mock.patch.dict(os.environ, {cache.VARIABLE: _cellar()}):
        for i, good in enumerate(PACKED):
            cache.keep("trees", f"case {i}", good.encode())
            (file,) = (Path(_cellar()) / "trees").glob(
                f"{cache._name(cache._key('trees', f'case {i}'))}*"
            )
            whole = file.read_bytes()
            # A bit for each letter, all over the file; a tail; something else in its place.
            flips = random.Random(content).sample(range(8 * len(whole)), 6)  # noqa: S311
            changed = [flipped(whole, bit) for bit in flips]
            for damaged in (*changed, whole[: len(text) % len(whole)], whole + content, content):
                file.write_bytes(damaged)
                assert cache.recall("trees", f"case {i}") in {None, good.encode()}, damaged
            file.unlink()


def flipped(whole: bytes, bit: int) -> bytes:
    """The bytes with one bit changed."""
    changed = bytearray(whole)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


CIRCUITS: Final = tuple(text for name in SMALL if name in catalogue.ORDER
                        for text in (catalogue.text(name),) if text)  # fmt: skip
PAGES: Final = (
    """\
---
title: Two <tide> gauges
design: serial-adder
with: {n: 3}
operands: {a: 5, b: 3}
---
The gauges told `? a` and `? b`: `? (a + b) mod 8`, in *binary* `? S after 6`.

```edge-table
rows: 2..5
columns: [A, B, C, S]
caption: what <tide> does
```
```timing
rows: 1..4
columns: [A, S]
```
```claim
S after 6 == (a + b) mod 8    for all a, b
C.q after 6 <= 1
```
""",
    """\
---
title: A bakery's counter
design: here
operands: {a: 2, b: 3}
---
> It is `? s`, from `? a` and `? b`.

```circuit
circuit: sum without carry
inputs: {a: 2, b: 2}
nets: {s: 2}
parts:
  G(i = 0..1): {part: xor, in: [a(i), b(i)], out: s(i)}
outputs: {s: s}
operands: {a: 2, b: 2}
```
```claim
s == s    for all a, b
```
| a | b |
|---|---|
| `? a` | `? b` |
""",
)
"""Lessons without layouts and of small words: a page of one takes milliseconds."""
KINDS: Final[Mapping[str, tuple[tuple[str, ...], Callable[[str], None]]]] = {
    "lesson": (LESSONS, lesson),
    "circuit": (CIRCUITS, circuit),
    "option": (OPTIONS, option),
    "entry": (PACKED, entry),
    "wiring": (CIRCUITS, wiring),
    "page": (PAGES, page),
    "answers": ((ANSWERS,), answers),
}
"""What is mutated, and what is done with it."""
READABLE: Final = frozenset({"wiring", "page", "answers"})
"""Kinds whose texts mostly stay readable, so that they reach what comes after the reader."""


def case(kind: str, seed: int) -> str:
    """The text of one case."""
    random_ = random.Random(f"{kind} {seed}")  # noqa: S311  no secret
    text = random_.choice(KINDS[kind][0])
    if kind in READABLE:
        text = reworded(text, random_)
        # Now and then a wild change too, so that what is hostile gets as far as a page.
        return mutated(text, random_) if random_.random() < 0.2 else text
    return mutated(text, random_)


def tried(kind: str, text: str) -> bool:
    """Whether a text was answered; False where it was refused, as it should be.

    Raises
    ------
    Exception
        Any that is not an `EdgewiseError`: a fault of ours.
    """
    try:
        KINDS[kind][1](text)
    except EdgewiseError:
        return False
    return True
