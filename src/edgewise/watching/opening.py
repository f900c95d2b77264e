"""Opening the page in the browser without showing its address to others.

A browser that is started with an address has it in its command line, where every user of the
machine can read it. So it is given the name of a file that only its owner can read, and that
leads on to the page.
"""

from __future__ import annotations

import contextlib
import html
import shutil
import tempfile
import threading
import webbrowser
from collections.abc import Iterator
from pathlib import Path
from typing import Final

_LEADS: Final = """\
<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta http-equiv="refresh" content="0; url={address}">
<title>Preview</title>
<p><a href="{address}">The preview</a></p>
</html>
"""
_SOON: Final = 0.3
"""Seconds until the server answers."""


@contextlib.contextmanager
def opened(address: str) -> Iterator[Path]:
    """Open an address in the browser; the file that leads there goes with the preview."""
    folder = Path(tempfile.mkdtemp(prefix="edgewise-"))  # nobody else can look into it
    file = folder / "preview.html"
    try:
        file.write_text(_LEADS.format(address=html.escape(address)), "utf-8")
        timer = threading.Timer(_SOON, webbrowser.open, (file.as_uri(),))
        timer.daemon = True
        timer.start()
        yield file
        timer.cancel()
    finally:
        shutil.rmtree(folder, ignore_errors=True)
