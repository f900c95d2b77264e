"""The chart library in a process of its own, for machines that limit a process's memory.

It reserves far more addresses than it uses and aborts where it does not get them, with all that
is in its process. It reads a chart on standard input and writes its SVG.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message

_LONGEST: Final = 120
"""Seconds for one chart."""


def limit() -> int | None:
    """The addresses that this process may have, in bytes; None where there is no limit."""
    import resource

    given = [resource.getrlimit(what)[0] for what in (resource.RLIMIT_AS, resource.RLIMIT_DATA)]
    known = [number for number in given if number != resource.RLIM_INFINITY]
    return min(known, default=None)


def drawn(spec: dict[str, object], version: str, fonts: Path, most: int) -> str:
    """The SVG of a Vega-Lite chart.

    Raises
    ------
    EdgewiseError
        The process did not live to give it.
    """
    command = [sys.executable, "-P", "-m", "edgewise.views.charts.converter", version, str(fonts)]
    done = subprocess.run(  # noqa: S603  # our own module
        command,
        input=json.dumps(spec).encode(),
        capture_output=True,
        check=False,
        timeout=_LONGEST,
    )
    if done.returncode:
        raise EdgewiseError(Message("chart-memory", most=round(most / 1e6)))
    return done.stdout.decode()


def main() -> None:
    """Draw the chart that comes on standard input."""
    import vl_convert

    vl_convert.register_font_directory(sys.argv[2])
    spec = json.loads(sys.stdin.buffer.read())
    sys.stdout.buffer.write(vl_convert.vegalite_to_svg(spec, vl_version=sys.argv[1]).encode())


if __name__ == "__main__":
    main()
