"""Join the modules of the page's script, and the library that they use, into the files we ship.

``src/edgewise/publish/stage/web/`` holds the modules; ``made/`` in it the scripts for a page, its
preview, the teacher's notes, a rehearsal and a notebook. They are made by esbuild while edgewise
is developed, so that nobody who uses it needs Node; a test holds them to the modules.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).parents[1]
WEB: Final = ROOT / "src" / "edgewise" / "publish" / "stage" / "web"
MADE: Final = WEB / "made"
TOOLS: Final = ROOT / "tests" / "web" / "node_modules"
ENTRIES: Final = ("page", "previewed", "notes", "rehearsal", "notebook", "telling")
"""A script for each of these modules, with all that it imports."""
SETTINGS: Final = (
    "--bundle",
    "--format=esm",
    "--target=es2022",
    "--charset=ascii",  # no control character stands in a page, not even in a regular expression
    "--minify",
    "--legal-comments=none",
    "--log-level=warning",
)


def made(text: str, *further: str) -> str:
    """The script of a module's text, which stands in `WEB`; `further` settings of esbuild.

    Raises
    ------
    RuntimeError
        What esbuild says is wrong with it.
    """
    done = subprocess.run(
        [str(TOOLS / ".bin" / "esbuild"), *SETTINGS, *further, "--sourcefile=entry.js"],
        cwd=WEB,
        input=text,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        env={"NODE_PATH": str(TOOLS), "PATH": "/usr/bin:/bin"},
    )
    if done.returncode:
        raise RuntimeError(done.stderr)
    return done.stdout


def script(entry: str) -> str:
    """The script of one of `ENTRIES`."""
    return made((WEB / f"{entry}.js").read_text("utf-8"))


def main() -> None:
    """Make them all; say how large they are."""
    MADE.mkdir(exist_ok=True)
    for entry in ENTRIES:
        text = script(entry)
        (MADE / f"{entry}.js").write_text(text, "utf-8")
        print(f"{entry}.js  {len(text.encode()):,} bytes", file=sys.stderr)


if __name__ == "__main__":
    main()
