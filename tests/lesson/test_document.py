"""The lesson's text taken apart: places of values and blocks, front matter, limits."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.lesson.blocks import BLOCKS
from edgewise.lesson.document import DEEPEST, Lesson, read

FRONT = "---\ntitle: Rain\ndesign: serial-adder\n---\n"


def lesson(text: str) -> Lesson:
    return read(text, "rain.md", Path(), tuple(BLOCKS))


def faults(text: str) -> str:
    return "\n".join(map(str, lesson(text).faults))


PLACED = (
    FRONT
    + """\
Now `? a` and ``? b`` and `? a`.

> - quoted `? S
>   after 7` and `plain`
>
>   ```claim
>   edges == 2*n
>   ```

| one | two |
|-----|-----|
| `? a` | x `? a` and `? a \\| b` |

# Heading `? n`

1. [link `? n`](x.html)
"""
)


def test_places_of_values() -> None:
    """Each place points at the formula's first character in the source."""
    lines = PLACED.splitlines()
    found = lesson(PLACED)
    assert not found.faults
    assert [v.formula for v in found.values] == [
        "a", "b", "a", "S after 7", "a", "a", "a | b", "n", "n",
    ]  # fmt: skip
    for value in found.values:
        first = value.formula.split()[0]
        at = value.place.column - 1
        assert lines[value.place.line - 1][at:].startswith(first)
        assert lines[value.place.line - 1][:at].rstrip().endswith("`?")
    assert len({value.place for value in found.values}) == len(found.values)


def test_places_of_blocks() -> None:
    (block,) = lesson(PLACED).blocks
    assert (block.kind, block.text, str(block.place), block.indent) == (
        "claim",
        "edges == 2*n\n",
        "rain.md:10:5",
        4,
    )


@pytest.mark.parametrize(
    "text", ["`?? 1`", "`?`", "`?:`", "`a ? b`", "`= a`", "\\`? a", "``` `? a ```"]
)
def test_what_is_no_computed_value(text: str) -> None:
    found = lesson(FRONT + text)
    assert (found.values, found.faults) == ((), ())


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "Text only.",
            "rain.md:1:1: the lesson has no front matter; begin it with a line ---, then title: …"
            " and design: …, then a line ---",
        ),
        (
            "---\ntitle: Rain\n",
            "rain.md:1:1: the front matter has no end; close it with a line ---",
        ),
        (
            "---\n---\n",
            "rain.md:1:1: the front matter does not say title: Two rain gauges\n"
            "rain.md:1:1: the front matter does not say design: serial-adder",
        ),
        (
            '---\ntitle: "Rain\ndesign: serial-adder\n---\n',
            "rain.md:2:8: not valid YAML: this quote is never closed; add the closing quote",
        ),
        (
            "---\ntitle: Rain\ndesign: serial-adder\noperand: {a: 1}\n---\n",
            "rain.md:4:1: the front matter has no entry operand; did you mean operands?",
        ),
        (
            "---\ntitle: [Rain]\ndesign: serial-adder\n---\n",
            "rain.md:2:8: title: found a list, expected a single value",
        ),
        (
            "---\ntitle:\ndesign: serial-adder\n---\n",
            "rain.md:2:1: title: found nothing behind it",
        ),
        (
            "---\ntitle: Rain\ndesign: serial-adder\nwith: 6\n---\n",
            "rain.md:4:7: with: found a single value, expected keys and values, as in {n: 6}",
        ),
        (
            "---\ntitle: Rain\ndesign: serial-adder\noperands: {a: {b: 1}}\n---\n",
            "rain.md:4:15: a: found keys and values, expected a number or a list of numbers",
        ),
        (
            "---\ntitle: Rain\ndesign: serial-adder\nlanguage: <b>\n---\n",
            "rain.md:4:11: language: found <b>, expected a language tag such as en, de or pt-BR",
        ),
        (
            FRONT + "```clam\n```\n",
            "rain.md:5:4: there is no block clam; did you mean claim?",
        ),
        (
            FRONT + "~~~ Edge-Table\n~~~\n",
            "rain.md:5:5: there is no block Edge-Table; did you mean edge-table?",
        ),
        (
            FRONT + "\n```claim\nedges == 12\n",
            "rain.md:6:1: the block from line 6 has no closing ```; close it in a line of its own",
        ),
        (
            FRONT + "\n```claim\nedges == 12\n\nIt *is* so: `? Q after 7`.\n",
            "rain.md:6:1: the block from line 6 has no closing ```; close it in a line of its own",
        ),
        (
            "---\ntitel: Rain\ndesing: serial-adder\n---\n",
            "rain.md:2:1: the front matter has no entry titel; did you mean title?\n"
            "rain.md:3:1: the front matter has no entry desing; did you mean design?",
        ),
        (
            FRONT + "Now `? S after 7 is it.",
            "rain.md:5:5: this computed value has no end; close it with a second `",
        ),
        (
            FRONT + "> " * (2 * DEEPEST + 5) + "deep",
            "rain.md:5: lists and quotes are nested more than 20 deep",
        ),
        (
            FRONT + "x" * 200_001,
            "rain.md: the lesson has 200042 characters; the limit is 200000",
        ),
        (
            FRONT + "`? a` " * 5001,
            "rain.md: the lesson has 5001 computed values; the limit is 5000",
        ),
    ],
)
def test_messages(text: str, message: str) -> None:
    assert faults(text) == message


@pytest.mark.parametrize("word", ["python", "text", "", "status", "yaml", "circular"])
def test_other_fenced_code_is_plain_code(word: str) -> None:
    found = lesson(f"{FRONT}```{word}\nx\n```\n")
    assert (found.blocks, found.faults) == ((), ())


def test_line_ends_and_byte_order_mark_do_not_matter() -> None:
    windows = "\ufeff" + PLACED.replace("\n", "\r\n")
    assert lesson(windows).values == lesson(PLACED).values


@given(st.text(alphabet="`?=|>-* \n\\ab()[]!<#~:1.", max_size=120))
def test_any_text_is_taken_apart(text: str) -> None:
    for value in lesson(FRONT + text).values:
        assert value.place.line > 4


def test_quotation_marks_follow_the_language() -> None:
    def prose(language: str) -> str:
        found = lesson(f'---\ntitle: T\ndesign: d\nlanguage: {language}\n---\n"a" it\'s')
        (inline,) = [token for token in found.tokens if token.type == "inline"]
        return "".join(child.content for child in inline.children or ())

    assert prose("en") == "“a” it’s"
    assert prose("de-AT") == "„a“ it’s"
    assert prose("xx") == '"a" it\'s'
