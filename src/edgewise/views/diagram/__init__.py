"""The block diagram: a circuit's parts and nets, with the values of one row or several."""
