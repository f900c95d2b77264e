"""State diagrams: circles and arrows, laid out to a ring or in columns."""
