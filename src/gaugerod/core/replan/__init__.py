"""On the day: what hangs stays, the rest is cut to the room as it is found."""
