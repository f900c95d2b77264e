"""Guests: what other packages bring, and that a faulty one is told by its name and breaks nothing.

A distribution is a folder ``NAME-VERSION.dist-info`` with METADATA and entry_points.txt (PyPA,
"Recording installed projects" and "Entry points specification").
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import pytest

from edgewise import blueprint as blueprints
from edgewise import catalogue, guests, importers, lesson
from edgewise.circuit import parts
from edgewise.errors import EdgewiseError
from edgewise.guests import Group, GuestError, GuestWarning
from edgewise.publish import formats
from edgewise.publish.handout import build as handout
from edgewise.publish.html import render
from edgewise.study.cost import measure, models
from edgewise.study.misconceptions import registry as misconceptions
from tests.conftest import Edgewise

Install: TypeAlias = Callable[..., None]
GATE = """\
from edgewise.circuit.gates import gate
INHIBIT = gate("inhibit", "a, unless b", ("a", "b"), ("and", "a", ("not", "b")), "&")
"""
USED = """\
circuit: sluice
inputs: {level: 1, shut: 1}
parts:
  OPEN: {part: inhibit, a: level, b: shut}
outputs: {through: OPEN.out}
operands: {level: 1, shut: 1}
computes: {through: level * (1 - shut)}
"""


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Install]:
    """Puts a package there: its name, what is in its module, its entry points by group."""
    monkeypatch.syspath_prepend(tmp_path)

    def put(package: str, code: str = "", /, **groups: str) -> None:
        for name in list(sys.modules):  # of that name may be the example package
            if name.partition(".")[0] == package.replace("-", "_"):
                monkeypatch.delitem(sys.modules, name)
        (tmp_path / f"{package.replace('-', '_')}.py").write_text(code, "utf-8")
        info = tmp_path / f"{package.replace('-', '_')}-1.0.dist-info"
        info.mkdir()
        (info / "METADATA").write_text(f"Metadata-Version: 2.4\nName: {package}\nVersion: 1.0\n")
        lines = [f"[edgewise.{group}]\n{entries}\n" for group, entries in groups.items()]
        (info / "entry_points.txt").write_text("".join(lines), "utf-8")
        forget()

    def forget() -> None:
        guests._entries.cache_clear()
        guests._loaded.cache_clear()
        catalogue.find.cache_clear()

    yield put
    forget()
    for name in parts._BROUGHT:
        del parts._REGISTRY[name]
    parts._BROUGHT.clear()
    parts._kind.cache_clear()
    parts._output_widths.cache_clear()
    for name, module in list(sys.modules.items()):
        if str(getattr(module, "__file__", "")).startswith(str(tmp_path)):
            del sys.modules[name]


@dataclass(frozen=True)
class Tide:
    name: str


TIDES: Group[Tide] = Group("edgewise.tides", "tide", Tide, lambda: ("ebb",), lambda _, one: one)


def told(install: Install, code: str, entries: str, package: str = "tide-mill") -> str:
    """What is wrong with the tide called flood."""
    install(package, code, tides=entries)
    with pytest.raises(GuestError) as wrong:
        TIDES.find("flood")
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always", GuestWarning)
        assert list(TIDES.all()) == []
    assert [str(one.message) for one in warned] == [str(wrong.value)]
    return str(wrong.value)


def test_there_are_none_where_no_package_brings_one() -> None:
    assert TIDES.guests() == ()
    assert TIDES.find("flood") is None


def test_one_is_found_by_its_name(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    assert TIDES.find("flood") == Tide("flood")
    assert TIDES.names() == ("flood",)
    assert list(TIDES.all()) == [Tide("flood")]


def test_an_import_that_fails_is_told(install: Install) -> None:
    assert told(install, "import tide_gears", "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: can't be imported: ModuleNotFoundError: No module"
        " named 'tide_gears'"
    )


@pytest.mark.parametrize(
    ("code", "what"),
    [
        ("raise SystemExit('stop the mill')", "SystemExit: stop the mill"),
        ("raise ValueError('two\\nlines')", "ValueError: two lines"),
        ("1 // 0", "ZeroDivisionError: integer division or modulo by zero"),
        ("raise ValueError", "ValueError"),
        ("FLOOD = ", "SyntaxError: invalid syntax (tide_mill.py, line 1)"),
        ("EBB = 1", "AttributeError: module 'tide_mill' has no attribute 'FLOOD'"),
    ],
)
def test_whatever_goes_wrong_in_an_import_is_one_line(
    install: Install, code: str, what: str
) -> None:
    found = told(install, code, "flood = tide_mill:FLOOD")
    assert found == f"tide flood of the package tide-mill: can't be imported: {what}"


def test_a_long_message_is_cut(install: Install) -> None:
    found = told(install, "raise ValueError('tide ' * 999)", "flood = tide_mill:FLOOD")
    whole = "can't be imported: ValueError: " + "tide " * 999
    assert found == f"tide flood of the package tide-mill: {whole[:200]}…"


def test_another_kind_of_thing_is_told(install: Install) -> None:
    assert told(install, "FLOOD = 'high'", "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: found a str, expected a Tide"
    )


def test_another_name_is_told(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('high')"
    assert told(install, code, "flood = tide_mill:FLOOD") == (
        "tide flood of the package tide-mill: it calls itself high; expected the name of its entry"
        " point"
    )


def test_two_packages_with_one_name_are_told(install: Install) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("sea-mill", code, tides="flood = sea_mill:FLOOD")
    assert told(install, code, "flood = tide_mill:FLOOD") == (
        "tide flood: the packages sea-mill and tide-mill bring one each; uninstall all but one"
    )


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("ebb", "edgewise has a tide of this name itself; give it another name"),
        ("Flood", "its name is to be of small letters and digits, with hyphens between"),
    ],
)
def test_a_name_that_no_guest_can_have_is_told(install: Install, name: str, why: str) -> None:
    install("tide-mill", "", tides=f"{name} = tide_mill:FLOOD")
    assert TIDES.names() == ()
    assert TIDES.find(name) is None  # ours is meant, or none
    with pytest.warns(GuestWarning) as warned:
        assert list(TIDES.all()) == []
    found = [str(one.message) for one in warned]
    assert found == [f"tide {name} of the package tide-mill: {why}"]


def test_entry_points_that_cannot_be_read_hinder_no_other(install: Install, tmp_path: Path) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    install("sea-mill")
    (tmp_path / "sea_mill-1.0.dist-info" / "entry_points.txt").write_text("[edgewise.tides]\nebb\n")
    with pytest.warns(
        GuestWarning, match="^the entry points of the package sea-mill can't be read"
    ):
        assert TIDES.find("flood") == Tide("flood")


def test_the_first_of_two_distributions_of_one_name_counts(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    code = "from tests.test_guests import Tide\nFLOOD = Tide('flood')"
    install("tide-mill", code, tides="flood = tide_mill:FLOOD")
    older = tmp_path / "older" / "Tide_Mill-0.9.dist-info"
    older.mkdir(parents=True)
    (older / "METADATA").write_text("Metadata-Version: 2.4\nName: Tide_Mill\nVersion: 0.9\n")
    (older / "entry_points.txt").write_text("[edgewise.tides]\nflood = elsewhere:FLOOD\n")
    monkeypatch.setattr(sys, "path", [*sys.path, str(older.parent)])
    guests._entries.cache_clear()
    assert TIDES.find("flood") == Tide("flood")


def test_an_archive_on_the_path_is_looked_into(
    install: Install, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from zipfile import ZipFile

    install("empty")
    archive = tmp_path / "mill.zip"
    with ZipFile(archive, "w") as file:
        file.writestr("a_mill.py", "from tests.test_guests import Tide\nFLOOD = Tide('flood')")
        file.writestr("a_mill-1.dist-info/METADATA", "Metadata-Version: 2.4\nName: a-mill\n")
        file.writestr("a_mill-1.dist-info/entry_points.txt", "[edgewise.tides]\nflood=a_mill:FLOOD")
    monkeypatch.syspath_prepend(str(archive))
    guests._entries.cache_clear()
    assert TIDES.find("flood") == Tide("flood")


def test_a_warning_of_a_command_is_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(warnings, "formatwarning", warnings.formatwarning)
    guests.warn_plainly()
    assert warnings.formatwarning("high tide", GuestWarning, "a.py", 3) == "warning: high tide\n"
    assert "UserWarning: high tide" in warnings.formatwarning("high tide", UserWarning, "a.py", 3)


# ---------------------------------------------------------------------- parts


def test_a_part_of_another_package_is_a_part(install: Install) -> None:
    install("tide-mill", GATE, parts="inhibit = tide_mill:INHIBIT")
    design = blueprints.from_text(USED, "sluice.yaml").design()
    opened = design.circuit.part("OPEN")
    assert opened is not None
    assert opened.kind.function is not None
    assert parts.names()[-1] == "inhibit"


def test_a_part_that_is_not_there_is_told_with_those_of_others(install: Install) -> None:
    install("tide-mill", GATE, parts="inhibit = tide_mill:INHIBIT")
    with pytest.raises(EdgewiseError) as wrong:
        blueprints.from_text(USED.replace("inhibit", "inhibt"), "sluice.yaml").design()
    assert str(wrong.value) == (
        "sluice.yaml:4:16: part OPEN: there is no part inhibt; did you mean inhibit?"
    )


@pytest.mark.parametrize(
    ("code", "where", "what"),
    [
        (
            GATE.replace("import gate", "import gates"),
            "16: part OPEN: ",
            "can't be imported: ImportError: cannot import name 'gates' from"
            " 'edgewise.circuit.gates'",
        ),
        ("INHIBIT = 'a gate'", "16: part OPEN: ", "found a str, expected a PartType"),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: 1 // 0)",
            "3: part OPEN: ",
            "it failed with ZeroDivisionError: integer division or modulo by zero",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: 7)",
            "3: part OPEN: ",
            "it gave an int, expected a tuple",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, ports=lambda *_: ('a', 'b'))",
            "3: part OPEN: ",
            "it gave a str, expected a Port",
        ),
        (
            f"{GATE}from dataclasses import replace\n"
            "INHIBIT = replace(INHIBIT, inside=lambda *_: 'gates')",
            "3: ",
            "it gave a str, expected a Circuit or None",
        ),
        (
            f"{GATE}from dataclasses import replace\nINHIBIT = replace(INHIBIT, role='sluice')",
            "16: part OPEN: ",
            "its role is 'sluice'; expected gate, selector, storage, arithmetic, constant",
        ),
        (
            f"{GATE}from dataclasses import replace\nINHIBIT = replace(INHIBIT, function='and')",
            "16: part OPEN: ",
            "its function is 'and'; expected Function or None",
        ),
        (
            f"{GATE}from dataclasses import replace\nINHIBIT = replace(INHIBIT, about=None)",
            "16: part OPEN: ",
            "its about is None, expected a str",
        ),
        (
            f"{GATE}from dataclasses import replace\nINHIBIT = replace(INHIBIT, settings=(7,))",
            "16: part OPEN: ",
            "an int is among its settings, expected a Setting",
        ),
        (
            f"{GATE}from dataclasses import replace\nINHIBIT = replace(INHIBIT, ports=7)",
            "3: part OPEN: ",
            "it failed with TypeError: 'int' object is not callable",
        ),
        (
            GATE.replace('("not", "b")', '"c"'),
            "16: part OPEN: ",
            "can't be imported: CircuitError: the truth reads c; expected a, b",
        ),
        (
            GATE.replace('("not", "b")', '("nand", "a", "b")'),
            "16: part OPEN: ",
            "can't be imported: CircuitError: nand is no operation; expected not, and, or, xor,"
            " choose",
        ),
        (
            GATE.replace('("not", "b")', '("not", "a", "b")'),
            "16: part OPEN: ",
            "can't be imported: CircuitError: not of 2 in a truth; expected 1",
        ),
        (
            GATE.replace('("not", "b")', "()"),
            "16: part OPEN: ",
            "can't be imported: CircuitError: found () in a truth, expected a port, 0, 1 or an"
            " operation",
        ),
    ],
)
def test_what_is_wrong_with_a_part_is_told_where_it_is_used(
    install: Install, code: str, where: str, what: str
) -> None:
    install("tide-mill", code, parts="inhibit = tide_mill:INHIBIT")
    with pytest.raises(EdgewiseError) as wrong:
        blueprints.from_text(USED, "sluice.yaml").design()
    found = str(wrong.value).splitlines()[0]
    told = found.partition(" (/")[0]
    assert told == f"sluice.yaml:4:{where}part inhibit of the package tide-mill: {what}"
    without = USED.replace("inhibit, a: level, b: shut", "and, in: [level, shut]")
    assert blueprints.from_text(without, "sluice.yaml").design().circuit.part("OPEN") is not None


# ---------------------------------------------------------------------- what is wrong with others

SLUICE = """\
from edgewise import blueprint
SLUICE = blueprint.from_text(
    "{circuit: sluice, inputs: {x: 1}, outputs: {y: x}, operands: {x: 1}, computes: {y: x}}",
    "sluice.yaml", name="sluice")
