"""The sentences of the stage, parsed and compared with the trace.

Source: common practice, no source. The parser shares no code with ``src``: every sentence about
an edge has to match a form that it knows, so that a form without a check fails here.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.bits import X
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.trace import Trace
from tests.web.telling import told

RESULT: Final = re.compile(r" [a-z]\w* reads .*")
NAME: Final = r"[A-Za-z]\w*(?:\([\d.]+\))?"
CONTROL: Final = rf"({NAME}(?:\.[\w-]+)?) = ([01X]+)"
REASON: Final = rf"(?: \({CONTROL}\))?"


def word(trace: Trace, name: str, row: int) -> str:
    """What a store or a run of stores held: ``S(3..1)`` from its members, highest first."""
    ends = re.fullmatch(r"(\w+)\((\d+)\.\.(\d+)\)", name)
    if not ends:
        return str(trace.word(name, row))
    if ends[1] in trace.columns:  # a slice of one word
        whole = str(trace.word(ends[1], row))[::-1]
        return whole[int(ends[3]) : int(ends[2]) + 1][::-1]
    members = range(int(ends[2]), int(ends[3]) - 1, -1)
    words = [str(trace.word(f"{ends[1]}({i})", row)) for i in members]
    return ("" if all(len(one) == 1 for one in words) else " ").join(words)


def names(listed: str) -> list[str]:
    return re.split(", | and ", listed)


def xor(source: str, trace: Trace, row: int) -> str:
    """The bit that an expression such as ``NOT (R(3) XOR R(0))`` stands for."""
    inner = re.fullmatch(r"NOT \(?(.*?)\)?", source)
    terms = (
        inner[1] + ")" * (inner[1].count("(") > inner[1].count(")")) if inner else source
    ).split(" XOR ")
    bits = [word(trace, term, row) for term in terms]
    if "X" in bits:
        return "X"
    return str((bits.count("1") + bool(inner)) % 2)


def shifted(old: str, new: str, way: str, came: str, gone: str) -> bool:
    olds, news = old.split(), new.split()
    if len(olds) > 1:
        pairs = zip(olds, news, came, gone, strict=True)
        return all(shifted(*four[:2], way, *four[2:]) for four in pairs)
    if way == "right":
        return new == came + old[:-1] and gone == old[-1]
    return new == old[1:] + came and gone == old[0]


def decided(
    reason: tuple[str | None, str | None], trace: Trace, row: int, bit: str | None = None
) -> bool:
    """Whether the control that is named had those bits, and the one that decides so.

    Of a word that selects, no bit decides by itself.
    """
    name, said = reason
    single = name is not None and said is not None and len(said) == 1
    right = bit is None or not single or said == bit
    return name is None or (right and word(trace, name, row - 1) == said)


def stored(clause: str, trace: Trace, row: int) -> bool:
    """Whether one clause is so; False also for a form that is not known."""
    was, now = row - 1, row
    if f := re.fullmatch(rf"({NAME}) (?:took|loaded) ([01X ]+)", clause):
        return word(trace, f[1], now) == f[2]
    if f := re.fullmatch(rf"({NAME}) counted from ([01]+) to ([01]+)", clause):
        return [word(trace, f[1], was), word(trace, f[1], now)] == [f[2], f[3]]
    if f := re.fullmatch(rf"({NAME}) counted from or to a value that is not all known", clause):
        return "X" in word(trace, f[1], was) + word(trace, f[1], now)
    return False


def goes(clause: str, total: str, trace: Trace, row: int) -> bool:  # noqa: C901  # a form each
    """Whether a part of a result went where it is said; `total` is the sum of words, MSB left."""
    was, now = row - 1, row

    def arrived(name: str, bits: str, verb: str) -> bool:
        """``went to``: it is all that is there now; ``entered``: it stands at an end of it."""
        new = word(trace, name, now)
        if verb.startswith("went"):
            return new == bits
        ends = new.split()
        if len(ends) > 1:  # a digit enters several words, one bit each
            return bits in ("".join(one[0] for one in ends), "".join(one[-1] for one in ends))
        return new == bits or new.startswith(bits) or new.endswith(bits)

    if f := re.fullmatch(
        rf"(?:the )?sum (?:bits? )?([01X]+|all 0) (entered|went to) ({NAME})", clause
    ):
        width = len(word(trace, f[3], now).replace(" ", ""))
        return arrived(f[3], "0" * width if f[1] == "all 0" else f[1], f[2])
    if f := re.fullmatch(r"(?:carry|carries) ([01X]+|all 0) (?:was|were) stored in (.*)", clause):
        for one in names(f[2]):
            found = re.fullmatch(rf"({NAME})(?: \((unchanged|it held ([01X]+))\))?", one)
            if not found:
                return False
            old, new = word(trace, found[1], was), word(trace, found[1], now)
            bits = "0" * len(new) if f[1] == "all 0" else f[1]
            same = old == new and "X" not in old
            if new != bits or found[2] not in (None, "unchanged" if same else f"it held {old}"):
                return False
        return True
    if f := re.fullmatch(rf"bits (\d+)\.\.(\d+) (entered|went to) ({NAME})", clause):
        share = total[::-1][int(f[2]) : int(f[1]) + 1][::-1]
        return not total or arrived(f[4], share, f[3])
    if f := re.fullmatch(rf"bit (\d+) (entered|went to) ({NAME})", clause):
        return not total or arrived(f[3], total[::-1][int(f[1])], f[2])
    if f := re.fullmatch(rf"all of it (entered|went to) ({NAME})", clause):
        return not total or arrived(f[2], total, f[1])
    if f := re.fullmatch(rf"the sum (entered|went to) ({NAME})", clause):
        return not total or arrived(f[2], total[1:], f[1])
    if f := re.fullmatch(rf"carry 1 of ({NAME}) is lost", clause):
        return word(trace, f"{f[1]}.carry-out", was) == "1"
    adders = [p.name for p in trace.design.circuit.parts if p.kind.name.endswith("-adder")]
    last = word(trace, f"{adders[-1]}.carry-out", was) if adders else ""
    return clause == "carry 1 is lost" and last == "1"


def given(text: str, trace: Trace, row: int) -> bool:
    """The words before the sum, as they stood before the edge."""
    was = row - 1
    for name, bits in re.findall(rf"(?<![\w(])({NAME}) = ([01X]+)", text):
        if word(trace, name, was) != bits:
            return False
    for bits, name in re.findall(rf"(?:\b[ab]=)?([01X]+) \(({NAME}) inverted", text):
        plain = word(trace, name, was)
        if bits != plain.translate(str.maketrans("01", "10")):
            return False
    return True


def added(text: str, total: str) -> bool:
    """Whether the numbers in a text come to a total; of what is told by name alone, nothing."""
    plain = re.sub(rf" \({NAME} = [01] [^)]*\)", "", text)
    plain = re.sub(rf" \({NAME} inverted(?:, as {NAME} = 1)?\)", "", plain)
    parts = names(plain)
    numbers = [
        re.fullmatch(rf"(?:{NAME} = |[ab]=|(?:stored|incoming) carry )?([01]+)", p) for p in parts
    ]
    if any(number is None for number in numbers):
        return all(re.fullmatch(rf"{NAME}|(?:.* )?[01]+|", part) for part in parts)
    return sum(int(n[1], 2) for n in numbers if n) == int(total, 2)


def found(sentence: str, trace: Trace, row: int) -> bool:
    """A sentence about adders."""
    f = re.fullmatch(r"found (.*?)(?:, together ([01]+)|(, not all known))?; (.*)", sentence)
    if f:
        single = re.findall(r"sum ([01X]) entered|carry ([01X]) was", f[4]) if not f[2] else []
        if f[2] and not added(f[1], f[2]):
            return False
        bits = re.findall(r"(?:[ab]=|carry )([01X])", f[1])
        if single and not f[3] and "X" not in bits:
            ones = bits.count("1")
            for total, carry in single:
                if total and int(total) != ones % 2:
                    return False
                if carry and int(carry) != ones // 2:
                    return False
        return given(f[1], trace, row) and all(
            goes(one, f[2] or "", trace, row) for one in clauses(f[4])
        )
    f = re.fullmatch(
        r"(\d+) adders added (?:two bits|three bits|two or three bits) each,"
        r" (?:(none|\d+) with a carry|not all known); (.*)",
        sentence,
    )
    if not f:
        return False
    if f[2]:
        parts = [p.name for p in trace.design.circuit.parts if p.kind.name.endswith("-adder")]
        carries = sum(word(trace, f"{name}.carry-out", row - 1) == "1" for name in parts)
        if len(parts) == int(f[1]) and carries != (0 if f[2] == "none" else int(f[2])):
            return False
    return all(goes(one, "", trace, row) for one in clauses(f[3]))


def clauses(text: str) -> list[str]:
    return re.split(r", (?=sum |carry |carries |bits? \d|all of it|the sum)", text)


def right(sentence: str, trace: Trace, row: int) -> bool:  # noqa: C901  # a form each
    """Whether a sentence is so; False also for a form that is not known."""
    said = sentence.rstrip(".")
    if "found " in said or " adders added " in said:
        return found(re.sub(rf"^{NAME}(?: and \d+ more)?: ", "", said), trace, row)
    if f := re.fullmatch(rf"(.*) (kept|was|were) (?:its value|their values|cleared){REASON}", said):
        for name in names(f[1]):
            old, new = word(trace, name, row - 1), word(trace, name, row)
            if old != new if f[2] == "kept" else new.strip("0 "):
                return False
        return decided((f[3], f[4]), trace, row, None if f[2] == "kept" else "1")
    if f := re.fullmatch(rf"(.*) shifted (left|right) \((.*)\)(?:, as {CONTROL})?", said):
        if not decided((f[4], f[5]), trace, row):
            return False
        for name, move in zip(names(f[1]), f[3].split("; "), strict=True):
            m = re.fullmatch(r"([01X]+)(?: = (.*))? in, ([01X]+) out", move)
            if not m or (m[2] and xor(m[2], trace, row - 1) != m[1]):
                return False
            if not shifted(word(trace, name, row - 1), word(trace, name, row), f[2], m[1], m[3]):
                return False
        return True
    f = re.fullmatch(
        rf"({NAME}) shifted and became ([01X]+): the feedback ([01X]) = (.*) entered (.*)", said
    )
    if f:
        return word(trace, f[1], row) == f[2] and xor(f[4], trace, row - 1) == f[3]
    f = re.fullmatch(rf"What (.*) did is unknown{REASON}", said)
    if f:
        return decided((f[2], f[3]), trace, row, "X")
    f = re.fullmatch(rf"(.*? (?:loaded [01X ]+|took [01X ]+|counted .*?)){REASON}", said)
    if f and not decided((f[2], f[3]), trace, row, "1" if " loaded " in f[1] else None):
        return False
    return all(stored(one, trace, row) for one in names(f[1] if f else said))


def stored_words(trace: Trace) -> dict[str, tuple[int, ...]]:
    """The nets of each storage element, by the part's name without its index."""
    found: dict[str, tuple[int, ...]] = {}
    for flip_flop in trace.design.netlist.flip_flops:
        base = re.split(r"[.(]", flip_flop.name)[0]
        found[base] = (*found.get(base, ()), flip_flop.q)
    return found


