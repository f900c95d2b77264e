"""The presentation, as a format: 16:9, in our own look."""

from __future__ import annotations

from typing import Final

from edgewise.lesson import Report
from edgewise.publish.formats import Format


def _made(report: Report) -> bytes:
    from edgewise.publish.slides.build import Manner, slides  # many libraries, for this alone

    return slides(report, Manner())[0]


FORMAT: Final = Format("slides", ".pptx", "a presentation, a slide a step", _made)
