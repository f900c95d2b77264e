"""Codes behind widths and outputs in circuit texts."""

from __future__ import annotations

import pytest

from edgewise import blueprint, designtext
from edgewise.codes import Code
from edgewise.errors import EdgewiseError, Problems

TEXT = """circuit: weir
parameters: {{n: 8}}
inputs: {{a: n, b: n}}
outputs: {{y: {y}, z: "b(3..0)"}}
operands: {{a: {a}, b: n}}
"""


def made(a: str = "n", y: str = "a") -> blueprint.Blueprint:
    return blueprint.from_text(TEXT.format(a=a, y=y), "weir.yaml")


@pytest.mark.parametrize(
    ("a", "y", "codes"),
    [
        ("n", "a", ("unsigned", "unsigned")),
        ("n unsigned", "a unsigned", ("unsigned", "unsigned")),
        ("n twos-complement", "b gray", ("twos-complement", "gray")),
        ("2 * n div 2 bcd", "b(7..4) bcd", ("bcd", "bcd")),
        ("max(n, 3) ones-complement", "a ones-complement", ("ones-complement",) * 2),
    ],
)
def test_what_is_declared_is_read_and_written_again(a: str, y: str, codes: tuple[str, str]) -> None:
    quoted = f'"{a}"' if "," in a else a
    design = made(quoted, y).design()
    for one in (design, blueprint.from_text(designtext.text(design), "again.yaml").design()):
        assert (one.operands[0].code.name, one.circuit.outputs[0].code.name) == codes
        assert one.circuit.outputs[1].code == Code()


@pytest.mark.parametrize(
    ("a", "y", "message"),
    [
        (
            "n two-complement",
            "a",
            "weir.yaml:5:17: there is no code two-complement; did you mean twos-complement?",
        ),
        (
            "n",
            "a signed",
            "weir.yaml:4:16: there is no code signed; did you mean twos-complement?",
        ),
        (
            "n",
            "a excess",
            "weir.yaml:4:16: there is no code excess; there is: bcd, gray, ones-complement,"
            " sign-magnitude, twos-complement, unsigned",
        ),
        (
            "n",
            "b(6..0) bcd",
            "weir.yaml:4:14: BCD takes 4 bits a digit, and 7 bits are no whole number of digits",
        ),
        (
            "n + 1 bcd",
            "a",
            "weir.yaml:5:12: BCD takes 4 bits a digit, and 9 bits are no whole number of digits",
        ),
    ],
)
def test_what_is_no_code(a: str, y: str, message: str) -> None:
    with pytest.raises((EdgewiseError, Problems)) as caught:
        made(a, y).design().check()
    assert str(caught.value).splitlines()[0] == message
