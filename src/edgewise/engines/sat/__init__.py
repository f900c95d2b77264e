"""SAT: claims about all operands settled by a solver."""
