"""The eight things to add that CONTRIBUTING.md shows: their files, and that one file is enough."""

from __future__ import annotations

import itertools
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from importlib import import_module, invalidate_caches
from pathlib import Path
from typing import Final, TypeAlias

import pytest

from edgewise import blueprint, catalogue, importers, lesson
from edgewise.circuit import gates, parts
from edgewise.engines import reference
from edgewise.lesson import blocks
from edgewise.publish import formats
from edgewise.publish.html import render
from edgewise.study.cost import models
from edgewise.study.misconceptions import procedure

ROOT: Final = Path(__file__).parents[1]
SOURCE: Final = ROOT / "src" / "edgewise"
Add: TypeAlias = Callable[[str, str, str], None]
COUNTS: Final = (1, 1, 2, 1, 1, 1, 1, 1)


def rows() -> list[list[str]]:
    """The cells of the table, line by line."""
    text = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    section = text[text.index("## Eight things to add") :].partition("\n## ")[0]
    lines = [line for line in section.splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("| ").split(" | ")] for line in lines[1:]]


def test_each_has_as_many_files_as_it_says() -> None:
    assert tuple(int(row[1]) for row in rows()) == COUNTS
    for _, number, which, _ in rows():
        assert len(which.split(" and ")) == int(number), which


def test_their_files_exist_and_so_do_the_folders_of_new_ones() -> None:
    for _, _, which, what in rows():
        for name in re.findall(r"`([\w/.]+)`", which):
            path = SOURCE / name
            new = bool(re.search("[A-Z]{2}", path.name))
            assert path.parent.is_dir() if new else path.is_file(), name
        for name in re.findall(r"`((?:tests|publish|docs)/[\w/.]+)`", what):
            assert (ROOT / name).exists() or (SOURCE / name).exists(), name


def examples() -> dict[str, tuple[str, str]]:
    """Of each thing to add, the file that is named and what goes there."""
    text = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    section = text[text.index("## Eight things to add") :].partition("\n## ")[0]
    found = re.findall(
        r"^\*\*(.+?)\*\*,\s+in `(.+?)`.*?^```\w+\n(.*?)^```", section, re.MULTILINE | re.DOTALL
    )
    return {what.lower(): (file, code) for what, file, code in found}


def test_each_has_an_example_in_one_of_its_files() -> None:
    shown = examples()
    assert list(shown) == [row[0] for row in rows()]
    for (file, _), (_, _, which, _) in zip(shown.values(), rows(), strict=True):
        folders = {Path(name).parent for name in re.findall(r"`([\w/.]+)`", which)}
        assert Path(file).parent in folders, file


@pytest.fixture
def add(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Add]:
    """Puts a file into a folder of ours."""
    added: list[str] = []

    def put(package: str, name: str, code: str) -> None:
        (tmp_path / f"{name}.py").write_text(code, "utf-8")
        folders = [*import_module(package).__path__, str(tmp_path)]
        monkeypatch.setattr(import_module(package), "__path__", folders)
        invalidate_caches()
        models._own.cache_clear()
        added.append(f"{package}.{name}")

    yield put
    models._own.cache_clear()
    for name in added:
        sys.modules.pop(name, None)


def test_a_part_is_one_call() -> None:
    _, code = examples()["a part"]
    exec(code, {"gate": gates.gate, "register": parts.register})  # our own document
    try:
        text = "circuit: vote\ninputs: {a: 1, b: 1, c: 1}\nparts:\n"
        text += "  VOTE: {part: majority, a: a, b: b, c: c}\noutputs: {y: VOTE.out}\n"
        text += "operands: {a: 1, b: 1, c: 1}\n"
        design = blueprint.from_text(text, "vote.yaml").design()
        for bits in itertools.product((0, 1), repeat=3):
            trace = reference.run(design, dict(zip("abc", bits, strict=True)))
            assert trace.word("y", 0).value == sum(bits) // 2  # the carry of their sum
    finally:
        del parts._REGISTRY["majority"]


