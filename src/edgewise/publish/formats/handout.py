"""The handout, as a format: on A4, without blanks."""

from __future__ import annotations

from typing import Final

from edgewise.publish.formats import Format
from edgewise.publish.handout.build import pdfs

FORMAT: Final = Format("handout", ".pdf", "a PDF to print", lambda report: pdfs(report)[0])
