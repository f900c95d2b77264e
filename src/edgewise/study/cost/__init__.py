"""Cost: gates, flip-flops, delay and switching of a design, in several models."""
