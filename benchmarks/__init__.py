"""Benchmarks: figures as ratios, measured side by side in one run."""
