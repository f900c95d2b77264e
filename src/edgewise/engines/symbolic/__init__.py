"""Symbolic: every net of every row as a Boolean term over operand bits."""
