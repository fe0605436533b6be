"""The working week of a job, with the room as the job tells it in either of two places."""

from gaugerod.core.job.calendar import Room
from gaugerod.core.job.document import Job, WorkingWeek


def week_of(job: Job) -> WorkingWeek:
    """Return the working week of a job, and how warm its room gets.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    WorkingWeek
        The calendar of the job. Where it says nothing of the room, the coolest that the room
        gets, as the job answers it, counts for the holds too.

    Notes
    -----
    Nobody should have to write it twice, and a cold room must not be cold for the checks
    alone. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.answers import Answers
    >>> from gaugerod.core.job.sample import sample_job
    >>> cold = sample_job().model_copy(update={"facts": Answers(room="50 F")})
    >>> week_of(sample_job()).room is None, week_of(cold).room.temperature
    (True, 10.0)
    """
    coolest = job.facts.room
    if job.calendar.room or coolest is None:
        return job.calendar
    return job.calendar.model_copy(update={"room": Room.model_construct(temperature=coolest)})
