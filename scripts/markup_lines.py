"""Markup laid out to be reviewed: one element a line, so that a diff shows what changed.

What edgewise writes is short rather than laid out; golden files and the figures of the documents
are read as diffs, too.
"""

from __future__ import annotations

import re
from typing import Final

_BREAK: Final = re.compile(r"(?<=>)(?=<(?!/?(?:tspan|i|b|span|code)\b)(?:\w|/g>|/table>))")
"""Between two elements, unless the second one stands in running text."""


def one_a_line(markup: str) -> str:
    r"""The same elements, each on a line; a line that was not there before is indented.

    Blanks between elements of an SVG draw nothing; within a text no line is broken.

    Examples
    --------
    >>> print(one_a_line('<g><rect/><text>1<tspan>0</tspan></text></g>\n<g></g>'))
    <g>
      <rect/>
      <text>1<tspan>0</tspan></text>
      </g>
    <g>
      </g>
    """
    return _BREAK.sub("\n  ", markup)
