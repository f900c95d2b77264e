"""The floors of the house, held against the code.

Imports point down only. This file reads every import of ``src/edgewise`` from the syntax tree,
those inside functions and under ``TYPE_CHECKING`` too, and compares it with the tables below.
The tables are the whole policy; a new file or room needs a line in them.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

SOURCE: Final = Path(__file__).parents[1] / "src" / "edgewise"

# Floor by floor, lowest first. A name is a module or a package at the top of the source tree.
FLOORS: Final[tuple[tuple[str, ...], ...]] = (
    (
        "spelling",
        "errors",
        "listing",
        "characters",
        "numerals",
        "bits",
        "codes",
        "nodes",
        "plainname",
        "formula",
        "arithmetic",
        "yamltext",
        "cache",
        "files",
        "guests",
        "words",
        "columns",
        "fonts",
    ),
    ("circuit",),
    (
        "procedure",
        "operands",
        "waveform",
        "design",
        "trace",
        "state_graph",
        "inside",
        "response",
        "clocking",
        "account",
        "periods",
        "parameter",
        "hdl",
        "importers",
        "shelf",
        "blueprint",
        "sheet",
        "designtext",
        "catalogue",
    ),
    ("engines",),
    ("study", "views"),
    ("lesson", "practice", "lab"),
    ("publish",),
    (
        "cli",
        "serve",
        "rehearse",
        "watching",
        "widget",
        "notebook",
        "progress",
        "__main__",
        "__init__",
    ),
)

# On its own floor a room knows only these.
SIDEWAYS: Final[Mapping[str, tuple[str, ...]]] = {
    "errors": ("spelling", "words"),
    "bits": ("errors", "codes"),
    "codes": ("errors",),
    "listing": ("errors",),
    "plainname": ("nodes",),
    "formula": ("errors", "listing", "cache", "nodes", "plainname"),
    "arithmetic": ("errors", "bits", "formula"),
    "characters": ("errors",),
    "numerals": ("errors",),
    "yamltext": ("errors", "characters"),
    "cache": ("errors",),
    "files": ("errors",),
    "guests": ("errors", "listing"),
    "operands": ("procedure",),
    "design": ("procedure", "operands", "waveform"),
    "trace": ("design",),
    "periods": ("trace", "clocking"),
    "account": ("periods", "clocking"),
    "inside": ("periods", "account"),
    "response": ("clocking", "design", "inside", "periods", "trace"),
    "hdl": ("design",),
    "importers": ("design", "hdl"),
    "shelf": ("parameter", "importers"),
    "blueprint": ("design", "parameter", "importers", "shelf", "waveform"),
    "sheet": ("design", "blueprint"),
    "designtext": ("design",),
    "catalogue": ("design", "parameter", "blueprint"),
    "__main__": ("cli",),
    # A lesson's questions are made in practice; a paper is a lesson of which there are many.
    "lesson": ("practice",),
    "practice": ("lesson",),
    "cli": ("serve", "rehearse", "progress"),
    "serve": ("watching",),
    "rehearse": ("serve", "watching"),
    "__init__": ("notebook",),
}

# Lower floors that a room does not know all the same.
STRANGERS: Final[Mapping[str, tuple[str, ...]]] = {
    "views": ("engines",),
}

# A third-party package has one home, seldom two: a file, or a room with a slash behind it.
HOMES: Final[Mapping[str, str | tuple[str, ...]]] = {
    "altair": "views/charts/",
    "anywidget": "widget.py",
    "traitlets": "widget.py",
    "av": "publish/film/",
    "distributed": "study/cost/sweep.py",
    "fluent": "words/",
    "fontTools": "views/drawing/",
    "lark": "formula.py",
    "llvmlite": "engines/exhaustive/compiler.py",
    "lxml": "publish/slides/",
    "markdown_it": ("lesson/", "publish/"),
    "mdit_py_plugins": "lesson/",
    "platformdirs": "cache.py",
    "pptx": "publish/slides/",
    "pysat": "engines/sat/session.py",
    "python_calamine": "practice/marking/workbook.py",
    "pyosys": "hdl/front.py",
    "pyslang": "hdl/front.py",
    "quickjs": ("views/layout/elk.py", "publish/stage/telling.py"),
    "resvg_py": "views/drawing/",
    "rich": ("cli/", "progress.py"),
    "ruamel": "yamltext.py",
    "skia": "views/drawing/raster.py",
    "starlette": ("serve.py", "rehearse.py", "watching/"),
    "typer": "cli/",
    "typst": ("publish/", "views/drawing/export.py"),
    "uharfbuzz": "views/drawing/",
    "uvicorn": "watching/",
    "vl_convert": "views/charts/",
    "watchfiles": "serve.py",
    "xlsxwriter": "practice/marking/spreadsheet.py",
    "yaml": "yamltext.py",
}

# Names that say nothing about what is inside.
JUNK_DRAWERS: Final = frozenset({"utils", "helpers", "common", "manager", "core"})


@dataclass(frozen=True, slots=True)
class Import:
    """One import: in which file and module, on which line, of which module."""

    file: str
    line: int
    module: str
    target: str

    @property
    def ours(self) -> bool:
        """Whether the target is a module of the package itself."""
        return self.target.split(".")[0] == "edgewise"

    def __str__(self) -> str:
        """Place and target, the beginning of every message."""
        return f"{self.file}:{self.line}: imports {self.target}"


def module_of(file: Path, source: Path) -> str:
    """Name the module that a file holds: ``circuit/__init__.py`` is ``edgewise.circuit``."""
    parts = ["edgewise", *file.relative_to(source).with_suffix("").parts]
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(module: str) -> str:
    """Name the room of one of our modules: ``edgewise.circuit.model`` is in ``circuit``."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else "__init__"


