"""States: which ones a circuit comes to, which it leaves unused, and what it goes round in."""

from edgewise.study.states.survey import Survey, survey

__all__ = ["Survey", "survey"]
