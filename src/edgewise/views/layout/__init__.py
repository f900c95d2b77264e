"""Layout: boxes and wires get their places."""
