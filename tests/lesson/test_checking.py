"""A whole lesson checked: all that is wrong in one go, or a report of all that was computed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.question import Asked

if TYPE_CHECKING:
    from collections.abc import Callable

EXAMPLES = Path(__file__).parents[2] / "examples"
FRONT = """\
---
title: Rain
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
"""
HERE = """\
---
title: Rain
design: here
operands: {a: 2, b: 3}
---
It is `? s`.

```circuit
circuit: sum without carry
inputs: {a: 2, b: 2}
nets: {s: 2}
parts:
  G(i = 0..1): {part: xor, in: [a(i), b(i)], out: s(i)}
outputs: {s: s}
operands: {a: 2, b: 2}
```
"""


def wrong(text: str, folder: Path = Path()) -> str:
    with pytest.raises(EdgewiseError) as caught:
        lesson.check_text(text, "rain.md", folder)
    return str(caught.value)


MANY = """\
---
title: Two rain gauges
desgin: serial-adder
design: serial-adder
with: {n: 6, m: 3}
operands: {a: 64, b: -1, c: 2}
---
Gauge one: `? a + `. Gauge two: `? b`.

- a list with `? S after )`

```claim
S after 11 == (a + b) mod 64   for all a, b
S after 12 = 1
```
```edge-tabel
rows: 6..12
```
```edge-table
rows: 6..12
colums: [A]
```
"""

LATE = (
    FRONT
    + """\
> In a quote: `? Q after 3`, and again `? S`.

| edge | S |
|------|---|
| 13   | `? S after 13` |
| 8    | `? value(A after 8)` |

1. In a list:

   ```edge-table
   rows: [0, 12..6, 13, ad]
   columns: [A, FA.sm, S(6), 1 + 1]
   ```

