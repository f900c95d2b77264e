"""What the tests of the page's script share: the tools of npm, and modules in a browser."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

from edgewise.design import Design
from edgewise.publish.stage import design_data, javascript

if TYPE_CHECKING:
    from playwright.sync_api import Page

HERE: Final = Path(__file__).parent
TOOLS: Final = HERE / "node_modules"
ADVICE: Final = "run: bash scripts/need_web_tools.sh"


def tool(name: str, *arguments: str, given: str | None = None) -> subprocess.CompletedProcess[str]:
    """Run a tool that npm installed."""
    path = TOOLS / ".bin" / name
    if not path.exists() or shutil.which("node") is None:
        pytest.fail(f"the tests of the page's script need {name}; {ADVICE}", pytrace=False)
    return subprocess.run(
        [str(path), *arguments],
        cwd=HERE,
        input=given,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def axe() -> str:
    """The source of axe-core."""
    path = TOOLS / "axe-core" / "axe.min.js"
    if not path.exists():
        pytest.fail(f"the accessibility test needs axe-core; {ADVICE}", pytrace=False)
    return path.read_text("utf-8")


def load(page: Page, *modules: str) -> None:
    """Make modules and all that they import known on an empty page, by their names."""
    page.goto("about:blank")
    page.add_script_tag(content=javascript.joined(*modules))


def case(design: Design, operands: Mapping[str, int]) -> list[Any]:
    """A compiled design, and operands as text."""
    return [design_data.design(design), {name: str(value) for name, value in operands.items()}]


def digits(rows: tuple[bytes, ...]) -> list[str]:
    """Each row as one text of digits, 2 for X."""
    return ["".join(map(str, row)) for row in rows]


def as_json(value: Any) -> Any:
    """The value as a browser gets it."""
    return json.loads(json.dumps(value))
