"""Inside a clock period: delays of a model, changes between edges, hazards, true delays."""

from edgewise.study.inside.moment import Manner, inside
from edgewise.study.inside.waveforms import follow

__all__ = ["Manner", "follow", "inside"]
