"""Serial addition by hand, rightly and wrongly, as learners write it; nothing of ours is run.

Two words are shifted into A and B, LSB first; then at every edge their LSBs and the carry give a
bit of the sum, all shift right, and X enters A and B. Wrong procedures after J. S. Brown and R. R.
Burton, "Diagnostic Models for Procedural Bugs in Basic Mathematical Skills", Cognitive Science
2(2), 1978, 155-192: the carry that is left out, added where there is none, never cleared; the
others are common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Row = dict[str, str]


@dataclass
class Writer:
    """Somebody who fills in a table: the wrong procedures they have, and how careful they are.

    `carries_on` says whether a careless bit is read in the next row, or only written.
    """

    bugs: frozenset[str] = frozenset()
    careless: float = 0.0
    carries_on: bool = False

    def table(self, n: int, a: int, b: int, chance: random.Random) -> list[Row]:
        """Rows 1 … 2n with the columns A, B, C and S: n edges to load the words, n to add them."""
        feeds = [[str(number >> i & 1) for i in range(n)] for number in (a, b)]
        if "msb-first" in self.bugs:
            feeds = [feed[::-1] for feed in feeds]
        state = {"A": ["0"] * n, "B": ["0"] * n, "C": ["0"], "S": ["0"] * n}
        late, rows = "0", []
        for edge in range(2 * n):
            fed = [feed[edge] if edge < n else "X" for feed in feeds]
            state, late = self.edge(state, late, fed)
            written = self.write(state, chance)
            rows.append({name: "".join(reversed(bits)) for name, bits in written.items()})
            if self.carries_on:
                state = written
        return rows

    def edge(
        self, state: Mapping[str, list[str]], late: str, fed: Sequence[str]
    ) -> tuple[dict[str, list[str]], str]:
        """All that stands after one edge more, LSB first."""
        a, b, carry = (int(state[name][0]) for name in "ABC")
        if "carry-too-far" in self.bugs:
            carry = int(late)
        if "carry-dropped" in self.bugs:
            carry = 0
        total = a + b + carry
        bit = int(total > 0) if "or-for-sum" in self.bugs else total % 2
        new = a & b if "carry-of-two" in self.bugs else total // 2
        if "carry-stays-set" in self.bugs:
            new |= int(state["C"][0])
        entering = {"A": fed[0], "B": fed[1], "S": str(bit)}
        moved = {name: [*state[name][1:], entering[name]] for name in "ABS"}
        return {**moved, "C": [str(new)]}, state["C"][0]

    def write(self, state: Mapping[str, list[str]], chance: random.Random) -> dict[str, list[str]]:
        """What is written for it: now and then one bit is wrong."""
        written = {name: list(bits) for name, bits in state.items()}
        for bits in written.values():
            if chance.random() < self.careless:
                place = chance.randrange(len(bits))
                bits[place] = "0" if bits[place] == "1" else "1"
        return written
