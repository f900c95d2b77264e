"""Judging a submission: a description held against a design, for all operands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Final

from edgewise.bits import X
from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.sat import equivalence
from edgewise.engines.sat.outcome import Counterexample
from edgewise.errors import EdgewiseError, Message
from edgewise.hdl.clocking import Note
from edgewise.hdl.elaboration import Remark
from edgewise.hdl.reading import Read, read
from edgewise.hdl.sources import SUFFIXES
from edgewise.lab.identifier import identifier
from edgewise.shelf import read_file
from edgewise.study.cost.sweep import Workplace
from edgewise.study.edits import circuit_edits
from edgewise.study.faults.models import faults
from edgewise.study.misconceptions.misconception import Misconception
from edgewise.study.misconceptions.registry import applicable
from edgewise.trace import Trace
from edgewise.words.lists import equations

_PIECE: Final = 10
"""Submissions that are judged in one go."""
SECONDS: Final = 20.0
"""For one proof, unless the caller says otherwise."""


@dataclass(frozen=True)
class Verdict:
    """What is to be said of a submission.

    Parameters
    ----------
    file : str
    outcome : str
        ``right``, ``wrong``, ``undecided``, or ``refused``: it can't be read or compared.
    reason : str
        Why it was refused.
    operands : mapping of str to int
        The smallest for which a wrong one gives another answer.
    answer : str
        The output that differs.
    row : int
        The row in which the answer stands.
    runs : (Trace, Trace), optional
        The design's run for these operands, and the submission's.
    diagnosis : tuple of str
        What explains a wrong one for all operands: ``late``, ``start``, misconceptions; else two of
        them together, else a single fault.
    notes : tuple of Note
    remarks : tuple of Remark
    """

    file: str
    outcome: str
    reason: str = ""
    operands: Mapping[str, int] | None = None
    answer: str = ""
    row: int = 0
    runs: tuple[Trace, Trace] | None = None
    diagnosis: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    remarks: tuple[Remark, ...] = ()

    def sentences(self) -> Iterator[str]:
        """In words."""
        if self.outcome == "right":
            yield f"{self.file}: right: proved equal for all operands"
        elif self.outcome == "undecided":
            yield f"{self.file}: undecided within the time limit"
        elif self.outcome == "refused":
            yield f"{self.file}: not judged: {self.reason}"
        else:
            yield self._difference()
            yield from (
                _EXPLAINED.get(one, f"  does exactly what {one} leads to, for all operands")
                for one in self.diagnosis
            )
        yield from (f"  {note.place or self.file}: {note.sentence}" for note in self.notes)
        yield from (f"  {one.place}: {_REMARKS[one.what].format(one.name)}" for one in self.remarks)

    def table(self) -> tuple[tuple[str, ...], ...]:
        """Both runs side by side, from the first row in which known bits of an output differ.

        A heading, then a line for each row; for each output what it should be and what it is.
        Empty where nothing is wrong.
        """
        if self.runs is None:
            return ()
        should, found = self.runs
        names = [
            name for name in should.design.netlist.outputs if name in found.design.netlist.outputs
        ]
        rows = [
            (str(row), *(str(run.word(name, row)) for name in names for run in self.runs))
            for row in range(should.edges + 1)
        ]
        differing = [i for i, row in enumerate(rows) if _conflict(row)]
        differing += [i for i, row in enumerate(rows) if row[1::2] != row[2::2]]
        heading = ("edge", *(told for name in names for told in (name, f"{name} here")))
        return (heading, *rows[differing[0] :])

    def _difference(self) -> str:
        assert self.runs is not None
        should, found = (str(run.word(self.answer, self.row)) for run in self.runs)
        given = equations((self.operands or {}).items())
        where = f"for {given}, " if given else ""
        return (
            f"{self.file}: wrong: {where}{self.answer} is {found} after edge {self.row} and should"
            f" be {should}"
        )


_EXPLAINED: Final = {
    "late": "  right, but one edge late, for all operands",
    "start": "  right if all registers start at 0, for all operands: the initial state or a reset"
    " is missing",
}
_REMARKS: Final = {
    "blocking": "{}: a blocking assignment in a clocked block",
    "sensitivity": "the sensitivity list lacks {}",
    "truncation": "{}",
}


def judge(
    path: Path, design: Design, rivals: Rivals | None = None, *, seconds: float = SECONDS
) -> Verdict:
    """Judge a submission.

    Parameters
    ----------
    path : Path
        Of the description.
    design : Design
    rivals : Rivals, optional
        Its rivals, if they were made before.
    seconds : float
        For each proof.
    """
    try:
        found = read(read_file(path, str(path)), str(path), near=identifier(design.name))
        submitted = replace(design, circuit=_fitted(found, design), altered=None, flat=None)
        submitted.check()
        proof = equivalence.same(design, submitted, seconds=seconds)
    except EdgewiseError as wrong:
        return Verdict(str(path), "refused", str(wrong))
    facts = Verdict(str(path), "right", notes=found.notes, remarks=found.remarks)
    if proof.outcome == "proved":
        return facts
    shown = proof.counterexample
    if shown is None or shown.other is None:
        return replace(facts, outcome="undecided")
    return replace(
        facts,
        outcome="wrong",
        operands=shown.operands,
        answer=shown.what,
        row=shown.row,
        runs=(shown.trace, shown.other),
        diagnosis=tuple(_diagnosis(submitted, shown, rivals or Rivals(design), seconds)),
    )


def judged(
    paths: Sequence[Path], design: Design, workplace: Workplace, *, seconds: float = SECONDS
) -> Iterator[Verdict]:
    """Judge several submissions, in the order in which they are given.

    Parameters
    ----------
    paths : sequence of Path
    design : Design
    workplace : Workplace
        Where: ``sweep.workplace(2)`` are two processes.
    seconds : float
        For each proof.
    """
    with workplace() as executor:
        pieces = [paths[at : at + _PIECE] for at in range(0, len(paths), _PIECE)]
        waiting = [executor.submit(_piece, piece, design, seconds) for piece in pieces]
        for one in waiting:
            yield from one.result()


def _piece(paths: Sequence[Path], design: Design, seconds: float) -> list[Verdict]:
    """Judge some submissions in one go."""
    rivals = Rivals(design)
    return [judge(path, design, rivals, seconds=seconds) for path in paths]


class Rivals:
    """What a wrong submission of a design may be instead; made once for several submissions.

    Parameters
    ----------
    design : Design
    """

    def __init__(self, design: Design) -> None:
        self.design = design

    @cached_property
    def ideas(self) -> tuple[tuple[str, Design], ...]:
        """The design under each misconception."""
        return tuple((one.name, changed) for one, changed in applicable(self.design))

    @cached_property
    def pairs(self) -> tuple[tuple[str, Design], ...]:
        """The design under two of them."""
        single = applicable(self.design)
        return tuple(
            (f"{one.name} with {other.name}", both)
            for one, changed in single
            for other, _ in single
            if other is not one and (both := _both(changed, other)) is not None
        )

    @cached_property
    def broken(self) -> tuple[tuple[str, Design], ...]:
        """The design with each single fault."""
        return tuple((one.name, one.design) for one in faults(self.design, inside=True))


def gathered(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Files, and for a folder the descriptions in it, in the order of their names.

    Raises
    ------
    EdgewiseError
        A folder without any.
    """
    found: list[Path] = []
    for path in paths:
        if not path.is_dir():
            found.append(path)
            continue
        there = sorted(one for one in path.iterdir() if one.suffix.lower() in SUFFIXES)
        if not there:
            raise EdgewiseError(
                Message("descriptions-none", path=str(path), suffixes=", ".join(SUFFIXES))
            )
        found += there
    return tuple(found)


