"""How the schema of a book came about, one step to a file."""
