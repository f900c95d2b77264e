"""Judging submissions: a learner's description held against a design, proved or refuted."""
