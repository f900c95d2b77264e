"""The handout: what is printed, what is left blank, and that text stays text."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import lesson
from edgewise.cli import main
from edgewise.errors import EdgewiseError, TextError
from edgewise.lesson import Report
from edgewise.publish.handout import blanks, build, pdf
from edgewise.publish.handout.pdf import quoted

LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 4}
operands: {a: 6, b: 7}
---
Gauge one told `? a`, gauge two `? b`; together `? a + b`. A holds `? A after 4`.

#### Deep

## Less deep

1. first
2. second `? S after end`
   - inner *soft* and **hard**

> Quoted.

| left | right |
|:--|--:|
| `? C after end` | x |

```edge-table
columns: [A, C, S]
```
```edge-table
rows: [4, 8]
columns: [S]
blank: none
```
```diagram
after: 6
caption: Two columns are added.
```
```timing
rows: 4..8
columns: [C, S]
```
```claim
S after 8 == (a + b) mod 16    for all a, b
```
```say
Ask first.
```
```python
print("#panic()")
```
"""


def report(text: str = LESSON, folder: Path = Path()) -> Report:
    return lesson.check_text(text, "tide.md", folder)


def source(text: str = LESSON, *, blank: bool = False) -> str:
    return build.typst_of(report(text), blanks=blank).source


def test_the_stage_that_a_lesson_does_not_ask_for_is_printed_too() -> None:
    """After its first figure: the diagram of the start, and every row with every column."""
    trace = report().trace
    made = source()
    assert made.count("#drawing(") == 3
    first = made.index("Two columns are added.")
    rows = [str(trace.word(name, row)) for row in range(9) for name in trace.columns]
    assert words(made[first:]) == rows


def words(typst: str) -> list[str]:
    return re.findall(r'word\("([01X_]+)"', typst)


@pytest.mark.usefixtures("no_stage")
def test_every_value_stands_in_the_handout() -> None:
    made = source()
    assert '#"6";#", gauge two ";#"7";#"; together ";#"13";#". A holds ";#value("0110");' in made
    trace = report().trace
    table = [str(trace.word(name, row)) for row in range(9) for name in ("A", "C", "S")]
    assert words(made)[: len(table)] == table
    assert words(made)[len(table) :] == [str(trace.word("S", row)) for row in (4, 8)]
    assert (
        '("S after 8 == (a + b) mod 16 for all a, b", "checked on all 256 operand pairs")' in made
    )
    assert "Ask first" not in made
    assert made.count("#drawing(") == 2


def test_headings_pass_over_no_level() -> None:
    levels = re.findall(r"#heading\(level: (\d)\)\[#\"([^\"]*)\"", source())
    assert levels == [("1", "Deep"), ("1", "Less deep")]


@pytest.mark.usefixtures("no_stage")
def test_blanks_leave_givens_and_take_what_is_worked_out() -> None:
    printed = build.typst_of(report(), blanks=True)
    made = printed.source
    assert '#"6";#", gauge two ";#"7";#"; together ";#blank(1, 2);' in made
    assert 'A holds ";#blank(2, 4);' in made
    trace = report().trace
    shown = [
        str(trace.word(name, row)) if row <= 4 else "_" * trace.word(name, row).width
        for row in range(9)
        for name in ("A", "C", "S")
    ]
    assert words(made)[: len(shown)] == shown
    # blank: none keeps the second table whole.
    assert words(made)[len(shown) :] == [str(trace.word("S", row)) for row in (4, 8)]
    for name, content in printed.files.items():
        told = content.decode()
        assert "to be filled in" in told, name
        assert not re.search(r">[01X]{2,}<", told)
        assert "1101" not in told


@pytest.mark.usefixtures("no_stage")
def test_the_answer_sheet_has_what_the_blanks_lack() -> None:
    printed = build.typst_of(report(), blanks=True)
    for answer in ('"(1)"', '"a + b"', '"13"', '"A after 4"', '"0110"', '"S after end"', '"1101"'):
        assert answer in printed.answers
    trace = report().trace
    table = [str(trace.word(name, row)) for row in range(9) for name in ("A", "C", "S")]
    assert words(printed.answers) == table
    assert printed.answers.count("#drawing(") == 2
    assert "Figure 1. Two columns are added." in printed.answers
    assert "Table 1. " in printed.answers
    assert "Table 2. " not in printed.answers  # it had no blanks


@pytest.mark.usefixtures("no_stage")
def test_a_lesson_of_givens_alone_says_that_it_has_no_blanks() -> None:
    text = "---\ntitle: T\ndesign: serial-adder\noperands: {a: 6, b: 7}\n---\n`? a` and `? n`\n"
    printed = build.typst_of(report(text), blanks=True)
    assert "blank(" not in printed.source
    assert "This handout has no blanks" in printed.answers


@pytest.mark.parametrize(
    ("text", "given"),
    [("a", True), ("b", True), ("n", True), ("a + 1", False), ("edges", False), ("end", False)],
)
def test_what_is_given(text: str, given: bool) -> None:  # noqa: FBT001
    assert blanks.is_given(text, report()) is given


@pytest.mark.usefixtures("no_stage")
def test_without_edges_the_inputs_are_given() -> None:
    text = """\
---
title: Row
design: ripple-carry-adder
with: {n: 4}
operands: {a: 6, b: 7, carry_in: 1}
---
```edge-table
columns: [a, b, sum]
```
"""
    assert words(source(text, blank=True)) == ["0110", "0111", "____"]


