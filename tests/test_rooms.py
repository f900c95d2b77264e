"""The rooms as a newcomer finds them: their table in CONTRIBUTING.md, and a test for each module.

``tests/mirror.txt`` names, for each module without a test file at its own path, the test file
that exercises most of it; `scripts/make_mirror.py` measures that.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from coverage import CoverageData

from scripts import make_mirror, make_rooms

TESTS = Path(__file__).parent


def test_the_table_of_rooms_is_up_to_date() -> None:
    document = make_rooms.DOCUMENT.read_text("utf-8")
    assert document == make_rooms.updated(document, make_rooms.table()), "run make rooms"


def test_a_room_tells_its_folders_and_a_module_itself(tmp_path: Path) -> None:
    for name, text in {
        "study/__init__.py": '"""Questions.\n\nMore of them."""',
        "study/cost/__init__.py": '"""Cost: gates."""',
        "bits.py": '"""Bits."""',
        "fonts/a.ttf": "",
    }.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    assert make_rooms.table(tmp_path).splitlines()[2:] == [
        "| 4 | `study/` | Questions |",
        "| 4 | `study/cost/` | Cost: gates |",
        "| 0 | `bits.py` | Bits |",
    ]


def test_a_document_without_the_marks_is_refused() -> None:
    with pytest.raises(SystemExit, match="are to stand in it"):
        make_rooms.updated("# Contributing\n", "table")


def test_each_module_has_its_tests() -> None:
    wrong = make_mirror.wrong(make_mirror.SOURCE, TESTS, (TESTS / "mirror.txt").read_text("utf-8"))
    assert not wrong, "\n" + "\n".join(wrong)


def test_what_is_wrong_with_a_mirror_is_told(tmp_path: Path) -> None:
    source, tests = tmp_path / "src", tmp_path / "tests"
    for file in ("src/bits.py", "src/cost/area.py", "src/cost/time.py", "src/cost/rate.py"):
        (tmp_path / file).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / file).write_text('"""Some."""\ndef one():\n    return 1\n', "utf-8")
    (source / "cost" / "__init__.py").write_text('"""Nothing but words."""\nA = 1\n', "utf-8")
    for file in ("test_bits.py", "cost/test_time.py"):
        (tests / file).parent.mkdir(parents=True, exist_ok=True)
        (tests / file).touch()
    told = """\
# module  test file
bits.py      cost/test_time.py
cost/gone.py cost/test_time.py
cost/area.py cost/test_gone.py
cost/area.py
"""
    assert make_mirror.wrong(source, tests, told) == [
        "mirror.txt:2: bits.py has tests of its own in test_bits.py; take the line out",
        "mirror.txt:3: there is no module cost/gone.py",
        "mirror.txt:4: there is no test file cost/test_gone.py",
        "mirror.txt:5: expected a module and a test file, found 'cost/area.py'",
        "cost/rate.py: expected cost/test_rate.py, or a line in mirror.txt; make mirror adds it",
    ]


def test_a_near_test_file_is_named_before_one_that_runs_a_little_more() -> None:
    counted = {"lesson/test_checking.py": 40, "cost/test_time.py": 37, "test_cli.py": 39}
    assert make_mirror.nearest("cost/area.py", counted) == "cost/test_time.py"
    assert make_mirror.nearest("bits.py", counted) == "lesson/test_checking.py"
    assert make_mirror.nearest("cost/area.py", counted | {"cost/test_time.py": 20}) == (
        "lesson/test_checking.py"
    )


def test_only_what_functions_run_counts(tmp_path: Path) -> None:
    file = tmp_path / "area.py"
    file.write_text(
        'A = 1\n\ndef area(n):\n    """Some."""\n    return (\n        n\n    )\n', "utf-8"
    )
    assert make_mirror.inside(file) == {5, 6, 7}


def test_coverage_notes_the_test_file_of_a_line(tmp_path: Path) -> None:
    """In the workers of a suite, too: what makes the table is tried on a small project."""
    for name, text in {
        "pyproject.toml": '[tool.coverage.run]\nsource = ["paint"]\nparallel = true\n'
        'patch = ["subprocess"]\ndata_file = "data"\n',
        "paint.py": "def mix(a):\n    return a + 1\n",
        "tests/test_mixing.py": "import paint\ndef test_mix():\n    assert paint.mix(1) == 2\n",
    }.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    clean = {key: value for key, value in os.environ.items() if not key.startswith("PYTEST")}
    clean["PYTHONPATH"] = os.pathsep.join([str(tmp_path), str(TESTS.parent), *sys.path])
    coverage = [sys.executable, "-m", "coverage"]
    pytest_ = ["-m", "pytest", "-q", "-n", "1", "-p", "scripts.traced", "tests"]
    for words in (["run", *pytest_], ["combine", "--quiet"]):
        subprocess.run([*coverage, *words], cwd=tmp_path, env=clean, check=True, timeout=60)
    data = CoverageData(str(tmp_path / "data"))
    data.read()
    assert data.contexts_by_lineno(str(tmp_path / "paint.py"))[2] == ["test_mixing.py"]
