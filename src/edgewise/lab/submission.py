"""Judging a submission: a description held against a design, for all operands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from edgewise.bits import X
from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.sat import equivalence
from edgewise.engines.sat.outcome import Counterexample
from edgewise.errors import EdgewiseError
from edgewise.hdl.clocking import Note
from edgewise.hdl.elaboration import Remark
from edgewise.hdl.reading import Read, read
from edgewise.lab.identifier import identifier
from edgewise.shelf import read_file
from edgewise.study.edits import circuit_edits
from edgewise.study.faults.models import faults
from edgewise.study.misconceptions.misconception import Misconception
from edgewise.study.misconceptions.registry import applicable
from edgewise.trace import Trace
from edgewise.words.lists import equations

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
            yield from (_EXPLAINED.get(one, f"  does exactly what {one} leads to, for all operands")
                        for one in self.diagnosis)  # fmt: skip
        yield from (f"  {note.place or self.file}: {note.sentence}" for note in self.notes)
        yield from (f"  {one.place}: {_REMARKS[one.what].format(one.name)}" for one in self.remarks)

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


def judge(path: Path, design: Design, *, seconds: float = SECONDS) -> Verdict:
    """Judge a submission.

    Parameters
    ----------
    path : Path
        Of the description.
    design : Design
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
        diagnosis=tuple(_diagnosis(design, submitted, shown, seconds)),
    )


def _diagnosis(
    design: Design, submitted: Design, shown: Counterexample, seconds: float
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
    likely = [("start", design, starts)]
    if design.edges and design.computes:
        later = circuit_edits.longer(circuit_edits.read_after(submitted, lambda row: row + 1))
        likely.append(("late", design, later))
    ideas = applicable(design)
    likely += [(one.name, changed, submitted) for one, changed in ideas]
    found = _proved(likely, shown, seconds)
    if not found:
        pairs = (
            (f"{one.name} with {other.name}", both, submitted)
            for one, changed in ideas
            for other, _ in ideas
            if other is not one and (both := _both(changed, other)) is not None
        )
        found = _proved(pairs, shown, seconds)[:1]
    if not found:
        broken = faults(design, inside=True)
        found = _proved(((f.name, f.design, submitted) for f in broken), shown, seconds)[:1]
    yield from found


def _both(changed: Design, other: Misconception) -> Design | None:
    """What a second misconception makes of a design that has one."""
    try:
        return other.of(changed)
    except EdgewiseError:
        return None


def _proved(
    likely: Iterable[tuple[str, Design, Design]], shown: Counterexample, seconds: float
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
            raise EdgewiseError(f"no {what} matches {name} of the design")
        if there[found[name]] != width:
            told = f"{what} {found[name]} has {there[found[name]]} bits; expected {width}"
            raise EdgewiseError(told)
    if what == "input" and len(left) > 0:
        raise EdgewiseError(f"the design has no input for {', '.join(left)}")
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
