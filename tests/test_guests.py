"""Guests: what other packages bring, and that a faulty one is told by its name and breaks nothing.

A distribution is a folder ``NAME-VERSION.dist-info`` with METADATA and entry_points.txt (PyPA,
"Recording installed projects" and "Entry points specification").
"""

from __future__ import annotations

import sys
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import pytest

from edgewise import blueprint as blueprints
from edgewise import guests
from edgewise.circuit import parts
from edgewise.errors import EdgewiseError
from edgewise.guests import Group, GuestError, GuestWarning

Install: TypeAlias = Callable[..., None]
GATE = """\
from edgewise.circuit.gates import gate
INHIBIT = gate("inhibit", "a, unless b", ("a", "b"), ("and", "a", ("not", "b")), "&")
"""
USED = """\
circuit: sluice
inputs: {level: 1, shut: 1}
parts:
  OPEN: {part: inhibit, a: level, b: shut}
outputs: {through: OPEN.out}
operands: {level: 1, shut: 1}
computes: {through: level * (1 - shut)}
"""


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Install]:
    """Puts a package there: its name, what is in its module, its entry points by group."""
    monkeypatch.syspath_prepend(tmp_path)

    def put(package: str, code: str = "", /, **groups: str) -> None:
        (tmp_path / f"{package.replace('-', '_')}.py").write_text(code, "utf-8")
        info = tmp_path / f"{package.replace('-', '_')}-1.0.dist-info"
        info.mkdir()
        (info / "METADATA").write_text(f"Metadata-Version: 2.4\nName: {package}\nVersion: 1.0\n")
        lines = [f"[edgewise.{group}]\n{entries}\n" for group, entries in groups.items()]
        (info / "entry_points.txt").write_text("".join(lines), "utf-8")
        forget()

    def forget() -> None:
        guests._entries.cache_clear()
        guests._loaded.cache_clear()

    yield put
    forget()
    for name in parts._BROUGHT:
        del parts._REGISTRY[name]
    parts._BROUGHT.clear()
    parts._kind.cache_clear()
    parts._output_widths.cache_clear()
    for name, module in list(sys.modules.items()):
        if str(getattr(module, "__file__", "")).startswith(str(tmp_path)):
            del sys.modules[name]


@dataclass(frozen=True)
class Tide:
    name: str


TIDES: Group[Tide] = Group("edgewise.tides", "tide", Tide, lambda: ("ebb",), lambda _, one: one)


def told(install: Install, code: str, entries: str, package: str = "tide-mill") -> str:
    """What is wrong with the tide called flood."""
    install(package, code, tides=entries)
    with pytest.raises(GuestError) as wrong:
        TIDES.find("flood")
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always", GuestWarning)
        assert list(TIDES.all()) == []
    assert [str(one.message) for one in warned] == [str(wrong.value)]
    return str(wrong.value)


def test_there_are_none_where_no_package_brings_one() -> None:
    assert TIDES.guests() == ()
    assert TIDES.find("flood") is None


