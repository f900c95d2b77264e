"""Inside a clock period: delays of a model, changes between edges, hazards, true delays."""

from edgewise.study.inside.moment import Manner, inside

__all__ = ["Manner", "inside"]
