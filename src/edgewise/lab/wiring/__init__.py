"""A design on the bench: real packages, pin-to-pin wires, and the proof that they compute it."""