```claim
S after 11 == (a + b) mod 64   for all a, b   # one edge early
edges == 2*n + 1               for n in 1..64
```
```timing
columns: [S, Z]
clock: off
```
![](hut.png) and ![the hut](https://example.org/hut.png) and ![the hut](hut.txt) ![a](b.png)
"""
)


@pytest.mark.parametrize(("name", "text"), [("many", MANY), ("late", LATE)])
def test_everything_wrong_is_told_in_one_run(
    name: str, text: str, golden: Callable[[str, str], None]
) -> None:
    golden(f"lesson-{name}-errors.txt", wrong(text) + "\n")


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "b: 43",
            "b: 64",
            "rain.md:5:22: operand b is 64, which is too large; the range is 0..63 in 6 bits",
        ),
        (
            ", b: 43",
            "",
            "rain.md:5:11: operand b is missing; give a number in 0..63",
        ),
        ("b: 43", "b: [1, 2]", "rain.md:5:23: b is one number, not a list"),
        ("b: 43", "b: two", "rain.md:5:22: there is no number named two; there is: n"),
        ("b: 43", "c: 43, b: 0", "rain.md:5:19: there is no operand c; there is: a, b"),
        ("n: 6", "n: 65", "rain.md:4:11: parameter n is 65; the range is 1..64"),
        ("n: 6", "m: 6", "rain.md:4:8: serial-adder has no parameter m; there is: n"),
        ("n: 6", "n: [6]", "rain.md:4:12: n is one number, not a list"),
        (
            "serial-adder",
            "serial-ader",
            "rain.md:3:9: the catalogue has no design serial-ader; did you mean serial-adder?",
        ),
        (
            "serial-adder",
            "../adder.yaml",
            "rain.md:3:9: ../adder.yaml: a circuit file lies beside the lesson; give its name only",
        ),
        (
            "serial-adder",
            "adder.yaml",
            "rain.md:3:9: there is no circuit file adder.yaml beside the lesson",
        ),
        (
            "serial-adder",
            "here",
            "rain.md:3:9: design: here needs one circuit block in the lesson; there is none",
        ),
    ],
)
def test_front_matter(old: str, new: str, message: str, tmp_path: Path) -> None:
    assert wrong(FRONT.replace(old, new), tmp_path) == message


@pytest.mark.parametrize(
    ("block", "message"),
    [
        ("edge-table\nrows: 13", "rain.md:8:7: there is no row 13: the rows are 0..12"),
        ("edge-table\nrows: 7..3", "rain.md:8:7: rows 7..3 is empty; write low..high"),
        ("edge-table\nrows: 7..99", "rain.md:8:10: there is no row 99: the rows are 0..12"),
        (
            "edge-table\ncolumns: A",
            "rain.md:8:10: columns: found a single value, expected a list, as in [A, FA.sum, S]",
        ),
        ("edge-table\ncolumns: [2]", "rain.md:8:11: expected the name of a net, found 2"),
        (
            "edge-table\nrow: 1",
            "rain.md:8:1: edge-table has no entry row; did you mean rows?",
        ),
        (
            "edge-table\n- a",
            "rain.md:8:1: edge-table: found a list, expected keys and values, as in rows: 6",
        ),
        (
            "diagram\nopen: [FB, C]\nafter: lode\nclock: no\nsymbols: nice",
            "rain.md:8:8: there is no part FB to open; did you mean B?\n"
            "rain.md:9:8: there is no lode here; did you mean load?\n"
            "rain.md:10:8: clock: found no, expected wedge or hidden or wires\n"
            "rain.md:11:10: symbols: found nice, expected distinctive or rectangular",
        ),
        (
            "diagram\nopen: C",
            "rain.md:8:7: C is a flip-flop; it has no inside",
        ),
        ("timing\nclock: off", "rain.md:8:8: clock: found off, expected shown or hidden"),
        (
            "timing\ncolumns: [Z]",
            "rain.md:8:11: there is no Z here; there is: A, B, C, S, a_in, b_in, carry, shift, sum",
        ),
        ("filmstrip\nacross: no", "rain.md:8:9: across: found no, expected 1..12"),
        ("filmstrip\nrows: 6..13", "rain.md:8:10: there is no row 13: the rows are 0..12"),
        (
            "circuit\ncircuit: x",
            "rain.md:7:1: a circuit block, but the front matter says design: serial-adder; write"
            " design: here to use it",
        ),
    ],
)
def test_blocks(block: str, message: str) -> None:
    assert wrong(f"{FRONT}```{block}\n```\n") == message


def test_a_table_has_its_limit(tmp_path: Path) -> None:
    (tmp_path / "count.yaml").write_text(
        "circuit: c\nparts:\n  K: {part: counter, width: 4}\noutputs: {q: K}\n"
        "procedure:\n  - {phase: count, edges: 1200}\n",
        encoding="utf-8",
    )
    front = "---\ntitle: T\ndesign: count.yaml\n---\n"
    assert wrong(f"{front}```edge-table\n```\n", tmp_path) == (
        "rain.md:5:1: 1,201 rows are too many to show; the limit is 1,000: write rows: low..high"
    )


def test_a_family_given_as_a_list(tmp_path: Path) -> None:
    text = FRONT.replace("serial-adder", "serial-accumulator").replace("n: 6", "n: 6, x: 3, m: 4")

    def told(words: str) -> str:
        return wrong(text.replace("{a: 22, b: 43}", words), tmp_path)

    assert told("{w: [1, 16, 3]}") == (
        "rain.md:5:19: operand w(2) is 16, which is too large; the range is 0..15 in 4 bits"
    )
    assert told("{w: [1, 2]}").startswith("rain.md:5:")
    report = lesson.check_text(
        text.replace("{a: 22, b: 43}", "{w: [1, 2*3, 0b101]}") + "`? total(w)`", "r.md", tmp_path
    )
    assert list(report.values.values()) == [12]


def test_a_circuit_in_the_lesson_and_beside_it(tmp_path: Path) -> None:
    report = lesson.check_text(HERE, "rain.md", tmp_path)
    assert [str(value) for value in report.values.values()] == ["01"]
    circuit = HERE.partition("```circuit\n")[2].removesuffix("```\n")
    (tmp_path / "sum.yaml").write_text(circuit, encoding="utf-8")
    beside = HERE.partition("```circuit")[0].replace("here", "sum.yaml")
    assert lesson.check_text(beside, "rain.md", tmp_path).trace.rows == report.trace.rows
    assert wrong(HERE.replace("xor", "xer"), tmp_path).startswith("rain.md:13:23: ")
    assert wrong(HERE + HERE.partition("\n\n")[2], tmp_path).startswith(
        "rain.md:3:9: design: here needs one circuit block in the lesson; there are 2"
    )


def test_a_circuit_file_may_not_be_a_link_out_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "out.yaml").write_text("circuit: x", encoding="utf-8")
    (tmp_path / "in" / "sum.yaml").symlink_to(tmp_path / "out.yaml")
    text = FRONT.replace("serial-adder", "sum.yaml")
    assert wrong(text, tmp_path / "in") == (
        "rain.md:3:9: there is no circuit file sum.yaml beside the lesson"
    )


@pytest.mark.parametrize(
    ("path", "message"),
    [("none.md", "none.md: can't be read: No such file or directory")],
)
def test_files(path: str, message: str, tmp_path: Path) -> None:
    with pytest.raises(EdgewiseError) as caught:
        lesson.check(tmp_path / path)
    assert str(caught.value) == f"{tmp_path}/{message}"


def test_report(golden: Callable[[str, str], None]) -> None:
    text = (
        FRONT + "`? a`, `? S after 12`, `? a < b`\n\n```claim\nedges == 2*n  for n in 1..9\n```\n"
    )
    report = lesson.check_text(text, "rain.md", Path())
    golden(
        "lesson-report.txt", f"{report}\n{json.dumps(report.data(), indent=1, allow_nan=False)}\n"
    )


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.md")), ids=lambda path: path.stem)
def test_examples_hold(path: Path) -> None:
    report = lesson.check(path)
    assert report.values
    # A paper asks, where a lesson claims.
    assert report.claims or any(isinstance(piece, Asked) for piece in report.pieces.values())
    assert not [note for note in report.notes if note.kind == "warning"]


@pytest.mark.parametrize(("a", "b"), [(0, 0), (63, 63), (22, 41), (1, 2)])
def test_the_rain_lesson_follows_its_operands(a: int, b: int) -> None:
    """Every number follows, and every claim still holds."""
    path = EXAMPLES / "rain-gauges.md"
    text = path.read_text("utf-8").replace("{a: 22, b: 43}", f"{{a: {a}, b: {b}}}")
    report = lesson.check_text(text, "rain.md", path.parent)
    assert a + b in report.values.values()
