"""What commands say and why they refuse: a catalogue of its own, ``en.ftl`` here, English only."""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING, Final

from edgewise.words.messages import Fact, bundle_of, plain

if TYPE_CHECKING:
    from fluent.runtime import FluentBundle

FILE: Final = "en.ftl"


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
    pattern = _bundle().get_message(message).value
    assert pattern is not None, message
    text, wrong = _bundle().format_pattern(pattern, plain(facts))
    if wrong:
        raise KeyError(f"{FILE}, {message}: {wrong[0]}")
    return str(text)


@lru_cache(maxsize=1)
def _bundle() -> FluentBundle:
    from fluent.runtime import FluentResource

    bundle = bundle_of("en")
    text = (resources.files(__package__ or "") / FILE).read_text("utf-8")
    bundle.add_resource(FluentResource(text))
    return bundle
