"""Use case: begin a job from a template that says how to fill it in."""

from datetime import date, timedelta

from gaugerod.app.ports import Clock, Library, NewFile

_START = "start = 2026-03-02"
"""The template's own first day, a Monday."""


def new_job(library: Library, file: NewFile, clock: Clock) -> None:
    """Write the template into a new file, to start on the next Monday.

    Raises
    ------
    OutputError
        The file is there already, or cannot be written.
    """
    start = _monday_after(clock.today())
    text = library.template().replace(_START, f"start = {start.isoformat()}")
    file.create(text.encode())


def _monday_after(day: date) -> date:
    return day + timedelta(days=7 - day.weekday())
