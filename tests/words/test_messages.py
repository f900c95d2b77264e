"""The catalogue of messages: complete in every language, each message used, each fact given."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest
from fluent.syntax import FluentParser
from fluent.syntax import ast as fluent
from fluent.syntax.visitor import Visitor

from edgewise.words import messages
from edgewise.words.messages import LANGUAGES, of

SOURCE = Path(messages.__file__).parents[1]
COMMANDS = "commands/en"
"""What commands say, and why something is refused: a folder, which has no other language yet."""


class Facts(Visitor):
    """The names of the facts that a message asks for."""

    def __init__(self) -> None:
        self.names: set[str] = set()

    def visit_VariableReference(self, node: fluent.VariableReference) -> None:  # noqa: N802
        self.names.add(node.id.name)


@lru_cache
def catalogue(language: str) -> dict[str, set[str]]:
    """Each message, and the facts that it asks for."""
    folder = Path(messages.__file__).parent
    files = sorted((folder / language).glob("*.ftl")) or [folder / f"{language}.ftl"]
    text = "".join(file.read_text("utf-8") for file in files)
    found: dict[str, set[str]] = {}
    for entry in FluentParser().parse(text).body:
        assert not isinstance(entry, fluent.Junk), entry.content
        if isinstance(entry, fluent.Message):
            assert entry.id.name not in found, f"{language}.ftl has {entry.id.name} twice"
            facts = Facts()
            facts.visit(entry)
            found[entry.id.name] = facts.names
    return found


@pytest.mark.parametrize("language", LANGUAGES[1:])
def test_every_language_says_all_with_the_same_facts(language: str) -> None:
    assert catalogue(language) == catalogue(LANGUAGES[0])


@pytest.mark.parametrize("language", LANGUAGES)
def test_each_message_is_read_by_itself_as_it_stands(language: str) -> None:
    read = FluentParser().parse(of(language).source("")).body
    whole = FluentParser().parse(Path(messages.__file__).with_name(f"{language}.ftl").read_text())
    said = [entry for entry in whole.body if isinstance(entry, fluent.Message)]
    assert len(read) == len(said) == len(catalogue(language))
    for entry, other in zip(read, said, strict=True):
        assert entry.equals(other, ["span", "comment"])


def test_a_third_language_is_one_file(tmp_path: Path) -> None:
    assert LANGUAGES == ("en", "de")
    for name in ("de.ftl", "en.ftl", "cy.ftl", "words.py"):
        (tmp_path / name).touch()
    assert messages._languages(tmp_path) == ("en", "cy", "de")


@lru_cache
def sources() -> dict[Path, ast.Module]:
    """Every module of ours, read."""
    return {file: ast.parse(file.read_bytes()) for file in sorted(SOURCE.rglob("*.py"))}


def strings() -> Iterator[str]:
    """Every text in our Python, and every quoted one in the page's modules."""
    for tree in sources().values():
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value
            elif isinstance(node, ast.JoinedStr):  # f"key-{name}"
                yield "".join(
                    str(part.value) if isinstance(part, ast.Constant) else "*"
                    for part in node.values
                )
    for path in (SOURCE / "publish" / "stage" / "web").glob("*.js"):
        text = path.read_text("utf-8")
        yield from re.findall(r'"([a-z][a-z0-9-]*)"', text)
        yield from (re.sub(r"\$\{[^}]*\}", "*", t) for t in re.findall(r"`([^`\n]*)`", text))


@pytest.mark.parametrize("file", [LANGUAGES[0], COMMANDS])
def test_every_message_is_said_somewhere(file: str) -> None:
    all_of_them = set(catalogue(file))
    folder = Path(messages.__file__).parent
    files = sorted((folder / file).glob("*.ftl")) or [folder / f"{file}.ftl"]
    within = re.findall(r"\{ *([a-z][a-z0-9-]*) *\}", "".join(one.read_text() for one in files))
    said = {*strings(), *within}
    # f"key-{name}", and f"{message}-with" of a message that is there without the ending, too.
    begun = [
        text for text in said if re.fullmatch(r"[a-z][a-z0-9-]*-[a-z0-9*-]*\*[a-z0-9*-]*", text)
    ]
    patterns = [re.compile(re.escape(text).replace(r"\*", "[a-z0-9-]+") + r"\Z") for text in begun]
    endings = {text[1:] for text in said if re.fullmatch(r"\*(?:-[a-z]+)+", text)}
    unsaid = [
        name
        for name in all_of_them
        if name not in said
        and not any(pattern.match(name) for pattern in patterns)
        and not any(name.removesuffix(end) in all_of_them - {name} for end in endings)
    ]
    assert unsaid == []


def test_what_a_page_says_is_what_python_says() -> None:
    """The part for the script has whole messages, those of that prefix and no other."""
    for language in LANGUAGES:
        part = FluentParser().parse(of(language).source("clock-")).body
        names = [entry.id.name for entry in part if isinstance(entry, fluent.Message)]
        assert (names, len(part)) == (["clock-edges"], 1)
        assert of(language).source("nothing-") == ""


def test_a_language_without_a_file_is_told_english_and_says_so() -> None:
    assert of("fr-CH").language == "en"
    assert of("fr").attribute("fr") == ' lang="en"'
    assert of("DE").attribute("de-AT") == ""


def test_numbers_stand_as_in_a_run() -> None:
    assert of("de")("clock-edges", count=1024) == "1024 Taktflanken"


def test_a_mistake_of_ours_is_loud() -> None:
    with pytest.raises(KeyError, match=r"en\.ftl, clock-edges: .*count"):
        of("en")("clock-edges")


def test_a_number_of_any_length_is_said_and_grouped() -> None:
    for language, sign in (("en", ","), ("de", ".")):
        words, sets = of(language), 2**100
        told = words("claim-sets", sets=sets, operands=2, name="a")
        assert f" {sets:,} ".replace(",", sign) in told
        assert str(sets) in words("clock-edges", count=sets)


def test_a_fact_of_any_length_is_said() -> None:
    name = 5000 * "tide "
    assert of("en")("finding-at", case=name, why="rain").count("tide") == 5000
