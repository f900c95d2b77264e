"""Read the bits of 500 random rows back from the frames of a film, and hold them against the run.

The tests do so with fewer rows. Run ``PYTHONPATH=. python scripts/read_film.py``.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Final

from tests.outside.pixels import read_back

ROWS: Final = 500


def main() -> None:
    """Read them, and say how many bits were read; the first that is wrong ends it."""
    with tempfile.TemporaryDirectory() as folder:
        print(f"{ROWS} rows: all {read_back(Path(folder), ROWS):,} cells and their wires are right")


if __name__ == "__main__":
    main()
