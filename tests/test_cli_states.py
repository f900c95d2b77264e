"""The command states, as it is printed and as JSON."""

from __future__ import annotations

import json

from tests.conftest import Edgewise


def test_what_is_printed(edgewise: Edgewise) -> None:
    out, err, code = edgewise("states", "modulo-counter", "--with", "m=3")
    assert (err, code) == ("", 0)
    assert out == (
        "modulo-counter, m=3, k=3\n"
        "3 of 4 states are reached from the start.\n"
        "After every 3 edges the circuit is at its start again: 00, 01, 10.\n"
        "One state is not reached; a way leads back from there to those that are used.\n"
        "\n"
        "state (CNT)  next state  terminal_count  use\n"
        "───────────  ──────────  ──────────────  ──────\n"
        "00           01          0               start\n"
        "01           10          0               used\n"
        "10           00          1               used\n"
        "11           00          0               unused\n"
    )


def test_inputs_and_what_a_program_reads(edgewise: Edgewise) -> None:
    out, _, code = edgewise("states", "serial-in-serial-out", "--with", "n=1", "--json")
    assert code == 0
    found = json.loads(out)
    assert found["inputs"] == ["serial_in"]
    assert found["transitions"][1] == {"state": "0", "when": ["1"], "next": "1", "output": ""}
    assert (found["period"], found["unused"], found["unused_loops"]) == (None, [], [])


def test_what_has_no_states_or_too_many(edgewise: Edgewise) -> None:
    assert edgewise("states", "ripple-carry-adder") == (
        "",
        "ripple-carry-adder has no flip-flop, so it has no states to draw or list\n",
        2,
    )
    assert edgewise("states", "serial-adder", "--with", "n=8") == (
        "",
        "serial-adder has 25 flip-flops, 33,554,432 states; states are worked out for up to 12"
        " flip-flops: choose a smaller size\n",
        2,
    )
