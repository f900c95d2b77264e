"""Files are written whole or not at all, also where the writer is killed in the middle."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest

from edgewise import files

# A writer that stops for good at a named step of the write window, and says that it is there.
WRITER: Final = """
import os, sys, time
from pathlib import Path
from edgewise import files
step, path = sys.argv[1], Path(sys.argv[2])
def stopped(*_, **__):
    print("there", flush=True)
    time.sleep(60)
if step == "write":
    os.fdopen = stopped
elif step == "fsync":
    os.fsync = stopped
elif step == "chmod":
    Path.chmod = stopped
else:
    Path.replace = os.link = stopped
(files.create if sys.argv[3] == "create" else files.write)(path, b"new" * 100_000)
"""


def killed(step: str, path: Path, how: str) -> None:
    """Kill a writer at that step."""
    command = [sys.executable, "-c", WRITER, step, str(path), how]
    writer = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert writer.stdout is not None
    assert writer.stdout.readline() == "there\n"
    writer.send_signal(signal.SIGKILL)
    writer.communicate()


@pytest.mark.parametrize("step", ["write", "fsync", "chmod", "name"])
def test_a_kill_in_the_write_window_leaves_the_old_file(tmp_path: Path, step: str) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(b"old")
    killed(step, path, "write")
    assert path.read_bytes() == b"old"
    left = [file.name for file in tmp_path.iterdir() if file != path]
    assert len(left) == 1
    assert left[0].startswith(".page.html-")
    assert left[0].endswith(".new")
    files.write(path, b"next")  # the next build removes what was left
    assert [file.name for file in tmp_path.iterdir()] == ["page.html"]
    assert path.read_bytes() == b"next"


@pytest.mark.parametrize("step", ["write", "fsync", "chmod", "name"])
def test_a_kill_never_blocks_the_next_try(tmp_path: Path, step: str) -> None:
    path = tmp_path / "lesson.md"
    killed(step, path, "create")
    assert not path.exists()
    files.create(path, b"first")
    assert [file.name for file in tmp_path.iterdir()] == ["lesson.md"]


def test_a_writer_at_work_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    command = [sys.executable, "-c", WRITER, "fsync", str(path), "write"]
    writer = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert writer.stdout is not None
    writer.stdout.readline()
    files.write(path, b"mine")
    assert len(list(tmp_path.glob(".page.html-*.new"))) == 1
    writer.kill()
    writer.communicate()
    files.write(path, b"mine again")
    assert list(tmp_path.glob(".*")) == []


def test_files_of_other_names_are_left_alone(tmp_path: Path) -> None:
    strangers = [tmp_path / name for name in (".other.html-x.new", ".page.html-x.old", "a.new")]
    for stranger in strangers:
        stranger.write_bytes(b"")
    files.write(tmp_path / "page.html", b"mine")
    assert all(stranger.exists() for stranger in strangers)


def test_what_is_there_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "lesson.md"
    path.write_bytes(b"somebody's")
    with pytest.raises(FileExistsError):
        files.create(path, b"mine")
    path.unlink()
    path.symlink_to("nowhere")
    with pytest.raises(FileExistsError):
        files.create(path, b"mine")
    assert path.is_symlink()


@pytest.mark.parametrize("how", [files.write, files.create])
def test_a_full_disk_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, how: Callable[[Path, bytes], None]
) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        how(tmp_path / "lesson.md", b"text")
    assert list(tmp_path.iterdir()) == []


def test_a_file_system_without_links_will_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(os, "link", refused)
    files.create(tmp_path / "lesson.md", b"text")
    assert [file.read_bytes() for file in tmp_path.iterdir()] == [b"text"]
    with pytest.raises(FileExistsError):
        files.create(tmp_path / "lesson.md", b"other")


def test_the_longest_name_can_be_written(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 250 + ".html")
    files.write(path, b"text")
    assert path.read_bytes() == b"text"


def test_the_mode_is_the_users(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        files.write(tmp_path / "page.html", b"text")
    finally:
        os.umask(before)
    assert (tmp_path / "page.html").stat().st_mode & 0o777 == 0o640


def test_a_killed_build_leaves_a_whole_page(tmp_path: Path) -> None:
    """The command itself, killed again and again, at any moment."""
    lesson = tmp_path / "hut.md"
    lesson.write_text(
        "---\ntitle: Hut\ndesign: serial-adder\nwith: {n: 4}\noperands: {a: 3, b: 6}\n---\n`? a`\n",
        "utf-8",
    )
    command = [sys.executable, "-m", "edgewise", "build", str(lesson), "-o", str(tmp_path)]
    subprocess.run(command, check=True, capture_output=True, timeout=100)
    whole = (tmp_path / "hut.html").read_bytes()
    began = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, timeout=100)
    taken = time.perf_counter() - began
    for part in (0.5, 0.7, 0.8, 0.9, 0.95, 1.0):
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(part * taken)
        process.kill()
        process.wait()
        assert (tmp_path / "hut.html").read_bytes() == whole
    subprocess.run(command, check=True, capture_output=True, timeout=100)
    assert sorted(file.name for file in tmp_path.iterdir()) == ["hut.html", "hut.md"]
