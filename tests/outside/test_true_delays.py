"""True delays: circuits played event by event, for every change of their operands.

Outside: the definition of a gate with a delay, common practice (no source): its output at a
moment is its function of its inputs one delay earlier. Played here without code of ours: a bit of
a whole number is one change of operands, so that all changes are played at once. Delays are those
of the unit-gate model (A. Tyagi, IEEE Trans. Computers 42(10), 1993; from memory).

What is held against it: that a critical path which we call false is never reached, and that one
which we say is taken is reached where all changes can be tried; and that the catalogue's
carry-skip adder, whose groups hand the carry on by a multiplexer, is quick in both directions,
while one whose groups take an OR of ripple and skip lets a falling carry ripple through.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import inf

import pytest

from edgewise import blueprint, catalogue
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.study.cost import critical_path, true_delay

Gates = list[tuple[str, tuple[object, ...], object]]
"""Operator, inputs (for a multiplexer select, d0, d1), output; each after what it reads."""
Change = tuple[tuple[int, int], tuple[int, int]]
"""Words a and b before and after."""
TIMES = {"not": 0, "buffer": 0, "multiplexer": 2, "xor": 2, "xnor": 2}


def played(operator: str, inputs: Sequence[int], every: int) -> int:
    if operator == "multiplexer":
        select, d0, d1 = inputs
        return select & d1 | (every ^ select) & d0
    value = inputs[0]
    for other in inputs[1:]:
        value = {"a": value & other, "n": value & other, "o": value | other, "x": value ^ other}[
            "o" if operator in ("or", "nor") else operator[0]
        ]
    return value ^ every if operator in ("not", "nand", "nor", "xnor") else value


def time_of(operator: str, inputs: int) -> int:
    """In unit gates: wide gates are balanced trees."""
    each = TIMES.get(operator, 1)
    return each if operator == "multiplexer" else each * (inputs - 1).bit_length()


def settled(
    gates: Gates, before: Mapping[object, int], after: Mapping[object, int], ends: Sequence[object]
) -> tuple[list[int], list[int]]:
    """For each moment t from 0 on, the changes (as bits) after which an end still moves at t.

    Then what the ends are at last.
    """
    every = max(map(int, [*before.values(), *after.values(), 1]))
    every = (1 << every.bit_length()) - 1
    bits = {**{net: [before[net], after[net]] for net in before}}

    def at(net: object, moment: int) -> int:
        values = bits[net]
        return values[min(max(moment + 1, 0), len(values) - 1)]

    for operator, inputs, output in gates:
        delay = time_of(operator, len(inputs))
        longest = max(len(bits[net]) for net in inputs) + delay
        bits[output] = [
            played(operator, [at(net, moment - delay) for net in inputs], every)
            for moment in range(-1, longest - 1)
        ]
    last = max(len(bits[net]) for net in ends) - 1
    moved = [0] * last
    for net in ends:
        for moment, (one, other) in enumerate(pairwise(bits[net])):
            moved[moment] |= one ^ other
    return moved, [bits[net][-1] for net in ends]


def last_moved(moved: Sequence[int]) -> int:
    return max((moment for moment, changes in enumerate(moved) if changes), default=0)


def columns(bits: int) -> list[int]:
    """For each of some bits, its values in all 2**bits rows of a truth table, row 0 lowest."""
    found = []
    for i in range(bits):
        block = ((1 << (1 << i)) - 1) << (1 << i)
        repeated = block
        width = 2 << i
        while width < 1 << bits:
            repeated |= repeated << width
            width *= 2
        found.append(repeated)
    return found


def gates_of(netlist: Netlist) -> Gates:
    """The catalogue's netlist as plain data."""
    return [(gate.operator, gate.inputs, gate.output) for gate in netlist.gates]


