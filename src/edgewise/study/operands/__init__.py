"""Operands that teach: chosen by what they show, and by how easily they are read."""
