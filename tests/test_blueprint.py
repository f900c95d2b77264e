"""Blueprints: circuit text and files, parameters, circuits in files beside."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from edgewise import blueprint, catalogue
from edgewise.bits import X
from edgewise.circuit.builder import Builder, wires
from edgewise.design import Feed, Operand, Phase
from edgewise.errors import EdgewiseError, Place

WIRE = "circuit: tide wire\ninputs: {x: 1}\noperands: {x: 1}\noutputs: {y: x}\n"


def complaint(text: str, **parameters: int) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_text(text, "tide.yaml").design(parameters)
    return str(wrong.value)


def test_what_a_blueprint_says_of_itself() -> None:
    text = WIRE + "about: >-\n  one wire,\n  nothing else\nsource: common practice, no source\n"
    read = blueprint.from_text(text, "tide.yaml")
    assert (read.name, read.title) == ("tide-wire", "tide wire")
    assert read.about == "one wire, nothing else"
    assert read.source == "common practice, no source"
    assert blueprint.from_text(text, "tide.yaml", name="wire").name == "wire"


def test_a_design_from_text_equals_one_built_in_python() -> None:
    text = """\
circuit: one bit of memory
parameters: {n: 2, k: n + 1 in n..9}
inputs: {x: 1, go: 1}
operands: {a: k}
parts: {C: {part: flip-flop, d: x, enable: go, start: X}}
outputs: {y: C}
procedure:
  - {phase: feed, edges: k, x: a lsb-first, go: 1}
  - {phase: rest, edges: 1, x: X, go: 0}
