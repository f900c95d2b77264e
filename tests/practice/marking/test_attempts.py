"""Codes of attempts: made here by the description of their fields, read, held to the run, told.

What follows is computed by hand in `tests.outside.serial_addition`, which runs nothing of ours.
"""

from __future__ import annotations

import random
import zlib
from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice import identity
from edgewise.practice.marking import attempt_code, attempt_folder, attempts
from edgewise.practice.marking.attempts import Step, Tried
from edgewise.practice.marking.diagnosis import Status
from tests.outside.serial_addition import Writer
from tests.practice.marking.classes import adder

N = 6
DESIGN = adder(N)
LESSON = identity.short(DESIGN)
PAGE = (Tried(DESIGN), Tried(adder(4)))
A, B = 22, 43


def rows(*bugs: str) -> list[str]:
    """Each row as it is asked for: A, B, C, S; the first is that after edge 1."""
    table = Writer(frozenset(bugs)).table(N, A, B, random.Random(1))  # noqa: S311  # no secrets
    return ["".join(row[name] for name in "ABCS") for row in table]


RIGHT = rows()


def packed(bits: str) -> str:
    number = 1
    for bit in bits:
        number = 4 * number + "01X-".index(bit)
    return attempt_code.written(number)


def code(*fields: str, lesson: str = LESSON) -> str:
    told = ".".join(["ew1", lesson, *fields])
    return f"{told}.{attempt_code.written(zlib.crc32(told.encode()))}"


RUN = f"r{N}_m_17_d"  # 22 and 43 in base 36


def fields(shown: int, *typed: str) -> list[str]:
    return [RUN, f"b{attempt_code.written(shown)}", *typed]


def right(row: int) -> str:
    return f"s{packed(RIGHT[row - 1])}"


def steps(*told: str) -> tuple[Step, ...]:
    return attempts.replayed(attempt_code.read(code(*told), LESSON), PAGE)


def test_right_rows_fit_what_is_computed_by_hand() -> None:
    found = steps(*fields(6, *map(right, range(7, 13))))
    assert [step.follows for step in found] == RIGHT[6:]
    assert [step.true for step in found] == RIGHT[6:]
    assert attempts.recognised(found) == [None] * 6
    told = attempts.told(found)
    assert list(told) == ["e7", "e8", "e9", "e10", "e11", "e12"]
    assert [attempts.score(name, cells).method for name, cells in told.items()] == [1] * 6
    (one,) = attempts.diagnosed([found])
    assert (one.status, one.read) == (Status.RIGHT, 24)


def dropped(row: int) -> str:
    """The row of one who forgets the carry, from the right row before it."""
    a, b, _, s = (RIGHT[row - 2][i:j] for i, j in ((0, 6), (6, 12), (12, 13), (13, 19)))
    bit = str(int(a[-1]) ^ int(b[-1]))
    return f"X{a[:-1]}X{b[:-1]}{int(a[-1]) & int(b[-1])}{bit}{s[:-1]}"


def recognised(row: int, tries: str) -> str:
    """What the page adds to a row: the ideas that give it."""
    (given,) = attempts.believed(steps(*fields(row - 1, f"f{packed(tries)}")))
    found = [number for number, text in enumerate(given.values()) if text == tries]
    return f"_i{'-'.join(map(attempt_code.written, found))}" if found else ""


def test_the_carry_forgotten_row_by_row_is_told() -> None:
    typed = []
    for row in range(7, 13):
        tries = dropped(row)
        wrong = tries != RIGHT[row - 1]
        typed.append(f"c{packed(tries)}{recognised(row, tries)}" if wrong else right(row))
    found = steps(*fields(6, *typed))
    assert attempts.recognised(found) == [None] * 6
    (one,) = attempts.diagnosed([found])
    assert (one.status, one.names) == (Status.MISCONCEPTION, (("carry-dropped",),))


def test_what_follows_an_own_row_counts_for_the_method() -> None:
    carry = "1" if RIGHT[6][12] == "0" else "0"
    own = f"o{packed(RIGHT[6][:12] + carry + RIGHT[6][13:])}"
    own += own.replace("o", "_", 1)
    (_, left) = steps(*fields(6, own, f"u{packed('-' * 19)}"))
    assert left.follows != left.true
    again = steps(*fields(6, own, f"s{packed(left.follows)}"))
    score = attempts.score("e8", attempts.told(again)["e8"])
    assert score.method == 1
    assert score.right < score.followed
    (one,) = attempts.diagnosed([again])
    assert (one.status, one.wrong, one.read) == (Status.CARELESS, 1, 8)


def test_the_first_try_at_an_edge_counts() -> None:
    wrong = f"c{packed(dropped(9))}"
    found = steps(*fields(8, wrong), "b8", right(9))
    assert attempts.score("e9", attempts.told(found)["e9"]).method < 1
    (one,) = attempts.diagnosed([found])
    assert one.read == 4


