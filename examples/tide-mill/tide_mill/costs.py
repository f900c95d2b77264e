"""A cost model: everything made of NAND gates of two inputs."""

from functools import partial
from math import ceil, log2

from edgewise.study.cost.technology import Plain, Technology, slowest, summed

# For two inputs: NAND gates, and how many of them on the slowest way.
NANDS = {"and": (2, 2), "or": (3, 2), "xor": (4, 3), "nand": (1, 1), "nor": (4, 3), "xnor": (5, 4)}
OTHERS = {"not": (1, 1), "buffer": (2, 2), "multiplexer": (4, 3)}
STRAIGHT = {"nand": "and", "nor": "or", "xnor": "xor"}


def nands(operator: str, inputs: int) -> int:
    """NAND gates in an elementary gate; a wide one is a tree whose last gate may invert."""
    if operator in OTHERS:
        return OTHERS[operator][0]
    inner = STRAIGHT.get(operator, operator)
    return NANDS[inner][0] * (inputs - 2) + NANDS[operator][0]


def levels(operator: str, inputs: int) -> int:
    """NAND gates on the slowest way through it."""
    if operator in OTHERS:
        return OTHERS[operator][1]
    inner = STRAIGHT.get(operator, operator)
    return NANDS[inner][1] * (ceil(log2(inputs)) - 1) + NANDS[operator][1]


_PLAIN = Plain(partial(summed, nands), partial(slowest, levels), flip_flop=6, clock_to_q=3, setup=2)

NAND_ONLY = Technology(
    name="nand-only",
    title="NAND gates alone",
    area_unit="NAND gates",
    time_unit="NAND delays",
    area=_PLAIN.area,
    timing=_PLAIN.timing,
    about="every gate is made of NAND gates of two inputs; an XOR of 4, a flip-flop of 6",
    source="common practice, no source",
    limits="what is inverted twice in a row is not simplified",
)
