"""A book of jobs: revisions that are added and never changed, in SQLite or PostgreSQL."""
