"""Checking a lesson: everything in it computed, or everything that is wrong with it told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import blueprint as blueprints
from edgewise.arithmetic import Numbers, Value, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.engines import gating
from edgewise.errors import EdgewiseError, Message, Omitted, Place, TextError, UnknownBit, raise_all
from edgewise.formula import parse
from edgewise.lesson import blocks, document, picking, typed
from edgewise.lesson.blocks import Piece, Setting
from edgewise.lesson.claims import FalseClaim
from edgewise.lesson.document import Lesson
from edgewise.lesson.expression import Run, compute
from edgewise.lesson.front import Entry
from edgewise.lesson.memory import Memory
from edgewise.lesson.naming import named_design
from edgewise.lesson.picking import Note
from edgewise.lesson.pictures import embedded
from edgewise.shelf import read_file
from edgewise.trace import Trace
from edgewise.words import messages

if TYPE_CHECKING:
    from edgewise.study.operands.report import Example
from edgewise.lesson.report import Report

HERE: Final = "here"
"""What `design` says where the circuit stands in the lesson itself."""


def check(path: Path) -> Report:
    """Compute and check everything in a lesson file.

    Raises
    ------
    EdgewiseError or Problems
        Everything that is wrong, in the order of the text; `exit_code` is 1 if that is only
        false claims.
    """
    return check_text(read_file(path, str(path)), str(path), path.parent)


def check_text(text: str, file: str, folder: Path, memory: Memory | None = None) -> Report:
    """As `check`, for a lesson's text; `memory` is that of an earlier build of it."""
    memory = memory or Memory()
    lesson = document.read(text, file, folder, blocks.kinds())
    checking = _Checking(lesson)
    blueprint = checking.blueprint()
    design = checking.design(blueprint)
    run = checking.run(design)
    values = checking.values(run)
    words = messages.of(lesson.front.language)
    pieces = checking.pieces(
        Setting(
            blueprint,
            run,
            lesson.folder,
            memory=memory,
            words=words,
            model=lesson.front.model,
        )
    )
    pictures = checking.pictures()
    notes = checking.notes(run, values)
    raise_all(checking.errors)
    assert blueprint is not None
    assert run is not None
    trace, chosen = run.trace, checking.chosen
    return Report(lesson, blueprint, trace, values, pieces, pictures, chosen, notes, memory)


def again(report: Report, trace: Trace, known: Mapping[Place, Piece]) -> Report:
    """The same lesson with another run of its design; pieces that are `known` are not made.

    Raises
    ------
    EdgewiseError or Problems
        What is not true of that run.
    """
    checking = _Checking(report.lesson)
    run = Run(trace.design, trace.operands, lambda *_: trace)
    setting = Setting(
        report.blueprint,
        run,
        report.lesson.folder,
        memory=report.memory,
        words=report.words,
        model=report.lesson.front.model,
    )
    values = checking.values(run)
    pieces = checking.pieces(setting, known)
    raise_all(checking.errors)
    return replace(report, trace=trace, values=values, pieces=pieces, chosen=None, notes=())


