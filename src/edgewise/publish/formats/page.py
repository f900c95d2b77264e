"""The page, as a format."""

from __future__ import annotations

from typing import Final

from edgewise.publish.formats import Format
from edgewise.publish.html.page import html_of

FORMAT: Final = Format("page", ".html", "a web page that needs no other file", html_of)
