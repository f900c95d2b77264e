"""The ``prove`` block: a design, any design, proved right, or shown where it goes wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message, TextError
from edgewise.formula import parse
from edgewise.lesson.claims import FalseClaim, OpenClaim
from edgewise.lesson.naming import named_design
from edgewise.lesson.patience import Patience
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.listing import either
from edgewise.study.claims.decision import LIMIT
from edgewise.study.claims.finding import Finding
from edgewise.views.registry import Wish
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Tree, mapping, scalar

OPTIONS: Final = ("expect", "design", "with", "claim", "caption")
"""The entries of a ``prove`` block."""


@dataclass(frozen=True, slots=True)
class Proved:
    """A finding in a lesson; of a false one also the row where it goes wrong, and those around."""

    finding: Finding
    figure: Figure | None = None
    table: EdgeTable | None = None


def read(
    options: Keys,
    blueprint: Blueprint | None,
    parameters: Mapping[str, int],
    folder: Path,
    patience: Patience,
    words: Words = ENGLISH,
) -> Proved | None:
    """Prove what a block asks for; without a design the block is only read.

    Parameters
    ----------
    options : Keys
        ``design:`` of the catalogue or a circuit file beside the lesson, the lesson's unless
        said; ``with: {n: 4}``, the defaults for the rest; ``claim:``, that it computes what it
        says unless given; ``expect: true`` or ``expect: false``, what the lesson says of it.
    blueprint : Blueprint, optional
        The lesson's.
    parameters : mapping of str to int
        The lesson's, for formulas in ``with``.
    folder : Path
        The lesson's.
    patience : Patience
        What the lesson's claims and proofs may still take.

    Raises
    ------
    FalseClaim
        If it does not come out as expected.
    EdgewiseError
        Options that can't be read.
    """
    from edgewise.study.claims.proof_request import prove

    expected = _choice(options.get("expect"))
    design = options.get("design")
    if design is not None:
        blueprint = named_design(scalar(design, "design"), folder, blueprint)
    numbers = _numbers(options.get("with"), parameters)
    claim = options.get("claim")
    claimed = None if claim is None else scalar(claim, "claim")
    caption = options.get("caption")
    told = "" if caption is None else " ".join(scalar(caption, "caption").text.split())
    if blueprint is None:
        return None
    place = options.place if claimed is None else claimed.place
    if patience.out:
        raise OpenClaim(Message("proof-untried", why=patience.told), place)
    try:
        finding = prove(
            blueprint,
            numbers,
            claimed.text if claimed else None,
            limit=min(LIMIT, patience.left),
            place=place,
        )
    except EdgewiseError as wrong:
        raise wrong.placed(place) from None
    if finding.outcome == "undecided":
        still = Message("proof-open", asked=finding.asked.line(), how=finding.how)
        raise OpenClaim(still, place)
    if finding.holds != expected:
        raise FalseClaim(_otherwise(finding), place, finding.table)
    if finding.trace is None or finding.row is None:
        return Proved(finding)
    wish = Wish(after=finding.row, words=words)
    columns, at = finding.columns, options.place
    figure = Figure(finding.trace, "diagram", wish, (finding.row,), columns, told, at)
    return Proved(finding, figure, EdgeTable(finding.trace, columns, finding.rows))


def _otherwise(finding: Finding) -> Message:
    """That it came out otherwise than expected, and for which operands."""
    if finding.holds:
        return Message("proof-true", how=finding.how)
    leaked = finding.leak.sentences() if finding.leak else ()
    return Message(
        "proof-false",
        count=len(finding.operands),
        given=equations(finding.operands.items(), "="),
        why=" ".join((*finding.why, *leaked)),
    )


def _choice(tree: Tree | None) -> bool:
    if tree is None:
        return True
    given = scalar(tree, "expect")
    if given.text not in ("true", "false"):
        expected = either(("true", "false"))
        told = Message("entry-expected", entry="expect", found=given.text, expected=expected)
        raise TextError(told, given.place)
    return given.text == "true"


def _numbers(tree: Tree | None, known: Mapping[str, int]) -> dict[str, int]:
    numbers: dict[str, int] = {}
    for name, value in mapping(tree, "with", "{n: 4}").pairs if tree is not None else ():
        given = scalar(value, name.text)
        node = parse(given.text, place=given.place)
        numbers[name.text] = number(evaluate_at(node, Numbers(known), given.place))
    return numbers
