"""Comparisons: designs that do the same, ranked over a parameter, and the needs they satisfy."""
