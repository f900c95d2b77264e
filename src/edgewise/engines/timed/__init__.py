"""The engine in time: what every net does inside one clock period, event by event."""
