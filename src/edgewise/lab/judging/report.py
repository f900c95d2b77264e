"""Verdicts as plain data, for a program to read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from edgewise.hdl.clocking import Note
from edgewise.lab.judging.groups import Group
from edgewise.lab.judging.verdict import Verdict
from edgewise.words.messages import ENGLISH


def data(groups: Sequence[Group]) -> dict[str, Any]:
    """All of it: how many of each verdict, the groups, and each submission.

    Examples
    --------
    >>> data([Group("right", (Verdict("tide.v", "right"),))])["count"]
    {'right': 1}
    """
    counts = Counter({one.outcome: 0 for one in groups})
    for one in groups:
        counts[one.outcome] += len(one.verdicts)
    verdicts = sorted((v for group in groups for v in group.verdicts), key=lambda one: one.file)
    return {
        "count": dict(counts),
        "groups": [
            {
                "verdict": one.outcome,
                "explanations": [each.name for each in one.verdicts[0].explanations],
                "files": [verdict.file for verdict in one.verdicts],
            }
            for one in groups
        ],
        "submissions": [_verdict(one) for one in verdicts],
    }


def _verdict(one: Verdict) -> dict[str, Any]:
    refuted = one.refuted
    return {
        "file": one.file,
        "verdict": one.outcome,
        "reason": one.reason or None,
        "refuted": refuted
        and {
            "operands": dict(refuted.operands),
            **{name: refuted.facts()[name] for name in ("answer", "edge", "found", "should")},
            "first": refuted.first,
            "runs": [list(line) for line in refuted.table()],
        },
        "explanations": [
            {"kind": each.kind, "names": list(each.names), "told": each.said(ENGLISH)}
            for each in one.explanations
        ],
        "taken": [
            {
                "place": str(each.place) if isinstance(each, Note) else None,
                "told": each.said(ENGLISH),
            }
            for each in one.taken
        ],
        "remarks": [
            {"place": str(each.place), "what": each.what, "told": each.said(ENGLISH)}
            for each in one.remarks
        ],
    }
