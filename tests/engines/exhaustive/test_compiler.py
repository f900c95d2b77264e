"""The native engine: counts, searches, masks and checks, on every maker of kernels."""

from __future__ import annotations

import pickle
import sys
import threading
import time
import warnings
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from math import comb
from typing import Any, TypeVar

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.blueprint import from_text
from edgewise.design import Design
from edgewise.engines.exhaustive import check, compiler, parallel
from edgewise.engines.exhaustive.bigint import Slices
from edgewise.engines.exhaustive.kernel import Maker
from edgewise.engines.exhaustive.lanes import Plan, plan_freely, plan_in_order
from edgewise.engines.exhaustive.llvm_ir import assemble
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.arithmetic import Whole, Words
from edgewise.engines.symbolic.specification import Unsupported
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError

T = TypeVar("T")

MAKERS: dict[str, Maker] = {
    "vectors of 128": compiler.Vectors(128),
    "vectors of 256": compiler.Vectors(256),
    "vectors of 512": compiler.Vectors(512),
    "slices of 8": Slices(3),
    "slices of 65536": Slices(16),
}
every_maker = pytest.mark.parametrize("maker", MAKERS.values(), ids=MAKERS)


@pytest.fixture
def _afresh() -> Iterator[None]:
    """Choose the maker anew, before and after."""
    compiler.best.cache_clear()
    compiler._host.cache_clear()
    yield
    compiler.best.cache_clear()
    compiler._host.cache_clear()


def words(terms: Terms, *widths: int) -> tuple[Space, list[Whole]]:
    """Make operands x0, x1, … of these widths."""
    space = Space(tuple((f"x{i}", width) for i, width in enumerate(widths)))
    names = [
        Words(terms).unsigned(terms.variable(Variable(name, i)) for i in range(width))
        for name, width in space.widths
    ]
    return space, names


def carries(terms: Terms, a: Whole, b: Whole, width: int) -> Term:
    """Give the carry out of a + b in `width` bits."""
    total = Words(terms).add(a, b).bits
    return total[width] if len(total) > width else FALSE


# ---------------------------------------------------------------------- against NumPy


@every_maker
@pytest.mark.parametrize("width", [1, 2, 3, 4, 5, 7])
def test_counts_and_masks_are_numpy_s(maker: Maker, width: int) -> None:
    """Agree with NumPy's integer arithmetic on every pair of operands."""
    terms = Terms()
    space, (a, b) = words(terms, width, width)
    w = Words(terms)
    number = np.arange(1 << 2 * width)
    x, y = number >> width, number & ((1 << width) - 1)
    cases = {
        w.equal(w.multiply(a, b), w.number(6)).one: x * y == 6,
        w.less(w.subtract(a, b), w.number(-1)).one: x - y < -1,
        w.divide(w.add(a, b), 3)[1].bits[0]: (x + y) % 3 % 2 == 1,
        a.bits[0]: x % 2 == 1,
        TRUE: x == x,
        FALSE: x != x,
    }
    predicates = list(cases)
    assert compiler.count_each(terms, predicates, space, maker=maker) == tuple(
        int(wanted.sum()) for wanted in cases.values()
    )
    found = compiler.masks(terms, predicates, space, maker=maker)
    for predicate, mask, wanted in zip(predicates, found, cases.values(), strict=True):
        packed = np.packbits(wanted, bitorder="little").tobytes()
        assert mask == int.from_bytes(packed, "little")
        where = np.flatnonzero(wanted)[:5].tolist()
        assert compiler.first(terms, predicate, space, 5, maker=maker) == tuple(where)


@every_maker
def test_a_large_space(maker: Maker) -> None:
    """Count the pairs of n-bit numbers whose sum has a carry: C(2^n, 2), the pairs i < j.

    a + b >= 2^n where b > 2^n - 1 - a: one of two different numbers of 2^n, taken in order.
    """
    width = 16 if isinstance(maker, compiler.Vectors) else 10
    terms = Terms()
    space, (a, b) = words(terms, width, width)
    carry = carries(terms, a, b, width)
    assert compiler.count(terms, carry, space, maker=maker) == comb(1 << width, 2)
    first = [(1 << width) + (1 << width) - 1, 2 * (1 << width) + (1 << width) - 2]
    assert compiler.first(terms, carry, space, 2, maker=maker) == tuple(first)


