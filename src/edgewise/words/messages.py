"""Messages: what is said to learners, by name, in the languages that there are.

One file a language, ``en.ftl`` and ``de.ftl``, in the syntax of Project Fluent; the page's script
reads the same messages (``web/words.js``). Whoever has something to say knows facts and the name
of a message; no word is chosen anywhere else. A third language is a third file: copy ``en.ftl``,
name the copy after the language, translate what stands behind each ``=``, and keep names and
``{ $facts }``; ``tests/words/test_messages.py`` then says what is missing.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeAlias

if TYPE_CHECKING:
    from fluent.runtime import FluentBundle


def _languages(folder: Path) -> tuple[str, ...]:
    """The languages that have a file, English first."""
    return ("en", *sorted({file.stem for file in folder.glob("*.ftl")} - {"en"}))


LANGUAGES: Final = _languages(Path(__file__).parent)
"""Primary subtags of language tags (BCP 47); the first is taken where a language has no file."""
Fact: TypeAlias = int | str
"""A number, which takes its plural with it, or a name or value as it is written."""
_MESSAGE: Final = re.compile(r"^([a-z][a-z0-9-]*) =.*(?:\n(?: +\S.*|(?=\n )))*", re.MULTILINE)
_LARGE: Final = 10**25
"""From here on the library's formatter gives up."""
_FACT: Final = re.compile(r"\{ \$([a-z][a-z0-9-]*) \}")
_PLAIN: Final = re.compile(rf"(?:[^{{}}\n]|{_FACT.pattern})+")
"""What a message is that has neither choices nor other messages in it."""
_OTHER: Final = re.compile(r"\{ *([a-z][a-z0-9-]*) *\}")
"""A message within a message."""


@dataclass(frozen=True)
class Words:
    """The messages of one language.

    Parameters
    ----------
    language : str
        One of `LANGUAGES`.

    Examples
    --------
    >>> of("en")("clock-edges", count=1), of("de-AT")("clock-edges", count=8)
    ('1 clock edge', '8 Taktflanken')
    """

    language: str

    def __call__(self, message: str, /, **facts: Fact) -> str:
        """Say a message.

        Raises
        ------
        KeyError
            The catalogue lacks the message, or the message asks for a fact that was not given:
            a mistake of ours, never of a lesson.
        """
        return _catalogue(self.language).say(message, facts)

    def decimal(self, number: str) -> str:
        """A number, written in English, with the signs of the language.

        Examples
        --------
        >>> of("de").decimal("17.6 ± 0.3"), of("de").decimal("1,024"), ENGLISH.decimal("3.3")
        ('17,6 ± 0,3', '1.024', '3.3')
        """
        signs = {".": self("number-decimal"), ",": self("number-thousands")}
        return "".join(signs.get(character, character) for character in number)

    def __contains__(self, message: str) -> bool:
        """Whether there is a message of this name: a guest's part or design may have none.

        Examples
        --------
        >>> "kind-full-adder" in ENGLISH, "kind-widget" in ENGLISH
        (True, False)
        """
        return message in _catalogue(self.language).sources

    def attribute(self, language: str) -> str:
        """The attribute ``lang`` of our own words in a page of this language, or nothing.

        Examples
        --------
        >>> of("fr").attribute("fr"), of("de").attribute("de-CH")
        (' lang="en"', '')
        """
        return "" if _primary(language) == self.language else f' lang="{self.language}"'

    def source(self, *prefixes: str) -> str:
        """The messages whose names begin with one of these, as a page's script reads them.

        Examples
        --------
        >>> of("de").source("clock-edges").splitlines()[0]
        'clock-edges = { $count ->'
        """
        found = _catalogue(self.language).sources.items()
        return "".join(f"{text}\n" for name, text in found if name.startswith(prefixes))


ENGLISH: Final = Words(LANGUAGES[0])


def of(language: str) -> Words:
    """The words for readers of a language: its own, or the first of `LANGUAGES`."""
    primary = _primary(language)
    return Words(primary if primary in LANGUAGES else LANGUAGES[0])


def _primary(language: str) -> str:
    return language.partition("-")[0].lower()