def part_of(module: str) -> str:
    """Name the part of its room that a module is in: a folder below it, or the module itself."""
    return ".".join(module.split(".")[1:3])


def floor_of(room: str) -> int | None:
    """Find the floor of a room, None if the table does not name it."""
    return next((floor for floor, rooms in enumerate(FLOORS) if room in rooms), None)


def targets_of(node: ast.stmt, module: str, *, is_package: bool) -> Iterator[str]:
    """List what one import statement names, relative imports resolved."""
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        base = node.module or ""
        if node.level:
            package = module.split(".") if is_package else module.split(".")[:-1]
            above = package[: len(package) - node.level + 1]
            base = ".".join([*above, node.module] if node.module else above)
        yield from (f"{base}.{alias.name}" for alias in node.names)


def read_imports(source: Path) -> tuple[Import, ...]:
    """Read every import under ``source``, the root folder of the package."""
    files = sorted(source.rglob("*.py"))
    modules = {module_of(file, source) for file in files}
    found = []
    for file in files:
        module = module_of(file, source)
        for node in ast.walk(ast.parse(file.read_bytes(), str(file))):
            if not isinstance(node, ast.Import | ast.ImportFrom):
                continue
            for target in targets_of(node, module, is_package=file.name == "__init__.py"):
                if target.startswith("edgewise"):
                    # `from edgewise.bits import Word` names the module edgewise.bits.
                    target_module = target if target in modules else target.rpartition(".")[0]
                    target_module = target_module or "edgewise"
                elif isinstance(node, ast.ImportFrom):
                    target_module = target.rpartition(".")[0]
                else:
                    target_module = target
                place = str(file.relative_to(source))
                found.append(Import(place, node.lineno, module, target_module))
    return tuple(found)


def homeless(source: Path) -> list[str]:
    """Name each file whose room stands on no floor."""
    rooms = {
        str(file.relative_to(source)): room_of(module_of(file, source))
        for file in sorted(source.rglob("*.py"))
    }
    return [
        f"{file}:1: the room {room!r} stands on no floor; give it a place in FLOORS"
        for file, room in rooms.items()
        if floor_of(room) is None
    ]


def upward(imports: tuple[Import, ...]) -> list[str]:
    """Name each import of a room on a higher floor."""
    wrong = []
    for one in filter(lambda one: one.ours, imports):
        here, there = floor_of(room_of(one.module)), floor_of(room_of(one.target))
        if here is not None and there is not None and there > here:
            allowed = ", ".join(room for rooms in FLOORS[:here] for room in rooms) or "none"
            wrong.append(f"{one}, from floor {here} up to {there}; lower rooms: {allowed}")
    return wrong


