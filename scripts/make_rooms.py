"""Write the table of rooms in CONTRIBUTING.md from the floors and the rooms' own docstrings.

Run ``make rooms`` after a room was added or says something else of itself.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from tests.test_floors import FLOORS, SOURCE

DOCUMENT: Final = Path(__file__).parents[1] / "CONTRIBUTING.md"
BEGIN: Final = "<!-- rooms: made by make rooms -->"
END: Final = "<!-- end of rooms -->"


def said(file: Path) -> str:
    """What a module says of itself in its first line."""
    text = ast.get_docstring(ast.parse(file.read_bytes(), str(file))) or ""
    return text.partition("\n")[0].removesuffix(".")


def rooms(source: Path, name: str) -> Iterator[tuple[str, str]]:
    """A room and the folders in it, each with what it says of itself; none for one that is data."""
    module = source / f"{name}.py"
    if module.is_file():
        yield module.name, said(module)
    for file in sorted((source / name).rglob("__init__.py")):
        yield f"{file.parent.relative_to(source)}/", said(file)


def table(source: Path = SOURCE) -> str:
    """The rooms floor by floor, the top one first."""
    lines = ["| floor | room | what is in it |", "|---|---|---|"]
    for floor in reversed(range(len(FLOORS))):
        found = [line for name in FLOORS[floor] for line in rooms(source, name)]
        lines += [f"| {floor} | `{room}` | {text} |" for room, text in found]
    return "\n".join(lines)


def updated(document: str, made: str) -> str:
    """The document with ``made`` between its two marks."""
    before, begin, rest = document.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise SystemExit(f"{DOCUMENT.name}: the lines {BEGIN!r} and {END!r} are to stand in it")
    return f"{before}{BEGIN}\n{made}\n{END}{after}"


def main() -> None:
    """Write the table anew."""
    DOCUMENT.write_text(updated(DOCUMENT.read_text("utf-8"), table()), "utf-8")


if __name__ == "__main__":
    main()