@every_maker
def test_one_set_in_a_large_space(maker: Maker) -> None:
    """Find the one failure there is, wherever it lies among lanes, copies and loops."""
    width = 14 if isinstance(maker, compiler.Vectors) else 9 if maker.lane_bits > 8 else 6
    terms = Terms()
    space, (a, b) = words(terms, width, width)
    w = Words(terms)
    for x, y in ((0, 0), (1, (1 << width) - 1), (0x23, 0x15), (1 << width - 1, 2)):
        one = terms.both(w.equal(a, w.number(x)).one, w.equal(b, w.number(y)).one)
        assert compiler.some(terms, one, space, maker=maker)
        assert compiler.count(terms, one, space, maker=maker) == 1
        assert compiler.first(terms, one, space, 2, maker=maker) == ((x << width) + y,)
        assert not compiler.some(terms, terms.both(one, a.bits[0] ^ x & 1), space, maker=maker)


@every_maker
def test_bits_that_no_term_reads(maker: Maker) -> None:
    """Count 2^62 sets at once: what is not read needs no loop."""
    terms = Terms()
    space, (a, _) = words(terms, 3, 60)
    assert compiler.count(terms, terms.any_of(a.bits[:3]), space, maker=maker) == 7 << 60
    assert compiler.count_each(terms, [TRUE, FALSE], space, maker=maker) == (1 << 63, 0)
    assert compiler.first(terms, TRUE, space, 2, maker=maker) == (0, 1)


@every_maker
def test_no_operands(maker: Maker) -> None:
    """Go through the one empty set of operands."""
    terms, space = Terms(), Space(())
    assert compiler.count_each(terms, [TRUE, FALSE], space, maker=maker) == (1, 0)
    assert compiler.first(terms, TRUE, space, 3, maker=maker) == (0,)
    assert compiler.masks(terms, [TRUE, FALSE], space, maker=maker) == (1, 0)


@every_maker
@given(st.integers(0, 4095), st.integers(0, 4095))
def test_any_stretch_of_masks(maker: Maker, start: int, stop: int) -> None:
    """Give the bits from `start` to `stop`, wherever blocks begin."""
    terms = Terms()
    space, (a, b) = words(terms, 6, 6)
    differ = terms.any_of(terms.differ(x, y) for x, y in zip(a.bits, b.bits, strict=True))
    (whole,) = compiler.masks(terms, [differ], space, maker=maker)
    (part,) = compiler.masks(terms, [differ], space, start, stop, maker=maker)
    assert part == (whole >> start & (1 << max(0, stop - start)) - 1)


@st.composite
def graphs(draw: st.DrawFn) -> tuple[Terms, list[Term], Space]:
    """Draw some terms over up to 12 operand bits."""
    terms = Terms()
    space, operands = words(terms, *draw(st.lists(st.integers(1, 4), min_size=1, max_size=3)))
    pool = [bit for operand in operands for bit in operand.bits]
    for _ in range(draw(st.integers(1, 40))):
        a, b = (draw(st.sampled_from(pool)) ^ draw(st.integers(0, 1)) for _ in range(2))
        pool.append(draw(st.sampled_from((terms.both, terms.differ)))(a, b))
    roots = draw(st.lists(st.sampled_from(pool), min_size=1, max_size=4))
    return terms, roots, space


@settings(max_examples=30)
@given(graphs())
def test_all_makers_agree(graph: tuple[Terms, list[Term], Space]) -> None:
    """Count, find and mask alike, and as the masks say."""
    terms, roots, space = graph
    seen = set()
    for maker in MAKERS.values():
        counts = compiler.count_each(terms, roots, space, maker=maker)
        masks = compiler.masks(terms, roots, space, maker=maker)
        found = tuple(compiler.first(terms, root, space, 3, maker=maker) for root in roots)
        assert counts == tuple(mask.bit_count() for mask in masks)
        for numbers, mask in zip(found, masks, strict=True):
            ones = [i for i in range(space.size) if mask >> i & 1]
            assert numbers == tuple(ones[:3])
        seen.add((counts, masks, found))
    assert len(seen) == 1


# ---------------------------------------------------------------------- checking designs

ADDER = """
circuit: adder of two bits
inputs: {a: 2, b: 2}
nets: {c: 1}
parts:
  H: {part: half-adder, a: a(0), b: b(0), sum: s(0), carry-out: c}
  F: {part: full-adder, a: a(1), b: b(1), carry-in: c, sum: s(1)}
outputs: {s: 2, carry: F.carry-out}
operands: {a: 2, b: 2}
computes: {s: "PURPOSE"}
"""


def adder(purpose: str) -> Design:
    """Make a two-bit adder that is said to compute `purpose`."""
    return from_text(ADDER.replace("PURPOSE", purpose), "adder.yaml").design()


