"""A user's own materials and rates: forms out of the models of the core, and back."""
