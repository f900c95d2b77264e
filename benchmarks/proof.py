"""How long it takes to prove that two adders give the same answers for all operands."""

from __future__ import annotations

from typing import Final

from edgewise import catalogue
from edgewise.engines.sat import equivalence

WIDTHS: Final = (8, 16, 32, 64)
PAIRS: Final = (
    ("serial-adder", "ripple-carry-adder-without-carry-in"),
    ("serial-adder", "carry-lookahead-adder-without-carry-in"),
    ("ripple-carry-adder", "carry-lookahead-adder"),
)


def main() -> None:
    """Print the figures."""
    print("same answers for all operands: best of 3, seconds\n")
    width = max(len(f"{a} = {b}") for a, b in PAIRS)
    print(f"{'':{width}}" + "".join(f"  n = {n:<4}" for n in WIDTHS))
    for name, other in PAIRS:
        cells = []
        for n in WIDTHS:
            designs = catalogue.design(name, n=n), catalogue.design(other, n=n)
            proofs = [equivalence.same(*designs) for _ in range(3)]
            assert all(proof.outcome == "proved" for proof in proofs)
            cells.append(f"{min(proof.seconds for proof in proofs):8.3f}")
        print(f"{f'{name} = {other}':{width}}" + " ".join(cells), flush=True)


if __name__ == "__main__":
    main()
