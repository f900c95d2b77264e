"""The edge table: a line for each row of a run."""
