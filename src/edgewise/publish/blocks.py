"""Blocks that sheets of several kinds are made of, whatever they are written in."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Heading:
    """The heading of a section."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Sentences; `leads`: they stay with what follows."""

    text: str
    leads: bool = False
