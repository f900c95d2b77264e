"""What a circuit does in time when waveforms come to its inputs: facts, and a report of them."""

from edgewise.response.facts import Oscillation, Passage, Race, Response, Stretch, outputs
from edgewise.response.report import csv, json, text

__all__ = [
    "Oscillation",
    "Passage",
    "Race",
    "Response",
    "Stretch",
    "csv",
    "json",
    "outputs",
    "text",
]
