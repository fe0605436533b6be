"""Take-off: counted quantities and the order they make."""
