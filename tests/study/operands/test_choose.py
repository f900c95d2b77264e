from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.terms import TRUE, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import EdgewiseError
from edgewise.study.coverage.measured import of
from edgewise.study.misconceptions import registry
from edgewise.study.operands import choose as study
from edgewise.study.operands import legibility, lexicographic
from edgewise.study.operands.choose import choose, example, joined
from edgewise.study.operands.report import Advice
from edgewise.study.operands.requirements import Wish
from tests.conftest import Golden


def serial(n: int) -> Design:
    return catalogue.design("serial-adder", n=n)


def chosen(advice: Advice) -> list[tuple[int, ...]]:
    return [tuple(one.operands.values()) for one in advice.examples]


# ---------------------------------------------------------------------- ranking


@given(st.lists(st.sets(st.integers(0, 15)), min_size=1, max_size=5), st.integers(1, 16))
def test_ranking_equals_sorting(planes: list[set[int]], most: int) -> None:
    terms, space = Terms(), Space((("a", 4),))
    bits = [terms.variable(Variable("a", i)) for i in range(4)]

    def is_one_of(numbers: set[int]) -> int:
        return terms.any_of(
            terms.all_of(bit ^ 1 ^ (number >> i & 1) for i, bit in enumerate(bits))
            for number in numbers
        )

    wanted, *rest = planes
    found = lexicographic.best(terms, is_one_of(wanted), [is_one_of(p) for p in rest], space, most)
    by_hand = sorted(wanted, key=lambda n: (*(n not in p for p in rest), n))
    assert [r.number for r in found] == by_hand[:most]


def test_ranking_in_stretches(monkeypatch: pytest.MonkeyPatch) -> None:
    terms, space = Terms(), Space((("a", 12),))
    bits = [terms.variable(Variable("a", i)) for i in range(12)]
    planes = lexicographic.many(terms, bits)
    whole = lexicographic.best(terms, bits[0] ^ 1, planes, space, 9)
    each = lexicographic.best_each(terms, [bits[3], bits[11] ^ 1], planes, space)
    told: list[tuple[int, int]] = []
    monkeypatch.setattr(lexicographic, "STRETCH", 1024)
    assert (
        lexicographic.best(terms, bits[0] ^ 1, planes, space, 9, lambda *p: told.append(p)) == whole
    )
    assert lexicographic.best_each(terms, [bits[3], bits[11] ^ 1], planes, space) == each
    assert each == ((4095, 2048), (2047, 2048))
    assert told == [(1024, 4096), (2048, 4096), (3072, 4096), (4096, 4096)]


def test_readable_numbers_by_hand() -> None:
    def special(x: int) -> bool:
        return x in (0, 1, 2, 4, 8, 15)

    def cost(pair: tuple[int, int]) -> tuple[int, int, int]:
        a, b = pair
        return special(a) + special(b) + (a == b), (a > 9) + (b > 9), a + b

    terms, space = Terms(), Space((("a", 4), ("b", 4)))
    found = lexicographic.best(terms, TRUE, legibility.planes(terms, space), space, 256)
    pairs = [(r.number >> 4, r.number & 15) for r in found]
    assert pairs == sorted(pairs, key=lambda pair: (cost(pair), pair))


# ---------------------------------------------------------------------- choosing


def teaching(design: Design, operands: dict[str, int]) -> tuple[int, int, int]:
    """Rows met, kinds of carry events, misconceptions told: run by run on the reference engine."""
    shown = of(reference.run(design, operands))
    assert shown.carries
    events = [shown.carries.generated, shown.carries.propagated, shown.carries.killed]
    truth = registry.answers(design, operands)
    wrong = [registry.answers(other, operands) != truth for _, other in registry.applicable(design)]
    return len(shown.rows), sum(map(bool, events)), sum(wrong)


@pytest.mark.parametrize("name", ["serial-adder", "ripple-carry-adder-without-carry-in"])
def test_the_best_are_the_best_of_all(name: str) -> None:
    design = catalogue.design(name, n=3)
    space = Space.of(design)
    best = max(teaching(design, space.decode(number)) for number in range(space.size))
    advice = choose(design, most=1)
    assert teaching(design, dict(advice.examples[0].operands)) == best
    assert advice.exhaustive
    assert advice.sets == 64


def test_what_is_said_of_the_best(golden: Golden) -> None:
    lines = []
    for name, n in (("serial-adder", 4), ("serial-adder", 8), ("ripple-carry-adder", 4)):
        book = catalogue.find(name)
        advice = choose(book.design({"n": n}), blueprint=book)
        lines += [*advice.sentences(), *(f"| {' | '.join(line)}" for line in advice.table())]
        for one in advice.examples:
            lines += [one.title, *(f"  {sentence}" for sentence in advice.about(one))]
    golden("study-choose.txt", "\n".join(lines) + "\n")


def test_the_least_width_that_shows_all_rows() -> None:
    """Eight rows need eight places: each place of a sum is one row."""
    book = catalogue.find("serial-adder")
    advice = choose(book.design({"n": 5}), blueprint=book, most=1)
    assert advice.least is not None
    assert (advice.least.parameter, advice.least.value) == ("n", 8)
    assert len(of(reference.run(serial(8), advice.least.operands)).rows) == 8
    assert choose(serial(8), most=1).most_rows == 8


