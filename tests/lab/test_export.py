# ruff: noqa: E501  # whole messages on one line
"""edgewise export, as a user meets it; every message in full."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise.lab.identifier import identifier
from edgewise.lab.reserved import SYSTEMVERILOG, VHDL
from tests.conftest import Edgewise

RUN = ("export", "serial-adder", "--operands", "a=22,b=43")


def test_a_description_comes_with_its_bench(edgewise: Edgewise, tmp_path: Path) -> None:
    target = tmp_path / "adder.sv"
    answer = edgewise(*RUN, "--hdl", "systemverilog", "-o", str(target))
    assert answer == (f"{target}\n{tmp_path / 'adder_bench.sv'}\n", "", 0)
    assert "module serial_adder #(parameter int n = 6) (" in target.read_text()
    assert "module serial_adder_bench;" in (tmp_path / "adder_bench.sv").read_text()


def test_without_operands_there_is_no_bench(edgewise: Edgewise, tmp_path: Path) -> None:
    target = tmp_path / "adder.sv"
    answer = edgewise("export", "serial-adder", "--hdl", "systemverilog", "-o", str(target))
    assert answer == (f"{target}\n", "", 0)
    assert [file.name for file in tmp_path.iterdir()] == ["adder.sv"]


def test_a_run_without_operands_has_its_bench(edgewise: Edgewise, tmp_path: Path) -> None:
    target = tmp_path / "ring.sv"
    answer = edgewise("export", "ring-counter", "--hdl", "systemverilog", "-o", str(target))
    assert answer == (f"{target}\n{tmp_path / 'ring_bench.sv'}\n", "", 0)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            RUN,
            "there is nothing to export; give --hdl LANGUAGE, --wave FILE, or both",
        ),
        (
            (*RUN, "--hdl", "systemverylog"),
            "--hdl: there is no language systemverylog; did you mean systemverilog?",
        ),
        (
            (*RUN, "--hdl", "systemverilog", "-o", "adder.txt"),
            "can't write adder.txt: its name ends in .txt; SystemVerilog is written as .sv",
        ),
        (
            (*RUN, "--hdl", "systemverilog", "-o", "no-such-folder/adder.sv"),
            "can't write no-such-folder/adder.sv: no such file or directory",
        ),
        (
            (*RUN, "--hdl", "systemverilog", "-o", "/proc/adder.sv"),
            "can't write /proc/adder.sv: no such file or directory",
        ),
        (
            (*RUN, "--wave", "run.txt"),
            "can't write run.txt: its name ends in .txt; a value change dump is written as .vcd",
        ),
        (
            (*RUN, "--wave", "run.vcd", "-o", "adder.sv"),
            "--out has no effect without --hdl",
        ),
        (
            ("export", "serial-adder", "--wave", "run.vcd"),
            "operand a is missing; give a number in 0..63\noperand b is missing; give a number in 0..63",
        ),
    ],
)
def test_what_is_refused(
    edgewise: Edgewise,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    told: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert edgewise(*words) == ("", f"{told}\n", 2)
    assert list(tmp_path.iterdir()) == []


def test_ports_with_one_name_are_refused(edgewise: Edgewise, tmp_path: Path) -> None:
    circuit = tmp_path / "rain.yaml"
    circuit.write_text(
        "circuit: two gauges\n"
        "inputs: {drop_0: 1, drop(i = 0..1): 1}\n"
        "outputs: {wet: drop(1)}\n"
        "operands: {drop_0: 1, drop(i = 0..1): 1}\n"
    )
    answer = edgewise("export", str(circuit), "--hdl", "systemverilog", "-o", f"{tmp_path}/r.sv")
    assert answer == (
        "",
        f"{circuit}:2:21: drop_0 and drop(0) would both be called drop_0 in SystemVerilog; rename one of them\n",
        2,
    )


# IEEE Std 1800-2017, 5.6 (simple identifiers), and IEEE Std 1076-2008, 15.4.2 (basic identifiers:
# a letter, then letters and digits with single underscores between).
@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("a_in", "a_in"),
        ("FA(3).carry-out", "FA_3_carry_out"),
        ("__wet__", "wet"),
        ("2nd", "n2nd"),
        ("signal", "signal_id"),
        ("Logic", "Logic_id"),
    ],
)
def test_names_become_identifiers_of_both_languages(name: str, told: str) -> None:
    assert identifier(name) == told


def test_no_reserved_word_is_an_identifier() -> None:
    assert not {identifier(word) for word in SYSTEMVERILOG | VHDL} & (SYSTEMVERILOG | VHDL)
    assert (len(SYSTEMVERILOG), len(VHDL)) == (248, 115)  # as many as the standards list
