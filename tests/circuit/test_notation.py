"""Circuit text: what it builds, and every message with its place."""

from __future__ import annotations

from textwrap import dedent

import pytest

from edgewise import blueprint
from edgewise.bits import X
from edgewise.circuit.builder import Builder, as_kind, wires
from edgewise.circuit.model import Circuit, Tie
from edgewise.errors import EdgewiseError

# Four lines that every text below begins with; so its first own line is line 5.
HEAD = """\
circuit: gauge
parameters: {n: 4}
inputs: {x: 1, y: 1, w: n}
operands: {x: 1, y: 1, w: n}
"""


def built(text: str, **parameters: int) -> Circuit:
    return blueprint.from_text(text, "gauge.yaml").design(parameters).circuit


def complaint(text: str) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_text(text, "gauge.yaml").design()
    return str(wrong.value)


# ---------------------------------------------------------------------- text equals builder


def test_a_serial_adder_in_text_equals_one_built_in_python() -> None:
    text = """\
        circuit: serial adder
        parameters: {n: 5}
        inputs: {shift: 1, a_in: 1}
        operands: {shift: 1, a_in: 1}
        parts:
          A:  {part: shift-register, width: n, in: a_in, enable: shift, start: X}
          FA: {part: full-adder, a: A.out, b: A(1), carry-in: C.q}
          C:  {part: flip-flop, d: FA.carry-out, enable: shift}
        outputs: {sum: FA.sum, both: [C.q, FA.sum], word: A, some: "A(3..1)"}
        """
    b = Builder("serial adder")
    shift, a_in = b.input("shift"), b.input("a_in")
    settings: dict[str, int | str] = {"width": 5, "start": "X"}
    a = b.part("A", "shift-register", {"in": a_in, "enable": shift}, settings)
    c = wires("C.q", 1)
    fa = b.part("FA", "full-adder", {"a": a["out"], "b": a.word[1:2], "carry-in": c})
    b.part("C", "flip-flop", {"d": fa["carry-out"], "enable": shift})
    b.output("sum", fa["sum"])
    b.output("both", (*fa["sum"], *c))
    b.output("word", a.word)
    b.output("some", a.word[1:4])
    assert built(dedent(text)) == b.circuit()


@pytest.mark.parametrize("n", [1, 2, 5])
def test_a_family_with_joins_equals_one_built_in_python(n: int) -> None:
    text = """\
        circuit: row of adders
        parameters: {n: 3 in 1..8}
        inputs: {a: n, b: n, c0: 1}
        operands: {a: n, b: n, c0: 1}
        nets: {c: n + 1}
        join: {c(0): c0}
        parts:
          FA(i = 0..n-1):
            {part: full-adder, a: a(i), b: b(i), carry-in: c(i), sum: s(i), carry-out: c(i+1)}
        outputs: {s: n, carry: c(n)}
        """
    b = Builder("row of adders")
    a, other, c0 = b.input("a", n), b.input("b", n), b.input("c0")
    c = b.net("c", n + 1)
    s = b.net("s", n)
    for i in range(n):
        ports = {"a": a[i], "b": other[i], "carry-in": c[i], "sum": s[i], "carry-out": c[i + 1]}
        b.part(f"FA({i})", "full-adder", ports)
    b.join(c[0], c0)
    b.output("s", s)
    b.output("carry", c[n])
    assert built(dedent(text), n=n) == b.circuit()


def test_a_circuit_used_as_a_part_equals_one_built_in_python() -> None:
    text = """\
        circuit: two inverters
        inputs: {x: 2}
        operands: {x: 2}
        parts:
          P: {part: pair, k: 2, in_: x}
        outputs: {y: P, z: P.out_}
        ---
        circuit: pair
        parameters: {k: 1}
        inputs: {in_: k}
        parts:
          N(i = 0..k-1): {part: not, in: in_(i), out: out_(i)}
        outputs: {out_: k}
        """
    inner = Builder("pair")
    x = inner.input("in_", 2)
    y = inner.net("out_", 2)
    for i in range(2):
        inner.part(f"N({i})", "not", {"in": x[i], "out": y[i]})
    inner.output("out_", y)
    b = Builder("two inverters")
    p = b.part("P", as_kind(inner.circuit(), {"k": 2}), {"in_": b.input("x", 2)})
    b.output("y", p.word)
    b.output("z", p["out_"])
    assert built(dedent(text)) == b.circuit()


