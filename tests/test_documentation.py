"""Documentation is code: everything that README.md, docs/ and docstrings show is run.

- examples in docstrings run as doctests;
- ``console`` blocks: each ``$ edgewise …`` line runs in a temporary copy of examples/, and what it
  prints is compared with what the block shows (a line of ``…`` alone stands for any lines);
- ``python`` blocks run from top to bottom, one document one namespace;
- ``markdown`` blocks are lessons, or parts of one: each is checked and made into a page;
- every public module, class, function and method has a docstring.
"""

from __future__ import annotations

import ast
import doctest
import os
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Final

import pytest
from markdown_it import MarkdownIt

from edgewise import lesson
from edgewise.guests import _entries
from edgewise.lesson.blocks import BLOCKS
from edgewise.publish.html import page

ROOT: Final = Path(__file__).parents[1]
SOURCE: Final = ROOT / "src" / "edgewise"
DOCUMENTS: Final = tuple(
    path for path in (ROOT / "README.md", *sorted((ROOT / "docs").rglob("*.md"))) if path.exists()
)
FLAGS: Final = doctest.ELLIPSIS
# Importing this one runs the command line.
NOT_IMPORTED: Final = frozenset({"edgewise.__main__"})


def module_names() -> list[str]:
    """Name every module under src/edgewise."""
    names = []
    for file in sorted(SOURCE.rglob("*.py")):
        parts = ["edgewise", *file.relative_to(SOURCE).with_suffix("").parts]
        names.append(".".join(parts[:-1] if parts[-1] == "__init__" else parts))
    return [name for name in names if name not in NOT_IMPORTED]


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block: its language, its text, the line of its first line in the document."""

    language: str
    text: str
    line: int


def blocks_of(text: str) -> Iterator[Block]:
    """Read the fenced blocks of a CommonMark text, in order."""
    for token in MarkdownIt("commonmark").parse(text):
        if token.type == "fence" and token.map:
            language = token.info.split()[0] if token.info.strip() else ""
            yield Block(language, token.content, token.map[0] + 2)


@dataclass(frozen=True, slots=True)
class Command:
    """One ``$`` line of a console block and the output shown under it."""

    line: int
    words: str
    output: str


def commands_of(block: Block) -> Iterator[Command]:
    """Split a console block at its ``$`` lines; a backslash at the end goes on below."""
    lines = block.text.splitlines()
    starts = [number for number, line in enumerate(lines) if line.startswith("$ ")]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        last = start
        while lines[last].endswith("\\") and last + 1 < end:
            last += 1
        words = "\n".join([lines[start].removeprefix("$ "), *lines[start + 1 : last + 1]])
        output = "".join(f"{line}\n" for line in lines[last + 1 : end])
        yield Command(block.line + start, words, output)


def agrees(shown: str, printed: str) -> bool:
    """Compare line by line; spaces at the end of a line do not count, ``…`` skips lines."""
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == "…" else re.escape(line.rstrip()) + r"[ \t]*\n"
        for line in shown.rstrip().splitlines()
    )
    ended = printed if not printed or printed.endswith("\n") else f"{printed}\n"
    return re.fullmatch(pattern + r"\s*", ended) is not None


def run_command(words: str, folder: Path) -> str:
    """Run a shell line with this interpreter's ``edgewise`` and return all that it prints."""
    here = str(Path(sys.executable).parent)
    environment = os.environ | {
        "PATH": f"{here}{os.pathsep}{os.environ.get('PATH', '')}",
        "COLUMNS": "100",
        "NO_COLOR": "1",
        "TERM": "dumb",
    }
    done = subprocess.run(
        ["bash", "-c", words],
        cwd=folder,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        timeout=60,
        check=False,
    )
    return done.stdout


def check_console(blocks: Iterator[Block], folder: Path) -> list[str]:
    """Run the ``edgewise`` lines of console blocks and name those that print something else."""
    wrong = []
    for block in blocks:
        if block.language != "console":
            continue
        for command in commands_of(block):
            if command.words.split()[0] != "edgewise":
                continue
            printed = run_command(command.words, folder)
            if not agrees(command.output, printed):
                wrong.append(
                    f"line {command.line}: $ {command.words}\n"
                    f"shown:\n{command.output}\nprinted:\n{printed}"
                )
    return wrong


