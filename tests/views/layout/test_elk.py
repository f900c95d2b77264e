"""How `layout.py` asks its engine, keeps the answers, and does without the engine.

Outside check: the engine's own list of options and the text of the vendored file.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from edgewise.errors import EdgewiseError
from edgewise.views.layout import elk as room
from edgewise.views.layout.elk import ENGINE, engine, lay_out
from edgewise.views.layout.elk_request import plan, question
from edgewise.views.layout.graph import Box, Graph, Port, Wire

VENDORED = Path(room.__file__).parent / "elkjs"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own."""
    monkeypatch.setenv("EDGEWISE_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept" / "layout"


def stage(name: str, **more: Any) -> Box:
    return Box(
        name, 60, 40, (Port(f"{name}.d", "left", 20), Port(f"{name}.q", "right", 20)), **more
    )


def chain(*names: str, seeded: bool = False) -> Graph:
    """Stages one after the other: a pipeline of a bakery's tray counts."""
    boxes = tuple(stage(name, seed=(i, 0) if seeded else None) for i, name in enumerate(names))
    links = pairwise(names)
    return Graph(
        boxes, tuple(Wire(f"{a}{b}", f"{a}.q", (f"{b}.d",), label=(9, 9)) for a, b in links)
    )


def everything() -> Graph:
    """One graph that makes use of every option: containers, labels, a wire straight through."""
    ports = (
        Port("o.a", "left"),
        Port("o.t", "left", 1),
        Port("o.z", "right"),
        Port("o.u", "right", 1),
    )
    inner = Box("o", 90, 90, ports, children=(stage("g"),), title_room=20)
    wires = (
        Wire("1", "in.q", ("o.a",), label=(20, 12)),
        Wire("2", "o.a", ("g.d",)),
        Wire("3", "g.q", ("o.z",)),
        Wire("4", "o.z", ("out.d",)),
        Wire("5", "o.t", ("o.u",)),
        Wire("6", "also.q", ("o.t",)),
    )
    return Graph((stage("in"), stage("also"), inner, stage("out")), wires)


# ---------------------------------------------------------------- options


def said(thing: Any, kind: str = "PARENTS") -> Iterator[tuple[str, str, str]]:
    """Every option in a question with its value and the kind of thing that it is set on."""
    for name, value in thing.get("layoutOptions", {}).items():
        yield name, value, kind
    for list_, inner in (
        ("children", "NODES"),
        ("ports", "PORTS"),
        ("edges", "EDGES"),
        ("labels", "LABELS"),
    ):
        for each in thing.get(list_, ()):
            yield from said(each, "PARENTS" if each.get("children") else inner)


def all_said() -> set[tuple[str, str, str]]:
    graphs = everything(), chain("a", "b", seeded=True)
    asked = (question(plan(graph), way) for graph in graphs for way in ("right", "left"))
    return {option for each in asked for option in said(each)}


def test_the_engine_knows_every_option_that_we_set() -> None:
    known = {option["id"]: option for option in engine().say("options")}
    (layered,) = (
        each for each in engine().say("algorithms") if each["id"] == "org.eclipse.elk.layered"
    )
    for name, _, kind in sorted(all_said()):
        option = known.get(f"org.eclipse.{name}")
        assert option is not None, name
        kinds = {"PARENTS", "NODES"} if kind == "PARENTS" else {kind}
        assert kinds & set(option["targets"]), (name, kind, option["targets"])
        general = ("elk.algorithm", "elk.json.", "elk.hierarchyHandling")
        assert option["id"] in layered["knownOptions"] or name.startswith(general), name


def test_the_engine_knows_every_value_that_we_set() -> None:
    known = {option["id"]: option["type"] for option in engine().say("options")}
    worker = (VENDORED / "elk-worker.min.js").read_text(encoding="utf-8")
    shapes = {
        "BOOLEAN": r"true|false",
        "INT": r"-?\d+",
        "DOUBLE": r"-?\d+(\.\d+)?",
        "OBJECT": r"\(-?[\d.]+,-?[\d.]+\)|\[top=[\d.]+,left=[\d.]+,bottom=[\d.]+,right=[\d.]+\]",
    }
    for name, value, _ in sorted(all_said()):
        type_ = known[f"org.eclipse.{name}"]
        if type_ in ("ENUM", "ENUMSET"):
            for word in re.findall(r"\w+", value):
                assert f"'{word}'" in worker, (name, word)
        elif type_ == "STRING":
            assert f"'org.eclipse.elk.{value}'" in worker, (name, value)
        else:
            assert re.fullmatch(shapes[type_], value), (name, type_, value)


def test_a_misspelt_option_would_not_pass() -> None:
    known = {option["id"] for option in engine().say("options")}
    assert "org.eclipse.elk.spacing.nodeNode" in known
    assert "org.eclipse.elk.spacing.nodenode" not in known


def test_the_vendored_file_is_the_one_that_its_readme_names() -> None:
    readme = (VENDORED / "README.md").read_text(encoding="utf-8")
    assert f"**{ENGINE}**" in readme
    assert sha256((VENDORED / "elk-worker.min.js").read_bytes()).hexdigest() in readme
    assert "Eclipse Public License - v 2.0" in (VENDORED / "LICENSE.md").read_text("utf-8")


# ---------------------------------------------------------------- the cache


def test_names_do_not_change_the_question(folder: Path) -> None:
    first = lay_out(chain("mill", "oven"))
    second = lay_out(chain("rain", "tide"))
    assert [box.x for box in first.boxes] == [box.x for box in second.boxes]
    assert len(list(folder.iterdir())) == 1


def test_a_kept_answer_gives_the_same_layout(monkeypatch: pytest.MonkeyPatch) -> None:
    made = lay_out(everything())
    monkeypatch.setattr(room, "engine", lambda: pytest.fail("the engine was asked again"))
    assert lay_out(everything()) == made


@pytest.mark.parametrize("damage", [b"", b"x", b"{}", b"\xff\xfe\x00", b"0\n{}"])
def test_a_damaged_answer_is_made_again(folder: Path, damage: bytes) -> None:
    made = lay_out(everything())
    (entry,) = folder.iterdir()
    whole = entry.read_bytes()
    entry.write_bytes(damage)
    assert lay_out(everything()) == made
    assert entry.read_bytes() == whole
    entry.write_bytes(whole[:-9] + b"0" + whole[-8:])
    assert lay_out(everything()) == made
    assert entry.read_bytes() == whole


def test_a_folder_that_can_not_be_written_is_passed_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("EDGEWISE_CACHE", str(tmp_path / "file" / "below"))
    assert lay_out(everything()) == lay_out(everything())


SCRIPT = """
import sys
from edgewise.views.layout.graph import Box, Graph, Port, Wire
from edgewise.views.layout.elk import lay_out
box = Box("C", 60, 40, (Port("C.d", "left", 20), Port("C.q", "right", 20)))
layout = lay_out(Graph((box,), (Wire("keep", "C.q", ("C.d",)),)))
print(layout)
late = {"quickjs", "platformdirs", "tempfile", "edgewise.views.layout.routing"}
print(sorted(late & set(sys.modules)))
"""


def start(folder: Path) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", SCRIPT],
        env=os.environ | {"EDGEWISE_CACHE": str(folder)},
        stdout=subprocess.PIPE,
        text=True,
    )