def sideways(imports: tuple[Import, ...]) -> list[str]:
    """Name each import of a neighbour that SIDEWAYS does not grant, or of a stranger."""
    wrong = []
    for one in filter(lambda one: one.ours, imports):
        here, there = room_of(one.module), room_of(one.target)
        granted = SIDEWAYS.get(here, ())
        if here == there or floor_of(here) is None:
            continue
        if there in STRANGERS.get(here, ()):
            wrong.append(f"{one}, but {here} knows no {there}")
        elif floor_of(here) == floor_of(there) and there not in granted:
            known = ", ".join(granted) or "none"
            wrong.append(f"{one}, a neighbour; neighbours that {here} may import: {known}")
    return wrong


def astray(imports: tuple[Import, ...]) -> list[str]:
    """Name each import of a third-party package away from its one home."""
    wrong = []
    for one in imports:
        package = one.target.split(".")[0]
        if one.ours or package in sys.stdlib_module_names:
            continue
        homes = HOMES.get(package, ())
        homes = (homes,) if isinstance(homes, str) else homes
        if not homes:
            wrong.append(f"{one}, a package without a home; give it one in HOMES")
        elif not any(
            one.file == home or (home.endswith("/") and one.file.startswith(home)) for home in homes
        ):
            wrong.append(f"{one}; the one home of {package} is {' or '.join(homes)}")
    return wrong


def cycles(imports: tuple[Import, ...]) -> list[str]:
    """Print each import cycle once, module by module, with the line that closes it."""
    ways: dict[str, dict[str, Import]] = {}
    for one in imports:
        if one.ours and one.target != one.module:
            ways.setdefault(one.module, {}).setdefault(one.target, one)
    found: list[str] = []
    done: set[str] = set()

    def visit(module: str, path: tuple[str, ...]) -> None:
        if module in path:
            loop = (*path[path.index(module) :], module)
            found.append(f"{ways[path[-1]][module]}, which closes {' -> '.join(loop)}")
        elif module not in done:
            for target in sorted(ways.get(module, {})):
                visit(target, (*path, module))
            done.add(module)

    for module in sorted(ways):
        visit(module, ())
    return found


def tangles(imports: tuple[Import, ...]) -> list[str]:
    """Print each circle of the parts of a room: two folders of one room that need each other."""
    between = []
    for one in imports:
        here, there = part_of(one.module), part_of(one.target)
        neighbours = one.ours and room_of(one.module) == room_of(one.target)
        if neighbours and here != there and "." in here and "." in there:
            between.append(Import(one.file, one.line, f"edgewise.{here}", f"edgewise.{there}"))
    return cycles(tuple(between))


def junk_drawers(source: Path) -> list[str]:
    """Name each file or folder called after nothing in particular."""
    return [
        f"{path.relative_to(source)}:1: is named {path.stem!r}; name it after one trade noun"
        for path in sorted(source.rglob("*"))
        if path.stem in JUNK_DRAWERS
    ]


@pytest.fixture(scope="module")
def imports() -> tuple[Import, ...]:
    return read_imports(SOURCE)


def report(wrong: list[str]) -> str:
    """Lay messages out one a line."""
    return "\n" + "\n".join(wrong)


def test_every_file_stands_on_a_floor() -> None:
    wrong = homeless(SOURCE)
    assert not wrong, report(wrong)


def test_imports_point_down(imports: tuple[Import, ...]) -> None:
    wrong = upward(imports)
    assert not wrong, report(wrong)


def test_neighbours_keep_apart(imports: tuple[Import, ...]) -> None:
    wrong = sideways(imports)
    assert not wrong, report(wrong)


def test_each_third_party_package_has_one_home(imports: tuple[Import, ...]) -> None:
    wrong = astray(imports)
    assert not wrong, report(wrong)


def test_no_import_cycle(imports: tuple[Import, ...]) -> None:
    wrong = cycles(imports)
    assert not wrong, report(wrong)


def test_no_cycle_between_the_parts_of_a_room(imports: tuple[Import, ...]) -> None:
    wrong = tangles(imports)
    assert not wrong, report(wrong)


def test_every_file_has_a_telling_name() -> None:
    wrong = junk_drawers(SOURCE)
    assert not wrong, report(wrong)


# The checker itself, on houses made up to be wrong.


def house(root: Path, files: Mapping[str, str]) -> Path:
    """Build a source tree of the given files and return its root."""
    for name, text in files.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, encoding="utf-8")
    return root


