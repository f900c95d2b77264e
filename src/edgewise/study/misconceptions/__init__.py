"""Misconceptions: wrong ideas that can be run, as designs of their own."""