def _diagnosis(
    submitted: Design, shown: Counterexample, rivals: Rivals, seconds: float
) -> Iterator[str]:
    """What is proved to explain a wrong submission for all operands."""
    starts = replace(
        submitted,
        altered=replace(
            submitted.netlist,
            flip_flops=tuple(
                replace(one, start=0 if one.start == X else one.start)
                for one in submitted.netlist.flip_flops
            ),
        ),
    )
    design = rivals.design
    likely = [("start", design, starts)]
    if design.edges and design.computes:
        later = circuit_edits.longer(circuit_edits.read_after(submitted, lambda row: row + 1))
        likely.append(("late", design, later))
    found = _proved(likely, shown, seconds)
    single = [(name, rival, submitted) for name, rival in rivals.ideas]
    found += _proved(single, shown, seconds)
    for more in ("pairs", "broken"):
        if not found:
            others = ((name, rival, submitted) for name, rival in getattr(rivals, more))
            found = _proved(others, shown, seconds, first=True)
    yield from found


def _conflict(row: Sequence[str]) -> bool:
    """Whether bits that are known in both runs differ."""
    pairs = zip("".join(row[1::2]), "".join(row[2::2]), strict=True)
    return any(one != other for one, other in pairs if "X" not in (one, other))


def _both(changed: Design, other: Misconception) -> Design | None:
    """What a second misconception makes of a design that has one."""
    try:
        return other.of(changed)
    except EdgewiseError:
        return None


