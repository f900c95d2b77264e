"""Hazards: pulses that may come out of a circuit while one of its inputs changes."""
