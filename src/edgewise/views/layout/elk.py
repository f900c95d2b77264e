"""Layout: sizes and connections in, places and routes out.

The engine is the layered algorithm in `elk/`, run in a small JavaScript interpreter. It is
asked once for each figure; as a rule its answer is at hand and no interpreter starts.

    graph -> plan -> question -> answer (kept, or made by the engine) -> layout
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from functools import cache as once
from graphlib import CycleError, TopologicalSorter
from pathlib import Path as File
from typing import TYPE_CHECKING, Any, Final

from edgewise import cache
from edgewise.errors import EdgewiseError, Message
from edgewise.views.layout.elk_request import (
    Json,
    Plan,
    bodies,
    on_grid,
    plan,
    question,
    size,
    spot,
)
from edgewise.views.layout.graph import (
    Direction,
    Graph,
    Layout,
    PlacedBox,
    PlacedPort,
    PlacedWire,
    Point,
    check,
)

if TYPE_CHECKING:
    import threading

ENGINE: Final = "elkjs 0.12.1"
"""Name and version of the engine in `elk/`."""

MOST_ENDS: Final = 1000
"""Connections in a figure, at most; with 640, as a 32-bit Kogge-Stone adder has, it takes 10 s."""
# Where the cache keeps answers.
_ROOM: Final = "layout"
_HERE: Final = File(__file__).parent
# The worker expects a browser's worker thread; this is all that it uses of one.
_BROWSER: Final = """
var self = globalThis, said = null;
function postMessage(message) { said = message; }
function setTimeout(call) { call(); }
"""
# Errors are Java's and may point at themselves: only their text can leave.
_ASK: Final = """
try { onmessage({data: JSON.parse(message)}); } catch (e) { said = {error: e}; }
JSON.stringify(said.error ? {failed: String(said.error.message || said.error)} : said)
"""


def lay_out(graph: Graph, direction: Direction = "right") -> Layout:
    """Find a place for every box and a route for every wire.

    Parameters
    ----------
    graph : Graph
        What is to be drawn.
    direction : {"right", "left"}
        Where the signals flow to. Carry chains run to the left, as in written addition.

    Returns
    -------
    Layout
        In px, all multiples of 0.5; the same graph gives the same layout on any machine.

    Raises
    ------
    EdgewiseError
        The graph contradicts itself (see `graph.check`) or is too large for the engine.

    Examples
    --------
    A carry flip-flop that keeps its bit:

    >>> from edgewise.views.layout.graph import Box, Port, Wire
    >>> store = Box("C", 60, 40, (Port("C.d", "left", 20), Port("C.q", "right", 20)))
    >>> layout = lay_out(Graph((store,), (Wire("keep", "C.q", ("C.d",)),)))
    >>> layout.box("C").width, layout.port("C.q").x - layout.port("C.d").x
    (60.0, 60.0)
    """
    check(graph)
    planned = plan(graph)
    asked = _asked(planned, direction)
    # The answer holds merged routes too, so it also depends on the code that makes it.
    made_from = f"{ENGINE} {_edition()} {asked}"
    answer = _recalled(made_from)
    if answer is None:
        _fits(graph)
        answer = _answer(asked)
        cache.keep(_ROOM, made_from, json.dumps(answer, separators=(",", ":")).encode())
    return _layout(planned, answer)


def work(graph: Graph, direction: Direction = "right") -> float:
    """How long the engine is about to work on a graph, in units of 2 to 8 ms on a laptop.

    Measured on the catalogue: the square of the question's length in thousands of letters; two
    fifths of it where no wire leads back, for the engine then has no feedback to break.
    """
    thousands = len(_asked(plan(graph), direction)) / 1000
    return thousands**2 * (1.0 if _returns(graph) else 0.4)


def _asked(planned: Plan, direction: Direction) -> str:
    return json.dumps(question(planned, direction), sort_keys=True, separators=(",", ":"))


def _returns(graph: Graph) -> bool:
    """Whether a way along wires and through boxes leads back to a box."""
    owner = {port.id: box.id for box, _ in graph.walk() for port in box.ports}
    after: dict[str, set[str]] = {}
    for wire in graph.wires:
        after.setdefault(owner[wire.source], set()).update(owner[end] for end in wire.targets)
    try:
        tuple(TopologicalSorter(after).static_order())
    except CycleError:
        return True
    return False


def _fits(graph: Graph) -> None:
    """Refuse at once what the engine would give up on after minutes."""
    ends = sum(len(wire.targets) for wire in graph.wires)
    if ends > MOST_ENDS:
        raise EdgewiseError(Message("connections-many", count=ends, most=MOST_ENDS))


class Engine:
    """The JavaScript engine, started; one for each thread (see `engine`).

    Examples
    --------
    >>> "org.eclipse.elk.port.side" in {option["id"] for option in engine().say("options")}
    True
    """

    def __init__(self) -> None:
        import quickjs  # a wheel with a compiled library: only where no answer is kept

        self._context = quickjs.Context()
        self._context.set_max_stack_size(512 * 1024)
        self._context.eval(_BROWSER)
        self._context.eval((_HERE / "elkjs" / "elk-worker.min.js").read_text(encoding="utf-8"))
        self.say("register", algorithms=["layered"])

    def say(self, command: str, **rest: Any) -> Any:
        """Send one message to the worker and return the data of its reply."""
        self._context.set("message", json.dumps({"id": 0, "cmd": command, **rest}))
        reply = json.loads(self._context.eval(_ASK))
        if "failed" in reply:
            raise EdgewiseError(Message("layout-failed", why=str(reply["failed"])))
        return reply.get("data")


@once
def _engines() -> threading.local:
    import threading

    return threading.local()


def engine() -> Engine:
    """The engine of this thread, started at the first call."""
    here = _engines()
    if not hasattr(here, "started"):
        here.started = Engine()
    started: Engine = here.started
    return started


def _edition() -> str:
    """Tells answers of one version of this code from those of another."""
    code = "".join((_HERE / name).read_text("utf-8") for name in ("elk.py", "routing.py"))
    return hashlib.sha256(code.encode()).hexdigest()


def _recalled(made_from: str) -> Json | None:
    """The kept answer, if there is one."""
    kept = cache.recall(_ROOM, made_from)
    answer: Json | None = None if kept is None else json.loads(kept)
    return answer


def _answer(asked: str) -> Json:
    """Places and routes under the numbers of the question: all that is worth keeping."""
    from edgewise.views.layout.routing import Net, dots, straight, trees  # not needed to recall

    page = engine().say("layout", graph=json.loads(asked), layoutOptions={}, options={})
    nodes = list(_nodes(page["children"], None))
    boxes = {node["id"]: (_rect(node), room) for node, room in nodes}
    ports = {port["id"]: _point(port) for node, _ in nodes for port in node["ports"]}
    edges = [(edge, node["id"]) for node, _ in nodes for edge in node.get("edges", ())]
    edges += [(edge, None) for edge in page["edges"]]
    labels = {
        label["id"]: (_rect(label), room)
        for edge, room in edges
        for label in edge.get("labels", ())
    }
    pairs: dict[str, list[tuple[Json, str | None]]] = {}
    for edge, room in edges:
        pairs.setdefault(edge["id"].partition(".")[0], []).append((edge, room))
    nets = [
        Net(
            source=ports[wire[0][0]["sources"][0]],
            ends=tuple(ports[edge["targets"][0]] for edge, _ in wire),
            paths=tuple(straight(_corners(edge)) for edge, _ in wire),
            room=wire[0][1],
        )
        for wire in pairs.values()
    ]
    lines = dict(zip(pairs, trees(nets, boxes | labels), strict=True))
    return {
        "size": [on_grid(page["width"]), on_grid(page["height"])],
        "boxes": {name: rect for name, (rect, _) in boxes.items()},
        "ports": ports,
        "labels": {name: rect for name, (rect, _) in labels.items()},
        "wires": {name: [tree, dots(tree)] for name, tree in lines.items()},
    }


def _nodes(nodes: list[Json], room: str | None) -> Iterator[tuple[Json, str | None]]:
    for node in nodes:
        yield node, room
        yield from _nodes(node.get("children", []), node["id"])


def _point(thing: Json) -> Point:
    return on_grid(thing["x"]), on_grid(thing["y"])


def _rect(thing: Json) -> tuple[float, float, float, float]:
    """Left, top, right, bottom."""
    right, bottom = thing["x"] + thing["width"], thing["y"] + thing["height"]
    return *_point(thing), on_grid(right), on_grid(bottom)


def _corners(edge: Json) -> Iterator[Point]:
    section = edge["sections"][0]
    for corner in (section["startPoint"], *section.get("bendPoints", ()), section["endPoint"]):
        yield _point(corner)


def _layout(plan: Plan, answer: Json) -> Layout:
    """The answer under the graph's own names, with what hangs on its boxes."""
    boxes = {box.id: box for box in _placed_boxes(plan, answer)}
    ports = {}
    for box, _ in plan.graph.walk():
        placed = boxes[box.id]
        for port in box.ports:
            x, y = spot(port, placed.width, placed.height)
            x, y = placed.x + x, placed.y + y
            if box.children:
                x, y = answer["ports"][plan.ports[port.id]]
            ports[port.id] = PlacedPort(port.id, x, y, port.side, box.id)
    return Layout(
        width=answer["size"][0],
        height=answer["size"][1],
        boxes=tuple(boxes[name] for name in plan.boxes),
        ports=tuple(ports.values()),
        wires=tuple(_placed_wire(plan, answer, ports, n) for n in range(len(plan.graph.wires))),
    )


