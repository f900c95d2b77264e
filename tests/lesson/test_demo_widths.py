"""The claims of the demo lessons hold at every size that their stages offer, or don't apply."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.formula import Claim, Number
from edgewise.publish.stage.sizes import sizes
from edgewise.study.claims.verdict import settle


def applies(claim: Claim, parameters: Mapping[str, int]) -> bool:
    """Whether the claim speaks of these sizes; its bounds are numbers in the demos."""
    for span in claim.ranges:
        assert isinstance(span.low, Number)
        assert isinstance(span.high, Number)
        if not span.low.value <= parameters[span.name] <= span.high.value:
            return False
    return True


LESSONS = [path for path in sorted(Path("examples").glob("*.md")) if "```claim" in path.read_text()]
"""The demos that claim something; a paper asks instead."""


@pytest.mark.parametrize("path", LESSONS, ids=lambda p: p.stem)
def test_claims_hold_at_every_size_of_the_stage(path: Path) -> None:
    report = lesson.check(path)
    seen = 0
    for design in sizes(report.trace.design, report.blueprint):
        own = report.trace.operands
        values = {o.name: o.number(own.get(o.name, 0) % (1 << o.width)) for o in design.operands}
        for checked in report.claims:
            for statement in checked.statements:
                if not isinstance(statement.claim, Claim):
                    continue  # a claim about time is settled for the lesson's own size
                if not applies(statement.claim, design.parameters):
                    continue
                try:
                    verdict = settle(statement.claim, report.blueprint, design.chosen, values)
                except EdgewiseError as wrong:
                    # A stage says that such a claim does not apply: it names what is not there.
                    if "there is no" not in str(wrong):
                        raise
                    continue
                assert verdict.holds, (design.parameters, statement.text)
                seen += 1
    assert seen > len(sizes(report.trace.design, report.blueprint)) - 1
