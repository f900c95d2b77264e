"""Packages of chips as they lie on a board: pins, their names, and what is wired to them."""
