"""Readings to fitted walls: least squares, residuals, and what stands out."""
