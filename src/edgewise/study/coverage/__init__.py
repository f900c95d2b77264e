"""Coverage: what an example shows of a circuit, and what it leaves unseen."""
