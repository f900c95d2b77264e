"""Questions about a run, papers made of them, and the marking of what learners write."""
