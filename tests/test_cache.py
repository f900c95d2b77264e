"""The cache folder: losing it costs time, nothing else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from edgewise import cache, formula


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path / "kept"))
    return tmp_path / "kept"


def test_round_trip() -> None:
    assert cache.recall("figures", "serial adder") is None
    cache.keep("figures", "serial adder", b"\x00svg")
    assert cache.recall("figures", "serial adder") == b"\x00svg"
    assert cache.recall("figures", "another") is None
    assert cache.recall("tables", "serial adder") is None


def test_keeping_again_replaces() -> None:
    cache.keep("figures", "a", b"old")
    cache.keep("figures", "a", b"new")
    assert cache.recall("figures", "a") == b"new"


def test_the_variable_names_the_folder(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert cache.folder() == folder
    monkeypatch.delenv(cache.VARIABLE)
    assert cache.folder().name == "edgewise"


def test_the_oldest_entries_go(folder: Path) -> None:
    for number in range(4):
        cache.keep("figures", f"entry {number}", b"x")
        for file in (folder / "figures").iterdir():  # age what is there by a minute
            old = file.stat().st_mtime - 60
            os.utime(file, (old, old))
    cache.keep("figures", "newest", b"x", most=2)
    assert cache.recall("figures", "newest") == b"x"
    assert cache.recall("figures", "entry 3") == b"x"
    assert [cache.recall("figures", f"entry {n}") for n in range(3)] == [None] * 3


def test_no_half_written_file_stays(folder: Path) -> None:
    cache.keep("figures", "a", b"x")
    assert [file.name for file in (folder / "figures").iterdir() if file.name[0] == "."] == []


def test_a_folder_that_can_not_be_made_is_no_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path / "file" / "below"))
    cache.keep("figures", "a", b"x")
    assert cache.recall("figures", "a") is None


def test_an_entry_that_can_not_be_renamed_into_place_leaves_nothing(folder: Path) -> None:
    cache.keep("figures", "a", b"x")
    (entry,) = (folder / "figures").iterdir()
    entry.unlink()
    entry.mkdir()  # a folder stands where the file should go
    cache.keep("figures", "a", b"x")
    assert cache.recall("figures", "a") is None
    assert list((folder / "figures").iterdir()) == [entry]


def test_a_damaged_grammar_table_is_made_again(folder: Path) -> None:
    formula._parser.cache_clear()
    formula._parse.cache_clear()
    formula.parse("a + 1")
    (entry,) = (folder / "formula").iterdir()
    entry.write_bytes(b"not a parser")
    formula._parser.cache_clear()
    formula._parse.cache_clear()
    assert formula.show(formula.parse("a + 2")) == "a + 2"  # not one whose tree is kept
    assert entry.read_bytes() != b"not a parser"


def test_a_damaged_tree_is_made_again(folder: Path) -> None:
    formula._parse.cache_clear()
    formula.parse("a + 3")
    (entry,) = (folder / "trees").iterdir()
    entry.write_bytes(b"not a tree")
    formula._parse.cache_clear()
    assert formula.show(formula.parse("a + 3")) == "a + 3"
    assert entry.read_bytes() != b"not a tree"


def test_a_tree_that_was_kept_is_not_read_again(monkeypatch: pytest.MonkeyPatch) -> None:
    formula._parse.cache_clear()
    formula.parse("a + 4")
    formula._parse.cache_clear()
    monkeypatch.setattr(formula, "_parser", None)  # reading would fail
    assert formula.show(formula.parse("a + 4")) == "a + 4"
