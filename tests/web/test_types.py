"""The page's modules: typed by their JSDoc, checked by the TypeScript compiler."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise.publish.stage import javascript
from scripts import make_script
from tests.web import workshop

WEB = Path(javascript.__file__).parent / javascript.FOLDER


def test_the_types_of_all_modules_hold() -> None:
    done = workshop.tool("tsc", "--project", str(workshop.HERE / "tsconfig.json"))
    assert done.stdout == ""
    assert done.returncode == 0


@pytest.mark.parametrize("path", sorted(WEB.glob("*.js")), ids=lambda path: path.name)
def test_every_module_is_checked_and_told_about(path: Path) -> None:
    text = path.read_text("utf-8")
    assert text.startswith("// @ts-check\n/**")
    assert "@ts-ignore" not in text
    assert "eval(" not in text


@pytest.mark.parametrize("entry", make_script.ENTRIES)
def test_the_script_that_is_shipped_is_made_of_the_modules(entry: str) -> None:
    """If it is not: run make script."""
    assert javascript.script(entry) == make_script.script(entry)


def test_the_stage_reads_no_text_as_markup() -> None:
    text = javascript.script("page")
    for way in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "Function("):
        assert way not in text
