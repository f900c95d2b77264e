"""CRC registers against published check words.

Outside: `data/crc_catalogue.tsv` (Python package crccheck 1.3.1, MIT, after G. Cook's catalogue):
116 CRCs and their check words of the bytes "123456789"; AUTOSAR code words for CRC-16/ARC as
given there; RFC 1662, appendix C, for the residue of X-25 (from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.engines.reference import run
from edgewise.engines.sat import bounded

LINES = (Path(__file__).parent / "data" / "crc_catalogue.tsv").read_text("utf-8").splitlines()
ROWS = [line.split("\t") for line in LINES]
CHECK = b"123456789"
ARC = {"n": 16, "poly": 0x8005, "init": 0, "reflect_in": 1, "reflect_out": 1, "xor_out": 0}
X25 = {**ARC, "poly": 0x1021, "init": 0xFFFF, "xor_out": 0xFFFF}


def numbers(row: list[str]) -> dict[str, int]:
    width, _, poly, init, reflect_in, reflect_out, xor_out = row[:7]
    return {
        "n": int(width),
        "poly": int(poly, 16),
        "init": int(init, 16),
        "reflect_in": int(reflect_in == "True"),
        "reflect_out": int(reflect_out == "True"),
        "xor_out": int(xor_out, 16),
    }


def checksum(parameters: dict[str, int], message: bytes) -> int:
    design = catalogue.design("crc-register", **parameters, x=len(message))
    assert design.edges == 8 * len(message)
    operands = {f"byte({i})": byte for i, byte in enumerate(message, 1)}
    found = run(design, operands).word("crc", design.edges).value
    assert found == design.expected(operands)["crc"]
    return found


def test_the_table_is_whole() -> None:
    assert len(ROWS) == 116


@pytest.mark.parametrize("row", ROWS, ids=[row[1] for row in ROWS])
def test_check_words(row: list[str]) -> None:
    assert checksum(numbers(row), CHECK) == int(row[7], 16)


@pytest.mark.parametrize(
    ("message", "word"),
    [
        ("0000", "0000"),
        ("F20183", "E1C2"),
        ("0FAA0055", "E30B"),
        ("00FF5511", "CF6C"),
        ("332255AABBCCDDEEFF", "98AE"),
        ("926B55", "4EE2"),
        ("FFFFFFFF", "0194"),
    ],
)
def test_code_words_of_crc_16_arc(message: str, word: str) -> None:
    """The CRC follows the message, low byte first."""
    assert checksum(ARC, bytes.fromhex(message)).to_bytes(2, "little").hex().upper() == word


def test_the_residue_of_a_good_frame() -> None:
    """F0B8 for the frame check sequence of X-25, whatever the message (RFC 1662)."""
    for message in (CHECK, b"\x00", b"tide 4.2 m"):
        frame = message + checksum(X25, message).to_bytes(2, "little")
        assert checksum({**X25, "xor_out": 0}, frame) == 0xF0B8


@pytest.mark.parametrize("row", ROWS[::19], ids=[row[1] for row in ROWS[::19]])
def test_every_message_is_proved(row: list[str]) -> None:
    """Register and long division agree for all bytes."""
    design = catalogue.design("crc-register", **numbers(row), x=1)
    assert bounded.computes(design).outcome == "proved"
