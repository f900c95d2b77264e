"""A guard for tables of text: what a spreadsheet would run as a formula stays text in CSV."""

from __future__ import annotations

import re
from typing import Final

_ACTING: Final = ("=", "+", "-", "@", "\t", "\r", "\n")
"""How a cell begins that a spreadsheet would run (OWASP, "CSV Injection")."""
NUMBER: Final = re.compile(r"-?(0|[1-9][0-9]{0,14})(\.[0-9]{1,10})?")
"""What a spreadsheet reads as a number and writes as it was."""


def guarded(text: str) -> str:
    """A text as it stands in CSV; before one that would be run stands an apostrophe.

    Examples
    --------
    >>> guarded("=1+1"), guarded("-3"), guarded("Ada")
    ("'=1+1", '-3', 'Ada')
    """
    acting = text.startswith(_ACTING) and not NUMBER.fullmatch(text)
    return f"'{text}" if acting else text


def unguarded(text: str) -> str:
    """The text that was guarded.

    Examples
    --------
    >>> unguarded("'=1+1"), unguarded("'tis")
    ('=1+1', "'tis")
    """
    return text[1:] if text.startswith("'") and text[1:].startswith(_ACTING) else text