"""
BROKEN_MAKE = f"""{SLUICE}
from dataclasses import replace
SLUICE = replace(SLUICE, make=lambda numbers: numbers["gate"])
"""
WHO = "design sluice of the package tide-mill: "


def test_a_design_of_another_package_is_listed(install: Install) -> None:
    install("tide-mill", SLUICE, designs="sluice = tide_mill:SLUICE")
    *ours, (group, last) = catalogue.listed()
    assert len(ours) == len(catalogue.ORDER)
    assert (group, last.name) == ("of the package tide-mill", "sluice")
    assert catalogue.find("sluice") is last
    assert catalogue.text("sluice") is None


@pytest.mark.parametrize(
    ("code", "message"),
    [
        ("1 // 0", "can't be imported: ZeroDivisionError: integer division or modulo by zero"),
        ("SLUICE = 7", "found an int, expected a Blueprint"),
        (
            f"{SLUICE}from dataclasses import replace\nSLUICE = replace(SLUICE, about=None)",
            "its about is None, expected a str",
        ),
        (
            f"{SLUICE}from dataclasses import replace\nSLUICE = replace(SLUICE, parameters=(7,))",
            "an int is among its parameters, expected a Parameter",
        ),
        (
            SLUICE.replace('name="sluice"', 'name="gate"'),
            "it calls itself gate; expected the name of its entry point",
        ),
    ],
)
def test_a_wrong_design_is_an_error_by_its_name_and_a_warning_in_a_list(
    install: Install, code: str, message: str
) -> None:
    install("tide-mill", code, designs="sluice = tide_mill:SLUICE")
    with pytest.raises(GuestError) as wrong:
        catalogue.find("sluice")
    assert str(wrong.value) == WHO + message
    with pytest.warns(GuestWarning) as warned:
        assert [one.name for _, one in catalogue.listed()] == list(catalogue.ORDER)
    assert [str(one.message) for one in warned] == [WHO + message]


def test_a_design_that_cannot_be_made_is_told(install: Install) -> None:
    install("tide-mill", BROKEN_MAKE, designs="sluice = tide_mill:SLUICE")
    with pytest.raises(GuestError) as wrong:
        catalogue.find("sluice").design()
    assert str(wrong.value) == f"{WHO}it failed with KeyError: 'gate'"


def test_a_design_named_as_one_of_ours_is_not_used(install: Install) -> None:
    install("tide-mill", SLUICE, designs="lfsr = tide_mill:SLUICE")
    assert catalogue.find("lfsr").title != "sluice"
    with pytest.warns(GuestWarning) as warned:
        assert len(list(catalogue.listed())) == len(catalogue.ORDER)
    assert [str(one.message) for one in warned] == [
        "design lfsr of the package tide-mill: edgewise has a design of this name itself; give it"
        " another name"
    ]


BELIEF = """\
from dataclasses import replace
from edgewise.study.misconceptions.misconception import Misconception
def change(design):
    {}