def undocumented(source: Path) -> list[str]:
    """Name each public module, class, function and method without a docstring."""
    wrong = []

    def visit(node: ast.Module | ast.ClassDef, file: Path, owner: str) -> None:
        for child in node.body:
            if not isinstance(child, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
                continue
            if child.name.startswith("_"):
                continue
            name = f"{owner}{child.name}"
            if ast.get_docstring(child) is None:
                wrong.append(f"{file}:{child.lineno}: {name} is public and has no docstring")
            if isinstance(child, ast.ClassDef):
                visit(child, file, f"{name}.")

    for path in sorted(source.rglob("*.py")):
        tree = ast.parse(path.read_bytes(), str(path))
        file = path.relative_to(source)
        if ast.get_docstring(tree) is None:
            wrong.append(f"{file}:1: the module has no docstring")
        visit(tree, file, "")
    return wrong


@pytest.fixture
def examples(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in a temporary folder that holds a copy of examples/ under that name."""
    if (ROOT / "examples").exists():
        shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("name", module_names())
@pytest.mark.usefixtures("examples")
def test_examples_in_docstrings_run(name: str) -> None:
    report: list[str] = []
    runner = doctest.DocTestRunner(optionflags=FLAGS)
    for test in doctest.DocTestFinder(exclude_empty=True).find(import_module(name)):
        runner.run(test, out=report.append)
    assert not runner.failures, "".join(report)


@pytest.fixture
def guests(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """For documents about guests: the package of examples/tide-mill is there."""
    document: Path = request.getfixturevalue("document")
    if document.name.startswith("guest"):
        site = str(request.getfixturevalue("tide_mill"))
        monkeypatch.syspath_prepend(site)
        monkeypatch.setenv("PYTHONPATH", site, prepend=os.pathsep)
        _entries.cache_clear()
    yield
    _entries.cache_clear()


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: str(path.relative_to(ROOT)))
@pytest.mark.usefixtures("guests")
def test_console_blocks_print_what_they_show(document: Path, examples: Path) -> None:
    wrong = check_console(blocks_of(document.read_text(encoding="utf-8")), examples)
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: str(path.relative_to(ROOT)))
@pytest.mark.usefixtures("examples", "guests")
def test_python_blocks_run(document: Path) -> None:
    namespace: dict[str, object] = {"__name__": "documentation"}
    for block in blocks_of(document.read_text(encoding="utf-8")):
        if block.language != "python":
            continue
        if ">>>" in block.text:
            report: list[str] = []
            runner = doctest.DocTestRunner(optionflags=FLAGS)
            parsed = doctest.DocTestParser().get_doctest(
                block.text, namespace, document.name, str(document), block.line - 1
            )
            runner.run(parsed, out=report.append, clear_globs=False)
            namespace |= parsed.globs
            assert not runner.failures, "".join(report)
        else:
            # Empty lines in front, so that a traceback names the line of the document.
            code = "\n" * (block.line - 1) + block.text
            exec(compile(code, str(document), "exec"), namespace)


FRONTS: Final = {
    "```circuit": "design: here\noperands: {a: 1, b: 1}",
    "x: ": "design: serial-accumulator\nwith: {n: 4, x: 2, m: 1}\noperands: {w: [1, 1]}",
    "": "design: serial-adder\nwith: {n: 6}\noperands: {a: 22, b: 43}",
}
"""What the lesson runs to which a block without front matter belongs, by what is in the block."""


def lesson_of(text: str) -> str:
    """A whole lesson, made of what a ``markdown`` block shows of one."""
    if text.startswith("---\n"):
        return text
    front = next(front for sign, front in FRONTS.items() if sign in text)
    return f"---\ntitle: Two rain gauges\n{front}\n---\n{text}"


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: str(path.relative_to(ROOT)))
def test_lesson_blocks_are_lessons(document: Path) -> None:
    for block in blocks_of(document.read_text(encoding="utf-8")):
        if block.language == "markdown":
            place = f"{document.name}, the lesson in line {block.line}"
            report = lesson.check_text(lesson_of(block.text), place, ROOT / "examples")
            assert page.html_of(report).endswith("</html>\n")


def test_the_changelog_tells_of_the_version() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    heads = re.findall(r"^## (.+)$", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.MULTILINE)
    assert heads[:2] == ["Unreleased", project["version"]]


def test_every_block_of_a_lesson_is_shown() -> None:
    shown = "".join(
        block.text
        for document in DOCUMENTS
        for block in blocks_of(document.read_text(encoding="utf-8"))
        if block.language == "markdown" and document.name == "lesson.md"
    )
    assert [kind for kind in BLOCKS if f"```{kind}\n" not in shown] == []


def test_the_guest_package_stands_in_the_documents() -> None:
    """A reader can make it from the documents alone."""
    package = ROOT / "examples" / "tide-mill"
    shown = [
        block.text
        for document in DOCUMENTS
        if document.name.startswith("guest")
        for block in blocks_of(document.read_text(encoding="utf-8"))
    ]
    modules = [path for path in package.rglob("*.py") if path.name != "__init__.py"]
    for path in [
        *modules,
        *package.rglob("*.toml"),
        *package.rglob("*.yaml"),
        *package.glob("*.*"),
    ]:
        assert path.read_text("utf-8") in shown, path


def test_every_public_name_has_a_docstring() -> None:
    wrong = undocumented(SOURCE)
    assert not wrong, "\n" + "\n".join(wrong)


# The checks themselves, on documents made up to be wrong.

DOCUMENT: Final = """\
# Tide tables

```console
$ echo not ours
$ edgewise --version | cat && \\
  echo two
edgewise 0
two
```
"""


def test_blocks_and_commands_know_their_lines() -> None:
    (block,) = blocks_of(DOCUMENT)
    assert (block.language, block.line) == ("console", 4)
    first, second = commands_of(block)
    assert (first.line, first.words, first.output) == (4, "echo not ours", "")
    assert second.line == 5
    assert second.words == "edgewise --version | cat && \\\n  echo two"
    assert second.output == "edgewise 0\ntwo\n"


def test_a_wrong_output_is_found(tmp_path: Path) -> None:
    block = Block("console", "$ edgewise () { echo high; }; edgewise\nlow\n", 7)
    (message,) = check_console(iter([block]), tmp_path)
    assert message.startswith("line 7: $ edgewise () {")
    assert message.endswith("shown:\nlow\n\nprinted:\nhigh\n")


@pytest.mark.parametrize(
    ("shown", "printed", "same"),
    [
        ("a\nb\n", "a\nb\n", True),
        ("a\n", "a  \n\n", True),
        ("a", "a", True),
        ("", "", True),
        ("", "a\n", False),
        ("a\nb\n", "a\n", False),
        ("a.c\n", "abc\n", False),
        ("a\n…\nd\n", "a\nb\nc\nd\n", True),
        ("a\n…\nd\n", "a\nd\n", True),
        ("a\n…\n", "b\nc\n", False),
    ],
)
def test_outputs_are_compared_line_by_line(shown: str, printed: str, *, same: bool) -> None:
    assert agrees(shown, printed) is same


def test_a_missing_docstring_is_found(tmp_path: Path) -> None:
    (tmp_path / "gauge.py").write_text(
        '"""Rain gauges."""\n'
        "class Gauge:\n"
        '    """One gauge."""\n'
        "    def tip(self): ...\n"
        "    def _empty(self): ...\n"
        "def read(): ...\n",
        encoding="utf-8",
    )
    (tmp_path / "tide.py").write_text("HIGH = 1\n", encoding="utf-8")
    assert undocumented(tmp_path) == [
        "gauge.py:4: Gauge.tip is public and has no docstring",
        "gauge.py:6: read is public and has no docstring",
        "tide.py:1: the module has no docstring",
    ]