def test_a_misconception_is_one_function() -> None:
    _, code = examples()["a misconception"]
    space = dict(vars(procedure))
    exec(code, space)  # our own document
    believed = space["SWAPPED"].of(catalogue.design("serial-subtractor", n=4))
    trace = reference.run(believed, {"a": 5, "b": 12})
    assert trace.word("difference", trace.edges).value == 12 - 5


def test_a_lesson_block_is_two_files(add: Add, monkeypatch: pytest.MonkeyPatch) -> None:
    _, code = examples()["a lesson block"]
    add("edgewise.lesson", "waiting", code)
    reader = import_module("edgewise.lesson.waiting").read
    monkeypatch.setattr(blocks, "BLOCKS", {**blocks.BLOCKS, "waiting": reader})
    text = "---\ntitle: T\ndesign: serial-adder\nwith: {n: 4}\noperands: {a: 1, b: 2}\n---\n"
    report = lesson.check_text(
        f"{text}```waiting\ncaption: The tide waits\n```\n", "tide.md", Path()
    )
    assert "<p>The tide waits: 8 clock edges.</p>" in render.body(report)


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the package, one value of its look changed, and a language more."""
    folder = tmp_path_factory.mktemp("copy")
    shutil.copytree(SOURCE, folder / "edgewise", ignore=shutil.ignore_patterns("__pycache__"))
    file, code = examples()["the look of a value"]
    theme = folder / "edgewise" / file
    name = code.partition(":")[0]
    theme.write_text(re.sub(rf"^{name}: .*\n", code, theme.read_text("utf-8"), flags=re.MULTILINE))
    file, code = examples()["a third language"]
    words = folder / "edgewise" / file
    name = code.partition(" ")[0]
    spoken = words.with_name("en.ftl").read_text("utf-8")
    words.write_text(
        re.sub(rf"^{name} =.*\n(?:  .*\n)*", lambda _: code, spoken, flags=re.MULTILINE)
    )
    return folder


def test_a_look_and_a_language_are_a_file_each(copy: Path) -> None:
    """Page, handout and figures have the new ink and none of the old, and the new words."""
    text = "---\ntitle: T\ndesign: serial-adder\nwith: {n: 4}\noperands: {a: 1, b: 2}\n"
    text += "language: nl\n---\n```edge-table\n```\n```diagram\n```\n"
    (copy / "tij.md").write_text(text)
    code = (
        "from pathlib import Path\nfrom edgewise import lesson\n"
        "from edgewise.publish.handout import build\nfrom edgewise.publish.html import page\n"
        "report = lesson.check(Path('tij.md'))\nsheets = build.typst_of(report)\n"
        "print(page.html_of(report), sheets.source, *map(str, sheets.files.values()))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=copy,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(copy)},
    )
    assert done.stdout.count("#0b3d2e") > 20
    assert "#1b2430" not in done.stdout
    assert "8 klokflanken" in done.stdout


def test_a_cost_model_is_one_file(add: Add) -> None:
    _, code = examples()["a cost model"]
    add("edgewise.study.cost.models", "oak", code)
    assert "oak" in models.names()
    assert models.technology("oak").time_unit == "gate delays"


def test_an_output_format_is_one_file(add: Add, tmp_path: Path) -> None:
    _, code = examples()["an output format"]
    add("edgewise.publish.formats", "tape", code)
    path = ROOT / "examples" / "rain-gauges.md"
    written = formats.build(path, tmp_path, "tape")
    assert written.read_text("utf-8") == str(lesson.check(path).trace.rows[-1])


def test_a_reader_of_circuit_files_is_one_file(add: Add, tmp_path: Path) -> None:
    _, code = examples()["a reader of a hardware description language"]
    add("edgewise.importers", "wire", code)
    (tmp_path / "sea.wire").write_text("channel", "utf-8")
    assert importers.suffixes() == (".yaml", ".yml", ".sv", ".v", ".vhd", ".vhdl", ".wire")
    assert blueprint.from_file(tmp_path / "sea.wire").title == "channel"
