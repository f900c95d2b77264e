"""The lab: a circuit in a hardware description language with its bench, a run as a dump."""
