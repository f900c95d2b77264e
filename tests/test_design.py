"""Procedures, operands, purposes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import blueprint, catalogue, formula
from edgewise.bits import X
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Tie
from edgewise.design import Design, Feed, Operand, OperandBit, Phase, Purpose, feed
from edgewise.errors import EdgewiseError, Place

HEAD = """\
circuit: tide
parameters: {n: 3, x: 2}
inputs: {s: 1, w: n}
outputs: {z: s, v: w}
"""


def designed(text: str) -> Design:
    return blueprint.from_text(HEAD + text + "\n", "tide.yaml").design()


def complaint(text: str) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        designed(text)
    return str(wrong.value)


def fed(design: Design, name: str) -> str:
    """What an input of one bit is fed, row by row: ``a0`` for a bit of an operand, or 0, 1, X."""
    shown = []
    for row in design.schedule:
        (source,) = row[name]
        if isinstance(source, Tie):
            shown.append("01X"[source.bit])
        else:
            shown.append(f"{source.operand}{source.index}")
    return " ".join(shown)


def test_lsb_first_then_msb_first_then_held() -> None:
    design = designed(
        "operands: {a: n, b: 1}\nprocedure:\n"
        "  - {phase: low, edges: n, s: a lsb-first, w: a}\n"
        "  - {phase: high, edges: n, s: a msb-first, w: 5}\n"
        "  - {phase: hold, edges: 2, s: b, w: X}"
    )
    # The last row goes on as if its phase had one more edge.
    assert fed(design, "s") == "a0 a1 a2 a2 a1 a0 b0 b0 b0"
    words = [row["w"] for row in design.schedule]
    assert words[0] == tuple(OperandBit("a", i) for i in range(3))
    assert words[3] == (Tie(1), Tie(0), Tie(1))
    assert words[8] == (Tie(X),) * 3
    assert design.edges == 8
    assert [(p.name, first, last) for p, first, last in design.spans] == [
        ("low", 1, 3),
        ("high", 4, 6),
        ("hold", 7, 8),
    ]
    names = [phase.name if (phase := design.phase_of(k)) else None for k in (0, 1, 3, 4, 8, 9)]
    assert names == [None, "low", "low", "high", "hold", None]


@pytest.mark.parametrize(
    ("edges", "lsb", "msb"),
    [
        (5, "a0 a1 a2 0 0 0", "0 0 a2 a1 a0 0"),  # more edges than bits: a number, zeros above
        (3, "a0 a1 a2 0", "a2 a1 a0 0"),
        (2, "a0 a1 a2", "a2 a1 a0"),  # fewer: the bits whose turn has not come are left out
    ],
)
def test_a_word_fed_for_more_or_fewer_edges_than_it_has_bits(
    edges: int, lsb: str, msb: str
) -> None:
    for order, expected in (("lsb-first", lsb), ("msb-first", msb)):
        design = designed(
            f"operands: {{a: n}}\nprocedure: [{{phase: go, edges: {edges}, s: a {order}, w: X}}]"
        )
        assert fed(design, "s") == expected


def test_a_number_fed_bit_by_bit() -> None:
    design = designed("procedure: [{phase: go, edges: 3, s: 2 + 4 lsb-first, w: 0}]")
    assert fed(design, "s") == "0 1 1 0"
    design = designed("procedure: [{phase: go, edges: 3, s: 6 msb-first, w: 0}]")
    assert fed(design, "s") == "1 1 0 0"


def test_phases_and_operands_in_families() -> None:
    design = designed(
        "operands: {q(i = 1..x): n}\nprocedure:\n"
        "  - {phase: word(i = 1..x), edges: n, s: q(i) lsb-first, w: q(i)}"
    )
    assert [phase.name for phase in design.procedure] == ["word(1)", "word(2)"]
    assert design.families == {"q": ("q(1)", "q(2)")}
    assert fed(design, "s") == "q(1)0 q(1)1 q(1)2 q(2)0 q(2)1 q(2)2 0"
    assert design.values({"q": [1, 2]}) == {"q(1)": 1, "q(2)": 2}
    assert design.values({"q(2)": 2, "q(1)": 1}) == {"q(1)": 1, "q(2)": 2}


def test_phases_without_edges_take_no_row() -> None:
    design = designed(
        "procedure:\n  - {phase: none, edges: 0, s: 0, w: 0}\n"
        "  - {phase: go, edges: n - 1, s: 1, w: 0}\n  - {phase: end, edges: 0, s: X, w: 0}"
    )
    assert fed(design, "s") == "1 1 1"
    assert [(first, last) for _, first, last in design.spans] == [(1, 0), (1, 2), (3, 2)]


def test_a_procedure_without_any_edge_still_feeds_row_0() -> None:
    design = designed("procedure: [{phase: none, edges: n - 3, s: 1, w: 5}]")
    assert design.edges == 0
    assert fed(design, "s") == "1"


def test_an_input_named_like_an_operand_holds_it() -> None:
    design = designed("operands: {s: 1, w: n}\nprocedure: [{phase: go, edges: 1, w: 0}]")
    assert fed(design, "s") == "s0 s0"
    assert design.schedule[0]["w"] == (Tie(0),) * 3


# ---------------------------------------------------------------------- purposes


def test_expected() -> None:
    design = designed("operands: {s: 1, w: n}\ncomputes: {z: w > 3, v: '(w + min(s, n)) mod 2**n'}")
    assert design.expected({"s": 1, "w": 7}) == {"z": 1, "v": 0}
    assert design.expected({"s": 0, "w": 3}) == {"z": 0, "v": 3}


def test_expected_of_a_family() -> None:
    design = designed(
        "operands: {q(i = 1..x): n}\nprocedure: [{phase: go, edges: 1, s: 0, w: q(1)}]\n"
        "computes: {v: {value: total(q) mod 8 + q(x) * 0, after: 1}}"
    )
    assert design.expected({"q(1)": 5, "q(2)": 6}) == {"v": 3}
    assert design.computes[0].after == 1


def test_a_formula_may_have_no_value_for_some_operands() -> None:
    design = designed("operands: {s: 1, w: n}\ncomputes: {v: 7 div (w - 1) * 0}")
    with pytest.raises(EdgewiseError, match="division by zero"):
        design.expected({"s": 0, "w": 1})


# ---------------------------------------------------------------------- whole messages

GO = "procedure: [{phase: go, edges: 1"
MESSAGES = {
    "no procedure, no operand": (
        "operands: {s: 1}",
        (
            "3:16: nothing feeds input w: there is no procedure and no operand w; add w to the"
            " operands, or a procedure that feeds it"
        ),
    ),
    "a phase that leaves out an input": (
        f"{GO}, s: 1}}]",
        "5:13: phase go does not say what input w is fed; write w: X if it does not matter",
    ),
    "an input that is not there": (
        f"{GO}, s: 1, w: 0, ss: 1}}]",
        "5:51: phase go feeds ss, but the circuit has no input of that name; did you mean s?",
    ),
    "a number too large": (
        f"{GO}, s: 2, w: 2**n}}]",
        (
            "5:38: phase go feeds s with 2; expected 0..1 in 1 bit\n"
            "tide.yaml:5:44: phase go feeds w with 8; expected 0..7 in 3 bits"
        ),
    ),
    "a negative number": (
        f"{GO}, s: -1 lsb-first, w: 0 - 1}}]",
        (
            "5:38: phase go feeds s with -1; expected 0..1 in 1 edge\n"
            "tide.yaml:5:55: phase go feeds w with -1; expected 0..7 in 3 bits"
        ),
    ),
    "a word at an input of one bit": (
        f"operands: {{a: n}}\n{GO}, s: a, w: 0}}]",
        (
            "6:38: phase go feeds s (1 bit) with a (3 bits); write a lsb-first or a msb-first,"
            " or make"
            " the widths equal"
        ),
    ),
    "a word of another width": (
        f"operands: {{a: 2}}\n{GO}, s: 0, w: a}}]",
        "6:44: phase go feeds w (3 bits) with a (2 bits); make the widths equal",
    ),
    "bit by bit into a word": (
        f"operands: {{a: n}}\n{GO}, s: 0, w: a lsb-first}}]",
        "6:44: w has 3 bits; lsb-first feeds inputs of 1 bit",
    ),
    "a bit of an operand": (
        f"operands: {{a: n}}\n{GO}, s: a(0), w: a(2..0)}}]",
        (
            "6:38: found a(0); an operand is fed whole or bit by bit: a, a lsb-first, a msb-first\n"
            "tide.yaml:6:47: found a(2..0); an operand is fed whole or bit by bit: a, a"
            " lsb-first, a"
            " msb-first"
        ),
    ),
    "an operand that is not there": (
        f"operands: {{aa: n}}\n{GO}, s: ab lsb-first, w: q(1)}}]",
        (
            "6:38: there is no operand ab; there is: aa, n, x\n"
            "tide.yaml:6:55: there is no operand q(1); there is: aa, n, x"
        ),
    ),
    "a wrong order": (
        f"operands: {{a: n}}\n{GO}, s: a lsbfirst, w: 0}}]",
        (
            "6:40: can't read 'a lsbfirst': found 'lsbfirst'; expected an operator or lsb-first or"
            " msb-first or the end"
        ),
    ),
    "phases of the wrong shape": (
        (
            "procedure:\n  - {edges: 3}\n  - {phase: go}\n  - go\n  - {phase: k, edges: 0 - 1}\n"
            "  - {phase: k, edges: 100001}\n  - {phase: k, edges: [1]}"
        ),
        (
            "6:5: this phase does not say phase: NAME; add it\n"
            "tide.yaml:7:5: this phase does not say edges: NUMBER; add it\n"
            "tide.yaml:8:5: a phase: found a single value, expected keys and values, as in"
            " {phase: load, edges: n, shift: 1}\n"
            "tide.yaml:9:23: phase k has -1 edges; expected 0..100000\n"
            "tide.yaml:10:23: phase k has 100001 edges; expected 0..100000\n"
            "tide.yaml:11:23: edges of phase k: found a list, expected a single value"
        ),
    ),
    "two phases of one name": (
        "procedure:\n  - {phase: go, edges: 1, s: 0, w: 0}\n  - {phase: go, edges: 2, s: 0, w: 0}",
        "7:5: there are two phases named go; give each its own name",
    ),
    "too many edges": (
        "procedure: [{phase: go(i = 0..9), edges: 100000, s: 0, w: 0}]",
        "1:1: the procedure has 1000000 edges; the limit is 100000",
    ),
    "operands": (
        "operands: {s: 2, n: 1, k: 0, j: m}\n",
        (
            "5:18: n is a parameter already; choose another name\n"
            "tide.yaml:5:27: operand k is 0 bits wide; expected 1..4096\n"
            "tide.yaml:5:33: width of j: there is no number named m; there is: n, x"
        ),
    ),
    "an operand of another width than its input": (
        "operands: {s: 2, w: n}",
        "5:12: input s has 1 bit, but operand s has 2; make them equal",
    ),
    "purposes": (
        "operands: {s: 1, w: n}\ncomputes:\n  zz: s\n  z: s + k\n  v: {value: w, after: 3}\n",
        (
            "7:7: there is no output zz; did you mean z?\n"
            "tide.yaml:8:6: s + k: there is no operand or parameter k; there is: n, s, w, x\n"
            "tide.yaml:9:14: v is said to stand after edge 3; the edges are 0..0"
        ),
    ),
    "purposes of the wrong shape": (
        "operands: {s: 1, w: n}\ncomputes:\n  z: {after: 0}\n  v: {value: w, at: 0}\n",
        (
            "7:6: z needs value: FORMULA, beside after\n"
            "tide.yaml:8:17: a purpose has no entry at; there is: after, value"
        ),
    ),
    "a purpose that refers to rows": (
        "operands: {s: 1, w: n}\ncomputes: {v: w after 2, z: total(w)}",
        (
            "6:15: w after 2: found “after”; what a design computes is told by its operands, not"
            " by its"
            " rows\n"
            "tide.yaml:6:29: total(w): w is not a family of operands"
        ),
    ),
}


@pytest.mark.parametrize("case", MESSAGES)
def test_messages(case: str) -> None:
    text, message = MESSAGES[case]
    assert complaint(text) == f"tide.yaml:{message}"


FAMILY = "operands: {s: 1, w: n, q(i = 1..x): 2}"


@pytest.mark.parametrize(
    ("given_", "message"),
    [
        (
            {"s": 1, "w": 8, "q": [0, 0]},
            "operand w is 8, which is too large; the range is 0..7 in 3 bits",
        ),
        (
            {"s": -1, "w": 0, "q": [0, 0]},
            "operand s is -1, which is negative; the range is 0..1 in 1 bit",
        ),
        ({"s": 1, "q": [0, 0]}, "operand w is missing; give a number in 0..7"),
        (
            {"s": 1, "w": 0, "q": [0, 0], "ww": 1},
            "there is no operand ww; did you mean w?",
        ),
        (
            {"s": 1, "w": 0, "q": [0, 0, 0]},
            "q has 3 values; expected 2, for q(1) to q(2)",
        ),
        ({"s": 1, "w": 0, "q": [0]}, "q has 1 value; expected 2, for q(1) to q(2)"),
        (
            {"s": 1, "w": 0, "q": [0, 4]},
            "operand q(2) is 4, which is too large; the range is 0..3 in 2 bits",
        ),
        ({"s": 1, "w": [1], "q": [0, 0]}, "w is one number, not a list"),
        (
            {"s": 1, "w": 0, "q": 3, "q(1)": 0, "q(2)": 0},
            "there is no operand q; give q as a list",
        ),
        (
            {},
            (
                "operand s is missing; give a number in 0..1\n"
                "operand w is missing; give a number in 0..7\n"
                "operand q(1) is missing; give a number in 0..3\n"
                "operand q(2) is missing; give a number in 0..3"
            ),
        ),
    ],
)
def test_messages_about_the_operands_of_a_run(
    given_: Mapping[str, int | Sequence[int]], message: str
) -> None:
    design = designed(FAMILY)
    with pytest.raises(EdgewiseError) as wrong:
        design.values(given_)
    assert str(wrong.value) == message


def test_the_place_of_operands_is_passed_on() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        designed("operands: {s: 1, w: n}").values({"s": 2, "w": 0}, Place("tide.md", 4, 1))
    assert str(wrong.value) == (
        "tide.md:4:1: operand s is 2, which is too large; the range is 0..1 in 1 bit"
    )


# ---------------------------------------------------------------------- built in Python


def wire() -> Circuit:
    b = Builder("wire")
    b.output("y", b.input("x"))
    return b.circuit()


def test_a_design_built_in_python_is_checked() -> None:
    design = Design(
        "wire",
        wire(),
        operands=(Operand("a", 2),),
        procedure=(Phase("go", 2, (Feed("x", "b", "lsb-first"),)),),
        computes=(Purpose("y", formula.parse("a"), 3),),
    )
    with pytest.raises(EdgewiseError) as wrong:
        design.check()
    assert str(wrong.value) == (
        "there is no operand b; there is: a\ny is said to stand after edge 3; the edges are 0..2"
    )
    mended = replace(
        design,
        procedure=(Phase("go", 2, (Feed("x", "a", "lsb-first"),)),),
        computes=(),
    )
    assert mended.check() is mended


@given(st.integers(0, 4), st.integers(0, 6))
def test_feeds_read_back(number_: int, index: int) -> None:
    parameters, operands = {"n": number_}, {"a": 3, "w(2)": 3}
    assert feed("x", "n + 1", parameters, operands) == Feed("x", number_ + 1)
    assert feed("x", "n", parameters, operands) == Feed("x", number_)
    assert feed("x", "min(n, 2)", parameters, operands) == Feed("x", min(number_, 2))
    assert feed("x", "X", parameters, operands) == Feed("x", None)
    assert feed("x", "w(n)", {"n": 2}, operands) == Feed("x", "w(2)")
    assert feed("x", f"{index} msb-first", parameters, operands) == Feed("x", index, "msb-first")


@pytest.mark.parametrize("edges", [(), (0,), (3,), (0, 2, 0, 0, 3, 0), (1, 1, 1), (0, 0, 4)])
def test_the_phase_of_an_edge_is_the_first_whose_span_holds_it(edges: tuple[int, ...]) -> None:
    adder = catalogue.design("serial-adder", n=4)
    phases = tuple(Phase(f"p{i}", count, ()) for i, count in enumerate(edges))
    design = replace(adder, procedure=phases)
    for edge in range(-1, sum(edges) + 2):
        first = [phase for phase, low, high in design.spans if low <= edge <= high][:1]
        assert design.phase_of(edge) is (first[0] if first else None)