computes: {y: a div 2**(k - 1)}
"""
    design = blueprint.from_text(text, "tide.yaml").design()
    b = Builder("one bit of memory")
    x, go = b.input("x"), b.input("go")
    b.part("C", "flip-flop", {"d": x, "enable": go}, {"start": "X"})
    b.output("y", wires("C.q", 1))
    assert design.circuit == b.circuit()
    assert design.parameters == {"n": 2, "k": 3}
    assert design.operands == (Operand("a", 3),)
    assert design.procedure == (
        Phase("feed", 3, (Feed("x", "a", "lsb-first"), Feed("go", 1))),
        Phase("rest", 1, (Feed("x", None), Feed("go", 0))),
    )
    assert design.expected({"a": 4}) == {"y": 1}
    assert design.netlist.flip_flops[0].start == X


def test_parameters() -> None:
    text = "parameters: {n: 6 in 1..64, k: 2*n in n..2*n, free: 3}\n" + WIRE
    read = blueprint.from_text(text, "tide.yaml")
    assert read.numbers({}) == {"n": 6, "k": 12, "free": 3}
    assert read.numbers({"n": 2, "free": -7}) == {"n": 2, "k": 4, "free": -7}
    for given, message in (
        ({"n": 65}, "parameter n is 65; the range is 1..64"),
        ({"k": 3}, "parameter k is 3; the range is 6..12"),
        ({"m": 3}, "tide-wire has no parameter m; there is: free, k, n"),
        ({"fre": 3}, "tide-wire has no parameter fre; did you mean free?"),
    ):
        with pytest.raises(EdgewiseError) as wrong:
            read.numbers(given, Place("tide.md", 3, 7))
        assert str(wrong.value) == f"tide.md:3:7: {message}"


@pytest.mark.parametrize(
    ("parameters", "message"),
    [
        ("{n: 65 in 1..64}", "1:17: parameter n is 65; the range is 1..64"),
        ("{n: k, k: 3}", "1:17: there is no number named k"),
        ("{n: 3 in 1}", ("1:23: can't read '3 in 1': the formula ends too early; expected an"
         " operator or ..")),
        ("{X: 1}", "1:14: X can't be the name of a parameter; write a plain name, as in n"),
        ("{max: 1}", "1:14: max can't be the name of a parameter; write a plain name, as in n"),
        ("{n(0): 1}", "1:14: n(0) can't be the name of a parameter; write a plain name, as in n"),
        ("{n: [1]}", "1:17: n: found a list, expected a single value"),
        ("[n]", ("1:13: parameters: found a list, expected keys and values, as in"
         " {n: 6 in 1..64}")),
    ],
)  # fmt: skip
def test_messages_about_parameters(parameters: str, message: str) -> None:
    assert complaint(f"parameters: {parameters}\n{WIRE}") == f"tide.yaml:{message}"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "tide.yaml: the circuit text is empty; it begins with circuit: NAME"),
        (
            "- a",
            "tide.yaml:1:1: found a list, expected a circuit text that begins with circuit: NAME",
        ),
        ("inputs: {x: 1}", "tide.yaml:1:1: the entry circuit: NAME is missing"),
        (
            "circuit: tide gauge\nabout: nothing yet\nparameters: {n: 4}\n",
            "tide.yaml:1:1: tide gauge is a name with no circuit behind it; expected inputs, parts"
            " or outputs: add what is in it, as in outputs: {y: x}",
        ),
        (
            f"{WIRE}---\ncircuit: cell\n---\n{WIRE}",
            "tide.yaml:6:1: cell is a name with no circuit behind it; expected inputs, parts or"
            " outputs: add what is in it, as in outputs: {y: x}\n"
            "tide.yaml:8:1: there are two circuits named tide wire; the first is in line 1: give"
            " each its own name",
        ),
        ("circuit: [a]", "tide.yaml:1:10: circuit: found a list, expected a single value"),
        (
            "circuit: a\ninput: {x: 1}\nparts {}\n",
            (
                "tide.yaml:3:1: not valid YAML: this line has no colon; write key: value, with a"
                " blank"
                " after the colon"
            ),
        ),
        (
            "circuit: a\ninput: {x: 1}\nparts {}:\n",
            (
                "tide.yaml:2:1: a circuit text has no entry input; did you mean inputs?\n"
                "tide.yaml:3:1: a colon is missing after parts; write parts: …"
            ),
        ),
        (
            "circuit: 'a\ninputs: {x: 1}\n",
            "tide.yaml:1:10: not valid YAML: this quote is never closed; add the closing quote",
        ),
    ],
)
def test_messages_about_the_text_as_a_whole(text: str, message: str) -> None:
    assert complaint(text) == message


def test_lines_are_counted_from_the_first_line_given() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_text("circuit: a\ninput: {}\n", "tide.md", first_line=12)
    assert str(wrong.value) == (
        "tide.md:13:1: a circuit text has no entry input; did you mean inputs?"
    )


# ---------------------------------------------------------------------- circuits that none uses

CELL = "---\ncircuit: cell\nparameters: {k: 2 in 1..3}\ninputs: {i: k}\n"


@pytest.mark.parametrize(
    ("idle", "message"),
    [
        ("outputs: {o: j}\n", "9:14: there is no net or part named j; there is: i"),
        (
            "nets: {m: 1}\noutputs: {o: i}\n",
            "9:8: nothing drives net m; let an output port or a join drive it",
        ),
        (
            "parts: {N: {part: nott, in: i}}\noutputs: {o: N}\n",
            "9:19: part N: there is no part nott; did you mean not?",
        ),
        (
            "parts: {N: {part: and, in: [M.out, i(0)]}, M: {part: not, in: N.out}}\n"
            "outputs: {o: N.out}\n",
            "9:9: combinational loop: N.out -> M.out -> N.out; put a flip-flop into it, or break"
            " it; to follow it in time, give it waveforms: edgewise trace --inside 0",
        ),
        (
            "parts: {P: {part: cell, i: i}}\noutputs: {o: P}\n",
            "9:19: a circuit can't contain itself: cell -> cell",
        ),
        (
            "parts: {P: {part: leaf, i: i}}\noutputs: {o: P}\n"
            "---\ncircuit: leaf\ninputs: {i: 1}\noutputs: {o: i(3)}\n",
            "14:14: i has no bit 3; its bits are 0..0, MSB first",
        ),
    ],
)
def test_a_circuit_that_nothing_uses_is_checked_too(idle: str, message: str) -> None:
    assert complaint(f"{WIRE}{CELL}{idle}") == f"tide.yaml:{message}"


def test_its_parameters_are_checked_with_their_defaults() -> None:
    idle = CELL.replace("2 in 1..3", "4 in 1..3") + "outputs: {o: i}\n"
    assert complaint(WIRE + idle) == "tide.yaml:7:17: parameter k is 4; the range is 1..3"
    with_range = CELL + "outputs: {o: i(1)}\n"
    assert blueprint.from_text(WIRE + with_range, "tide.yaml").design().netlist.gates == ()


def test_errors_of_used_and_idle_circuits_are_told_together() -> None:
    text = WIRE.replace("y: x", "y: xx") + CELL + "outputs: {o: j}\n"
    assert complaint(text) == (
        "tide.yaml:4:14: there is no net or part named xx; did you mean x?\n"
        "tide.yaml:9:14: there is no net or part named j; there is: i"
    )


def test_so_many_circuits_may_be_idle_and_no_more() -> None:
    def idle(many: int) -> str:
        return WIRE + "".join(
            f"---\ncircuit: c{i}\ninputs: {{i: 1}}\noutputs: {{o: i}}\n" for i in range(many)
        )

    assert blueprint.from_text(idle(32), "tide.yaml").design().netlist.gates == ()
    assert complaint(idle(33)) == (
        "tide.yaml:6:1: 33 circuits of this text are used by none; the limit is 32: leave them out"
    )


def test_a_timetable_builds_none_of_them() -> None:
    text = f"{WIRE}{CELL}outputs: {{o: j}}\n"
    assert blueprint.from_text(text, "tide.yaml").timetable().edges == 0


# ---------------------------------------------------------------------- files

USER = """\
circuit: user
inputs: {x: 1}
operands: {x: 1}
parts: {P: {part: FILE, x: x}}
outputs: {y: P}
"""


def file_complaint(folder: Path, part: str) -> str:
    """What is said of user.yaml that uses `part`; places without the folder."""
    (folder / "user.yaml").write_text(USER.replace("FILE", part), "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_file(folder / "user.yaml").design()
    return str(wrong.value).replace(f"{folder}{os.sep}", "")


def test_a_circuit_in_a_file_beside(tmp_path: Path) -> None:
    (tmp_path / "wire.yaml").write_text(
        "circuit: cell\ninputs: {x: 1}\nparts: {Q: {part: twice, i: x}}\noutputs: {y: Q}\n"
        "---\ncircuit: twice\ninputs: {i: 1}\nparts: {N: {part: not, in: i}}\n"
        "outputs: {o: N.out}\n",
        "utf-8",
    )
    (tmp_path / "user.yaml").write_text(USER.replace("FILE", "wire.yaml"), "utf-8")
    read = blueprint.from_file(tmp_path / "user.yaml")
    assert read.name == "user"
    design = read.design()
    assert [gate.name for gate in design.netlist.gates] == ["P.Q.N"]


def test_a_circuit_of_the_same_title_in_another_file_is_another_circuit(tmp_path: Path) -> None:
    (tmp_path / "wire.yaml").write_text("circuit: user\ninputs: {x: 1}\noutputs: {y: x}\n", "utf-8")
    (tmp_path / "user.yaml").write_text(USER.replace("FILE", "wire.yaml"), "utf-8")
    assert blueprint.from_file(tmp_path / "user.yaml").design().netlist.gates == ()


def test_only_files_of_the_same_folder_are_used(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    folder.mkdir()
    (tmp_path / "wire.yaml").write_text(WIRE, "utf-8")
    (folder / "gauge.yaml").write_text(WIRE, "utf-8")
    (folder / "link.yaml").symlink_to(tmp_path / "wire.yaml")
    same = "a circuit file used as a part lies in the same folder; give its name only"
    for part, message in {
        "../wire.yaml": f"../wire.yaml: {same}",
        str(tmp_path / "wire.yaml"): f"{str(tmp_path / 'wire.yaml')[:80]}: {same}",
        "./gauge.yaml": f"./gauge.yaml: {same}",
        f"{'p' * 3000}/gauge.yaml": f"{'p' * 80}: {same}",
        "link.yaml": "link.yaml is a link; copy the file itself into this folder",
        "zoo.yaml": "there is no circuit file zoo.yaml here; there is: gauge.yaml, link.yaml",
        "gage.yaml": "there is no circuit file gage.yaml here; did you mean gauge.yaml?",
    }.items():
        assert file_complaint(folder, part) == f"user.yaml:4:19: {message}"


def test_a_text_without_a_folder_uses_no_files() -> None:
    assert complaint(USER.replace("FILE", "wire.yaml")) == (
        "tide.yaml:4:19: wire.yaml: this circuit text has no folder; put the circuit into the text"
        " itself, after a line ---"
    )


def test_circuit_files_do_not_contain_themselves(tmp_path: Path) -> None:
    assert file_complaint(tmp_path, "user.yaml") == (
        "user.yaml:4:19: a circuit can't contain itself: user -> user"
    )
    (tmp_path / "wire.yaml").write_text(
        USER.replace("FILE", "user.yaml").replace("circuit: user", "circuit: wire"), "utf-8"
    )
    assert file_complaint(tmp_path, "wire.yaml") == (
        "wire.yaml:4:19: a circuit can't contain itself: user -> wire -> user"
    )


def test_circuits_are_nested_so_deep_and_no_deeper() -> None:
    def nested(levels: int) -> str:
        inner = [
            f"circuit: c{i}\ninputs: {{x: 1}}\nparts: {{P: {{part: c{i + 1}, x: x}}}}\n"
            "outputs: {y: P}\n"
            for i in range(levels)
        ]
        last = f"circuit: c{levels}\ninputs: {{x: 1}}\noutputs: {{y: x}}\n"
        return "---\n".join([inner[0] + "operands: {x: 1}\n", *inner[1:], last])

    assert blueprint.from_text(nested(8), "tide.yaml").design().netlist.gates == ()
    assert complaint(nested(9)) == "tide.yaml:44:19: circuits are nested more than 8 deep"


def test_an_error_in_a_file_beside_has_its_place_there(tmp_path: Path) -> None:
    (tmp_path / "wire.yaml").write_text(WIRE.replace("y: x}", "y: xx}"), "utf-8")
    assert file_complaint(tmp_path, "wire.yaml") == (
        "wire.yaml:4:14: there is no net or part named xx; did you mean x?"
    )


def test_files_that_can_not_be_read(tmp_path: Path) -> None:
    (tmp_path / "latin.yaml").write_bytes("circuit: é".encode("latin-1"))
    (tmp_path / "large.yaml").write_bytes(b"#" * 4_000_001)
    (tmp_path / "marked.yaml").write_bytes(b"\xef\xbb\xbf" + WIRE.encode())
    (tmp_path / "folder.yaml").mkdir()
    assert blueprint.from_file(tmp_path / "marked.yaml").title == "tide wire"
    for name, message in {
        "missing.yaml": "can't be read: No such file or directory",
        "folder.yaml": "this is not a file",
        "latin.yaml": "byte 9 is not UTF-8 text; save the file as UTF-8",
        "large.yaml": "the file is too large; the limit is 1000000 characters",
    }.items():
        with pytest.raises(EdgewiseError) as wrong:
            blueprint.from_file(tmp_path / name)
        assert str(wrong.value) == f"{tmp_path / name}: {message}"


def test_every_catalogue_text_is_a_blueprint() -> None:
    for name in catalogue.ORDER:
        assert catalogue.find(name).name == name
