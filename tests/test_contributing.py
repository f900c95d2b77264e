"""The eight things to add that CONTRIBUTING.md shows: their files, and that one file is enough."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from importlib import import_module, invalidate_caches
from pathlib import Path
from typing import Final, TypeAlias

import pytest

from edgewise import blueprint, importers, lesson
from edgewise.publish import formats
from edgewise.study.cost import models

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


def test_a_cost_model_is_one_file(add: Add) -> None:
    add(
        "edgewise.study.cost.models",
        "oak",
        "from dataclasses import replace\n"
        "from edgewise.study.cost.models.gates import UNIT_GATE\n"
        "TECHNOLOGIES = (replace(UNIT_GATE, name='oak'),)\n",
    )
    assert "oak" in models.names()
    assert models.technology("oak").time_unit == "gate delays"


def test_an_output_format_is_one_file(add: Add, tmp_path: Path) -> None:
    add(
        "edgewise.publish.formats",
        "tape",
        "from edgewise.publish.formats import Format\n"
        "FORMAT = Format('tape', '.tape', 'a tape', lambda report: str(report.trace.rows[-1]))\n",
    )
    path = ROOT / "examples" / "rain-gauges.md"
    written = formats.build(path, tmp_path, "tape")
    assert written.read_text("utf-8") == str(lesson.check(path).trace.rows[-1])


def test_a_reader_of_circuit_files_is_one_file(add: Add, tmp_path: Path) -> None:
    add(
        "edgewise.importers",
        "wire",
        "from edgewise.circuit.builder import Builder\n"
        "from edgewise.design import Design\n"
        "from edgewise.importers import Importer\n"
        "def read(text, file):\n"
        "    b = Builder(text)\n"
        "    b.output('y', b.input('x'))\n"
        "    return Design('wire', b.circuit())\n"
        "IMPORTER = Importer('wire', 'a wire', read)\n",
    )
    (tmp_path / "sea.wire").write_text("channel", "utf-8")
    assert importers.suffixes() == (".yaml", ".yml", ".sv", ".v", ".vhd", ".vhdl", ".wire")
    assert blueprint.from_file(tmp_path / "sea.wire").title == "channel"
