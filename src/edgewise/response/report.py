"""A response as a table, as sentences, and for programs."""

from __future__ import annotations

import csv as tables
import io
import json as notation
from collections.abc import Iterator, Sequence
from typing import Any

from edgewise.bits import Word
from edgewise.columns import aligned, ruled
from edgewise.inside import Violation
from edgewise.response.facts import Oscillation, Passage, Race, Response, Stretch, outputs
from edgewise.words.lists import enumerated, listed
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit


def table(response: Response, names: Sequence[str] | None = None) -> list[tuple[str, ...]]:
    """What the words of these names hold whenever one of them changes, a heading before it.

    Inputs and outputs, unless names are chosen.
    """
    chosen = response.columns if names is None else tuple(names)
    histories = [dict(response.history(response.nets(name))) for name in chosen]
    now = [history[0] for history in histories]
    rows: list[tuple[str, ...]] = [("time", *chosen)]
    for time in sorted({time for history in histories for time in history}):
        now = [history.get(time, word) for history, word in zip(histories, now, strict=True)]
        rows.append((response.figure(time), *map(str, now)))
    return rows


def text(response: Response, names: Sequence[str] | None = None, words: Words = ENGLISH) -> str:
    """The table, with a rule wherever inputs change, and what is to be said."""
    rows = table(response, names)
    rows[0] = (words("inside-column-time"), *rows[0][1:])
    rule, begins = ruled(rows), {response.figure(one.begin) for one in response.stretches}
    shown = []
    for row, line in zip(rows, aligned(rows, left=range(1, len(rows[0]))), strict=True):
        shown += [rule, line] if row[0] in begins else [line]
    return "\n".join([*shown, "", *sentences(response, words)])


def csv(response: Response, names: Sequence[str] | None = None) -> str:
    """The table as comma-separated values (RFC 4180)."""
    file = io.StringIO()
    tables.writer(file, lineterminator="\r\n").writerows(table(response, names))
    return file.getvalue()


def json(response: Response, names: Sequence[str] | None = None) -> str:
    """The table and what was found, for programs."""
    return notation.dumps(data(response, names), indent=1)


def sentences(response: Response, words: Words = ENGLISH) -> list[str]:
    """What is to be said: what never settles, races, words passed, glitches, times not kept.

    Each follows from a fact of the response: `oscillations`, `rests`, `slowest`, `races`,
    `unlooked`, `passages`, `glitches`, `violations`.
    """
    return [*_Report(response, words).sentences()]


class _Report:
    """A response that is being told in a language."""

    def __init__(self, response: Response, words: Words) -> None:
        self.response, self.words = response, words
        self.unit = unit(response.unit, words)
        netlist = response.design.netlist
        self.labels = netlist.labels
        self.shown = {bits[0]: name for name, bits in netlist.outputs.items() if len(bits) == 1}

    def sentences(self) -> Iterator[str]:
        response, words = self.response, self.words
        yield from self.settling()
        yield from map(self.race, response.races)
        for time in response.unlooked:
            yield words("response-unlooked", at=self.time(time))
        yield from map(self.passage, response.passages)
        for one in response.glitches:
            bits = " ".join("01X"[bit] for bit in one.bits)
            facts = {"net": self.shown[one.net], "begin": self.time(one.edge), "bits": bits}
            yield words(f"response-glitch-{one.kind}", **facts)
        yield from map(self.violation, response.violations)

    def time(self, ticks: int) -> str:
        return self.words.decimal(self.response.figure(ticks))

    def settling(self) -> Iterator[str]:
        response, words = self.response, self.words
        yield from map(self.oscillation, response.oscillations)
        if response.busy:
            times = [self.time(time) for time in response.busy]
            yield words("response-busy", times=listed(times, words, most=4))
        swinging = {one.end for one in response.oscillations}
        if not response.quiet and response.end not in swinging:
            yield words("response-moving", end=self.time(response.end))
        if response.slowest and response.stimuli:
            time, begin = response.slowest
            facts = {"time": self.time(time), "at": self.time(begin), "unit": self.unit}
            yield words("response-settled", **facts)

    def oscillation(self, one: Oscillation) -> str:
        return self.words(
            "response-oscillates",
            nets=listed([self.labels[net] for net in one.nets], self.words),
            count=len(one.nets),
            begin=self.time(one.begin),
            end=self.time(one.end),
            period=self.time(one.period),
            unit=self.unit,
        )

    def race(self, race: Race) -> str:
        one, other = (self.labels[net] for net in race.nets)
        return self.words(
            "response-race",
            at=self.time(race.time),
            one=one,
            other=other,
            first=self.ends(race.ends[0]),
            second=self.ends(race.ends[1]),
        )

    def ends(self, bits: Sequence[int]) -> str:
        """What each output ends at: ``q = 1, q_n = 0``."""
        netlist = self.response.design.netlist
        at = dict(zip(outputs(netlist), bits, strict=True))
        words = ((name, [at[net] for net in nets]) for name, nets in netlist.outputs.items())
        return ", ".join(f"{name} = {Word.from_bits(of)}" for name, of in words)

    def passage(self, one: Passage) -> str:
        passed = [
            self.words("response-word", word=str(word), at=self.time(time))
            for time, word in one.words[1:-1]
        ]
        return self.words(
            "response-passes",
            name=one.name,
            passed=enumerated(passed, self.words),
            count=len(passed),
            before=str(one.words[0][1]),
            after=str(one.words[-1][1]),
            at=self.time(one.words[-1][0]),
        )

    def violation(self, one: Violation) -> str:
        return self.words(
            f"response-{one.kind}",
            at=self.time(one.edge),
            net=self.labels[one.net],
            part=self.response.design.netlist.flip_flops[one.flip_flop].name,
            stood=self.time(abs(one.edge - one.change)),
            needed=self.time(one.needed),
            unit=self.unit,
        )


def data(response: Response, names: Sequence[str] | None = None) -> dict[str, Any]:
    """The table and what was found as plain data; times are texts, in units of the model."""
    labels, figure = response.design.netlist.labels, response.figure
    head, *rows = table(response, names)
    return {
        "design": response.design.name,
        "model": response.model,
        "unit": response.unit,
        "end": figure(response.end),
        "quiet": response.quiet,
        "rows": [
            {"time": row[0], "values": dict(zip(head[1:], row[1:], strict=True))} for row in rows
        ],
        "stretches": [_stretch(response, stretch) for stretch in response.stretches],
        "oscillations": [
            {
                "begin": figure(one.begin),
                "end": figure(one.end),
                "nets": [labels[net] for net in one.nets],
                "period": figure(one.period),
            }
            for one in response.oscillations
        ],
        "races": [
            {
                "time": figure(race.time),
                "nets": [labels[net] for net in race.nets],
                "ends": ["".join("01X"[bit] for bit in end) for end in race.ends],
            }
            for race in response.races
        ],
        "violations": [
            {
                "kind": one.kind,
                "part": response.design.netlist.flip_flops[one.flip_flop].name,
                "net": labels[one.net],
                "edge": figure(one.edge),
                "change": figure(one.change),
                "needed": figure(one.needed),
            }
            for one in response.violations
        ],
    }


def _stretch(response: Response, stretch: Stretch) -> dict[str, Any]:
    settled = response.settled(stretch)
    return {
        "begin": response.figure(stretch.begin),
        "settled": None if settled is None else response.figure(settled),
    }
