"""The stage of a page: what a learner steps through, tries and predicts.

The element holds the compiled design as JSON and, for readers without scripts, the figure
and the table of the lesson's own run.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lesson import Report
from edgewise.lesson.blocks import Stage
from edgewise.lesson.claims import Statement
from edgewise.publish import compiled, script, sentences, skeleton
from edgewise.publish.compiled import Data
from edgewise.trace import Trace

TAG: Final = "<edgewise-stage "
"""How a stage begins in a page."""
MOST_EDGES: Final = 400
"""Edges of a run that a ruler still shows."""
MOST_GATES: Final = 8000
MOST_SIZES: Final = 7
_WIDTHS: Final = (4, 8, 16, 32)
_COUNTS: Final = (2, 3, 5)
_SLIP_GATES: Final = 600
"""Gates of a design whose wrong ideas are packed too."""
_DEEP: Final = re.compile(r"\.[\w-]+\.")
"""Behind a part's part, as in ``FA.X1.out``: a name that is not packed otherwise."""


def of(report: Report, wish: Stage, number: int = 1, language: str = "") -> str:
    """The stage of a lesson; `number` tells it from others of the same page.

    `language` is the attribute that tells the language of our own words, or nothing.
    """
    statements = [s for checked in report.claims for s in checked.statements]
    ident = "stage" if number == 1 else f"stage-{number}"
    return element(report.trace, report.blueprint, statements, wish, ident, language)


def element(
    trace: Trace,
    blueprint: Blueprint | None = None,
    claims: Iterable[Statement] = (),
    wish: Stage | None = None,
    ident: str = "stage",
    language: str = "",
) -> str:
    """The stage as HTML; empty for a run that is too long for one.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> made = element(run(catalogue.design("serial-adder", n=4), a=6, b=3))
    >>> made.startswith(TAG)
    True
    """
    wish = wish or Stage()
    made = data(trace, blueprint, claims, wish, ident)
    if made is None:
        return ""
    return (
        f'{TAG}id="{html.escape(ident)}"{language}>\n'
        f'<script type="application/json">{compiled.text(made)}</script>\n'
        f"{still(trace, wish, ident)}</edgewise-stage>\n"
    )


def data(
    trace: Trace,
    blueprint: Blueprint | None,
    claims: Iterable[Statement],
    wish: Stage,
    ident: str = "stage",
) -> Data | None:
    """What ``web/stage.js`` reads; None if the design is too large for a page."""
    if not fits(trace.design):
        return None
    claims = tuple(claims)
    packed = _kept_sizes(trace.design, blueprint, wish)
    if any(_DEEP.search(claim.text) for claim in claims):
        chosen = sizes(trace.design, blueprint)
        packed = [
            {**one, "names": {name: list(bits) for name, bits in design.netlist.names.items()}}
            for design, one in zip(chosen, packed, strict=True)
        ]
    return {
        "id": ident,
        "sizes": packed,
        "own": {
            "size": 0,
            "operands": {name: str(value) for name, value in trace.operands.items()},
            "row": wish.row,
        },
        "claims": [compiled.claim(c.text, c.claim) for c in claims],
        "carries": any(p.kind.name.endswith("adder") for p in trace.design.circuit.parts),
        "fade": wish.fade,
    }


_MOST_KEPT: Final = 6
_KEPT: Final[dict[tuple[object, ...], list[Data]]] = {}
"""Sizes made before, so that a preview makes anew only what changed."""


def _kept_sizes(design: Design, blueprint: Blueprint | None, wish: Stage) -> list[Data]:
    # Neither the row shown first nor the fading changes them.
    manner = (wish.columns, wish.opened, wish.clock, wish.symbols)
    key = (blueprint, tuple(design.parameters.items()), manner)
    found = _KEPT.get(key) if blueprint else None
    if found is None:
        chosen = sizes(design, blueprint)
        found = [size(one, wish, slips=i == 0) for i, one in enumerate(chosen)]
        if len(_KEPT) >= _MOST_KEPT:
            _KEPT.pop(next(iter(_KEPT)))
        _KEPT[key] = found
    return found


def fits(design: Design) -> bool:
    """Whether a design is small enough for a stage."""
    return design.edges <= MOST_EDGES and len(design.netlist.gates) <= MOST_GATES


