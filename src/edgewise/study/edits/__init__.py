"""Edits: a design changed in one place, for faults and misconceptions."""