class _Checking:
    """One lesson being checked; collects errors so that all are reported."""

    def __init__(self, lesson: Lesson) -> None:
        self.lesson = lesson
        self.errors: list[EdgewiseError] = list(lesson.faults)
        self.stand_ins = False
        """Whether the run is of other operands than the lesson's, since those are wrong: then
        names and forms can be checked, but what is true of the run means nothing."""
        self.chosen: Example | None = None

    def note(self, wrong: EdgewiseError, place: Place | None = None) -> None:
        """Keep an error, with `place` on what has none."""
        for single in wrong.parts():
            if self.stand_ins and isinstance(single, FalseClaim | UnknownBit):
                continue
            told_as_it_is = isinstance(single, Omitted)
            self.errors.append(single if told_as_it_is else single.placed(place))

    def blueprint(self) -> Blueprint | None:
        """The design that the front matter names."""
        named = self.lesson.front.design
        circuits = [block for block in self.lesson.blocks if block.kind == "circuit"]
        if named is None:
            return None
        if named.text != HERE:
            for block in circuits:
                self.note(TextError(Message("circuit-block-idle", design=named.text), block.place))
        elif len(circuits) != 1:
            self.note(TextError(Message("circuit-blocks", count=len(circuits)), named.place))
            return None
        try:
            if named.text == HERE:
                return blueprints.from_text(
                    circuits[0].text,
                    self.lesson.file,
                    self.lesson.folder,
                    first_line=circuits[0].first_line,
                )
            return named_design(named, self.lesson.folder)
        except EdgewiseError as wrong:
            self.note(wrong, named.place)
            return None

    def design(self, blueprint: Blueprint | None) -> Design | None:
        """The design, for the parameters of the front matter."""
        given: dict[str, int] = {}
        sound = blueprint is not None
        for entry in self.lesson.front.parameters:
            place = entry.formulas[0].place if entry.formulas else entry.name.place
            try:
                if entry.listed:
                    raise TextError(Message("number-no-list", name=entry.name.text), place)
                (value,) = _numbers(entry, {})
                if blueprint is not None:
                    at = place if entry.name.text in _names(blueprint) else entry.name.place
                    blueprint.numbers({**given, entry.name.text: value}, at)
                given[entry.name.text] = value
            except EdgewiseError as wrong:
                self.note(wrong, place)
                # Without a parameter that there is not, the rest can still be checked.
                sound = sound and blueprint is not None and entry.name.text not in _names(blueprint)
        if blueprint is None or not sound:
            return None
        try:
            return blueprint.design(given, self.lesson.front.place)
        except EdgewiseError as wrong:
            named = self.lesson.front.design
            self.note(wrong, named.place if named else None)
            return None

    def run(self, design: Design | None) -> Run | None:
        """The lesson's run, if its operands fit."""
        given: dict[str, int] = {}
        for entry in self.lesson.front.operands:
            place = entry.formulas[0].place if entry.formulas else entry.name.place
            try:
                numbers = _numbers(entry, design.parameters if design else {})
                if design is not None:
                    given.update(_fitting(design, entry, numbers, place))
            except EdgewiseError as wrong:
                self.note(wrong, place)
                self.stand_ins = True
                given.update(_stand_ins(design, entry.name.text))
        if design is None:
            return None
        given = self.picked(design, given)
        try:
            return Run(design, design.values(given))
        except EdgewiseError as wrong:
            self.note(wrong, self.lesson.front.operands_place)
            self.stand_ins = True
            zeros = {operand.name: 0 for operand in design.operands}
            return Run(design, {**zeros, **given})

    def picked(self, design: Design, given: dict[str, int]) -> dict[str, int]:
        """The operands, those that the lesson leaves to the builder too."""
        wanted = self.lesson.front.wanted
        if wanted is None:
            return given
        if not self.stand_ins:
            try:
                self.chosen = picking.pick(design, wanted, given)
            except EdgewiseError as wrong:
                for single in wrong.parts():
                    self.note(single, picking.place_of(single, wanted))
                self.stand_ins = True
            else:
                return dict(self.chosen.operands)
        return {**{operand.name: 0 for operand in design.operands}, **given}

    def notes(self, run: Run | None, values: Mapping[Place, Value]) -> tuple[Note, ...]:
        """What is to be said of the example, if it is sound, its clocks, and typed numbers."""
        if run is None or self.stand_ins:
            return ()
        front = self.lesson.front
        notes = tuple(picking.notes(run.trace, front, self.chosen))
        self.errors += picking.refused(notes, front)
        place = front.operands_place
        clocks = tuple(
            Note("warning", str(gating.warning(found)), place)
            for found in gating.disturbed(run.trace)
        )
        doubts = tuple(picking.doubts(run.trace, front))
        numbers = typed.notes(self.lesson, run.trace, values)
        return notes + clocks + doubts + (*typed.equations(self.lesson, run), *numbers)

    def values(self, run: Run | None) -> dict[Place, Value]:
        """Each computed value of the prose."""
        values: dict[Place, Value] = {}
        for wanted in self.lesson.values:
            try:
                value = compute(wanted.formula, run, wanted.place)
                if value is not None:
                    values[wanted.place] = value
            except EdgewiseError as wrong:
                self.note(wrong, wanted.place)
        return values

    def pieces(
        self, setting: Setting, known: Mapping[Place, Piece] | None = None
    ) -> dict[Place, Piece]:
        """What each block becomes, those that are `known` as they are."""
        pieces: dict[Place, Piece] = {}
        for block in self.lesson.blocks:
            if known and block.place in known:
                pieces[block.place] = known[block.place]
                continue
            try:
                piece = blocks.reader(block.kind)(block, setting)
                if piece is not None:
                    pieces[block.place] = piece
            except EdgewiseError as wrong:
                self.note(wrong, block.place)
        return pieces

    def pictures(self) -> dict[str, str]:
        """Each picture as a data URL."""
        taken: dict[str, str] = {}
        for token, place in self.lesson.pictures:
            try:
                taken[str(token.attrs["src"])] = embedded(token, self.lesson.folder, place)
            except EdgewiseError as wrong:
                self.note(wrong, place)
        return taken


def _names(blueprint: Blueprint) -> tuple[str, ...]:
    return tuple(parameter.name for parameter in blueprint.parameters)


def _numbers(entry: Entry, known: Mapping[str, int]) -> list[int]:
    scope = Numbers(known)
    return [
        number(evaluate_at(parse(given.text, place=given.place), scope, given.place))
        for given in entry.formulas
    ]


def _stand_ins(design: Design | None, name: str) -> dict[str, int]:
    """Zeros for the operands of that name, if there are any."""
    if design is None:
        return {}
    single = [operand.name for operand in design.operands]
    return dict.fromkeys(design.families.get(name, [name] if name in single else []), 0)


def _fitting(design: Design, entry: Entry, numbers: Sequence[int], place: Place) -> dict[str, int]:
    """The operands that an entry gives, each found to fit; `DesignError` at its own place."""
    zeros = {operand.name: 0 for operand in design.operands}
    name = entry.name.text
    family = design.families.get(name, ())
    if not family or len(numbers) != len(family):
        known = family or name in zeros
        given = list(numbers) if family or entry.listed else numbers[0]
        design.values({**zeros, name: given}, place if known else entry.name.place)
        return {name: numbers[0]}
    errors: list[EdgewiseError] = []
    for member, value, formula in zip(family, numbers, entry.formulas, strict=True):
        try:
            design.values({**zeros, member: value}, formula.place)
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return dict(zip(family, numbers, strict=True))