def every_change(netlist: Netlist) -> tuple[dict[object, int], dict[object, int]]:
    inputs = [net for bits in netlist.inputs.values() for net in bits]
    rows = columns(2 * len(inputs))
    size = (1 << (1 << 2 * len(inputs))) - 1
    fixed: dict[object, int] = {0: 0, 1: size}
    return (
        fixed | dict(zip(inputs, rows[: len(inputs)], strict=True)),
        fixed | dict(zip(inputs, rows[len(inputs) :], strict=True)),
    )


SMALL: Sequence[tuple[str, Mapping[str, int], bool]] = (
    ("ripple-carry-adder", {"n": 4}, True),
    ("ripple-carry-adder-without-carry-in", {"n": 5}, True),
    ("carry-lookahead-adder", {"n": 4}, True),
    ("carry-select-adder", {"n": 5}, True),
    ("carry-increment-adder", {"n": 5}, True),
    ("kogge-stone-adder", {"n": 5}, True),
    ("brent-kung-adder", {"n": 5}, True),
    ("carry-skip-adder", {"n": 4, "m": 4}, True),
    ("carry-skip-adder", {"n": 3, "m": 2}, False),
    ("carry-skip-adder", {"n": 4, "m": 2}, False),
    ("carry-skip-adder", {"n": 5, "m": 2}, False),
    ("carry-skip-adder", {"n": 4, "m": 2, "c": 1}, False),
)


@pytest.mark.parametrize(("name", "numbers", "taken"), SMALL)
def test_every_change_of_every_operand(name: str, numbers: Mapping[str, int], taken: bool) -> None:  # noqa: FBT001
    design = catalogue.design(name, **numbers)
    netlist = design.netlist
    before, after = every_change(netlist)
    ends = [net for bits in netlist.outputs.values() for net in bits]
    found = last_moved(settled(gates_of(netlist), before, after, ends)[0])
    longest = critical_path.longest(netlist).length
    assert found <= longest
    assert (found == longest) is taken
    told = true_delay.of(design)
    assert told.shown is not None
    assert [told.shown.at, told.longest] == [found, longest]
    assert (told.at == told.longest) is taken
    assert told.at == told.most == latest_known(gates_of(netlist), netlist)


def latest_known(gates: Gates, netlist: Netlist) -> int:
    """When the last output is known at the latest, gate by gate, for every word of the inputs.

    A gate knows its output one delay after the first input that decides it alone, or else after the
    last; a multiplexer besides after both its data, where they are equal. Common practice (floating
    mode), no source.
    """
    inputs = [net for bits in netlist.inputs.values() for net in bits]
    latest = 0
    for word in range(1 << len(inputs)):
        bits: dict[object, int] = {0: 0, 1: 1}
        known: dict[object, float] = {0: -inf, 1: -inf}
        for i, net in enumerate(inputs):
            bits[net], known[net] = word >> i & 1, 0
        for operator, read, output in gates:
            bits[output] = played(operator, [bits[net] for net in read], 1)
            moment = max(known[net] for net in read)
            if operator == "multiplexer":
                select, *data = read
                moment = max(known[select], known[data[bits[select]]])
                if bits[data[0]] == bits[data[1]]:
                    moment = min(moment, max(known[net] for net in data))
            elif operator in DECIDES:
                alone = [known[net] for net in read if bits[net] == DECIDES[operator]]
                moment = min(alone, default=moment)
            known[output] = moment + time_of(operator, len(read))
        ends = (known[net] for bits_ in netlist.outputs.values() for net in bits_)
        latest = max(latest, *(int(moment) for moment in ends if moment > -inf), 0)
    return latest


DECIDES = {"and": 0, "nand": 0, "or": 1, "nor": 1}
"""The bit of one input that decides a gate."""


CONSTANT = """
circuit: a gate with a constant
inputs: {x: 1, y: 1}
parts:
  P: {part: xor, in: [x, y]}
  Q: {part: and, in: [P.out, 0]}
  Z: {part: or, in: [Q.out, x]}
outputs: {z: Z.out}
operands: {x: 1, y: 1}
"""