@every_maker
def test_a_right_design(maker: Maker) -> None:
    """Find no failure in any set."""
    settled = check.check(catalogue.design("serial-adder", n=5), maker=maker)
    assert (settled.holds, settled.checked, settled.failures) == (True, 1024, 0)
    assert (settled.counterexample, settled.trace, settled.by) == (None, None, maker.name)
    assert settled.seconds > 0


@every_maker
def test_a_subtly_wrong_purpose(maker: Maker) -> None:
    """Find the first operands for which it fails, and the reference engine's run of them."""
    settled = check.check(adder("min(a + b, 3)"), maker=maker)
    assert (settled.holds, settled.checked, settled.failures) == (False, 16, 6)
    assert settled.counterexample == {"a": 1, "b": 3}
    assert settled.trace is not None
    assert str(settled.trace.word("s", 0)) == "00"


def test_what_folds_to_the_same_terms_is_said_to() -> None:
    """Say "structure" where nothing is left to run."""
    text = "circuit: wires\ninputs: {a: 4}\noutputs: {y: a}\noperands: {a: 4}\ncomputes: {y: a}\n"
    settled = check.check(from_text(text, "wires.yaml").design())
    assert (settled.holds, settled.checked, settled.by) == (True, 16, "structure")


SHIFT = """
circuit: late start
inputs: {a_in: 1}
parts:
  A: {part: shift-register, width: 3, in: a_in START}
outputs: {word: A}
operands: {a: 3}
procedure:
  - {phase: load, edges: EDGES, a_in: FEED}
computes: {word: a}
"""


def shift(start: str, edges: int, feed: str) -> Design:
    """Make a register of 3 bits that a word is shifted into."""
    text = SHIFT.replace("START", start).replace("EDGES", str(edges)).replace("FEED", feed)
    return from_text(text, "late.yaml").design()


@every_maker
def test_an_answer_that_depends_on_an_initial_state_is_refused(maker: Maker) -> None:
    """Name the flip-flop that let the X in."""
    with pytest.raises(DesignError) as refused:
        check.check(shift(", start: X", 2, "a lsb-first"), maker=maker)
    assert str(refused.value) == (
        "late.yaml:10:18: the answer of late-start depends on an unknown bit: for a=0, word(0) is X"
        " in row 2; the X came in at A(2) in row 0; give it an initial state, or clear it first"
    )


def test_an_answer_that_depends_on_an_unknown_input_is_refused() -> None:
    """Name the input that let the X in."""
    with pytest.raises(DesignError) as refused:
        check.check(shift("", 3, "X"))
    assert str(refused.value) == (
        "late.yaml:10:18: the answer of late-start depends on an unknown bit: for a=0, word(0) is X"
        " in row 3; the X came in at a_in in row 0; feed it 0 or 1 in that row"
    )


def test_an_unknown_start_that_is_shifted_out_is_no_matter() -> None:
    """Accept a design whose X never reaches the answer."""
    assert check.check(shift(", start: X", 3, "a lsb-first")).holds


def test_an_x_that_no_operands_let_through_is_no_matter() -> None:
    """Look whether the X can reach the answer at all, not whether a wire leads there."""
    text = (
        "circuit: guarded\ninputs: {a: 2}\nparts:\n"
        "  K: {part: constant, value: X}\n  D: {part: xor, in: [a(0), a(1)]}\n"
        "  E: {part: xnor, in: [a(0), a(1)]}\n  B: {part: and, in: [D.out, E.out]}\n"
        "  G: {part: and, in: [K.out, B.out]}\n"
        "outputs: {y: G.out}\noperands: {a: 2}\ncomputes: {y: 0}\n"
    )
    assert check.check(from_text(text, "guarded.yaml").design()).holds


def test_a_design_without_purpose_is_refused() -> None:
    """Say that there is nothing to check."""
    text = ADDER.replace('computes: {s: "PURPOSE"}\n', "")
    with pytest.raises(DesignError) as refused:
        check.check(from_text(text, "adder.yaml").design())
    assert str(refused.value) == (
        "adder.yaml:2:1: nothing is said of what adder-of-two-bits computes, so there is nothing"
        " to check"
    )


def test_too_many_operand_bits_are_refused() -> None:
    """Say how many there are, and what to do."""
    with pytest.raises(DesignError) as refused:
        check.check(catalogue.design("serial-adder", n=32))
    assert str(refused.value) == (
        "the operands have 64 bits together; going through all of them is possible up to 63 bits:"
        " take smaller parameters, or have it proved"
    )


