"""Faults: single ones put into a design, and which operands detect them."""
