"""The native engine: predicates compiled, and counted over very many operand sets.

A predicate, given as a term over operand bits, is compiled with LLVM to straight-line code
over the widest vectors of the machine, one operand set a lane, and run on all cores. Where
LLVM is not to be had, Python's whole numbers take its place, and a warning says so.

Sets are numbered by `operand_space.Space`. Compiled code is kept in memory only.
"""

from __future__ import annotations

import ctypes
import warnings
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

from edgewise.engines.exhaustive.bigint import Slices
from edgewise.engines.exhaustive.kernel import Kernel, Maker
from edgewise.engines.exhaustive.lanes import Plan, plan_freely, plan_in_order
from edgewise.engines.exhaustive.llvm_ir import Assembly, Sink, assemble
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.exhaustive.parallel import Progress, sweep
from edgewise.engines.sat.aside import Aside
from edgewise.engines.symbolic.terms import FALSE, Term, Terms
from edgewise.errors import DesignError, Message

LARGEST: Final = 100_000
"""Operations in a kernel, at most."""
_WELL_OPTIMISED: Final = 6_000
"""Operations up to which LLVM allots registers well; beyond, it would take seconds."""
_KEPT: Final = 32
"""Compiled kernels kept in memory."""


def count(
    terms: Terms,
    predicate: Term,
    space: Space,
    *,
    maker: Maker | None = None,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> int:
    """For how many operand sets a predicate is true.

    Parameters
    ----------
    terms : Terms
    predicate : Term
        Over operand bits, as `edgewise.engines.symbolic.unrolling.unroll` names them.
    space : Space
    maker : Maker, optional
        What makes the kernels: `best` unless given.
    executor : Executor, optional
        Where they run: threads on all cores unless given.
    progress : function, optional
        Is told (sets done, sets in all) about ten times a second.

    Raises
    ------
    DesignError
        Too many operand bits, a variable that is not an operand's, or too large to compile.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> bits = [terms.variable(Variable("a", i)) for i in range(40)]
    >>> count(terms, terms.all_of(bits[:3]), Space((("a", 40),))) == 2**37
    True
    """
    return count_each(terms, [predicate], space, maker=maker, executor=executor, progress=progress)[
        0
    ]


def count_each(
    terms: Terms,
    predicates: Sequence[Term],
    space: Space,
    *,
    maker: Maker | None = None,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> tuple[int, ...]:
    """`count` of several predicates in one go; what they share is computed once."""
    maker = maker or best()
    predicates = _inside(terms, predicates, space)
    plan = plan_freely(terms, predicates, space, maker.lane_bits)
    kernel = maker.kernel(plan, "count")
    totals = [0] * len(predicates)
    for chunk in sweep(kernel, 0, plan.steps, executor, progress, space.size // plan.steps):
        totals = [old + new for old, new in zip(totals, chunk.result, strict=True)]
    return tuple(totals)


def some(
    terms: Terms,
    predicate: Term,
    space: Space,
    *,
    maker: Maker | None = None,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> bool:
    """Whether a predicate is true for any operand set; quicker than to count, or to find one.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms, space = Terms(), Space((("a", 50),))
    >>> bits = [terms.variable(Variable("a", i)) for i in range(50)]
    >>> some(terms, terms.both(bits[3], bits[3] ^ 1), space), some(terms, bits[3], space)
    (False, True)
    """
    maker = maker or best()
    predicates = _inside(terms, [predicate], space)
    plan = plan_freely(terms, predicates, space, maker.lane_bits)
    kernel, size = maker.kernel(plan, "any"), space.size // plan.steps
    chunks = sweep(kernel, 0, plan.steps, executor, progress, size)
    return any(chunk.result[0] < chunk.stop for chunk in chunks)


def first(  # noqa: PLR0913  # the options of every run, and how many
    terms: Terms,
    predicate: Term,
    space: Space,
    most: int = 1,
    *,
    maker: Maker | None = None,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> tuple[int, ...]:
    """Numbers of the first sets for which a predicate is true, at most `most`, ascending.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> both = terms.both(*(terms.variable(Variable("a", i)) for i in (1, 2)))
    >>> first(terms, both, Space((("a", 4),)), 3)
    (6, 7, 14)
    """
    maker = maker or best()
    predicates = _inside(terms, [predicate], space)
    plan = plan_in_order(terms, predicates, space, maker.lane_bits)
    search, masks_of = maker.kernel(plan, "any"), maker.kernel(plan, "masks")
    found: list[int] = []
    step, size = 0, space.size // plan.steps
    while len(found) < most and step < plan.steps:
        step = _first_step(search, step, plan.steps, executor, progress, size)
        if step < plan.steps:
            (mask,) = masks_of.run(step, step + 1)
            found += [step * size + bit for bit in _ones(mask, most - len(found))]
        step += 1
    return tuple(found)


def _first_step(
    kernel: Kernel,
    start: int,
    stop: int,
    executor: Executor | None,
    progress: Progress | None,
    size: int,
) -> int:
    """The first step that an ``any`` kernel finds; chunks may come out of turn."""
    found, done, later = stop, start, {}
    for chunk in sweep(kernel, start, stop, executor, progress, size):
        later[chunk.start] = chunk.stop
        if chunk.result[0] < chunk.stop:
            found = min(found, chunk.result[0])
        while done in later:
            done = later.pop(done)
        if done > found:
            break
    return found


def masks(
    terms: Terms,
    roots: Sequence[Term],
    space: Space,
    start: int = 0,
    stop: int | None = None,
    *,
    maker: Maker | None = None,
) -> tuple[int, ...]:
    """For each root, a number whose bit i is its value for operand set start + i.

    For searches that score sets one by one, and for a look at every net. A stretch of whole
    blocks (a multiple of 512 sets) wastes least.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> a0, a1 = (terms.variable(Variable("a", i)) for i in range(2))
    >>> [f"{mask:04b}" for mask in masks(terms, [a0, a1], Space((("a", 2),)))]
    ['1010', '1100']
    """
    maker = maker or best()
    roots = _inside(terms, roots, space)
    stop = space.size if stop is None else min(stop, space.size)
    if stop <= start:
        return (0,) * len(roots)
    most = (stop - start).bit_length() - 1
    plan = plan_in_order(terms, roots, space, maker.lane_bits, most)
    size = space.size // plan.steps
    before = start // size
    covering = maker.kernel(plan, "masks").run(before, -(-stop // size))
    wanted = (1 << (stop - start)) - 1
    return tuple(mask >> (start - before * size) & wanted for mask in covering)


def _inside(terms: Terms, roots: Sequence[Term], space: Space) -> list[Term]:
    """Roots over the operands of a space, false for what is the number of no set."""
    nodes = (terms.nodes[number] for number in terms.reached(roots))
    space.require(node.variable for node in nodes if node.variable is not None)
    inside = space.inside(terms)
    return [terms.both(root, inside) for root in roots]


def _ones(mask: int, most: int) -> Iterator[int]:
    while mask and most:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
        most -= 1


# ---------------------------------------------------------------------- compiled kernels


@lru_cache(maxsize=1)
def best() -> Maker:
    """What makes kernels on this machine: LLVM, or else plain Python with a warning."""
    try:
        features = _host()[1]
        vector = 512 if "+avx512f" in features else 256 if "+avx2" in features else 128
        maker = Vectors(vector)
        maker.kernel(Plan(Terms(), (((FALSE, 1),),), (), ((),)), "count").run(0, 1)
    except (ImportError, OSError, RuntimeError) as wrong:
        warnings.warn(
            str(Message("llvm-unusable", why=str(wrong))),
            RuntimeWarning,
            stacklevel=3,
        )
        return Slices()
    return maker


@dataclass(frozen=True)
class Vectors:
    """Makes kernels with LLVM.

    Parameters
    ----------
    bits : int
        Of a vector: 128, 256 or 512. LLVM splits what is too wide for the machine.

    Examples
    --------
    >>> Vectors(256).name
    'compiled for vectors of 256 bits'
    """

    bits: int

    @property
    def name(self) -> str:
        """For reports."""
        return f"compiled for vectors of {self.bits} bits"

    @property
    def lane_bits(self) -> int:
        """Lanes in a vector, as a power of two."""
        return self.bits.bit_length() - 1

    def kernel(self, plan: Plan, sink: Sink) -> CompiledKernel:
        """A kernel of this plan, compiled at once.

        Raises
        ------
        DesignError
            If it is too large.
        """
        assembly = assemble(plan, sink, self.bits)
        if assembly.terms > LARGEST:
            raise DesignError(Message("unrolled-large", count=assembly.terms, most=LARGEST))
        _compiled(assembly)
        return CompiledKernel(assembly, sink, len(plan.roots), self.bits, plan.inner_bits)


@dataclass(frozen=True)
class CompiledKernel:
    """Machine code, by the text that it was made from; compiled anew in another process."""

    assembly: Assembly
    sink: Sink
    predicates: int
    vector: int
    inner_bits: int

    def run(self, start: int, stop: int) -> tuple[int, ...]:
        """Go through some steps; see `edgewise.engines.exhaustive.kernel.Kernel.run`."""
        function = _compiled(self.assembly).function
        if self.sink == "any":
            return (int(function(start, stop, None)),)
        if self.sink == "count":
            sums = (ctypes.c_uint64 * self.predicates)()
            function(start, stop, ctypes.addressof(sums))
            return tuple(sums)
        blocks, size = (stop - start) << self.inner_bits, self.vector // 8
        buffer = ctypes.create_string_buffer(blocks * size * self.predicates)
        function(start, stop, ctypes.addressof(buffer))
        raw = buffer.raw
        vectors = [raw[at : at + size] for at in range(0, len(raw), size)]
        return tuple(
            int.from_bytes(b"".join(vectors[i :: self.predicates]), "little")
            for i in range(self.predicates)
        )


@dataclass(frozen=True)
class _Code:
    """A function, and what must live as long as it."""

    function: Any
    engine: Any


@lru_cache(maxsize=_KEPT)
def _compiled(assembly: Assembly) -> _Code:
    import llvmlite.binding as llvm

    processor, features = _host()
    target = llvm.Target.from_default_triple()
    machine = target.create_target_machine(
        cpu=processor, features=features, opt=2 if assembly.terms <= _WELL_OPTIMISED else 0
    )
    module = llvm.parse_assembly(assembly.text)
    module.verify()
    engine = llvm.create_mcjit_compiler(module, machine)
    Aside(engine.finalize_object).result()  # seconds, for a large kernel
    # A foreign function called through ctypes lets other threads run meanwhile.
    kind = ctypes.CFUNCTYPE(ctypes.c_int64, ctypes.c_int64, ctypes.c_int64, ctypes.c_void_p)
    return _Code(kind(engine.get_function_address("kernel")), engine)


@lru_cache(maxsize=1)
def _host() -> tuple[str, str]:
    """Name and features of the processor, as LLVM knows them."""
    import llvmlite.binding as llvm

    llvm.initialize_native_target()
    llvm.initialize_native_asmprinter()
    features = llvm.get_host_cpu_features().flatten()
    if "+avx512f" in features:
        # LLVM prefers 256 bits on some processors with 512; then operations would not fuse
        # in pairs to ternary-logic instructions.
        features += ",-prefer-256-bit"
    return llvm.get_host_cpu_name(), features
