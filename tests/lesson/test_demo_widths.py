"""The claims of the demo lessons hold at every size that their stages offer, or don't apply."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.publish.sizes import sizes
from edgewise.study.verdict import settle


def applies(claim, parameters) -> bool:
    """Whether the claim speaks of these sizes; its bounds are numbers in the demos."""
    return all(r.low.value <= parameters[r.name] <= r.high.value for r in claim.ranges)


@pytest.mark.parametrize("path", sorted(Path("examples").glob("*.md")), ids=lambda p: p.stem)
def test_claims_hold_at_every_size_of_the_stage(path: Path) -> None:
    report = lesson.check(path)
    seen = 0
    for design in sizes(report.trace.design, report.blueprint):
        own = report.trace.operands
        values = {o.name: own.get(o.name, 0) % (1 << o.width) for o in design.operands}
        for checked in report.claims:
            for statement in checked.statements:
                if not applies(statement.claim, design.parameters):
                    continue
                try:
                    verdict = settle(statement.claim, report.blueprint, design.parameters, values)
                except EdgewiseError as wrong:
                    # A stage says that such a claim does not apply: it names what is not there.
                    assert "there is no" in str(wrong), wrong
                    continue
                assert verdict.holds, (design.parameters, statement.text)
                seen += 1
    assert seen > len(sizes(report.trace.design, report.blueprint)) - 1