WET = Misconception("all-wet", "It is wet.", "water", "none", change)
"""


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ("return design.rain", "it failed with AttributeError: 'Design' object has no attribute"),
        ("return 'wet'", "it gave a str, expected a Design or None"),
        (
            "return replace(design, circuit=design.circuit.parts[0].kind.inside)",
            "it makes a wrong design of serial-adder: ",
        ),
        (
            "from edgewise.circuit.parts import kind; kind('water', {}, {})",
            "it makes a wrong design of serial-adder: there is no part water; there is: ",
        ),
        (
            "return replace(design, computes=())",
            "it changes which outputs of serial-adder are the answer",
        ),
        (
            "return replace(design, operands=design.operands[:1])",
            "it makes a wrong design of serial-adder: ",
        ),
    ],
)
def test_a_wrong_misconception_is_left_out_with_a_warning(
    install: Install, change: str, message: str
) -> None:
    install("tide-mill", BELIEF.format(change), misconceptions="all-wet = tide_mill:WET")
    adder = catalogue.design("serial-adder", n=4)
    with pytest.raises(GuestError) as wrong:
        misconceptions.find("all-wet").of(adder)
    who = "misconception all-wet of the package tide-mill: "
    assert str(wrong.value).startswith(who + message)
    assert "\n" not in str(wrong.value)
    with pytest.warns(GuestWarning) as warned:
        found = [one.name for one, _ in misconceptions.applicable(adder)]
    assert len(found) == 16
    assert [str(one.message) for one in warned] == [str(wrong.value)]


MODEL = """\
from dataclasses import replace
from edgewise.study.cost.models.gates import UNIT_GATE
OAK = replace(UNIT_GATE, name="oak", {})
"""


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ("area=lambda netlist: netlist.planks", "it failed with AttributeError: 'Netlist' object"),
        ("area=lambda netlist: 7", "it gave an int, expected a tuple"),
        ("area=lambda netlist: (1.5, 0)", "it gave a float, expected an int"),
        (
            "area=lambda netlist: (3, 4)",
            "its area is (3, 4); expected two numbers, all of it and what of it stores bits",
        ),
        ("timing=lambda netlist: None", "it gave None, expected a Timing"),
        (
            "timing=lambda netlist: replace(UNIT_GATE.timing(netlist), gates=(1,))",
            "its timing is not of this netlist; expected a delay for each gate, and clock-to-Q"
            " and set-up times for each flip-flop",
        ),
    ],
)
def test_a_wrong_cost_model_is_told_by_its_name(
    install: Install, changed: str, message: str
) -> None:
    install("tide-mill", MODEL.format(changed), cost_models="oak = tide_mill:OAK")
    assert models.names()[-1] == "oak"
    with pytest.raises(GuestError) as wrong:
        measure.of(catalogue.design("serial-adder", n=4), models.technology("oak"))
    assert str(wrong.value).startswith(f"cost model oak of the package tide-mill: {message}")


def test_a_cost_model_that_cannot_be_had_hinders_no_other(install: Install) -> None:
    install("tide-mill", "OAK = None", cost_models="oak = tide_mill:OAK")
    message = "cost model oak of the package tide-mill: found None, expected a Technology"
    with pytest.raises(GuestError) as wrong:
        models.technology("oak")
    assert str(wrong.value) == message
    with pytest.warns(GuestWarning) as warned:
        assert [one.name for one in models.technologies()] == list(models.names())[:-1]
    assert [str(one.message) for one in warned] == [message]


READER = """\
from edgewise.importers import Importer
def read(text, file):
    {}
