# ruff: noqa: E501  # whole messages on one line
"""`trace --inside 0` with waveforms: circuits with loops and clocks of their own, in time.

The latch of two NAND gates and what becomes of it when both inputs are pushed: Mano and Ciletti,
*Digital Design*, sec. 5.3 (from memory): set 0 gives q = 1, reset 0 gives q = 0, both 1 keep it,
both 0 force both outputs to 1, and both back to 1 at once leaves open which of them wins.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Final

import pytest

from tests.test_cli_inside import Command

LATCH = """\
circuit: latch of two NAND gates
inputs: {set_n: 1, reset_n: 1}
parts:
  G1: {part: nand, in: [set_n, G2.out]}
  G2: {part: nand, in: [reset_n, G1.out]}
outputs: {q: G1.out, q_n: G2.out}
waveforms:
  set_n: 1, 0 after 10, 1 after 20, 0 after 50, 1 after 60
  reset_n: 1, 0 after 30, 1 after 40, 0 after 50, 1 after 60
"""


@pytest.fixture
def trace(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    return Command(capsys, monkeypatch)


@pytest.fixture
def latch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    Path("latch.yaml").write_text(LATCH, encoding="utf-8")
    return "latch.yaml"


def test_both_inputs_pushed(trace: Command, latch: str) -> None:
    assert trace(latch, "--inside", "0", "--until", "64") == (
        "time  set_n  reset_n  q  q_n\n"
        "────  ─────  ───────  ─  ───\n"
        "   0  1      1        X  X\n"
        "────  ─────  ───────  ─  ───\n"
        "  10  0      1        X  X\n"
        "  11  0      1        1  X\n"
        "  12  0      1        1  0\n"
        "────  ─────  ───────  ─  ───\n"
        "  20  1      1        1  0\n"
        "────  ─────  ───────  ─  ───\n"
        "  30  1      0        1  0\n"
        "  31  1      0        1  1\n"
        "  32  1      0        0  1\n"
        "────  ─────  ───────  ─  ───\n"
        "  40  1      1        0  1\n"
        "────  ─────  ───────  ─  ───\n"
        "  50  0      0        0  1\n"
        "  51  0      0        1  1\n"
        "────  ─────  ───────  ─  ───\n"
        "  60  1      1        1  1\n"
        "  61  1      1        0  0\n"
        "  62  1      1        1  1\n"
        "  63  1      1        0  0\n"
        "  64  1      1        1  1\n"
        "\n"
        "G1.out and G2.out oscillate from 60 to 64, with a period of 2 gate delays\n"
        "race at 60: set_n and reset_n change together; set_n first: q = 0, q_n = 1; reset_n first: q = 1, q_n = 0\n"
        "race at 60: G1.out and G2.out change together; G1.out first: q = 0, q_n = 1; G2.out first: q = 1, q_n = 0\n"
    )


def test_delays_that_differ_decide_it(trace: Command, latch: str) -> None:
    """With delays spread the quicker gate wins; the race is still told."""
    ends = set()
    for seed in range(6):
        found = json.loads(
            trace(latch, "--inside", "0", "--spread", "30", "--seed", str(seed), "--json")
        )
        assert [race["nets"] for race in found["races"]] == [["set_n", "reset_n"]]
        ends.add(tuple(found["rows"][-1]["values"][name] for name in ("q", "q_n")))
    assert ends == {("0", "1"), ("1", "0")}


def test_waveforms_of_the_command_replace_those_of_the_text(trace: Command, latch: str) -> None:
    given = "set_n: 1, 0 after 5; reset_n: 1"
    assert trace(latch, "--inside", "0", "--waveforms", given, "--csv") == (
        "time,set_n,reset_n,q,q_n\r\n"
        "0,1,1,X,X\r\n"
        "5,0,1,X,X\r\n"
        "6,0,1,1,X\r\n"
        "7,0,1,1,0\r\n"
    )  # fmt: skip


def test_a_ring_of_three_inverters(trace: Command, latch: str) -> None:
    """It swings with a period of six delays, three to rise and three to fall (arithmetic)."""
    del latch
    Path("ring.yaml").write_text(
        "circuit: ring\ninputs: {go: 1}\nparts:\n"
        "  N1: {part: nand, in: [go, N3.out]}\n  N2: {part: not, in: N1.out}\n"
        "  N3: {part: not, in: N2.out}\noutputs: {y: N3.out}\n"
        "waveforms: {go: [0, 1 after 20]}\n",
        encoding="utf-8",
    )
    found = json.loads(trace("ring.yaml", "--inside", "0", "--model", "74hc", "--json"))
    (swing,) = found["oscillations"]
    # 74HC00 and 74HC04, typical, in ns.
    assert (swing["begin"], swing["period"]) == ("20", str(2 * (7 + 7 + 7)))
    assert swing["nets"] == ["N1.out", "N2.out", "N3.out"]


RING = "circuit: ring\nparts: {N: {part: not, in: N.out}}\noutputs: {y: N.out}\n"
NO_CLOCK = "circuit: c\ninputs: {d: 1}\nparts: {F: {part: flip-flop, d: d}}\noutputs: {q: F}\nwaveforms: {d: [0]}\n"


@pytest.mark.parametrize(
    ("text", "options", "message"),
    [
        (LATCH, "", "latch.yaml:4:3: combinational loop: G1.out -> G2.out -> G1.out; put a flip-flop into it, or break it; to follow it in time, give it waveforms: edgewise trace --inside 0"),
        (LATCH, "--inside 1 --waveforms set_n:1", "--waveforms goes with --inside 0, the whole time from the start; found --inside 1"),
        (LATCH, "--inside 0 --operands a=1 --period 3", "--operands and --period have no effect in time, where waveforms feed the inputs"),
        (LATCH, "--inside 0 --waveforms reset:1", "--waveforms: there is no input reset for the waveform; did you mean reset_n?"),
        (LATCH, "--inside 0 --waveforms set_n:2", "--waveforms: waveform of set_n: found 2, expected 0..1 or X"),
        (LATCH, "--inside 0 --waveforms set_n", "--waveforms: found set_n, expected NAME: 1, 0 after 10, 1 after 20; others after a semicolon"),
        (LATCH, "--inside 0 --waveforms set_n:1;set_n:0", "--waveforms: set_n is given twice"),
        (LATCH, "--inside 0 --waveforms set_n:", "--waveforms: waveform of set_n: found nothing, expected 1, 0 after 10, 1 after 20"),
        (LATCH, "--inside 0 --until soon", "--until: found 'soon'; expected a time of 0 or more with two decimals at most, as in 12.5"),
        (LATCH, "--inside 0 --resolve 3", "--resolve has no effect without --outcome old, new or either"),
        (LATCH, "--until 3", "--until has no effect without --inside"),
        (RING, "--inside 0", "N.out -> N.out is a loop of gates that take no time in the model unit-gate; take another one: --model 74hc"),
        (LATCH.partition("waveforms")[0], "--inside 0", "no waveform feeds set_n; add one: waveforms, set_n: 1, 0 after 10, 1 after 20\nno waveform feeds reset_n; add one: waveforms, reset_n: 1, 0 after 10, 1 after 20"),
        (NO_CLOCK, "--inside 0", "no waveform feeds clock; add one: waveforms, clock: period 20, pulses 8"),
        (LATCH.replace("reset_n: 1, 0", "rest: 1, 0"), "--inside 0", "latch.yaml:9:9: there is no input rest for the waveform; did you mean reset_n?\nno waveform feeds reset_n; add one: waveforms, reset_n: 1, 0 after 10, 1 after 20"),
    ],
)  # fmt: skip
def test_refusals(trace: Command, latch: str, *, text: str, options: str, message: str) -> None:
    Path(latch).write_text(text, encoding="utf-8")
    if options.startswith("--until"):
        Path(latch).write_text(NO_CLOCK, encoding="utf-8")
    said = trace.refused(latch, *options.split())
    assert said == f"{message}\n"


@pytest.mark.parametrize(
    ("waveform", "message"),
    [
        ("0 after 5", "found 0 after 5, expected 1, 0 after 10, 1 after 20"),
        ("1, 0", "found 0, expected 1, 0 after 10, 1 after 20"),
        ("1, 0 after 5, 1 after 5", "5 comes after 5; expected times that rise"),
        ("1, 0 after -5", "the time -5 is negative; expected 0 or more"),
        ("period 20", "say how many pulses, period 20, first 10, pulses 8"),
        ("period 20, beats 8", "found beats 8, expected period 20, first 10, pulses 8"),
        ("period 20, high 20, pulses 2", "expected a first pulse after 0, one that is high for less than the period, and 0..5,000 of them"),
        ("period 20, pulses 5001", "expected a first pulse after 0, one that is high for less than the period, and 0..5,000 of them"),
        ("[1, [0]]", "expected 1, 0 after 10, 1 after 20"),
        ("{at: 1}", "found keys and values, expected 1, 0 after 10, 1 after 20"),
    ],
)  # fmt: skip
def test_what_is_no_waveform(trace: Command, latch: str, waveform: str, message: str) -> None:
    lines = LATCH.splitlines()
    lines[7] = f"  set_n: {waveform}"
    Path(latch).write_text("\n".join(lines), encoding="utf-8")
    said = trace.refused(latch, "--inside", "0")
    assert said == f"latch.yaml:8:10: waveform of set_n: {message}\n"


@pytest.fixture
def mtbf(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    return Command(capsys, monkeypatch, "mtbf")


PARTS: Final = {
    # Philips Semiconductors, data sheet 74F5074 of 14 Sep 1990: tau 135 ps and T0 9.8e6 s, a clock of
    # 50 MHz, data of 10 MHz, which changes twice as often, 10 ns: 1.51e10 s, "about 480 years" (the
    # constants were read there, the example is from memory).
    "10 0.135 9.8e15 50 20": "1.51e10 s, which is 478 years",
    # mbedded.ninja, "Metastability and Synchronisation": 2.3 ns, 0.31 ns, 9.6 as, 100 MHz, 1 MHz give
    # 20.1 days, which are 1.74e6 s (read there).
    "2.3 0.31 9.6e-9 100 1": "1.74e6 s, which is 0.0551 years",
    # R. Ginosar's tutorial of 2011 (from memory): 1 GHz, data at a tenth of that, tau 10 ps, window
    # 20 ps, a whole period: 4e29 years.
    "1 0.01 0.02 1000 100": "1.34e37 s, which is 4.26e29 years",
}


@pytest.mark.parametrize("numbers", PARTS)
def test_published_times_between_failures(mtbf: Command, numbers: str) -> None:
    names = ("--resolve", "--tau", "--window", "--clock", "--changes")
    words = [word for pair in zip(names, numbers.split(), strict=True) for word in pair]
    assert mtbf(*words) == f"undecided on the average once in {PARTS[numbers]}\n"


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ("--resolve 1 --tau 0 --window 1 --clock 1 --changes 1", "tau is 0; expected a number above 0"),
        ("--resolve 1 --tau 1 --window x --clock 1 --changes 1", "--window: found 'x'; expected a number, as in 0.31 or 9.6e-9"),
        ("--resolve 1 --tau 1 --window 1 --clock 0 --changes 1", "clock is 0; expected a number above 0"),
    ],
)  # fmt: skip
def test_numbers_that_are_none(mtbf: Command, options: str, message: str) -> None:
    assert mtbf.refused(*options.split()) == f"{message}\n"


@pytest.fixture
def draw(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    return Command(capsys, monkeypatch, "draw")


def test_drawn_to_scale(draw: Command, latch: str) -> None:
    assert (
        draw(latch, "--inside", "0", "--figure", "timing", "--until", "64") == "latch-timing.svg\n"
    )
    drawn = Path("latch-timing.svg").read_text("utf-8")
    assert "<title" in drawn
    assert "Inside, delays of unit-gate: latch of two NAND gates" in drawn
    assert "Race at 60: set_n and reset_n change together" in drawn


def test_drawn_as_it_stands(draw: Command, latch: str) -> None:
    seen = []
    for until in ("5", "25", "45"):
        draw(latch, "--inside", "0", "--until", until, "-o", "latch.svg")
        (told,) = re.findall(r"<desc[^>]*>(.*?)\.", Path("latch.svg").read_text("utf-8"))
        seen.append(told.partition(", q is ")[2])
    assert seen == ["unknown, q_n is unknown", "1, q_n is 0", "0, q_n is 1"]


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ("--inside 0 --after 3", "--after has no effect in time; a diagram shows how it stands --until"),
        ("--until 3", "--until has no effect without --inside"),
        ("--inside 0 --figure table", "--inside has no effect in a table; draw it with --figure timing"),
    ],
)  # fmt: skip
def test_what_is_not_drawn(draw: Command, latch: str, options: str, message: str) -> None:
    assert draw.refused(latch, *options.split()) == f"{message}\n"


def test_a_latch_has_no_rows(trace: Command, latch: str) -> None:
    text = "circuit: c\ninputs: {s: 1, r: 1}\nparts:\n  L: {part: sr-latch, s: s, r: r}\noutputs: {q: L}\noperands: {s: 1, r: 1}\n"
    Path(latch).write_text(text, encoding="utf-8")
    assert trace.refused(latch, "--operands", "s=1,r=0") == (
        "latch.yaml:4:3: combinational loop: L -> L.q-bar -> L; put a flip-flop into it, or break it;"
        " to follow it in time, give it waveforms: edgewise trace --inside 0\n"
    )
