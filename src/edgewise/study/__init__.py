"""Questions asked of a design: laws, sizes, what an example shows, wrong ideas, faults."""
