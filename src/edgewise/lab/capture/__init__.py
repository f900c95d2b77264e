"""What a logic analyser saw: read, lined up with the run, and explained."""
