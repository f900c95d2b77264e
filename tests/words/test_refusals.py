"""Errors know facts; their words stand in the catalogue of what is refused, and nowhere else."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import lru_cache

import pytest

from edgewise.errors import EdgewiseError, Message, Place, Suggestion, TextError, nearest
from edgewise.words import messages
from tests.words.test_messages import COMMANDS, SOURCE, catalogue, sources

WORDS = ("cli", "words")
"""Where a `Message` is made, or printed, of what is asked for."""
ROOMS = tuple(
    entry.name
    for entry in sorted(SOURCE.iterdir())
    if (entry.suffix == ".py" or (entry / "__init__.py").exists()) and entry.name not in WORDS
)
"""Where every error is raised with a `Message`."""
PROSE = re.compile(r"[a-z,;:] +[a-z]|^[;:] |[a-z]{2}[,;:]? +$", re.IGNORECASE)
"""Two words, or what joins a message to another."""
Function = ast.FunctionDef | ast.AsyncFunctionDef


@lru_cache
def kinds() -> frozenset[str]:
    """The name of every class of errors, whether its module is loaded or not."""
    nodes = (node for tree in sources().values() for node in ast.walk(tree))
    classes = [node for node in nodes if isinstance(node, ast.ClassDef)]
    found = {EdgewiseError.__name__}
    while more := {c.name for c in classes if found & set(map(ast.unparse, c.bases))} - found:
        found |= more
    return frozenset(found)


@lru_cache
def makers() -> frozenset[str]:
    """What makes an error of what it is given: the classes, and functions that give one back."""
    nodes = (node for tree in sources().values() for node in ast.walk(tree))
    functions = [node for node in nodes if isinstance(node, Function) and node.returns]
    given = {n.name for n in functions if kinds() & set(ast.unparse(n.returns or n).split(" | "))}
    return kinds() | given | {"Message", "within"}


def called(node: ast.AST) -> str:
    """What a call calls, without the module that it stands in."""
    if not isinstance(node, ast.Call):
        return ""
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def prose(node: ast.AST) -> Iterator[str]:
    """The words that stand in an expression, apart from the names of messages."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and PROSE.search(node.value):
        yield node.value
    inside = ast.iter_child_nodes(node)
    if isinstance(node, ast.JoinedStr):
        told = "".join(str(p.value) if isinstance(p, ast.Constant) else "x" for p in node.values)
        yield from [told] if PROSE.search(told) else []
        inside = iter([p for p in node.values if isinstance(p, ast.FormattedValue)])
    for child in inside:
        yield from prose(child)


def sentences(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Words in what errors and messages are given, or in a variable that they are given."""
    for scope in (n for n in ast.walk(tree) if isinstance(n, Function)):
        made = [n for n in ast.walk(scope) if called(n) in makers()]
        calls = [n for n in made if isinstance(n, ast.Call)]
        given = [a for n in calls for a in (*n.args, *(word.value for word in n.keywords))]
        names = {n.id for one in given for n in ast.walk(one) if isinstance(n, ast.Name)}
        kept = [
            n.value
            for n in ast.walk(scope)
            if isinstance(n, ast.Assign)
            and isinstance(n.value, ast.Constant | ast.JoinedStr | ast.IfExp | ast.BinOp)
            and any(isinstance(t, ast.Name) and t.id in names for t in n.targets)
        ]
        for value in (*given, *kept):
            yield from ((value.lineno, text) for text in prose(value))


@pytest.mark.parametrize("room", ROOMS)
def test_no_error_of_a_room_has_words_of_its_own(room: str) -> None:
    found = [
        f"{file.relative_to(SOURCE)}:{line}: {text!r}"
        for file, tree in sources().items()
        if file.is_relative_to(SOURCE / room)
        for line, text in sentences(tree)
    ]
    assert not found, "\n" + "\n".join(found)


HELP = ("Option", "Argument", "Typer", "examples")
"""What declares a command: its help is written where it is declared."""


def printed(node: ast.AST) -> Iterator[str]:
    """The words in a module of commands, apart from their help and docstrings."""
    docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    if docstring or called(node) in HELP or getattr(node, "name", "") in HELP:
        return
    if isinstance(node, ast.Constant | ast.JoinedStr):
        yield from prose(node)
        return
    for child in ast.iter_child_nodes(node):
        yield from printed(child)


def test_no_command_has_words_of_its_own() -> None:
    found = {
        file.name: told
        for file, tree in sources().items()
        if file.is_relative_to(SOURCE / "cli") and (told := list(printed(tree)))
    }
    assert not found


@pytest.mark.parametrize(
    "given",
    [
        'raise TextError("no rain")',
        'raise TextError(f"{x} rain")',
        'hint = "; mend it"\n    raise TextError(Message("rain", hint=hint))',
        'raise TextError(Message("rain", hint="" if x else f" by {x}s, or"))',
        'yield parts.PartFault("found " + x)',
    ],
)
def test_words_are_found_where_they_are_hidden(given: str) -> None:
    tree = ast.parse(f"def wrong(x):\n    {given}")
    assert list(sentences(tree))


def test_each_message_is_given_its_facts() -> None:
    wrong = []
    facts = {name: {f.replace("-", "_") for f in of} for name, of in catalogue(COMMANDS).items()}
    for file, tree in sources().items():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
                continue
            if node.func.id not in ("Message", "refused"):
                continue
            name = node.args[0].value if isinstance(node.args[0], ast.Constant) else None
            given = {word.arg for word in node.keywords}
            if isinstance(name, str) and None not in given and facts.get(name) != given:
                wrong.append(f"{file.relative_to(SOURCE)}:{node.lineno}: {name}: {given}")
    assert not wrong, "\n" + "\n".join(wrong)


def test_no_sentence_stands_twice() -> None:
    """One message says it for all who have it to say, whatever its facts are called."""
    said: dict[str, list[str]] = {}
    for file in sorted((SOURCE / "words" / COMMANDS).glob("*.ftl")):
        for name, source in messages.sources_of(file.read_text("utf-8")).items():
            text = re.sub(r"\$[a-z-]+", "$", source.partition(" = ")[2])
            said.setdefault(text, []).append(name)
    assert [names for names in said.values() if len(names) > 1] == []


def test_an_error_keeps_its_facts_and_its_suggestion() -> None:
    told = Message("in-part", part="FA", told=Message("setting-unknown", kind="not", name="widht",
                   suggestion=nearest("widht", ["width"])))  # fmt: skip
    wrong = TextError(told).placed(Place("rain.yaml", 3)).within("n=4")
    assert wrong.suggestion == Suggestion(meant="width")
    assert str(wrong) == (
        "rain.yaml:3: n=4: part FA: not has no setting widht; did you mean width?"
    )
    assert TextError("rain").suggestion is None


def test_words_are_looked_up_when_an_error_is_read() -> None:
    wrong = EdgewiseError(Message("rain-unknown"))
    with pytest.raises(KeyError, match="rain-unknown"):
        _ = wrong.message