def test_one_is_found_by_its_name(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    assert TIDES.find("flood") == Tide("flood")
    assert TIDES.names() == ("flood",)
    assert list(TIDES.all()) == [Tide("flood")]


def test_an_import_that_fails_is_told(install: Install) -> None:
    assert told(install, "import tide_gears", "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: can't be imported: ModuleNotFoundError: No module"
        " named 'tide_gears'"
    )


@pytest.mark.parametrize(
    ("code", "what"),
    [
        ("raise SystemExit('stop the mill')", "SystemExit: stop the mill"),
        ("raise ValueError('two\\nlines')", "ValueError: two lines"),
        ("1 // 0", "ZeroDivisionError: integer division or modulo by zero"),
        ("raise ValueError", "ValueError"),
        ("FLOOD = ", "SyntaxError: invalid syntax (tide_mill.py, line 1)"),
        ("EBB = 1", "AttributeError: module 'tide_mill' has no attribute 'FLOOD'"),
    ],
)
def test_whatever_goes_wrong_in_an_import_is_one_line(
    install: Install, code: str, what: str
) -> None:
    found = told(install, code, "flood = tide_mill:FLOOD")
    assert found == f"tide flood of the package tide-mill: can't be imported: {what}"


def test_a_long_message_is_cut(install: Install) -> None:
    found = told(install, "raise ValueError('tide ' * 999)", "flood = tide_mill:FLOOD")
    whole = "can't be imported: ValueError: " + "tide " * 999
    assert found == f"tide flood of the package tide-mill: {whole[:200]}…"


def test_another_kind_of_thing_is_told(install: Install) -> None:
    assert told(install, "FLOOD = 'high'", "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: found a str, expected a Tide"
    )


def test_another_name_is_told(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('high')"
    assert told(install, code, "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: it calls itself high; expected the name of its entry"
        " point"
    )


def test_two_packages_with_one_name_are_told(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("sea-mill", code, tides="flood = sea_mill:FLOOD")
    assert told(install, code, "flood = tide_mill:FLOOD") == (
        "tide flood: the packages sea-mill and tide-mill bring one each; uninstall all but one"
    )


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("ebb", "edgewise has a tide of this name itself; give it another name"),
        ("Flood", "its name is to be of small letters and digits, with hyphens between"),
    ],
)
def test_a_name_that_no_guest_can_have_is_told(install: Install, name: str, why: str) -> None:
    install("tide-mill", "", tides=f"{name} = tide_mill:FLOOD")
    assert TIDES.names() == ()
    assert TIDES.find(name) is None  # ours is meant, or none
    with pytest.warns(GuestWarning) as warned:
        assert list(TIDES.all()) == []
    found = [str(one.message) for one in warned]
    assert found == [f"tide {name} of the package tide-mill: {why}"]


def test_entry_points_that_cannot_be_read_hinder_no_other(install: Install, tmp_path: Path) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    install("sea-mill")
    (tmp_path / "sea_mill-1.0.dist-info" / "entry_points.txt").write_text("[edgewise.tides]\nebb\n")
    with pytest.warns(
        GuestWarning, match="^the entry points of the package sea-mill can't be read"
    ):
        assert TIDES.find("flood") == Tide("flood")


def test_the_first_of_two_distributions_of_one_name_counts(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    older = tmp_path / "older" / "Tide_Mill-0.9.dist-info"
    older.mkdir(parents=True)
    (older / "METADATA").write_text("Metadata-Version: 2.4\nName: Tide_Mill\nVersion: 0.9\n")
    (older / "entry_points.txt").write_text("[edgewise.tides]\nflood = elsewhere:FLOOD\n")
    monkeypatch.setattr(sys, "path", [*sys.path, str(older.parent)])
    guests._entries.cache_clear()
    assert TIDES.find("flood") == Tide("flood")


def test_an_archive_on_the_path_is_looked_into(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from zipfile import ZipFile

    install("empty")
    archive = tmp_path / "mill.zip"
    with ZipFile(archive, "w") as file:
        file.writestr("a_mill.py", "from tests.test_guests import Tide\nFLOOD = Tide('flood')")
        file.writestr("a_mill-1.dist-info/METADATA", "Metadata-Version: 2.4\nName: a-mill\n")
        file.writestr("a_mill-1.dist-info/entry_points.txt", "[edgewise.tides]\nflood=a_mill:FLOOD")
    monkeypatch.syspath_prepend(str(archive))
    guests._entries.cache_clear()
    assert TIDES.find("flood") == Tide("flood")


def test_a_warning_of_a_command_is_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(warnings, "formatwarning", warnings.formatwarning)
    guests.warn_plainly()
    assert warnings.formatwarning("high tide", GuestWarning, "a.py", 3) == "warning: high tide\n"
    assert "UserWarning: high tide" in warnings.formatwarning("high tide", UserWarning, "a.py", 3)


# ---------------------------------------------------------------------- parts


def test_a_part_of_another_package_is_a_part(install: Install) -> None:
    install("tide-mill", GATE, parts="inhibit = tide_mill:INHIBIT")
    design = blueprints.from_text(USED, "sluice.yaml").design()
    assert design.circuit.part("OPEN").kind.function is not None
    assert parts.names()[-1] == "inhibit"


def test_a_part_that_is_not_there_is_told_with_those_of_others(install: Install) -> None:
    install("tide-mill", GATE, parts="inhibit = tide_mill:INHIBIT")
    with pytest.raises(EdgewiseError) as wrong:
        blueprints.from_text(USED.replace("inhibit", "inhibt"), "sluice.yaml").design()
    assert str(wrong.value) == (
        "sluice.yaml:4:16: part OPEN: there is no part inhibt; did you mean inhibit?"
    )


@pytest.mark.parametrize(
    ("code", "where", "what"),
    [
        (
            GATE.replace("import gate", "import gates"),
            "16: part OPEN: ",
            "can't be imported: ImportError: cannot import name 'gates' from"
            " 'edgewise.circuit.gates'",
        ),
        ("INHIBIT = 'a gate'", "16: part OPEN: ", "found a str, expected a PartType"),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: 1 // 0)",
            "3: part OPEN: ",
            "it failed with ZeroDivisionError: integer division or modulo by zero",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: 7)",
            "3: part OPEN: ",
            "it gave an int, expected a tuple",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: ('a', 'b'))",
            "3: part OPEN: ",
            "it gave a str, expected a Port",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, inside=lambda *_: 'gates')",
            "3: ",
            "it gave a str, expected a Circuit or None",
        ),
    ],
)
def test_what_is_wrong_with_a_part_is_told_where_it_is_used(
    install: Install, code: str, where: str, what: str
) -> None:
    install("tide-mill", code, parts="inhibit = tide_mill:INHIBIT")
    with pytest.raises(EdgewiseError) as wrong:
        blueprints.from_text(USED, "sluice.yaml").design()
    found = str(wrong.value).splitlines()[0]
    told = found.partition(" (/")[0]
    assert told == f"sluice.yaml:4:{where}part inhibit of the package tide-mill: {what}"
    without = USED.replace("inhibit, a: level, b: shut", "and, in: [level, shut]")
    assert blueprints.from_text(without, "sluice.yaml").design().circuit.part("OPEN") is not None
