"""Recordings explained: a sample of those that `scripts/capture_trials.py` runs by the hundred.

Outside: pyvcd writes the dumps (`trials.py`), and its reader reads what ours reads, alike.
"""

from __future__ import annotations

import io
import itertools
import random
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lab import dump
from edgewise.lab.capture import explanation, file, matching, table, value_change_dump
from edgewise.lab.capture.explanation import Explained
from edgewise.lab.capture.recording import Recording
from edgewise.lab.wiring import check, placement
from tests.lab.capture import trials

SEEDS = range(3, 11)
PATH = Path("analyser.vcd")


def explained(trial: trials.Trial) -> Explained:
    recording = value_change_dump.read(trial.file, PATH)
    return explanation.explain(trial.design, trial.operands, recording)


def test_the_fault_is_found_through_noise_and_bounce() -> None:
    first = 0
    for seed in SEEDS:
        trial = trials.trial(seed)
        groups = [{one.name for one in g.members} for g in explained(trial).explanations[:3]]
        assert any(trial.truth in group for group in groups), (seed, trial.truth)
        first += trial.truth in groups[0]
    assert first >= len(SEEDS) - 1


@pytest.mark.parametrize("seed", SEEDS[:4])
def test_two_readers_read_alike(seed: int) -> None:
    """Outside: pyvcd's reader of IEEE 1364-2005, clause 18."""
    text = trials.trial(seed).file
    ours = value_change_dump.read(text, PATH)
    assert {one.name: list(zip(one.times, one.bits, strict=True)) for one in ours.channels} == (
        by_pyvcd(text)
    )


def by_pyvcd(text: str) -> dict[str, list[tuple[int, int]]]:
    from vcd.reader import TokenKind, tokenize

    names: dict[str, str] = {}
    found: dict[str, list[tuple[int, int]]] = {}
    time = 0
    for token in tokenize(io.BytesIO(text.encode())):
        data: Any = token.data
        if token.kind is TokenKind.VAR:
            index = f"({data.bit_index})" if data.bit_index is not None else ""
            names[data.id_code] = f"{data.reference}{index}"
            found[names[data.id_code]] = []
        elif token.kind is TokenKind.CHANGE_TIME:
            time = data
        elif token.kind is TokenKind.CHANGE_SCALAR:
            changes = found[names[data.id_code]]
            bit = "01x".index(data.value.lower().replace("z", "x"))
            if changes and changes[-1][0] == time:
                changes[-1] = (time, bit)
            else:
                changes.append((time, bit))
    return {
        name: [c for i, c in enumerate(changes) if not i or c[1] != changes[i - 1][1]]
        for name, changes in found.items()
    }


def test_a_run_written_by_export_is_as_it_should_be() -> None:
    design = catalogue.design("serial-adder", n=4)
    trace = reference.run(design, {"a": 5, "b": 6})
    found = explanation.explain(
        design, {"a": 5, "b": 6}, value_change_dump.read(dump.text(trace), PATH)
    )
    assert found.as_it_should
    assert found.differences == ()
    assert (found.lined.clock, found.lined.inverted, found.lined.bounces) == ("clock", False, 0)


def states(design: str, lines: list[str], **operands: int) -> Explained:
    of = catalogue.design(design, n=4)
    recording = table.read("\n".join(lines) + "\n", Path("states.csv"))
    return explanation.explain(of, operands, recording)


def test_state_samples_need_no_clock_and_no_names() -> None:
    """A counter's lights in the wrong order, recorded at each edge: the data tell the order."""
    lines = ["D0,D1,D2,D3"]
    lines += [",".join(f"{k % 16:04b}"[i] for i in (2, 0, 3, 1)) for k in range(17)]
    found = states("binary-counter", lines)
    assert found.as_it_should
    probes = {probe.channel: probe.net for probe in found.probes}
    assert probes == {"D0": "CNT(1)", "D1": "CNT(3)", "D2": "CNT(0)", "D3": "CNT(2)"}


COUNTS = [f"{k % 16:04b}" for k in range(17)]
"""What a counter of four bits shows, MSB first."""


def test_two_probes_swapped_are_told() -> None:
    lines = ["CNT(0),CNT(1),CNT(2),CNT(3)", *(",".join((b[2], b[3], b[1], b[0])) for b in COUNTS)]
    found = states("binary-counter", lines)
    assert not found.as_it_should
    assert [one.name for one in found.explanations[0].members] == ["probes CNT(0) and CNT(1)"]
    first = found.differences[0]
    assert (first.row, first.net, first.seen, first.expected) == (1, "CNT(0)", 0, 1)


