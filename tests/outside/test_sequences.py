"""Sequences of shift registers and counters, held against the textbooks' tables.

Outside: M. M. Mano, M. D. Ciletti, *Digital Design*, sec. 6.2 and 6.5 (from memory, high
confidence); F. Gray, US patent 2632058, 1953, for the reflected code.
"""

from __future__ import annotations

from itertools import product

import pytest

from edgewise import blueprint, catalogue
from edgewise.design import Design
from edgewise.engines.reference import run


def states(design: Design, name: str) -> list[str]:
    """What a word holds in every row."""
    trace = run(design, {})
    return [str(trace.word(name, row)) for row in range(trace.edges + 1)]


def text(written: str) -> Design:
    return blueprint.from_text(written, "test.yaml").design()


def test_serial_transfer() -> None:
    """Mano and Ciletti, Table 6.1 (from memory): A recirculates and is copied to B."""
    design = text(
        """
        circuit: serial transfer
        parts:
          A: {part: shift-register, width: 4, in: A.out, start: 0b1011}
          B: {part: shift-register, width: 4, in: A.out, start: 0b0010}
        outputs: {a: A, b: B}
        procedure: [{phase: transfer, edges: 4}]
        """
    )
    assert states(design, "A") == ["1011", "1101", "1110", "0111", "1011"]
    assert states(design, "B") == ["0010", "1001", "1100", "0110", "1011"]


def test_ring() -> None:
    """Mano and Ciletti, sec. 6.5 (from memory): n bits, n states."""
    ring = states(catalogue.design("ring-counter", n=4, k=5), "state")
    assert ring == ["1000", "0100", "0010", "0001", "1000", "0100"]


JOHNSON = ["0000", "1000", "1100", "1110", "1111", "0111", "0011", "0001"]
UNUSED = ["0100", "1010", "1101", "0110", "1011", "0101", "0010", "1001"]


def test_johnson() -> None:
    """Mano and Ciletti, sec. 6.5 (from memory): n bits, 2n states."""
    design = catalogue.design("johnson-counter", n=4, k=9)
    assert states(design, "state") == [*JOHNSON, *JOHNSON[:2]]


def test_johnson_never_leaves_its_unused_states() -> None:
    """Mano and Ciletti, sec. 6.5 (from memory): the other 2^4 - 8 states form a loop."""
    design = text(
        """
        circuit: switch-tail ring that starts in an unused state
        parts:
          R:   {part: shift-register, width: 4, in: NOT.out, start: 0b0100}
          NOT: {part: not, in: R.out}
        outputs: {state: R}
        procedure: [{phase: count, edges: 8}]
        """
    )
    assert states(design, "state") == [*UNUSED, UNUSED[0]]
    assert sorted(JOHNSON + UNUSED) == [f"{k:04b}" for k in range(16)]


@pytest.mark.parametrize("n", [2, 3, 5, 8])
def test_number_of_states(n: int) -> None:
    """Mano and Ciletti, sec. 6.5 (from memory): n, 2n and 2^n states."""
    for name, count in (("ring-counter", n), ("johnson-counter", 2 * n), ("binary-counter", 2**n)):
        output = "count" if name == "binary-counter" else "state"
        seen = states(catalogue.design(name, n=n, k=count), output)
        assert len(set(seen)) == count
        assert seen[0] == seen[-1]


# fmt: off
GRAY = [
    "0000", "0001", "0011", "0010", "0110", "0111", "0101", "0100",
    "1100", "1101", "1111", "1110", "1010", "1011", "1001", "1000",
]
# fmt: on


def test_gray_code() -> None:
    """F. Gray, US patent 2632058: the reflected code of 4 bits, from b xor (b >> 1)."""
    design = text(
        """
        circuit: Gray code from a binary counter
        parts:
          B: {part: counter, width: 4}
          G(i = 0..2): {part: xor, in: [B(i), B(i+1)]}
        outputs: {gray: [B(3), G(2).out, G(1).out, G(0).out]}
        procedure: [{phase: count, edges: 16}]
        """
    )
    assert states(design, "gray") == [*GRAY, GRAY[0]]


def test_decade() -> None:
    """A BCD counter: Mano and Ciletti, sec. 6.4 (from memory): 1001 is followed by 0000."""
    design = catalogue.design("modulo-counter", m=10, k=11)
    assert states(design, "count") == [f"{k % 10:04b}" for k in range(12)]
    assert states(design, "terminal_count") == [str(int(k == 9)) for k in range(12)]


def test_the_carry_flip_flop_of_a_serial_adder() -> None:
    """Mano and Ciletti, sec. 6.2 (from memory): with a JK flip-flop J = xy, K = (x + y)'.

    Its next state J Q' + K' Q must be what our D flip-flop takes, and S = x xor y xor Q.
    """
    design = catalogue.design("serial-adder", n=3)
    for a, b in product(range(8), range(8)):
        trace = run(design, {"a": a, "b": b})
        for row in range(3, 6):
            x, y, q, s = (
                trace.word(name, row).value for name in ("A.out", "B.out", "C.q", "FA.sum")
            )
            j, k = x & y, 1 - (x | y)
            assert s == x ^ y ^ q
            assert trace.word("C.q", row + 1).value == (j & (1 - q)) | ((1 - k) & q)


@pytest.mark.parametrize("word", range(16))
def test_serial_registers_give_out_what_went_in(word: int) -> None:
    """Mano and Ciletti, sec. 6.2 (from memory): n edges in, n edges out, in the same order."""
    delayed = run(catalogue.design("serial-in-serial-out", n=4), {"w": word})
    unloaded = run(catalogue.design("parallel-in-serial-out", n=4), {"w": word})
    for i in range(4):
        assert delayed.word("serial_out", 4 + i).value == word >> i & 1
        assert unloaded.word("serial_out", 1 + i).value == word >> i & 1


@pytest.mark.parametrize("word", range(16))
def test_modes_of_the_universal_register(word: int) -> None:
    """Mano and Ciletti, Table 6.3 (from memory): 00 hold, 01 right, 10 left, 11 load."""
    trace = run(catalogue.design("universal-shift-register", n=4, k=2), {"w": word})
    held = [trace.word("word", row).value for row in range(7)]
    high = word & 0b1100
    assert held == [0, word, word, word >> 1, word >> 2, high >> 1, high]
