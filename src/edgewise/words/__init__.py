"""Words: what learners read, one catalogue for each language, for Python and the page's script."""
