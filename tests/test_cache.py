"""The cache folder: losing it costs time, nothing else."""

from __future__ import annotations

import ast
import errno
import itertools
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import cache, formula
from edgewise.errors import TextError
from edgewise.plainname import plain
from tests.conftest import Edgewise


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
    own = cache.folder()
    assert own is not None
    assert own.name == "edgewise"


def _entry(folder: Path, room: str = "figures") -> Path:
    (entry,) = (folder / room).iterdir()
    return entry


def _pruning(start: str) -> str:
    """A key whose entry prunes its room."""
    keys = (f"{start} {number}" for number in range(10_000))
    return next(key for key in keys if int(cache._name(cache._key("figures", key))[:2], 16) < 8)


def test_the_least_recently_used_entries_go_in_bulk(folder: Path) -> None:
    for number in range(8):
        cache.keep("figures", f"entry {number}", b"x", most=100)
    for age, number in enumerate(reversed(range(8))):  # entry 0 is the oldest
        path = folder / "figures" / cache._name(cache._key("figures", f"entry {number}"))
        old = path.stat().st_mtime - 60 * (age + 1)
        os.utime(path, (old, old))
    assert cache.recall("figures", "entry 0") == b"x"  # used just now
    newest = _pruning("newest")
    cache.keep("figures", newest, b"x", most=4)
    assert len(list((folder / "figures").iterdir())) == 3
    kept = [f"entry {n}" for n in range(8) if cache.recall("figures", f"entry {n}")]
    assert kept == ["entry 0", "entry 7"]
    assert cache.recall("figures", newest) == b"x"