TIDE = Importer("tide", "tides", read)
"""


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ("return text[99]", "it failed with IndexError: string index out of range"),
        ("return text", "it gave a str, expected a Design"),
    ],
)
def test_a_wrong_importer_is_told_by_its_name(
    install: Install, tmp_path: Path, body: str, message: str
) -> None:
    install("tide-mill", READER.format(body), importers="tide = tide_mill:TIDE")
    (tmp_path / "sea.tide").write_text("high", "utf-8")
    text = "{circuit: sea, inputs: {x: 1}, parts: {P: {part: sea.tide}}, outputs: {y: x}}"
    (tmp_path / "sea.yaml").write_text(text, "utf-8")
    who = "importer tide of the package tide-mill: "
    with pytest.raises(GuestError) as wrong:
        blueprints.from_file(tmp_path / "sea.tide")
    assert str(wrong.value) == who + message
    with pytest.raises(EdgewiseError) as wrong_part:
        blueprints.from_file(tmp_path / "sea.yaml").design()
    assert who + message in str(wrong_part.value)


def test_no_importer_takes_the_suffix_of_a_circuit_text(install: Install) -> None:
    install("tide-mill", READER.format("return text"), importers="yaml = tide_mill:TIDE")
    assert importers.find("sea.yaml") is None
    assert importers.suffixes() == (".yaml", ".yml", ".sv", ".v", ".vhd", ".vhdl")
    with pytest.warns(GuestWarning, match="edgewise has an importer of this name itself"):
        assert list(importers.GUESTS.all()) == []


LESSON = """\
---
title: Tides
design: serial-adder
operands: {a: 3, b: 5}
---
The tide.

