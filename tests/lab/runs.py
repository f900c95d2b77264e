"""Runs to judge: each catalogue design at two sizes, with operands that are always the same."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace


def sizes(blueprint: Blueprint) -> Iterator[dict[str, int]]:
    """The defaults, and one parameter that is larger."""
    yield {}
    usual = blueprint.numbers({})
    for name, more in ((name, more) for more in (3, 1, -1) for name in usual):
        try:
            blueprint.design({name: usual[name] + more})
        except EdgewiseError:
            continue
        yield {name: usual[name] + more}
        return
    raise AssertionError(f"{blueprint.name} has one size only")


def some_run(design: Design) -> Trace:
    """A run with drawn operands."""
    draw = Random(18)  # noqa: S311  # no secret
    operands = {one.name: one.number(draw.getrandbits(one.width)) for one in design.operands}
    return reference.run(design, design.values(operands))
