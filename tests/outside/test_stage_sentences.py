"""The sentences of the stage, parsed and compared with the trace.

Source: common practice, no source. The parser shares no code with ``src``: every sentence about
an edge has to match a form that it knows, so that a form without a check fails here.
"""

from __future__ import annotations

import random
import re
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.publish.stage.sentences import told
from edgewise.trace import Trace

RESULT: Final = re.compile(r" [a-z]\w* reads .*")
NAME: Final = r"[A-Za-z]\w*(?:\([\d.]+\))?"


def word(trace: Trace, name: str, row: int) -> str:
    """What a store or a run of stores held: ``S(3..1)`` from its members, highest first."""
    ends = re.fullmatch(r"(\w+)\((\d+)\.\.(\d+)\)", name)
    if not ends:
        return str(trace.word(name, row))
    members = range(int(ends[2]), int(ends[3]) - 1, -1)
    words = [str(trace.word(f"{ends[1]}({i})", row)) for i in members]
    return ("" if all(len(one) == 1 for one in words) else " ").join(words)


def shifted(old: str, new: str, way: str, came: str, gone: str) -> bool:
    olds, news = old.split(), new.split()
    if len(olds) > 1:
        pairs = zip(olds, news, came, gone, strict=True)
        return all(shifted(*four[:2], way, *four[2:]) for four in pairs)
    if way == "right":
        return new == came + old[:-1] and gone == old[-1]
    return new == old[1:] + came and gone == old[0]


def stored(clause: str, trace: Trace, row: int) -> bool:
    """Whether one clause is so; False also for a form that is not known."""
    was, now = row - 1, row
    if f := re.fullmatch(rf"({NAME}) (?:took|loaded) ([01X ]+)", clause):
        return word(trace, f[1], now) == f[2]
    if f := re.fullmatch(
        rf"({NAME}) shifted (left|right) \(([01X]+) came in; ([01X]+) went out\)", clause
    ):
        return shifted(word(trace, f[1], was), word(trace, f[1], now), f[2], f[3], f[4])
    if f := re.fullmatch(rf"({NAME}) counted from ([01]+) to ([01]+)", clause):
        return [word(trace, f[1], was), word(trace, f[1], now)] == [f[2], f[3]]
    if f := re.fullmatch(rf"the sum ?(?:bits? )?([01X]+) (?:entered|went to) ({NAME})", clause):
        new = word(trace, f[2], now).replace(" ", "")
        digits = "".join(one[0] for one in word(trace, f[2], now).split())
        return f[1] in (new, digits) or new.startswith(f[1])
    if f := re.fullmatch(
        rf"the (?:carry|carries) ([01X]+) (?:was|were) stored in ({NAME})"
        r"(?: \((unchanged|before: [01X]+)\))?",
        clause,
    ):
        old, new = word(trace, f[2], was), word(trace, f[2], now)
        told_old = "unchanged" if old == new and "X" not in old else f"before: {old}"
        return new == f[1] and f[3] in (None, told_old)
    if f := re.fullmatch(rf"bits (\d+)\.\.(\d+) went to ({NAME})", clause):
        return len(word(trace, f[3], now)) == int(f[1]) - int(f[2]) + 1
    return bool(re.fullmatch(rf"bit \d+ entered {NAME}", clause))


def kept(names: str, verb: str, trace: Trace, row: int) -> bool:
    for name in re.split(r", | and ", names):
        old, new = word(trace, name, row - 1), word(trace, name, row)
        if old != new if verb == "kept" else new.strip("0 "):
            return False
    return True


def added(given: str, trace: Trace, row: int) -> bool:
    """The words before the sum, as they stood before the edge, and the sum itself."""
    for name, bits in re.findall(rf"({NAME}) = ([01X]+)", given):
        if word(trace, name, row - 1) != bits:
            return False
    if f := re.fullmatch(
        r"a=([01]), b=([01])(?: and the \w+ carry ([01]))? made sum ([01]) and carry ([01])", given
    ):
        return int(f[1]) + int(f[2]) + int(f[3] or 0) == int(f[4]) + 2 * int(f[5])
    if f := re.fullmatch(r"(.*) added up to ([01]+)", given):
        plain = re.sub(r" \([A-Z]\w*\(\d+\) = [01] [^)]*\)", "", f[1])
        numbers = re.findall(r"(?<![\w(])[01]+(?![\w)])", plain)
        return sum(int(number, 2) for number in numbers) == int(f[2], 2)
    return bool(
        re.fullmatch(r".* were not all known", given)
        or re.fullmatch(r"each of the \d+ adders added [a-z ]+, .*(?:with a carry|known)", given)
    )


def right(sentence: str, trace: Trace, row: int) -> bool:
    said = sentence.rstrip(".").replace(" came in, ", " came in; ")
    if f := re.fullmatch(r"(.*) (kept|was|were) (?:its value|their values|cleared)", said):
        return kept(f[1], "kept" if f[2] == "kept" else "cleared", trace, row)
    if f := re.fullmatch(r"(?:\S+: )?just before, (.*?); (.*)", said):
        goes = re.sub(r", (?=the |bit)", "|", f[2]).split("|")
        return added(f[1], trace, row) and all(stored(one, trace, row) for one in goes)
    return all(stored(one, trace, row) for one in re.split(r", | and ", said))


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_each_number_of_a_sentence_is_the_traces_at_its_time(name: str) -> None:
    chance = random.Random(name)  # noqa: S311  # cases, no secrets
    design = catalogue.find(name).design({})
    for _ in range(3):
        operands = {one.name: chance.getrandbits(one.width) for one in design.operands}
        trace = reference.run(design, operands)
        for row in range(1, trace.edges + 1):
            text = RESULT.sub("", told(trace, row))
            head = re.match(rf"Edge {row}(?:, phase [^:]+)?: ", text)
            assert head, text
            for sentence in re.split(r"(?<=\.) (?=[A-Z])", text[head.end() :]):
                assert right(sentence, trace, row), (row, sentence)
