"""All 4,294,967,296 operand pairs of the 16-bit serial adder, through all 32 edges."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Final

import numpy as np

from benchmarks.timing import Rival, best_of, table
from edgewise import catalogue
from edgewise.engines.exhaustive import check
from edgewise.engines.exhaustive import compiler as native
from edgewise.engines.exhaustive.bigint import Slices
from edgewise.engines.exhaustive.parallel import cores

WIDTH: Final = 16
PAIRS: Final = 1 << 2 * WIDTH
_LANE_BITS: Final = 20
"""Pairs in a NumPy slice, as a power of two: 2**14 words, the best of those tried."""
_SOURCE: Final = Path(__file__).with_name("bit_slices.c")

COLD: Final = """
import time
began = time.perf_counter()
from edgewise import catalogue
from edgewise.engines.exhaustive import check
assert check.check(catalogue.design("serial-adder", n=16)).holds
print(time.perf_counter() - began)
"""


def main() -> None:
    """Print the figures."""
    print(f"16-bit serial adder, 32 edges, all {PAIRS:,} operand pairs\n")
    ours, limit, numpy = "native: unroll, compile, run", "C, nested", "NumPy bit-slices"
    rivals = [
        Rival(ours, _native(recompiled=True)),
        Rival("native: run only", _native(recompiled=False)),
        Rival("native: first in a process", _cold, 3),
        Rival("native without LLVM (sample, scaled)", _slices, 2),
        Rival(numpy, _numpy, 3),
        Rival("plain Python integers (sample, scaled)", _plain, 2),
    ]
    with tempfile.TemporaryDirectory() as folder:
        program = _compiled(Path(folder))
        if program is None:
            print("no gcc here: hand-written C is left out\n")
        else:
            rivals += [
                Rival("C, flat", lambda: _c(program, "flat")),
                Rival(limit, lambda: _c(program, "nested")),
            ]
        best = best_of(rivals)
    print(table(best, ours))
    run = best["native: run only"]
    print(f"\nNumPy / native, compile included: {best[numpy] / best[ours]:,.0f}x")
    print(f"NumPy / native, run only:         {best[numpy] / run:,.0f}x")
    if limit in best:
        print(f"C flat / native, run only:        {best['C, flat'] / run:.2f}x")
        print(f"C nested / native, run only:      {best[limit] / run:.2f}x")


def _native(*, recompiled: bool) -> Callable[[], float]:
    def run() -> float:
        if recompiled:
            native._compiled.cache_clear()  # noqa: SLF001  # else there is nothing to time
            design = catalogue.find("serial-adder").design({"n": WIDTH})
            began = time.perf_counter()
            settled = check.check(design)
            assert settled.holds
            assert settled.checked == PAIRS
            return time.perf_counter() - began
        return _run_only()

    return run


def _run_only() -> float:
    """The run itself, on all cores, by a kernel made before."""
    from edgewise.engines.exhaustive.lanes import plan_freely
    from edgewise.engines.exhaustive.operand_space import Space
    from edgewise.engines.exhaustive.parallel import sweep
    from edgewise.engines.symbolic.specification import agreement
    from edgewise.engines.symbolic.terms import Terms
    from edgewise.engines.symbolic.unrolling import unroll

    design, terms, maker = catalogue.design("serial-adder", n=WIDTH), Terms(), native.best()
    wrong = agreement(design, terms, unroll(design, terms)).one ^ 1
    plan = plan_freely(terms, [wrong], Space.of(design), maker.lane_bits)
    kernel = maker.kernel(plan, "any")
    began = time.perf_counter()
    assert all(chunk.result[0] == chunk.stop for chunk in sweep(kernel, 0, plan.steps))
    return time.perf_counter() - began


def _cold() -> float:
    return float(subprocess.check_output([sys.executable, "-c", COLD], text=True))


def _slices() -> float:
    """Eleven bits: 2**22 pairs."""
    began = time.perf_counter()
    assert check.check(catalogue.design("serial-adder", n=11), maker=Slices()).holds
    # A pair of 16 bits takes 16 edges to add, one of 11 bits takes 11.
    return (time.perf_counter() - began) * (PAIRS >> 22) * WIDTH / 11


# ---------------------------------------------------------------------- the rivals


def _numpy() -> float:
    """One core's worth of blocks on each core; NumPy lets go of Python's lock meanwhile."""
    blocks = PAIRS >> _LANE_BITS
    began = time.perf_counter()
    with ThreadPoolExecutor(cores()) as executor:
        parts = [(blocks * i // cores(), blocks * (i + 1) // cores()) for i in range(cores())]
        assert not any(executor.map(_numpy_blocks, *zip(*parts, strict=True)))
    return time.perf_counter() - began


def _numpy_blocks(start: int, stop: int) -> bool:
    """Whether any pair in some blocks comes out wrong; the same gates as in bit_slices.c."""
    number = np.arange(1 << _LANE_BITS, dtype=np.uint32)
    low = [
        np.packbits((number >> bit & 1).astype(bool), bitorder="little").view(np.uint64)
        for bit in range(_LANE_BITS)
    ]
    zeros = np.zeros_like(low[0])
    level = (zeros, ~zeros)
    half, both, t, wrong, c, d = (np.empty_like(zeros) for _ in range(6))
    failed = False
    for block in range(start, stop):
        bits = [*low, *(level[block >> i & 1] for i in range(2 * WIDTH - _LANE_BITS))]
        for each in (c, d, wrong):
            each[:] = 0
        for y, x in zip(bits[:WIDTH], bits[WIDTH:], strict=True):
            np.bitwise_xor(x, y, out=half)
            np.bitwise_and(x, y, out=both)
            np.bitwise_xor(half, c, out=t)  # sum, as the circuit has it
            np.bitwise_xor(t, half, out=t)
            np.bitwise_xor(t, d, out=t)  # against the sum as it should be
            np.bitwise_or(wrong, t, out=wrong)
            np.bitwise_and(half, c, out=c)
            np.bitwise_or(both, c, out=c)
            np.bitwise_or(x, y, out=t)
            np.bitwise_and(t, d, out=d)
            np.bitwise_or(both, d, out=d)
        np.bitwise_xor(c, d, out=t)
        np.bitwise_or(wrong, t, out=wrong)
        failed |= bool(wrong.any())
    return failed


def _plain() -> float:
    """20,000 pairs, one after the other, edge by edge."""
    sample = 20_000
    began = time.perf_counter()
    for number in range(0, PAIRS, PAIRS // sample):
        a, b = number >> WIDTH, number & ((1 << WIDTH) - 1)
        left, right, carry, total = a, b, 0, 0
        for edge in range(WIDTH):
            x, y = left & 1, right & 1
            total |= (x ^ y ^ carry) << edge
            carry = x & y | carry & (x ^ y)
            left >>= 1
            right >>= 1
        assert (total | carry << WIDTH) == a + b
    return (time.perf_counter() - began) * PAIRS / sample


def _compiled(folder: Path) -> Path | None:
    """The C program, or nothing where there is no gcc."""
    compiler = shutil.which("gcc")
    if compiler is None:
        return None
    program = folder / "bit_slices"
    flags = ["-O3", "-march=native", "-pthread"]
    subprocess.run([compiler, *flags, "-o", str(program), str(_SOURCE)], check=True)
    return program


def _c(program: Path, how: str) -> float:
    printed = subprocess.check_output([str(program), how, str(cores())], text=True)
    failures, seconds = printed.split()
    assert failures == "0"
    return float(seconds)


if __name__ == "__main__":
    main()
