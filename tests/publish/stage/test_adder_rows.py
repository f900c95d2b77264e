"""What a page says that adders add, held against the numbers of the trace."""

from __future__ import annotations

import random
import re
from typing import Final

import pytest

from edgewise import blueprint as blueprints
from edgewise import catalogue
from edgewise.engines import reference
from edgewise.trace import Trace
from tests.web.telling import told

TIDE: Final = """\
circuit: tide gauge
parameters: {n: 4 in 2..64}
inputs: {subtract: 1, go: 1, w: n}
nets: {c: n + 1, t: n}
join: {c(0): subtract}
parts:
  XB(i = 0..n-1): {part: xor, in: [w(i), subtract]}
  FA(i = 0..n-1):
    {part: full-adder, a: T(i), b: XB(i).out, carry-in: c(i), sum: t(i), carry-out: c(i+1)}
  T: {part: register, width: n, d: t, enable: go}
  V: {part: flip-flop, d: c(n)}
outputs: {level: T}
operands: {w: n, subtract: 1}
procedure:
  - {phase: gauge, edges: 4, go: 1}
  - {phase: rest, edges: 1, go: 0}
computes: {level: 4 * w * (1 - 2 * subtract) mod 2**n}
"""


def run(name: str, operands: dict[str, int], **parameters: int) -> Trace:
    made = blueprints.from_text(TIDE, "tide.yaml") if name == "tide" else catalogue.find(name)
    return reference.run(made.design(parameters), operands)


def chance_of(name: str, n: int, chance: random.Random) -> Trace:
    made = blueprints.from_text(TIDE, "tide.yaml") if name == "tide" else catalogue.find(name)
    design = made.design({"n": n})
    return reference.run(
        design, {o.name: o.number(chance.getrandbits(o.width)) for o in design.operands}
    )


def added(text: str, width: int) -> tuple[list[int], int, str]:
    """The numbers that a sentence says are added, their sum, and where it goes."""
    found = re.search(r": found (.*), together ([01]+); ([^.]*(?:\.\.[^.]*)*)\.", text)
    assert found, text
    numbers = re.findall(rf"(?<![01])[01]{{{width}}}(?![01])", found[1])
    numbers += re.findall(r"carry ([01])", found[1])
    return [int(number, 2) for number in numbers], int(found[2], 2), found[3]


@pytest.mark.parametrize("name", ["shift-add-multiplier", "tide"])
@pytest.mark.parametrize("n", [3, 5, 8, 16])
def test_a_row_of_adders_is_told_as_words(name: str, n: int) -> None:
    chance = random.Random(n)  # noqa: S311  # cases, no secrets
    rows = 0
    for _ in range(20):
        trace = chance_of(name, n, chance)
        for k in range(1, trace.edges + 1):
            text = told(trace, k)
            if "together" not in text:
                continue
            rows += 1
            addends, total, goes = added(text, n)
            assert sum(addends) == total
            for word, value in re.findall(r"(\w+(?:\(0\))?) = ([01]+)(?! \*)", text):
                assert str(trace.word(word, k - 1)) == value
            if held_back := re.search(r"([01]+) \(Q\(0\) = 0 kept M back\)", text):
                assert not int(held_back[1], 2)
            if inverted := re.search(r"([01]+) \(w inverted, as subtract = 1\)", text):
                assert int(inverted[1], 2) == (1 << n) - 1 - trace.word("w", k - 1).value
            arrived(goes, total, n, trace, k)
    assert rows > 20


def arrived(goes: str, total: int, n: int, trace: Trace, row: int) -> None:
    """Check each part of a sum where it is said to go."""
    shares = goes.split(", ")
    assert 1 <= len(shares) <= 2
    for share in shares:
        if found := re.fullmatch(r"bits (\d+)\.\.(\d+) went to (\w+)", share):
            width = int(found[1]) - int(found[2]) + 1
            assert trace.word(found[3], row).value == total >> int(found[2]) & (1 << width) - 1
        elif found := re.fullmatch(r"bit (\d+) entered (\w+)", share):
            assert trace.word(found[2], row).value >> n - 1 == total >> int(found[1]) & 1
        elif found := re.fullmatch(r"sum ([01]+) went to (\w+)", share):
            assert trace.word(found[2], row).value == int(found[1], 2) == total % (1 << n)
        else:
            found = re.fullmatch(
                r"carry ([01]) was stored in (\w+) \((unchanged|it held [01X])\)", share
            )
            assert found
            assert trace.word(found[2], row).value == int(found[1]) == total >> n
            old, new = str(trace.word(found[2], row - 1)), found[1]
            assert found[3] == ("unchanged" if old == new else f"it held {old}")


