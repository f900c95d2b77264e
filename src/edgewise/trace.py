"""The rows of one run."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from edgewise.bits import Word
from edgewise.circuit.storage import within
from edgewise.columns import aligned, ruled
from edgewise.design import Design, Phase
from edgewise.errors import EdgewiseError, Message, Place

_DIGITS: Final = bytes.maketrans(bytes(range(3)), b"01X")


@dataclass(frozen=True)
class Trace:
    """Every net of a design in every row of one run.

    Row 0 is the start; row k is everything as it stands after edge k and before edge k+1,
    combinational nets settled, with the inputs that edge k+1 will sample.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int
    rows : tuple of bytes
        ``rows[k][net]`` is the bit (0, 1, or 2 for X) of a net number of
        ``design.netlist`` in row k; edges + 1 rows.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    >>> str(trace.word("S", 12)), str(trace.word("C", 12)), trace.word("A", 6).value
    ('000001', '1', 22)
    """

    design: Design
    operands: Mapping[str, int]
    rows: tuple[bytes, ...]

    @property
    def edges(self) -> int:
        """Number of edges; the last row."""
        return len(self.rows) - 1

    def word(self, name: str, row: int, place: Place | None = None) -> Word:
        """The value of a net, port, word, bit or slice in a row.

        Parameters
        ----------
        name : str
            ``A``, ``A(0)``, ``S(5..2)``, ``FA.carry-out``, ``FA.X1.out``.
        row : int
            0 … edges.

        Raises
        ------
        EdgewiseError
            No such name, or no such row.
        """
        return self.bits(self.design.netlist.find(name, place), row, place)

    def bits(self, nets: Iterable[int], row: int, place: Place | None = None) -> Word:
        """The word made of these net numbers, LSB first, in a row."""
        if not 0 <= row <= self.edges:
            raise EdgewiseError(Message("row-unknown", row=row, last=self.edges), place)
        values = self.rows[row]
        if not self.design.coded:
            return Word.from_bits(values[net] for net in nets)
        nets = tuple(nets)
        word = Word.from_bits(values[net] for net in nets)
        code = self.design.coded.get(nets)
        return replace(word, code=code) if code else word

    def changed(self, name: str, row: int) -> Word:
        """Has a 1 at each bit of `name` that differs from the row before; row 0: all 0."""
        now = self.word(name, row)
        if row == 0:
            return Word(now.width)
        before = self.word(name, row - 1)
        differs = (now.ones ^ before.ones) | (now.unknown ^ before.unknown)
        return Word(now.width, differs)

    def phase(self, row: int) -> Phase | None:
        """The phase whose inputs stand in this row: the next edge samples them.

        After the last edge the last phase goes on. None without edges.
        """
        return self.design.phase_at(row)

    @cached_property
    def columns(self) -> tuple[str, ...]:
        """The names that a table shows if none are chosen.

        Inputs, what single adders give, storage elements (inside parts too), declared nets,
        outputs; the same nets only once.
        """
        circuit = self.design.circuit
        names = [net.name for net in circuit.inputs]
        for part in circuit.parts:
            if part.kind.adds is not None and "(" not in part.name:
                names += [f"{part.name}.{p.name}" for p in part.kind.ports if p.direction == "out"]
            names += [one.name for one in within(part, self.design.netlist)]
        names += [net.name for net in circuit.nets]
        names += [output.name for output in circuit.outputs]
        seen: dict[tuple[int, ...], str] = {}
        for name in names:
            seen.setdefault(self.design.netlist.find(name), name)
        return tuple(seen.values())

    def table(
        self, columns: Sequence[str] | None = None, rows: Iterable[int] | None = None
    ) -> tuple[tuple[str, ...], ...]:
        """Cells of an edge table as text: a heading, then one line a row.

        The first two cells of a line are the edge after which it stands (``start`` for row 0)
        and the phase whose inputs stand in it.
        """
        chosen = tuple(columns) if columns is not None else self.columns
        # MSB left; one look at a row gives all of its digits.
        nets = [self.design.netlist.find(name)[::-1] for name in chosen]
        lines = [("after edge", "phase", *chosen)]
        for row in range(self.edges + 1) if rows is None else rows:
            phase = self.phase(row)
            edge = str(row) if row else "start"
            self.bits((), row)  # refuses a row that is not there
            digits = self.rows[row].translate(_DIGITS).decode("ascii")
            words = [
                digits[bits[0]] if len(bits) == 1 else "".join([digits[net] for net in bits])
                for bits in nets
            ]
            lines.append((edge, phase.name if phase else "", *words))
        return tuple(lines)

    def text(self, columns: Sequence[str] | None = None, rows: Iterable[int] | None = None) -> str:
        """The edge table in plain text, MSB left; a rule where a phase begins."""
        lines = self.table(columns, rows)
        if not self.edges:
            lines = tuple((line[0], *line[2:]) for line in lines)
        laid, rule = [*aligned(lines, left=range(1, len(lines[0])))], ruled(lines)
        shown = [laid[0], rule]
        for before, line, text in zip((None, *lines[1:]), lines[1:], laid[1:], strict=False):
            if self.edges and before and before[1] and before[1] != line[1]:
                shown.append(rule)
            shown.append(text)
        return "\n".join(shown)

    def csv(self, columns: Sequence[str] | None = None) -> str:
        """The edge table as comma-separated values (RFC 4180), with a heading."""
        file = io.StringIO()
        csv.writer(file, lineterminator="\r\n").writerows(self.table(columns))
        return file.getvalue()

    def json(self, columns: Sequence[str] | None = None) -> str:
        """The run as JSON: design, parameters, operands, phases, and the rows."""
        heading, *lines = self.table(columns)
        rows = [
            {
                "row": row,
                "phase": line[1] or None,
                "values": dict(zip(heading[2:], line[2:], strict=True)),
            }
            for row, line in enumerate(lines)
        ]
        phases = [
            {"phase": phase.name, "first": first, "last": last}
            for phase, first, last in self.design.spans
        ]
        return json.dumps(
            {
                "design": self.design.name,
                "parameters": dict(self.design.parameters),
                "operands": dict(self.operands),
                "edges": self.edges,
                "phases": phases,
                "rows": rows,
            },
            indent=1,
        )
