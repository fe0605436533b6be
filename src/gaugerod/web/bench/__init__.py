"""Work that may take long: done in processes of its own, that can be stopped."""