@pytest.mark.usefixtures("no_stage")
def test_a_wide_table_is_split_and_a_very_wide_word_is_broken() -> None:
    text = """\
---
title: Wide
design: serial-adder
with: {n: 64}
operands: {a: 6, b: 7}
---
```edge-table
rows: [0, 64, 128]
columns: [A, B, S]
caption: Wide.
```
"""
    made = source(text)
    assert made.count("#run-table(") == 3
    assert made.count(", continued") == 2
    assert pdf.pdf(made, {})[:5] == b"%PDF-"


# ---------------------------------------------------------------- text stays text


@given(st.text())
def test_a_quoted_text_ends_where_it_ends(text: str) -> None:
    inside = quoted(text)[1:-1]
    assert not re.search(r'(?<!\\)(?:\\\\)*"', inside)
    assert "\n" not in inside


EVIL: Final = (
    '"); #panic("x")',
    "#import sys: *",
    '#read("/etc/passwd")',
    "$ sqrt(x) $ @ref <label> // /* */",
    "\\u{41} \\ ] [ #{ }",
    "a\u2002b\u00a0c\u200bd",
    "+ heading\n- item\n/ term: x",
)


@pytest.mark.parametrize("evil", EVIL)
def test_nothing_in_a_lesson_is_read_as_typst(evil: str) -> None:
    plain = evil.replace("\n", " ")
    title = plain.replace("\\", "\\\\").replace('"', '\\"')
    escaped = re.sub(r"([\\`*_{}\[\]<>#+.!|$@/-])", r"\\\1", plain)
    text = f"""\
---
title: "{title}"
design: serial-adder
operands: {{a: 6, b: 7}}
---
{escaped} and `{plain.replace("`", "")}`

[{escaped}](https://example.org/?a="{plain.split()[0].replace('"', "")}")

```edge-table
rows: [0]
columns: [A]
caption: "{title}"
```

```text
{evil}
```
"""
    made = build.pdfs(report(text))
    assert made[0].startswith(b"%PDF-")


def test_a_sign_that_no_typeface_has_is_told_with_its_line() -> None:
    text = LESSON.replace("> Quoted.", "> Quoted \u4e2d.")
    with pytest.raises(TextError) as wrong:
        build.pdfs(report(text))
    line = text.splitlines().index("> Quoted \u4e2d.") + 1
    assert str(wrong.value) == (
        f"tide.md:{line}: the typefaces of a PDF have no sign for '\u4e2d' (U+4E2D); they have"
        " Latin, Greek and Cyrillic letters and the usual signs: write it in another way"
    )


def test_a_picture_that_cannot_be_decoded_is_told(tmp_path: Path) -> None:
    """Whole by its own account, but with nothing in it that could be shown."""
    (tmp_path / "pier.gif").write_bytes(b"GIF89a" + bytes(7) + b";")
    text = LESSON + "\n![the pier](pier.gif)\n"
    line = text.splitlines().index("![the pier](pier.gif)") + 1
    with pytest.raises(EdgewiseError) as wrong:
        build.pdfs(report(text, tmp_path))
    assert str(wrong.value) == (
        f"tide.md:{line}:1: the picture pier.gif can't be printed: it is damaged; export it again,"
        " or replace it"
    )


def test_a_picture_can_open_no_file(tmp_path: Path) -> None:
    (tmp_path / "pier.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">'
        '<image href="/etc/hostname" width="9" height="9"/></svg>',
        "utf-8",
    )
    text = LESSON + "\n![the pier](pier.svg)\n"
    try:
        made = build.pdfs(report(text, tmp_path))
    except EdgewiseError as wrong:
        assert "can't be printed" in str(wrong)  # noqa: PT017
    else:
        assert made[0].startswith(b"%PDF-")


# ---------------------------------------------------------------- files


def run(*arguments: str, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr("sys.argv", ["edgewise", *arguments])
    with pytest.raises(SystemExit) as done:
        main()
    return int(done.value.code or 0)


def test_the_command_writes_both_sheets(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    out = tmp_path / "out"
    options = ("--handout", "--blanks", "--paper", "letter", "-o", str(out))
    assert run("build", str(path), *options, monkeypatch=monkeypatch) == 0
    assert capsys.readouterr().out == f"{path} -> {out}/tide.pdf, {out}/tide-answers.pdf\n"
    first = [(out / name).read_bytes() for name in ("tide.pdf", "tide-answers.pdf")]
    assert run("build", str(path), *options, monkeypatch=monkeypatch) == 0
    assert [(out / n).read_bytes() for n in ("tide.pdf", "tide-answers.pdf")] == first


@pytest.mark.parametrize(
    ("paper", "message"),
    [
        ("a5", "there is no paper a5; a handout is printed on a4 or letter"),
        ("leter", "there is no paper leter; did you mean letter?"),
    ],
)
def test_another_paper_is_refused(
    paper: str,
    message: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    options = ("--handout", "--paper", paper, "-o", str(tmp_path))
    assert run("build", str(path), *options, monkeypatch=monkeypatch) == 2
    assert capsys.readouterr().err == f"{message}\n"
    assert not list(tmp_path.glob("*.pdf"))


def test_a_folder_that_can_t_be_written_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    (tmp_path / "out").write_text("a file", "utf-8")
    options = ("--handout", "-o", str(tmp_path / "out"))
    assert run("build", str(path), *options, monkeypatch=monkeypatch) == 2
    assert capsys.readouterr().err == f"{tmp_path}/out is not a folder; name a folder with -o\n"


def test_a_row_that_the_table_lacks_can_t_be_blank() -> None:
    text = LESSON.replace("blank: none", "blank: 5")
    with pytest.raises(EdgewiseError) as wrong:
        report(text)
    line = text.splitlines().index("blank: 5") + 1
    assert str(wrong.value) == (
        f"tide.md:{line}:8: blank: row 5 is not among the rows of this table"
    )
