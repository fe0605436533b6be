"""The job document and the data beside it: what a person measures, chooses and buys."""