def kept_but(trace: Trace, row: int, told_of: str) -> bool:
    """Whether all that stores kept its value, but for what a text names."""
    before, after = trace.rows[row - 1], trace.rows[row]
    return all(
        re.search(rf"(?<!\w){name}(?![\w])", told_of) or all(before[q] == after[q] for q in nets)
        for name, nets in stored_words(trace).items()
    )


def runs(design: Design, chance: random.Random) -> Iterator[Trace]:
    """Three operand sets; and a run from X in every flip-flop, as at power-up."""
    operands: dict[str, int] = {}
    for _ in range(3):
        operands = {one.name: one.number(chance.getrandbits(one.width)) for one in design.operands}
        yield reference.run(design, operands)
    unknown = [X] * len(design.netlist.flip_flops)
    fed = [
        {name: [rows_of[net] for net in nets] for name, nets in design.netlist.inputs.items()}
        for rows_of in reference.run(design, operands).rows
    ]
    made = [reference.settle(design.netlist, unknown, fed[0])]
    for inputs in fed[1:]:
        after = [reference.next_bit(f, made[-1]) for f in design.netlist.flip_flops]
        made.append(reference.settle(design.netlist, after, inputs))
    yield Trace(design, operands, tuple(made))


def sizes(name: str) -> Iterator[Design]:
    """The default size and another."""
    blueprint = catalogue.find(name)
    first = blueprint.design({})
    yield first
    parameter = blueprint.parameters[0].name
    yield blueprint.design(
        {parameter: first.parameters[parameter] + (3 if name != "digit-serial-adder" else 8)}
    )


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_each_number_of_a_sentence_is_the_traces_at_its_time(name: str) -> None:
    chance = random.Random(name)  # noqa: S311  # cases, no secrets
    for design in sizes(name):
        for trace in runs(design, chance):
            for row in range(1, trace.edges + 1):
                text = RESULT.sub("", told(trace, row))
                head = re.match(rf"Edge {row}(?:, phase [^:]+)?: ", text)
                assert head, text
                rest = text[head.end() :]
                if rest == "nothing is stored.":
                    assert not stored_words(trace)
                elif rest == "Every storage element kept its value.":
                    assert kept_but(trace, row, "")
                else:
                    told_of = rest.replace("The others kept their values.", "")
                    assert told_of == rest or kept_but(trace, row, told_of), (row, rest)
                    for sentence in re.split(r"(?<=\.) (?=[A-Z])", told_of.strip()):
                        assert right(sentence, trace, row), (row, sentence)
