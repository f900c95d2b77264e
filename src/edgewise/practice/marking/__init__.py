"""Marking: what learners wrote, cell by cell, what follows from it, and the idea behind it."""