def _placed_boxes(plan: Plan, answer: Json) -> Iterator[PlacedBox]:
    for siblings in (plan.graph.boxes, *(box.children for box, _ in plan.graph.walk())):
        for body in bodies(siblings):
            box, parent = body.box, plan.parents[body.box.id]
            left, top, right, bottom = answer["boxes"][plan.boxes[box.id]]
            if box.children:
                yield PlacedBox(box.id, left, top, right - left, bottom - top, parent)
            else:
                yield PlacedBox(box.id, left + body.at[0], top + body.at[1], *size(box), parent)
            for hanging, (x, y) in body.hung:
                yield PlacedBox(hanging.id, left + x, top + y, *size(hanging), parent)


def _placed_wire(plan: Plan, answer: Json, ports: dict[str, PlacedPort], n: int) -> PlacedWire:
    wire = plan.graph.wires[n]
    ends = [ports[name] for name in (wire.source, *wire.targets)]
    tree, marks = answer["wires"].get(f"w{n}", ([[(port.x, port.y) for port in ends]], ()))
    # Where something hangs on a box, its wires end at the border of both: carry them on.
    onward = {
        tuple(answer["ports"][plan.ports[port.id]]): (port.x, port.y)
        for port in ends
        if plan.ports[port.id] in answer["ports"]
    }
    label = answer["labels"].get(f"t{n}")
    return PlacedWire(
        wire.id,
        wire.source,
        wire.targets,
        wire.kind,
        plan.rooms[wire.id],
        lines=tuple(tuple(onward.get((x, y), (x, y)) for x, y in line) for line in tree),
        dots=tuple((x, y) for x, y in marks),
        label=(label[0], label[1], label[2] - label[0], label[3] - label[1]) if label else None,
    )
