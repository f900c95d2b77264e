"""Units of area and time, in words."""

from __future__ import annotations

from typing import Final

from edgewise.words.messages import ENGLISH, Words

_MESSAGES: Final = {
    "gates": "compare-unit-gates",
    "gate levels": "compare-unit-levels",
    "gate units": "compare-unit-units",
    "gate delays": "compare-unit-delays",
    "transistors": "compare-unit-transistors",
    "packages": "compare-unit-packages",
}
"""The units of our own models as messages; others (ns, tau, those of guests) stay as they are."""


def unit(name: str, words: Words = ENGLISH) -> str:
    """A unit of area or time in a language.

    Examples
    --------
    >>> from edgewise.words import messages
    >>> unit("gate delays", messages.of("de")), unit("ns")
    ('Gatterlaufzeiten', 'ns')
    """
    return words(_MESSAGES[name]) if name in _MESSAGES else name
