"""The commands wire and capture: what they print and write, every error whole."""

from __future__ import annotations

import json
from pathlib import Path

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.lab import dump
from tests.conftest import Edgewise

ADDER = ("serial-adder", "--with", "n=4", "--operands", "a=5,b=6")


def test_wire_prints_what_to_build(edgewise: Edgewise) -> None:
    out, err, code = edgewise("wire", *ADDER)
    assert (err, code) == ("", 0)
    assert out.startswith("Bench sheet: bit-serial adder\nn = 4, a = 5, b = 6, 6 packages, ")
    assert "No choice among the ways that were tried takes fewer packages" in out
    assert "4        74HC194   4-bit universal shift register" in out
    assert "U1-16 VCC" in out


def test_check_says_how_much_was_proved(edgewise: Edgewise) -> None:
    out, err, code = edgewise("wire", "modulo-counter", "--check")
    assert (err, code) == ("", 0)
    assert " ".join(out.split()) == (
        "Read off the table of wires, the packages compute the design: all 9 bits that are stored"
        " or shown were proved equal for every state and every input."
    )


def test_json_has_pins_wires_and_rows(edgewise: Edgewise) -> None:
    out, _, code = edgewise("wire", *ADDER, "--json")
    told = json.loads(out)
    assert code == 0
    assert (told["equal"], told["fewest"], len(told["packages"])) == (True, True, 6)
    assert told["packages"][0]["pins"]["16"] == {"pin": "VCC", "net": None}
    assert [row["words"][0] for row in told["rows"]][-1] == "1011"


def test_a_sheet_is_written_as_its_name_says(edgewise: Edgewise, tmp_path: Path) -> None:
    pdf, page = tmp_path / "bench.pdf", tmp_path / "bench.html"
    assert edgewise("wire", *ADDER, "-o", str(pdf)) == (f"{pdf}\n", "", 0)
    assert pdf.read_bytes().startswith(b"%PDF-")
    told = edgewise("wire", "johnson-counter", "--language", "de", "-o", str(page))
    assert told == (f"{page}\n", "", 0)
    text = page.read_text("utf-8")
    assert '<html lang="de">' in text
    assert "Aufbaublatt" in text


def test_wire_refuses_what_it_cannot_do(edgewise: Edgewise, tmp_path: Path) -> None:
    told = edgewise("wire", "serial-adder", "--parts", "ttl")
    assert told == ("", "--parts: there is no family ttl; there is 74hc\n", 2)
    told = edgewise("wire", "serial-adder", "-o", str(tmp_path / "b.doc"))
    assert told == (
        "",
        f"can't write {tmp_path}/b.doc: its name ends in .doc; a bench sheet is written as .pdf or"
        " .html\n",
        2,
    )
    told = edgewise("wire", "serial-adder", "--language", "fr", "-o", str(tmp_path / "b.pdf"))
    assert told == ("", "--language: a sheet is written in en or de; found fr\n", 2)
    told = edgewise("wire", "binary-counter", "--with", "n=2", "--paper", "a3", "-o", "x.pdf")
    assert told == ("", "there is no paper a3; a bench sheet is printed on a4 or letter\n", 2)
    told = edgewise("wire", "serial-adder", "--with", "n=64")
    assert told == (
        "",
        "serial-adder takes 51 packages; a bench sheet holds up to 32: give smaller parameters\n",
        2,
    )
    _, err, code = edgewise("wire", "serial-adder", "--paper", "letter")
    assert (err, code) == ("--paper has no effect without -o\n", 2)


def test_capture_agrees_with_a_run(edgewise: Edgewise, tmp_path: Path) -> None:
    design = catalogue.design("serial-adder", n=4)
    path = tmp_path / "run.vcd"
    path.write_text(dump.text(reference.run(design, {"a": 5, "b": 6})))
    out, err, code = edgewise("capture", str(path), "--design", *ADDER)
    assert (err, code) == ("", 0)
    assert "The recording is as the run should be.\n" in out


def test_capture_tells_the_fault_and_the_next_measurement(
    edgewise: Edgewise, tmp_path: Path
) -> None:
    """A counter whose light of bit 1 stays dark, recorded at each edge."""
    path = tmp_path / "states.csv"
    lines = [f"{k % 16:04b}" for k in range(17)]
    cells = [",".join((b[0], b[1], "0", b[3])) for b in lines]
    path.write_text("CNT(3),CNT(2),CNT(1),CNT(0)\n" + "\n".join(cells) + "\n")
    out, err, code = edgewise("capture", str(path), "--design", "binary-counter", "--json")
    told = json.loads(out)
    assert (err, code) == ("", 1)
    assert told["explanations"][0] == {"names": ["dead CNT(1)"], "unexplained": 0}
    assert told["differences"][0] == {"row": 2, "net": "CNT(1)", "seen": 0, "expected": 1}
    out, _, code = edgewise("capture", str(path), "--design", "binary-counter")
    assert code == 1
    assert "The first difference is in row 2: CNT(1) is 0, and should be 1." in out


def test_capture_refuses_what_it_cannot_read(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "run.txt"
    told = edgewise("capture", "x.vcd", "--design", "binary-counter", "--language", "fr")
    assert told == ("", "--language: found 'fr', expected en or de\n", 2)
    told = edgewise("capture", str(path), "--design", "binary-counter")
    assert told == ("", f"{path}: a recording is read from a .vcd or a .csv file\n", 2)
