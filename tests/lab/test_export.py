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


def test_a_bench_of_random_rows_is_beside(edgewise: Edgewise, tmp_path: Path) -> None:
    target = tmp_path / "adder.vhd"
    words = ("export", "serial-adder", "--hdl", "vhdl", "--random", "20", "--seed", "7")
    assert edgewise(*words, "-o", str(target)) == (
        f"{target}\n{tmp_path / 'adder_random.vhd'}\n",
        "",
        0,
    )
    text = (tmp_path / "adder_random.vhd").read_text()
    assert "20 rows of random inputs, seed 7, for n = 6" in " ".join(text.split())
    assert text.count("check_row(") == 22  # rows 0 to 20, and what they call


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
            (*RUN, "--hdl", "vhdl", "-o", "adder.sv"),
            "can't write adder.sv: its name ends in .sv; VHDL is written as .vhd or .vhdl",
        ),
        (
            (*RUN, "--hdl", "cobol"),
            "--hdl: there is no language cobol; there is: systemverilog, vhdl",
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
            (*RUN, "--wave", "run.vcd", "--laws", "--random", "5"),
            "--laws and --random have no effect without --hdl",
        ),
        (
            (*RUN, "--hdl", "vhdl", "--seed", "5"),
            "--seed has no effect without --random",
        ),
        (
            ("export", "serial-adder", "--hdl", "vhdl", "--laws"),
            "--laws has no effect without --operands",
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


@pytest.mark.parametrize(
    ("language", "suffix", "title", "other", "both"),
    [
        ("systemverilog", ".sv", "SystemVerilog", "drop_1", "drop_1"),
        ("vhdl", ".vhd", "VHDL", "drop_1", "drop_1"),
        ("vhdl", ".vhd", "VHDL", "Drop_1", "drop_1"),
    ],
)
def test_ports_with_one_name_are_refused(  # noqa: PLR0913, PLR0917
    edgewise: Edgewise,
    tmp_path: Path,
    language: str,
    suffix: str,
    title: str,
    other: str,
    both: str,
) -> None:
    circuit = tmp_path / "rain.yaml"
    circuit.write_text(
        "circuit: two gauges\n"
        f"inputs: {{{other}: 1, drop(i = 0..1): 1}}\n"
        "outputs: {wet: drop(1)}\n"
        f"operands: {{{other}: 1, drop(i = 0..1): 1}}\n"
    )
    target = tmp_path / f"rain{suffix}"
    told = f"{circuit}:2:21: {other} and drop(1) would both be called {both} in {title}; rename one of them"
    answer = edgewise("export", str(circuit), "--hdl", language, "-o", str(target))
    assert answer == ("", f"{told}\n", 2)
    assert not target.exists()


def test_capital_letters_tell_ports_apart_in_systemverilog(
    edgewise: Edgewise, tmp_path: Path
) -> None:
    circuit = tmp_path / "rain.yaml"
    circuit.write_text(
        "{circuit: gauges, inputs: {a: 1, A: 1}, outputs: {wet: a}, operands: {a: 1, A: 1}}"
    )
    target = tmp_path / "rain.sv"
    assert edgewise("export", str(circuit), "--hdl", "systemverilog", "-o", str(target)).code == 0
    assert "wire A," in target.read_text()


def test_nothing_is_written_where_a_folder_has_the_name_of_the_bench(
    edgewise: Edgewise, tmp_path: Path
) -> None:
    (tmp_path / "adder_bench.sv").mkdir()
    answer = edgewise(*RUN, "--hdl", "systemverilog", "-o", str(tmp_path / "adder.sv"))
    told = f"can't write {tmp_path / 'adder_bench.sv'}: is a directory\n"
    assert answer == ("", told, 2)
    assert not (tmp_path / "adder.sv").exists()


@pytest.mark.parametrize(("language", "mark"), [("systemverilog", "//"), ("vhdl", "--")])
def test_what_people_are_told_stays_in_a_comment(
    edgewise: Edgewise, tmp_path: Path, language: str, mark: str
) -> None:
    circuit = tmp_path / "odd name $end.yaml"
    circuit.write_text(
        "circuit: rain\nabout: |\n  wet\n  endmodule */ `include Zähler end;\n"
        "inputs: {x: 1}\nparts: {C: {part: flip-flop, d: x}}\noutputs: {wet: C}\n"
        "operands: {x: 1}\nprocedure: [{phase: fall, edges: 2}]\n",
        encoding="utf-8",
    )
    target, wave = tmp_path / "rain.sv", tmp_path / "rain.vcd"
    target = target.with_suffix({"//": ".sv", "--": ".vhd"}[mark])
    words = ("--operands", "x=1", "--hdl", language, "-o", str(target), "--wave", str(wave))
    answer = edgewise("export", str(circuit), *words)
    assert (answer.err, answer.code) == ("", 0)
    assert f"{mark} wet endmodule */ `include Zahler end;" in target.read_text("ascii").splitlines()
    assert "$scope module odd_name_end $end" in wave.read_text("ascii").splitlines()


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
