"""The sums of readings that must come out, one module for each family."""
