"""Graphs that contradict themselves are refused, each with one clear message."""

from __future__ import annotations

import math
from typing import Any

import pytest

from edgewise.errors import EdgewiseError
from edgewise.views.layout.elk import lay_out
from edgewise.views.layout.graph import Box, Graph, Port, Wire, check, rooms


def stage(name: str, **more: Any) -> Box:
    return Box(
        name, 60, 40, (Port(f"{name}.d", "left", 20), Port(f"{name}.q", "right", 20)), **more
    )


A, B = stage("A"), stage("B")
AB = Wire("w", "A.q", ("B.d",))
PIN = Box("pin", 30, 20, (Port("pin.p", "bottom", 15),), hangs_on="top.t")
TOP = Box("top", 60, 40, (Port("top.t", "top", 20), Port("top.q", "right", 20)))
CASE = Box("case", 0, 0, (Port("case.a", "left"),), children=(stage("in"),))

REFUSED = {
    "the same box": (
        Graph((A, stage("B", children=(Box("A", 1, 1),)))),
        "2 boxes have the id A; ids must differ: rename all but one",
    ),
    "the same port": (
        Graph((A, Box("B", 9, 9, (Port("A.q", "left", 1),)))),
        "2 ports have the id A.q; ids must differ: rename all but one",
    ),
    "the same wire": (
        Graph((A, B), (AB, Wire("w", "B.q", ("A.d",)))),
        "2 wires have the id w; ids must differ: rename all but one",
    ),
    "a negative height": (
        Graph((Box("C", 60, -40),)),
        "the height of box C is -40; it must be a number from 0 up",
    ),
    "an endless width": (
        Graph((Box("C", math.nan, 40),)),
        "the width of box C is nan; it must be a number from 0 up",
    ),
    "a negative label": (
        Graph((A, B), (Wire("w", "A.q", ("B.d",), label=(20, -1)),)),
        "the label of wire w is (20, -1); both sizes must be from 0 up",
    ),
    "a port off its box": (
        Graph((Box("C", 60, 40, (Port("C.d", "left", 41),)),)),
        "port C.d lies at 41 of the left side of box C, which is 40 long; it must lie on it",
    ),
    "half a seed": (
        Graph((stage("A", seed=(0, 0)), B)),
        "some boxes of the page have a seed, but not B; give all or none",
    ),
    "half a seed inside": (
        Graph((Box("case", 0, 0, children=(stage("A", seed=(0, 0)), B)),)),
        "some boxes in case have a seed, but not B; give all or none",
    ),
    "one seed for two": (
        Graph((stage("A", seed=(1, 2)), stage("B", seed=(1, 2)))),
        "boxes A and B have the same seed (1, 2); give each its own row or column",
    ),
    "an unknown port": (
        Graph((A, B), (Wire("w", "A.q", ("B.dd",)),)),
        "wire w goes to port B.dd, which no box has; did you mean B.d?",
    ),
    "no target": (
        Graph((A,), (Wire("w", "A.q", ()),)),
        "wire w has no target; give it one or leave it out",
    ),
    "one end twice": (
        Graph((A, B), (Wire("w", "A.q", ("B.d", "B.d")),)),
        "wire w comes to one port twice (A.q, B.d, B.d); name each once",
    ),
    "two drivers": (
        Graph((A, B), (AB, Wire("x", "B.q", ("B.d",)))),
        "wires w and x meet at port B.d; make them one wire with several targets",
    ),
    "through the wall": (
        Graph((A, CASE), (Wire("w", "A.q", ("in.d",)),)),
        (
            "wire w joins A.q, in.d, which don't lie in one room; "
            "end it at a port of the container and go on from there with another wire"
        ),
    ),
    "hanging in the air": (
        Graph((PIN,)),
        "box pin hangs on top.t, which no box has; there is: pin.p",
    ),
    "hanging on a container": (
        Graph((Box("pin", 9, 9, (Port("pin.p", "right", 5),), hangs_on="case.a"), CASE)),
        (
            "box pin hangs on case.a; both must be plain boxes in one room, "
            "and that one may not hang itself"
        ),
    ),
    "hanging the wrong way": (
        Graph((Box("pin", 9, 9, (Port("pin.p", "top", 5),), hangs_on="top.t"), TOP)),
        "box pin hangs on top.t; it must have one port, on its bottom side",
    ),
    "hanging and wired elsewhere": (
        Graph((PIN, TOP, A), (Wire("w", "pin.p", ("top.t", "A.d")),)),
        "box pin hangs on top.t; no wire but the one between the two may come to either port",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_contradiction_is_refused(case: str) -> None:
    graph, message = REFUSED[case]
    with pytest.raises(EdgewiseError) as caught:
        lay_out(graph)
    assert str(caught.value) == message


def test_all_contradictions_of_a_kind_are_told_at_once() -> None:
    wires = Wire("w", "A.q", ()), Wire("x", "A.p", ("B.d",))
    with pytest.raises(EdgewiseError) as caught:
        check(Graph((A, B), wires))
    assert str(caught.value).splitlines() == [
        "wire w has no target; give it one or leave it out",
        "wire x goes to port A.p, which no box has; did you mean A.q?",
    ]


def test_a_wire_between_ports_of_one_container_takes_the_free_room() -> None:
    ports = Port("case.a", "left"), Port("case.z", "right")
    case = Box("case", 0, 0, ports, children=(stage("in"),))
    through = Wire("w", "case.a", ("case.z",))
    outside = Wire("on", "A.q", ("case.a",)), Wire("off", "case.z", ("B.d",))
    inside = Wire("into", "case.a", ("in.d",)), Wire("out", "in.q", ("case.z",))
    graph = Graph((A, case, B), (through, *outside))
    check(graph)
    assert rooms(graph)["w"] == "case"
    back = Graph((case,), (Wire("w", "case.z", ("case.a",)), *inside))
    check(back)
    assert rooms(back)["w"] is None
    full = Graph((A, case, B), (through, *outside, *inside))
    with pytest.raises(
        EdgewiseError, match=r"^wires w and on meet at port case\.a; make them one wire"
    ):
        check(full)


def test_a_sound_graph_passes() -> None:
    check(Graph((A, B, TOP, PIN, CASE), (AB, Wire("h", "pin.p", ("top.t",)))))
