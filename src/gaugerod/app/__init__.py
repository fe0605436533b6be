"""Use cases: what the program does for a person, and the ports it needs for that."""
