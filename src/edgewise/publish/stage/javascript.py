"""The scripts and style sheets of pages: files of ``web/``, read.

The modules in ``web/`` are joined by ``make script`` into the scripts in ``web/made/``, so that a
page makes no request and nobody who builds one needs a tool of the web.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import Final

FOLDER: Final = "web"
MADE: Final = "made"


def source(name: str) -> str:
    """The text of a file of ``web/``."""
    return (resources.files(__package__ or "") / FOLDER / name).read_text("utf-8")


@lru_cache(maxsize=4)
def script(entry: str) -> str:
    """A module with all that it imports, as one script that makes no request.

    Parameters
    ----------
    entry : {"page", "previewed", "notes", "rehearsal", "notebook"}

    Examples
    --------
    >>> text = script("page")
    >>> "edgewise-stage" in text, "import " in text
    (True, False)
    """
    return source(f"{MADE}/{entry}.js")