def test_a_path_through_a_gate_that_a_constant_holds() -> None:
    design = blueprint.from_text(CONSTANT, "c.yaml").design()
    netlist = design.netlist
    before, after = every_change(netlist)
    moved, _ = settled(gates_of(netlist), before, after, netlist.outputs["z"])
    assert critical_path.longest(netlist).length == 4
    assert last_moved(moved) == 1
    found = true_delay.of(design)
    assert found.at == found.most == 1
    assert found.paths == 2


# ---------------------------------------------------------------------- carry-skip, by gates or not


def carry_skip(n: int, m: int, *, multiplexer: bool) -> Gates:
    """A carry-skip adder of our own: groups of m places, the lowest without a skip."""
    made: Gates = []
    carry: object = None
    for low in range(0, n, m):
        into, through = carry, []
        for i in range(low, min(low + m, n)):
            made += [("xor", (f"a{i}", f"b{i}"), f"p{i}"), ("and", (f"a{i}", f"b{i}"), f"g{i}")]
            through.append(f"p{i}")
            if carry is None:
                carry = f"g{i}"
                made.append(("buffer", (f"p{i}",), f"s{i}"))
                continue
            made.append(("xor", (carry, f"p{i}"), f"s{i}"))
            made.append(("and", (carry, f"p{i}"), f"t{i}"))
            made.append(("or", (f"g{i}", f"t{i}"), f"c{i}"))
            carry = f"c{i}"
        if into is None:
            continue
        made.append(("and", tuple(through), f"P{low}"))
        if multiplexer:
            made.append(("multiplexer", (f"P{low}", carry, into), f"C{low}"))
        else:
            made += [("and", (into, f"P{low}"), f"k{low}"), ("or", (carry, f"k{low}"), f"C{low}")]
        carry = f"C{low}"
    made.append(("buffer", (carry,), f"s{n}"))
    return made


def fed(n: int, pairs: Sequence[tuple[int, int]]) -> dict[object, int]:
    return {
        f"{word}{i}": sum((pair[which] >> i & 1) << lane for lane, pair in enumerate(pairs))
        for which, word in enumerate("ab")
        for i in range(n)
    }


def delays(gates: Gates, n: int, changes: Sequence[Change]) -> list[int]:
    """When each change of a and b has settled; what is there at last is their sum."""
    one, other = (fed(n, [change[i] for change in changes]) for i in (0, 1))
    moved, last = settled(gates, one, other, [f"s{i}" for i in range(n + 1)])
    for lane, (_, (a, b)) in enumerate(changes):
        assert sum((bit >> lane & 1) << i for i, bit in enumerate(last)) == a + b
    return [
        max((moment for moment, bits in enumerate(moved) if bits >> lane & 1), default=0)
        for lane in range(len(changes))
    ]


def carried(n: int) -> Iterator[Change]:
    """A carry that rises or falls at place i and runs to place j, for all i and j, and chance."""
    for i in range(n):
        for j in range(i + 1, n + 1):
            run = (1 << j) - (1 << i)
            for rest in (0, (1 << i) - 1):
                yes, no = (run | rest, 1 << i), (run | rest, 0)
                yield yes, no
                yield no, yes
    chance = random.Random(5)  # noqa: S311
    for _ in range(4000):
        a, b, c, d = (chance.getrandbits(n) for _ in range(4))
        yield (a, b), (c, d)
        yield (a, ~a & (1 << n) - 1), (c, ~c & (1 << n) - 1)


def critical_path_length(gates: Gates) -> int:
    at: dict[object, int] = {}
    for operator, inputs, output in gates:
        at[output] = time_of(operator, len(inputs)) + max(at.get(net, 0) for net in inputs)
    return max(at.values())


