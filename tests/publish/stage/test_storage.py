"""What storage elements are said to do at an edge, held against what the engine does."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final, TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise.circuit.builder import Bits, Builder, wires
from edgewise.circuit.model import CLOCK
from edgewise.design import Design, Phase
from edgewise.engines import reference
from edgewise.trace import Trace
from tests.strategies import designs, operands_of
from tests.web.telling import told

Case: TypeAlias = Mapping[str, int]
"""What stands at each port of a part before an edge; ``q`` is what it holds."""


# ---------------------------------------------------------------------- one part, every control


def single(kind: str, ports: tuple[str, ...], settings: dict[str, int | str]) -> Design:
    """One part K, each of its ports fed by an input of that name; ``go`` gates its clock."""
    b = Builder("one part")
    fed: dict[str, Bits] = {}
    for port in ports:
        wide = port == "d" and kind != "flip-flop"
        bits = b.input(port, int(settings["width"]) if wide else 1)
        if port == "go":
            fed["clock"] = b.part("gate", "and", {"in": (*wires(CLOCK, 1), *bits)})["out"]
        else:
            fed[port] = bits
    b.output("y", b.part("K", kind, fed, settings)["q"])
    return Design("one-part", b.circuit(), {}, (), (Phase("p", 1, ()),))


def subsets(*controls: str) -> Iterator[tuple[str, ...]]:
    for count in range(len(controls) + 1):
        yield from itertools.combinations(controls, count)


def every_part() -> Iterator[tuple[str, tuple[str, ...], dict[str, int | str]]]:
    """Every storage element with every choice of its controls."""
    for some in subsets("enable", "clear", "go"):
        yield "flip-flop", ("d", *some), {}
        yield "register", ("d", *some), {"width": 2}
    for some in subsets("enable", "clear", "load", "left", "go"):
        also = ("d",) * ("load" in some) + ("left-in",) * ("left" in some)
        yield "shift-register", ("in", *also, *some), {"width": 2}
        if "left" not in some:
            yield "shift-register", ("in", *also, *some), {"width": 2, "direction": "left"}
    for some in subsets("enable", "clear", "load", "go"):
        for modulo in (3, 4):
            also = ("d",) * ("load" in some)
            yield "counter", (*also, *some), {"width": 2, "modulo": modulo}


def effects(
    kind: str, ports: tuple[str, ...], settings: dict[str, int | str]
) -> dict[str, tuple[Callable[[Case], int], Callable[[Case], str]]]:
    """All that a part of this kind can do: the word that it then holds, and the sentence."""
    modulo = int(settings.get("modulo", 4))
    onward = {
        "flip-flop": (lambda c: c["d"], lambda c: f"K took {c['d']}."),
        "register": (lambda c: c["d"], lambda c: f"K took {c['d']:02b}."),
        "shift-register": (
            lambda c: c["in"] << 1 | c["q"] >> 1,
            lambda c: shifted("right", c["in"], c["q"] & 1),
        ),
        "counter": (
            lambda c: (c["q"] + 1) % modulo,
            lambda c: f"K counted from {c['q']:02b} to {(c['q'] + 1) % modulo:02b}.",
        ),
    }[kind]
    if settings.get("direction") == "left":
        onward = (
            lambda c: (c["q"] << 1 | c["in"]) & 3,
            lambda c: shifted("left", c["in"], c["q"] >> 1),
        )
    found: dict[str, tuple[Callable[[Case], int], Callable[[Case], str]]] = {
        "onward": onward,
        "hold": (lambda c: c["q"], lambda _: "K kept its value."),
        "clear": (lambda _: 0, lambda _: "K was cleared."),
    }
    if "load" in ports:
        found["load"] = (lambda c: c["d"], lambda c: f"K loaded {c['d']:02b}.")
    if "left" in ports:
        found["left"] = (
            lambda c: (c["q"] << 1 | c["left-in"]) & 3,
            lambda c: shifted("left", c["left-in"], c["q"] >> 1),
        )
    return found


def shifted(way: str, came: int, gone: int) -> str:
    """What is said of a shift."""
    return f"K shifted {way} ({came} in, {gone} out)."


def cases(design: Design, controls: Case, states: int) -> Iterator[tuple[Case, Trace]]:
    """Every state and all data with these controls, and the edge that follows."""
    netlist = design.netlist
    data = {name: nets for name, nets in netlist.inputs.items() if name not in controls}
    for state in range(states):
        for values in itertools.product(*(range(1 << len(nets)) for nets in data.values())):
            case = {**controls, **dict(zip(data, values, strict=True)), "q": state}
            stored = [state >> i & 1 for i in range(len(netlist.flip_flops))]
            fed = {
                name: [case[name]] if name in controls else [case[name] >> i & 1 for i in range(2)]
                for name in netlist.inputs
            }
            fed = {name: fed[name][: len(netlist.inputs[name])] for name in fed}
            before = reference.settle(netlist, stored, fed)
            following = [reference.next_bit(f, before) for f in netlist.flip_flops]
            after = reference.settle(netlist, following, fed)
            yield case, Trace(design, {}, (before, after))


@pytest.mark.parametrize(("kind", "ports", "given"), list(every_part()))
def test_the_verb_is_what_the_controls_force(
    kind: str, ports: tuple[str, ...], given: dict[str, int | str]
) -> None:
    """A thing is said to be done if and only if it is done whatever is stored and comes in."""
    design = single(kind, ports, given)
    possible = effects(kind, ports, given)
    controls = [port for port in ports if port not in ("d", "in", "left-in")]
    states = int(given.get("modulo", 1 << len(design.netlist.flip_flops)))
    for bits in itertools.product((0, 1, 2), repeat=len(controls)):
        runs = list(cases(design, dict(zip(controls, bits, strict=True)), states))
        forced = [
            say
            for effect, say in possible.values()
            if all(
                (word := trace.word("K", 1)).known and word.value == effect(case)
                for case, trace in runs
            )
        ]
        assert len(forced) < 2
        for case, trace in runs:
            text = forced[0](case) if forced else "What K did is unknown."
            assert without_reason(told(trace, 1), trace) == f"Edge 1, phase p: {text}"


def without_reason(text: str, trace: Trace) -> str:
    """A sentence without the control that it names, which has that bit just before the edge."""
    found = re.search(r"(?: \(|(?<=\)), as )(\w+) = ([01X])\)?\.$", text)
    if found is None:
        return text
    assert str(trace.word(found[1], 0)) == found[2]
    return text[: found.start()] + "."


# ---------------------------------------------------------------------- random circuits

ELSEWHERE: Final = "found|adders added|not all known|is unknown|others kept|part kept|is stored"
"""Sentences about adders, or that name no part."""


def happened(clause: str, trace: Trace, row: int) -> bool:
    """Whether what a clause says of stores is so; False also for what is no such clause."""

    def word(name: str, at: int) -> str:
        return str(trace.word(name, at))

    if found := re.fullmatch(r"(\S+) (?:took|loaded) ([01X]+)", clause):
        return word(found[1], row) == found[2]
    if found := re.fullmatch(r"(\S+) shifted (left|right) \(([01X]) in, ([01X]) out\)", clause):
        name, way, came, gone = found.groups()
        old, new = word(name, row - 1), word(name, row)
        if way == "right":
            return new == came + old[:-1] and gone == old[-1]
        return new == old[1:] + came and gone == old[0]
    if found := re.fullmatch(r"(\S+) counted from ([01X]+) to ([01X]+)", clause):
        ends = [word(found[1], row - 1), word(found[1], row)]
        upwards = "X" in "".join(ends) or int(ends[1], 2) in (0, int(ends[0], 2) + 1)
        return ends == [found[2], found[3]] and upwards
    if found := re.fullmatch(r"(\S+) (?:was|were) cleared", clause):
        return not word(found[1], row).strip("0")
    if found := re.fullmatch(r"(\S+) kept (?:its value|their values)", clause):
        return word(found[1], row) == word(found[1], row - 1)
    return False


def clauses(sentence: str) -> Iterator[str]:
    """What a sentence says of each part."""
    said = re.sub(r"(?: \(|, as )[^ ]+ = [01X]+\)?$", "", sentence.rstrip("."))
    if listed := re.fullmatch(r"(.*?) shifted (left|right) \((.*)\)", said):
        names = re.split(", | and ", listed[1])
        for name, move in zip(names, listed[3].split("; "), strict=True):
            yield f"{name} shifted {listed[2]} ({re.sub(r' = .* in', ' in', move)})"
    elif listed := re.fullmatch(
        r"(.*?) (kept (?:its value|their values)|(?:was|were) cleared)", said
    ):
        yield from (f"{name} {listed[2]}" for name in re.split(", | and ", listed[1]))
    else:
        yield from re.split(", | and ", said)


@settings(max_examples=80, deadline=None)
@given(st.data())
def test_what_is_said_of_random_circuits_happened(data: st.DataObject) -> None:
    design = data.draw(designs(depth=0))
    trace = reference.run(design, data.draw(operands_of(design)))
    for row in range(1, trace.edges + 1):
        text = told(trace, row).split(": ", 1)[1]
        for sentence in re.split(r"(?<=\.) ", text):
            if re.search(ELSEWHERE, sentence):
                continue
            wrong = [c for c in clauses(sentence) if not happened(c, trace, row)]
            assert not wrong, (row, sentence)