def test_a_design_that_is_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Say how large it is, and what to do."""
    monkeypatch.setattr(compiler, "LARGEST", 50)
    with pytest.raises(DesignError) as refused:
        check.check(catalogue.design("serial-adder", n=16), maker=compiler.Vectors(256))
    assert str(refused.value) == (
        "unrolled, the design has 178 operations; the limit for going through all operands is 50:"
        " take smaller parameters, or have it proved"
    )


def test_a_purpose_without_a_form_as_terms_is_left_to_the_caller() -> None:
    """Raise the error that means "go through the sets one by one"."""
    with pytest.raises(Unsupported):
        check.check(adder("(a + 1)**b"))


def test_terms_of_other_variables_are_refused() -> None:
    """Name the variable that is not an operand's bit."""
    terms = Terms()
    with pytest.raises(DesignError) as refused:
        compiler.count(terms, terms.variable(Variable("q", 3, 2)), Space((("a", 2), ("b", 1))))
    assert str(refused.value) == "q(3) in row 2 is not a bit of an operand; the operands are a, b"


def test_large_functions_are_compiled_too() -> None:
    """Multiply 24 by 24 bits in one kernel of more terms than are optimised well."""
    terms = Terms()
    _, (a, b) = words(terms, 24, 24)
    w = Words(terms)
    space = Space((("x0", 24), ("x1", 24)))
    square = w.equal(w.multiply(a, w.add(a, b)), w.multiply(w.add(b, a), a)).one
    cut = terms.all_of([square, *(bit ^ 1 for bit in a.bits[4:]), *(bit ^ 1 for bit in b.bits[4:])])
    masks = compiler.masks(terms, [square, cut], space, 0, 512, maker=compiler.Vectors(256))
    assert masks == ((1 << 512) - 1, (1 << 16) - 1)
    assert len(terms.reached([square])) > compiler._WELL_OPTIMISED


# ---------------------------------------------------------------------- running


def test_progress_goes_up_to_the_size_of_the_space() -> None:
    """Tell the sets done, ever more, and of how many."""
    seen: list[tuple[int, int]] = []
    terms = Terms()
    space, (a, b) = words(terms, 16, 16)
    carry = carries(terms, a, b, 16)
    compiler.count(terms, carry, space, progress=lambda done, total: seen.append((done, total)))
    assert seen == sorted(seen)
    assert {total for _, total in seen} == {1 << 32}
    assert seen[-1][0] == 1 << 32


def test_an_executor_may_be_given() -> None:
    """Run where the caller says, and leave that open."""
    terms = Terms()
    space, (a, b) = words(terms, 12, 12)
    carry = carries(terms, a, b, 12)
    threads = set()

    class Watched(ThreadPoolExecutor):
        def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Future[T]:
            def noted(*inner: Any) -> T:
                threads.add(threading.current_thread().name)
                return fn(*inner, **kwargs)

            return super().submit(noted, *args)

    with Watched(1, "given") as executor:
        count = compiler.count(terms, carry, space, executor=executor)
        assert count == comb(1 << 12, 2)
        assert executor.submit(int).result() == 0
    assert threads == {"given_0"}


@every_maker
def test_kernels_can_be_sent_to_another_process(maker: Maker) -> None:
    """Give the same after a journey as text."""
    terms = Terms()
    space, (a, b) = words(terms, 6, 6)
    plan = plan_freely(terms, [carries(terms, a, b, 6)], space, maker.lane_bits)
    kernel = maker.kernel(plan, "count")
    sent = pickle.loads(pickle.dumps(kernel))  # noqa: S301  # our own bytes
    assert sent.run(0, plan.steps) == kernel.run(0, plan.steps) == (comb(64, 2),)


def test_an_interrupt_ends_a_long_run_at_once() -> None:
    """Stop within a second in a space that would take hours."""
    terms = Terms()
    space, (a, b) = words(terms, 28, 28)
    began = time.perf_counter()

    def interrupt(_done: int, _total: int) -> None:
        if time.perf_counter() - began > 0.3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        compiler.count(terms, carries(terms, a, b, 28), space, progress=interrupt)
    assert time.perf_counter() - began < 5
    assert not [t for t in threading.enumerate() if t.name.startswith("ThreadPoolExecutor")]