@lru_cache(maxsize=len(LANGUAGES))
def _catalogue(language: str) -> Catalogue:
    file = resources.files(__package__ or "") / f"{language}.ftl"
    sources = sources_of(file.read_text("utf-8"))
    return Catalogue(language, sources, sources["number-thousands"].partition(" = ")[2])


def sources_of(text: str) -> dict[str, str]:
    r"""Each message of a file, by its name, as it stands there.

    Examples
    --------
    >>> sources_of("### Rain\n\nrain-none = no rain\nrain-some = rain\n")
    {'rain-none': 'rain-none = no rain', 'rain-some': 'rain-some = rain'}
    """
    return {message[1]: message[0].rstrip() for message in _MESSAGE.finditer(text)}


class Catalogue:
    """Messages by name, each read when it is first said: a page or a command says few of them.

    Parameters
    ----------
    language : str
        Whose plurals and numbers they have.
    sources : mapping of str to str
        Each message as it stands there.
    thousands : str
        The sign between groups of digits.
    """

    def __init__(self, language: str, sources: Mapping[str, str], thousands: str = ",") -> None:
        self.language = language
        self.sources = sources
        self._thousands = thousands

    @cached_property
    def _bundle(self) -> FluentBundle:
        from fluent.runtime import FluentBundle, resolver

        # Its bound is for messages of strangers; a name may be as long as a lesson has it.
        resolver.MAX_PART_LENGTH = sys.maxsize
        # Marks of direction around each fact would stand in every text that is copied or searched.
        return FluentBundle(
            [self.language], functions={"NUMBER": _numbers(self._thousands)}, use_isolating=False
        )

    def say(self, message: str, facts: Mapping[str, Fact]) -> str:
        """Say a message; raises `KeyError` where it, or one of its facts, is missing."""
        pattern = self.sources.get(message, "").partition(" = ")[2]
        names = {name.replace("_", "-") for name in facts}
        if _PLAIN.fullmatch(pattern) and names.issuperset(_FACT.findall(pattern)):
            # The library takes as long to load as a command to run: it is left out if it can be.
            return _FACT.sub(lambda fact: str(facts[fact[1].replace("-", "_")]), pattern)
        return self._said(message, facts)

    def _said(self, message: str, facts: Mapping[str, Fact]) -> str:
        self._read(message)
        pattern = self._bundle.get_message(message).value
        assert pattern is not None, message
        text, wrong = self._bundle.format_pattern(pattern, plain(facts))
        if wrong:
            raise KeyError(f"{self.language}.ftl, {message}: {wrong[0]}")
        return str(text)

    def _read(self, message: str) -> None:
        """Put a message, and those within it, into the bundle."""
        if self._bundle.has_message(message) or message not in self.sources:
            return
        from fluent.runtime import FluentResource

        source = self.sources[message]
        self._bundle.add_resource(FluentResource(source))
        for other in _OTHER.findall(source):
            self._read(other)


class _Large(str):
    """The digits of a number that is too long for the library's formatter."""

    __slots__ = ()


def plain(facts: Mapping[str, Fact]) -> dict[str, object]:
    """Facts with numbers as they stand in a run: 1024, not 1,024; a message may group them.

    Examples
    --------
    >>> plain({"most_sets": 2**96, "where": "S"})
    {'most-sets': '79228162514264337593543950336', 'where': 'S'}
    """
    from fluent.runtime.types import fluent_number

    def number(fact: int) -> object:
        return fluent_number(fact, useGrouping=False) if abs(fact) < _LARGE else _Large(fact)

    return {
        name.replace("_", "-"): number(fact) if isinstance(fact, int) else fact
        for name, fact in facts.items()
    }


def _numbers(thousands: str) -> Callable[..., Any]:
    """What ``NUMBER`` does, for numbers of any length."""
    from fluent.runtime.types import fluent_number

    def number(value: Any, **options: Any) -> Any:
        if not isinstance(value, _Large):
            return fluent_number(value, **options)
        grouped = str(options.get("useGrouping")) == "true"
        return f"{int(value):,}".replace(",", thousands) if grouped else str(value)

    return number