def test_signals() -> None:
    circuit = built(
        HEAD + "parts: {N: {part: or, in: [w(3..2), 0, X, 1, w(0)]}}\noutputs: {z: N.out}\n"
    )
    part = circuit.part("N")
    assert part is not None
    w = wires("w", 4)
    assert part.signal("in") == (w[0], Tie(1), Tie(X), Tie(0), w[2], w[3])


def test_an_output_port_may_name_its_own_net() -> None:
    built(HEAD + "parts: {N: {part: not, in: x, out: N.out}}\noutputs: {z: N.out}\n")


def test_an_empty_family_has_no_parts() -> None:
    assert built(HEAD + "parts: {N(i = 1..n-4): {part: not, in: x}}\noutputs: {z: x}\n").parts == ()


# ---------------------------------------------------------------------- whole messages

MESSAGES = {
    "unknown part": (
        (
            "parts: {FA: {part: ful-adder, a: x}, C: {part: flip-flop, d: FA.sum}}\n"
            "outputs: {s: FA.sum}"
        ),
        # What only follows from it is not reported.
        "5:20: part FA: there is no part ful-adder; did you mean full-adder?",
    ),
    "part without a kind": (
        "parts: {FA: {a: x}}",
        "5:9: part FA does not say what it is; add part: full-adder",
    ),
    "part that is a list": (
        "parts: {FA: [x]}",
        "5:13: part FA: found a list, expected keys and values, as in {part: flip-flop, d: x}",
    ),
    "unknown port": (
        "parts: {FA: {part: full-adder, a: x, b: y, cary-in: 0}}",
        "5:53: part FA: full-adder has no port cary-in; did you mean carry-in?",
    ),
    "unknown output port": (
        (
            "parts: {FA: {part: full-adder, a: x, b: y, carry-in: 0}}\n"
            "outputs: {s: FA.sm, t: FA.a, u: FA}"
        ),
        (
            "6:14: part FA: full-adder has no output sm; did you mean sum?\n"
            "gauge.yaml:6:24: FA.a is an input port; name the net that feeds it\n"
            "gauge.yaml:6:33: FA has 2 outputs; name one, as in FA.sum"
        ),
    ),
    "input not fed": (
        "parts: {FA: {part: full-adder, a: x, b: y}}",
        "5:9: part FA: nothing feeds port carry-in of full-adder; add carry-in: NET",
    ),
    "width mismatch at an input": (
        "parts: {R: {part: register, width: n, d: w(2..0)}, S: {part: not, in: w}}",
        (
            "5:42: part R: port d of register is 4 bits wide, but w(2..0) has 3 bits\n"
            "gauge.yaml:5:71: part S: port in of not is 1 bit wide, but w(3..0) has 4 bits;"
            " for one bit write w(0)"
        ),
    ),
    "width mismatch at an output": (
        (
            "nets: {k: 3}\nparts: {R: {part: register, width: n, d: w, q: k},"
            " S: {part: register, width: 2, d: [x, y], q: k(0)}}"
        ),
        (
            "6:48: part R: port q of register is 4 bits wide, but k(2..0) has 3 bits\n"
            "gauge.yaml:6:96: part S: port q of register is 2 bits wide, but k(0) has 1 bit"
        ),
    ),
    "width of a net of one bit": (
        "parts: {R: {part: register, width: 2, d: x}}",
        "5:42: part R: port d of register is 2 bits wide, but x has 1 bit",
    ),
    "bad setting": (
        (
            "parts:\n"
            "  R: {part: shift-register, width: 0, in: x}\n"
            "  S: {part: shift-register, in: x}\n"
            "  T: {part: shift-register, width: m, in: x}\n"
            "  U: {part: shift-register, width: 2, in: x, direction: up}\n"
            "  V: {part: register, width: 2, d: [x, y], start: 4}"
        ),
        (
            "6:36: part R: width is 0; expected 1..1024\n"
            "gauge.yaml:7:3: part S: shift-register needs width; add, for example, width: 4\n"
            "gauge.yaml:8:36: width: there is no number named m; there is: n\n"
            "gauge.yaml:9:57: part U: direction is up; expected right or left\n"
            "gauge.yaml:10:51: part V: start is 4; expected 0..3 or X in 2 bits"
        ),
    ),
    "unknown names": (
        "parts: {N: {part: not, in: xx}, M: {part: not, in: Q.q}}\noutputs: {z: qqq}",
        (
            "5:28: there is no net or part named xx; did you mean x?\n"
            "gauge.yaml:5:52: there is no part named Q; there is: M, N\n"
            "gauge.yaml:6:14: there is no net or part named qqq; there is: M, N, w, x, y"
        ),
    ),
    "not a signal": (
        "parts: {N: {part: not, in: x + 1}, M: {part: not, in: 2}}",
        (
            "5:28: found x + 1 where a net was expected; a net, a port such as FA.sum, a list of"
            " them, or one of 0, 1, X can stand here\n"
            "gauge.yaml:5:55: found 2 where a net was expected; a net, a port such as FA.sum, a"
            " list"
            " of them, or one of 0, 1, X can stand here"
        ),
    ),
    "index beyond a net": (
        "parts: {N: {part: not, in: w(4)}, M: {part: not, in: w(9..7)}}\noutputs: {z: w(0..1)}",
        (
            "5:28: w has no bit 4; its bits are 3..0, MSB first\n"
            "gauge.yaml:5:54: w has no slice (9..7); its bits are 3..0, MSB first\n"
            "gauge.yaml:6:14: w has no slice (0..1); its bits are 3..0, MSB first"
        ),
    ),
    "index that is no number": (
        "outputs: {z: w(k)}",
        "5:14: there is no number named k; there is: n",
    ),
    "family letter is a parameter": (
        "parts: {N(n = 0..3): {part: not, in: w(n)}}\noutputs: {z: N(0).out}",
        "5:9: the index n of N is also a parameter; choose another letter",
    ),
    "beyond a family": (
        "parts: {N(i = 0..3): {part: not, in: w(i)}}\noutputs: {a: N(4).out, b: N.out, c: N(4)}",
        (
            "6:14: there is no net or part named N(4); there are N(0) to N(3)\n"
            "gauge.yaml:6:27: there is no part named N; there are N(0) to N(3), each with its"
            " index\n"
            "gauge.yaml:6:37: there is no net or part named N(4); there are N(0) to N(3)"
        ),
    ),
    "a family too large": (
        "parts: {N(i = 0..20000): {part: not, in: x}}",
        "5:9: N has 20001 members; the limit is 20000",
    ),
    "two parts of one name": (
        "parts:\n  N(i = 0..2): {part: not, in: x}\n  N(1): {part: not, in: y}",
        "7:3: there are two parts named N(1); the first is in line 6",
    ),
    "a name used twice": (
        (
            "nets: {x: 1}\nparts: {y: {part: not, in: w(0)}, S: {part: flip-flop, d: x}}\n"
            "outputs: {w: y.out, S: x}"
        ),
        (
            "5:8: x is a net, but an input has that name already\n"
            "gauge.yaml:6:9: y is a part, but an input has that name already\n"
            "gauge.yaml:7:11: w is an output, but an input has that name already; give the output"
            " another name\n"
            "gauge.yaml:7:21: S is an output, but a part has that name already; give the output"
            " another name"
        ),
    ),
    "a name that is a parameter": (
        "nets: {n: 1}\nparts: {n: {part: not, in: x}}\noutputs: {n: x}",
        (
            "5:8: n is a parameter already; choose another name\n"
            "gauge.yaml:6:9: n is a parameter already; choose another name\n"
            "gauge.yaml:7:11: n is a parameter already; choose another name"
        ),
    ),
    "words of the notation": (
        "nets: {X: 1, mod: 1}\nparts: {and: {part: not, in: x}}\noutputs: {not: x}",
        (
            "5:8: X can't be a name: it is a word of the notation\n"
            "gauge.yaml:5:14: mod can't be a name: it is a word of the notation\n"
            "gauge.yaml:6:9: and can't be a name: it is a word of the notation\n"
            "gauge.yaml:7:11: not can't be the name of an output; write a plain name, as in not_0"
        ),
    ),
    "odd names": (
        (
            "nets: {carry-in: 1}\nparts: {N.x: {part: not, in: x}, M(3..0): {part: not, in: x}}\n"
            "outputs: {z(i = 0..3): w(i)}"
        ),
        (
            "5:13: can't read 'carry-in': found '-'; a name is made of letters, digits and _"
            " (hyphens"
            " are for the ports of ready parts): carry_in\n"
            "gauge.yaml:6:9: N.x can't be a name; write a plain name, or a family: N(i = 0..3)\n"
            "gauge.yaml:6:34: M(3..0) can't be a name; write a plain name, or a family: M(i ="
            " 0..3)\n"
            "gauge.yaml:7:11: z(i = 0..3) can't be the name of an output; write a plain name, as in"
            " z_0"
        ),
    ),
    "widths": (
        "nets: {a: m, b: 0, c: 4097, d: 9**9**9, e: X}",
        (
            "5:11: width of a: there is no number named m; there is: n\n"
            "gauge.yaml:5:14: b is 0 bits wide; expected 1..4096\n"
            "gauge.yaml:5:20: c is 4097 bits wide; expected 1..4096\n"
            "gauge.yaml:5:32: width of d: the number is too large: more than 8192 bits\n"
            "gauge.yaml:5:44: width of e: X has no value"
        ),
    ),
    "an output that can't be read": (
        "outputs: {z: n +}",
        "5:17: can't read 'n +': the formula ends too early; expected a name or a number",
    ),
    "sections of the wrong shape": (
        "nets: [a]\njoin: x\nparts: [a]\noutputs: [x]",
        (
            "5:7: nets: found a list, expected keys and values, as in {a: n, shift: 1}\n"
            "gauge.yaml:6:7: join: found a single value, expected keys and values, as in"
            " {c(0): carry_in}\n"
            "gauge.yaml:7:8: parts: found a list, expected keys and values, as in"
            " {C: {part: flip-flop, d: x}}\n"
            "gauge.yaml:8:10: outputs: found a list, expected keys and values, as in"
            " {sum: S, carry: C.q}"
        ),
    ),
    "a join of two widths": (
        "nets: {b: 3, c: 1}\njoin: {b: w, c: w}",
        (
            "6:8: a join needs equal widths: b(2..0) has 3 bits, w(3..0) has 4\n"
            "gauge.yaml:6:14: a join needs equal widths: c has 1 bit, w(3..0) has 4"
        ),
    ),
    "an output port that is given another one": (
        "parts: {N: {part: not, in: x, out: M.out}, M: {part: not, in: x, out: N.out}}",
        (
            "5:36: M.out is an output port; an output port drives a net, not another output port\n"
            "gauge.yaml:5:71: N.out is an output port; an output port drives a net, not another"
            " output port"
        ),
    ),
    "too many bits": (
        "nets: {a(i = 0..99): 4096}",
        "5:8: the circuit has more than 200000 bits of nets",
    ),
    "a list too long": (
        "nets: {a: 4096}\nparts: {N: {part: or, in: [a, a]}}",
        "6:27: this list has 8192 bits; the limit is 4096",
    ),
    "several at once, in text order": (
        (
            "parts: {N: {part: not, in: k}, M: {part: nott, in: x}}\noutputs: {z: q}\n"
            "procedure:\n  - {phase: go, edges: k, x: 1}\ncomputes: {z: x +}"
        ),
        (
            "5:28: there is no net or part named k; there is: N, w, x, y\n"
            "gauge.yaml:5:42: part M: there is no part nott; did you mean not?\n"
            "gauge.yaml:6:14: there is no net or part named q; there is: N, w, x, y\n"
            "gauge.yaml:8:24: edges of phase go: there is no number named k; there is: n\n"
            "gauge.yaml:9:18: can't read 'x +': the formula ends too early; expected a name or a"
            " number"
        ),
    ),
}


