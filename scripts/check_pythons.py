"""Try the wheel on each Python that the classifiers of pyproject.toml name.

Each gets an environment of its own in build/pythons, with the locked requirements and the wheel
of build/dist, and runs the quick tests there. A Python that is not on this machine is skipped and
named. ``PYTHONS=/opt/pythons/3.13/bin`` are further folders to look in.

Run ``make wheel-pythons``; ``check_pythons.py -k adder`` chooses tests.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).parents[1]
DIST: Final = ROOT / "build" / "dist"
FOLDER: Final = ROOT / "build" / "pythons"
REQUIREMENTS: Final = ROOT / "requirements" / "dev.txt"
QUICK: Final = ("-m", "not slow and not browser", "-q")
_NAMED: Final = re.compile(r"Programming Language :: Python :: (\d+\.\d+)")


def named(project: Path = ROOT / "pyproject.toml") -> list[str]:
    """The versions that the classifiers name, in their order."""
    classifiers = tomllib.loads(project.read_text("utf-8"))["project"]["classifiers"]
    return [found[1] for one in classifiers if (found := _NAMED.fullmatch(one))]


def find(version: str, places: Iterable[str]) -> str | None:
    """The interpreter of a version, or None: in the given folders, then where commands are."""
    path = os.pathsep.join([*places, os.environ.get("PATH", os.defpath)])
    found = shutil.which(f"python{version}", path=path)
    if found is None:
        return None
    # A launcher may stand for a version that is not installed.
    told = subprocess.run(
        [found, "-c", "import ensurepip, sys; print('%d.%d' % sys.version_info[:2])"],
        capture_output=True,
        text=True,
        check=False,
    )
    return found if told.stdout.strip() == version else None


def environment(version: str, interpreter: str) -> Path:
    """The Python of an environment with the locked requirements; made once for each lock file."""
    folder = FOLDER / version
    python, stamp = folder / "bin" / "python", folder / "requirements.txt"
    wanted = REQUIREMENTS.read_text("utf-8")
    if not stamp.is_file() or stamp.read_text("utf-8") != wanted:
        subprocess.run([interpreter, "-m", "venv", "--clear", str(folder)], check=True)
        install(python, "--require-hashes", "--requirement", str(REQUIREMENTS))
        stamp.write_text(wanted, "utf-8")
    return python


def install(python: Path, *words: str) -> None:
    """Run pip there."""
    pip = [str(python), "-m", "pip", "--disable-pip-version-check", "install", "--quiet"]
    subprocess.run([*pip, *words], check=True)


def tried(version: str, interpreter: str, wheel: Path, words: Sequence[str]) -> bool:
    """Whether the tests hold for the wheel on this interpreter."""
    python = environment(version, interpreter)
    install(python, "--no-deps", "--force-reinstall", str(wheel))
    # Without PYTHONPATH, so that the source tree is not what is tried.
    clean = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    pytest = [str(python), "-m", "pytest", *QUICK, *words]
    return subprocess.run(pytest, cwd=ROOT, env=clean, check=False).returncode == 0


def main(words: Sequence[str]) -> None:
    """Try each version; end with an error if one fails or none is there."""
    (wheel,) = DIST.glob("*.whl")
    places = os.environ.get("PYTHONS", "").split(os.pathsep)
    told, good = [], []
    for version in named():
        interpreter = find(version, filter(None, places))
        if interpreter is None:
            told.append(
                f"Python {version}: skipped, there is no python{version} with ensurepip here"
            )
            continue
        good.append(tried(version, interpreter, wheel, words))
        told.append(f"Python {version}: {'passed' if good[-1] else 'FAILED'} ({interpreter})")
    print("\n".join(told))
    if not good or not all(good):
        sys.exit(1)


if __name__ == "__main__":
    main(sys.argv[1:])
