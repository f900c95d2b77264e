"""Questions asked of a design, from what it costs to what may be wrong with it."""
