"""The proof engine: right answers, smallest counterexamples, honest limits."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.replay import left_free, prolonged, truths
from edgewise.engines.sat import bounded, equivalence, k_induction
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic import unrolling
from edgewise.engines.symbolic.arithmetic import Words
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import Logic, Rail, Row
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError


def text(written: str) -> Design:
    return blueprint.from_text(written, "test.yaml").design()


def everything(design: Design) -> list[dict[str, int]]:
    """All operand sets."""
    ranges = [operand.numbers for operand in design.operands]
    names = [operand.name for operand in design.operands]
    return [dict(zip(names, values, strict=True)) for values in product(*ranges)]


def rank(design: Design, operands: Mapping[str, int]) -> tuple[int, list[int]]:
    """What "smaller" means: ones first, then value, the first operand counting most."""
    values = [operands[operand.name] for operand in design.operands]
    return sum(value.bit_count() for value in values), values


# ---------------------------------------------------------------------- what designs compute


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_catalogue_computes_what_it_says(name: str) -> None:
    found = bounded.computes(catalogue.design(name))
    if name == "serial-accumulator":  # a carry out of one word enters the next
        assert found.outcome == "refuted"
    else:
        assert (found.outcome, found.counterexample) == ("proved", None)


def test_where_the_accumulator_ends() -> None:
    design = catalogue.design("serial-accumulator", n=3, x=3)
    shown = bounded.computes(design).counterexample
    assert shown is not None
    assert shown.smallest
    wrong = [
        operands
        for operands in everything(design)
        if (trace := reference.run(design, operands)).word("sum", trace.edges).value
        != design.expected(operands)["sum"]
    ]
    assert dict(shown.operands) == min(wrong, key=lambda operands: rank(design, operands))
    assert (shown.what, shown.row) == ("sum", design.edges)
    assert shown.trace == reference.run(design, shown.operands)


def test_an_unknown_answer_is_wrong() -> None:
    design = text(
        """
        circuit: never set
        inputs: {a: 1}
        parts: {Q: {part: flip-flop, d: Q.q, start: X}}
        outputs: {y: Q.q}
        operands: {a: 1}
        computes: {y: a}
        """
    )
    found = bounded.computes(design)
    assert found.outcome == "refuted"
    assert found.counterexample is not None
    assert str(found.counterexample.trace.word("y", 0)) == "X"


def test_a_design_without_a_purpose() -> None:
    design = text("circuit: wire\ninputs: {a: 1}\noutputs: {y: a}\noperands: {a: 1}")
    with pytest.raises(DesignError) as caught:
        bounded.computes(design)
    assert caught.value.message == (
        "wire does not say what it computes; add, for example, computes: {sum: (a + b) mod 2**n}"
    )


# ------------------------------------------------------------------------------ any predicate


PREDICATES: Sequence[Callable[[Words, Sequence[Term], Sequence[Term]], Term]] = (
    lambda w, s, _: w.less(w.unsigned(s), w.number(13)).one,
    lambda w, s, c: w.terms.either(c[0] ^ 1, w.less(w.number(2), w.unsigned(s)).one),
    lambda w, s, _: w.terms.all_of(s) ^ 1,
    lambda w, s, c: w.terms.all_of([*s, *c]) ^ 1,
    lambda w, s, _: w.terms.differ(s[0], s[3]),
)


@pytest.mark.parametrize("number", range(len(PREDICATES)))
def test_the_smallest_counterexample(number: int) -> None:
    """Against a search through all operands on the reference engine."""
    design = catalogue.design("ripple-carry-adder", n=4)
    outputs = design.netlist.outputs

    def claim(terms: Terms, rows: Sequence[Row]) -> Term:
        total = [rows[0][net].one for net in outputs["sum"]]
        return PREDICATES[number](Words(terms), total, [rows[0][outputs["carry"][0]].one])

    wrong = []
    for operands in everything(design):
        trace = reference.run(design, operands)
        bits = [list(trace.word(name, 0)) for name in ("sum", "carry")]
        if not PREDICATES[number](Words(Terms()), *bits):
            wrong.append(operands)
    found = bounded.prove(design, claim)
    assert (found.outcome == "refuted") == bool(wrong)
    if found.counterexample:
        assert dict(found.counterexample.operands) == min(wrong, key=lambda o: rank(design, o))
        assert found.counterexample.smallest


def test_the_smallest_counterexample_may_need_many_ones() -> None:
    design = catalogue.design("ripple-carry-adder", n=32)
    outputs = design.netlist.outputs

    def claim(terms: Terms, rows: Sequence[Row]) -> Term:
        bits = [rows[0][net].one for net in (*outputs["sum"][1:], *outputs["carry"])]
        return terms.all_of(bits) ^ 1

    shown = bounded.prove(design, claim).counterexample
    assert shown is not None
    # a + b + c is to be 2**33 - 2: 64 ones each way, and this way a is smaller.
    assert dict(shown.operands) == {"a": 2**32 - 2, "b": 2**32 - 1, "carry_in": 1}


def test_given_operands_stay() -> None:
    serial = catalogue.design("serial-adder", n=6)
    (carry,) = serial.netlist.outputs["carry"]

    def claim(_: Terms, rows: Sequence[Row]) -> Term:
        return rows[-1][carry].one ^ 1

    assert bounded.prove(serial, claim, given={"a": 0}).outcome == "proved"
    shown = bounded.prove(serial, claim, given={"b": 5}).counterexample
    assert shown is not None
    assert dict(shown.operands) == {"a": 60, "b": 5}  # 59 has more ones


@pytest.mark.parametrize(
    ("fixed", "message"),
    [
        ({"aa": 1}, "there is no operand aa; did you mean a?"),
        ({"a": 64}, "operand a is 64, which is too large; the range is 0..63 in 6 bits"),
        ({"b": -1}, "operand b is -1, which is negative; the range is 0..63 in 6 bits"),
    ],
)
def test_given_operands_that_do_not_fit(fixed: dict[str, int], message: str) -> None:
    with pytest.raises(DesignError) as caught:
        bounded.computes(catalogue.design("serial-adder", n=6), given=fixed)
    assert caught.value.message == message


def test_claims_about_rows() -> None:
    design = catalogue.design("serial-adder", n=5)
    (carry,) = design.netlist.find("C")

    def clear(_: Logic, row: Row) -> Term:
        return row[carry].one ^ 1

    assert bounded.throughout(design, clear, range(6)).outcome == "proved"
    found = bounded.throughout(design, clear)
    assert found.counterexample is not None
    assert found.counterexample.row == 6
    assert dict(found.counterexample.operands) == {"a": 1, "b": 1}
    assert str(found.counterexample.trace.word("C", found.counterexample.row)) == "1"


def test_how_an_outcome_reads() -> None:
    found = bounded.computes(catalogue.design("serial-adder", n=6))
    assert str(found).startswith("proved by SAT (74 clauses over 29 variables, ")
    assert str(bounded.computes(catalogue.design("ring-counter"))).startswith("proved by structure")


# ---------------------------------------------------------------------------------- two of them


@pytest.mark.parametrize("n", [1, 4, 5, 16, 64])
def test_lookahead_equals_ripple(n: int) -> None:
    one = catalogue.design("ripple-carry-adder", n=n)
    assert equivalence.same(one, catalogue.design("carry-lookahead-adder", n=n)).outcome == "proved"


def test_designs_of_different_kinds() -> None:
    serial = catalogue.design("serial-adder", n=9)
    ripple = catalogue.design("ripple-carry-adder", n=9)
    assert equivalence.same(serial, ripple, given={"carry_in": 0}).outcome == "proved"
    shown = equivalence.same(serial, ripple, given={"carry_in": 1}).counterexample
    assert shown is not None
    assert shown.other is not None
    assert (dict(shown.operands), shown.what) == ({"a": 0, "b": 0, "carry_in": 1}, "sum")
    assert (shown.trace.word("sum", 18).value, shown.other.word("sum", 0).value) == (0, 1)


def test_designs_that_do_not_match() -> None:
    serial = catalogue.design("serial-adder", n=6)
    with pytest.raises(DesignError) as caught:
        equivalence.same(serial, catalogue.design("ripple-carry-adder", n=8))
    assert caught.value.message == (
        "serial-adder can't be compared with ripple-carry-adder:"
        " operand carry_in is only in ripple-carry-adder;"
        " operand a has 6 bits in serial-adder and 8 in ripple-carry-adder;"
        " operand b has 6 bits in serial-adder and 8 in ripple-carry-adder;"
        " answer sum has 6 bits in serial-adder and 8 in ripple-carry-adder"
    )


def toggle(name: str, *, slow: bool = False) -> Circuit:
    """Turns over at each edge with `x`; the slow one shows it an edge later."""
    b = Builder(name)
    q, x = b.net("q"), b.input("x")
    b.part("Q", "flip-flop", {"d": b.part("D", "xor", {"in": (*q, *x)})["out"], "q": q})
    b.output("y", b.part("L", "flip-flop", {"d": q})["q"] if slow else q)
    return b.circuit()


def test_clocked_circuits() -> None:
    assert equivalence.same_circuits(toggle("one"), toggle("two"), 6).outcome == "proved"
    shown = equivalence.same_circuits(toggle("one"), toggle("two", slow=True), 6).counterexample
    assert shown is not None
    assert shown.row == 6  # the fewest ones: x in row 5 only would do, or in any row before
    assert sum(shown.operands.values()) == 1
    assert shown.other is not None
    words = [str(trace.word("y", shown.row)) for trace in (shown.trace, shown.other)]
    assert words == ["1", "0"]


def test_clocked_circuits_need_a_number_of_edges() -> None:
    with pytest.raises(DesignError) as caught:
        equivalence.same_circuits(toggle("one"), toggle("two"))
    assert caught.value.message == "one has flip-flops; say over how many edges to compare"


def test_circuits_with_other_ports() -> None:
    b = Builder("two")
    b.output("z", b.input("x", 2))
    with pytest.raises(DesignError) as caught:
        equivalence.same_circuits(toggle("one"), b.circuit(), 2)
    assert caught.value.message == (
        "one can't be compared with two: input x has 1 bit in one and 2 in two;"
        " output y is only in one; output z is only in two"
    )


# ------------------------------------------------------------------------------------- for ever


def test_a_ring_counter_has_exactly_one_1_after_clear() -> None:
    design = text(
        """
        circuit: ring with clear
        inputs: {clear: 1}
        nets: {q: 6}
        parts:
          R(i = 1..5): {part: flip-flop, d: q(i-1), clear: clear, q: q(i), start: X}
          come: {part: or, in: [clear, q(5)]}
          R0: {part: flip-flop, d: come.out, q: q(0), start: X}
        outputs: {state: q}
        procedure:
          - {phase: clear, edges: 1, clear: 1}
          - {phase: count, edges: 3, clear: 0}
        """
    )
    nets = design.netlist.find("q")
    found = k_induction.always(design, k_induction.exactly_one(nets), since=1)
    assert (found.outcome, found.k) == ("proved", 1)
    found = k_induction.always(design, k_induction.exactly_one(nets), since=0)
    assert found.outcome == "refuted"  # at power-up nothing is known
    assert found.counterexample is not None
    assert found.counterexample.row == 0


def mod_six(*, edges: int = 1) -> Design:
    return text(
        f"""
        circuit: counts to five
        inputs: {{go: 1}}
        parts:
          N: {{part: counter, width: 3, enable: go, clear: full.out}}
          full: {{part: and, in: [go, N.q(2), low.out]}}
          low: {{part: buffer, in: N.q(0)}}
        outputs: {{q: N}}
        procedure: [{{phase: count, edges: {edges}, go: 1}}]
        """
    )


def test_a_counter_stays_in_range() -> None:
    """From 6 or 7 the counter comes back to 0 or 7: one row before is not always enough."""
    design = mod_six()
    nets = design.netlist.find("N")
    found = k_induction.always(design, k_induction.among(nets, range(6)))
    assert found.outcome == "proved"
    found = k_induction.always(
        design, lambda logic, row: logic.terms.all_of(row[n].one for n in nets) ^ 1
    )
    assert (found.outcome, found.k) == ("proved", 2)  # 7 comes from 6, and 6 from 5 never


def test_the_first_row_that_breaks_a_claim_lies_beyond_the_procedure() -> None:
    design = mod_six()
    nets = design.netlist.find("N")
    found = k_induction.always(design, k_induction.among(nets, range(5)))
    assert (found.outcome, found.counterexample and found.counterexample.row) == ("refuted", 5)
    assert found.counterexample is not None
    assert found.counterexample.trace.word("N", 5).value == 5
    assert found.counterexample.trace.design == prolonged(design, 5)


def test_limits_of_induction() -> None:
    design = mod_six()
    nets = design.netlist.find("N")

    def never_7(logic: Logic, row: Row) -> Term:
        return logic.terms.all_of(row[n].one for n in nets) ^ 1

    assert str(k_induction.always(design, never_7, most=1).reason) == "k reached 1"
    late = k_induction.always(design, never_7, seconds=0)
    assert str(late.reason) == "the limit of 0 s was reached"
    with pytest.raises(DesignError) as caught:
        k_induction.always(design, never_7, since=2)
    assert caught.value.message == (
        "the claim is made from row 2 on; the rows of the procedure are 0..1"
    )


def test_induction_after_half_an_operand() -> None:
    design = text(
        """
        circuit: half
        inputs: {x: 1}
        parts: {S: {part: shift-register, width: 4, in: x}}
        outputs: {y: S}
        operands: {a: 4}
        procedure: [{phase: load, edges: 2, x: a lsb-first}]
        """
    )
    with pytest.raises(DesignError) as caught:
        k_induction.always(design, lambda _logic, _row: 1)
    assert caught.value.message == (
        "input x is not fed to the end of its operand; give the last phase more edges, or one"
        " more phase, before a claim about every edge"
    )


def test_any_inputs_for_ever() -> None:
    """Two flip-flops toggled alike are always equal; they do not always stay 0."""
    b = Builder("pair")
    x = b.input("x")
    for name in "pq":
        q = b.net(name)
        turned = b.part(f"D{name}", "xor", {"in": (*q, *x)})["out"]
        b.part(f"Q{name}", "flip-flop", {"d": turned, "q": q})
        b.output(name, q)
    circuit = b.circuit()
    one, other = (left_free(circuit, 0).netlist.find(name)[0] for name in "pq")
    alike = k_induction.always_in(
        circuit, lambda logic, row: logic.terms.differ(row[one].one, row[other].one) ^ 1
    )
    assert (alike.outcome, alike.k) == ("proved", 1)
    rest = k_induction.always_in(circuit, lambda _, row: row[one].one ^ 1)
    assert rest.counterexample is not None
    assert (rest.counterexample.row, dict(rest.counterexample.operands)) == (
        1,
        {"x(0)": 1, "x(1)": 0},
    )


# --------------------------------------------------------------------------------------- limits


def multiplication(terms: Terms, _: Sequence[Row]) -> Term:
    """The claim a b = b a, which is hard to prove bit by bit."""
    words = Words(terms)
    a, b = (words.unsigned([terms.variable(Variable(name, i)) for i in range(16)]) for name in "ab")
    return words.equal(words.multiply(a, b), words.multiply(b, a)).one


def test_a_time_limit_gives_undecided_and_no_guess() -> None:
    design = catalogue.design("ripple-carry-adder", n=16)
    begun = time.process_time()
    found = bounded.prove(design, multiplication, seconds=0.5)
    assert (found.outcome, str(found.reason)) == ("undecided", "the limit of 0.5 s was reached")
    assert found.counterexample is None
    assert time.process_time() - begun < 3


def test_time_up_while_looking_for_smaller_operands() -> None:
    """The claim is refuted all the same; only the operands may not be the smallest."""
    terms = Terms()
    order = [Variable("x", i) for i in reversed(range(9))]
    wrong = terms.both(*at_least(terms, [terms.variable(v) for v in order], 5)[3:])
    with Session(terms, time.monotonic() + 60) as session:
        assert session.ask(wrong)
        session.deadline = 0
        values, least = bounded.smallest(session, wrong, order)
    assert not least
    assert truths(terms, [wrong], values) == (True,)


def test_the_reference_engine_has_the_last_word(monkeypatch: pytest.MonkeyPatch) -> None:
    """A wrong unrolling, as a bug of ours would make it, is never reported as a refutation."""
    design = catalogue.design("serial-adder", n=4)
    (wrong, *_) = design.netlist.outputs["sum"]

    def unroll(of: Design, terms: Terms, last: int | None = None) -> tuple[Row, ...]:
        rows = [list(row) for row in unrolling.unroll(of, terms, last)]
        rows[-1][wrong] = Rail(rows[-1][wrong].one ^ 1)
        return tuple(rows)

    monkeypatch.setattr(bounded, "unroll", unroll)
    with pytest.raises(AssertionError, match="does not confirm"):
        bounded.computes(design)


def test_interrupt_leaves_quickly() -> None:
    script = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from test_bounded import multiplication;"
        "from edgewise import catalogue;"
        "from edgewise.engines.sat import bounded;"
        "design = catalogue.design('ripple-carry-adder', n=16);"
        "print('begun', flush=True);"
        "bounded.prove(design, multiplication)"
    )
    folder = str(Path(__file__).parent)
    with subprocess.Popen(
        [sys.executable, "-c", script, folder],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "begun\n"
        time.sleep(0.5)
        begun = time.monotonic()
        process.send_signal(signal.SIGINT)
        _, complaint = process.communicate(timeout=20)
    assert time.monotonic() - begun < 3
    assert complaint.rstrip().endswith("KeyboardInterrupt")


# ----------------------------------------------------------------------------- terms to clauses


@st.composite
def circuits_of_terms(draw: st.DrawFn) -> tuple[Terms, list[Term], list[Term]]:
    """A graph of random operations over five variables; the variables and all terms."""
    terms = Terms()
    variables = [terms.variable(Variable("x", i)) for i in range(5)]
    made = [0, *variables]
    for _ in range(draw(st.integers(1, 30))):
        a, b, c = (draw(st.sampled_from(made)) ^ draw(st.integers(0, 1)) for _ in range(3))
        operator = draw(st.sampled_from(("and", "xor", "majority", "other majority", "choose")))
        match operator:
            case "and":
                made.append(terms.both(a, b))
            case "xor":
                made.append(terms.differ(a, b))
            case "majority":
                passed = terms.both(c, terms.differ(a, b))
                made.append(terms.either(terms.both(a, b), passed))
            case "other majority":
                both = terms.both(terms.differ(a, b), terms.differ(a, c))
                made.append(terms.differ(a, both))
            case _:
                made.append(terms.choose(a, b, c))
    return terms, variables, made


@given(circuits_of_terms(), st.integers(0, 31))
@settings(max_examples=150)
def test_clauses_mean_what_the_terms_mean(
    graph: tuple[Terms, list[Term], list[Term]], number: int
) -> None:
    terms, variables, made = graph
    bits = {Variable("x", i): number >> i & 1 for i in range(5)}
    with Session(terms, time.monotonic() + 60) as session:
        for term in made:
            session.clauses.literal(term)
        assert session.ask(*(v ^ 1 ^ (number >> i & 1) for i, v in enumerate(variables)))
        found = session.bits(dict(enumerate(made)))
    assert [bool(found[i]) for i in range(len(made))] == list(truths(terms, made, bits))


def test_a_full_adder_is_not_read_through_a_node_that_has_its_literal() -> None:
    # Found by the test above: what was inside the known node had no literal.
    terms = Terms()
    x, _, y = (terms.variable(Variable("x", i)) for i in range(3))
    inner = terms.both(y, terms.differ(x, y))
    known = terms.differ(y, inner)
    outer = terms.both(y, known)
    whole = terms.differ(y, outer)
    with Session(terms, time.monotonic() + 60) as session:
        for term in (x, y, known, outer, whole):
            session.clauses.literal(term)
        assert session.ask(y, x ^ 1)
        found = session.bits(dict(enumerate((known, outer, whole))))
    assert [bool(found[i]) for i in range(3)] == list(
        truths(terms, [known, outer, whole], {Variable("x", 0): 0, Variable("x", 2): 1})
    )


@given(circuits_of_terms())
@settings(max_examples=50)
def test_asking_is_exact(graph: tuple[Terms, list[Term], list[Term]]) -> None:
    terms, _, made = graph
    holds = any(
        truths(terms, made[-1:], {Variable("x", i): number >> i & 1 for i in range(5)})[0]
        for number in range(32)
    )
    with Session(terms, time.monotonic() + 60) as session:
        assert session.ask(made[-1]) is holds


@given(st.integers(1, 9), st.data())
def test_tally(size: int, data: st.DataObject) -> None:
    terms = Terms()
    variables = [Variable("x", i) for i in range(size)]
    most = data.draw(st.integers(1, size + 2))
    counts = at_least(terms, [terms.variable(v) for v in variables], most)
    bits = {v: data.draw(st.integers(0, 1)) for v in variables}
    ones = sum(bits.values())
    assert truths(terms, counts, bits) == tuple(ones >= m for m in range(1, len(counts) + 1))
    assert len(counts) == min(most, size)
