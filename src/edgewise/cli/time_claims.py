"""A claim about time, settled by ``edgewise prove``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from edgewise.cli.options import assignments, blueprint_of, numbers, refused

if TYPE_CHECKING:
    from edgewise.study.inside.time_finding import Finding


def settle(name: str, with_: str, claim: str, operands: str, model: str, limit: float) -> Finding:
    """Find out whether a claim about time is true, for all operands that keep no value.

    Raises
    ------
    EdgewiseError
        No model, or what can't be read or settled.
    """
    from edgewise.study.cost import models
    from edgewise.study.inside import time_finding

    if not model:
        raise refused("prove-model", known=", ".join(models.names()))
    return time_finding.prove(
        blueprint_of(name),
        numbers(with_, "--with"),
        claim,
        models.technology(model),
        assignments(operands, "--operands"),
        limit=limit,
    )
