"""Lessons that the tests make films of; short ones, since every second costs processor time."""

from __future__ import annotations

from typing import Final

TIDE: Final = """\
---
title: Two tide gauges <north & south>
design: serial-adder
with: {n: 3}
operands: {a: 5, b: 3}
---
Two tides.

## Load

```steps
- {rows: 0, say: "At the start all registers are empty, and the carry is 0."}
- {rows: 3, point: [A, B], say: "After three edges both words are in."}
```

## Add {of} them

```steps
- {rows: 4, point: [C, S(2)], predict: C, say: "1 + 1: the sum bit is 0, the carry > 0."}
- {rows: 5..6, say: "The next two columns follow {each with the carry of the one before}."}
```
"""
"""Six rows, a question, two sections, and characters that mean something to formats."""
SHORT: Final = """\
---
title: Ferry
design: serial-adder
with: {n: 2}
operands: {a: 2, b: 1}
---
```steps
- {rows: 2..3, say: Look.}
```
"""
