"""Kinds of questions, one file each."""