def test_a_channel_that_is_off_is_told() -> None:
    """The light of bit 1 stays dark while the counter goes on: no fault of the counter does so."""
    lines = ["CNT(0),CNT(1),CNT(2),CNT(3)", *(",".join((b[3], "0", b[1], b[0])) for b in COUNTS)]
    found = states("binary-counter", lines)
    assert [one.name for one in found.explanations[0].members] == ["dead CNT(1)"]
    assert (found.explanations[0].best.unexplained, found.as_it_should) == (0, False)


def test_the_next_measurement_parts_what_is_left() -> None:
    """Each rival is asked what it expects there: the two sides differ."""
    trial = trials.trial(3)
    found = explained(trial)
    chosen = found.next
    assert chosen is not None
    assert chosen.net in matching.watchable(trial.design)
    assert chosen.net not in {probe.net for probe in found.probes}
    expected = {
        one.name: one.hypothesis.shown(chosen.net)[chosen.row]
        for group in found.explanations
        for one in group.members
        if not one.swapped
    }
    assert {expected[name] for name in chosen.zero} == {0}
    assert {expected[name] for name in chosen.one} == {1}


def test_names_are_known_however_they_are_spelt() -> None:
    design = catalogue.design("serial-adder", n=4)
    spelt = ["S[3]", "s_2", "dut/S(1)", "top.fa.SUM", "carry", "shift", "nothing"]
    assert matching.by_name(design, spelt) == {
        "S[3]": "S(3)",
        "s_2": "S(2)",
        "dut/S(1)": "S(1)",
        "top.fa.SUM": "FA.sum",
        "carry": "C",
        "shift": "shift",
    }


def test_channels_are_matched_as_well_as_by_trying_all_orders() -> None:
    """By hand: three channels, four nets, every way tried."""
    samples = {"a": (0, 1, 1, 0), "b": (1, 1, 0, 0), "c": (0, 0, 1, 0)}
    nets = {"p": (0, 0, 1, 1), "q": (1, 1, 0, 1), "r": (0, 1, 1, 0), "s": (0, 0, 0, 0)}

    def total(names: tuple[str, ...]) -> float:
        pairs = zip(samples.values(), (nets[n] for n in names), strict=True)
        return sum(
            min(
                matching.cost(one, other),
                matching.cost(one, other, inverted=True) + matching.INVERTED,
            )
            for one, other in pairs
        )

    best = min(itertools.permutations(nets, 3), key=total)
    found = tuple(probe.net for probe in matching.assigned(samples, nets))
    assert total(found) == total(best)


# ---------------------------------------------------------------------- files that are none

HEAD = "$timescale 1 ns $end $scope module top $end $var wire 1 ! clk $end "
ENDED = HEAD + "$upscope $end $enddefinitions $end "
DUMPS = {
    "hello": "m.vcd:1: found 'hello' before $enddefinitions; expected a $ section",
    "": "m.vcd:1: this is no value change dump: it has no $enddefinitions; expected a .vcd file",
    "$comment a\nb": "m.vcd:2: $comment has no $end",
    "$timescale 3 h $end": "m.vcd:1: $timescale is '3 h'; expected 1, 10 or 100 and s to fs",
    "$var wire x ! a $end": "m.vcd:1: found $var 'wire x ! a'; expected type, size, code, name",
    "$var wire 999 ! a $end": (
        "m.vcd:1: a has 999 bits; a recording of up to 256 channels is read"
    ),
    "$enddefinitions $end": "m.vcd:1: there is no $var: nothing was recorded",
    ENDED + "\n#5 #3": "m.vcd:2: time goes back from 5 to 3",
    ENDED + "#x": "m.vcd:1: found '#x'; expected a time: # and a number",
    ENDED + "#1 1?": "m.vcd:1: found '1?', a change of '?', which no $var declares",
    ENDED + "#1 q!": "m.vcd:1: found 'q!'; expected digits 0, 1, x, z",
    ENDED + "#1 b2 !": "m.vcd:1: found 'b2'; expected digits 0, 1, x, z",
}
TABLES = {
    "D0,D1\n": "m.csv:1: there is no sample; expected a line of names and a line for each sample",
    "D0,D0\n0,0\n": ("m.csv:1: the first line must name each channel, each by a name of its own"),
    "time,D0\n0,0\nx,0\n": "m.csv:3: found 'x'; expected a time, a number",
    "time,D0\n2,0\n1,0\n": "m.csv:3: time goes back",
    "# tide\n\nD0,D1\n; low\n0,0\n0,7\n": "m.csv:6: found '7'; expected 0 or 1, or X",
    "D0,D1\n0,0\n0\n": "m.csv:3: found 1 samples; expected 2, one for each channel",
    "D0\n" + "0" * 140_000 + "\n": (
        "m.csv:2: this is no table of comma-separated values: field larger than field limit"
        " (131072)"
    ),
    "D0,D1\n0,7\n": "m.csv:2: found '7'; expected 0 or 1, or X",
}


