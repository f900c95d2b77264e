"""A bench sheet as PDF and as a page: parts, packages, wires to tick, and the run."""