```tide
of: [S]
```
"""
BLOCK = """\
from edgewise.lesson.composed import Code, Composed, Grid, Listing, Paragraph, Phrase
def tide(block, setting):
    return {}
"""


@pytest.mark.parametrize(
    ("made", "message"),
    [
        ("block.moon", "it failed with AttributeError: 'Block' object has no attribute 'moon'"),
        ("'<b>high</b>'", "it gave a str, expected a piece of a lesson"),
        (
            "Composed('<b>high</b>')",
            "it failed with TypeError: found str, expected a tuple of what the block is composed"
            " of",
        ),
        (
            "Composed(('<b>high</b>',))",
            "it failed with TypeError: found str, expected Paragraph or Listing or Grid or Code or"
            " EdgeTable or Figure",
        ),
        ("Composed((Paragraph('high'),))", "it failed with TypeError: found str, expected a tuple"),
        ("Composed((Listing(((7,),)),))", "it failed with TypeError: found int, expected str"),
        (
            "Composed((Paragraph((Phrase('high', 'script'),)),))",
            "it failed with ValueError: a Phrase is in emphasis, strong, code, not in 'script'",
        ),
        (
            "Composed((Code('\\x1b[2J'),))",
            "it failed with ValueError: the invisible character U+001B stands in a text",
        ),
        ("Composed((), language=7)", "it failed with TypeError: found int, expected str"),
        ("Composed((Code(7),))", "it failed with TypeError: found int, expected str"),
        (
            "Composed((Code('x' * 200_001),))",
            "it failed with ValueError: the block is of 200,001 characters; the limit is 200,000",
        ),
        (
            "Composed((Grid(('a', 'b'), (('1',),), ''),))",
            "it failed with ValueError: a row of a Grid has 1 cell, its heading 2",
        ),
    ],
)
def test_a_wrong_block_is_told_at_its_line(install: Install, made: str, message: str) -> None:
    install("tide-mill", BLOCK.format(made), blocks="tide = tide_mill:tide")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check_text(LESSON, "tide.md", Path())
    told = f"tide.md:8:1: block tide of the package tide-mill: {message}"
    assert str(wrong.value).startswith(told)
    without = LESSON.replace("```tide", "```text")
    assert lesson.check_text(without, "tide.md", Path()).pieces == {}


def test_a_block_that_is_no_function_is_told_at_its_line(install: Install) -> None:
    install("tide-mill", "tide = 7", blocks="tide = tide_mill:tide")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check_text(LESSON, "tide.md", Path())
    assert str(wrong.value) == (
        "tide.md:8:1: block tide of the package tide-mill: found an int, expected a function"
    )


def test_a_composed_block_is_escaped_in_every_format(install: Install) -> None:
    """No text of a block is read as HTML (WHATWG, HTML, 13.3) or as typst."""
    made = (
        "Composed((Paragraph(('<b>&', Phrase('#x]<i>', 'code'), Phrase('_s_', 'strong'))),"
        " Listing((('<li>',), ('b',)), numbered=True), Code('<c>'),"
        " Grid(('<h>', 'n'), (('<td>', '1'),), '<cap>', right=(1,))), language='fr')"
    )
    install("tide-mill", BLOCK.format(made), blocks="tide = tide_mill:tide")
    report = lesson.check_text(LESSON, "tide.md", Path())
    page = render.body(report)
    start = page.index('<p lang="fr">')
    assert page[start:].startswith(
        '<p lang="fr">&lt;b&gt;&amp;<code>#x]&lt;i&gt;</code><strong>_s_</strong></p>\n'
        '<ol lang="fr">\n<li>&lt;li&gt;</li>\n<li>b</li>\n</ol>\n'
        '<pre class="box" tabindex="0"><code>&lt;c&gt;</code></pre>\n'
    )
    for tag in ("<b>", "<i>", "<c>", "<h>", "<cap>"):
        assert tag not in page[start:]
    typst = handout.typst_of(report).source
    assert '#text(lang: "fr")[#"<b>&";#raw("#x]<i>");#strong[#"_s_";];' in typst
    assert '#text(lang: "fr")[#enum([#"<li>";], [#"b";], )]' in typst
    assert handout.pdfs(report)[0].startswith(b"%PDF")


def test_a_composed_block_draws_figures_and_tables_of_the_run(install: Install) -> None:
    """The block that docs/guest-block.md shows, in German."""
    text = (Path(__file__).parents[1] / "docs" / "guest-block.md").read_text("utf-8")
    codes = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    twice = "def tide(*of):\n    made = last_edge(*of)\n    return Composed(made.content * 2)\n"
    install("tide-mill", "\n".join([*codes, twice]), blocks="tide = tide_mill:tide")
    german = LESSON.replace("of: [S]\n", "").replace("title:", "language: de\ntitle:")
    report = lesson.check_text(german, "tide.md", Path())
    page = render.body(report)
    assert page.count("<figcaption>In the end\n") == 2
    assert page.count("<caption>The last edge</caption>") == 2
    ids = re.findall(r' id="([^"]*)"', page)
    assert len(ids) == len(set(ids)) > 0
    typst = handout.typst_of(report).source
    assert "Abbildung 2. In the end" in typst
    assert "Tabelle 2. The last edge" in typst
    assert handout.pdfs(report)[0].startswith(b"%PDF")


FORMAT = """\
from edgewise.publish.formats import Format
from edgewise.publish.publisher import Publisher
TAPE = Format("tape", {}, "a tape", {})
"""


@pytest.mark.parametrize(
    ("code", "message"),
    [
        (FORMAT.format("'.tape'", "lambda report: 1 // 0"), "it failed with ZeroDivisionError: "),
        (
            FORMAT.format("'.tape'", "lambda report: None"),
            "it gave None, expected a str or a bytes",
        ),
        (
            FORMAT.format("'tape/../x'", "str"),
            "its suffix is 'tape/../x'; expected one such as '.txt'",
        ),
        (
            f"{FORMAT.format(chr(34) * 2, 'str')}class Tape(Publisher):\n    pass\n",
            "can't be imported: TypeError: Tape publishes no edge_table, figure, stage, said,",
        ),
    ],
)
def test_a_wrong_publisher_is_told_and_writes_nothing(
    install: Install, tmp_path: Path, edgewise: Edgewise, code: str, message: str
) -> None:
    install("tide-mill", code, publishers="tape = tide_mill:TAPE")
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    done = edgewise("build", str(path), "--as", "tape", "-o", str(tmp_path / "out"))
    assert done.code == 2
    assert done.err.startswith(f"publisher tape of the package tide-mill: {message}")
    assert done.err.count("\n") == 1
    assert not (tmp_path / "out").exists()
    assert edgewise("check", str(path)).code == 0


def test_a_format_may_not_overwrite_the_lesson(install: Install, tmp_path: Path) -> None:
    code = FORMAT.format("'.md'", "lambda report: 'x'")
    install("tide-mill", code, publishers="tape = tide_mill:TAPE")
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        formats.build(path, tmp_path, "tape")
    assert str(wrong.value) == (f"{path}: this would overwrite the lesson; choose another folder")
    written = formats.build(path, tmp_path / "out", "tape")
    assert written.read_text("utf-8") == "x"


# ---------------------------------------------------------------------- commands


def test_all_are_listed_with_what_is_wrong(install: Install, edgewise: Edgewise) -> None:
    assert edgewise("guests").out == "no installed package brings anything to edgewise\n"
    install(
        "tide-mill",
        GATE,
        parts="inhibit = tide_mill:INHIBIT\nand = tide_mill:INHIBIT",
        importers="tide = tide_gears:TIDE",
    )
    done = edgewise("guests")
    assert done.code == 2
    assert [line.split() for line in done.out.splitlines()[2:]] == [
        ["part", "and", "tide-mill", "can't", "be", "used"],
        ["part", "inhibit", "tide-mill"],
        ["importer", "tide", "tide-mill", "can't", "be", "used"],
    ]
    assert done.err == (
        "part and of the package tide-mill: edgewise has a part of this name itself; give it"
        " another name\n"
        "importer tide of the package tide-mill: can't be imported: ModuleNotFoundError: No module"
        " named 'tide_gears'\n"
    )


def test_each_is_tried_where_all_are_listed(install: Install, edgewise: Edgewise) -> None:
    install(
        "tide-mill",
        f"{BROKEN_MAKE}{MODEL.format('timing=lambda netlist: None')}"
        f"{BELIEF.format('return design.rain')}WRONG = replace(SLUICE, name='wrong', make="
        "blueprint.from_text('{circuit: a, outputs: {y: x}}', 'wrong.yaml').make)\n",
        designs="sluice = tide_mill:SLUICE\nwrong = tide_mill:WRONG",
        misconceptions="all-wet = tide_mill:WET",
        cost_models="oak = tide_mill:OAK",
    )
    done = edgewise("guests")
    assert done.code == 2
    assert done.err.splitlines() == [
        "design sluice of the package tide-mill: it failed with KeyError: 'gate'",
        "misconception all-wet of the package tide-mill: it failed with AttributeError: 'Design'"
        " object has no attribute 'rain'",
        "cost model oak of the package tide-mill: it gave None, expected a Timing",
        "wrong.yaml:1:27: design wrong of the package tide-mill: there is no net or part named x",
    ]


def test_a_list_tells_of_a_faulty_guest_in_one_line(install: Install, tmp_path: Path) -> None:
    install("tide-mill", "1 // 0", designs="sluice = tide_mill:SLUICE")
    done = subprocess.run(
        [sys.executable, "-m", "edgewise", "list"],
        env=os.environ | {"PYTHONPATH": os.pathsep.join([str(tmp_path), *sys.path])},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == (
        "warning: design sluice of the package tide-mill: can't be imported: ZeroDivisionError:"
        " integer division or modulo by zero\n"
    )
    assert "serial-adder" in done.stdout
    assert "sluice" not in done.stdout


@pytest.mark.parametrize("words", [("--version",), ("trace", "ring-counter")])
def test_commands_that_need_no_guest_read_no_metadata(
    install: Install, tmp_path: Path, words: tuple[str, ...]
) -> None:
    """Start-up stays lean: importlib.metadata is only read where a name is not ours."""
    install("tide-mill", "1 // 0", designs="sluice = tide_mill:SLUICE")
    code = (
        "import sys\nfrom edgewise import guests\nfrom edgewise.cli import main\n"
        "try:\n    main()\nfinally:\n    assert guests._entries.cache_info().currsize == 0\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        env=os.environ | {"PYTHONPATH": os.pathsep.join([str(tmp_path), *sys.path])},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
