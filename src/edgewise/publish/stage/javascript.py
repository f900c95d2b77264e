"""The modules of ``web/`` as one script, for pages that make no request.

Each module becomes a function of its own, so that no name meets another; nothing is renamed
or rewritten::

    import { X, find } from "./simulator.js";     const { X, find } = simulator;
    export function run(…) {…}                    function run(…) {…}
"""

from __future__ import annotations

import re
from functools import lru_cache
from importlib import resources
from typing import Final

FOLDER: Final = "web"
_IMPORT: Final = re.compile(r'^import (\{[^}]*\}) from "\./([a-z]+)\.js";\n', re.MULTILINE)
_EXPORT: Final = re.compile(r"^export (?=(?:const|function|class) (\w+))", re.MULTILINE)
# Only comments that stand alone on their lines; anything else could be part of a text.
_COMMENT: Final = re.compile(r"^[ \t]*(/\*\*(?:(?!\*/).)*\*/|//[^\n]*)\n", re.MULTILINE | re.DOTALL)


def source(name: str) -> str:
    """The text of a file of ``web/``."""
    return (resources.files(__package__ or "") / FOLDER / name).read_text("utf-8")


def without_comments(text: str) -> str:
    r"""A script without the comments that stand alone on their lines.

    Examples
    --------
    >>> without_comments("/** What\n * it does. */\n/** @type {X} */ (a).b(); // c\n// d\n")
    '/** @type {X} */ (a).b(); // c\n'
    """
    return _COMMENT.sub("", text)


@lru_cache(maxsize=8)
def joined(*entries: str) -> str:
    """The modules `entries` with all that they import, each once, as the text of one script.

    Examples
    --------
    >>> text = joined("sentences")
    >>> text.count("const simulator = (() => {"), "import" in text
    (1, False)
    """
    made: dict[str, str] = {}
    for entry in entries:
        if entry not in made:
            _add(entry, made, ())
    return "\n".join(made.values())


def _add(name: str, made: dict[str, str], waiting: tuple[str, ...]) -> None:
    assert name not in waiting, f"modules import one another: {' → '.join((*waiting, name))}"
    text = source(f"{name}.js")
    for _, other in _IMPORT.findall(text):
        if other not in made:
            _add(other, made, (*waiting, name))
    exported = _EXPORT.findall(text)
    text = _IMPORT.sub(r"const \1 = \2;\n", text)
    text = _EXPORT.sub("", text)
    text = without_comments(text)
    made[name] = f"const {name} = (() => {{\n{text}return {{ {', '.join(exported)} }};\n}})();"