def test_an_added_word_is_told_with_what_lets_it_through() -> None:
    trace = run("shift-add-multiplier", {"a": 11, "b": 5}, n=4)
    assert [told(trace, k) for k in range(6)] == [
        "At the start: M = 0000, H = 0000, Q = 0000.",
        "Edge 1, phase load: M took 1011 (load = 1). Q loaded 0101 (load = 1). H was cleared"
        " (load = 1).",
        "Edge 2, phase multiply: found H = 0000 and M = 1011 (Q(0) = 1 let it through), together"
        " 01011; bits 4..1 went to H, bit 0 entered Q. M kept its value (load = 0).",
        "Edge 3, phase multiply: found H = 0101 and 0000 (Q(0) = 0 kept M back), together 00101;"
        " bits 4..1 went to H, bit 0 entered Q. M kept its value (load = 0).",
        "Edge 4, phase multiply: found H = 0010 and M = 1011 (Q(0) = 1 let it through), together"
        " 01101; bits 4..1 went to H, bit 0 entered Q. M kept its value (load = 0).",
        "Edge 5, phase multiply: found H = 0110 and 0000 (Q(0) = 0 kept M back), together 00110;"
        " bits 4..1 went to H, bit 0 entered Q. M kept its value (load = 0). product reads"
        " 00110111, which is 55 = a · b.",
    ]


def test_an_inverted_word_and_an_incoming_carry_are_told() -> None:
    trace = run("tide", {"w": 3, "subtract": 1}, n=4)
    assert told(trace, 2) == (
        "Edge 2, phase gauge: found T = 1101, 1100 (w inverted, as subtract = 1) and"
        " incoming carry 1, together 11010; sum 1010 went to T, carry 1 was stored in V (it held"
        " 0)."
    )
    assert told(trace, 5) == (
        "Edge 5, phase rest: found T = 0100, 1100 (w inverted, as subtract = 1) and"
        " incoming carry 1, together 10001; carry 1 was stored in V (unchanged). T kept its value"
        " (go = 0). level reads 0100, which is 4 = the remainder of (4 · w · (1 − 2 · subtract)) ÷"
        " 2ⁿ."
    )


def test_the_complement_of_a_single_bit_is_told() -> None:
    trace = run("serial-subtractor", {"a": 1, "b": 2}, n=2)
    assert told(trace, 3) == (
        "Edge 3, phase subtract: found a=1, b=1 (B(0) inverted) and stored carry 1; sum 1"
        " entered S, carry 1 was stored in C (unchanged). A and B shifted right (X in, 1 out; X in,"
        " 0 out)."
    )
    trace = run("serial-adder-subtractor", {"a": 1, "b": 2, "subtract": 1}, n=2)
    assert "b=1 (B(0) inverted, as subtract = 1) and stored carry 1" in told(trace, 3)


def test_a_carry_that_nothing_keeps_is_lost() -> None:
    trace = run("carry-save-accumulator", {"w(1)": 3, "w(2)": 3}, n=2, x=2)
    for k in range(1, trace.edges + 1):
        over = trace.word("FA(1).carry-out", k - 1).value
        assert ("carry 1 of FA(1) is lost" in told(trace, k)) == bool(over)
    assert "carry 1 of FA(1) is lost" in told(trace, 2)
    # The last edge of a word clears the carry flip-flop.
    trace = run("serial-accumulator-cleared", {"w(1)": 3, "w(2)": 3, "w(3)": 1}, n=2, x=3, m=2)
    lost = [k for k in range(1, trace.edges + 1) if "carry 1 is lost" in told(trace, k)]
    assert lost
    for k in lost:
        assert trace.word("FA.carry-out", k - 1).value == 1
        assert trace.word("C", k).value == 0
        assert "C was cleared" in told(trace, k)


def test_equal_digits_are_told_together() -> None:
    trace = run("digit-serial-adder", {"a": 13, "b": 6}, n=4, d=2)
    assert [told(trace, k) for k in range(3)] == [
        "At the start: A(1..0) = 00 00, B(1..0) = 00 00, C = 0, S(1..0) = 00 00.",
        "Edge 1, phase load: found 00, 00 and stored carry 0, together 000; sum 00 entered"
        " S(1..0). A(1..0) loaded 10 11 and B(1..0) loaded 01 10 (load = 1). C was cleared (load ="
        " 1).",
        "Edge 2, phase add: found 01, 10 and stored carry 0, together 011; sum 11 entered"
        " S(1..0), carry 0 was stored in C (unchanged). A(1..0) and B(1..0) shifted right (00 in,"
        " 01 out; 00 in, 10 out).",
    ]


@pytest.mark.parametrize("name", ["carry-save-accumulator", "bit-serial-multiplier"])
@pytest.mark.parametrize("n", [2, 3, 7, 12])
def test_adders_that_pass_no_carry_on_are_summed_up(name: str, n: int) -> None:
    trace = chance_of(name, n, random.Random(n))  # noqa: S311  # cases, no secrets
    for k in range(1, trace.edges + 1):
        text = told(trace, k)
        carries = sum(trace.word(f"FA({i}).carry-out", k - 1).value for i in range(n))
        assert f"{n} adders added three bits each, {carries or 'none'} with a carry;" in text
        for bits, base, high, low in re.findall(
            r"([01]+) (?:entered|were stored in) (\w)\((\d+)\.\.(\d+)\)", text
        ):
            members = range(int(high), int(low) - 1, -1)
            assert "".join(str(trace.word(f"{base}({i})", k)) for i in members) == bits