@pytest.mark.parametrize(
    "text",
    [
        "from edgewise.engines import reference",
        "import edgewise.engines.reference",
        "from ..engines import reference",
        "from ..engines.reference import run",
        "def late():\n    from edgewise.engines import reference",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from edgewise import engines",
    ],
)
def test_an_upward_import_is_found(tmp_path: Path, text: str) -> None:
    source = house(
        tmp_path,
        {
            "circuit/model.py": text,
            "engines/__init__.py": "",
            "engines/reference.py": "def run(): pass",
        },
    )
    (message,) = upward(read_imports(source))
    assert message.startswith(f"circuit/model.py:{text.count(chr(10)) + 1}: imports edgewise.eng")
    assert message.endswith(
        "from floor 1 up to 3; lower rooms: "
        "spelling, errors, listing, characters, numerals, bits, codes, nodes, plainname, formula,"
        " arithmetic, yamltext, cache, files, guests, words, columns, fonts"
    )


def test_the_package_root_is_the_top_floor(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {"__init__.py": "def run(): pass", "errors.py": "", "bits.py": "from edgewise import run"},
    )
    assert upward(read_imports(source)) == [
        "bits.py:1: imports edgewise, from floor 0 up to 7; lower rooms: none"
    ]


def test_a_downward_import_is_fine(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {"bits.py": "", "circuit/model.py": "from edgewise.bits import Bit\nfrom .. import bits"},
    )
    imports = read_imports(source)
    assert [one.target for one in imports] == ["edgewise.bits", "edgewise.bits"]
    assert not [*upward(imports), *sideways(imports), *astray(imports), *cycles(imports)]


def test_a_sideways_import_is_found(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {
            "design.py": "",
            "trace.py": "from edgewise import design",
            "study/laws.py": "from edgewise.views import table",
            "views/table.py": "from edgewise.engines import native",
            "engines/native.py": "",
        },
    )
    assert sideways(read_imports(source)) == [
        (
            "study/laws.py:1: imports edgewise.views.table, a neighbour; "
            "neighbours that study may import: none"
        ),
        "views/table.py:1: imports edgewise.engines.native, but views knows no engines",
    ]


def test_a_third_party_import_away_from_home_is_found(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {
            "engines/exhaustive/compiler.py": "from llvmlite import ir",
            "engines/proof.py": "import llvmlite.binding as llvm",
            "publish/slides.py": "import typst\nimport json",
            "trace.py": "import numpy",
        },
    )
    assert astray(read_imports(source)) == [
        (
            "engines/proof.py:1: imports llvmlite.binding; the one home of llvmlite is "
            "engines/exhaustive/compiler.py"
        ),
        "trace.py:1: imports numpy, a package without a home; give it one in HOMES",
    ]


def test_a_cycle_is_found_and_printed_module_by_module(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {
            "circuit/check.py": "from edgewise.circuit.flatten import flat",
            "circuit/flatten.py": "\n\ndef flat():\n    from edgewise.circuit import model",
            "circuit/model.py": "from . import check",
        },
    )
    assert cycles(read_imports(source)) == [
        (
            "circuit/model.py:1: imports edgewise.circuit.check, which closes "
            "edgewise.circuit.check -> edgewise.circuit.flatten "
            "-> edgewise.circuit.model -> edgewise.circuit.check"
        )
    ]


def test_folders_of_a_room_that_need_each_other_are_found(tmp_path: Path) -> None:
    source = house(
        tmp_path,
        {
            "study/cost/paths.py": "from edgewise.study.laws import fit",
            "study/cost/sweep.py": "",
            "study/laws/fit.py": "",
            "study/laws/table.py": "from edgewise.study.cost.sweep import run",
        },
    )
    assert not cycles(read_imports(source))
    assert tangles(read_imports(source)) == [
        (
            "study/laws/table.py:1: imports edgewise.study.cost, which closes "
            "edgewise.study.cost -> edgewise.study.laws -> edgewise.study.cost"
        )
    ]


def test_a_file_without_a_floor_is_found(tmp_path: Path) -> None:
    source = house(tmp_path, {"bits.py": "", "attic/box.py": ""})
    assert homeless(source) == [
        "attic/box.py:1: the room 'attic' stands on no floor; give it a place in FLOORS"
    ]


def test_a_junk_drawer_is_found(tmp_path: Path) -> None:
    source = house(tmp_path, {"views/utils.py": "", "circuit/wire.py": ""})
    assert junk_drawers(source) == [
        "views/utils.py:1: is named 'utils'; name it after one trade noun"
    ]