def _proved(
    likely: Iterable[tuple[str, Design, Design]],
    shown: Counterexample,
    seconds: float,
    *,
    first: bool = False,
) -> list[str]:
    """The names of those that give the same answers; each is tried at one example first."""
    found = []
    for name, one, other in likely:
        try:
            tried = [_answers(design, shown.operands) for design in (one, other)]
            if tried[0] == tried[1] and (
                equivalence.same(one, other, seconds=seconds).outcome == "proved"
            ):
                found.append(name)
                if first:
                    break
        except EdgewiseError:  # an idea that makes no circuit of this design
            continue
    return found


def _answers(design: Design, operands: Mapping[str, int]) -> dict[str, str]:
    """The answers of one run, by output."""
    run = reference.run(design, operands)
    rows = {p.output: p.after for p in design.computes} or dict.fromkeys(design.netlist.outputs)
    return {
        name: str(run.bits(design.netlist.outputs[name], run.edges if row is None else row))
        for name, row in rows.items()
    }


def _fitted(found: Read, design: Design) -> Circuit:
    """The submission's circuit with its ports called as the design's are.

    Raises
    ------
    EdgewiseError
        A port of the design has none in the submission that is called alike or, among those that
        are left, is of its width alone.
    """
    circuit = found.circuit
    ins = {net.name: net.width for net in circuit.inputs}
    outs = {output.name: len(output.signal) for output in circuit.outputs}
    wanted = {net.name: net.width for net in design.circuit.inputs}
    answers = [purpose.output for purpose in design.computes] or list(design.netlist.outputs)
    given = {name: len(design.netlist.outputs[name]) for name in answers}
    outputs = _matched(given, outs, "output")
    by_name = {output.name: output for output in circuit.outputs}
    named = tuple(replace(by_name[own], name=name) for name, own in outputs.items())
    return _renamed(replace(circuit, outputs=named), _matched(wanted, ins, "input"))


def _matched(wanted: Mapping[str, int], there: Mapping[str, int], what: str) -> dict[str, str]:
    """For each port that is wanted the one that is there."""
    alike = {identifier(name).lower(): name for name in there}
    found = {name: alike[low] for name in wanted if (low := identifier(name).lower()) in alike}
    left = {name: width for name, width in there.items() if name not in found.values()}
    for name, width in wanted.items():
        fitting = [one for one, its in left.items() if its == width]
        rivals = [one for one, its in wanted.items() if one not in found and its == width]
        if name not in found and len(fitting) == len(rivals) == 1:
            found[name] = fitting[0]
            del left[fitting[0]]
        if name not in found:
            raise EdgewiseError(Message("submission-port", what=what, name=name))
        if there[found[name]] != width:
            raise EdgewiseError(
                Message(
                    "submission-width",
                    what=what,
                    name=found[name],
                    count=there[found[name]],
                    expected=width,
                )
            )
    if what == "input" and len(left) > 0:
        raise EdgewiseError(Message("submission-inputs-many", names=", ".join(left)))
    return found


def _renamed(circuit: Circuit, inputs: Mapping[str, str]) -> Circuit:
    """The circuit inside another one whose inputs are called as is wanted."""
    from edgewise.circuit.builder import Builder, as_kind

    b = Builder(circuit.name, circuit.place)
    widths = {net.name: net.width for net in circuit.inputs}
    fed = {own: b.input(name, widths[own]) for name, own in inputs.items()}
    name = "submission"
    while name in inputs or name in {output.name for output in circuit.outputs}:
        name += "_"
    inner = b.part(name, as_kind(circuit), fed)
    for output in circuit.outputs:
        b.output(output.name, inner[output.name])
    return b.circuit()
