"""Sheets: everything drawn, as data that any writer can render."""
