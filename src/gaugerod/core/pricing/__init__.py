"""Pricing: hours and costs to a price."""
