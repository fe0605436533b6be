"""Reading jobs and data from files, and writing papers into a folder."""