def as_design(gates: Gates, n: int) -> Design:
    """The gates as a circuit text."""
    names: dict[object, str] = {f"{w}{i}": f"{w}({i})" for w in "ab" for i in range(n)}
    names |= {output: f"{output}.out" for _, _, output in gates}
    lines = []
    for operator, inputs, output in gates:
        read = [names[net] for net in inputs]
        told = f"in: [{', '.join(read)}]"
        if operator == "multiplexer":
            told = f"select: {read[0]}, d0: {read[1]}, d1: {read[2]}"
        elif operator == "buffer":
            told = f"in: {read[0]}"
        lines.append(f"  {output}: {{part: {operator}, {told}}}")
    words = f"{{a: {n}, b: {n}}}"
    text = f"circuit: skip\ninputs: {words}\nparts:\n" + "\n".join(lines)
    joined = ", ".join(f"o{i}: s{i}.out" for i in range(n + 1))
    text += f"\noutputs: {{{joined}}}\noperands: {words}\n"
    return blueprint.from_text(text, "skip.yaml").design()


def test_a_falling_carry_ripples_where_gates_skip() -> None:
    """32 bits, groups of 4: a is all ones and b goes from 1 to 0; another change takes 1 more."""
    change = [((2**32 - 1, 1), (2**32 - 1, 0))]
    gates, chosen = (carry_skip(32, 4, multiplexer=how) for how in (False, True))
    assert (critical_path_length(gates), delays(gates, 32, change)) == (71, [70])
    assert critical_path_length(chosen) == 78
    told = true_delay.of(as_design(gates, 32))
    assert told.longest == told.at == told.most == 71
    assert told.shown is not None
    both = (tuple(pair.values()) for pair in (told.shown.before, told.shown.operands))
    assert delays(gates, 32, [tuple(both)]) == [told.shown.at] == [71]  # type: ignore[list-item]
    told = true_delay.of(as_design(chosen, 32))
    assert told.longest == 78
    assert told.at == told.most == 30
    rising = [(after, before) for before, after in change]
    assert [delays(g, 32, rising)[0] < 40 for g in (gates, chosen)] == [True, True]
    assert delays(chosen, 32, change)[0] < 40


@pytest.mark.parametrize(("n", "m"), [(8, 4), (16, 4), (32, 4), (32, 8)])
def test_no_change_that_was_tried_waits_for_the_ripple(n: int, m: int) -> None:
    """The ripple of one group, the skips between, one ripple more, in unit gates.

    Parhami's worst case, *Computer Arithmetic*, sec. 7.1 (from memory).
    """
    groups = -(-n // m)
    bound = 1 + 2 * (m - 1) + 2 * (groups - 1) + 2 * (m - 1) + 2 + 1
    found = delays(carry_skip(n, m, multiplexer=True), n, list(carried(n)))
    assert max(found) <= bound


@pytest.mark.parametrize(("n", "m"), [(4, 2), (8, 4), (16, 4), (32, 4), (13, 3)])
def test_the_catalogue_has_the_one_with_multiplexers(n: int, m: int) -> None:
    """Change by change as late as ours; so are its critical path and its size."""
    netlist = catalogue.design("carry-skip-adder", n=n, m=m).netlist
    names: dict[object, object] = {
        net: f"{word}{i}" for word, bits in netlist.inputs.items() for i, net in enumerate(bits)
    }
    outputs = (*netlist.outputs["sum"], *netlist.outputs["carry"])
    copied: Gates = [
        (operator, tuple(names.get(net, net) for net in inputs), output)
        for operator, inputs, output in gates_of(netlist)
    ]
    copied += [("buffer", (names.get(net, net),), f"s{i}") for i, net in enumerate(outputs)]
    ours = carry_skip(n, m, multiplexer=True)
    changes = list(carried(n))[:3000]
    assert delays(copied, n, changes) == delays(ours, n, changes)
    assert critical_path.longest(netlist).length == critical_path_length(ours)
