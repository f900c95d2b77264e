"""Which bits run at an edge: only those that are stored, each with the value it has."""

from __future__ import annotations

from edgewise import catalogue, run
from edgewise.publish.film.motion import Motion
from edgewise.trace import Trace
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture


def stored(trace: Trace, edge: int) -> dict[str, str]:
    tokens = Motion(Picture(trace, Manner())).stored(edge)
    return {token.target: str(token.word) for token in tokens}


def test_what_runs_is_what_the_row_before_held() -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    for edge in range(1, 9):
        found = stored(trace, edge)
        for target, net in (("S.in", "FA.sum"), ("C.d", "FA.carry-out"), ("A.in", "a_in")):
            assert found[target] == str(trace.word(net, edge - 1)), (edge, target)


def test_a_register_that_loads_takes_its_word_and_not_its_serial_input() -> None:
    trace = run(catalogue.design("parallel-in-serial-out", n=4), w=0b1011)
    assert stored(trace, 1) == {"R.d": "1011"}
    assert all("R.d" not in stored(trace, edge) for edge in (2, 3, 4))


def test_a_register_that_is_not_enabled_takes_nothing() -> None:
    trace = run(catalogue.design("shift-add-multiplier", n=4), a=3, b=5)
    assert stored(trace, 1)["M.d"] == "0011"
    for edge in range(2, trace.edges + 1):
        assert trace.word("load", edge - 1).value == 0
        assert "M.d" not in stored(trace, edge)


def test_a_carry_runs_on_part_by_part() -> None:
    trace = run(catalogue.design("ripple-carry-adder", n=4), a=15, b=1, carry_in=0)
    waves = Motion(Picture(trace, Manner())).settled(0)
    carries = [
        [token.target for token in wave if token.target.endswith("carry-in")] for wave in waves
    ]
    assert carries[1:4] == [["FA(1).carry-in"], ["FA(2).carry-in"], ["FA(3).carry-in"]]
