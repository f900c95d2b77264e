"""Engines: from a design and operands to values. One contract, one conformance suite."""