MADE_UP = {
    "ew1": "this is no code of attempts, or only a part of one",
    "ew1." + "a" * 70_000: "this is no code of attempts, or only a part of one",
    code(*fields(6, right(7))).replace("b6", "b7"): (
        "the code is damaged or changed: its checksum does not fit"
    ),
    code(*fields(6, right(7)), lesson="00000000"): (
        "the code is of another lesson, or of the lesson before it was changed"
    ),
    code(*fields(6, "q1")): "the code was not made by a page: a field in it can't be read",
    code("b6", right(7)): "the code was not made by a page: a field in it can't be read",
    code(*fields(6, "s2")): "the code was not made by a page: a field in it can't be read",
    code("r7_1_1_d", "b6", right(7)): (
        "the code does not fit the run: the page has no run with its numbers"
    ),
    code("r6_m_1s_d", "b6", right(7)): (
        "the code does not fit the run: the page has no run with its numbers"
    ),
    code(*fields(12, right(12))): (
        "the code does not fit the run: it has a row 13; the run ends with row 12"
    ),
    code(*fields(6, "s5")): (
        "the code does not fit the run: row 7 has 1 bits in it and 19 in the run"
    ),
    code(*fields(6, right(8))): (
        "the code does not fit the run: row 7 is said to be right at the first try, and is not"
    ),
    code(*fields(6, f"c{packed(RIGHT[6])}")): (
        "the code does not fit the run: row 7 is said to be wrong at first, and is not"
    ),
    code(*fields(6, f"s{packed('-' + RIGHT[6][1:])}")): (
        "the code does not fit the run: row 7 was ended with a bit that was never filled in"
    ),
    code(*fields(6, f"o{packed(RIGHT[6])}_{packed(RIGHT[6])}")): (
        "the code does not fit the run: row 7 is said to be the learner's own, and is not"
    ),
    code(*fields(6, f"u{packed(RIGHT[6])}", right(8))): (
        "the code does not fit the run: row 7 was left, and yet gone on from"
    ),
}


@pytest.mark.parametrize("made_up", MADE_UP, ids=range(len(MADE_UP)))
def test_a_code_that_does_not_fit_is_told_why(made_up: str) -> None:
    with pytest.raises(EdgewiseError) as told:
        attempts.replayed(attempt_code.read(made_up, LESSON), PAGE)
    assert str(told.value) == MADE_UP[made_up]


def test_a_mangled_code_is_never_taken_for_another() -> None:
    """Fuzz, with a fixed seed: every change of a letter is told, none ends in a traceback."""
    chance = random.Random(16)  # noqa: S311  # no secrets
    whole = code(*fields(6, *map(right, range(7, 13))))
    letters = "0123456789abcdefghijklmnopqrstuvwxyz._-!\u00e9"
    for _ in range(2_000):
        at, many = chance.randrange(len(whole)), chance.randrange(1, 4)
        mangled = whole[:at] + "".join(chance.choices(letters, k=many)) + whole[at + many :]
        if mangled != whole:
            with pytest.raises(EdgewiseError):
                attempt_code.read(mangled, LESSON)


def test_fields_that_nobody_made_are_told_whatever_they_are() -> None:
    """With a checksum that fits: whoever reads the page's script can make one."""
    chance = random.Random(17)  # noqa: S311  # no secrets
    for _ in range(2_000):
        pieces = chance.choices(
            [
                RUN,
                "b6",
                "b11",
                right(7),
                right(12),
                "i1",
                "c1_i0",
                "o1_1",
                "u1",
                "rd",
                "zz",
                "b" * 9,
            ],
            k=chance.randrange(1, 9),
        )
        try:
            found = attempts.replayed(attempt_code.read(code(*pieces), LESSON), PAGE)
        except EdgewiseError:
            continue
        assert all(step.typed.end == "right" for step in found)


def test_a_folder_with_all_that_may_be_in_it(tmp_path: Path) -> None:
    good, other = code(*fields(6, right(7))), code(*fields(7, right(8)))
    ideas = code(*fields(6, f"c{packed(dropped(9))}_i0"))
    (tmp_path / "Ada.txt").write_text(f"Here it is:\n{good}\n{other}\n", "utf-8")
    (tmp_path / "Bo.txt").write_text(good, "utf-16")
    (tmp_path / "Cy.txt").write_text("nothing", "utf-8")
    (tmp_path / "Di.txt").write_text(f"{good[:-1]}\n{other}", "utf-8")
    (tmp_path / "Ed.txt").write_text(ideas, "utf-8")
    (tmp_path / "Flo.txt").write_text("x" * 1_000_001, "utf-8")
    (tmp_path / "notes.md").write_text(good, "utf-8")
    found = {one.name: one for one in attempt_folder.read(tmp_path, LESSON, PAGE)}
    assert [(name, len(one.steps)) for name, one in found.items()] == [
        ("Ada", 2), ("Bo", 1), ("Cy", 0), ("Di", 1), ("Ed", 0), ("Flo", 0)
    ]  # fmt: skip
    assert {name: one.faults for name, one in found.items()} == {
        "Ada": (),
        "Bo": ("the same code as in row 2",),
        "Cy": ("there is no code in the file",),
        "Di": (
            "the code is damaged or changed: its checksum does not fit",
            "the same code as in row 2",
        ),
        "Ed": (
            "the code does not fit the run: row 7 does not show the ideas that were recognised"
            " in it",
        ),
        "Flo": ("the file is larger than 1,000,000 bytes",),
    }


def test_folders_that_are_refused(tmp_path: Path) -> None:
    with pytest.raises(EdgewiseError) as told:
        attempt_folder.read(tmp_path, LESSON, PAGE)
    assert str(told.value) == (
        f"{tmp_path}: there is no .txt file in this folder; expected one for each learner, with"
        " the code that the page gave"
    )
    with pytest.raises(EdgewiseError) as told:
        attempt_folder.read(tmp_path / "none", LESSON, PAGE)
    assert str(told.value) == f"{tmp_path / 'none'}: can't be read: No such file or directory"