@pytest.mark.parametrize("text", DUMPS)
def test_what_is_no_dump_is_refused(text: str) -> None:
    with pytest.raises(EdgewiseError, match=f"^{re.escape(DUMPS[text])}$"):
        value_change_dump.read(text, Path("m.vcd"))


@pytest.mark.parametrize("text", TABLES)
def test_what_is_no_table_is_refused(text: str) -> None:
    with pytest.raises(EdgewiseError, match=f"^{re.escape(TABLES[text])}$"):
        table.read(text, Path("m.csv"))


def test_hostile_files_end_soon(tmp_path: Path) -> None:
    """Nothing is repeated, evaluated or opened; what is too much is refused."""
    many = "".join(f"$var wire 1 v{i} n{i} $end " for i in range(300)) + "$enddefinitions $end"
    with pytest.raises(EdgewiseError, match="up to 256 channels"):
        value_change_dump.read(many, Path("m.vcd"))
    binary = tmp_path / "m.vcd"
    binary.write_bytes(bytes(range(256)) * 40)
    with pytest.raises(EdgewiseError, match="before \\$enddefinitions; expected a \\$ section"):
        file.read(binary)
    with pytest.raises(EdgewiseError, match="a recording is read from a"):
        file.read(tmp_path / "m.txt")
    with pytest.raises(EdgewiseError, match="can't be read: No such file or directory"):
        file.read(tmp_path / "none.csv")


def test_a_recording_of_the_clock_alone_is_refused() -> None:
    clock = table.read("time,clk\n0,0\n1,1\n2,0\n", Path("m.csv"))
    with pytest.raises(EdgewiseError) as caught:
        explanation.explain(catalogue.design("binary-counter", n=4), {}, clock)
    assert str(caught.value) == "there is no channel beside the clock; record the lights too"


def test_a_circuit_without_a_clock_is_compared_at_the_end() -> None:
    lines = ["time,a(1),a(0),b(1),b(0),carry_in,sum(1),sum(0),carry"]
    lines += ["0,0,0,0,0,0,0,0,0", "5,1,0,0,1,0,1,0,0", "9,1,0,0,1,0,1,1,0"]
    recording = table.read("\n".join(lines) + "\n", Path("m.csv"))
    design = catalogue.design("ripple-carry-adder", n=2)
    found = explanation.explain(design, {"a": 2, "b": 1, "carry_in": 0}, recording)
    assert (found.as_it_should, len(found.probes), found.lined.rows) == (True, 8, 1)


def test_a_recording_without_an_edge_has_no_clock() -> None:
    still = Recording((), 10)
    design = catalogue.design("binary-counter", n=4)
    with pytest.raises(EdgewiseError) as caught:
        explanation.explain(design, {}, still)
    assert str(caught.value) == (
        "no channel has an edge, so none can be the clock; record the clock beside the lights"
    )


def test_two_wires_of_a_board_swapped_are_found() -> None:
    """From the sheet to the analyser: the adder's two outputs go to each other's pins."""
    chance = random.Random(5)  # noqa: S311  # always the same
    drawn = trials.without_unknowns(catalogue.design("serial-adder", n=4), chance)
    board = placement.wired(drawn)
    ends = {w.net: w.end for w in board.wires if w.net in ("FA.sum", "FA.carry-out")}
    other = {"FA.sum": "FA.carry-out", "FA.carry-out": "FA.sum"}
    wires = tuple(replace(w, end=ends[other[w.net]]) if w.net in other else w for w in board.wires)
    wrong = replace(board, wires=wires)
    assert not check.check(wrong).equal
    _, table_ = trials.bench(wrong, {"a": 5, "b": 7}, "right", chance)
    text = trials.written(table_, chance, named=True)
    design = catalogue.design("serial-adder", n=4)
    found = explanation.explain(design, {"a": 5, "b": 7}, value_change_dump.read(text, PATH))
    names = [one.name for one in found.explanations[0].members]
    assert "FA: sum and carry-out swapped" in names
