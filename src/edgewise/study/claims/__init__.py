"""Claims: whether a formula about a run is true for all operands, and where it is not."""
