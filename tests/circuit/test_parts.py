"""Each part against a plain-Python model of it, and what is said of a part used wrongly."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.bits import Bit, Word, X
from edgewise.circuit import parts
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit
from edgewise.errors import CircuitError
from tests.circuit.playing import Row, alone, play
from tests.strategies import bits, known_bits

Draw = Callable[[st.SearchStrategy[Any]], Any]


@st.composite
def rows_of(
    draw: Draw, widths: Mapping[str, int], some: st.SearchStrategy[Bit] = known_bits
) -> list[dict[str, list[Bit]]]:
    """Up to twelve rows of inputs for `alone`."""
    row = st.fixed_dictionaries(
        {f"x_{port}": st.lists(some, min_size=w, max_size=w) for port, w in widths.items()}
    )
    rows: list[dict[str, list[Bit]]] = draw(st.lists(row, min_size=1, max_size=12))
    return rows


def at(row: Row, port: str, otherwise: int) -> int:
    """The number at a port in a row; `otherwise` where the port is not there."""
    if f"x_{port}" not in row:
        return otherwise
    return Word.from_bits(row[f"x_{port}"]).value


# ---------------------------------------------------------------------- gates

# From the definitions of the functions (IEEE Std 91 names them; common practice).
GATE_MODELS: dict[str, Callable[[Sequence[int]], int]] = {
    "and": lambda b: int(all(b)),
    "or": lambda b: int(any(b)),
    "xor": lambda b: sum(b) % 2,
    "nand": lambda b: int(not all(b)),
    "nor": lambda b: int(not any(b)),
    "xnor": lambda b: (sum(b) + 1) % 2,
    "not": lambda b: 1 - b[0],
    "buffer": lambda b: b[0],
}


@pytest.mark.parametrize("kind", GATE_MODELS)
@pytest.mark.parametrize("width", [1, 2, 3, 4])
def test_gates_whole(kind: str, width: int) -> None:
    if (width == 1) != (kind in ("not", "buffer")):
        return
    rows = [{"x_in": [n >> i & 1 for i in range(width)]} for n in range(1 << width)]
    for row, found in zip(rows, play(alone(kind, {"in": width}), rows), strict=True):
        assert found["out"].value == GATE_MODELS[kind](row["x_in"])


@given(st.integers(1, 8), st.data())
def test_constant(width: int, data: st.DataObject) -> None:
    value = data.draw(st.integers(0, (1 << width) - 1))
    (row,) = play(alone("constant", {}, {"value": value, "width": width}), [{}])
    assert row["out"] == Word.of(value, width)
    (row,) = play(alone("constant", {}, {"value": "X", "width": width}), [{}])
    assert row["out"] == Word.all_unknown(width)


# ---------------------------------------------------------------------- multiplexers, adders


@given(st.sampled_from((2, 4, 8)), st.integers(1, 3), st.data())
def test_multiplexer(choices: int, width: int, data: st.DataObject) -> None:
    widths = {f"d{i}": width for i in range(choices)}
    widths["select"] = choices.bit_length() - 1
    rows = data.draw(rows_of(widths))
    for row, found in zip(rows, play(alone("multiplexer", widths, {"width": width}), rows),
                          strict=True):  # fmt: skip
        assert list(found["out"]) == row[f"x_d{at(row, 'select', 0)}"]


@given(st.data())
def test_multiplexer_keeps_what_all_choices_agree_on(data: st.DataObject) -> None:
    same = data.draw(st.lists(known_bits, min_size=2, max_size=2))
    row = {**{f"x_d{i}": same for i in range(4)}, "x_select": [X, X]}
    widths = {**{f"d{i}": 2 for i in range(4)}, "select": 2}
    (found,) = play(alone("multiplexer", widths, {"width": 2}), [row])
    assert list(found["out"]) == same


def test_adders_whole() -> None:
    for kind, ports in (("half-adder", ("a", "b")), ("full-adder", ("a", "b", "carry-in"))):
        rows = [
            {f"x_{port}": [n >> i & 1] for i, port in enumerate(ports)}
            for n in range(1 << len(ports))
        ]
        for row, found in zip(rows, play(alone(kind, dict.fromkeys(ports, 1)), rows), strict=True):
            total = sum(bit for (bit,) in row.values())
            assert 2 * found["carry-out"].value + found["sum"].value == total


# ---------------------------------------------------------------------- storage elements


@st.composite
def stores(draw: Draw, kind: str) -> tuple[dict[str, int], dict[str, int | str]]:
    """Ports and settings of a part that stores, in every combination."""
    width = 1 if kind == "flip-flop" else draw(st.integers(1, 4))
    start = draw(st.integers(0, (1 << width) - 1))
    settings: dict[str, int | str] = {"start": start}
    if kind != "flip-flop":
        settings["width"] = width
    widths = {port: 1 for port in ("enable", "clear") if draw(st.booleans())}
    if kind in ("flip-flop", "register"):
        widths["d"] = width
    elif draw(st.booleans()):
        widths |= {"load": 1, "d": width}
    if kind == "shift-register":
        widths["in"] = 1
        if draw(st.booleans()):
            widths |= {"left": 1, "left-in": 1}
        else:
            settings["direction"] = draw(st.sampled_from(("left", "right")))
    if kind == "counter":
        settings["modulo"] = draw(st.one_of(st.just("full"), st.integers(2, 1 << width)))
    return widths, settings


def next_register(q: int, row: Row, _settings: Mapping[str, int | str]) -> int:
    """Clear beats enable; without enable the word is taken at every edge."""
    if at(row, "clear", 0):
        return 0
    return at(row, "d", 0) if at(row, "enable", 1) else q


def next_shift(q: int, row: Row, settings: Mapping[str, int | str]) -> int:
    """Clear beats load, load beats enable; right is towards the LSB."""
    width = int(settings["width"])
    if at(row, "clear", 0):
        return 0
    if at(row, "load", 0):
        return at(row, "d", 0)
    if not at(row, "enable", 1):
        return q
    if at(row, "left", 0):
        return (q << 1 | at(row, "left-in", 0)) % (1 << width)
    if settings.get("direction") == "left":
        return (q << 1 | at(row, "in", 0)) % (1 << width)
    return q >> 1 | at(row, "in", 0) << (width - 1)


def next_count(q: int, row: Row, settings: Mapping[str, int | str]) -> int:
    """Clear beats load, load beats enable; after m - 1 comes 0, and after all ones as well."""
    width = int(settings["width"])
    modulo = 1 << width if settings["modulo"] == "full" else int(settings["modulo"])
    if at(row, "clear", 0):
        return 0
    if at(row, "load", 0):
        return at(row, "d", 0)
    if not at(row, "enable", 1):
        return q
    return 0 if q == modulo - 1 else (q + 1) % (1 << width)


@pytest.mark.parametrize(
    ("kind", "following"),
    [
        ("flip-flop", next_register),
        ("register", next_register),
        ("shift-register", next_shift),
        ("counter", next_count),
    ],
)
@given(data=st.data())
def test_what_stores(kind: str, following: Callable[..., int], data: st.DataObject) -> None:
    widths, settings = data.draw(stores(kind))
    rows = data.draw(rows_of(widths))
    q = int(settings["start"])
    width = int(settings.get("width", 1))
    for row, found in zip(rows, play(alone(kind, widths, settings), rows), strict=True):
        assert found["q"] == Word.of(q, width)
        if kind == "shift-register":
            far = width - 1 if settings.get("direction") == "left" else 0
            assert found["out"].value == q >> far & 1
            if "left" in widths:
                assert found["left-out"].value == q >> (width - 1) & 1
        if kind == "counter":
            last = (1 << width if settings["modulo"] == "full" else int(settings["modulo"])) - 1
            assert found["terminal-count"].value == int(q == last and at(row, "enable", 1))
        q = following(q, row, settings)


@pytest.mark.parametrize("kind", ["flip-flop", "register", "shift-register", "counter"])
@given(data=st.data())
def test_what_is_known_stays_true_whatever_the_unknown_bits_are(
    kind: str, data: st.DataObject
) -> None:
    widths, settings = data.draw(stores(kind))
    if data.draw(st.booleans()):
        settings["start"] = "X"
    rows = data.draw(rows_of(widths, bits))
    filled = [
        {name: [data.draw(known_bits) if b == X else b for b in word] for name, word in row.items()}
        for row in rows
    ]
    width = int(settings.get("width", 1))
    start = data.draw(st.integers(0, (1 << width) - 1))
    known = {**settings, "start": start if settings["start"] == "X" else settings["start"]}
    unsure = play(alone(kind, widths, settings), rows)
    sure = play(alone(kind, widths, known), filled)
    for one, other in zip(unsure, sure, strict=True):
        for port, word in one.items():
            assert word.ones == other[port].value & ~word.unknown


@pytest.mark.parametrize("kind", ["flip-flop", "register", "shift-register", "counter"])
def test_clear_makes_an_unknown_start_known(kind: str) -> None:
    """As after power-up: nothing is known until the first clear."""
    widths = {"clear": 1}
    settings: dict[str, int | str] = {"start": "X"}
    if kind != "counter":
        widths["in" if kind == "shift-register" else "d"] = 1 if kind != "register" else 3
    if kind != "flip-flop":
        settings["width"] = 3
    fed = {f"x_{port}": [X] * width for port, width in widths.items()}
    found = play(alone(kind, widths, settings), [{**fed, "x_clear": [1]}] * 2)
    assert not found[0]["q"].known
    assert found[1]["q"].value == 0


def test_a_gated_clock_holds_like_an_enable() -> None:
    b = Builder("gated")
    d, go = b.input("x_d"), b.input("x_go")
    from edgewise.circuit.builder import wires

    gate = b.part("G", "and", {"in": (*wires("clock", 1), *go)})["out"]
    b.output("q", b.part("C", "flip-flop", {"d": d, "clock": gate}, {"start": "X"})["q"])
    rows: list[Row] = [{"x_d": [d_], "x_go": [go_]} for d_, go_ in ((1, 0), (1, 1), (0, 0), (0, X))]
    found = [str(row["q"]) for row in play(b.circuit(), [*rows, {"x_d": [0], "x_go": [0]}])]
    assert found == ["X", "X", "1", "1", "X"]


def test_a_full_adder_opens_to_its_five_gates() -> None:
    inside = parts.kind("full-adder", {}, {"a": 1, "b": 1, "carry-in": 1}).inside
    assert isinstance(inside, Circuit)
    assert [(part.name, part.kind.name) for part in inside.parts] == [
        ("X1", "xor"),
        ("X2", "xor"),
        ("G1", "and"),
        ("G2", "and"),
        ("OR", "or"),
    ]


def test_all_parts_of_the_trade_are_there() -> None:
    assert sorted(parts.registry()) == sorted(
        [
            "and", "or", "xor", "nand", "nor", "xnor", "not", "buffer", "constant",
            "multiplexer", "half-adder", "full-adder", "flip-flop", "register",
            "shift-register", "counter", "jk-flip-flop", "t-flip-flop", "sr-latch",
            "sr-latch-nand", "gated-sr-latch", "d-latch", "master-slave-flip-flop",
            "jk-master-slave", "six-nand-flip-flop",
        ]
    )  # fmt: skip


# ---------------------------------------------------------------------- used wrongly


@pytest.mark.parametrize(
    ("kind", "widths", "settings", "message"),
    [
        ("ful-adder", {}, {}, "there is no part ful-adder; did you mean full-adder?"),
        ("and", {"in": 1}, {}, "found 1 input; a gate of this kind takes 2 or more: in: [x, y]"),
        ("and", {"in": 0}, {}, "found 0 inputs; a gate of this kind takes 2 or more: in: [x, y]"),
        ("and", {}, {}, "nothing feeds port in of and; add in: NET"),
        ("not", {"in": 2}, {}, "port in of not is 1 bit wide, but what feeds it has 2 bits"),
        ("and", {"in": 2, "out": 2}, {},
         "port out of and is 1 bit wide, but the net it drives has 2 bits"),
        ("full-adder", {"a": 1, "b": 1}, {},
         "nothing feeds port carry-in of full-adder; add carry-in: NET"),
        ("full-adder", {"a": 1, "b": 1, "cary-in": 1}, {},
         "full-adder has no port cary-in; did you mean carry-in?"),
        ("register", {"d": 4, "widht": 1}, {"width": 4},
         "register has no port or setting widht; did you mean width?"),
        ("register", {"d": 4}, {"size": 4},
         "register has no setting size; there is: start, width"),
        ("register", {"d": 4}, {}, "register needs width; add, for example, width: 4"),
        ("register", {"d": 4}, {"width": 0}, "width is 0; expected 1..1024"),
        ("register", {"d": 2}, {"width": 2, "start": 4},
         "start is 4; expected 0..3 or X in 2 bits"),
        ("flip-flop", {"d": 1}, {"start": 2}, "start is 2; expected 0..1 or X"),
        ("constant", {}, {"value": 9, "width": 3}, "value is 9; expected 0..7 or X in 3 bits"),
        ("constant", {}, {}, "constant needs value; add, for example, value: 4"),
        ("shift-register", {"in": 1}, {"width": 2, "direction": "up"},
         "direction is up; expected right or left"),
        ("shift-register", {"in": 1, "d": 2}, {"width": 2},
         "port d is fed but port load is not; they go together"),
        ("shift-register", {"in": 1, "left": 1}, {"width": 2},
         "port left is fed but port left-in is not; they go together"),
        ("shift-register", {"in": 1, "left": 1, "left-in": 1}, {"width": 2, "direction": "left"},
         "port left chooses the direction; leave out direction: left"),
        ("counter", {}, {"width": 3, "modulo": 9}, "modulo is 9; expected 2..8 in 3 bits"),
        ("counter", {}, {"width": 3, "modulo": 1},
         "modulo is 1; expected 2..18446744073709551616 or full"),
        ("counter", {"load": 1}, {"width": 3},
         "port load is fed but port d is not; they go together"),
        ("multiplexer", {"d0": 1, "d2": 1, "select": 2}, {},
         "the last data input is d2; expected d1, d3, d7, …, so that there are 2, 4, 8, … of them"),
        ("multiplexer", {"d0": 1, "d3": 1, "select": 2}, {},
         "nothing feeds port d1 of multiplexer; add d1: NET"),
        ("multiplexer", {"d0": 1, "d99999999": 1, "select": 2}, {},
         "found the data input d99999999; expected d0 to d255"),
        ("multiplexer", {"d0": 1, "d1": 1, "d²": 1, "select": 1}, {},
         "multiplexer has no port or setting d²; there is: d0, d1, out, select, width"),
    ],
)  # fmt: skip
def test_messages(
    kind: str, widths: Mapping[str, int], settings: Mapping[str, int | str], message: str
) -> None:
    with pytest.raises(CircuitError) as wrong:
        parts.kind(kind, settings, widths)
    assert str(wrong.value) == message
