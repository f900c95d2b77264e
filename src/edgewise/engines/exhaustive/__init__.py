"""Exhaustive: a design checked by going through every one of its operand sets, compiled."""
