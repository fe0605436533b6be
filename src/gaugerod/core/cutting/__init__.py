"""Cutting: the pieces, their marks, and which stock gives which piece."""
