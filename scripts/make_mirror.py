"""Say through which test file a module is tested that has none at its own path.

Run ``make mirror``: coverage traces the quick tests, file by file, and of all test files the one
that runs most lines of a module's functions, or the nearest of those that run nearly as many, goes
beside it into tests/mirror.txt. What importing a module runs is not counted. Lines that still hold
are kept.
"""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).parents[1]
SOURCE: Final = ROOT / "src" / "edgewise"
TESTS: Final = ROOT / "tests"
NEARLY: Final = 0.1
"""Part of its lines by which a test file nearer to a module may fall short."""
HEAD: Final = """\
# A module without a test file at its own path, and the test file that exercises most of it.
# make mirror measures what is missing; tests/test_rooms.py holds this table to the tree. Lines of
# what only other processes run (the preview's server and its worker) are written by hand.
"""


def own_tests(module: str) -> str:
    """Where the tests of a module stand if it has any of its own.

    ``cost/area.py`` is tested by ``cost/test_area.py``, the package ``cost`` by ``test_cost.py``.
    """
    path = Path(module)
    path = path.parent if path.stem == "__init__" else path.with_suffix("")
    return str(path.parent / f"test_{path.name or 'edgewise'}.py")


def modules(source: Path) -> Iterator[str]:
    """Every module that has something to run: functions, and statements in them."""
    for file in sorted(source.rglob("*.py")):
        if inside(file):
            yield str(file.relative_to(source))


def read(text: str) -> Iterator[tuple[int, list[str]]]:
    """The lines of a mirror that say something, by number, as words."""
    for number, line in enumerate(text.splitlines(), 1):
        if words := line.partition("#")[0].split():
            yield number, words


def wrong(source: Path, tests: Path, text: str) -> list[str]:
    """Each line that does not hold, then each module without tests."""
    found = []
    there = set(modules(source))
    told = set()
    for number, words in read(text):
        place = f"mirror.txt:{number}"
        if len(words) != 2:
            found.append(f"{place}: expected a module and a test file, found {' '.join(words)!r}")
            continue
        module, file = words
        told.add(module)
        if module not in there:
            found.append(f"{place}: there is no module {module}")
        elif (tests / own_tests(module)).is_file():
            found.append(
                f"{place}: {module} has tests of its own in {own_tests(module)}; take the line out"
            )
        elif not (tests / file).is_file():
            found.append(f"{place}: there is no test file {file}")
    return found + [
        f"{module}: expected {own_tests(module)}, or a line in mirror.txt; make mirror adds it"
        for module in sorted(there - told)
        if not (tests / own_tests(module)).is_file()
    ]


def inside(file: Path) -> frozenset[int]:
    """The lines of a module that run when its functions do, not when it is imported."""
    tree = ast.parse(file.read_bytes(), str(file))
    return frozenset(
        number
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
        for statement in node.body
        if not (isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant))
        for number in range(statement.lineno, (statement.end_lineno or statement.lineno) + 1)
    )


def measured(data: Path) -> Mapping[str, Counter[str]]:
    """How many lines of each module's functions each test file runs, from coverage's data."""
    import coverage

    known = coverage.CoverageData(str(data))
    known.read()
    found: dict[str, Counter[str]] = {}
    for name in known.measured_files():
        file = Path(name)
        if not file.is_relative_to(SOURCE) or not file.is_file():
            continue
        counted: Counter[str] = Counter()
        lines = inside(file)
        for number, contexts in known.contexts_by_lineno(name).items():
            if number in lines:
                counted.update({*contexts} - {""})
        found[str(file.relative_to(SOURCE))] = counted
    return found


def nearest(module: str, counted: Mapping[str, int]) -> str:
    """Of the test files that run nearly as many lines as any, the one nearest to the module.

    ``lesson/test_checking.py`` runs a few lines more of ``cost/area.py`` than
    ``cost/test_time.py``, but a reader of the module looks for the latter.
    """
    enough = max(counted.values()) * (1 - NEARLY)
    room = Path(module).parent.parts

    def order(file: str) -> tuple[int, int, str]:
        shared = sum(one == other for one, other in zip(room, Path(file).parts, strict=False))
        return -shared, -counted[file], file

    return min((file for file, lines in counted.items() if lines >= enough), key=order)


def table(found: Mapping[str, Counter[str]], kept: Mapping[str, str]) -> str:
    """The mirror: what holds is kept, what is missing is taken from what was measured."""
    lines = {}
    for module in modules(SOURCE):
        if (TESTS / own_tests(module)).is_file():
            continue
        if module in kept and (TESTS / kept[module]).is_file():
            lines[module] = kept[module]
        elif counted := found.get(module):
            lines[module] = nearest(module, counted)
    wide = max(map(len, lines))
    return HEAD + "".join(f"{module:{wide}}  {file}\n" for module, file in lines.items())


def main() -> None:
    """Complete tests/mirror.txt from build/coverage."""
    mirror = TESTS / "mirror.txt"
    kept = {words[0]: words[1] for _, words in read(mirror.read_text("utf-8")) if len(words) == 2}
    mirror.write_text(table(measured(ROOT / "build" / "coverage"), kept), "utf-8")


if __name__ == "__main__":
    main()