def sizes(design: Design, blueprint: Blueprint | None) -> tuple[Design, ...]:
    """The design itself, and others of its family: a few widths, a few counts.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> blueprint = catalogue.find("serial-adder")
    >>> [d.parameters["n"] for d in sizes(blueprint.design({"n": 6}), blueprint)]
    [6, 4, 8, 16, 32]
    """
    found = [design]
    if blueprint is None:
        return (design,)
    own = dict(design.parameters)
    for position, name in enumerate(own):
        for value in _COUNTS if position else _WIDTHS:
            if len(found) == MOST_SIZES or value == own[name]:
                continue
            other = _other(blueprint, own, name, value)
            if other and fits(other) and all(other.parameters != d.parameters for d in found):
                found.append(other)
    return tuple(found)


def _other(blueprint: Blueprint, own: Mapping[str, int], name: str, value: int) -> Design | None:
    """The design with another value of one parameter; the rest as they are, or their defaults."""
    usual = blueprint.numbers({})
    given = {name: value}
    # What the lesson did not choose follows the parameter that changes.
    given |= {key: number for key, number in own.items() if key != name and number != usual[key]}
    for wanted in (given, {name: value}):
        try:
            return blueprint.design(wanted)
        except EdgewiseError:
            continue
    return None


def size(design: Design, wish: Stage, *, slips: bool) -> Data:
    """One size of the design: compiled, with its figure, its roles and its wrong ideas."""
    trace = reference.run(design, {operand.name: 0 for operand in design.operands})
    opened = [name for name in wish.opened if design.circuit.part(name)]
    figure = skeleton.skeleton(trace, opened=opened, clock=wish.clock, symbols=wish.symbols)
    return {
        **compiled.design(design),
        "columns": compiled.words(design, _columns(trace, wish.columns)),
        "stores": [store.data() for store in sentences.stores(design)],
        "adders": [adder.data() for adder in sentences.adders(design)],
        "figure": figure.data(),
        "slips": _slips(design) if slips else [],
    }


def _columns(trace: Trace, wanted: Sequence[str]) -> list[str]:
    """The wanted columns that are there at this size; the usual ones if none is."""
    found = []
    for name in wanted:
        try:
            trace.design.netlist.find(name)
        except EdgewiseError:
            continue
        found.append(name)
    return found or list(trace.columns)


def _slips(design: Design) -> list[list[object]]:
    """Each wrong idea that changes the next row: its thought and how it computes one."""
    from edgewise.study import slips

    if not design.edges or len(design.netlist.gates) > _SLIP_GATES:
        return []
    names = [flip_flop.name for flip_flop in design.netlist.flip_flops]
    own = _steps(design)
    found: list[list[object]] = []
    for slip, believed in slips.applicable(design):
        theirs = [flip_flop.name for flip_flop in believed.netlist.flip_flops]
        steps = _steps(believed)
        if sorted(theirs) != sorted(names) or steps == own:
            continue
        found.append([slip.thought, steps, [theirs.index(name) for name in names]])
    return found


def _steps(design: Design) -> Data:
    feeds, schedule = compiled.schedule(design)
    return {**compiled.flat(design.netlist), "feeds": feeds, "schedule": schedule}


def still(trace: Trace, wish: Stage, ident: str = "stage") -> str:
    """The figure and the table that stand where no script runs."""
    from edgewise.publish import tables
    from edgewise.views.diagram import diagram
    from edgewise.views.drawing import svg
    from edgewise.views.table import edge_table_html

    drawing = diagram(trace, trace.edges, open=wish.opened, clock=wish.clock, symbols=wish.symbols)
    rows = tuple(range(trace.edges + 1))
    caption = tables.given(trace, rows)
    table = edge_table_html(trace, wish.columns or None, rows, caption=caption)
    return (
        f'<div class="still">\n<div class="box" role="region" aria-label="Block diagram"'
        f' tabindex="0">\n{svg(drawing, prefix=ident)}</div>\n'
        f'<div class="box" role="region" aria-label="{html.escape(caption)}" tabindex="0">\n'
        f"{table}</div>\n</div>\n"
    )


@lru_cache(maxsize=1)
def style() -> str:
    """The style sheet of the stage."""
    return script.source("stage.css") + script.source("project.css")


def module() -> str:
    """The script of the stage; it takes every stage of the page."""
    return f"\n{script.joined('stage')}\n"
