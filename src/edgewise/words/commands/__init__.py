"""What commands say and why something is refused: one file for each room in ``en/``.

English only: another language is another folder, with the same files and messages.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import Final

from edgewise.words.messages import Catalogue, Fact, sources_of

LANGUAGE: Final = "en"


def say(message: str, /, **facts: Fact) -> str:
    """Say a message of the commands.

    Raises
    ------
    KeyError
        The catalogue lacks the message, or the message asks for a fact that was not given: a
        mistake of ours.

    Examples
    --------
    >>> say("option-twice", option="--with", name="n")
    '--with: n is given twice'
    """
    return _catalogue().say(message, facts)


@lru_cache(maxsize=1)
def _catalogue() -> Catalogue:
    folder = resources.files(__package__ or "") / LANGUAGE
    files = (file for file in folder.iterdir() if file.name.endswith(".ftl"))
    texts = "".join(file.read_text("utf-8") for file in sorted(files, key=lambda f: f.name))
    return Catalogue(LANGUAGE, sources_of(texts))
