"""What the tests of the page's script share: the tools of npm, and modules in a browser."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

from edgewise.design import Design
from edgewise.publish.stage import design_data, javascript
from scripts import make_script

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
    page.add_script_tag(content=_script(modules), type="module")
    # A module runs when the page gets to it, not when it is added.
    page.wait_for_function(f"globalThis.{modules[-1]} !== undefined")


@lru_cache
def _script(modules: tuple[str, ...]) -> str:
    """The modules, each under its own name wherever a page looks for it."""
    if not (TOOLS / ".bin" / "esbuild").exists():
        pytest.fail(f"the tests of the page's script need esbuild; {ADVICE}", pytrace=False)
    known = _known_by(modules)
    return make_script.made(
        "".join(
            f'import * as {name} from "./{name}.js";\nglobalThis.{name} = {name};\n'
            for name in known
        )
    )


def _known_by(modules: tuple[str, ...]) -> list[str]:
    """The modules and all that they import."""
    found: list[str] = []
    waiting = list(modules)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.append(name)
            waiting += re.findall(r'from "\./([a-z]+)\.js"', javascript.source(f"{name}.js"))
    return sorted(found)


def case(design: Design, operands: Mapping[str, int]) -> list[Any]:
    """A compiled design, and operands as text."""
    return [design_data.design(design), {name: str(value) for name, value in operands.items()}]


def digits(rows: tuple[bytes, ...]) -> list[str]:
    """Each row as one text of digits, 2 for X."""
    return ["".join(map(str, row)) for row in rows]


def as_json(value: Any) -> Any:
    """The value as a browser gets it."""
    return json.loads(json.dumps(value))