def test_pruning_is_rare(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pruned: list[int] = []
    monkeypatch.setattr(cache, "_prune", lambda _, most: pruned.append(most))
    for number in range(320):
        cache.keep("figures", f"entry {number}", b"x", most=1)
    assert 1 <= len(pruned) <= 30
    assert len(list((folder / "figures").iterdir())) == 320


def test_pruning_removes_what_was_left_half_written(folder: Path) -> None:
    cache.keep("figures", "a", b"x")
    room = folder / "figures"
    for name, age in ((".new-1-old", 7200), (".new-2-just-now", 0)):
        (room / name).touch()
        now = (room / name).stat().st_mtime - age
        os.utime(room / name, (now, now))
    cache.keep("figures", _pruning("b"), b"x")
    assert [file.name for file in room.iterdir() if file.name[0] == "."] == [".new-2-just-now"]


# --------------------------------------------- whatever is wrong with an entry, it is none


def test_every_flipped_bit_is_found(folder: Path) -> None:
    cache.keep("figures", "a", b"22 + 43")
    entry = _entry(folder)
    whole = entry.read_bytes()
    for bit in range(8 * len(whole)):
        damaged = bytearray(whole)
        damaged[bit // 8] ^= 1 << bit % 8
        entry.write_bytes(damaged)
        assert cache.recall("figures", "a") is None, bit
    entry.write_bytes(whole)
    assert cache.recall("figures", "a") == b"22 + 43"


def test_every_cut_and_an_addition_are_found(folder: Path) -> None:
    cache.keep("figures", "a", b"22 + 43")
    entry = _entry(folder)
    whole = entry.read_bytes()
    for wrong in (*(whole[:length] for length in range(len(whole))), whole + b"0"):
        entry.write_bytes(wrong)
        assert cache.recall("figures", "a") is None


def test_an_entry_does_not_serve_another_key_or_room(folder: Path) -> None:
    cache.keep("figures", "a", b"x")
    moved = _entry(folder).read_bytes()
    for room, key in (("figures", "b"), ("tables", "a")):
        cache.keep(room, key, b"y")
        (folder / room / cache._name(cache._key(room, key))).write_bytes(moved)
        assert cache.recall(room, key) is None


def test_a_key_and_a_content_can_not_be_parted_elsewhere() -> None:
    assert cache._digest(b"ab", b"c") != cache._digest(b"a", b"bc")


def test_links_pipes_folders_and_foreign_rights_are_no_entry(folder: Path, tmp_path: Path) -> None:
    cache.keep("figures", "a", b"x")
    entry = _entry(folder)
    whole = entry.read_bytes()
    elsewhere = tmp_path / "elsewhere"
    elsewhere.write_bytes(whole)

    def refused() -> None:
        assert cache.recall("figures", "a") is None
        entry.rmdir() if entry.is_dir() and not entry.is_symlink() else entry.unlink()

    entry.unlink()
    entry.symlink_to(elsewhere)
    refused()
    entry.hardlink_to(elsewhere)
    refused()
    os.mkfifo(entry)
    refused()
    entry.mkdir()
    refused()
    entry.write_bytes(whole)
    entry.chmod(0o666)
    refused()
    entry.write_bytes(whole)
    entry.chmod(0o600)
    assert cache.recall("figures", "a") == b"x"


def test_an_entry_that_is_too_large_is_not_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache.keep("figures", "a", bytes(100))
    monkeypatch.setattr(cache, "LARGEST", 100)
    assert cache.recall("figures", "a") is None
    cache.keep("figures", "b", bytes(100))
    assert len(list((folder / "figures").iterdir())) == 1


@pytest.mark.parametrize("room", [False, True], ids=["folder", "room"])
def test_a_linked_folder_is_no_cache(folder: Path, tmp_path: Path, room: bool) -> None:  # noqa: FBT001
    cache.keep("figures", "a", b"x")
    linked = folder / "figures" if room else folder
    linked.rename(tmp_path / "shared")
    linked.symlink_to(tmp_path / "shared")
    assert cache.recall("figures", "a") is None
    cache.keep("figures", "b", b"x")
    assert len(list((tmp_path / "shared").iterdir())) == 1


def test_a_foreign_folder_or_entry_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    cache.keep("figures", "a", b"x")
    own = os.getuid()
    monkeypatch.setattr(os, "getuid", lambda: own + 1)  # all that is there is somebody else's
    assert cache.recall("figures", "a") is None
    cache.keep("figures", "a", b"y")
    monkeypatch.setattr(os, "getuid", lambda: own)
    assert cache.recall("figures", "a") == b"x"


def test_folders_are_for_their_owner_alone(folder: Path) -> None:
    before = os.umask(0)
    try:
        cache.keep("figures", "a", b"x")
    finally:
        os.umask(before)
    found = [path.stat().st_mode & 0o777 for path in (folder, folder / "figures", _entry(folder))]
    assert found == [0o700, 0o700, 0o600]
    (folder / "figures").chmod(0o777)
    assert cache.recall("figures", "a") == b"x"
    assert (folder / "figures").stat().st_mode & 0o777 == 0o700


def test_a_relative_folder_is_refused_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, edgewise: Edgewise
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(cache.VARIABLE, "cache")
    cache.keep("figures", "a", b"x")
    assert cache.recall("figures", "a") is None
    answer = edgewise("trace", "serial-adder", "--operands", "a=22,b=43")
    assert answer.code == 0
    assert answer.err == (
        "EDGEWISE_CACHE is 'cache', a relative path; nothing is cached: give the whole path of a"
        " folder\n"
    )
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    cache.keep("figures", "a", b"x")
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", full)
        cache.keep("figures", "b", b"x")
    assert cache.recall("figures", "b") is None
    assert len(list((folder / "figures").iterdir())) == 1


def test_a_process_that_may_not_write_more_leaves_nothing(folder: Path) -> None:
    program = (
        "import resource, signal\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "from edgewise import cache\n"
        "cache.keep('figures', 'a', bytes(5000))\n"
        "print(cache.recall('figures', 'a'))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout == "None\n"
    assert list((folder / "figures").iterdir()) == []


def test_many_processes_keep_the_same_entries(folder: Path) -> None:
    program = (
        "from edgewise import cache\n"
        "for n in range(300):\n"
        "    key = str(n % 20)\n"
        "    cache.keep('figures', key, key.encode() * 1000, most=15)\n"
        "    assert cache.recall('figures', key) in (None, key.encode() * 1000)\n"
    )
    several = [subprocess.Popen([sys.executable, "-c", program]) for _ in range(3)]
    assert [one.wait() for one in several] == [0, 0, 0]
    assert [file.name for file in (folder / "figures").iterdir() if file.name[0] == "."] == []


def test_nothing_in_the_program_unpickles() -> None:
    for path in Path(cache.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            assert not {"pickle", "marshal", "shelve", "dill"}.intersection(names), path


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


@pytest.fixture
def afresh(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """Forget what this process has read, as a new one would."""

    def forget() -> None:
        formula._parser.cache_clear()
        formula._parse.cache_clear()
        monkeypatch.setattr(formula, "_keeping", itertools.count())

    forget()
    return forget


def test_a_damaged_grammar_table_is_made_again(folder: Path, afresh: Callable[[], None]) -> None:
    formula.parse("a + 1")
    entry = _entry(folder, "formula")
    entry.write_bytes(b"not a parser")
    afresh()
    assert formula.show(formula.parse("a + 2")) == "a + 2"  # not one whose tree is kept
    assert entry.read_bytes() != b"not a parser"


@pytest.mark.parametrize("sealed", [b"", b"{}", b"[]", b"null", b"[1, 2]", b"[{}, {}]", b"["])
def test_a_sealed_table_that_is_none_is_made_again(
    sealed: bytes, afresh: Callable[[], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(formula, "_tables", lambda _: sealed)
        formula.parse("a + 1")
    afresh()
    assert formula.show(formula.parse("a + 2")) == "a + 2"


def test_the_kept_table_reads_as_the_made_one(afresh: Callable[[], None]) -> None:
    texts = ("a + 1", "S after 2*n == (a + b) mod 2**n for all a, b for n in 1..64", "a(5..2)")
    made = [formula.parse(text, "claim") for text in texts]
    afresh()
    assert [formula._read(text, "claim") for text in texts] == made
    with pytest.raises(TextError) as kept:
        formula.parse("a + * b")
    assert str(kept.value) == "can't read 'a + * b': found '*'; expected a name or a number"


def test_every_flipped_bit_of_a_tree_is_found(folder: Path, afresh: Callable[[], None]) -> None:
    tree = formula.parse("a + b")
    entry = _entry(folder, "trees")
    whole = entry.read_bytes()
    key = f"{formula._this_reader()}\nexpression\na + b"
    for bit in range(8 * len(whole)):
        damaged = bytearray(whole)
        damaged[bit // 8] ^= 1 << bit % 8
        entry.write_bytes(damaged)
        assert cache.recall("trees", key) is None
    afresh()
    assert formula.parse("a + b") == tree
    assert entry.read_bytes() == whole


@pytest.mark.usefixtures("afresh")
@pytest.mark.parametrize("sealed", ["", "{", "[1", '{"Path": ["x"]}', '{"Binary": ["+"]}', "{}"])
def test_a_sealed_tree_that_is_none_is_made_again(
    sealed: str,
) -> None:
    key = f"{formula._this_reader()}\nexpression\na + b"
    cache.keep("trees", key, sealed.encode())
    assert formula.show(formula.parse("a + b")) == "a + b"


def test_a_tree_that_was_kept_is_not_read_again(
    afresh: Callable[[], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    tree = formula.parse("S after 2*n == (a + b) mod 64 for all a, b for n in 1..64", "claim")
    afresh()
    monkeypatch.setattr(formula, "_read", None)  # reading would fail
    text = "S after 2*n == (a + b) mod 64 for all a, b for n in 1..64"
    assert formula.parse(text, "claim") == tree


@pytest.mark.usefixtures("afresh")
def test_a_run_keeps_some_trees_and_none_of_plain_names(folder: Path) -> None:
    for number in range(200):
        formula.parse(f"G{number}.out")
        formula.parse(f"FA({number}).carry-out(0)")
        formula.parse(str(number))
    assert not folder.exists()
    for number in range(200):
        formula.parse(f"n + {number}")
    assert len(list((folder / "trees").iterdir())) == formula._MOST_KEPT


@pytest.mark.parametrize("start", formula.STARTS)
@pytest.mark.parametrize(
    "text",
    [
        *("a", "A_1", "a(0)", "FA.sum", "FA.carry-out", "FA(12).carry-in", "S.q(3)", "FA(1).q(0)"),
        *("0", "1", "007", "123456789", "1234567890", "X", "in", "for", "all", "lsb", "mod"),
        *("X(0)", "not", "after.q", "a(1)(2)", "a.b.c", "a.1", "a.b-1", "a.b-c-d", "a(n)", "a()"),
        *(" a", "a ", "a\n", "a (0)", "a(0 )", "-1", "0b1", "0b", "_", "_a.b_c", "a.-b", "é", "²"),
        *("a.lsb-first", "lsb-first", "a.sum-n", "xor", "or1", "X1", "notes", "inn", "1a", "٣"),
    ],
)
def test_plain_names_read_as_by_the_grammar(text: str, start: str) -> None:
    read = plain(text, start)
    if read is not None:
        assert repr(read) == repr(formula._read(text, start))


@given(st.text("aXSn01b.(-) orfi", max_size=9), st.sampled_from(("expression", "drive", "target")))
def test_whatever_is_plain_reads_as_by_the_grammar(text: str, start: str) -> None:
    read = plain(text, start)
    if read is not None:
        assert repr(read) == repr(formula._read(text, start))
