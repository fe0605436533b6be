"""Works: tasks, holds and the calendar."""