def test_a_seed_gives_the_same_examples_again() -> None:
    first, again, other = (chosen(choose(serial(6), seed=seed)) for seed in (1, 1, 2))
    assert first == again != other
    assert len({frozenset(pair) for pair in first}) == 3
    plain = choose(serial(6), most=1).examples[0]
    assert all(len(choose(serial(6), seed=7).examples[i].wrong) == len(plain.wrong) for i in (0, 1))


@pytest.mark.parametrize(
    ("wish", "holds"),
    [
        (Wish({"a": 9}), lambda a, _: a == 9),
        (Wish(sum="fits"), lambda a, b: a + b < 32),
        (Wish(sum="overflows"), lambda a, b: a + b >= 32),
        (Wish(low=10, high=20), lambda a, b: {a, b} <= set(range(10, 21))),
        (Wish(low=20), lambda a, b: min(a, b) >= 20),
        (Wish(features=("no carry",)), lambda a, b: a & b == 0),
        (Wish(features=("row 111",)), lambda a, b: a & b & (a + b ^ a ^ b)),
        (Wish(features=("misconception carry-dropped",)), lambda a, b: a + b != a ^ b),
    ],
    ids=lambda value: str(value) if isinstance(value, Wish) else "",
)
def test_wishes_are_kept(wish: Wish, holds: Any) -> None:
    for pair in chosen(choose(serial(5), wish)):
        assert holds(*pair), pair


@pytest.mark.parametrize("places", [0, 1, 3, 5])
def test_a_wanted_carry_chain(places: int) -> None:
    for one in choose(serial(5), Wish(features=(f"carry chain {places} places",))).examples:
        assert one.coverage.carries is not None
        assert one.coverage.carries.longest >= places


@pytest.mark.parametrize(
    ("name", "wish", "message"),
    [
        (
            "serial-adder",
            Wish({"c": 4, "a": 99}, ("carry chains 4", "misconception carry-drop")),
            "there is no operand c; there is: a, b\n"
            "operand a is 99, which is too large; the range is 0..15 in 4 bits\n"
            "carry chains 4 is not a feature; did you mean carry chain 4?\n"
            "misconception carry-drop: none of that name applies here; did you mean carry-dropped?",
        ),
        (
            "serial-adder",
            Wish(features=("carry chain 4",), sum="fits"),
            "there are no operands of serial-adder with carry chain 4, a sum that fits; the longest"
            " carry chain is then 3 places",
        ),
        (
            "serial-adder",
            Wish(features=("all rows",), high=9),
            "there are no operands of serial-adder with all rows, operands up to 9; ask for less",
        ),
        (
            "serial-in-parallel-out",
            Wish(features=("no carry", "all rows", "row 000", "carry chain 2"), sum="fits"),
            "\n".join(
                [
                    f"{feature}: the design has no full adder whose sum gets into the answer"
                    for feature in ("no carry", "all rows", "row 000", "carry chain")
                ]
                + ["serial-in-parallel-out has no output named sum, so none that fits"]
            ),
        ),
        ("ring-counter", Wish(), "ring-counter has no operands to choose"),
    ],
)
def test_wishes_that_cannot_be_kept(name: str, wish: Wish, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        choose(catalogue.design(name, n=4), wish)
    assert "\n".join(str(one) for one in wrong.value.parts()) == message


def test_a_wish_in_words() -> None:
    assert str(Wish()) == ""
    assert str(Wish(low=3)) == "operands from 3"
    assert str(Wish(low=3, high=8, sum="overflows")) == "a sum that overflows, operands 3 to 8"


def test_the_solver_finds_what_looking_at_all_finds(monkeypatch: pytest.MonkeyPatch) -> None:
    looked = choose(serial(5), most=1)
    monkeypatch.setattr(study, "EXHAUSTIVE", 0)
    solved = choose(serial(5), most=2)
    assert not solved.exhaustive
    assert teaching(serial(5), dict(solved.examples[0].operands)) == teaching(
        serial(5), dict(looked.examples[0].operands)
    )
    assert (solved.never_detected, solved.never_apart) == (
        looked.never_detected,
        looked.never_apart,
    )
    assert solved.sentences()[0] == (
        "serial-adder at n = 5 has 1,024 operand sets, too many to look at each: a solver found"
        " these, and better ones are not ruled out."
    )
    with pytest.raises(EdgewiseError) as wrong:
        choose(serial(5), Wish(features=("carry chain 6",)))
    assert str(wrong.value) == (
        "the solver found no operands of serial-adder with carry chain 6; the longest carry chain"
        " is then 5 places"
    )


def test_a_space_too_large_to_look_at() -> None:
    advice = choose(serial(16), Wish(features=("carry chain 9",)), most=1)
    (one,) = advice.examples
    assert not advice.exhaustive
    assert one.coverage.carries is not None
    assert one.coverage.carries.longest >= 9


def test_data_is_plain() -> None:
    advice = choose(serial(4), blueprint=catalogue.find("serial-adder"))
    data = json.loads(json.dumps(advice.data()))
    assert data["examples"][0]["operands"] == {"a": 3, "b": 7}
    assert data["least width"]["n"] == 8


def test_misconceptions_that_agree() -> None:
    one = example(serial(4), {"a": 0, "b": 0})
    assert one.wrong["one-edge-late"] == "sum X000, carry X"
    assert "carry-dropped" in one.hidden
    assert joined([("a", "b"), ("b", "c"), ("d", "e")]) == (("a", "b", "c"), ("d", "e"))