@pytest.mark.parametrize("case", MESSAGES)
def test_messages(case: str) -> None:
    text, message = MESSAGES[case]
    assert complaint(f"{HEAD}{text}\n") == f"gauge.yaml:{message}"


# ---------------------------------------------------------------------- circuits as parts

SUB = """\
---
circuit: cell
parameters: {k: 2 in 1..3}
inputs: {i_: k}
parts: {N: {part: not, in: i_(0)}}
outputs: {o: N.out}
"""
SUB_MESSAGES = {
    "unknown port": (
        "parts: {P: {part: cell, ii: w(1..0)}}",
        SUB,
        "5:29: part P: cell has no port or setting ii; there is: i_, k, o",
    ),
    "parameter out of range": (
        "parts: {P: {part: cell, k: 4, i_: w}}",
        SUB,
        "5:9: part P: parameter k is 4; the range is 1..3",
    ),
    "parameter that is no number": (
        "parts: {P: {part: cell, k: lots, i_: w}}",
        SUB,
        "5:28: k: there is no number named lots; there is: n",
    ),
    "width mismatch": (
        "parts: {P: {part: cell, i_: w}}",
        SUB,
        "5:29: part P: port i_ of cell is 2 bits wide, but w(3..0) has 4 bits",
    ),
    "input not fed": (
        "parts: {P: {part: cell}}",
        SUB,
        "5:9: part P: nothing feeds port i_ of cell; add i_: NET",
    ),
    "an error inside": (
        "parts: {P: {part: cell, i_: w(1..0)}}\noutputs: {z: P}",
        SUB.replace("not, in: i_(0)", "nott, in: i_(0)"),
        "11:19: part N: there is no part nott; did you mean not?",
    ),
    "a net inside that nothing drives": (
        "parts: {P: {part: cell, i_: w(1..0)}}\noutputs: {z: P}",
        SUB + "nets: {k1: 2}\n",
        "13:8: nothing drives net k1; let an output port or a join drive it",
    ),
    "two drivers inside": (
        "parts: {P: {part: cell, i_: w(1..0)}}\noutputs: {z: P}",
        SUB.replace("N: {part: not, in: i_(0)}", "N: {part: not, in: i_(0), out: i_(1)}"),
        "11:40: i_(1) has two drivers: the input i_ and N.out; leave one of them out",
    ),
    "itself": (
        "parts: {P: {part: gauge, x: x}}",
        "",
        "5:19: a circuit can't contain itself: gauge -> gauge",
    ),
    "itself by way of another": (
        "parts: {P: {part: cell, i_: w(1..0)}}",
        SUB.replace("not, in: i_(0)", "gauge, x: i_(0)"),
        "11:19: a circuit can't contain itself: gauge -> cell -> gauge",
    ),
}


@pytest.mark.parametrize("case", SUB_MESSAGES)
def test_messages_of_circuits_used_as_parts(case: str) -> None:
    text, beside, message = SUB_MESSAGES[case]
    text = text if "\n" in text else f"{text}\noutputs: {{z: x}}"
    assert complaint(f"{HEAD}{text}\n{beside}") == f"gauge.yaml:{message}"
