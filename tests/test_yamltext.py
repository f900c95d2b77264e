"""YAML text as a tree with places; each message must be enough to mend the file."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import yamltext
from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.yamltext import Mapping, Scalar, Sequence, Tree, mapping, read, scalar, sequence


def one(text: str, first_line: int = 1) -> Tree:
    (tree,) = read(text, "rain.yaml", first_line)
    return tree


def test_scalars_stay_text() -> None:
    tree = one("{a: 012, b: yes, c: 1e3, d: null, e: '1', f: 2001-01-01, g: X, h: ''}")
    assert isinstance(tree, Mapping)
    assert [value.text for _, value in tree.pairs if isinstance(value, Scalar)] == [
        "012", "yes", "1e3", "null", "1", "2001-01-01", "X", "",
    ]  # fmt: skip


def test_places() -> None:
    tree = one("circuit: rain\nparts:\n  A: {part: not, in: [x, y]}\n", first_line=10)
    assert isinstance(tree, Mapping)
    assert tree.place == Place("rain.yaml", 10, 1)
    parts = tree.get("parts")
    assert isinstance(parts, Mapping)
    body = parts.get("A")
    assert isinstance(body, Mapping)
    assert [str(key.place) for key, _ in body.pairs] == ["rain.yaml:12:7", "rain.yaml:12:18"]
    inputs = body.get("in")
    assert isinstance(inputs, Sequence)
    assert [str(item.place) for item in inputs.items] == ["rain.yaml:12:23", "rain.yaml:12:26"]


def test_the_place_of_a_quoted_value_is_its_first_character() -> None:
    tree = one("a: 'n + 1'")
    assert isinstance(tree, Mapping)
    assert tree.pairs[0][1].place == Place("rain.yaml", 1, 5)


def test_the_place_of_a_folded_value_is_its_line() -> None:
    tree = one("a: >-\n  some\n  words\nb: 1")
    assert isinstance(tree, Mapping)
    assert tree.pairs[0][1] == Scalar("some words", Place("rain.yaml", 1))


def test_several_documents_and_empty_ones() -> None:
    assert len(read("a: 1\n---\nb: 2\n---\n", "f")) == 2
    assert read("", "f") == read("# nothing\n", "f") == ()


def test_a_byte_order_mark_and_windows_lines_are_fine() -> None:
    tree = one("\ufeffa: 1\r\nb: 2\r\n")
    assert isinstance(tree, Mapping)
    assert [key.text for key, _ in tree.pairs] == ["a", "b"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            'circuit: "rain\ninputs: {x: 1}\n',
            "rain.yaml:1:10: not valid YAML: this quote is never closed; add the closing quote",
        ),
        (
            'circuit: "rain\nabout: "counts"\n',
            (
                "rain.yaml:2:9: not valid YAML: this does not go on with what began in line 1; look"
                " for a wrong indentation, or for a quote, colon or bracket missing before it"
            ),
        ),
        (
            "circuit: rain\ninputs: {x: 1\nparts: {}\n",
            (
                "rain.yaml:3:6: not valid YAML: a comma is missing before this, or the bracket"
                " opened"
                " in line 2 is not closed"
            ),
        ),
        (
            "circuit: rain\nparts: {A: [x, y}\n",
            (
                "rain.yaml:2:17: not valid YAML: a comma is missing before this, or the bracket"
                " opened in line 2 is not closed"
            ),
        ),
        (
            "circuit: rain\nparts\ninputs: {x: 1}\n",
            (
                "rain.yaml:2:1: not valid YAML: this line has no colon; write key: value, with a"
                " blank after the colon"
            ),
        ),
        (
            "circuit: rain\ninputs: {x:1}\n",
            "rain.yaml:2:10: found x:1; put a blank after the colon: x: 1",
        ),
        (
            "circuit: rain: gauge\n",
            (
                "rain.yaml:1:14: not valid YAML: this colon is not expected here; the line is"
                " indented"
                " too far, or a value with a colon in it needs quotes"
            ),
        ),
        (
            "circuit: rain\n  inputs: {x: 1}\n",
            (
                "rain.yaml:2:9: not valid YAML: this colon is not expected here; the line is"
                " indented"
                " too far, or a value with a colon in it needs quotes"
            ),
        ),
        (
            "circuit: rain\nparts:\n  A: 1\n B: 2\n",
            (
                "rain.yaml:4:2: not valid YAML: this does not go on with what began in line 1; look"
                " for a wrong indentation, or for a quote, colon or bracket missing before it"
            ),
        ),
        (
            "circuit: rain\nparts:\n\tA: 1\n",
            "rain.yaml:3:1: not valid YAML: a tab stands here; indent with blanks",
        ),
        (
            "circuit: @home\n",
            "rain.yaml:1:10: not valid YAML: a value can't begin with '@'; put the value in quotes",
        ),
        (
            "circuit: ra\x00in\n",
            "rain.yaml:1:12: the invisible character U+0000 stands here; delete it",
        ),
        (
            "inputs: {x: 1, y: 1,\n  x: 2}\n",
            "rain.yaml:2:3: the key x stands here twice (first in line 1); leave one out",
        ),
        (
            "a: &x 1\nb: *x\n",
            (
                "rain.yaml:1:4: anchors (&name) and aliases (*name) are not used here; write the"
                " value"
                " out, or put it in quotes"
            ),
        ),
        (
            "b: *x\n",
            (
                "rain.yaml:1:4: anchors (&name) and aliases (*name) are not used here; write the"
                " value"
                " out, or put it in quotes"
            ),
        ),
        (
            "a: !!python/name:os.system 1\n",
            (
                "rain.yaml:1:4: tags such as tag:yaml.org,2002:python/name:os.system are not used"
                " here; leave it out"
            ),
        ),
        (
            "computes: {z: min(a, b) + 1}",
            (
                "rain.yaml:1:22: a comma ended the value before this one; put a value that has"
                " commas"
                ' into quotes, as in "min(a, b)"'
            ),
        ),
        ("? [a]\n: 1\n", "rain.yaml:1:3: a key: found a list, expected a single value"),
        ("a: " + "[" * 14 + "]" * 14, "rain.yaml:1:16: nested more than 12 levels deep"),
        ("a: " + "[" * 50_000, "rain.yaml:1:16: nested more than 12 levels deep"),
        ("a: " + "{a: " * 20_000, "rain.yaml:1:49: nested more than 12 levels deep"),
        ("a" * 1_000_001, "rain.yaml: the text has 1000001 characters; the limit is 1000000"),
    ],
)
def test_messages(text: str, message: str) -> None:
    begin = time.perf_counter()
    with pytest.raises(TextError) as wrong:
        read(text, "rain.yaml")
    assert str(wrong.value) == message
    assert time.perf_counter() - begin < 5


def test_many_keys_are_no_trouble() -> None:
    begin = time.perf_counter()
    tree = one("".join(f"k{i}: 1\n" for i in range(10_000)))
    assert isinstance(tree, Mapping)
    assert len(tree.pairs) == 10_000
    assert time.perf_counter() - begin < 20


def test_kinds_are_asked_for() -> None:
    value, keys, items = one("v"), one("{a: 1}"), one("[1]")
    assert scalar(value, "width").text == "v"
    assert mapping(keys, "parts", "{a: 1}").get("a") == Scalar("1", Place("rain.yaml", 1, 5))
    assert mapping(keys, "parts", "{a: 1}").get("b") is None
    assert len(sequence(items, "procedure", "- x")) == 1
    empty = Scalar("", Place("f"))
    assert mapping(empty, "parts", "{a: 1}").pairs == ()
    assert sequence(empty, "p", "- x") == ()
    for ask, message in (
        (
            lambda: scalar(items, "width"),
            "rain.yaml:1:1: width: found a list, expected a single value",
        ),
        (
            lambda: mapping(value, "parts", "{a: 1}"),
            "rain.yaml:1:1: parts: found a single value, expected keys and values, as in {a: 1}",
        ),
        (
            lambda: sequence(keys, "procedure", "- x"),
            "rain.yaml:1:1: procedure: found keys and values, expected a list, as in - x",
        ),
    ):
        with pytest.raises(TextError) as wrong:
            ask()
        assert str(wrong.value) == message


def test_other_keys_are_refused() -> None:
    tree = one("inputs {x: 1}\ninput: 2\nzzz: 3\n")
    assert isinstance(tree, Mapping)
    assert [str(e) for e in tree.refuse_other_keys(("inputs", "parts"), "a circuit text")] == [
        "rain.yaml:1:1: a colon is missing after inputs; write inputs: …",
        "rain.yaml:2:1: a circuit text has no entry input; did you mean inputs?",
        "rain.yaml:3:1: a circuit text has no entry zzz; there is: inputs, parts",
    ]


@given(st.text("ab: {}[],-\"'\n\t#&*!|>%@?\0é", max_size=40))
def test_any_text_is_read_or_refused_with_an_edgewise_error(text: str) -> None:
    try:
        for tree in read(text, "f"):
            assert str(yamltext.kind_of(tree))
    except EdgewiseError as wrong:
        message = str(wrong)
    else:
        return
    assert message.startswith("f")


def _slowly(text: str) -> tuple[yamltext.Tree, ...] | str:
    """What the parser of YAML 1.2 alone makes of a text."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(yamltext, "_quickly", lambda *_: None)
        try:
            return yamltext.read(text, "tide.yaml", 3)
        except EdgewiseError as wrong:
            return str(wrong)