def test_two_processes_may_keep_one_answer_and_a_third_starts_no_engine(tmp_path: Path) -> None:
    both = [start(tmp_path), start(tmp_path)]
    told = [process.communicate()[0].splitlines() for process in both]
    third = start(tmp_path).communicate()[0].splitlines()
    assert told[0][0] == told[1][0] == third[0]
    assert "quickjs" in told[0][1]
    assert third[1] == "[]"
    assert len(list((tmp_path / "layout").iterdir())) == 1


# ---------------------------------------------------------------- the engine


def test_every_thread_has_an_engine_of_its_own() -> None:
    graphs = [chain("a", "b"), chain("a", "b", "c"), everything()]
    with ThreadPoolExecutor(2) as pool:
        far = list(pool.map(lay_out, graphs))
    assert far == [lay_out(graph) for graph in graphs]


def test_a_figure_that_is_too_large_is_refused_and_the_engine_lives_on() -> None:
    names = [str(i) for i in range(700)]
    with pytest.raises(EdgewiseError) as caught:
        lay_out(chain(*names))
    assert str(caught.value) == (
        "the layout engine gave up on this figure: Maximum call stack size exceeded; "
        "draw less in one figure, or leave some containers closed"
    )
    assert len(lay_out(chain("a", "b")).boxes) == 2
