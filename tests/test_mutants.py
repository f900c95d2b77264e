"""Mutated texts are answered or refused, never a foreign exception; OWASP's list for parsers.

The checks are named as in the OWASP Web Security Testing Guide, 4.7 (Input Validation Testing),
and its Denial of Service Cheat Sheet (from memory): malformed input, injection into output,
resource exhaustion by size, by depth, by numbers, and by expressions.
"""

from __future__ import annotations

import pytest

from tests import mutants

PINNED: tuple[tuple[str, str], ...] = (
    ("circuit", 'circuit: "\\e[2Jfine"'),
    ("circuit", 'circuit: "\\U00110000"'),
    ("circuit", 'circuit: "\ud83d"'),
    ("lesson", "---\ntitle: r\ndesign: serial-adder\n---\n`" + "a " * 250 + "`` b"),
    ("option", "a=" + "9" * 5000),
    ("option", "0..99999999"),
    ("option", "9" * 40 + "..12"),
)


@pytest.mark.parametrize(("kind", "text"), PINNED)
def test_what_failed_once(kind: str, text: str) -> None:
    mutants.tried(kind, text)


@pytest.mark.slow
@pytest.mark.parametrize("part", range(8))
@pytest.mark.parametrize(
    ("kind", "cases"),
    [
        ("lesson", 60),
        ("circuit", 50),
        ("option", 50),
        ("entry", 20),
        ("wiring", 35),
        ("page", 35),
        ("answers", 30),
    ],
)
def test_two_thousand_mutants(kind: str, cases: int, part: int) -> None:
    """Malformed input: 8 * (60 + 50 + 50 + 20 + 35 + 35 + 30) = 2,240 cases."""
    for seed in range(part * cases, (part + 1) * cases):
        text = mutants.case(kind, seed)
        try:
            mutants.tried(kind, text)
        except Exception as foreign:  # noqa: BLE001  any is a fault
            pytest.fail(f"mutants.case({kind!r}, {seed}): {foreign!r}")
