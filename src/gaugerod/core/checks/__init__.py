"""Checks: rules held against the plan."""
