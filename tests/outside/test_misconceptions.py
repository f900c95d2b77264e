"""Wrong procedures, against answers worked by hand and against procedures told in words."""

from __future__ import annotations

from itertools import product

import pytest

from edgewise import blueprint, catalogue
from edgewise.design import Design
from edgewise.study.misconceptions import registry

FOUR_STAGES = """
circuit: four stages that shift right
inputs: {x: 1}
parts: {Q: {part: shift-register, width: 4, in: x, start: 11}}
outputs: {word: Q}
procedure: [{phase: shift, edges: 1, x: 0}]
computes: {word: 5}
"""
# REFERENCES 7.3: a 4-stage right shift, Q = 1011, serial-in 0, one edge; the right answer is
# 0101. Answers worked by hand from the definitions of the wrong procedures.
ONE_EDGE = {
    "one-after-another": "0000",
    "wrong-end": "0110",
    "re-enters": "1101",
    "one-edge-early": "1011",
    "one-edge-late": "0010",
}


def answer(misconception: str, design: Design, **operands: int) -> dict[str, str]:
    """What a believer in a misconception answers."""
    changed = registry.find(misconception).of(design)
    assert changed is not None
    return {name: str(word) for name, word in registry.answers(changed, operands).items()}


def four_stages() -> Design:
    return blueprint.from_text(FOUR_STAGES, "four.yaml").design()


def test_the_right_answer_to_the_worked_item() -> None:
    assert str(registry.answers(four_stages(), {})["word"]) == "0101"


@pytest.mark.parametrize(("misconception", "word"), ONE_EDGE.items())
def test_one_edge_of_a_right_shift(misconception: str, word: str) -> None:
    assert answer(misconception, four_stages()) == {"word": word}


@pytest.mark.parametrize("name", ["serial-adder", "ripple-carry-adder-without-carry-in"])
def test_the_carry_left_out(name: str) -> None:
    """REFERENCES 7.3, carry-drop: sum = a xor b, 0110 + 0011 -> 0101."""
    assert answer("carry-dropped", catalogue.design(name, n=4), a=0b0110, b=0b0011)["sum"] == "0101"


def test_one_and_one_make_one() -> None:
    """REFERENCES 7.3, or-for-xor: 1 + 1 = 1."""
    assert answer("or-for-sum", catalogue.design("serial-adder", n=1), a=1, b=1)["sum"] == "1"


def never_reset(a: int, b: int, base: int, places: int, most: int | None) -> int:
    """Column addition by one who never resets the carry register.

    J. S. Brown and R. R. Burton, "Diagnostic Models for Procedural Bugs in Basic Mathematical
    Skills", Cognitive Science 2(2), 1978: what is carried is added to what the register holds
    already, so that carries add up. `most` is what the register can hold (None: anything).
    """
    total = carry = 0
    for place in range(places):
        column = a // base**place % base + b // base**place % base + carry
        total += column % base * base**place
        carry += column // base
        carry = carry if most is None else min(carry, most)
    return total


def test_the_decimal_twin_adds_up_its_carries() -> None:
    """The procedure as told, in decimal: worked by hand from its description.

    989 + 52: 9 + 2 = 11, write 1, hold 1; 8 + 5 + 1 = 14, write 4, hold 2; 9 + 0 + 2 = 11.
    """
    assert never_reset(989, 52, 10, 3, None) == 141
    assert never_reset(328, 917, 10, 3, None) == 345  # 15, hold 1; 4; 13 with the 1 held
    assert never_reset(22, 43, 10, 2, None) == 65  # without a carry, the idea does no harm


@pytest.mark.parametrize("n", [1, 2, 3, 4, 5])
def test_a_carry_flip_flop_that_stays_set(n: int) -> None:
    """The same procedure to base 2, its register one bit: all pairs, of wide words each third."""
    design = catalogue.design("serial-adder", n=n)
    step = 1 if n < 4 else 3
    for a, b in product(range(0, 1 << n, step), range(1 << n)):
        wanted = f"{never_reset(a, b, 2, n, 1):0{n}b}"
        assert answer("carry-stays-set", design, a=a, b=b)["sum"] == wanted, (a, b)


def test_a_carry_left_between_words() -> None:
    """The second word is added with the carry that the first two left: plain Python sums."""
    design = catalogue.design("serial-accumulator-cleared", n=3, x=3)
    for w in product(range(0, 8, 3), (2, 5, 7), range(1, 8, 2)):
        first = w[0] + w[1]  # A starts at 0, so the first addition leaves no carry
        total = first % 8 + w[2] + first // 8
        operands = {f"w({i + 1})": value for i, value in enumerate(w)}
        found = answer("carry-kept-between-words", design, **operands)["sum"]
        assert found == f"{total % 8:03b}", w


def one_place_too_far(a: int, b: int, n: int) -> int:
    """Column addition in which each carry is written above the column after the next."""
    waiting, total = [0] * (n + 2), 0
    for place in range(n):
        column = (a >> place & 1) + (b >> place & 1) + waiting[place]
        total += column % 2 << place
        waiting[place + 2] = column // 2
    return total


@pytest.mark.parametrize("name", ["serial-adder", "ripple-carry-adder-without-carry-in"])
def test_a_carry_one_place_too_far(name: str) -> None:
    design = catalogue.design(name, n=4)
    for a, b in product(range(0, 16, 3), range(16)):
        found = answer("carry-too-far", design, a=a, b=b)["sum"]
        assert found == f"{one_place_too_far(a, b, 4):04b}", (a, b)


def test_words_fed_from_the_wrong_end() -> None:
    """REFERENCES 7.3, msb-first: the mirrored words are added."""
    design = catalogue.design("serial-adder", n=4)
    for a, b in product(range(0, 16, 3), range(16)):
        mirrored = int(f"{a:04b}"[::-1], 2) + int(f"{b:04b}"[::-1], 2)
        assert answer("msb-first", design, a=a, b=b)["sum"] == f"{mirrored % 16:04b}", (a, b)


def test_x_taken_as_a_bit() -> None:
    """REFERENCES 7.3, x-as-0: only seen where an X reaches the answer."""
    text = FOUR_STAGES.replace("start: 11", "start: X").replace("word: 5", "word: 0")
    design = blueprint.from_text(text, "four.yaml").design()
    assert str(registry.answers(design, {})["word"]) == "0XXX"
    assert answer("unknown-as-0", design) == {"word": "0000"}
    assert answer("unknown-as-1", design) == {"word": "0111"}
