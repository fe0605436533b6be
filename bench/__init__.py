"""Ratios in one run: never a time alone, always against something plain beside it."""
