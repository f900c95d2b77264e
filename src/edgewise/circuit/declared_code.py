"""The code that is declared behind a width or an output: ``n twos-complement``."""

from __future__ import annotations

import re
from typing import Final

from edgewise.codes import NAMES, UNSIGNED, Code
from edgewise.errors import Message, Suggestion, TextError, nearest
from edgewise.formula import RESERVED
from edgewise.yamltext import Scalar, Tree

_BEHIND: Final = re.compile(r"(?P<what>.*[\w)])\s+(?P<code>[A-Za-z][A-Za-z'’-]*)\s*", re.DOTALL)
"""A value, and a word behind it that no operator joins to it."""
_OFTEN: Final = {"signed": "twos-complement", "bin": "unsigned", "binary": "unsigned"}
"""What is written for a code that is spelled quite differently."""


def declared_code(tree: Tree) -> tuple[Tree, Code]:
    """What stands before a code, and the code; unsigned if none is declared.

    Raises
    ------
    TextError
        A word that is no code.

    Examples
    --------
    >>> from edgewise.errors import Place
    >>> place = Place("gauge.yaml", 1, 12)
    >>> before, code = declared_code(Scalar("n + 1 gray", place))
    >>> before.text, code
    ('n + 1', Code(name='gray'))
    """
    found = _BEHIND.fullmatch(tree.text) if isinstance(tree, Scalar) else None
    if found is None or found["what"].split()[-1] in RESERVED or found["code"] in RESERVED:
        return tree, UNSIGNED
    named = next((name for name in NAMES if name == found["code"]), None)
    if named is None:
        meant = _OFTEN.get(found["code"].lower())
        known = Suggestion(meant) if meant else nearest(found["code"], NAMES)
        raise TextError(
            Message("code-unknown", found=found["code"], suggestion=known),
            tree.place.moved(found.start("code")),
        )
    return Scalar(found["what"], tree.place), Code(named)