_WHOLE = [
    path.read_text("utf-8")
    for path in sorted(Path(yamltext.__file__).with_name("catalogue").glob("*.yaml"))
]


@pytest.mark.parametrize("text", _WHOLE, ids=lambda text: text.partition("\n")[0])
def test_both_parsers_read_a_catalogue_text_alike(text: str) -> None:
    quick = yamltext._quickly(text, "tide.yaml", 3)
    assert quick is None or quick == _slowly(text)


def test_the_quick_parser_serves_large_texts() -> None:
    lines = [f"  G{i}: {{part: and, in: [a({i}), G{i + 1}.out]}}\n" for i in range(50)]
    assert yamltext._quickly("parts:\n" + "".join(lines), "tide.yaml", 1) is not None


@settings(max_examples=400)
@given(st.data())
def test_both_parsers_read_an_edited_text_alike(data: st.DataObject) -> None:
    text = data.draw(st.sampled_from(_WHOLE))
    for _ in range(data.draw(st.integers(0, 3))):
        at = data.draw(st.integers(0, len(text)))
        new = data.draw(st.text(" \n:,-[]{}#'\"ab01()&*.=", max_size=3))
        text = text[:at] + new + text[at + data.draw(st.integers(0, 3)) :]
    quick = yamltext._quickly(text, "tide.yaml", 3)
    if quick is not None:
        assert quick == _slowly(text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "%YAML 1.3\n---\na: 1\n",
            "1: not valid YAML: something in it can't be read; leave out lines that begin with %",
        ),
        ('a: "\\U00110000"', "1:5: there is no character U+110000; the last is U+10FFFF"),
        (
            'a: "\\e[2J"',
            "1:5: this value has the invisible character U+001B in it, written as an escape; leave"
            " it out",
        ),
        (
            'a: "x\\ny"',
            "1:5: this value in quotes has a line break in it; write it on one line, or as lines"
            " under | or >",
        ),
        ("? |\n  x\n  y\n: 1\n", "1: a key can't have a line break in it"),
        (
            "parts: {G: {in: min(a, b)}}",
            "1:24: a comma ended the value before this one; put a value that has commas into"
            ' quotes, as in "min(a, b)"',
        ),
    ],
)
def test_text_that_is_no_value(text: str, message: str) -> None:
    with pytest.raises(TextError) as wrong:
        read(text, "rain.yaml")
    assert str(wrong.value) == f"rain.yaml:{message}"
