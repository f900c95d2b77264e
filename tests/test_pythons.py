"""Which Pythons the wheel is tried on: those that the classifiers name, as far as they are here."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from scripts import check_pythons


def launcher(folder: Path, name: str, command: str) -> Path:
    """Put a command of this name there."""
    folder.mkdir(exist_ok=True)
    file = folder / name
    file.write_text(f"#!/bin/sh\n{command}\n", "utf-8")
    file.chmod(0o755)
    return file


def test_the_classifiers_name_the_versions(tmp_path: Path) -> None:
    project = tmp_path / "pyproject.toml"
    project.write_text(
        '[project]\nclassifiers = ["Topic :: Education", "Programming Language :: Python :: 3 ::'
        ' Only", "Programming Language :: Python :: 3.11",'
        ' "Programming Language :: Python :: 3.12"]',
        "utf-8",
    )
    assert check_pythons.named(project) == ["3.11", "3.12"]
    assert "3.11" in check_pythons.named()


def test_an_interpreter_is_found_in_a_given_folder(tmp_path: Path) -> None:
    version = "{}.{}".format(*sys.version_info[:2])
    file = launcher(tmp_path / "bin", f"python{version}", f'exec {sys.executable} "$@"')
    assert check_pythons.find(version, [str(tmp_path / "bin")]) == str(file)


def test_a_launcher_without_its_interpreter_is_passed_over(tmp_path: Path) -> None:
    launcher(tmp_path, "python3.99", "echo 'python3.99: not installed' >&2; exit 127")
    assert check_pythons.find("3.99", [str(tmp_path)]) is None
    assert check_pythons.find("3.98", []) is None


def test_what_was_skipped_is_told_and_none_is_an_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "edgewise.whl").touch()
    monkeypatch.setattr(check_pythons, "DIST", tmp_path)
    monkeypatch.setattr(check_pythons, "named", lambda: ["3.98"])
    with pytest.raises(SystemExit) as left:
        check_pythons.main(())
    assert left.value.code == 1
    told = "Python 3.98: skipped, there is no python3.98 with ensurepip here\n"
    assert capsys.readouterr().out == told


def test_a_failure_on_one_version_fails_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "edgewise.whl").touch()
    monkeypatch.setattr(check_pythons, "DIST", tmp_path)
    monkeypatch.setattr(check_pythons, "named", lambda: ["3.97", "3.98"])
    monkeypatch.setattr(check_pythons, "find", lambda version, _: f"/opt/python{version}")
    monkeypatch.setattr(check_pythons, "tried", lambda version, *_: version == "3.97")
    with pytest.raises(SystemExit):
        check_pythons.main(())
    assert capsys.readouterr().out == (
        "Python 3.97: passed (/opt/python3.97)\nPython 3.98: FAILED (/opt/python3.98)\n"
    )