def test_chunks_take_a_tenth_of_a_second() -> None:
    """Grow chunks with the speed seen, and cover every step once."""

    class Slow:
        def run(self, start: int, stop: int) -> tuple[int, ...]:
            time.sleep(0.002 * (stop - start))
            return (start, stop)

    done = sorted(parallel.sweep(Slow(), 3, 400), key=lambda chunk: chunk.start)
    assert [chunk.start for chunk in done] == [3, *(chunk.stop for chunk in done[:-1])]
    assert done[-1].stop == 400
    assert max(chunk.seconds for chunk in done) < 0.5
    assert max(chunk.stop - chunk.start for chunk in done) > 8


def test_the_first_set_is_the_first_though_chunks_come_out_of_turn() -> None:
    """Wait for all chunks before the one that found something."""
    terms = Terms()
    space, (a, b) = words(terms, 15, 15)
    w = Words(terms)
    late = w.equal(w.add(a, b), w.number((1 << 16) - 3)).one  # the first is a = 2^15 - 2
    assert compiler.first(terms, late, space, 5) == tuple(
        space.number({"x0": (1 << 15) - i, "x1": (1 << 15) - 3 + i}) for i in (2, 1)
    )


# ---------------------------------------------------------------------- the machine


@pytest.mark.usefixtures("_afresh")
def test_without_llvm_there_is_one_clear_warning(monkeypatch: pytest.MonkeyPatch) -> None:
    """Go on in plain Python, say so once, and say what to do."""
    monkeypatch.setitem(sys.modules, "llvmlite.binding", None)
    compiler._compiled.cache_clear()
    with pytest.warns(RuntimeWarning) as told:
        settled = check.check(catalogue.design("serial-adder", n=3))
    assert [str(each.message) for each in told] == [
        "LLVM can't compile for this machine (import of llvmlite.binding halted; None in"
        " sys.modules): all operands are gone through in plain Python, about a thousand times"
        " slower; reinstall llvmlite for this machine (pip install --force-reinstall llvmlite)"
    ]
    assert settled.holds
    assert settled.by == "Python whole numbers of 65536 bits"
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert check.check(catalogue.design("serial-adder", n=2)).holds


@pytest.mark.usefixtures("_afresh")
@pytest.mark.parametrize(
    ("features", "bits"),
    [("+avx2,+avx512f", 512), ("+avx2,-avx512f", 256), ("+sse2,-avx2", 128)],
)
def test_the_widest_vectors_of_the_machine_are_taken(
    monkeypatch: pytest.MonkeyPatch, features: str, bits: int
) -> None:
    """Choose by the features that LLVM reports."""
    real = compiler._host()
    compiler._compiled(assemble(_nothing(bits), "count", bits))  # before features are feigned
    monkeypatch.setattr(compiler, "_host", lambda: (real[0], features))
    assert compiler.best() == compiler.Vectors(bits)
    assert compiler.best().name == f"compiled for vectors of {bits} bits"


def _nothing(bits: int) -> Plan:
    return plan_in_order(Terms(), [FALSE], Space(()), bits.bit_length() - 1)


def test_512_bits_fuse_to_ternary_logic() -> None:
    """Find the instruction of AVX-512 (VPTERNLOG) in what LLVM makes for such a machine."""
    import llvmlite.binding as llvm

    compiler._host()
    try:
        target = llvm.Target.from_triple("x86_64-unknown-linux-gnu")
    except RuntimeError:
        pytest.skip("this LLVM writes no code for x86-64")
    terms = Terms()
    space, (a, b) = words(terms, 16, 16)
    assembly = assemble(plan_freely(terms, [carries(terms, a, b, 16)], space, 9), "count", 512)
    machine = target.create_target_machine(cpu="skylake-avx512", features="-prefer-256-bit", opt=2)
    text = machine.emit_assembly(llvm.parse_assembly(assembly.text))
    assert "vpternlogq" in text
    assert "%zmm" in text


def test_compiled_code_is_kept_in_memory_and_bounded() -> None:
    """Compile the same kernel once; forget the oldest."""
    compiler._compiled.cache_clear()
    design = catalogue.design("serial-adder", n=4)
    for _ in range(3):
        check.check(design, maker=compiler.Vectors(256))
    info = compiler._compiled.cache_info()
    assert (info.misses, info.hits >= 2) == (1, True)
    assert info.maxsize == 32


def test_a_space_counts_its_last_operand_fastest() -> None:
    """Number sets as nested loops would visit them."""
    space = Space((("a", 1), ("b", 2)))
    sets: Sequence[dict[str, int]] = [{"a": a, "b": b} for a in range(2) for b in range(4)]
    assert [space.decode(i) for i in range(space.size)] == sets
    assert [space.number(each) for each in sets] == list(range(8))
